package store

import (
	"archive/zip"
	"bytes"
	"errors"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"kettlefrost/internal/record"
)

// copies writes a store in every form that can be restored from: its backup, its lines, and an export as a folder and as a ZIP file.
func copies(t *testing.T, s *Store) map[string]string {
	t.Helper()
	folder := t.TempDir()
	all := map[string]string{}
	place := func(name string) string { all[name] = filepath.Join(folder, name); return all[name] }
	if _, err := s.Backup(t.Context(), place("kettlefrost-20260301T060000Z"+s.dialect.suffix)); err != nil {
		t.Fatal(err)
	}
	var lines bytes.Buffer
	if _, err := s.Export(t.Context(), &lines); err != nil {
		t.Fatal(err)
	}
	var zipped bytes.Buffer
	z := zip.NewWriter(&zipped)
	w, err := z.Create(entriesName)
	if err != nil {
		t.Fatal(err)
	}
	_, err = io.Copy(w, bytes.NewReader(lines.Bytes()))
	err = errors.Join(err, z.Close(), os.WriteFile(place("lines"), lines.Bytes(), 0o600), os.Mkdir(place("folder"), 0o700), os.WriteFile(filepath.Join(folder, "folder", entriesName), lines.Bytes(), 0o600), os.WriteFile(place("export.zip"), zipped.Bytes(), 0o600))
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// restored: a copy of whatever form comes back in an empty database of either kind, entry by entry.
func restored(t *testing.T, address string) {
	s := open(t, address)
	mustAppend(t, s, weighings("ana", 0, pageSize+3)...)
	mustImport(t, s, fstest.MapFS{"a.yaml": {Data: []byte("<é>\r\n")}}, ana(0))
	head, want := intact(t, s, pageSize+4), all(t, s)
	for name, path := range copies(t, s) {
		for _, database := range databases {
			into := database.address(t)
			done, err := Restore(t.Context(), path, into, clock())
			if err != nil || done.Head != head || done.Last.Seq != head.Seq {
				t.Fatalf("%s into %s: %+v, %v", name, database.name, done, err)
			}
			if done.Whole != (strings.HasSuffix(path, ".db") && !isPostgres(into)) {
				t.Errorf("%s into %s: whole %v", name, database.name, done.Whole)
			}
			got := open(t, into)
			if intact(t, got, int(head.Seq)) != head || !slices.EqualFunc(all(t, got), want, same) {
				t.Errorf("%s into %s: other entries", name, database.name)
			}
			if text := contents(t, files(t, got))["a.yaml"]; text != "<é>\r\n" {
				t.Errorf("%s into %s: the book has %q", name, database.name, text)
			}
			mustAppend(t, got, weighing("ben", 0))
			got.Close()
		}
	}
}

// notOverwritten: nothing is written where entries are, and it is told which side is newer.
func notOverwritten(t *testing.T, address string) {
	s := open(t, address)
	mustAppend(t, s, weighings("ana", 0, 5)...)
	backup := filepath.Join(t.TempDir(), "backup")
	if _, err := s.Backup(t.Context(), backup); err != nil {
		t.Fatal(err)
	}
	try := func(into, says string, common uint64) {
		t.Helper()
		_, err := Restore(t.Context(), backup, into, clock())
		occupied, ok := errors.AsType[*OccupiedError](err)
		if !ok || occupied.Compared.Common != common || !strings.Contains(err.Error(), says) || !strings.Contains(err.Error(), "nothing was changed") {
			t.Errorf("want %q: %v", says, err)
		}
	}
	try(address, "holds the same 5 entries", 5)
	mustAppend(t, s, weighings("ana", 5, 2)...)
	try(address, "is newer: it has 2 entries more than the backup, the last (weighed by ana) is number 7", 5)
	intact(t, s, 7)
	other := fresh(t, s)
	mustAppend(t, other, weighing("zoe", 0))
	try(addressOf(other), "of another kitchen", 0)
	intact(t, other, 1)
	begun := fresh(t, s)
	var lines bytes.Buffer
	if _, err := s.ExportUpTo(t.Context(), &lines, 3); err != nil {
		t.Fatal(err)
	}
	if _, err := begun.Import(t.Context(), &lines); err != nil {
		t.Fatal(err)
	}
	try(addressOf(begun), "the backup is newer: it has 2 entries more", 3)
	mustAppend(t, begun, weighing("zoe", 9))
	try(addressOf(begun), "are the same up to entry 3 and differ after that: 1 entries here, 2 in the backup", 3)
}

// addressOf is where a store can be opened once more.
func addressOf(s *Store) string {
	if s.path != "" {
		return s.path
	}
	return s.place + "?sslmode=disable"
}

// A bad backup brings back nothing.
func badBackups(t *testing.T, address string) {
	s := open(t, address)
	mustAppend(t, s, weighings("ana", 0, 5)...)
	for name, path := range copies(t, s) {
		if filepath.Ext(path) == ".db" || filepath.Ext(path) == ".zip" || name == "folder" {
			continue
		}
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, bytes.Replace(text, []byte("1002.5"), []byte("1003.5"), 1), 0o600); err != nil {
			t.Fatal(err)
		}
		into := filepath.Join(t.TempDir(), "new")
		_, err = Restore(t.Context(), path, into, clock())
		if bad, ok := errors.AsType[*record.ChainError](err); !ok || bad.Place != 3 {
			t.Errorf("%s: %v", name, err)
		}
		if _, err := os.Stat(into); !os.IsNotExist(err) {
			t.Errorf("%s: something was made of a bad backup: %v", name, err)
		}
	}
	folder := t.TempDir()
	text := filepath.Join(folder, "text")
	if err := os.WriteFile(text, []byte("%PDF"), 0o600); err != nil {
		t.Fatal(err)
	}
	for name, path := range map[string]string{"nothing": filepath.Join(folder, "no"), "a folder without entries": folder, "something else": text} {
		if _, err := Restore(t.Context(), path, filepath.Join(folder, "new"), clock()); err == nil {
			t.Errorf("%s is restored", name)
		}
	}
}

// A backup that is not the latest of its folder says so; the last one is found by its name.
func TestNewerBackups(t *testing.T) {
	s := open(t, databases[0].address(t))
	mustAppend(t, s, weighing("ana", 0))
	folder := filepath.Join(t.TempDir(), "backups")
	begin := time.Date(2026, 3, 1, 6, 0, 0, 0, time.UTC)
	if _, found, err := s.LastBackup(folder, begin); found || err != nil {
		t.Errorf("a folder that is not there: %v, %v", found, err)
	}
	for day := range 3 {
		if done, err := s.KeepBackups(t.Context(), folder, 24*time.Hour, 5, begin.AddDate(0, 0, day)); err != nil || done.Head.Seq != 1 {
			t.Fatal(done, err)
		}
	}
	done, err := Restore(t.Context(), filepath.Join(folder, "kettlefrost-20260301T060000Z.db"), filepath.Join(t.TempDir(), "new"), clock())
	if want := []string{"kettlefrost-20260302T060000Z.db", "kettlefrost-20260303T060000Z.db"}; err != nil || !slices.Equal(done.Newer, want) {
		t.Errorf("%+v, %v", done, err)
	}
	last, found, err := s.LastBackup(folder, begin.AddDate(0, 0, 1))
	if err != nil || !found || !last.At.Equal(begin.AddDate(0, 0, 1)) || last.Size == 0 || filepath.Base(last.Path) != "kettlefrost-20260302T060000Z.db" {
		t.Errorf("%+v, %v, %v", last, found, err)
	}
}
