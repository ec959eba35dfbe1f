package store

import (
	"context"
	"database/sql"
	"embed"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	_ "modernc.org/sqlite" // the driver "sqlite"
)

//go:embed migrations
var migrations embed.FS

// sqliteMark is the application_id in the head of our files, see the migration.
const sqliteMark = 0x4b465354

var sqliteDialect = dialect{
	name:       "sqlite3",
	migrations: folder("migrations/sqlite"),
	hasTable:   `select count(*) from sqlite_master where type = 'table' and name = $1`,
	migrate:    migrateSQLite,
	backup:     backupSQLite,
	suffix:     ".db",
}

func folder(name string) fs.FS {
	sub, err := fs.Sub(migrations, name)
	if err != nil {
		panic(err) // the folder is part of the program
	}
	return sub
}

// sqliteURL is the address of a file for the driver. Pragmas hold for one connection, so they belong to the address; the last one of a name
// wins. A transaction takes the lock for writing when it begins: one that reads first and then wants to write would be refused at once
// when another has written between.
func sqliteURL(path string, pragmas ...string) string {
	q := url.Values{"_txlock": {"immediate"}, "_busy_timeout": {strconv.FormatInt(busyFor.Milliseconds(), 10)}, "_pragma": pragmas}
	path = filepath.ToSlash(path)
	if !strings.HasPrefix(path, "/") {
		path = "/" + path // C:/…
	}
	return (&url.URL{Scheme: "file", Path: path, RawQuery: q.Encode()}).String()
}

// synchronous=FULL waits for the disk at every commit. With NORMAL a power cut could take entries that were acknowledged.
var sqlitePragmas = []string{"journal_mode(WAL)", "synchronous(FULL)", "foreign_keys(1)"}

func (s *Store) openSQLite(ctx context.Context, address string, pragmas ...string) error {
	s.dialect = sqliteDialect
	path := strings.TrimPrefix(address, "sqlite:")
	s.place = path
	if path == "" || strings.HasPrefix(path, ":") || strings.Contains(path, "\x00") {
		return &Error{Code: BadAddress, Place: "the address of the store", Problem: fmt.Sprintf("%q is no path of a file", path), Fix: fixes[BadAddress]}
	}
	path, err := filepath.Abs(path)
	if err != nil {
		return s.trouble(BadAddress, "the path cannot be made out", err)
	}
	s.path = path
	if err := s.inspectSQLite(ctx, path); err != nil {
		return err
	}
	pragmas = append(append([]string{}, sqlitePragmas...), pragmas...)
	if s.write, err = sql.Open("sqlite", sqliteURL(path, pragmas...)); err != nil {
		return s.fail("open it", err)
	}
	s.write.SetMaxOpenConns(1)
	if err := firstContact(ctx, s.write); err != nil {
		return s.fail("open it", err)
	}
	if err := s.bringUpToDate(ctx); err != nil {
		return err
	}
	if err := s.prepareFrequent(ctx); err != nil {
		return err
	}
	if s.read, err = sql.Open("sqlite", sqliteURL(path, append(pragmas, "query_only(1)")...)); err != nil {
		return s.fail("open it for reading", err)
	}
	s.read.SetMaxOpenConns(4)
	s.read.SetMaxIdleConns(4)
	return s.fail("open it for reading", firstContact(ctx, s.read))
}

// firstContact opens a connection. SQLite does not wait, as it does otherwise, for another program that turns on the write-ahead log at the same
// moment: so this does, for as long.
func firstContact(ctx context.Context, db *sql.DB) error {
	for began := time.Now(); ; {
		err := db.PingContext(ctx)
		if err == nil || codeOf(err) != Locked || time.Since(began) > busyFor {
			return err
		}
		select {
		case <-time.After(busyPause):
		case <-ctx.Done():
			return ctx.Err()
		}
	}
}

// How long is waited for another program, and how often it is tried meanwhile where SQLite does not wait by itself.
const (
	busyFor   = 5 * time.Second
	busyPause = 20 * time.Millisecond
)

// private makes an empty file that only this user can read: customers' addresses are in it. SQLite takes it for a new database, and makes
// the files beside it likewise.
func private(path string) error {
	f, err := os.OpenFile(path, os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o600)
	if err != nil {
		return err
	}
	return f.Close()
}

// inspectSQLite looks whose file it is before anything changes it: the first pragma for a write-ahead log would.
func (s *Store) inspectSQLite(ctx context.Context, path string) error {
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		if err := private(path); err != nil && !errors.Is(err, fs.ErrExist) { // another program may just have made it
			return s.trouble(BadAddress, "the file cannot be made", err)
		}
		return nil
	case err == nil && info.Mode().IsRegular() && info.Size() == 0:
		return nil
	case err != nil:
		return s.trouble(BadAddress, "cannot look at the file", err)
	case !info.Mode().IsRegular():
		return s.trouble(NotAStore, "is not an ordinary file", nil)
	}
	if err := s.magic(path); err != nil {
		return err
	}
	db, err := sql.Open("sqlite", sqliteURL(path))
	if err != nil {
		return s.fail("open it", err)
	}
	defer db.Close()
	var mark, others int
	if err := db.QueryRowContext(ctx, `pragma application_id`).Scan(&mark); err != nil {
		return s.fail("read it as a database", err)
	}
	if mark == sqliteMark {
		return s.refuseNewer(ctx, db)
	}
	// A file whose making was stopped half-way has nothing but the table of versions.
	const foreign = `select count(*) from sqlite_master where name not like 'sqlite\_%' escape '\' and tbl_name <> $1`
	if err := db.QueryRowContext(ctx, foreign, versionTable).Scan(&others); err != nil {
		return s.fail("read it as a database", err)
	}
	if mark != 0 || others > 0 {
		return s.trouble(NotAStore, "is the database of another program", nil)
	}
	return nil
}

// sqliteMagic is the first bytes of every SQLite file (https://sqlite.org/fileformat.html, 1.2.1).
const sqliteMagic = "SQLite format 3\x00"

// magic looks for the first bytes of every SQLite file. SQLite itself takes a file that is too
// short to have a page for an empty one, and would write over it.
func (s *Store) magic(path string) error {
	f, err := os.Open(path)
	if err != nil {
		return s.trouble(BadAddress, "cannot read the file", err)
	}
	defer f.Close()
	head := make([]byte, len(sqliteMagic))
	if _, err := io.ReadFull(f, head); err != nil || string(head) != sqliteMagic {
		return s.trouble(NotAStore, "is no database", nil)
	}
	return nil
}
