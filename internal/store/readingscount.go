package store

import (
	"context"

	"kettlefrost/internal/record"
)

// ReadingsMark changes when readings of a probe come in that are from one time to before another, give or take a day. It says nothing else.
func (s *Store) ReadingsMark(ctx context.Context, probe string, from, before record.Instant) (mark [2]int64, err error) {
	const query = `select count(*), coalesce(sum(r.part % 1000003 + r.batch), 0) from reading_piece r join probe p on p.no = r.probe where p.name = $1 and r.from_ms > $2 and r.from_ms < $3`
	err = s.read.QueryRowContext(ctx, query, probe, int64(from)-longestPiece, int64(before)).Scan(&mark[0], &mark[1])
	return mark, s.fail("look for new readings", err)
}
