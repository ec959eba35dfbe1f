package store

import (
	"context"
	"database/sql"
	"errors"
	"iter"

	"kettlefrost/internal/record"
)

// pageSize is how many entries are fetched at once. Between pages nothing is held open, so that a slow reader stops nobody.
const pageSize = 500

// Head is the end of the chain.
func (s *Store) Head(ctx context.Context) (record.Head, error) {
	head, err := s.headOf(ctx, s.read)
	return head, s.fail("read the last entry", err)
}

// Read gives the entries from a number on, in the order of the chain, as they stand: up to the last that is there when it comes to it.
// The error is the last thing that it gives.
func (s *Store) Read(ctx context.Context, from uint64) iter.Seq2[record.Entry, error] {
	return func(yield func(record.Entry, error) bool) {
		next := max(from, 1)
		for {
			page, err := s.Since(ctx, next-1, pageSize)
			for _, e := range page {
				if !yield(e, nil) {
					return
				}
				next = e.Seq + 1
			}
			if err != nil {
				yield(record.Entry{}, err)
				return
			}
			if len(page) < pageSize {
				return
			}
		}
	}
}

// Since gives the entries after a number, at most limit of them. With an error it gives those before the one that cannot be read.
func (s *Store) Since(ctx context.Context, after uint64, limit int) ([]record.Entry, error) {
	page, err := s.entries(ctx, s.read, `select `+columns+` from entry where seq > $1 order by seq limit $2`, int64(after), limit)
	return page, s.fail("read entries", err)
}

// ByID finds an entry. found is false when there is none.
func (s *Store) ByID(ctx context.Context, id record.ID) (e record.Entry, found bool, err error) {
	e, err = s.scan(s.read.QueryRowContext(ctx, `select `+columns+` from entry where id = $1`, id.String()))
	if errors.Is(err, sql.ErrNoRows) {
		return record.Entry{}, false, nil
	}
	return e, err == nil, s.fail("read an entry", err)
}

// Verify checks every entry from the first, and returns the head of what is good. A *record.ChainError names the first bad entry; an entry
// that cannot even be read as one is an *Error with the code Damaged.
func (s *Store) Verify(ctx context.Context) (record.Head, error) {
	return record.Verify(record.Head{}, s.Read(ctx, 1))
}
