package app

import (
	"context"
	"crypto/rand"
	"fmt"
	"io/fs"
	"path"
	"strings"
	"time"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
	"kettlefrost/internal/store"
)

// Author is who changes the book, with what and when.
type Author struct {
	Who, Device string
	At          time.Time
}

func (a Author) stored() store.Author {
	return store.Author{Who: a.Who, Device: a.Device, When: record.Instant(a.At.UnixMilli())}
}

// kept is the book in the records as a folder: what it is at each use.
type kept struct{ r *Records }

// Open opens a file as it is now.
func (k kept) Open(name string) (fs.File, error) {
	book, err := k.now()
	if err != nil {
		return nil, &fs.PathError{Op: "open", Path: name, Err: err}
	}
	return book.Open(name)
}

func (k kept) now() (*store.Book, error) { return k.r.BookFiles(context.Background()) }

// snapshot is a folder that stays as it is while the book is read from it; one on the disk is read as it comes.
func snapshot(folder fs.FS) fs.FS {
	if k, ok := folder.(kept); ok {
		if book, err := k.now(); err == nil {
			return book
		}
	}
	return folder // reading it says what is wrong
}

// Book is the book in the records as a folder that follows every change, for New.
func (r *Records) Book() fs.FS { return kept{r} }

// BookFiles is the book in the records as it is now. It is empty when there is none.
func (r *Records) BookFiles(ctx context.Context) (*store.Book, error) {
	book, err := r.store.Files(ctx)
	if err != nil {
		return nil, err
	}
	return book.Visible(), nil
}

// HasBook says whether the records hold a book.
func (r *Records) HasBook(ctx context.Context) (bool, error) {
	book, err := r.BookFiles(ctx)
	return err == nil && len(book.Names()) > 0, err
}

// ImportBook makes the book in the records the same as a folder, byte for byte; drafts stay. It returns what was written: nothing when nothing
// differs.
func (r *Records) ImportBook(ctx context.Context, folder fs.FS, by Author) ([]record.Entry, error) {
	if err := r.mayBook(ctx, by); err != nil {
		return nil, err
	}
	return r.store.ImportBook(ctx, folder, by.stored())
}

// mayBook says whether who acts may change the book.
func (r *Records) mayBook(ctx context.Context, by Author) error {
	e, err := Said{Who: by.Who, Device: by.Device, At: by.At, Body: record.Booked{Path: "any", Text: "any"}}.entry()
	if err != nil {
		return err
	}
	return r.people.allow(ctx, []record.Entry{e})
}

// BookLog is every version of every file, the latest first; of one file when it is named. Drafts are left out.
func (r *Records) BookLog(ctx context.Context, file string) (log []store.Version, err error) {
	for v, err := range r.store.Log(ctx) {
		if err != nil {
			return nil, err
		}
		if (file == "" && !store.Hidden(v.Path)) || v.Path == file {
			log = append(log, v)
		}
	}
	for i, j := 0, len(log)-1; i < j; i, j = i+1, j-1 {
		log[i], log[j] = log[j], log[i]
	}
	return log, nil
}

// Edit is what somebody wants a file of the book to be. Base is the Seq of the version that was worked on; 0 for a new file.
type Edit struct {
	Path, Text string
	Deleted    bool
	Base       uint64
}

// StopsError is a change after which the book could not be planned with. Nothing was changed.
type StopsError struct{ Found finding.List }

func (e *StopsError) Error() string {
	stops := 0
	for _, f := range e.Found {
		if f.Severity == finding.Stop {
			stops++
		}
	}
	return fmt.Sprintf("the book could not be planned with after this change (%d to mend): mend it, or keep it as a draft", stops)
}

// BookCheck is what is found in the book as it would be with some changes.
type BookCheck struct {
	Found finding.List
	Stops bool // they would put a book out of use that can be planned with now
}

// CheckEdits reads the book as it would be with some changes.
func (a *App) CheckEdits(ctx context.Context, r *Records, edits ...Edit) (c BookCheck, err error) {
	now, err := r.BookFiles(ctx)
	if err != nil {
		return c, err
	}
	_, c.Found = a.read(now.With(changes(record.ID{}, edits)...))
	if c.Found.Worst() == finding.Stop {
		_, before := a.read(now)
		c.Stops = before.Worst() < finding.Stop
	}
	c.Found.Sort()
	return c, nil
}

// changes are edits with the ids of their entries; without an id one is drawn.
func changes(id record.ID, edits []Edit) []store.Change {
	if id == (record.ID{}) {
		rand.Read(id[:]) // never fails (crypto/rand)
	}
	var all []store.Change
	for i, e := range edits {
		all = append(all, store.Change{ID: PartID(id, i), Path: e.Path, Text: e.Text, Deleted: e.Deleted, Base: e.Base})
	}
	return all
}

// SaveBook changes files of the book, all or none, once for an id however often it is sent. A change that would put the book out of use is a
// *StopsError; one of a file that somebody else changed meanwhile is a *store.ChangedError. Other errors are *store.Error.
func (a *App) SaveBook(ctx context.Context, r *Records, id record.ID, by Author, edits ...Edit) error {
	if err := r.mayBook(ctx, by); err != nil {
		return err
	}
	check, err := a.CheckEdits(ctx, r, edits...)
	if err != nil {
		return err
	}
	if check.Stops {
		return &StopsError{check.Found}
	}
	if len(edits) == 0 {
		return nil
	}
	all := changes(id, edits)
	drafts, err := r.drafts(ctx)
	if err != nil {
		return err
	}
	for _, e := range edits { // what was worked on is done
		if d, there := drafts.Version(draftOf(e.Path)); there {
			all = append(all, store.Change{ID: PartID(all[0].ID, len(all)), Path: d.Path, Deleted: true, Base: d.Seq})
		}
	}
	_, err = r.store.Book(ctx, by.stored(), all...)
	return err
}

// Drafts are kept beside the book, where nothing reads them as part of it.
const draftFolder = ".drafts/"

func draftOf(file string) string { return draftFolder + file }

func (r *Records) drafts(ctx context.Context) (*store.Book, error) { return r.store.Files(ctx) }

// KeepDraft keeps what somebody works on without putting it into use. The Base of the edit is that of the draft, 0 for a new one.
func (r *Records) KeepDraft(ctx context.Context, id record.ID, by Author, e Edit) error {
	if err := r.mayBook(ctx, by); err != nil {
		return err
	}
	if e.Deleted {
		e.Text = ""
	}
	_, err := r.store.Book(ctx, by.stored(), changes(id, []Edit{{Path: draftOf(e.Path), Text: e.Text, Deleted: e.Deleted, Base: e.Base}})...)
	return err
}

// Draft is a file as somebody left it to work on, and the version that is in use.
type Draft struct {
	File  string
	Draft store.Version
	Now   store.Version // its Seq is 0 when there is none
}

// Late says that the file was changed after the draft was kept.
func (d Draft) Late() bool { return d.Now.Seq > d.Draft.Seq }

// Drafts are all files that are being worked on.
func (r *Records) Drafts(ctx context.Context) (all []Draft, err error) {
	book, err := r.drafts(ctx)
	if err != nil {
		return nil, err
	}
	for _, name := range book.Names() {
		if file, ok := strings.CutPrefix(name, draftFolder); ok {
			d := Draft{File: file}
			d.Draft, _ = book.Version(name)
			d.Now, _ = book.Version(file)
			all = append(all, d)
		}
	}
	return all, nil
}

// UseDrafts puts all drafts into use, together: changes that only make sense with one another are made at once. Errors are as of SaveBook;
// a draft of a file that was changed since is a *store.ChangedError.
func (a *App) UseDrafts(ctx context.Context, r *Records, id record.ID, by Author) error {
	all, err := r.Drafts(ctx)
	if err != nil {
		return err
	}
	var edits []Edit
	for _, d := range all {
		base := d.Now.Seq
		if d.Late() {
			base = 0 // the store refuses it with what is there now
		}
		edits = append(edits, Edit{Path: d.File, Text: d.Draft.Text, Base: base})
	}
	return a.SaveBook(ctx, r, id, by, edits...)
}

// Version is one version of a file of the book, by its number from 1.
func (r *Records) Version(ctx context.Context, file string, number int) (v store.Version, there bool, err error) {
	all, err := r.store.Versions(ctx, file)
	if err != nil || number < 1 || number > len(all) {
		return v, false, err
	}
	return all[number-1], true, nil
}

// IsBookFile says whether a file can be a part of the book: its name has an ending that is read, and no part of it begins with a point.
func IsBookFile(name string) bool {
	return fs.ValidPath(name) && !store.Hidden(name) && path.Ext(name) == ".yaml"
}

// BookVersion is a version of a file of the book.
type BookVersion = store.Version

// ChangedError is a file that was changed by somebody else since it was read.
type ChangedError = store.ChangedError

// InRecords says whether the book that is planned with is the one in the records.
func (a *App) InRecords() bool {
	_, ok := a.files().(kept)
	return ok
}
