package app

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"sync"
	"time"
)

// Jobs are pieces of work that take longer than somebody waits for a page. They are in memory only and end with the program. One that is asked for
// again while it is under way, or soon after, is the same.
type Jobs struct {
	end   context.Context // when it is done, all are stopped
	now   func() time.Time
	lanes map[JobLane]chan struct{}

	mu  sync.Mutex
	all []*Job // the oldest first
}

// JobLane is a kind of work of which so many are done at a time.
type JobLane string

const (
	HeavyLane JobLane = "heavy" // takes all of a computer
	PlanLane  JobLane = "plan"  // a day that is worked out
)

// Bounds of jobs.
const (
	mostHeavy    = 2
	mostPlanning = 4
	mostJobs     = 32 // that wait, are under way or are over
	mostWaiting  = 16 // that are not over
	keptJob      = 10 * time.Minute
)

// JobState is how far a job is.
type JobState string

const (
	JobWaits   JobState = "waits" // for others
	JobRuns    JobState = "runs"
	JobDone    JobState = "done"
	JobFailed  JobState = "failed"
	JobStopped JobState = "stopped"
)

// JobAsk is what somebody wants done.
type JobAsk struct {
	Key  string // the same for the same work
	Name string // in words
	To   string // where the result is shown
	File bool   // the result is a file, not a page
	Lane JobLane
	Keep bool // the result stays for who asks again; otherwise the work itself remembers it
}

// Job is one piece of work.
type Job struct {
	ID  string
	Ask JobAsk

	cancel context.CancelFunc
	done   chan struct{}
	now    func() time.Time

	mu         sync.Mutex
	state      JobState
	percent    int // -1 where nobody knows
	says       string
	value      any
	err        error
	began, end time.Time
}

// JobLook is a job as it is at one time.
type JobLook struct {
	State   JobState
	Percent int    // 0 to 100, or -1 where nobody knows
	Says    string // what is being done
	Value   any    // of one that is done
	Err     error  // of one that failed
	For     time.Duration
}

// TooManyJobsError says that no more work is taken.
type TooManyJobsError struct{}

func (*TooManyJobsError) Error() string {
	return "too much is being worked out at once: wait until something is done, or stop something"
}

// NewJobs are none yet. When end is done, all are stopped.
func NewJobs(end context.Context, now func() time.Time) *Jobs {
	return &Jobs{end: end, now: now, lanes: map[JobLane]chan struct{}{HeavyLane: make(chan struct{}, mostHeavy), PlanLane: make(chan struct{}, mostPlanning)}}
}

// Begin begins a piece of work, or finds it. The context gives it its values alone: who began it may go away. Errors are *TooManyJobsError.
func (j *Jobs) Begin(ctx context.Context, ask JobAsk, work func(context.Context) (any, error)) (*Job, error) {
	sum := sha256.Sum256([]byte(ask.Key))
	id := hex.EncodeToString(sum[:12])
	j.mu.Lock()
	defer j.mu.Unlock()
	j.forget()
	under := 0
	for i, job := range j.all {
		x := job.Look()
		open := x.State == JobWaits || x.State == JobRuns
		if job.ID == id && (open || x.State == JobDone && job.Ask.Keep) {
			return job, nil
		}
		if job.ID == id {
			j.all = append(j.all[:i:i], j.all[i+1:]...)
			break
		}
		if open {
			under++
		}
	}
	if under >= mostWaiting {
		return nil, &TooManyJobsError{}
	}
	ctx, cancel := context.WithCancel(context.WithoutCancel(ctx))
	job := &Job{ID: id, Ask: ask, cancel: cancel, done: make(chan struct{}), now: j.now, state: JobWaits, percent: -1, began: j.now()}
	context.AfterFunc(j.end, cancel)
	j.all = append(j.all, job)
	go j.run(context.WithValue(ctx, jobKey{}, job), job, work)
	return job, nil
}

// forget drops what is over, when it was long ago or there are too many.
func (j *Jobs) forget() {
	now, kept := j.now(), j.all[:0]
	for i, job := range j.all {
		job.mu.Lock()
		over := !job.end.IsZero() && (now.Sub(job.end) > keptJob || len(j.all)-i > mostJobs)
		job.mu.Unlock()
		if !over {
			kept = append(kept, job)
		}
	}
	clear(j.all[len(kept):])
	j.all = kept
}

func (j *Jobs) run(ctx context.Context, job *Job, work func(context.Context) (any, error)) {
	defer job.cancel()
	defer close(job.done)
	lane := j.lanes[job.Ask.Lane]
	select {
	case lane <- struct{}{}:
		defer func() { <-lane }()
	case <-ctx.Done():
		job.over(nil, ctx.Err(), ctx.Err() != nil, j.now())
		return
	}
	job.mu.Lock()
	job.state = JobRuns
	job.mu.Unlock()
	value, err := work(ctx)
	job.over(value, err, ctx.Err() != nil, j.now())
}

// over says how a job ended. One that was stopped has no result, whatever the work says: it may be half done.
func (job *Job) over(value any, err error, stopped bool, at time.Time) {
	job.mu.Lock()
	defer job.mu.Unlock()
	job.end = at
	switch {
	case stopped:
		job.state = JobStopped
	case err != nil:
		job.state, job.err = JobFailed, err
	default:
		job.state, job.value, job.percent = JobDone, value, 100
	}
}

// Find is the job of an ID.
func (j *Jobs) Find(id string) (*Job, bool) {
	j.mu.Lock()
	defer j.mu.Unlock()
	j.forget()
	for _, job := range j.all {
		if job.ID == id {
			return job, true
		}
	}
	return nil, false
}

// Stop has a job end without a result. It ends when its work next looks.
func (job *Job) Stop() { job.cancel() }

// Done is closed when a job is over.
func (job *Job) Done() <-chan struct{} { return job.done }

// Look is how far a job is.
func (job *Job) Look() JobLook {
	job.mu.Lock()
	defer job.mu.Unlock()
	x := JobLook{State: job.state, Percent: job.percent, Says: job.says, Value: job.value, Err: job.err}
	if job.end.IsZero() {
		x.For = job.now().Sub(job.began)
	} else {
		x.For = job.end.Sub(job.began)
	}
	return x
}

// jobKey is where a context keeps the job that it is of.
type jobKey struct{}

// tellJob tells how far the job is that a context is of, if it is of one: done of so many; of is 0 where nobody knows.
func tellJob(ctx context.Context, says string, done, of int) {
	job, ok := ctx.Value(jobKey{}).(*Job)
	if !ok {
		return
	}
	job.mu.Lock()
	defer job.mu.Unlock()
	job.says, job.percent = says, -1
	if of > 0 {
		job.percent = 100 * done / of
	}
}
