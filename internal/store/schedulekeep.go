package store

import (
	"context"
	"sync"
	"time"

	"kettlefrost/internal/record"
)

// Schedule is where backups are made, how often and how many are kept.
type Schedule struct {
	Folder string
	Every  time.Duration
	Keep   int
}

// ScheduleState is how the backups of a schedule stand.
type ScheduleState struct {
	Schedule
	On     bool // somebody keeps it up now
	Last   LastBackup
	Found  bool        // there is a last one
	Head   record.Head // of the last one, if this process made it
	Failed error       // why the last try failed; nil when it did not
	When   time.Time   // it failed
}

// schedule is what is known of the backups that this process makes.
type schedule struct {
	mu     sync.Mutex
	on     int
	plan   Schedule
	head   record.Head
	failed error
	when   time.Time
}

// longestWait is how long a backup that is due waits at most for somebody to look, and how soon one that failed is tried again.
const longestWait = time.Minute

// KeepUp makes backups by a schedule until the context ends. What goes wrong is told, kept for ScheduleState, and tried again.
func (s *Store) KeepUp(ctx context.Context, plan Schedule, now func() time.Time, tell func(error)) {
	s.schedule.begin(plan)
	defer s.schedule.end()
	tick := time.NewTicker(max(time.Millisecond, min(plan.Every/4, longestWait)))
	defer tick.Stop()
	for ctx.Err() == nil {
		done, err := s.KeepBackups(ctx, plan.Folder, plan.Every, plan.Keep, now())
		if ctx.Err() == nil && s.schedule.tried(done, err, now()) {
			tell(err)
		}
		select {
		case <-tick.C:
		case <-ctx.Done():
		}
	}
}

func (x *schedule) begin(plan Schedule) {
	x.mu.Lock()
	defer x.mu.Unlock()
	x.plan, x.on = plan, x.on+1
}

func (x *schedule) end() {
	x.mu.Lock()
	defer x.mu.Unlock()
	x.on--
}

// tried keeps what became of a try, and says whether it is news that it failed.
func (x *schedule) tried(done Backups, err error, now time.Time) (news bool) {
	x.mu.Lock()
	defer x.mu.Unlock()
	if err != nil {
		news = x.failed == nil || x.failed.Error() != err.Error()
		x.failed, x.when = err, now
		return news
	}
	if done.Made != "" {
		x.head = done.Head
	}
	x.failed = nil
	return false
}

// ScheduleState is how the backups stand now: as the folder shows it, also those that were made before this program began.
func (s *Store) ScheduleState(now time.Time) ScheduleState {
	s.schedule.mu.Lock()
	x := ScheduleState{Schedule: s.schedule.plan, On: s.schedule.on > 0, Head: s.schedule.head, Failed: s.schedule.failed, When: s.schedule.when}
	s.schedule.mu.Unlock()
	if !x.On {
		return x
	}
	last, found, err := s.LastBackup(x.Folder, now)
	x.Last, x.Found = last, found
	if err != nil && x.Failed == nil {
		x.Failed, x.When = err, now
	}
	return x
}
