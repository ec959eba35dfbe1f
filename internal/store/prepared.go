package store

import (
	"context"
	"database/sql"
	"maps"
	"slices"
)

// prepareFrequent prepares the statements of every group that is written, once: to prepare one takes SQLite longer than to run it.
func (s *Store) prepareFrequent(ctx context.Context) error {
	frequent := slices.Concat([]string{headText}, slices.Collect(maps.Values(insertTexts)), slices.Collect(maps.Values(storedTexts)))
	s.prepared = map[string]*sql.Stmt{}
	for _, text := range frequent {
		statement, err := s.write.PrepareContext(ctx, text)
		if err != nil {
			return s.fail("prepare to write", err)
		}
		s.prepared[text] = statement
	}
	return nil
}

// writing is a transaction that knows what was prepared.
type writing struct {
	*sql.Tx
	prepared map[string]*sql.Stmt
}

func (w writing) ExecContext(ctx context.Context, query string, args ...any) (sql.Result, error) {
	if statement := w.prepared[query]; statement != nil {
		return w.StmtContext(ctx, statement).ExecContext(ctx, args...)
	}
	return w.Tx.ExecContext(ctx, query, args...)
}

func (w writing) QueryContext(ctx context.Context, query string, args ...any) (*sql.Rows, error) {
	if statement := w.prepared[query]; statement != nil {
		return w.StmtContext(ctx, statement).QueryContext(ctx, args...)
	}
	return w.Tx.QueryContext(ctx, query, args...)
}

func (w writing) QueryRowContext(ctx context.Context, query string, args ...any) *sql.Row {
	if statement := w.prepared[query]; statement != nil {
		return w.StmtContext(ctx, statement).QueryRowContext(ctx, args...)
	}
	return w.Tx.QueryRowContext(ctx, query, args...)
}
