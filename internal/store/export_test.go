package store

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

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
