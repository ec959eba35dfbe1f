package bookfile_test

import (
	"bytes"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/finding"
)

func TestFoldersThatAreNoBook(t *testing.T) {
	big := strings.Repeat("# a long comment\n", 300_000)
	for _, c := range []struct {
		name     string
		files    fs.FS
		code, at string
		severity finding.Severity
	}{
		{"missing folder", os.DirFS(filepath.Join(t.TempDir(), "none")), bookfile.CodeMissingFolder, "", finding.Stop},
		{"empty folder", fstest.MapFS{}, bookfile.CodeEmpty, "", finding.Stop},
		{"other files only", fstest.MapFS{"README.md": {}, ".git/x.yaml": {Data: []byte("a: [")}, ".hidden.yaml": {Data: []byte("a: [")}}, bookfile.CodeEmpty, "", finding.Stop},
		{"a short ending", folder(house, "dal.yml", "a: ["), bookfile.CodeOtherFile, "dal.yml", finding.Caution},
		{"a large file", folder(house, "big.yaml", big), bookfile.CodeTooBig, "big.yaml", finding.Stop},
		{"not a file", fstest.MapFS{"book.yaml": {Data: []byte(house)}, "pipe.yaml": {Mode: fs.ModeNamedPipe}}, bookfile.CodeUnreadable, "pipe.yaml", finding.Stop},
		{"a file that cannot be opened", locked{folder(house, "people.yaml", "")}, bookfile.CodeUnreadable, "people.yaml", finding.Stop},
		{"no kitchen", folder("suppliers:\n  mill: {name: Mill}\n"), bookfile.CodeMissingKey, "", finding.Stop},
		{"comments only", folder("# nothing yet\n"), bookfile.CodeMissingKey, "", finding.Stop},
	} {
		t.Run(c.name, func(t *testing.T) {
			l := bookfile.Read(c.files)
			if len(l.Findings) != 1 {
				t.Fatalf("got\n%s", lines(l.Findings))
			}
			f, at := l.Findings[0], ""
			if f.At != nil {
				at = f.At.String()
			}
			if f.Code != c.code || at != c.at || f.Severity != c.severity || f.Message == "" || f.Fix == "" || f.Where == "" {
				t.Errorf("got %s %q %+v", f.Severity, at, f)
			}
		})
	}
}

// locked is a folder whose people.yaml may not be opened.
type locked struct{ fs.FS }

func (l locked) Open(name string) (fs.File, error) {
	if name == "people.yaml" {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrPermission}
	}
	return l.FS.Open(name)
}

func TestLinksOutOfTheFolderAreNotFollowed(t *testing.T) {
	outside, inside := t.TempDir(), t.TempDir()
	write := func(name, text string) {
		if err := os.WriteFile(name, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	write(filepath.Join(outside, "secret.yaml"), "suppliers:\n  mill: {name: Mill}\n")
	write(filepath.Join(inside, "book.yaml"), house)
	for link, to := range map[string]string{"secret.yaml": filepath.Join(outside, "secret.yaml"), "more": outside} {
		if err := os.Symlink(to, filepath.Join(inside, link)); err != nil {
			t.Skip(err)
		}
	}
	root, err := os.OpenRoot(inside)
	if err != nil {
		t.Fatal(err)
	}
	defer root.Close()
	l := bookfile.Read(root.FS())
	if len(l.Findings) != 1 || l.Findings[0].Code != bookfile.CodeUnreadable || l.Findings[0].At.File != "secret.yaml" || len(l.Book.Suppliers) != 0 {
		t.Errorf("got\n%s%v", lines(l.Findings), l.Book.Suppliers)
	}
}

// Files that are built to be slow or large are refused or read, not grown: an alias is never followed, nesting is limited.
func TestHostileFiles(t *testing.T) {
	laughs := "a: &a [x, x, x, x, x, x, x, x, x]\n"
	for c := 'b'; c < 'z'; c++ {
		laughs += fmt.Sprintf("%c: &%c [%s]\n", c, c, strings.TrimSuffix(strings.Repeat(fmt.Sprintf("*%c, ", c-1), 9), ", "))
	}
	for name, text := range map[string]string{
		"laughs":       laughs,
		"itself":       "suppliers: &s\n  mill: *s\n",
		"deep list":    "people: " + strings.Repeat("[", 1_000_000),
		"deep group":   "people: " + strings.Repeat("{a: ", 500_000),
		"deep dashes":  strings.Repeat("- ", 500_000),
		"deep closed":  "people: " + strings.Repeat("[", 5000) + strings.Repeat("]", 5000),
		"unknown keys": house + strings.Repeat("x: y\n", 200_000),
	} {
		t.Run(name, func(t *testing.T) {
			l := bookfile.Read(folder(text))
			if l.Findings.Worst() != finding.Stop {
				t.Error("nothing to complain about")
			}
			if len(l.Findings) > 1001 {
				t.Errorf("%d findings are listed", len(l.Findings))
			}
		})
	}
}

func TestTooManyMistakesAreCounted(t *testing.T) {
	l := bookfile.Read(folder(house + strings.Repeat("x: y\n", 1500)))
	last := l.Findings[len(l.Findings)-1]
	if len(l.Findings) != 1001 || last.Code != bookfile.CodeTooMany || !strings.HasPrefix(last.Message, "500 more") {
		t.Errorf("%d findings, last %+v", len(l.Findings), last)
	}
}

func TestBookOfTenThousandLines(t *testing.T) {
	var text bytes.Buffer
	text.WriteString(house + "suppliers:\n")
	for i := range 10_000 {
		fmt.Fprintf(&text, "  s%d: {name: Supplier %d}\n", i, i)
	}
	l := bookfile.Read(folder(text.String()))
	if len(l.Findings) != 0 || len(l.Book.Suppliers) != 10_000 {
		t.Errorf("%d suppliers\n%s", len(l.Book.Suppliers), lines(l.Findings))
	}
	if at := l.Positions["suppliers.s9999"]; at.Line != 10_002 || at.Column != 3 {
		t.Errorf("the last supplier stands at %v", at)
	}
}
