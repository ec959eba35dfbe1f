package app

import (
	"context"
	"fmt"
	"io/fs"
	"maps"
	"slices"
	"strings"

	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
	"kettlefrost/internal/store"
)

// UntilOwn says that the book which New was given is only shown, as a demo, until the records that are followed hold a book: that is then in use,
// from the next look on, whoever put it there. It is called before anybody asks for the book.
func (a *App) UntilOwn() { a.shown = true }

// files is where the book is read from. It follows from what the records hold and is kept nowhere, so that readers and whoever begins a kitchen
// cannot disagree. Records that cannot be read show no demo: reading the book from them says what is wrong.
func (a *App) files() fs.FS {
	if !a.shown || a.records == nil {
		return a.folder
	}
	if has, err := a.records.HasBook(context.Background()); err == nil && !has {
		return a.folder
	}
	return a.records.Book()
}

// MayBegin says whether a kitchen of one's own can begin in the records: a demo is shown, and the records hold no book.
func (a *App) MayBegin() bool { return a.shown && a.records != nil && !a.InRecords() }

// demoMark is how the file of the demo's kitchen begins. Who makes the demo their own takes the line out.
const demoMark = "# Invented demo data"

// demoFile is the file that bears the mark.
const demoFile = "kitchen.yaml"

func saysDemo(folder fs.FS) bool {
	text, err := fs.ReadFile(folder, demoFile)
	return err == nil && strings.HasPrefix(string(text), demoMark)
}

// Demo says whether the book in use is the demo's, shown or put into the records.
func (a *App) Demo() bool {
	a.written()
	a.last.mu.Lock()
	defer a.last.mu.Unlock()
	return a.last.demo
}

// BegunError says that the records hold a book already.
type BegunError struct{ Kitchen string }

func (e *BegunError) Error() string {
	return fmt.Sprintf("a kitchen has begun in these records already: %s; nothing was changed", e.Kitchen)
}

// MixedError says that the records hold entries, of which nobody has said that they are of the kitchen that begins.
type MixedError struct{ Entries int }

func (e *MixedError) Error() string {
	if e.Entries == 1 {
		return "the records hold 1 entry already, made while the demo was shown; nothing was changed"
	}
	return fmt.Sprintf("the records hold %d entries already, made while the demo was shown; nothing was changed", e.Entries)
}

// aboutPeople are the kinds of entries that go with a house and not with a book.
var aboutPeople = []record.Kind{record.Person{}.Kind(), record.Signed{}.Kind(), record.Acted{}.Kind(), record.Booked{}.Kind()}

// Happened is how many entries stand that say something of food, stock or orders: entries about who works here are not counted.
func (r *Records) Happened(ctx context.Context) (n int, err error) {
	if err := r.bring(ctx); err != nil {
		return 0, err
	}
	r.mu.RLock()
	defer r.mu.RUnlock()
	for e := range r.standing.All() {
		if !slices.Contains(aboutPeople, e.Kind) {
			n++
		}
	}
	return n, nil
}

// Begin puts files into records that hold no book: it is in use from then on. The same id begins once, however often it is sent. Ours says that
// the entries which the records hold are of this kitchen. Errors are *BegunError, *MixedError, *StopsError for files that could not be planned
// with, *people.DeniedError and *store.Error.
func (a *App) Begin(ctx context.Context, id record.ID, by Author, ours bool, files map[string]string) error {
	a.begins.Lock() // of two who begin at once, one is told
	defer a.begins.Unlock()
	if a.records == nil {
		return fmt.Errorf("no records are kept")
	}
	if _, there, err := a.records.store.ByID(ctx, id); there || err != nil {
		return err
	}
	if has, err := a.records.HasBook(ctx); has || err != nil {
		book, _ := a.Book()
		return firstError(err, &BegunError{book.Kitchen.Name})
	}
	if n, err := a.records.Happened(ctx); err != nil || n > 0 && !ours {
		return firstError(err, &MixedError{n})
	}
	if found, err := a.CheckFiles(ctx, files); err != nil || found.Worst() >= finding.Stop {
		return firstError(err, &StopsError{found})
	}
	var edits []Edit
	for _, name := range slices.Sorted(maps.Keys(files)) {
		edits = append(edits, Edit{Path: name, Text: files[name]})
	}
	return a.SaveBook(ctx, a.records, id, by, edits...)
}

func firstError(err, other error) error {
	if err != nil {
		return err
	}
	return other
}

// CheckFiles is what is wrong with files as the book of records that hold none, each finding at its place. Errors are *store.Error.
func (a *App) CheckFiles(ctx context.Context, files map[string]string) (finding.List, error) {
	now, err := a.records.BookFiles(ctx)
	if err != nil {
		return nil, err
	}
	var changes []store.Change
	for name, text := range files {
		changes = append(changes, store.Change{Path: name, Text: text})
	}
	_, found := a.read(now.With(changes...))
	found.Sort()
	return found, nil
}

// BeginDemo puts the demo that is shown into the records, so that all of it can be changed. Errors are as of Begin.
func (a *App) BeginDemo(ctx context.Context, id record.ID, by Author, ours bool) error {
	files := map[string]string{}
	err := fs.WalkDir(a.folder, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := fs.ReadFile(a.folder, name)
		files[name] = string(text)
		return err
	})
	if err != nil {
		return err
	}
	return a.Begin(ctx, id, by, ours, files)
}

// EmptyBook is a book that says nothing but whose kitchen it is: a name, a place, units and the sign of its money. The error is what cannot be
// written.
func EmptyBook(k kitchen.Kitchen) (map[string]string, error) {
	files, err := bookfile.Write(kitchen.Book{Kitchen: k})
	texts := map[string]string{}
	for name, text := range files {
		texts[name] = string(text)
	}
	return texts, err
}
