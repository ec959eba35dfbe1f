package app

import (
	"context"
	"fmt"
	"time"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
	"kettlefrost/internal/store"
)

// Codes of what an office should know about its backups. They are stable, for programs.
const (
	CodeNoBackups    = "no-backups"    // nobody makes any
	CodeBackupFailed = "backup-failed" // the last try did not succeed
	CodeBackupOld    = "backup-old"    // the last one is older than two rounds
)

// BackupSchedule is where backups are made, how often and how many are kept.
type BackupSchedule = store.Schedule

// BackupState is how the backups stand.
type BackupState = store.ScheduleState

// KeepBackups makes backups by a schedule until the context ends; tell hears what goes wrong.
func (r *Records) KeepBackups(ctx context.Context, s BackupSchedule, now func() time.Time, tell func(error)) {
	r.store.KeepUp(ctx, s, now, tell)
}

// BackupState is how the backups stand, and what is to be said about them.
func (r *Records) BackupState(now time.Time) (BackupState, finding.List) {
	x := r.store.ScheduleState(now)
	return x, backupFindings(x, now)
}

func backupFindings(x BackupState, now time.Time) (found finding.List) {
	caution := func(code, message, fix string, figures ...finding.Figure) {
		found = append(found, finding.Finding{Code: code, Severity: finding.Caution, Where: "backups", Message: message, Fix: fix, Figures: figures})
	}
	if !x.On {
		caution(CodeNoBackups, "nobody makes backups of the records while these pages are served", "start with kettlefrost serve --backup-to a folder on another disk; kettlefrost record backup makes one now")
		return found
	}
	if x.Failed != nil {
		caution(CodeBackupFailed, fmt.Sprintf("the try at %s failed: %v", x.When.Format("2006-01-02 15:04"), x.Failed), "mend what is said there; it is tried again every minute")
	}
	age := now.Sub(x.Last.At)
	switch {
	case !x.Found && x.Failed == nil:
		caution(CodeBackupOld, "there is no backup in "+x.Folder+" yet", "look again in a minute")
	case x.Found && age > 2*x.Every:
		caution(CodeBackupOld, fmt.Sprintf("the last backup is %s old, and one should be made every %s", Roughly(age), Roughly(x.Every)), "see that the folder can be written, and that this program runs all day",
			finding.Figure{Name: "age", Value: age.Hours(), Unit: "h", Text: Roughly(age)}, finding.Figure{Name: "every", Value: x.Every.Hours(), Unit: "h", Text: Roughly(x.Every)})
	}
	return found
}

// Roughly is a length of time as people say it: in minutes under two hours, in hours under two days.
func Roughly(d time.Duration) string {
	switch {
	case d < 2*time.Hour:
		return fmt.Sprintf("%d min", int(d.Minutes()))
	case d < 48*time.Hour:
		return fmt.Sprintf("%d h", int(d.Hours()))
	}
	return fmt.Sprintf("%d days", int(d.Hours()/24))
}

// Restored is what a restore has done.
type Restored = store.Restored

// Restore brings back a backup at an address where nothing is yet. Errors are as of store.Restore.
func Restore(ctx context.Context, backup, address string, now func() time.Time) (Restored, error) {
	return store.Restore(ctx, backup, address, func() record.Instant { return record.Instant(now().UnixMilli()) })
}
