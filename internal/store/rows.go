package store

import (
	"context"
	"database/sql"
	"fmt"
	"iter"
	"strings"

	"kettlefrost/internal/record"
)

// querier is a pool, a connection or a transaction.
type querier interface {
	QueryContext(ctx context.Context, query string, args ...any) (*sql.Rows, error)
	QueryRowContext(ctx context.Context, query string, args ...any) *sql.Row
	ExecContext(ctx context.Context, query string, args ...any) (sql.Result, error)
}

const (
	columns     = "seq, id, kind, happened_ms, entered_ms, who, device, site, corrects, body, prev, hash"
	columnCount = 12
)

func arguments(e record.Entry) []any {
	return []any{int64(e.Seq), e.ID.String(), string(e.Kind), int64(e.Happened), int64(e.Entered), e.Who, e.Device, e.Site, e.Corrects.String(), string(e.Body), e.Prev.String(), e.Hash.String()}
}

// scan reads the columns of one entry as they stand; whether it is as it was sealed is for Verify.
func (s *Store) scan(row interface{ Scan(...any) error }) (record.Entry, error) {
	var e record.Entry
	var id, corrects, prev, hash string
	if err := row.Scan(&e.Seq, &id, &e.Kind, &e.Happened, &e.Entered, &e.Who, &e.Device, &e.Site, &corrects, (*[]byte)(&e.Body), &prev, &hash); err != nil {
		return e, err
	}
	for _, field := range [...]struct {
		name, text string
		into       interface{ UnmarshalText([]byte) error }
	}{{"id", id, &e.ID}, {"corrects", corrects, &e.Corrects}, {"prev", prev, &e.Prev}, {"hash", hash, &e.Hash}} {
		if err := field.into.UnmarshalText([]byte(field.text)); err != nil {
			return e, &Error{Code: Damaged, Place: fmt.Sprintf("%s, entry %d", s.place, e.Seq), Problem: field.name + " is not what was written", Fix: fixes[Damaged], Err: err}
		}
	}
	return e, nil
}

// entries runs a query for the columns of entries.
func (s *Store) entries(ctx context.Context, q querier, query string, args ...any) ([]record.Entry, error) {
	rows, err := q.QueryContext(ctx, query, args...)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	var found []record.Entry
	for rows.Next() {
		e, err := s.scan(rows)
		if err != nil {
			return found, err
		}
		found = append(found, e)
	}
	return found, rows.Err()
}

const headText = `select seq, hash from entry order by seq desc limit 1`

func (s *Store) headOf(ctx context.Context, q querier) (record.Head, error) {
	var head record.Head
	var hash string
	err := q.QueryRowContext(ctx, headText).Scan(&head.Seq, &hash)
	switch {
	case err == sql.ErrNoRows:
		return record.Head{}, nil
	case err != nil:
		return record.Head{}, err
	}
	if head.Hash, err = record.ParseHash(hash); err != nil {
		return record.Head{}, &Error{Code: Damaged, Place: fmt.Sprintf("%s, entry %d", s.place, head.Seq), Problem: "hash is not what was written", Fix: fixes[Damaged], Err: err}
	}
	return head, nil
}

// A statement for many rows is one way to the server and back. Few sizes, so that the database need not prepare a new one each time.
var chunkSizes = [...]int{64, 8, 1}

// chunks cuts a list into pieces of those sizes.
func chunks[T any](list []T) iter.Seq[[]T] {
	return func(yield func([]T) bool) {
		for _, size := range chunkSizes {
			for len(list) >= size {
				if !yield(list[:size]) {
					return
				}
				list = list[size:]
			}
		}
	}
}

// placeholders is ($1, $2), ($3, $4) for rows of two.
func placeholders(rows, perRow int) string {
	var b strings.Builder
	for i := range rows * perRow {
		switch {
		case i == 0:
			b.WriteString("(")
		case i%perRow == 0:
			b.WriteString("), (")
		default:
			b.WriteString(", ")
		}
		fmt.Fprintf(&b, "$%d", i+1)
	}
	b.WriteString(")")
	return b.String()
}

// The statements for each size.
var (
	insertTexts = perSize(func(rows int) string {
		return `insert into entry (` + columns + `) values ` + placeholders(rows, columnCount)
	})
	storedTexts = perSize(func(ids int) string {
		return `select ` + columns + ` from entry where id in ` + placeholders(1, ids)
	})
)

func perSize(text func(n int) string) map[int]string {
	all := map[int]string{}
	for _, n := range chunkSizes {
		all[n] = text(n)
	}
	return all
}

// insert writes sealed entries.
func insert(ctx context.Context, q querier, entries []record.Entry) error {
	for chunk := range chunks(entries) {
		args := make([]any, 0, len(chunk)*columnCount)
		for _, e := range chunk {
			args = append(args, arguments(e)...)
		}
		if _, err := q.ExecContext(ctx, insertTexts[len(chunk)], args...); err != nil {
			return err
		}
	}
	return nil
}

// stored is what is there already under some IDs.
func (s *Store) stored(ctx context.Context, q querier, ids []record.ID) (map[record.ID]record.Entry, error) {
	known := map[record.ID]record.Entry{}
	for chunk := range chunks(ids) {
		args := make([]any, len(chunk))
		for i, id := range chunk {
			args[i] = id.String()
		}
		found, err := s.entries(ctx, q, storedTexts[len(chunk)], args...)
		if err != nil {
			return nil, err
		}
		for _, e := range found {
			known[e.ID] = e
		}
	}
	return known, nil
}
