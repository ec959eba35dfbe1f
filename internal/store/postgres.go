package store

import (
	"context"
	"fmt"
	"strings"
	"time"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/stdlib"
)

var postgresDialect = dialect{
	name:       "postgres",
	migrations: folder("migrations/postgres"),
	hasTable:   `select count(*) from information_schema.tables where table_schema = current_schema() and table_name = $1`,
	migrate:    migratePostgres,
	backup:     backupLines,
	suffix:     ".jsonl",
}

// connections of one process: one writes, the others read.
const connections = 8

func isPostgres(address string) bool {
	return strings.HasPrefix(address, "postgres://") || strings.HasPrefix(address, "postgresql://")
}

func (s *Store) openPostgres(ctx context.Context, address string) error {
	s.dialect = postgresDialect
	s.place = "the PostgreSQL server" // an address that cannot be read may have a password anywhere
	config, err := pgx.ParseConfig(address)
	if err != nil {
		return s.trouble(BadAddress, "the address cannot be read", nil)
	}
	s.place = fmt.Sprintf("postgres://%s@%s:%d/%s", config.User, config.Host, config.Port, config.Database)
	if config.ConnectTimeout == 0 {
		config.ConnectTimeout = 5 * time.Second
	}
	s.write = stdlib.OpenDB(*config)
	s.read = s.write
	s.write.SetMaxOpenConns(connections)
	s.write.SetMaxIdleConns(connections)
	s.write.SetConnMaxIdleTime(5 * time.Minute)
	var encoding string
	if err := s.write.QueryRowContext(ctx, `show server_encoding`).Scan(&encoding); err != nil {
		return s.fail("open it", err)
	}
	if encoding != "UTF8" {
		return &Error{Code: BadAddress, Place: s.place, Problem: "the database keeps text as " + encoding, Fix: "make a database with the encoding UTF8"}
	}
	if err := s.bringUpToDate(ctx); err != nil {
		return err
	}
	return s.prepareFrequent(ctx)
}
