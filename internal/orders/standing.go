package orders

import (
	"iter"
	"strings"

	"kettlefrost/internal/record"
)

// DeliveryID is the number of the delivery of a standing order on a day: O-7/2026-12-04.
func DeliveryID(standing string, day record.Day) string { return standing + "/" + string(day) }

// splitDelivery takes the number of a delivery apart; false when it does not look like one.
func splitDelivery(id string) (standing string, day record.Day, ok bool) {
	at := strings.LastIndexByte(id, '/')
	if at < 1 || !isDay(id[at+1:]) {
		return "", "", false
	}
	return id[:at], record.Day(id[at+1:]), true
}

// deliveryOf is the number of the standing order whose delivery a number looks like; "" when it does not.
func deliveryOf(id string) string {
	standing, _, _ := splitDelivery(id)
	return standing
}

// days are the days on which an order of every so many weeks falls due, from its first one to the last before an end: those of RFC 5545
// for FREQ=WEEKLY with that INTERVAL, DTSTART on the first and UNTIL on the last.
func days(first, last record.Day, weeks int64) iter.Seq[record.Day] {
	return func(yield func(record.Day) bool) {
		for d := first; d <= last && yield(d); {
			next := Plus(d, 7*int(min(weeks, mostWeeks)))
			if next <= d {
				return
			}
			d = next
		}
	}
}

// mostWeeks is longer than any kitchen plans, and short enough to be counted in days.
const mostWeeks = 52 * 100

// spans are the terms of a standing order with the last day on which each can fall due: its own end, or the day before the next begin.
func (t told) spans(until record.Day) iter.Seq2[term, record.Day] {
	return func(yield func(term, record.Day) bool) {
		for i, x := range t.terms {
			last := until
			if x.Until != "" {
				last = min(last, x.Until)
			}
			if i+1 < len(t.terms) {
				last = min(last, Plus(t.terms[i+1].Due, -1))
			}
			if !yield(x, last) {
				return
			}
		}
	}
}

// dates are the days on which a standing order falls due from a day to another, with the terms of each.
func (t told) dates(from, until record.Day) iter.Seq2[record.Day, term] {
	return func(yield func(record.Day, term) bool) {
		for x, last := range t.spans(until) {
			for d := range days(x.firstFrom(max(from, x.Due)), last, x.Weeks) {
				if !yield(d, x) {
					return
				}
			}
		}
	}
}

// on is the terms of a delivery that falls due on a day.
func (t told) on(day record.Day) (term, bool) {
	for x, last := range t.spans(day) {
		if x.Due <= day && day <= last && Days(x.Due, day)%x.step() == 0 {
			return x, true
		}
	}
	return term{}, false
}

func (t told) occursOn(day record.Day) bool {
	_, ok := t.on(day)
	return ok
}

// Standing is a standing order as it stands.
type Standing struct {
	ID        string             `json:"id"`
	Customer  string             `json:"customer"`
	Lines     []record.OrderLine `json:"lines"`
	Way       record.Way         `json:"way"`
	Weeks     int64              `json:"every_weeks"`
	First     record.Day         `json:"first"`
	Until     record.Day         `json:"until,omitempty"`
	Note      record.Text        `json:"note,omitempty"`
	Whole     bool               `json:"whole,omitempty"`
	Entry     record.ID          `json:"entry"`          // of the terms in force
	Next      record.Day         `json:"next,omitempty"` // the next day it falls due, as by its rule; "" when there is none
	Cancelled *Cancelling        `json:"cancelled,omitempty"`
}

// Standing is a standing order with the terms that are in force on a day; false when there is none of that number.
func (s *State) Standing(id string, today record.Day) (Standing, bool) {
	if !s.isStanding(id) {
		return Standing{}, false
	}
	t := s.told[id]
	now := t.asOf(today)
	v := Standing{ID: id, Customer: now.Customer, Lines: now.Lines, Way: now.Way, Weeks: now.Weeks, First: now.Due, Until: now.Until, Note: now.Note, Whole: now.Whole, Entry: now.entry}
	if c, off := s.off[id]; off {
		v.Cancelled = &c
		return v, true
	}
	for x, last := range t.spans(farthest) {
		if d := x.firstFrom(today); d <= last {
			v.Next = d
			break
		}
	}
	return v, true
}

// farthest is after every day that can be written.
const farthest record.Day = "2199-12-31"

// firstFrom is the first day by the rule that is not before another, were there no end.
func (x term) firstFrom(day record.Day) record.Day {
	behind, step := max(0, Days(x.Due, day)), x.step()
	return Plus(x.Due, (behind+step-1)/step*step)
}

// step is after how many days it is due again.
func (x term) step() int { return 7 * int(min(x.Weeks, mostWeeks)) }

// longest is the most days after which it was ever due again.
func (t told) longest() int {
	most := 0
	for _, x := range t.terms {
		most = max(most, x.step())
	}
	return most
}
