package store

import (
	"context"
	"database/sql"
	"errors"

	"kettlefrost/internal/record"
)

// Keep stores what was folded from the entries up to head, under a name, in place of what was kept before. It is never the truth: it may be
// dropped at any moment and folded again. Put the version of the fold into the name, as in "lots/3".
func (s *Store) Keep(ctx context.Context, name string, head record.Head, data []byte) error {
	const upsert = `insert into kept (name, seq, hash, data) values ($1, $2, $3, $4)
		on conflict (name) do update set seq = excluded.seq, hash = excluded.hash, data = excluded.data`
	if data == nil {
		data = []byte{}
	}
	_, err := s.write.ExecContext(ctx, upsert, name, int64(head.Seq), head.Hash.String(), data)
	return s.fail("keep "+name, err)
}

// Kept gives what is kept under a name, and which entries it was folded from. found is false when there is nothing, and when it was folded
// from entries that are not these: the database was restored since.
func (s *Store) Kept(ctx context.Context, name string) (head record.Head, data []byte, found bool, err error) {
	const query = `select kept.seq, kept.hash, kept.data from kept
		where kept.name = $1 and (kept.seq = 0 or exists (select 1 from entry where entry.seq = kept.seq and entry.hash = kept.hash))`
	var hash string
	err = s.read.QueryRowContext(ctx, query, name).Scan(&head.Seq, &hash, &data)
	if errors.Is(err, sql.ErrNoRows) {
		return record.Head{}, nil, false, nil
	}
	if err == nil {
		head.Hash, err = record.ParseHash(hash)
	}
	if err != nil {
		return record.Head{}, nil, false, s.fail("read what is kept as "+name, err)
	}
	return head, data, true, nil
}

// Drop forgets what is kept under a name; every name when it is empty.
func (s *Store) Drop(ctx context.Context, name string) error {
	_, err := s.write.ExecContext(ctx, `delete from kept where name = $1 or $1 = ''`, name)
	return s.fail("drop "+name, err)
}
