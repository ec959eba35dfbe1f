package store

import (
	"bufio"
	"bytes"
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io"
	"iter"
	"math"

	"kettlefrost/internal/record"
)

// Export writes the journal as JSON lines, one entry a line, checks the chain as it goes and returns its head. It stops at the first bad
// entry with a *record.ChainError. Keep the head elsewhere: it is what shows that lines are missing at the end.
func (s *Store) Export(ctx context.Context, w io.Writer) (record.Head, error) {
	return s.ExportUpTo(ctx, w, math.MaxUint64)
}

// ExportUpTo writes the entries up to a number, as Export does.
func (s *Store) ExportUpTo(ctx context.Context, w io.Writer, last uint64) (record.Head, error) {
	out := bufio.NewWriterSize(w, 1<<16)
	var chain record.Verifier
	for e, err := range s.Read(ctx, 1) {
		if err == nil && e.Seq > last {
			break
		}
		if err == nil {
			err = chain.Next(e)
		}
		if err != nil {
			return chain.Head, errors.Join(err, out.Flush())
		}
		line, err := e.Line()
		if err != nil {
			return chain.Head, fmt.Errorf("store: entry %d cannot be written as a line: %w", e.Seq, err)
		}
		out.Write(line) // the error stays until Flush
		if err := out.WriteByte('\n'); err != nil {
			return chain.Head, fmt.Errorf("store: the export stopped at entry %d: %w", e.Seq, err)
		}
	}
	return chain.Head, out.Flush()
}

// maxLine is more than an entry can have, or a picture.
const maxLine = 12 << 20

// LineError is a line of an export that cannot be taken in.
type LineError struct {
	Line int // from 1
	Err  error
}

func (e *LineError) Error() string {
	return fmt.Sprintf("store: line %d of the export: %v; nothing was taken in", e.Line, e.Err)
}
func (e *LineError) Unwrap() error { return e.Err }

// Import takes an export into an empty store, all or nothing, with the numbers, times and hashes that it has, and returns its head. A bad line
// is a *LineError.
func (s *Store) Import(ctx context.Context, r io.Reader) (record.Head, error) {
	tx, err := s.write.BeginTx(ctx, &sql.TxOptions{Isolation: sql.LevelSerializable})
	if err != nil {
		return record.Head{}, s.fail("import", err)
	}
	defer tx.Rollback()
	head, err := s.headOf(ctx, tx)
	if err != nil {
		return record.Head{}, s.fail("import", err)
	}
	if head != (record.Head{}) {
		return record.Head{}, s.trouble(NotEmpty, fmt.Sprintf("it has %d entries", head.Seq), nil)
	}
	if head, err = s.importLines(ctx, tx, r); err != nil {
		return record.Head{}, err
	}
	if err := tx.Commit(); err != nil {
		return record.Head{}, s.fail("import", err)
	}
	s.news.tell(head.Seq)
	return head, nil
}

func (s *Store) importLines(ctx context.Context, tx *sql.Tx, r io.Reader) (record.Head, error) {
	var chain record.Verifier
	var waiting []record.Entry
	flush := func() error {
		err := insert(ctx, writing{tx, s.prepared}, waiting)
		waiting = waiting[:0]
		return s.fail("import", err)
	}
	keep := func(p Picture) error { return s.fail("import", s.putPicture(ctx, tx, p)) }
	for e, err := range readAllLines(r, keep) {
		if err != nil {
			return chain.Head, err
		}
		if err := chain.Next(e); err != nil {
			return chain.Head, &LineError{Line: int(chain.Head.Seq) + 1, Err: err}
		}
		if waiting = append(waiting, e); len(waiting) == pageSize {
			if err := flush(); err != nil {
				return chain.Head, err
			}
		}
	}
	return chain.Head, flush()
}

// readLines gives the entries of an export, and checks the pictures of a backup. The error is a *LineError, and the last thing that it gives.
func readLines(r io.Reader) iter.Seq2[record.Entry, error] {
	return readAllLines(r, func(Picture) error { return nil })
}

// readAllLines gives the entries of an export or a backup, and hands over the pictures that stand between or behind them.
func readAllLines(r io.Reader, picture func(Picture) error) iter.Seq2[record.Entry, error] {
	return func(yield func(record.Entry, error) bool) {
		lines := bufio.NewScanner(r)
		lines.Buffer(nil, maxLine)
		number := 1
		for ; lines.Scan(); number++ {
			if bytes.HasPrefix(lines.Bytes(), pictureStart) {
				p, err := readPicture(lines.Bytes())
				if err == nil {
					err = picture(p)
				}
				if err != nil {
					yield(record.Entry{}, &LineError{Line: number, Err: err})
					return
				}
				continue
			}
			e, err := record.ParseLine(lines.Bytes())
			if err != nil {
				yield(e, &LineError{Line: number, Err: err})
				return
			}
			if !yield(e, nil) {
				return
			}
		}
		if err := lines.Err(); err != nil {
			yield(record.Entry{}, &LineError{Line: number, Err: err})
		}
	}
}
