package store

import (
	"bytes"
	"io"
	"io/fs"
	"path"
	"slices"
	"strings"
	"time"
)

// Book is the current book as a folder that is read like any other, and with os.CopyFS written to the disk.
type Book struct {
	versions map[string]Version
	folders  map[string][]fs.DirEntry // sorted by name
}

// newBook leaves out what is deleted.
func newBook(files map[string]Version) *Book {
	b := &Book{versions: map[string]Version{}, folders: map[string][]fs.DirEntry{".": nil}}
	for name, v := range files {
		if v.Deleted {
			continue
		}
		b.versions[name] = v
		b.list(name, fs.FileInfoToDirEntry(fileInfo{v}))
	}
	for _, entries := range b.folders {
		slices.SortFunc(entries, func(a, b fs.DirEntry) int { return strings.Compare(a.Name(), b.Name()) })
	}
	return b
}

// list puts something into its folder, and the folder into its own, once.
func (b *Book) list(name string, entry fs.DirEntry) {
	folder := path.Dir(name)
	_, known := b.folders[folder]
	b.folders[folder] = append(b.folders[folder], entry)
	if !known {
		b.list(folder, fs.FileInfoToDirEntry(folderInfo(folder)))
	}
}

// Version is the current version of a file.
func (b *Book) Version(name string) (v Version, found bool) {
	v, found = b.versions[name]
	return v, found
}

// Open opens a file or a folder.
func (b *Book) Open(name string) (fs.File, error) {
	if !fs.ValidPath(name) {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrInvalid}
	}
	if v, ok := b.versions[name]; ok {
		return &openFile{Reader: *bytes.NewReader([]byte(v.Text)), info: fileInfo{v}}, nil
	}
	if entries, ok := b.folders[name]; ok {
		return &openFolder{info: folderInfo(name), rest: entries}, nil
	}
	return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
}

type openFile struct {
	bytes.Reader
	info fileInfo
}

func (f *openFile) Stat() (fs.FileInfo, error) { return f.info, nil }
func (f *openFile) Close() error               { return nil }

type openFolder struct {
	info folderInfo
	rest []fs.DirEntry
}

func (f *openFolder) Stat() (fs.FileInfo, error) { return f.info, nil }
func (f *openFolder) Close() error               { return nil }
func (f *openFolder) Read([]byte) (int, error) {
	return 0, &fs.PathError{Op: "read", Path: string(f.info), Err: fs.ErrInvalid}
}

func (f *openFolder) ReadDir(n int) ([]fs.DirEntry, error) {
	if n <= 0 {
		n = len(f.rest)
	} else if len(f.rest) == 0 {
		return nil, io.EOF
	}
	n = min(n, len(f.rest))
	some := slices.Clone(f.rest[:n])
	f.rest = f.rest[n:]
	return some, nil
}

type fileInfo struct{ v Version }

func (i fileInfo) Name() string       { return path.Base(i.v.Path) }
func (i fileInfo) Size() int64        { return int64(len(i.v.Text)) }
func (i fileInfo) Mode() fs.FileMode  { return 0o644 }
func (i fileInfo) ModTime() time.Time { return time.UnixMilli(int64(i.v.When)).UTC() }
func (i fileInfo) IsDir() bool        { return false }
func (i fileInfo) Sys() any           { return nil }

type folderInfo string

func (i folderInfo) Name() string       { return path.Base(string(i)) }
func (i folderInfo) Size() int64        { return 0 }
func (i folderInfo) Mode() fs.FileMode  { return fs.ModeDir | 0o755 }
func (i folderInfo) ModTime() time.Time { return time.Time{} }
func (i folderInfo) IsDir() bool        { return true }
func (i folderInfo) Sys() any           { return nil }
