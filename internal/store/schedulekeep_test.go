package store

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"sync"
	"testing"
	"time"
)

// A schedule is kept up while the program runs; what fails is told once, shown, and tried again until it succeeds.
func TestAScheduleIsKeptUp(t *testing.T) {
	s := open(t, databases[0].address(t))
	mustAppend(t, s, weighing("ana", 0))
	begin := time.Date(2026, 3, 1, 6, 0, 0, 0, time.UTC)
	var mu sync.Mutex
	at := begin
	now := func() time.Time { mu.Lock(); defer mu.Unlock(); return at }
	if x := s.ScheduleState(begin); x.On || x.Found {
		t.Errorf("nobody keeps one up: %+v", x)
	}
	folder := filepath.Join(t.TempDir(), "backups")
	if err := os.WriteFile(folder, nil, 0o600); err != nil { // a file stands in the way
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(t.Context())
	var group sync.WaitGroup
	told := make(chan error, 100)
	group.Go(func() {
		s.KeepUp(ctx, Schedule{folder, 20 * time.Millisecond, 2}, now, func(err error) { told <- err })
	})
	trouble := wantCode(t, <-told, Unreachable)
	time.Sleep(30 * time.Millisecond) // some more tries
	if x := s.ScheduleState(now()); !x.On || x.Found || x.Failed == nil || !x.When.Equal(begin) {
		t.Errorf("after a failure: %+v", x)
	}
	if len(told) > 0 {
		t.Error("the same failure is told again")
	}
	if err := os.Remove(folder); err != nil {
		t.Fatal(err)
	}
	await := func(is string, done func(ScheduleState) bool) {
		t.Helper()
		for range 500 {
			if done(s.ScheduleState(now())) {
				return
			}
			time.Sleep(10 * time.Millisecond)
		}
		t.Fatalf("%s: %+v", is, s.ScheduleState(now()))
	}
	await("a backup", func(x ScheduleState) bool {
		return x.Found && x.Failed == nil && x.Last.At.Equal(begin) && x.Head.Seq == 1
	})
	for range 3 {
		mu.Lock()
		at = at.Add(time.Hour)
		mu.Unlock()
		await("the next", func(x ScheduleState) bool { return x.Last.At.Equal(now()) })
	}
	await("old ones deleted", func(ScheduleState) bool {
		left, err := os.ReadDir(folder)
		return err == nil && len(left) == 2
	})
	stop()
	group.Wait()
	if s.ScheduleState(now()).On || !errors.Is(trouble, &Error{Code: Unreachable}) {
		t.Error("the schedule goes on after its end")
	}
}
