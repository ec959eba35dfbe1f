package store

import (
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
	"github.com/pressly/goose/v3"
)

// column is a column of a table, in words that both databases share.
type column struct {
	Type    string
	NotNull bool
	Key     bool
}

// sharedTypes are the types that hold the same values in both. SQLite's STRICT integer has 8 bytes, PostgreSQL's own would have 4.
var sharedTypes = map[string]string{"INTEGER": "whole", "bigint": "whole", "TEXT": "text", "text": "text", "BLOB": "bytes", "bytea": "bytes"}

func columnsOf(t *testing.T, s *Store, query string) map[string]column {
	t.Helper()
	rows, err := s.read.QueryContext(t.Context(), query)
	if err != nil {
		t.Fatal(err)
	}
	defer rows.Close()
	found := map[string]column{}
	for rows.Next() {
		var table, name, kind string
		var c column
		if err := rows.Scan(&table, &name, &kind, &c.NotNull, &c.Key); err != nil {
			t.Fatal(err)
		}
		var known bool
		if c.Type, known = sharedTypes[kind]; !known {
			t.Errorf("%s.%s has the type %s, which the other database does not have", table, name, kind)
		}
		found[table+"."+name] = c
	}
	if err := rows.Err(); err != nil {
		t.Fatal(err)
	}
	return found
}

// indexesOf gives each unique index or other index by its columns: PostgreSQL and SQLite name them otherwise.
func indexesOf(t *testing.T, s *Store, query string) map[string]bool {
	t.Helper()
	rows, err := s.read.QueryContext(t.Context(), query)
	if err != nil {
		t.Fatal(err)
	}
	defer rows.Close()
	found := map[string]bool{}
	for rows.Next() {
		var of string
		var unique bool
		if err := rows.Scan(&of, &unique); err != nil {
			t.Fatal(err)
		}
		found[of] = unique
	}
	return found
}

func TestBothSchemasAreTheSame(t *testing.T) {
	lite, server := open(t, databases[0].address(t)), open(t, databases[1].address(t))
	// A primary key of one whole number is never null, though SQLite does not say so.
	a := columnsOf(t, lite, `select m.name, c.name, c.type, c."notnull" or c.pk > 0, c.pk > 0 from sqlite_master m, pragma_table_info(m.name) c
		where m.type = 'table' and m.name not like 'sqlite%' and m.name <> '`+versionTable+`'`)
	b := columnsOf(t, server, `select c.table_name, c.column_name, c.data_type, c.is_nullable = 'NO', exists (
			select 1 from information_schema.key_column_usage k join information_schema.table_constraints p using (constraint_name, table_name)
			where p.constraint_type = 'PRIMARY KEY' and k.table_name = c.table_name and k.column_name = c.column_name)
		from information_schema.columns c where c.table_schema = current_schema() and c.table_name <> '`+versionTable+`'`)
	if diff := cmp.Diff(a, b); diff != "" || len(a) != columnCount+4+3+9+3+3+5+2+6+6+4 {
		t.Errorf("%d columns; (-sqlite +postgres):\n%s", len(a), diff)
	}
	i := indexesOf(t, lite, `select m.name || '(' || (select group_concat(name, ', ') from (select name from pragma_index_info(l.name) order by seqno)) || ')', l."unique"
		from sqlite_master m, pragma_index_list(m.name) l where m.type = 'table' and m.name not like 'sqlite%' and m.name <> '`+versionTable+`'`)
	for _, key := range []string{"entry(seq)", "probe(no)", "reading_batch(no)"} { // the key of the table itself
		i[key] = true
	}
	j := indexesOf(t, server, `select i.tablename || substring(i.indexdef from '\(.*\)'), i.indexdef like 'CREATE UNIQUE%' from pg_indexes i
		where i.schemaname = current_schema() and i.tablename <> '`+versionTable+`'`)
	if diff := cmp.Diff(i, j); diff != "" {
		t.Errorf("indexes (-sqlite +postgres):\n%s", diff)
	}
	var loose int
	err := lite.read.QueryRow(`select count(*) from pragma_table_list where type = 'table' and schema = 'main' and name not like 'sqlite%' and name <> '` + versionTable + `' and not strict`).Scan(&loose)
	if err != nil || loose != 0 {
		t.Errorf("%d tables of SQLite take any type (%v)", loose, err)
	}
}

// A driver that binds $2, $1 in the order in which they appear would write every field into another.
func placesOfPlaceholders(t *testing.T, address string) {
	s := open(t, address)
	var a, b, c string
	err := s.read.QueryRow(`select cast($2 as text), cast($1 as text), cast($2 as text)`, "one", "two").Scan(&a, &b, &c)
	if err != nil || a != "two" || b != "one" || c != "two" {
		t.Errorf("$2, $1, $2 of one and two are %s, %s, %s (%v)", a, b, c, err)
	}
}

// wrongTypes: neither database takes text for a number.
func wrongTypes(t *testing.T, address string) {
	s := open(t, address)
	mustAppend(t, s, weighing("ana", 0))
	if _, err := s.write.Exec(`update entry set happened_ms = 'noon'`); err == nil {
		t.Error("text is taken for a time")
	}
	if _, err := s.write.Exec(`insert into kept (name, seq, hash, data) values ('a', null, '', '')`); err == nil {
		t.Error("nothing is taken for a number")
	}
}

// steps are ours, and more behind them.
func steps(t *testing.T, s *Store, more ...string) fstest.MapFS {
	t.Helper()
	ours, err := fs.Glob(s.dialect.migrations, "*.sql")
	if err != nil {
		t.Fatal(err)
	}
	list := fstest.MapFS{}
	for _, name := range ours {
		text, err := fs.ReadFile(s.dialect.migrations, name)
		if err != nil {
			t.Fatal(err)
		}
		list[name] = &fstest.MapFile{Data: text}
	}
	for i, text := range more {
		list[fmt.Sprintf("%05d_more.sql", len(ours)+i+1)] = &fstest.MapFile{Data: []byte("-- +goose Up\n" + text)}
	}
	return list
}

// steppedHalfway: a step that fails in its middle leaves nothing, and is done whole once it can be.
func steppedHalfway(t *testing.T, address string) {
	s := open(t, address)
	mustAppend(t, s, weighings("ana", 0, 3)...)
	ours := s.dialect.migrations
	first, err := lastStep(ours)
	if err != nil {
		t.Fatal(err)
	}
	s.dialect.migrations = steps(t, s, "create table shelf (name text);", "create table box (name text);\ninsert into nothing values (1);")
	err = s.bringUpToDate(t.Context())
	wantCode(t, err, Halfway)
	var tables int
	if err := s.read.QueryRow(s.dialect.hasTable, "box").Scan(&tables); err != nil || tables != 0 {
		t.Errorf("%d tables of a step that was not done (%v)", tables, err)
	}
	if version, err := s.version(t.Context(), s.write); err != nil || version != first+1 {
		t.Errorf("it stands at step %d, want %d (%v)", version, first+1, err)
	}
	intact(t, s, 3)
	s.dialect.migrations = ours
	s.dialect.migrations = steps(t, s, "create table shelf (name text);", "create table box (name text);")
	if err := s.bringUpToDate(t.Context()); err != nil {
		t.Fatal(err)
	}
	if err := s.read.QueryRow(s.dialect.hasTable, "box").Scan(&tables); err != nil || tables != 1 {
		t.Errorf("%d tables of a step that was done (%v)", tables, err)
	}
	s.Close()
	_, err = Open(t.Context(), address, clock()) // this program does not know those steps
	wantCode(t, err, Newer)
}

// stoppedAtFirst: a program that was stopped after making the table of versions, and before anything else, is gone on from.
func stoppedAtFirst(t *testing.T, address string) {
	driver, dialect, dsn := "sqlite", goose.DialectSQLite3, sqliteURL(address)
	if isPostgres(address) {
		driver, dialect, dsn = "pgx", goose.DialectPostgres, address
	}
	db, err := sql.Open(driver, dsn)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	err = runSteps(t.Context(), dialect, db, fstest.MapFS{"00001_stopped.sql": {Data: []byte("-- +goose Up\ncreate table entry (seq bigint);\ninsert into nothing values (1);")}})
	if err == nil {
		t.Fatal("the step did not stop")
	}
	s := open(t, address)
	mustAppend(t, s, weighing("ana", 0))
	intact(t, s, 1)
}

// startedTogether: several programs that start at once on a new database all find it ready.
func startedTogether(t *testing.T, address string) {
	errs := make(chan error, 3)
	for range cap(errs) {
		go func() {
			s, err := Open(t.Context(), address, clock())
			if err == nil {
				err = s.Close()
			}
			errs <- err
		}()
	}
	var all error
	for range cap(errs) {
		all = errors.Join(all, <-errs)
	}
	if all != nil {
		t.Error(all)
	}
	intact(t, open(t, address), 0)
}
