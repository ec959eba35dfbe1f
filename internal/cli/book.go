package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
)

// bookFlag is how every command that needs a book is told which.
type bookFlag struct {
	recordsFlag
	Book string `placeholder:"DIR" help:"Folder of the kitchen's book, or store for the one that the records keep. When left out: KETTLEFROST_BOOK, else the book in the records if they keep one, else that in whose folder they lie, else the demo kitchen."`
}

// house is a kitchen's book and where it stands.
type house struct {
	*app.App
	folder  string       // "" is the demo, or the book in the records
	kept    bool         // it is the book in the records
	records *app.Records // nil when none are kept
	around  string       // the folder that the records lie in, when it is that of a book; "" else
}

// inRecords is what --book says for the book that the records keep. A folder of that name is ./store.
const inRecords = "store"

// open finds the book: in the folder that is named, by the flag or else by the environment; in the records when it is named store, or when no
// folder is named and they keep one; else it is that around the records, or the demo.
func (b bookFlag) open(s *surroundings) (house, error) {
	folder, place := b.Book, "--book"
	if folder == "" {
		folder, place = s.getenv("KETTLEFROST_BOOK"), "KETTLEFROST_BOOK"
	}
	b.beside(s)
	h := house{around: b.recordsFlag.bookAround(s)}
	if b.recordsFlag.kept(s) {
		records, err := b.recordsFlag.open(s)
		if err != nil {
			return house{}, err
		}
		s.closers = append(s.closers, records.Close)
		h.records = records
	}
	files, err := h.find(s, folder, place)
	if err != nil {
		return house{}, err
	}
	h.App, err = app.New(files, s.now)
	if err == nil && h.records != nil {
		h.Follow(h.records)
		if !h.kept && h.folder == "" {
			h.UntilOwn()
		}
	}
	return h, err
}

// openKept finds the book and the records, which have to be kept.
func (b bookFlag) openKept(s *surroundings) (house, error) {
	h, err := b.open(s)
	if err == nil && h.records == nil {
		_, err = b.recordsFlag.open(s) // says how to say where they are
	}
	return h, err
}

// find is the files of the book.
func (h *house) find(s *surroundings, folder, place string) (fs.FS, error) {
	has := false
	if h.records != nil && (folder == "" || folder == inRecords) {
		var err error
		if has, err = h.records.HasBook(s.ctx); err != nil {
			return nil, failure{code: failed, what: err.Error()}
		}
	}
	switch {
	case has:
		h.kept = true
		return h.records.Book(), nil
	case folder == inRecords:
		return nil, failure{badUsage, place + " " + inRecords, "the records keep no book", "give --records, and kettlefrost book import DIR puts one into them; a folder of this name is ./" + inRecords}
	case folder == "" && h.around != "":
		folder = h.around
	case folder == "":
		s.say("no --book is given: this is the demo kitchen, all of it invented")
		return demo.Book(), nil
	}
	if wrong := notFolder(folder); wrong != "" {
		return nil, failure{badUsage, place + " " + folder, wrong, "give the folder that holds the book's .yaml files; kettlefrost demo DIR writes one to start from"}
	}
	h.folder = folder
	return os.DirFS(folder), nil
}

// notFolder is why a name cannot be a book's folder, or "".
func notFolder(name string) string {
	info, err := os.Stat(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return "there is no such folder"
	case err != nil:
		return "cannot be read: " + reason(err)
	case !info.IsDir():
		return "this is a file, not a folder"
	}
	return ""
}

// name is the book as a person would point at it.
func (h house) name() string {
	switch {
	case h.kept:
		return "the book in the records"
	case h.folder == "":
		return "the demo book"
	}
	return h.folder
}

// read is the book and what is wrong with it. Places in its files are as seen from here, so that an editor can jump to them.
func (h house) read() (kitchen.Book, finding.List) {
	book, found := h.Book()
	for i, f := range found {
		if f.At != nil && h.folder != "" {
			at := *f.At
			at.File = filepath.Join(h.folder, filepath.FromSlash(at.File))
			found[i].At = &at
		}
	}
	return book, found
}

// sound is the book, when it can be planned with; otherwise the error lists what is wrong with it.
func (h house) sound(s *surroundings) (kitchen.Book, error) {
	book, found := h.read()
	if found.Worst() == finding.Stop {
		return book, mistaken(h.name(), found)
	}
	if len(found) > 0 {
		s.say("%s: %s; kettlefrost check lists them", h.name(), tally(found))
	}
	return book, nil
}

// mistaken is the error of a book or request that cannot be planned with, each stop on a line of its own.
func mistaken(name string, found finding.List) error {
	var lines []string
	for _, f := range found {
		if f.Severity == finding.Stop {
			lines = append(lines, f.String())
		}
	}
	return failure{code: mistakes, place: name, what: fmt.Sprintf("mend this first, nothing was planned:\n%s", strings.Join(lines, "\n"))}
}

// tally counts findings in words.
func tally(found finding.List) string {
	counts := map[finding.Severity]int{}
	for _, f := range found {
		counts[f.Severity]++
	}
	var parts []string
	for severity := finding.Stop; severity >= finding.Note; severity-- {
		if n := counts[severity]; n == 1 {
			parts = append(parts, "1 "+severity.String())
		} else if n > 1 {
			parts = append(parts, fmt.Sprintf("%d %ss", n, severity))
		}
	}
	if parts == nil {
		return "no findings"
	}
	return strings.Join(parts, ", ")
}
