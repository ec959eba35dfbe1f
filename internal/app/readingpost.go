package app

import (
	"context"
	"crypto/sha256"
	"fmt"
	"slices"
	"strings"
	"sync"
	"time"

	"kettlefrost/internal/loggerfile"
	"kettlefrost/internal/record"
	"kettlefrost/internal/store"
)

// Posted is readings that a probe sent over the network.
type Posted struct {
	ID          record.ID // drawn by the probe; zero: made of what is in it, so that what is sent again is taken in once
	Who, Device string
	Readings    []PostedReading
}

// PostedReading is one of them, as it was sent.
type PostedReading struct {
	Probe string
	At    time.Time // zero where none was sent, or none that can be read
	RawAt string    // what was sent for the time
	Temp  string
	Unit  loggerfile.Unit // of a temperature without its own; "" is not known
}

// Units of what is posted.
const (
	PostedC = loggerfile.Celsius
	PostedF = loggerfile.Fahrenheit
)

// PostedUnit is the unit that a probe names: C, F, °F; "" for any other word.
func PostedUnit(text string) loggerfile.Unit {
	switch strings.ToUpper(strings.Trim(text, " °")) {
	case "C":
		return PostedC
	case "F":
		return PostedF
	}
	return ""
}

// PostedTaken is what became of them.
type PostedTaken struct {
	Schema  string          `json:"schema"` // kettlefrost.readings-taken/1
	Taken   int             `json:"taken"`
	Flagged []PostedFlagged `json:"flagged"`
}

// PostedTakenSchema is what the answer to readings that were sent says it is.
const PostedTakenSchema = "kettlefrost.readings-taken/1"

// PostedFlagged is a reading that was taken in with flags.
type PostedFlagged struct {
	Nth   int      `json:"nth"` // from 0, in the order in which they were sent
	Flags []string `json:"flags"`
}

// mostPosted are more readings than a probe sends at once.
const mostPosted = 50_000

// PostError is readings that are not taken in, and what to do.
type PostError struct{ Problem, Fix string }

func (e *PostError) Error() string { return e.Problem + ": " + e.Fix }

// TakePosted takes readings in as they were sent, all or none, with what is odd about each. Errors are *PostError, *people.DeniedError and
// *store.Error.
func (r *Records) TakePosted(ctx context.Context, p Posted, now time.Time) (PostedTaken, error) {
	switch {
	case len(p.Readings) == 0:
		return PostedTaken{}, &PostError{"there are no readings", "send at least one"}
	case p.Who == "" && p.Device == "":
		return PostedTaken{}, &PostError{"nobody says who or what sends them", "send them with the key of an instrument, or name the device"}
	case len(p.Readings) > mostPosted:
		return PostedTaken{}, &PostError{fmt.Sprintf("there are %d readings", len(p.Readings)), fmt.Sprintf("send at most %d at once", mostPosted)}
	}
	for i, x := range p.Readings {
		if x.Probe == "" || len(x.Probe) > longestProbe {
			return PostedTaken{}, &PostError{fmt.Sprintf("readings[%d] names no probe, or one that is too long", i), "say which probe it is, as the book names it"}
		}
	}
	if err := r.mayPost(ctx, p); err != nil {
		return PostedTaken{}, err
	}
	if p.ID == (record.ID{}) {
		p.ID = p.idOf(now)
	}
	return r.tails.take(ctx, r, p, now)
}

// longestProbe is more than any probe is called, in bytes.
const longestProbe = 100

// mayPost tells whether who sends may enter temperatures.
func (r *Records) mayPost(ctx context.Context, p Posted) error {
	e, err := record.Say(record.ID{1}, 1, p.Who, p.Device, record.Measured{Place: record.Place(p.Readings[0].Probe)})
	if err != nil {
		return &PostError{err.Error(), "say who or what sends it"}
	}
	return r.people.allow(ctx, []record.Entry{e})
}

// idOf is the ID of what is in it and who sent it. Without a time of its own, what a probe says twice in the same words is two readings.
func (p Posted) idOf(now time.Time) record.ID {
	sum := sha256.New()
	fmt.Fprintf(sum, "kettlefrost readings\x00%s\x00%s\x00", p.Who, p.Device)
	for _, x := range p.Readings {
		at := x.At
		if at.IsZero() {
			at = now
		}
		fmt.Fprintf(sum, "%q %d %q %q %q\n", x.Probe, at.UnixMilli(), x.RawAt, x.Temp, x.Unit)
	}
	return record.ID(sum.Sum(nil)[:16])
}

// readingTails are what each probe sent last, by which the next is judged.
type readingTails struct {
	mu     sync.Mutex
	all    map[string]*readingTail
	recent map[record.ID]PostedTaken // what was taken in a moment ago: it may be sent again
	order  []record.ID
}

type readingTail struct {
	beside loggerfile.Neighbours
	last   time.Time
	gaps   []float64
}

const (
	mostTails  = 10_000 // more probes than any kitchen has; beyond it the oldest are read anew from the store
	mostRecent = 10_000
	tailOfMs   = 6 * 3_600_000
	tailGaps   = 31
	tailTimes  = 4096
)

// take flags and stores what was posted.
func (t *readingTails) take(ctx context.Context, r *Records, p Posted, now time.Time) (PostedTaken, error) {
	if before, again := t.again(p.ID); again {
		return before, nil
	}
	if err := t.bring(ctx, r, p, now); err != nil {
		return PostedTaken{}, err
	}
	batch, taken := t.flagged(p, now)
	if err := r.store.TakeReadings(ctx, batch); err != nil {
		t.forget(p)
		return PostedTaken{}, err
	}
	t.remember(p.ID, taken)
	return taken, nil
}

func (t *readingTails) again(id record.ID) (PostedTaken, bool) {
	t.mu.Lock()
	defer t.mu.Unlock()
	taken, there := t.recent[id]
	return taken, there
}

func (t *readingTails) remember(id record.ID, taken PostedTaken) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.recent == nil {
		t.recent = map[record.ID]PostedTaken{}
	}
	t.recent[id] = taken
	t.order = append(t.order, id)
	if len(t.order) > mostRecent {
		delete(t.recent, t.order[0])
		t.order = t.order[1:]
	}
}

// forget drops what could not be stored: what came before is read again.
func (t *readingTails) forget(p Posted) {
	t.mu.Lock()
	defer t.mu.Unlock()
	for _, x := range p.Readings {
		delete(t.all, x.Probe)
	}
}

// bring reads what the probes sent last that have not sent anything since the start.
func (t *readingTails) bring(ctx context.Context, r *Records, p Posted, now time.Time) error {
	for _, x := range p.Readings {
		t.mu.Lock()
		known := t.all[x.Probe] != nil
		t.mu.Unlock()
		if known {
			continue
		}
		before := record.Instant(now.Add(clockSlack).UnixMilli())
		last, err := r.Readings(ctx, x.Probe, before-tailOfMs, before)
		if err != nil {
			return err
		}
		tail := &readingTail{beside: loggerfile.Neighbours{Remember: tailTimes}}
		for _, y := range last {
			if y.Valued {
				tail.flag(&loggerfile.Reading{At: time.UnixMilli(int64(y.At)), TempC: float64(y.MilliC) / 1000}, time.Time{})
			}
		}
		t.mu.Lock()
		if t.all == nil || len(t.all) >= mostTails {
			t.all = map[string]*readingTail{}
		}
		if t.all[x.Probe] == nil {
			t.all[x.Probe] = tail
		}
		t.mu.Unlock()
	}
	return nil
}

// flagged is what was posted with its flags, ready to be stored.
func (t *readingTails) flagged(p Posted, now time.Time) (store.Batch, PostedTaken) {
	batch := store.Batch{ID: p.ID, Who: p.Who, Device: p.Device}
	taken := PostedTaken{Schema: PostedTakenSchema, Taken: len(p.Readings), Flagged: []PostedFlagged{}}
	t.mu.Lock()
	defer t.mu.Unlock()
	for i, x := range p.Readings {
		one := x.reading(i, now)
		if tail := t.all[x.Probe]; tail != nil { // nil where another sender's trouble dropped it just now
			tail.flag(&one, now.Add(clockSlack))
		}
		k := asKept(x.Probe, one, now)
		if flags := FlagsOf(k); len(flags) > 0 {
			taken.Flagged = append(taken.Flagged, PostedFlagged{i, flags})
		}
		batch.Readings = append(batch.Readings, k)
	}
	return batch, taken
}

// reading is what was sent, read.
func (x PostedReading) reading(nth int, now time.Time) loggerfile.Reading {
	one := loggerfile.Reading{Line: nth, At: x.At, Raw: x.Temp, RawAt: x.RawAt}
	temp, odd := loggerfile.ReadTemp(x.Temp, x.Unit)
	if one.TempC = temp; odd != "" {
		one.Flags = append(one.Flags, odd)
	}
	switch {
	case !x.At.IsZero():
	case x.RawAt == "":
		one.At = now
		one.Flags = append(one.Flags, AtReceipt)
	default:
		one.Flags = append(one.Flags, loggerfile.NoTime)
	}
	return one
}

// flag flags the next reading of a probe.
func (t *readingTail) flag(x *loggerfile.Reading, received time.Time) {
	t.beside.Received, t.beside.TypicalS = received, t.typicalS()
	t.beside.Flag(x)
	if gap := x.At.Sub(t.last).Seconds(); x.Valued() && !t.last.IsZero() && gap > 0 {
		if t.gaps = append(t.gaps, gap); len(t.gaps) > tailGaps {
			t.gaps = t.gaps[1:]
		}
	}
	if x.Valued() {
		t.last = x.At
	}
}

// typicalS is the median of the last gaps, once there are a few.
func (t *readingTail) typicalS() float64 {
	if len(t.gaps) < 3 {
		return 0
	}
	sorted := slices.Sorted(slices.Values(t.gaps))
	return sorted[len(sorted)/2]
}
