package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"kettlefrost/internal/record"
)

// Backup writes a copy while the store is in use, and reads it back: every entry of the copy is verified before it gets its name. From SQLite
// it is a SQLite file that can be opened as it is; from PostgreSQL the journal as JSON lines with the pictures behind it, for Import. A file that is there already is
// not written over. It returns the head of the copy.
func (s *Store) Backup(ctx context.Context, path string) (record.Head, error) {
	path, err := filepath.Abs(path) // a database's address has no folder that it starts from
	if err != nil {
		return record.Head{}, notWritten(path, err)
	}
	if _, err := os.Lstat(path); err == nil {
		return record.Head{}, &Error{Code: BadAddress, Place: path, Problem: "is there already", Fix: "give the backup a new name"}
	}
	half := path + ".half"
	for _, left := range []string{half, half + "-wal", half + "-shm", half + "-journal"} {
		if err := os.Remove(left); err != nil && !errors.Is(err, fs.ErrNotExist) { // left by a backup that was stopped
			return record.Head{}, notWritten(path, err)
		}
	}
	head, err := s.dialect.backup(s, ctx, half)
	if err == nil {
		err = settle(half, path)
	}
	if err != nil {
		return head, errors.Join(err, removeIfThere(half))
	}
	return head, nil
}

func removeIfThere(path string) error {
	if err := os.Remove(path); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return notWritten(path, err)
	}
	return nil
}

func notWritten(path string, err error) error {
	return &Error{Code: Unreachable, Place: path, Problem: "the backup cannot be written", Fix: "see that the folder is there, can be written and has space", Err: err}
}

// settle gives a file that is whole its name, once it is on the disk.
func settle(half, path string) error {
	f, err := os.OpenFile(half, os.O_RDWR, 0)
	if err != nil {
		return notWritten(path, err)
	}
	if err := errors.Join(f.Sync(), f.Close(), os.Rename(half, path)); err != nil {
		return notWritten(path, err)
	}
	folder, err := os.Open(filepath.Dir(path))
	if err != nil {
		return notWritten(path, err)
	}
	defer folder.Close()
	_ = folder.Sync() // not every system can; the file itself is on the disk
	return nil
}

// backupSQLite copies through a connection of its own: it reads one state of the file while others go on writing.
func backupSQLite(s *Store, ctx context.Context, path string) (record.Head, error) {
	source, err := sql.Open("sqlite", sqliteURL(s.path))
	if err != nil {
		return record.Head{}, s.fail("open it once more", err)
	}
	defer source.Close()
	if err := private(path); err != nil {
		return record.Head{}, notWritten(path, err)
	}
	if _, err := source.ExecContext(ctx, `vacuum into $1`, path); err != nil {
		return record.Head{}, s.fail("copy it to "+path, err)
	}
	made, err := sql.Open("sqlite", sqliteURL(path, "query_only(1)"))
	if err != nil {
		return record.Head{}, notWritten(path, err)
	}
	defer made.Close()
	return (&Store{place: path, read: made}).Verify(ctx)
}

func backupLines(s *Store, ctx context.Context, path string) (record.Head, error) {
	f, err := os.OpenFile(path, os.O_CREATE|os.O_EXCL|os.O_RDWR, 0o600)
	if err != nil {
		return record.Head{}, notWritten(path, err)
	}
	head, err := s.Export(ctx, f)
	if err == nil {
		err = writePictures(f, s.Pictures(ctx))
	}
	if err := errors.Join(err, f.Close()); err != nil {
		return head, err
	}
	read, err := verifyLines(path)
	if err == nil && read != head {
		err = notWritten(path, fmt.Errorf("it was written up to entry %d and reads up to %d", head.Seq, read.Seq))
	}
	return head, err
}

func verifyLines(path string) (record.Head, error) {
	f, err := os.Open(path)
	if err != nil {
		return record.Head{}, notWritten(path, err)
	}
	defer f.Close()
	return record.Verify(record.Head{}, readLines(f))
}
