package store

import (
	"context"
	"database/sql"
	"io/fs"
	"sync"

	"kettlefrost/internal/record"
)

// Store is a journal in a database. It may be used by many goroutines at once, and many processes may have the same database open.
type Store struct {
	place       string  // for people: never with a password
	path        string  // of the SQLite file
	write, read *sql.DB // the same on PostgreSQL; on SQLite one connection writes and several read
	dialect     dialect
	now         func() record.Instant
	prepared    map[string]*sql.Stmt // on what writes

	requests chan *request // what waits to be sealed
	quit     chan struct{}
	shut     sync.Once
	running  sync.WaitGroup
	news     news
	book     bookCache
	schedule schedule
	readings readingsWriter
}

// dialect is all in which the two databases differ.
type dialect struct {
	name       string
	migrations fs.FS
	hasTable   string // how many tables of the name $1 there are
	migrate    migrator
	backup     func(s *Store, ctx context.Context, path string) (record.Head, error)
	suffix     string // of a backup's name
}

// Open opens the store at an address, and makes or updates its tables. The address is the path of a file, alone or after "sqlite:"; or
// a postgres:// address. The clock says when an entry was taken in. Errors are *Error.
func Open(ctx context.Context, address string, now func() record.Instant) (*Store, error) {
	s := prepare(now)
	if isPostgres(address) {
		return s.begin(s.openPostgres(ctx, address))
	}
	return s.begin(s.openSQLite(ctx, address))
}

func prepare(now func() record.Instant) *Store {
	s := &Store{now: now, requests: make(chan *request), quit: make(chan struct{})}
	s.news.init()
	return s
}

// begin starts to write and to watch, if it could be opened.
func (s *Store) begin(err error) (*Store, error) {
	if err != nil {
		s.closePools() // the error why it could not be opened says more than one of closing
		return nil, err
	}
	s.running.Go(s.writeGroups)
	s.running.Go(s.watch)
	return s, nil
}

// Place is what is open, for people: the path of the file, or the address of the server without its password.
func (s *Store) Place() string { return s.place }

// Close ends the store. What Append was asked for before is answered first.
func (s *Store) Close() error {
	s.shut.Do(func() { close(s.quit) })
	s.running.Wait()
	return s.fail("close", s.closePools())
}

func (s *Store) isClosed() bool {
	select {
	case <-s.quit:
		return true
	default: // also when it was never begun
		return false
	}
}

func (s *Store) closePools() error {
	var first error
	for _, pool := range []*sql.DB{s.read, s.write} {
		if pool == nil {
			continue
		}
		if err := pool.Close(); err != nil && first == nil {
			first = err
		}
	}
	return first
}
