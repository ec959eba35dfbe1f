package app

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io/fs"

	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
)

// BookEdit is what changes make of the book.
type BookEdit struct {
	Files []FileEdit   // the files that are otherwise, in the order of their names; none when the changes change nothing
	Book  kitchen.Book // as it would be planned with: with what is on hand by the records
	Found finding.List // what is then found in it
	Stops bool         // they would put a book out of use that can be planned with now
	Saved bool         // the book is in the records and has the changes; otherwise somebody has to write the files
}

// FileEdit is one file before and after.
type FileEdit struct {
	Name          string
	Before, After string // Before is empty for a new file, After for one that is to be removed
	New, Removed  bool
}

// Lines are the lines that came and went.
func (f FileEdit) Lines() []DiffLine { return Diff(f.Before, f.After) }

// TryBook is what changes would make of the book; nothing is changed. Errors are *bookfile.EditError.
func (a *App) TryBook(changes ...bookfile.Change) (BookEdit, error) {
	return a.tryBook(snapshot(a.files()), changes)
}

func (a *App) tryBook(folder fs.FS, changes []bookfile.Change) (BookEdit, error) {
	edited, err := bookfile.Edit(folder, changes...)
	if err != nil {
		return BookEdit{}, err
	}
	b := BookEdit{Book: edited.Book, Found: kitchen.Check(edited.Book, a.knows)}
	for _, name := range edited.Names() {
		text := edited.Files[name]
		before, err := fs.ReadFile(folder, name)
		b.Files = append(b.Files, FileEdit{Name: name, Before: string(before), After: string(text), New: err != nil, Removed: text == nil})
	}
	if b.Found.Worst() == finding.Stop {
		_, now := a.read(folder)
		b.Stops = now.Worst() < finding.Stop
	}
	book, found := a.stocked(b.Book)
	b.Book, b.Found = book, append(b.Found, found...)
	b.Found.Sort()
	return b, nil
}

// EditBook makes changes of the book, all or none: of a book in the records at once and once for an id, however often it is sent; of a book
// in a folder it says what its files should be (Saved is false) and writes nothing. Errors are *bookfile.EditError for changes that
// cannot be made, *StopsError for those that would put the book out of use, *ChangedError when somebody else changed a file
// meanwhile, *people.DeniedError for who may not, and *store.Error.
func (a *App) EditBook(ctx context.Context, id record.ID, by Author, changes ...bookfile.Change) (BookEdit, error) {
	if done, err := a.sentBefore(ctx, id); done || err != nil {
		return BookEdit{Saved: done}, err
	}
	files := a.files()
	k, inRecords := files.(kept)
	folder := snapshot(files)
	b, err := a.tryBook(folder, changes)
	switch {
	case err != nil:
		return b, err
	case b.Stops:
		return b, &StopsError{b.Found}
	case !inRecords:
		return b, nil
	}
	var edits []Edit
	for _, f := range b.Files {
		edits = append(edits, Edit{Path: f.Name, Text: f.After, Deleted: f.Removed, Base: versionIn(folder, f.Name)})
	}
	if err := a.SaveBook(ctx, k.r, id, by, edits...); err != nil {
		return b, err
	}
	b.Saved = true
	return b, nil
}

// sentBefore says that changes with this id are made already: made again, what was inserted would be there twice.
func (a *App) sentBefore(ctx context.Context, id record.ID) (bool, error) {
	k, inRecords := a.files().(kept)
	if !inRecords || id == (record.ID{}) {
		return false, nil
	}
	_, there, err := k.r.store.ByID(ctx, id)
	return there, err
}

// Mark is one word for the files that would be changed, as they are: a form carries it, so that what is done is what was shown.
func (b BookEdit) Mark() string {
	sum := sha256.New()
	for _, f := range b.Files {
		fmt.Fprintf(sum, "%s %d\n%s", f.Name, len(f.Before), f.Before)
	}
	return hex.EncodeToString(sum.Sum(nil)[:8])
}

// versionIn is the number of the version of a file in a book of the records; 0 for a new file.
func versionIn(folder fs.FS, name string) uint64 {
	book, ok := folder.(interface {
		Version(name string) (BookVersion, bool)
	})
	if !ok {
		return 0
	}
	v, _ := book.Version(name)
	return v.Seq
}
