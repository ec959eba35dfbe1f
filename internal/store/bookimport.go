package store

import (
	"context"
	"crypto/rand"
	"errors"
	"io/fs"
	"maps"
	"path"
	"slices"
	"strings"

	"kettlefrost/internal/record"
)

// ImportBook makes the book in the store the same as a folder, byte for byte: what differs is written as new versions, what is not in the
// folder is deleted, all at once. Files and folders whose names begin with a point are left out, and left as they are. It returns the new entries; none when
// nothing differs.
func (s *Store) ImportBook(ctx context.Context, folder fs.FS, by Author) ([]record.Entry, error) {
	texts, err := readFolder(folder)
	if err != nil {
		return nil, err
	}
	now, err := s.Files(ctx)
	if err != nil {
		return nil, err
	}
	var changes []Change
	change := func(c Change) {
		c.Base = now.versions[c.Path].Seq
		rand.Read(c.ID[:])
		changes = append(changes, c)
	}
	for _, name := range slices.Sorted(maps.Keys(texts)) {
		if old, there := now.versions[name]; !there || old.Text != texts[name] {
			change(Change{Path: name, Text: texts[name]})
		}
	}
	for _, name := range slices.Sorted(maps.Keys(now.versions)) {
		if _, there := texts[name]; !there && !Hidden(name) {
			change(Change{Path: name, Deleted: true})
		}
	}
	return s.Book(ctx, by, changes...)
}

func readFolder(folder fs.FS) (map[string]string, error) {
	texts := map[string]string{}
	err := fs.WalkDir(folder, ".", func(name string, entry fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case name != "." && strings.HasPrefix(path.Base(name), "."):
			if entry.IsDir() {
				return fs.SkipDir
			}
			return nil
		case entry.IsDir():
			return nil
		}
		info, err := fs.Stat(folder, name)
		if err != nil {
			return err
		}
		if !info.Mode().IsRegular() {
			return &fs.PathError{Op: "read", Path: name, Err: errors.New("it is not an ordinary file")}
		}
		text, err := fs.ReadFile(folder, name)
		texts[name] = string(text)
		return err
	})
	if err != nil {
		return nil, &Error{Code: BadFile, Place: "the folder of the book", Problem: "cannot be read", Fix: "let this user read it, or move what is no part of the book out of it", Err: err}
	}
	return texts, nil
}
