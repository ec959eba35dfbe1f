package store

import (
	"context"
	"errors"
	"fmt"
	"io"
	"iter"
	"os"
	"path/filepath"
	"strings"

	"kettlefrost/internal/record"
)

// Compared is how a store that is there stands to a copy.
type Compared struct {
	Place  string
	Here   record.Head // of the store
	Copy   record.Head
	Common uint64       // up to this entry they are the same
	Last   record.Entry // of the store
}

// String says what is newer, and what a restore would lose.
func (c Compared) String() string {
	switch {
	case c.Here.Seq == c.Common && c.Copy.Seq == c.Common:
		return fmt.Sprintf("%s holds the same %d entries as the backup", c.Place, c.Common)
	case c.Here.Seq == c.Common:
		return fmt.Sprintf("the backup is newer: it has %d entries more than %s", c.Copy.Seq-c.Common, c.Place)
	case c.Copy.Seq == c.Common:
		return fmt.Sprintf("%s is newer: it has %d entries more than the backup, the last (%s by %s) is number %d", c.Place, c.Here.Seq-c.Common, c.Last.Kind, c.Last.Who, c.Last.Seq)
	case c.Common == 0:
		return fmt.Sprintf("%s is of another kitchen: no entry of it is in the backup", c.Place)
	}
	return fmt.Sprintf("%s and the backup are the same up to entry %d and differ after that: %d entries here, %d in the backup", c.Place, c.Common, c.Here.Seq-c.Common, c.Copy.Seq-c.Common)
}

// OccupiedError is a place that holds entries already: nothing is written over them.
type OccupiedError struct{ Compared Compared }

func (e *OccupiedError) Error() string {
	return fmt.Sprintf("store: %s holds %d entries already, and nothing was changed: %s: restore to a new file, look at it, and put it in the place of the old one", e.Compared.Place, e.Compared.Here.Seq, e.Compared)
}

// Compare finds up to where a store and a copy are the same. Entries that have the same hash have the same past.
func (s *Store) Compare(ctx context.Context, c *Copy) (Compared, error) {
	here, err := s.Head(ctx)
	if err != nil {
		return Compared{}, err
	}
	x := Compared{Place: s.place, Here: here, Copy: c.Head}
	next, stop := iter.Pull2(c.Entries(ctx))
	defer stop()
	for e, err := range s.Read(ctx, 1) {
		if err != nil {
			return x, err
		}
		x.Last = e
		if x.Common != e.Seq-1 {
			continue
		}
		other, err, ok := next()
		if ok && err != nil {
			return x, err
		}
		if ok && other.Hash == e.Hash {
			x.Common = e.Seq
		}
	}
	return x, nil
}

// Restored is what a restore has done.
type Restored struct {
	Head  record.Head
	Last  record.Entry
	Whole bool     // all of the file, with what is kept beside the chain; otherwise the entries alone
	Newer []string // backups beside it that were made later
}

// Restore brings back a backup at an address where nothing is yet, of either kind of database. A SQLite file becomes a SQLite file as it was;
// anything else is taken in entry by entry, with its pictures, but without what else is kept beside the chain (passwords, devices that are signed in). Every entry is
// verified before, and after. Errors are *OccupiedError and those of OpenCopy, Open and Import.
func Restore(ctx context.Context, backup, address string, now func() record.Instant) (Restored, error) {
	c, err := OpenCopy(ctx, backup)
	if err != nil {
		return Restored{}, err
	}
	defer c.Close()
	done := Restored{Head: c.Head, Last: c.Last}
	if done.Newer, err = c.Newer(); err != nil {
		return done, err
	}
	path := strings.TrimPrefix(address, "sqlite:")
	if _, err := os.Lstat(path); c.store != nil && !isPostgres(address) && errors.Is(err, os.ErrNotExist) {
		done.Whole = true
		head, err := c.store.Backup(ctx, path)
		if err == nil && head != c.Head {
			err = notRead(backup, fmt.Errorf("it was verified up to entry %d and copied up to %d", c.Head.Seq, head.Seq))
		}
		return done, err
	}
	into, err := Open(ctx, address, now)
	if err != nil {
		return done, err
	}
	return done, errors.Join(into.take(ctx, c), into.Close())
}

// take imports a copy into a store that must be empty.
func (s *Store) take(ctx context.Context, c *Copy) error {
	head, err := s.Head(ctx)
	if err != nil {
		return err
	}
	if head.Seq > 0 {
		x, err := s.Compare(ctx, c)
		if err != nil {
			return err
		}
		return &OccupiedError{x}
	}
	r, w := io.Pipe()
	go func() { w.CloseWithError(writeLines(ctx, w, c)) }()
	got, err := s.Import(ctx, r)
	r.Close()
	if err == nil && got != c.Head {
		err = notRead(filepath.Base(c.Path), fmt.Errorf("it was verified up to entry %d and taken in up to %d", c.Head.Seq, got.Seq))
	}
	return err
}

func writeLines(ctx context.Context, w io.Writer, c *Copy) error {
	for e, err := range c.Entries(ctx) {
		if err != nil {
			return err
		}
		line, err := e.Line()
		if err != nil {
			return err
		}
		if _, err := w.Write(append(line, '\n')); err != nil {
			return err
		}
	}
	return writePictures(w, c.pictures(ctx))
}
