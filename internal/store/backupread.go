package store

import (
	"archive/zip"
	"context"
	"database/sql"
	"errors"
	"io"
	"io/fs"
	"iter"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"kettlefrost/internal/record"
)

// entriesName is the file of an export that holds the entries.
const entriesName = "entries.jsonl"

// Copy is a backup, or an export, that is open to be read.
type Copy struct {
	Path string
	Head record.Head // every entry up to it was verified
	Last record.Entry

	store *Store                        // of a SQLite file
	lines func() (io.ReadCloser, error) // of anything else
	files func() (fs.FS, func(), error) // of an export: everything that is in it; what it gives second ends the use
}

// OpenCopy opens a backup and verifies all of it: a SQLite file, the entries as JSON lines, or an export as a folder or a ZIP file. Nothing in
// it is changed. Errors are *Error, *LineError and *record.ChainError.
func OpenCopy(ctx context.Context, path string) (*Copy, error) {
	c := &Copy{Path: path}
	if err := c.open(ctx); err != nil {
		return nil, err
	}
	var chain record.Verifier
	for e, err := range c.Entries(ctx) {
		if err == nil {
			err = chain.Next(e)
		}
		if err != nil {
			return nil, errors.Join(err, c.Close())
		}
		c.Last = e
	}
	c.Head = chain.Head
	return c, nil
}

func (c *Copy) open(ctx context.Context) error {
	info, err := os.Stat(c.Path)
	if err != nil {
		return notRead(c.Path, err)
	}
	if info.IsDir() {
		name := filepath.Join(c.Path, entriesName)
		if _, err := os.Stat(name); err != nil {
			return notRead(c.Path, err)
		}
		c.lines = func() (io.ReadCloser, error) { return os.Open(name) }
		c.files = func() (fs.FS, func(), error) { return os.DirFS(c.Path), func() {}, nil }
		return nil
	}
	begins, err := beginning(c.Path)
	if err != nil {
		return notRead(c.Path, err)
	}
	switch {
	case strings.HasPrefix(begins, sqliteMagic):
		return c.openSQLite(ctx)
	case strings.HasPrefix(begins, "PK\x03\x04"):
		c.lines = func() (io.ReadCloser, error) { return openZipped(c.Path) }
		c.files = func() (fs.FS, func(), error) {
			in, err := zip.OpenReader(c.Path)
			if err != nil {
				return nil, nil, err
			}
			return in, func() { in.Close() }, nil
		}
	default:
		c.lines = func() (io.ReadCloser, error) { return os.Open(c.Path) }
	}
	return nil
}

func notRead(path string, err error) error {
	return &Error{Code: BadAddress, Place: path, Problem: "the backup cannot be read", Fix: "give a file that record backup wrote, or what record export wrote", Err: err}
}

func beginning(path string) (string, error) {
	f, err := os.Open(path)
	if err != nil {
		return "", err
	}
	defer f.Close()
	head := make([]byte, len(sqliteMagic))
	n, err := io.ReadFull(f, head)
	if err != nil && !errors.Is(err, io.ErrUnexpectedEOF) && !errors.Is(err, io.EOF) {
		return "", err
	}
	return string(head[:n]), nil
}

func (c *Copy) openSQLite(ctx context.Context) error {
	path, err := filepath.Abs(c.Path)
	if err != nil {
		return notRead(c.Path, err)
	}
	s := &Store{place: c.Path, path: path, dialect: sqliteDialect}
	if err := s.inspectSQLite(ctx, path); err != nil {
		return err
	}
	if s.read, err = sql.Open("sqlite", sqliteURL(path, "query_only(1)")); err != nil {
		return notRead(c.Path, err)
	}
	c.store = s
	return nil
}

// zipped is a file in a ZIP file, closed with it.
type zipped struct {
	io.ReadCloser
	in *zip.ReadCloser
}

func (z zipped) Close() error { return errors.Join(z.ReadCloser.Close(), z.in.Close()) }

func openZipped(path string) (io.ReadCloser, error) {
	in, err := zip.OpenReader(path)
	if err != nil {
		return nil, err
	}
	f, err := in.Open(entriesName)
	if err != nil {
		return nil, errors.Join(err, in.Close())
	}
	return zipped{f, in}, nil
}

// Entries are those of the copy, from the first on. The error is the last thing that it gives.
func (c *Copy) Entries(ctx context.Context) iter.Seq2[record.Entry, error] {
	if c.store != nil {
		return c.store.Read(ctx, 1)
	}
	return func(yield func(record.Entry, error) bool) {
		r, err := c.lines()
		if err != nil {
			yield(record.Entry{}, notRead(c.Path, err))
			return
		}
		defer r.Close()
		for e, err := range readLines(r) {
			if !yield(e, err) {
				return
			}
		}
	}
}

// Close ends the use of the copy.
func (c *Copy) Close() error {
	if c.store == nil {
		return nil
	}
	return c.store.read.Close()
}

// Newer are backups in the same folder that were made after this one, by their names.
func (c *Copy) Newer() ([]string, error) {
	for _, suffix := range []string{sqliteDialect.suffix, postgresDialect.suffix} {
		at, ok := backupTime(filepath.Base(c.Path), suffix)
		if !ok {
			continue
		}
		entries, err := os.ReadDir(filepath.Dir(c.Path))
		if err != nil {
			return nil, notRead(c.Path, err)
		}
		var newer []string
		for _, e := range entries {
			if other, ok := backupTime(e.Name(), suffix); ok && other.After(at) {
				newer = append(newer, e.Name())
			}
		}
		slices.Sort(newer)
		return newer, nil
	}
	return nil, nil
}

// LastBackup is a backup by its name, and how large it is in bytes.
type LastBackup struct {
	Path string
	At   time.Time
	Size int64
}

// LastBackup is the latest backup in a folder that is not dated after now; false when there is none.
func (s *Store) LastBackup(folder string, now time.Time) (last LastBackup, found bool, err error) {
	entries, err := os.ReadDir(folder)
	if errors.Is(err, fs.ErrNotExist) {
		return last, false, nil
	}
	if err != nil {
		return last, false, notRead(folder, err)
	}
	for _, e := range entries {
		at, ok := backupTime(e.Name(), s.dialect.suffix)
		if !ok || at.After(now) || !at.After(last.At) {
			continue
		}
		info, err := e.Info()
		if err != nil {
			return last, false, notRead(folder, err)
		}
		last, found = LastBackup{filepath.Join(folder, e.Name()), at, info.Size()}, true
	}
	return last, found, nil
}
