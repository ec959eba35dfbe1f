package store

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"testing"
	"testing/fstest"
	"time"

	"kettlefrost/internal/record"
)

// restore opens what Backup wrote, as a store.
func restore(t testing.TB, like *Store, path string) *Store {
	t.Helper()
	if !isPostgres(like.place) {
		return open(t, path)
	}
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	s := fresh(t, like)
	if _, err := s.Import(t.Context(), f); err != nil {
		t.Fatal(err)
	}
	return s
}

// backedUp makes backups while others write, and restores them.
func backedUp(t *testing.T, address string) {
	s := open(t, address)
	mustImport(t, s, fstest.MapFS{"a.yaml": {Data: []byte("a")}}, ana(0))
	folder := t.TempDir()
	var group sync.WaitGroup
	group.Go(func() { write(t, []*Store{s}, 4, 100) })
	var heads []record.Head
	for i := range 3 {
		before, err := s.Head(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		head, err := s.Backup(t.Context(), filepath.Join(folder, fmt.Sprint(i)))
		if err != nil || head.Seq < before.Seq {
			t.Fatalf("backup %d goes up to %d, and %d was there before: %v", i, head.Seq, before.Seq, err)
		}
		heads = append(heads, head)
	}
	group.Wait()
	for i, head := range heads {
		if info, err := os.Stat(filepath.Join(folder, fmt.Sprint(i))); err != nil || info.Mode().Perm() != 0o600 {
			t.Errorf("backup %d can be read by others: %v (%v)", i, info.Mode(), err)
		}
		restored := restore(t, s, filepath.Join(folder, fmt.Sprint(i)))
		if got := intact(t, restored, int(head.Seq)); got != head {
			t.Errorf("restored %d: %v, want %v", i, got, head)
		}
		if text := contents(t, files(t, restored))["a.yaml"]; text != "a" {
			t.Errorf("restored %d: the book has %q", i, text)
		}
		mustAppend(t, restored, weighing("later", i))
		intact(t, restored, int(head.Seq)+1)
		restored.Close()
	}
	_, err := s.Backup(t.Context(), filepath.Join(folder, "0"))
	wantCode(t, err, BadAddress)
	_, err = s.Backup(t.Context(), filepath.Join(folder, "nowhere", "0"))
	if err == nil {
		t.Error("a backup into a folder that is not there succeeds")
	}
}

func backupsKept(t *testing.T, address string) {
	s := open(t, address)
	mustAppend(t, s, weighing("ana", 0))
	folder := filepath.Join(t.TempDir(), "backups")
	begin := time.Date(2026, 3, 1, 6, 0, 0, 0, time.UTC)
	made := 0
	for hour := range 10 * 24 {
		done, err := s.KeepBackups(t.Context(), folder, 24*time.Hour, 3, begin.Add(time.Duration(hour)*time.Hour))
		if err != nil {
			t.Fatal(err)
		}
		if done.Made != "" {
			made++
		}
	}
	left, err := filepath.Glob(filepath.Join(folder, "*"))
	if err != nil || made != 10 || len(left) != 3 {
		t.Fatalf("in ten days %d backups were made, left are %v (%v)", made, left, err)
	}
	if name := "kettlefrost-20260310T060000Z" + s.dialect.suffix; filepath.Base(left[2]) != name {
		t.Errorf("the last is %s, want %s", left[2], name)
	}
	restored := restore(t, s, left[2])
	intact(t, restored, 1)
}

func TestWhichBackupsAreMadeAndDeleted(t *testing.T) {
	now := time.Date(2026, 3, 10, 6, 0, 0, 0, time.UTC)
	name := func(day, hour int) string {
		return backupPrefix + time.Date(2026, 3, day, hour, 0, 0, 0, time.UTC).Format(backupLayout) + ".db"
	}
	for _, c := range []struct {
		is    string
		names []string
		keep  int
		make  bool
		drop  []string
	}{
		{is: "an empty folder", keep: 3, make: true},
		{is: "the last is of today", names: []string{name(10, 5), name(3, 6)}, keep: 1},
		{is: "the last is a day old", names: []string{name(9, 6)}, keep: 3, make: true},
		{is: "one too many", names: []string{name(9, 6), name(7, 6), name(8, 6)}, keep: 3, make: true, drop: []string{name(7, 6)}},
		{is: "fewer are wanted now", names: []string{name(9, 6), name(7, 6), name(8, 6)}, keep: 1, make: true, drop: []string{name(7, 6), name(8, 6), name(9, 6)}},
		{is: "dated after now", names: []string{name(30, 6), name(9, 5)}, keep: 1, make: true, drop: []string{name(9, 5)}},
		{is: "files of others", names: []string{"notes.txt", "kettlefrost-.db", name(9, 6) + ".half", "kettlefrost-20260301T060000Z.jsonl", "x" + name(1, 1)}, keep: 1, make: true},
	} {
		made, drop := planBackups(c.names, ".db", 24*time.Hour, c.keep, now)
		if (made == name(10, 6)) != c.make || made == "" == c.make || !slices.Equal(drop, c.drop) {
			t.Errorf("%s: make %q, delete %v", c.is, made, drop)
		}
	}
}
