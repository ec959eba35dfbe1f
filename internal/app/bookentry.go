package app

import (
	"context"
	"reflect"
	"strings"

	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/record"
	"kettlefrost/internal/store"
)

// EntryVersion is what an entry of the book became by one change of its file.
type EntryVersion struct {
	File   string
	Number int // of the version of the file
	Seq    uint64
	Who    string
	When   record.Instant
	Value  any // of its type in package kitchen; nil when it went, or could not be read
}

// EntryVersions are the changes of what stands at a path of the book in the records, the first to come first. Changes of a file that left it as it
// was are left out.
func (r *Records) EntryVersions(ctx context.Context, path string) (all []EntryVersion, err error) {
	word := path[strings.LastIndexByte(path, '.')+1:] // its id stands in its file
	if strings.HasSuffix(path, "]") {
		word = ""
	}
	inFile := map[string]any{}
	var last any
	for v, err := range r.store.Log(ctx) {
		if err != nil {
			return nil, err
		}
		if store.Hidden(v.Path) {
			continue
		}
		was, stood := inFile[v.Path]
		if !stood && !strings.Contains(v.Text, word) {
			continue
		}
		now := entryIn(v, path)
		if now == nil && was == nil {
			continue
		}
		if inFile[v.Path] = now; now == nil {
			delete(inFile, v.Path)
		}
		for _, elsewhere := range inFile { // it moved to another file
			if now == nil {
				now = elsewhere
			}
		}
		if !reflect.DeepEqual(now, last) {
			all = append(all, EntryVersion{v.Path, v.Number, v.Seq, v.Who, v.When, now})
			last = now
		}
	}
	return all, nil
}

// entryIn is what stands at a path in one file; nil when nothing does.
func entryIn(v store.Version, path string) any {
	if v.Deleted {
		return nil
	}
	book := bookfile.Read(new(store.Book).With(store.Change{Path: v.Path, Text: v.Text})).Book
	at, err := bookfile.Look(book, path)
	if err != nil || !at.There || bookfile.Blank(at.Value) {
		return nil
	}
	return at.Value.Interface()
}
