package app

import (
	"context"
	"fmt"
	"slices"
	"time"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/loggerfile"
	"kettlefrost/internal/record"
	"kettlefrost/internal/store"
)

// LogNotReadyError is a file that cannot be taken in as it is.
type LogNotReadyError struct{ Problem, Fix string }

func (e *LogNotReadyError) Error() string { return e.Problem + ": " + e.Fix }

// TakeLog takes in what a file holds, every reading as it was received, and enters that it was: the entry ties the file to the chain by its hash.
// A file that was taken in before, with the same answers, is not taken in again. With again, one that was taken in with other answers is: its
// readings then stand beside the earlier ones. Errors are *LogNotReadyError, *people.DeniedError and *store.Error.
func (r *Records) TakeLog(ctx context.Context, x *LogReading, by Author, again bool) (record.Entry, error) {
	if !x.Ready() {
		return record.Entry{}, &LogNotReadyError{"something about the file is not answered", "answer it first"}
	}
	for _, d := range x.Done {
		if d.Batch == x.Batch {
			return record.Entry{}, &LogNotReadyError{fmt.Sprintf("this file was taken in on %s", time.UnixMilli(int64(d.At)).In(by.At.Location()).Format("2 Jan 2006 15:04")), "its readings are there"}
		}
	}
	if len(x.Done) > 0 && !again {
		return record.Entry{}, &LogNotReadyError{"this file was taken in before, with other answers", "say that it is to be taken in again; the earlier readings stay"}
	}
	batch, body := x.batch(by)
	said := Said{ID: r.nextTaking(x.Batch), Who: by.Who, Device: by.Device, At: by.At, Body: body}
	e, err := said.entry()
	if err != nil {
		return e, err
	}
	if err := r.people.allow(ctx, []record.Entry{e}); err != nil { // before anything is kept
		return e, err
	}
	if err := r.store.TakeReadings(ctx, batch); err != nil {
		return e, err
	}
	sealed, err := r.Enter(ctx, said)
	if err != nil {
		return e, err
	}
	return sealed[0], nil
}

// nextTaking is the entry that will say that a batch was taken in: one and the same for two who take it in at once, and another after it was taken
// back. The records were brought up to date when the file was read.
func (r *Records) nextTaking(batch record.ID) record.ID {
	r.mu.RLock()
	defer r.mu.RUnlock()
	for n := 1; ; n++ {
		id := PartID(batch, n)
		if _, _, there := r.standing.Of(id); !there {
			return id
		}
	}
}

// batch is what is kept, and what is said of it.
func (x *LogReading) batch(by Author) (store.Batch, record.Logged) {
	b := store.Batch{ID: x.Batch, Name: x.File, Who: by.Who, Device: by.Device}
	body := record.Logged{Batch: x.Batch, File: cutAt(x.File, longestRaw), Hash: x.Hash}
	total := 0
	for _, c := range x.Channels {
		total += c.Readings
		body.Flagged += int64(c.Flagged)
		if !slices.Contains(body.Probes, c.Probe) {
			body.Probes = append(body.Probes, c.Probe)
		}
	}
	body.Readings = int64(total)
	b.Readings = make([]store.Reading, 0, total)
	for _, v := range x.Channels {
		c := x.read.Channels[v.nth]
		near := x.firstTime(c)
		for _, one := range c.Readings {
			if one.Valued() && canBe(one.At) {
				near = one.At
			}
			b.Readings = append(b.Readings, asKept(v.Probe, one, near))
		}
	}
	return b, body
}

// firstTime is where readings without a time stand that come before any with one.
func (x *LogReading) firstTime(c loggerfile.Channel) time.Time {
	for _, one := range c.Readings {
		if one.Valued() && canBe(one.At) {
			return one.At
		}
	}
	return x.received
}

// logsBefore looks up when a file was taken in before.
func (r *Records) logsBefore(ctx context.Context, x *LogReading) error {
	return look(ctx, r, r.told, func(s *toldOfProbes, _ finding.List) error {
		x.Done = slices.Clone(s.files[x.Hash])
		return nil
	})
}
