package kitchentest

import (
	"io/fs"
	"slices"
)

// Without is a folder in which some files of its root are not there: the demo kitchen without safety.yaml judges no lots, for tests that are
// about something else.
func Without(folder fs.FS, names ...string) fs.FS { return without{folder, names} }

type without struct {
	fs.FS
	names []string
}

func (w without) Open(name string) (fs.File, error) {
	if slices.Contains(w.names, name) {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
	}
	return w.FS.Open(name)
}

// ReadDir leaves the files out of the list.
func (w without) ReadDir(name string) ([]fs.DirEntry, error) {
	all, err := fs.ReadDir(w.FS, name)
	if name == "." {
		all = slices.DeleteFunc(all, func(d fs.DirEntry) bool { return slices.Contains(w.names, d.Name()) })
	}
	return all, err
}
