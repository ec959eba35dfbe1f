package store

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"testing/fstest"
	"time"

	"kettlefrost/internal/record"
)

// fresh makes another empty store of the same kind.
func fresh(t testing.TB, like *Store) *Store {
	t.Helper()
	for _, database := range databases {
		if database.name == "postgres" == isPostgres(like.place) {
			return open(t, database.address(t))
		}
	}
	t.Fatal("no such database")
	return nil
}

func exported(t *testing.T, address string) {
	s := open(t, address)
	if _, err := s.Append(t.Context(), weighings("ana", 0, pageSize+7)); err != nil {
		t.Fatal(err)
	}
	mustImport(t, s, fstest.MapFS{"a.yaml": {Data: []byte("<é>\n")}}, ana(0))
	var lines bytes.Buffer
	head, err := s.Export(t.Context(), &lines)
	if err != nil || head != intact(t, s, pageSize+8) {
		t.Fatalf("head %v, %v", head, err)
	}
	if n := bytes.Count(lines.Bytes(), []byte("\n")); n != pageSize+8 {
		t.Errorf("%d lines", n)
	}
	for _, database := range databases { // from one kind of database into the other too
		into := open(t, database.address(t))
		got, err := into.Import(t.Context(), bytes.NewReader(lines.Bytes()))
		if err != nil || got != head {
			t.Fatalf("into %s: %v, %v", database.name, got, err)
		}
		if !slices.EqualFunc(all(t, into), all(t, s), same) {
			t.Errorf("into %s: other entries", database.name)
		}
		var again bytes.Buffer
		if _, err := into.Export(t.Context(), &again); err != nil || !bytes.Equal(again.Bytes(), lines.Bytes()) {
			t.Errorf("exported from %s again it has other bytes (%v)", database.name, err)
		}
		_, err = into.Import(t.Context(), bytes.NewReader(lines.Bytes()))
		wantCode(t, err, NotEmpty)
		if next := mustAppend(t, into, weighing("ben", 0)); next[0].Prev != head.Hash {
			t.Errorf("into %s: it does not go on from the head", database.name)
		}
	}
}

func badExports(t *testing.T, address string) {
	s := open(t, address)
	mustAppend(t, s, weighings("ana", 0, 5)...)
	var good bytes.Buffer
	if _, err := s.Export(t.Context(), &good); err != nil {
		t.Fatal(err)
	}
	lines := strings.SplitAfter(strings.TrimSuffix(good.String(), "\n"), "\n")
	for name, c := range map[string]struct {
		text string
		line int
	}{
		"a changed weight": {strings.Replace(good.String(), "1002.5", "1003.5", 1), 3},
		"a line left out":  {lines[0] + lines[2], 2},
		"a line twice":     {lines[0] + lines[0], 2},
		"cut in a line":    {good.String()[:good.Len()-30], 5},
		"an empty line":    {lines[0] + "\n" + lines[1], 2},
		"no export":        {"%PDF-1.4\n", 1},
		"an endless line":  {lines[0] + strings.Repeat("x", maxLine+1), 2},
	} {
		into := fresh(t, s)
		_, err := into.Import(t.Context(), strings.NewReader(c.text))
		if bad, ok := errors.AsType[*LineError](err); !ok || bad.Line != c.line {
			t.Errorf("%s: %v", name, err)
		}
		intact(t, into, 0)
		into.Close()
	}
}

type fullDisk struct{ left int }

var errNoSpace = errors.New("no space left")

func (d *fullDisk) Write(p []byte) (int, error) {
	if d.left -= len(p); d.left < 0 {
		return 0, errNoSpace
	}
	return len(p), nil
}

func exportStops(t *testing.T, address string) {
	s := open(t, address)
	mustAppend(t, s, weighings("ana", 0, 1000)...)
	for _, left := range []int{0, 100_000} {
		if _, err := s.Export(t.Context(), &fullDisk{left}); !errors.Is(err, errNoSpace) {
			t.Errorf("with %d bytes left: %v", left, err)
		}
	}
	if _, err := s.write.ExecContext(t.Context(), `update entry set who = 'ben' where seq = 600`); err != nil {
		t.Fatal(err)
	}
	head, err := s.Export(t.Context(), &bytes.Buffer{})
	if bad, ok := errors.AsType[*record.ChainError](err); !ok || bad.Place != 600 || head.Seq != 599 {
		t.Errorf("a bad entry: head %d, %v", head.Seq, err)
	}
	path := filepath.Join(t.TempDir(), "copy")
	if _, err := s.Backup(t.Context(), path); err == nil {
		t.Error("a bad chain is backed up as if it were good")
	}
	if left, err := os.ReadDir(filepath.Dir(path)); err != nil || len(left) != 0 {
		t.Errorf("a failed backup leaves %v (%v)", left, err)
	}
}

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

// Whatever stands in an export, it is refused by its line or gives a chain that verifies.
func FuzzReadLines(f *testing.F) {
	s := open(f, databases[0].address(f))
	mustAppend(f, s, weighings("ana", 0, 3)...)
	var lines bytes.Buffer
	if _, err := s.Export(f.Context(), &lines); err != nil {
		f.Fatal(err)
	}
	f.Add(lines.Bytes())
	f.Add(lines.Bytes()[:lines.Len()/2])
	f.Add([]byte("\n{}\n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		var written bytes.Buffer
		head, err := record.Verify(record.Head{}, readLines(bytes.NewReader(text)))
		_, line := errors.AsType[*LineError](err)
		_, chain := errors.AsType[*record.ChainError](err)
		if err != nil && !line && !chain {
			t.Fatalf("%T: %v", err, err)
		}
		for e, err := range readLines(bytes.NewReader(text)) {
			if err != nil || e.Seq > head.Seq {
				break
			}
			again, err := e.Line()
			if err != nil {
				t.Fatal(err)
			}
			written.Write(append(again, '\n'))
		}
		if got := bytes.TrimSuffix(text, []byte("\n")); err == nil && !bytes.Equal(bytes.ReplaceAll(got, []byte("\r\n"), []byte("\n")), bytes.TrimSuffix(written.Bytes(), []byte("\n"))) {
			t.Errorf("a good export reads as something else:\n%q\n%q", text, written.Bytes())
		}
	})
}
