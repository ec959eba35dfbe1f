package app

import (
	"cmp"
	"crypto/sha256"
	"encoding/binary"
	"io/fs"
	"path"
	"slices"
	"sync"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
)

// bookMemo keeps the book as it was last read, for as long as not a byte of its files changes: every page asks for it. Nobody may change what
// it gives; stocked clones what it changes.
type bookMemo struct {
	mu    sync.Mutex
	sum   [sha256.Size]byte
	book  kitchen.Book
	found finding.List
	demo  bool // it says of itself that it is the demo's
}

// written is the book as it is written, checked: read again when a byte of it has changed. What cannot be read is read again, to say why.
func (a *App) written() (kitchen.Book, finding.List) {
	folder := snapshot(a.files())
	sum, err := digest(folder)
	if err != nil {
		return a.read(folder)
	}
	a.last.mu.Lock()
	defer a.last.mu.Unlock()
	if a.last.sum != sum {
		book, found := a.read(folder)
		a.last.sum, a.last.book, a.last.found, a.last.demo = sum, book, found, saysDemo(folder)
	}
	return a.last.book, slices.Clone(a.last.found)
}

// writtenSum is one number for the book as written read it last; zero when it cannot be told.
func (a *App) writtenSum() [sha256.Size]byte {
	a.last.mu.Lock()
	defer a.last.mu.Unlock()
	return a.last.sum
}

// largest is more than the files of a book have, in bytes: a folder with larger ones is read anew each time, which says so.
const largest = 4 << 20

// digest is one number for the names of all files of a folder and for what stands in the .yaml files, which alone are read.
func digest(folder fs.FS) ([sha256.Size]byte, error) {
	all := sha256.New()
	put := func(part []byte) {
		all.Write(binary.BigEndian.AppendUint64(nil, uint64(len(part))))
		all.Write(part)
	}
	err := fs.WalkDir(folder, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		put([]byte(name + " " + d.Type().String()))
		if !d.Type().IsRegular() || path.Ext(name) != ".yaml" {
			return nil
		}
		if info, err := d.Info(); err != nil || info.Size() > largest {
			return cmp.Or(err, fs.ErrInvalid)
		}
		text, err := fs.ReadFile(folder, name)
		put(text)
		return err
	})
	return [sha256.Size]byte(all.Sum(nil)), err
}
