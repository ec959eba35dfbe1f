// Package bookfile reads and writes a kitchen's book as a folder of YAML files, and publishes their schema.
//
// The files are a plain part of YAML: groups of keys, lists and single values. Values are read as they are written: 010, 1.10 and
// 0x10 are text until the type of the field reads them, so YAML's own ideas about numbers, dates and yes/no play no part. Anchors,
// aliases, merge keys, tags and several documents in one file are refused. Any file may hold any sections of the book; no entry
// may stand in two places.
//
// Everything that is wrong is reported at once, as findings with the file, line and column. Nothing here knows food: what the
// entries mean is checked by kitchen.Check.
package bookfile

import (
	"cmp"
	"fmt"
	"io/fs"
	"slices"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
)

// The codes of what can be wrong with the files.
const (
	CodeMissingFolder = "book-missing-folder" // the folder is not there or cannot be listed
	CodeEmpty         = "book-empty"          // no .yaml file in the folder
	CodeUnreadable    = "book-unreadable"     // a file or folder inside cannot be opened
	CodeOtherFile     = "book-other-file"     // a .yml file, which is not read
	CodeTooBig        = "book-too-big"        // a file or the whole book is larger than is read
	CodeNotUTF8       = "book-not-utf8"       // not a text file in UTF-8
	CodeControl       = "book-control-character"
	CodeSyntax        = "book-syntax"        // not YAML
	CodeRefused       = "book-refused-yaml"  // anchors, aliases, merge keys, tags, several documents
	CodeUnknownKey    = "book-unknown-key"   // a key that the book does not have
	CodeDuplicateKey  = "book-duplicate-key" // a key or entry given twice
	CodeMissingKey    = "book-missing-key"   // a key that must be given
	CodeEmptyValue    = "book-empty-value"   // a key with nothing after it
	CodeWrongShape    = "book-wrong-shape"   // a list where a single value should be, and the like
	CodeBadQuantity   = "book-bad-quantity"  // an amount, time or other quantity that cannot be read
	CodeBadNumber     = "book-bad-number"    // a plain number that cannot be read
	CodeBadChoice     = "book-bad-choice"    // not one of the words that may stand there
	CodeTooMany       = "book-too-many"      // more findings than are listed
)

const (
	maxFileBytes = 4 << 20  // one file; a book of 10,000 lines is about a tenth of it
	maxBookBytes = 64 << 20 // all files of a book
	maxFindings  = 1000     // listed for one book; a file of noise could give a million
)

// Loaded is what was read from a book's files.
type Loaded struct {
	Book      kitchen.Book
	Findings  finding.List                // what is wrong with the files, in the order of the files; with a Stop among them Book is not to be used
	Positions map[string]finding.Position // where each path of the book stands, such as dishes.dal.steps[2].use[0].amount
}

// Read reads every .yaml file of a folder and the folders in it as one book. Files and folders whose name begins with a dot are
// left out. It reports everything it finds wrong, and leaves what it cannot read at its zero value.
func Read(fsys fs.FS) Loaded {
	d := newDecoder()
	texts, failed := readFiles(fsys, d)
	var book kitchen.Book
	for _, t := range texts {
		root, ok := d.parse(t.name, t.text)
		if !ok {
			failed = true
			continue
		}
		d.sections(root, &book)
	}
	if !failed {
		d.missingSections()
	}
	return Loaded{Book: book, Findings: d.list(), Positions: d.positions}
}

// ReadRequest reads one request from the text of a file; name is the file's name in findings.
func ReadRequest(name string, text []byte) (kitchen.Request, finding.List) {
	d := newDecoder()
	var request kitchen.Request
	if root, ok := d.parse(name, text); ok {
		d.single(root, &request, "the request")
	}
	return request, d.list()
}

// ReadActual reads what really happened in a run from the text of a file; name is the file's name in findings.
func ReadActual(name string, text []byte) (kitchen.Actual, finding.List) {
	d := newDecoder()
	var actual kitchen.Actual
	if root, ok := d.parse(name, text); ok {
		d.single(root, &actual, "what really happened")
	}
	return actual, d.list()
}

// Place fills in where findings about the book stand in its files: the position of their path, or of the nearest larger thing
// around it that has one. Findings that have a position or no path are left as they are.
func (l Loaded) Place(findings finding.List) finding.List {
	placed := slices.Clone(findings)
	for i, f := range placed {
		if f.At != nil {
			continue
		}
		for path := f.Path; path != ""; path = shorten(path) {
			if at, ok := l.Positions[path]; ok {
				placed[i].At = &at
				break
			}
		}
	}
	return placed
}

// shorten takes the last step off a path.
func shorten(path string) string { return path[:max(0, strings.LastIndexAny(path, ".["))] }

// list is what was found, in the order of the files, and no more than fits on a screen that somebody still reads.
func (d *decoder) list() finding.List {
	slices.SortStableFunc(d.findings, func(a, b finding.Finding) int {
		p, q := position(a), position(b)
		return cmp.Or(cmp.Compare(p.File, q.File), cmp.Compare(p.Line, q.Line), cmp.Compare(p.Column, q.Column))
	})
	if more := d.dropped; more > 0 {
		d.findings = append(d.findings, finding.Finding{
			Code: CodeTooMany, Severity: finding.Stop, Where: "the book's files",
			Message: fmt.Sprintf("%d more mistakes are not listed", more), Fix: "mend the first ones and read the book again",
		})
	}
	return d.findings
}

func position(f finding.Finding) finding.Position {
	if f.At == nil {
		return finding.Position{}
	}
	return *f.At
}
