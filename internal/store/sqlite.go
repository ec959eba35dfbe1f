package store

import (
	"context"
	"database/sql"
	"embed"
	"fmt"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
	"strings"

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
	q := url.Values{"_txlock": {"immediate"}, "_pragma": append([]string{"busy_timeout(5000)"}, pragmas...)}
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
		return s.trouble(BadAddress, fmt.Sprintf("%q is no path of a file", path), nil)
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
	if err := s.write.PingContext(ctx); err != nil {
		return s.fail("open it", err)
	}
	if err := s.bringUpToDate(ctx); err != nil {
		return err
	}
	if s.read, err = sql.Open("sqlite", sqliteURL(path, append(pragmas, "query_only(1)")...)); err != nil {
		return s.fail("open it for reading", err)
	}
	s.read.SetMaxOpenConns(4)
	s.read.SetMaxIdleConns(4)
	return s.fail("open it for reading", s.read.PingContext(ctx))
}

// inspectSQLite looks whose file it is before anything changes it: the first pragma for a write-ahead log would.
func (s *Store) inspectSQLite(ctx context.Context, path string) error {
	info, err := os.Stat(path)
	switch {
	case os.IsNotExist(err), err == nil && info.Mode().IsRegular() && info.Size() == 0:
		return nil
	case err != nil:
		return s.trouble(BadAddress, "cannot look at the file", err)
	case !info.Mode().IsRegular():
		return s.trouble(NotAStore, "is not an ordinary file", nil)
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
