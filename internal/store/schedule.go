package store

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"kettlefrost/internal/record"
)

// A backup is named after the second in which it was made, in UTC.
const (
	backupPrefix = "kettlefrost-"
	backupLayout = "20060102T150405Z"
)

// Backups is what a round of backups has done.
type Backups struct {
	Made    string      // the path of the new backup; "" when it was not time yet
	Head    record.Head // of the new backup
	Deleted []string    // the paths of old ones
}

// KeepBackups makes a backup in a folder when the last one there is older than every, and then deletes the oldest beyond keep. Call it as
// often as you like, with the time of your clock. Only files named as it names them count and are deleted; of those, one that is dated after now
// was made by a clock that was wrong and is left alone. An old backup is deleted only after the new one was read back whole.
func (s *Store) KeepBackups(ctx context.Context, folder string, every time.Duration, keep int, now time.Time) (Backups, error) {
	if keep < 1 || every <= 0 {
		return Backups{}, &Error{Code: BadFile, Place: folder, Problem: "no backup would be kept", Fix: "keep at least one, and make one every hour or day"}
	}
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return Backups{}, notWritten(folder, err)
	}
	entries, err := os.ReadDir(folder)
	if err != nil {
		return Backups{}, notWritten(folder, err)
	}
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	name, drop := planBackups(names, s.dialect.suffix, every, keep, now)
	var done Backups
	if name == "" {
		return done, nil
	}
	done.Made = filepath.Join(folder, name)
	if done.Head, err = s.Backup(ctx, done.Made); err != nil {
		return Backups{}, err
	}
	for _, old := range drop {
		path := filepath.Join(folder, old)
		if err := os.Remove(path); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return done, notWritten(path, err)
		}
		done.Deleted = append(done.Deleted, path)
	}
	return done, nil
}

// planBackups decides which backup to make, if any, and which to delete after that.
func planBackups(names []string, suffix string, every time.Duration, keep int, now time.Time) (name string, drop []string) {
	now = now.UTC().Truncate(time.Second)
	var past []string // oldest first
	var last time.Time
	for _, name := range slices.Sorted(slices.Values(names)) {
		at, ok := backupTime(name, suffix)
		if !ok || at.After(now) {
			continue
		}
		past, last = append(past, name), at
	}
	if len(past) > 0 && now.Sub(last) < every {
		return "", nil
	}
	return backupPrefix + now.Format(backupLayout) + suffix, past[:max(0, len(past)-(keep-1))]
}

func backupTime(name, suffix string) (time.Time, bool) {
	middle, prefixed := strings.CutPrefix(name, backupPrefix)
	middle, suffixed := strings.CutSuffix(middle, suffix)
	at, err := time.Parse(backupLayout, middle)
	return at, prefixed && suffixed && err == nil
}
