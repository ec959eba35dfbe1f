package web

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"maps"
	"slices"
	"sync"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
)

// logJobs are the files of loggers that are being taken in. They are in memory only, the last few, and are found by what is in them.
type logJobs struct {
	records *app.Records
	mu      sync.Mutex
	all     map[string]*logJob
	last    []string      // the latest last
	turn    chan struct{} // a file is read or kept at a time: they are large
}

// logJob is one file on its way in.
type logJob struct {
	key  string
	file app.LogFile

	mu      sync.Mutex
	state   logState
	done    int // lines that are read
	of      int
	answers app.LogAnswers
	reading *app.LogReading
	entry   record.Entry
	problem string
	idle    chan struct{} // closed when nothing is being done any more
}

// logState is what is being done with a file.
type logState string

const (
	logBeingRead  logState = "reading"
	logRead       logState = "read" // its questions are put, or all is answered
	logBeingTaken logState = "taking"
	logTaken      logState = "taken"
)

const (
	mostLogJobs = 4
	mostLogFile = 96 << 20 // more than 5 million lines of one probe
)

func newLogJobs(r *app.Records) *logJobs {
	return &logJobs{records: r, all: map[string]*logJob{}, turn: make(chan struct{}, 1)}
}

// add keeps a file and begins to read it, unless it is there.
func (j *logJobs) add(ctx context.Context, book kitchen.Book, f app.LogFile, now time.Time) *logJob {
	sum := sha256.New()
	sum.Write([]byte(f.Name + "\x00"))
	sum.Write(f.Data)
	key := hex.EncodeToString(sum.Sum(nil)[:16])
	j.mu.Lock()
	job, there := j.all[key]
	if there && job.look().state == logTaken { // what was taken in is not held any longer
		delete(j.all, key)
		j.last = slices.DeleteFunc(j.last, func(k string) bool { return k == key })
		there = false
	}
	if !there {
		job = &logJob{key: key, file: f, idle: closedChan()}
		j.all[key] = job
		j.last = append(j.last, key)
	}
	for len(j.last) > mostLogJobs {
		delete(j.all, j.last[0])
		j.last = j.last[1:]
	}
	j.mu.Unlock()
	if !there {
		j.read(ctx, book, job, app.LogAnswers{}, now)
	}
	return job
}

func closedChan() chan struct{} {
	c := make(chan struct{})
	close(c)
	return c
}

func (j *logJobs) find(key string) (*logJob, bool) {
	j.mu.Lock()
	defer j.mu.Unlock()
	job, ok := j.all[key]
	return job, ok
}

// begin marks a file as being worked on; false when it is already.
func (job *logJob) begin(state logState) (chan struct{}, bool) {
	job.mu.Lock()
	defer job.mu.Unlock()
	if job.state == logBeingRead || job.state == logBeingTaken {
		return nil, false
	}
	job.state, job.done, job.of, job.problem, job.idle = state, 0, 0, "", make(chan struct{})
	return job.idle, true
}

// read reads a file with answers, while the browser is told how far it is.
func (j *logJobs) read(ctx context.Context, book kitchen.Book, job *logJob, a app.LogAnswers, now time.Time) {
	idle, free := job.begin(logBeingRead)
	if !free {
		return
	}
	ctx = context.WithoutCancel(ctx)
	go func() {
		defer close(idle)
		j.turn <- struct{}{}
		defer func() { <-j.turn }()
		x, err := j.records.ReadLog(ctx, book, job.file, a, now, job.tell)
		job.mu.Lock()
		defer job.mu.Unlock()
		job.state, job.answers, job.reading = logRead, a, x
		if err != nil {
			job.problem = sentence(err)
		}
	}()
}

func (job *logJob) tell(done, of int) {
	job.mu.Lock()
	defer job.mu.Unlock()
	job.done, job.of = done, of
}

// take takes in what was read.
func (j *logJobs) take(ctx context.Context, job *logJob, by app.Author, again bool) {
	idle, free := job.begin(logBeingTaken)
	if !free {
		return
	}
	ctx = context.WithoutCancel(ctx)
	go func() {
		defer close(idle)
		j.turn <- struct{}{}
		defer func() { <-j.turn }()
		e, err := j.records.TakeLog(ctx, job.look().reading, by, again)
		job.mu.Lock()
		defer job.mu.Unlock()
		if err != nil {
			job.state, job.problem = logRead, sentence(err)
			return
		}
		job.state, job.entry, job.file.Data = logTaken, e, nil
		job.reading.Release()
	}()
}

// look is how far a file is.
func (job *logJob) look() logLook {
	job.mu.Lock()
	defer job.mu.Unlock()
	a := job.answers
	a.Probes = maps.Clone(a.Probes)
	return logLook{state: job.state, done: job.done, of: job.of, answers: a, reading: job.reading, entry: job.entry, problem: job.problem, idle: job.idle}
}

// logLook is a file as it was at one time.
type logLook struct {
	state    logState
	done, of int
	answers  app.LogAnswers
	reading  *app.LogReading
	entry    record.Entry
	problem  string
	idle     chan struct{}
}

// patience is how long a page waits for a file: a short one is read before it is shown how far it is.
const patience = 400 * time.Millisecond

// wait is how far a file is when it is done, or when patience ends.
func (job *logJob) wait() logLook {
	select {
	case <-job.look().idle:
	case <-time.After(patience):
	}
	return job.look()
}
