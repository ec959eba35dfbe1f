package cli

import (
	"context"
	"sync"
	"time"

	"kettlefrost/internal/app"
)

// backupFlags keep backups up while something runs for long.
type backupFlags struct {
	BackupTo    string        `placeholder:"DIR" help:"Make backups of the records in this folder while serving; best on another disk."`
	BackupEvery time.Duration `default:"6h" placeholder:"TIME" help:"How often (${default})."`
	BackupKeep  int           `default:"14" placeholder:"N" help:"How many are kept (${default}); the oldest go when a new one was read back whole."`
}

// keep begins to make backups, if a folder is given. They end when stop is called.
func (f backupFlags) keep(s *surroundings, r *app.Records) (stop func(), err error) {
	switch {
	case f.BackupTo == "":
		return func() {}, nil
	case r == nil:
		return nil, failure{badUsage, "--backup-to " + f.BackupTo, "there are no records to make backups of", "give --records too"}
	case f.BackupEvery < time.Minute || f.BackupKeep < 1:
		return nil, failure{badUsage, "--backup-every, --backup-keep", "no backup would be kept, or hardly anything else be done", "give --backup-every a minute or more, such as 6h, and --backup-keep one or more"}
	}
	ctx, cancel := context.WithCancel(s.ctx)
	var running sync.WaitGroup
	running.Go(func() {
		r.KeepBackups(ctx, app.BackupSchedule{Folder: f.BackupTo, Every: f.BackupEvery, Keep: f.BackupKeep}, s.now, func(err error) { s.say("no backup could be made: %v", err) })
	})
	return func() { cancel(); running.Wait() }, nil
}
