package store

import (
	"context"
	"encoding/json"
	"fmt"
	"io/fs"
	"path"
	"strings"
	"sync"

	"kettlefrost/internal/record"
)

// booked is the kind of entry that keeps one version of a file of the book. What is current is the last of a path in the chain; a file is put
// back by booking its earlier text again, so that entries which correct or void one change nothing here.
var booked = record.Booked{}.Kind()

// Version is a file of the book as it was left by one entry. Every version is kept; the last one is current.
type Version struct {
	Path    string
	Text    string
	Deleted bool
	Number  int    // of this file, from 1
	Seq     uint64 // of the entry that keeps it
	Who     string
	Device  string
	When    record.Instant // when it was written, by the clock of who wrote it
}

// Change is what somebody wants to do to a file of the book.
type Change struct {
	ID      record.ID // of the entry, drawn by the device; sent again, the change is made once
	Path    string    // with slashes, from the folder of the book: "dishes/lentil-squash.yaml"
	Text    string
	Deleted bool
	Base    uint64 // the Seq of the version that was changed; 0 for a file that was not there
}

// Author is who stands for a change.
type Author struct {
	Who, Device, Site string
	When              record.Instant
}

// ChangedError is a file that was changed by somebody else since it was read.
type ChangedError struct {
	Change Change
	Now    Version // what is there now; its Seq is 0 when there is nothing
}

func (e *ChangedError) Error() string {
	if e.Now.Seq == 0 {
		return fmt.Sprintf("store: %s is not there any more: look at the book again and repeat the change", e.Change.Path)
	}
	return fmt.Sprintf("store: %s was changed by %s meanwhile (version %d): look at it and repeat the change on it", e.Change.Path, e.Now.Who, e.Now.Number)
}

// bookCache is what the book was folded to, up to an entry. Entries are only added, so it is never wrong, only behind.
type bookCache struct {
	mu    sync.Mutex
	upTo  uint64
	files map[string]Version
}

// Files is the current book as a folder: it stays as it is now, whatever is written later.
func (s *Store) Files(ctx context.Context) (*Book, error) {
	s.book.mu.Lock()
	defer s.book.mu.Unlock()
	if err := s.book.catchUp(ctx, s, s.read); err != nil {
		return nil, err
	}
	return newBook(s.book.files), nil
}

// catchUp needs the lock.
func (b *bookCache) catchUp(ctx context.Context, s *Store, q querier) error {
	if b.files == nil {
		b.files = map[string]Version{}
	}
	for {
		const query = `select ` + columns + ` from entry where kind = $1 and seq > $2 order by seq limit $3`
		page, err := s.entries(ctx, q, query, string(booked), int64(b.upTo), pageSize)
		if err != nil {
			return s.fail("read the book", err)
		}
		for _, e := range page {
			v, err := s.versionOf(e)
			if err != nil {
				return err
			}
			v.Number = b.files[v.Path].Number + 1
			b.files[v.Path], b.upTo = v, e.Seq
		}
		if len(page) < pageSize {
			return nil
		}
	}
}

// versionOf reads a version without its number.
func (s *Store) versionOf(e record.Entry) (Version, error) {
	file, err := readBooked(e)
	if err != nil {
		return Version{}, &Error{Code: Damaged, Place: fmt.Sprintf("%s, entry %d", s.place, e.Seq), Problem: "is no file of the book", Fix: fixes[Damaged], Err: err}
	}
	return Version{Path: file.Path, Text: string(file.Text), Deleted: file.Removed, Seq: e.Seq, Who: e.Who, Device: e.Device, When: e.Happened}, nil
}

func readBooked(e record.Entry) (record.Booked, error) {
	body, err := record.Decode(e.Kind, e.Body)
	if err != nil {
		return record.Booked{}, err
	}
	file, ok := body.(record.Booked)
	if !ok {
		return record.Booked{}, fmt.Errorf("it is a %s", e.Kind)
	}
	return file, nil
}

// Book writes new versions of files, all or none. A file that was changed by somebody else since Base is a *ChangedError; a file that cannot
// be kept is an *Error with the code BadFile.
func (s *Store) Book(ctx context.Context, by Author, changes ...Change) ([]record.Entry, error) {
	entries := make([]record.Entry, len(changes))
	for i, c := range changes {
		body, err := keepable(c)
		if err != nil {
			return nil, err
		}
		entries[i] = record.Entry{ID: c.ID, Kind: booked, Happened: by.When, Who: by.Who, Device: by.Device, Site: by.Site, Body: body}
	}
	return s.append(ctx, entries, func(ctx context.Context, q querier) error { return s.unchanged(ctx, q, changes) })
}

// unchanged is asked within the transaction that writes the changes.
func (s *Store) unchanged(ctx context.Context, q querier, changes []Change) error {
	ids := make([]record.ID, len(changes))
	for i, c := range changes {
		ids[i] = c.ID
	}
	known, err := s.stored(ctx, q, ids)
	if err != nil {
		return err
	}
	s.book.mu.Lock()
	defer s.book.mu.Unlock()
	if err := s.book.catchUp(ctx, s, q); err != nil {
		return err
	}
	for _, c := range changes {
		now := s.book.files[c.Path]
		if now.Deleted && c.Base == 0 {
			continue // a file that was deleted can be made anew
		}
		if _, again := known[c.ID]; !again && now.Seq != c.Base {
			return &ChangedError{Change: c, Now: now}
		}
	}
	return s.book.fits(changes)
}

// fits refuses a file whose name is that of a folder of another. It needs the lock.
func (b *bookCache) fits(changes []Change) error {
	after := map[string]bool{}
	for name, v := range b.files {
		after[name] = !v.Deleted
	}
	for _, c := range changes {
		after[c.Path] = !c.Deleted
	}
	for name, there := range after {
		for folder := path.Dir(name); there && folder != "."; folder = path.Dir(folder) {
			if after[folder] {
				return badFile(folder, "would be a file and the folder of "+name, "name one of them otherwise")
			}
		}
	}
	return nil
}

func badFile(name, problem, fix string) *Error {
	return &Error{Code: BadFile, Place: fmt.Sprintf("file %q of the book", name), Problem: problem, Fix: fix}
}

// keepable is the body of the entry that keeps a change, if there can be one.
func keepable(c Change) (json.RawMessage, error) {
	if !fs.ValidPath(c.Path) || c.Path == "." || strings.Contains(c.Path, "\\") {
		return nil, badFile(c.Path, "has no name that a file can have", "name it from the folder of the book, with slashes, as in dishes/soup.yaml")
	}
	body, err := record.Encode(record.Booked{Path: c.Path, Text: record.Text(c.Text), Removed: c.Deleted})
	if err == nil {
		_, err = record.Decode(booked, body)
	}
	if err != nil {
		trouble := badFile(c.Path, "cannot be kept", "put right what is said in brackets, or keep the file outside the book")
		trouble.Err = err
		return nil, trouble
	}
	return body, nil
}
