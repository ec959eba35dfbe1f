package app

import (
	"context"
	"errors"
	"fmt"
	"testing"
	"time"
)

// waitFor fails if a job is not over soon.
func waitFor(t *testing.T, job *Job) JobLook {
	t.Helper()
	select {
	case <-job.Done():
	case <-time.After(20 * time.Second):
		t.Fatalf("%s is not over: %+v", job.Ask.Name, job.Look())
	}
	return job.Look()
}

func begin(t *testing.T, j *Jobs, ask JobAsk, work func(context.Context) (any, error)) *Job {
	t.Helper()
	ask.Lane = HeavyLane
	job, err := j.Begin(t.Context(), ask, work)
	if err != nil {
		t.Fatal(err)
	}
	return job
}

// gate is work that says how far it is and goes on when it is let through, or ends when it is stopped.
func gate(through <-chan bool, value any, err error) (work func(context.Context) (any, error), began chan bool) {
	began = make(chan bool, 2*mostWaiting)
	return func(ctx context.Context) (any, error) {
		tellJob(ctx, "halfway", 1, 2)
		began <- true
		select {
		case <-through:
			return value, err
		case <-ctx.Done():
			return "half of it", nil // work that keeps quiet about being stopped
		}
	}, began
}

func TestHowJobsEnd(t *testing.T) {
	wrong := errors.New("the scale is broken")
	for name, c := range map[string]struct {
		let   bool
		err   error
		state JobState
		value any
	}{"done": {true, nil, JobDone, 42}, "failed": {true, wrong, JobFailed, nil}, "stopped": {false, nil, JobStopped, nil}} {
		t.Run(name, func(t *testing.T) {
			j := NewJobs(t.Context(), time.Now)
			through := make(chan bool, 1)
			work, began := gate(through, 42, c.err)
			job := begin(t, j, JobAsk{Key: name, Keep: true}, work)
			<-began
			if x := job.Look(); x.State != JobRuns || x.Percent != 50 || x.Says != "halfway" {
				t.Errorf("under way: %+v", x)
			}
			if c.let {
				through <- true
			} else {
				job.Stop()
			}
			if x := waitFor(t, job); x.State != c.state || x.Value != c.value || x.Err != c.err {
				t.Errorf("over: %+v", x)
			}
			if found, ok := j.Find(job.ID); !ok || found != job {
				t.Error("it is not found when it is over")
			}
		})
	}
}

func TestTheSameWorkIsTheSameJob(t *testing.T) {
	j := NewJobs(t.Context(), time.Now)
	through := make(chan bool, 3)
	work, began := gate(through, "result", nil)
	for _, keep := range []bool{true, false} {
		ask := JobAsk{Key: fmt.Sprint("key ", keep), Keep: keep}
		first := begin(t, j, ask, work)
		<-began
		if again := begin(t, j, ask, work); again != first {
			t.Errorf("keep %v: asked again while it is under way, and it is another", keep)
		}
		through <- true
		waitFor(t, first)
		again := begin(t, j, ask, work)
		if (again == first) != keep {
			t.Errorf("keep %v: asked again when it was done, the same: %v", keep, again == first)
		}
		if again.ID != first.ID {
			t.Error("another address for the same work")
		}
		if !keep {
			again.Stop()
			waitFor(t, again)
			if third := begin(t, j, ask, work); third == again {
				t.Error("what was stopped is not begun again")
			} else {
				third.Stop()
			}
		}
	}
}

// Only so many at a time, one after the other; what waits can be stopped; and no more are taken than are bearable.
func TestJobsAreBounded(t *testing.T) {
	j := NewJobs(t.Context(), time.Now)
	through := make(chan bool)
	work, began := gate(through, nil, nil)
	var all []*Job
	for i := range mostWaiting {
		all = append(all, begin(t, j, JobAsk{Key: fmt.Sprint(i)}, work))
	}
	for range mostHeavy {
		<-began
	}
	running, waits := 0, []*Job(nil)
	for _, job := range all {
		if x := job.Look(); x.State == JobRuns {
			running++
		} else if x.State == JobWaits {
			waits = append(waits, job)
		}
	}
	if running != mostHeavy || len(waits) != mostWaiting-mostHeavy {
		t.Errorf("%d run and %d wait", running, len(waits))
	}
	if _, err := j.Begin(t.Context(), JobAsk{Key: "one more", Lane: HeavyLane}, work); err == nil {
		t.Error("there is no end of jobs")
	} else if _, is := err.(*TooManyJobsError); !is {
		t.Error(err)
	}
	waits[0].Stop()
	if x := waitFor(t, waits[0]); x.State != JobStopped {
		t.Errorf("stopped while it waited: %+v", x)
	}
	if _, err := j.Begin(t.Context(), JobAsk{Key: "one more", Lane: PlanLane}, func(context.Context) (any, error) { return nil, nil }); err != nil {
		t.Errorf("there is room again: %v", err)
	}
	close(through)
	for _, job := range all {
		waitFor(t, job)
	}
}

func TestJobsEndWithTheProgram(t *testing.T) {
	end, stop := context.WithCancel(context.Background())
	j := NewJobs(end, time.Now)
	work, began := gate(nil, nil, nil)
	asked, gone := context.WithCancel(t.Context())
	job, err := j.Begin(asked, JobAsk{Key: "x", Lane: HeavyLane}, work)
	if err != nil {
		t.Fatal(err)
	}
	<-began
	gone() // whoever asked went away
	if x := job.Look(); x.State != JobRuns {
		t.Errorf("whoever asked went away, and it %s", x.State)
	}
	stop()
	if x := waitFor(t, job); x.State != JobStopped {
		t.Errorf("the program ends, and it is %s", x.State)
	}
}

func TestOldResultsGo(t *testing.T) {
	now := time.Date(2026, 12, 1, 9, 0, 0, 0, time.UTC)
	j := NewJobs(t.Context(), func() time.Time { return now })
	quick := func(context.Context) (any, error) { return 1, nil }
	job := begin(t, j, JobAsk{Key: "old", Keep: true}, quick)
	waitFor(t, job)
	now = now.Add(keptJob + time.Second)
	if _, ok := j.Find(job.ID); ok {
		t.Error("a result stays for ever")
	}
	for i := range 3 * mostJobs {
		waitFor(t, begin(t, j, JobAsk{Key: fmt.Sprint(i), Keep: true}, quick))
	}
	if n := len(j.all); n > mostJobs+1 {
		t.Errorf("%d results are kept", n)
	}
}
