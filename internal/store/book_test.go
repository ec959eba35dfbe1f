package store

import (
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"sync"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"

	"kettlefrost/demo"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/record"
)

func ana(at record.Instant) Author {
	return Author{Who: "ana", Device: "laptop", Site: "kitchen", When: 1_764_072_000_000 + at}
}

func files(t testing.TB, s *Store) *Book {
	t.Helper()
	book, err := s.Files(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	return book
}

// contents are all files of a folder.
func contents(t testing.TB, folder fs.FS) map[string]string {
	t.Helper()
	texts, err := readFolder(folder)
	if err != nil {
		t.Fatal(err)
	}
	return texts
}

func mustImport(t testing.TB, s *Store, folder fs.FS, by Author) []record.Entry {
	t.Helper()
	entries, err := s.ImportBook(t.Context(), folder, by)
	if err != nil {
		t.Fatal(err)
	}
	return entries
}

func demoBook(t *testing.T, address string) {
	s := open(t, address)
	source := demo.Book()
	entries := mustImport(t, s, source, ana(0))
	want := contents(t, source)
	if len(want) < 10 || len(entries) != len(want) {
		t.Fatalf("%d entries for %d files", len(entries), len(want))
	}
	book := files(t, s)
	if err := fstest.TestFS(book, slices.Sorted(maps.Keys(want))...); err != nil {
		t.Error(err)
	}
	if want, got := bookfile.Read(source), bookfile.Read(book); !reflect.DeepEqual(want, got) || len(got.Book.Dishes) == 0 {
		t.Errorf("the book is read otherwise: %d dishes and the findings %v", len(got.Book.Dishes), got.Findings)
	}
	folder := filepath.Join(t.TempDir(), "out")
	if err := os.CopyFS(folder, book); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(want, contents(t, os.DirFS(folder))); diff != "" {
		t.Errorf("written out it is not the same:\n%s", diff)
	}
	if again := mustImport(t, s, os.DirFS(folder), ana(1)); len(again) != 0 {
		t.Errorf("importing the same folder again writes %d entries", len(again))
	}
	intact(t, s, len(want))
}

func oddFiles(t *testing.T, address string) {
	s := open(t, address)
	want := fstest.MapFS{}
	for name, text := range map[string]string{
		"empty.yaml": "", "no-newline.yaml": "a: 1", "dos.yaml": "a: 1\r\nb: 2\r\n", "mark.yaml": "\ufeffa: 1\n", "html.yaml": "<b>&amp;</b>\u2028\u2029\n",
		"tab.yaml": "a:\t1 \\ \"2\"", "deep/er/jalapeño 🌶.yaml": "ñ🌶\n", "big.yaml": strings.Repeat("0123456789\n", 90_000), "README": "read me\n",
		"lost.yaml": "a\ufffd \"b\"\n", // the character that stands for a lost one is one as any other
	} {
		want[name] = &fstest.MapFile{Data: []byte(text), Mode: 0o644}
	}
	full := maps.Clone(want)
	full[".git/config"] = &fstest.MapFile{Data: []byte("hidden")}
	full["deep/.swp"] = &fstest.MapFile{Data: []byte("hidden")}
	mustImport(t, s, full, ana(0))
	s.Close()
	if diff := cmp.Diff(contents(t, want), contents(t, files(t, open(t, address)))); diff != "" {
		t.Error(diff)
	}
	for name, bad := range map[string]Change{
		"no name":          {Path: ""},
		"the folder above": {Path: "../a.yaml"},
		"a backslash":      {Path: `a\b.yaml`},
		"not UTF-8":        {Path: "latin.yaml", Text: "jalape\xf1o"},
		"too long":         {Path: "long.yaml", Text: strings.Repeat("x", 1<<20+1)},
		"a nul":            {Path: "nul.yaml", Text: "a\x00b"},
		"a file's folder":  {Path: "README/a.yaml", Text: "a"},
		"a folder":         {Path: "deep", Text: "a"},
	} {
		bad.ID = record.ID{7}
		s := open(t, address)
		_, err := s.Book(t.Context(), ana(1), Change{ID: record.ID{6}, Path: "good.yaml"}, bad)
		t.Run(name, func(t *testing.T) { wantCode(t, err, BadFile) })
		intact(t, s, len(want))
	}
}

func versions(t *testing.T, address string) {
	s := open(t, address)
	change := func(id byte, base uint64, text string, deleted bool) uint64 {
		t.Helper()
		got, err := s.Book(t.Context(), ana(record.Instant(id)), Change{ID: record.ID{id}, Path: "soup.yaml", Text: text, Deleted: deleted, Base: base})
		if err != nil {
			t.Fatal(err)
		}
		return got[0].Seq
	}
	first := change(1, 0, "salt: 1 g\n", false)
	old := files(t, s)
	second := change(2, first, "salt: 2 g\n", false)
	if again := change(1, 0, "salt: 1 g\n", false); again != first {
		t.Errorf("sent again, the first version became number %d", again)
	}
	_, err := s.Book(t.Context(), ana(9), Change{ID: record.ID{9}, Path: "soup.yaml", Text: "salt: 3 g\n", Base: first})
	if late, ok := errors.AsType[*ChangedError](err); !ok || late.Now.Seq != second || late.Now.Number != 2 || late.Now.Text != "salt: 2 g\n" {
		t.Errorf("a change of an old version: %v", err)
	}
	third := change(3, second, "", true)
	if _, err := files(t, s).Open("soup.yaml"); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("a deleted file: %v", err)
	}
	change(4, 0, "salt: 4 g\n", false)
	want := []Version{
		{Path: "soup.yaml", Text: "salt: 1 g\n", Number: 1, Seq: first, Who: "ana", Device: "laptop", When: ana(1).When},
		{Path: "soup.yaml", Text: "salt: 2 g\n", Number: 2, Seq: second, Who: "ana", Device: "laptop", When: ana(2).When},
		{Path: "soup.yaml", Deleted: true, Number: 3, Seq: third, Who: "ana", Device: "laptop", When: ana(3).When},
		{Path: "soup.yaml", Text: "salt: 4 g\n", Number: 4, Seq: third + 1, Who: "ana", Device: "laptop", When: ana(4).When},
	}
	got, err := s.Versions(t.Context(), "soup.yaml")
	if diff := cmp.Diff(want, got); err != nil || diff != "" {
		t.Errorf("%v\n%s", err, diff)
	}
	if now, found := files(t, s).Version("soup.yaml"); !found || now != want[3] {
		t.Errorf("current: %+v", now)
	}
	if text, err := fs.ReadFile(old, "soup.yaml"); err != nil || string(text) != "salt: 1 g\n" {
		t.Errorf("the book as it was then reads %q now, %v", text, err)
	}
}

// oneWins: of many who change the same version at the same moment, in several programs, one succeeds and the others are told.
func oneWins(t *testing.T, address string) {
	stores := []*Store{open(t, address), open(t, address), open(t, address)}
	base := mustImport(t, stores[0], fstest.MapFS{"soup.yaml": {Data: []byte("0")}}, ana(0))[0].Seq
	var group sync.WaitGroup
	won := make(chan int, 12)
	for i := range cap(won) {
		group.Go(func() {
			_, err := stores[i%3].Book(t.Context(), ana(1), Change{ID: record.ID{byte(i + 1)}, Path: "soup.yaml", Text: fmt.Sprint(i), Base: base})
			if _, late := errors.AsType[*ChangedError](err); err == nil {
				won <- i
			} else if !late {
				t.Error(err)
			}
		})
	}
	group.Wait()
	close(won)
	winner := <-won
	if text, err := fs.ReadFile(files(t, stores[2]), "soup.yaml"); err != nil || string(text) != fmt.Sprint(winner) {
		t.Errorf("%d won and the file reads %q (%v)", winner, text, err)
	}
	if second, more := <-won; more {
		t.Errorf("%d and %d both changed the same version", winner, second)
	}
	intact(t, stores[1], 2)
}

// folderFollowed: importing a changed folder writes what changed and nothing else.
func folderFollowed(t *testing.T, address string) {
	s := open(t, address)
	mustImport(t, s, fstest.MapFS{"a.yaml": {Data: []byte("a")}, "b.yaml": {Data: []byte("b")}, "d/c.yaml": {Data: []byte("c")}}, ana(0))
	next := fstest.MapFS{"a.yaml": {Data: []byte("a")}, "b.yaml": {Data: []byte("B")}, "d": {Data: []byte("now a file")}}
	if got := mustImport(t, s, next, ana(1)); len(got) != 3 {
		t.Errorf("%d entries for a changed, a new and a deleted file", len(got))
	}
	if diff := cmp.Diff(contents(t, next), contents(t, files(t, s))); diff != "" {
		t.Error(diff)
	}
}
