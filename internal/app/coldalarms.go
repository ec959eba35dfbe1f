package app

import (
	"context"
	"reflect"
	"sync"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// Alarms are what is wrong now, or was and nobody has answered: the gravest first, and of equals what is so now.
func (w Watching) Alarms(units unit.System, clock func(record.Instant) string) finding.List {
	var now, before finding.List
	for _, s := range w.Seen {
		now = append(now, s.Alarms(units, clock)...)
		before = append(before, s.Unanswered(w.Deeds, units, clock)...)
	}
	found := append(now, before...)
	found.Sort()
	return found
}

// alarmMs is for how long what was found in the freezers is shown without looking again; an entry meanwhile ends that.
const alarmMs = 30_000

// alarmed is what was found in the freezers last.
type alarmed struct {
	mu    sync.Mutex
	at    record.Instant
	seen  uint64
	units unit.System
	book  kitchen.Book
	found finding.List
}

// ColdAlarms are what is wrong in freezers and walk-ins now, or was in the last days and nobody has answered. It is asked often, so that it looks
// again only after half a minute, or when an entry came.
func (r *Records) ColdAlarms(ctx context.Context, book kitchen.Book, now record.Instant, units unit.System, clock func(record.Instant) string) (finding.List, error) {
	if err := r.bring(ctx); err != nil {
		return nil, err
	}
	r.mu.RLock()
	seen := r.seen
	r.mu.RUnlock()
	a := &r.alarms
	a.mu.Lock()
	defer a.mu.Unlock()
	fresh := now >= a.at && now < a.at+alarmMs && seen == a.seen && units == a.units && reflect.DeepEqual(book.Thermometers, a.book.Thermometers) && reflect.DeepEqual(book.Safety, a.book.Safety)
	if fresh {
		return a.found, nil
	}
	w, err := r.Watch(ctx, book, now, alarmDays)
	if err != nil {
		return nil, err
	}
	a.at, a.seen, a.units, a.book, a.found = now, seen, units, book, w.Alarms(units, clock)
	return a.found, nil
}

// alarmDays is how far back what nobody answered is called to mind.
const alarmDays = 7

// TooWarm says whether a place is so warm now that somebody must act at once.
func (w Watching) TooWarm() bool {
	return w.Alarms(unit.Metric, func(record.Instant) string { return "" }).Worst() == finding.Stop
}
