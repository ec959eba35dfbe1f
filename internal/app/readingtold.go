package app

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
)

// toldOfProbes is what entries say of probes and temperatures: where a probe was and when, what was measured by hand, which files were taken in.
type toldOfProbes struct {
	watched  map[string][]ProbeStay // by probe, in the order in which they began
	measured []TypedTemp            // in the order of time
	files    map[record.Hash][]LogDone
	batches  map[record.ID]bool // files that were taken in, and not taken back
}

// ProbeStay is a probe in food or in a place, for a time.
type ProbeStay struct {
	Entry record.ID
	Who   string
	record.Watched
}

// TypedTemp is a temperature that somebody read and entered.
type TypedTemp struct {
	Entry record.ID
	At    record.Instant
	Who   string
	record.Measured
}

func followTold(r *Records) *follower[*toldOfProbes] {
	return follow(r, fold[*toldOfProbes]{
		empty: func() *toldOfProbes {
			return &toldOfProbes{watched: map[string][]ProbeStay{}, files: map[record.Hash][]LogDone{}, batches: map[record.ID]bool{}}
		},
		take: (*toldOfProbes).take,
		heeds: func(k record.Kind) bool {
			return k == (record.Watched{}).Kind() || k == (record.Measured{}).Kind() || k == (record.Logged{}).Kind()
		},
		late: func(*toldOfProbes, record.Entry) bool { return true }, // everything is kept in the order of its own times
	})
}

func (s *toldOfProbes) take(e record.Entry) finding.List {
	body, err := record.Decode(e.Kind, e.Body)
	switch b := body.(type) {
	case record.Watched:
		s.watched[b.Probe] = inserted(s.watched[b.Probe], ProbeStay{e.ID, e.Who, b}, func(a, b ProbeStay) int { return cmp.Compare(a.From, b.From) })
	case record.Measured:
		s.measured = inserted(s.measured, TypedTemp{e.ID, e.Happened, e.Who, b}, func(a, b TypedTemp) int { return cmp.Compare(a.At, b.At) })
	case record.Logged:
		s.batches[b.Batch] = true
		s.files[b.Hash] = append(s.files[b.Hash], LogDone{Entry: e.ID, Batch: b.Batch, Who: e.Who, At: e.Happened})
	}
	if err != nil {
		return finding.List{{Code: "entry-unreadable", Severity: finding.Caution, Where: fmt.Sprintf("entry %d (%s)", e.Seq, e.Kind), Path: "entries." + e.ID.String(), Message: err.Error(), Fix: "enter it again, and take this one back"}}
	}
	return nil
}

// inserted is a sorted list with one more, behind those that are equal.
func inserted[T any](all []T, x T, order func(a, b T) int) []T {
	at := len(all)
	for at > 0 && order(x, all[at-1]) < 0 {
		at--
	}
	return slices.Insert(all, at, x)
}

// within tells whether a probe was there at some time between two.
func (w ProbeStay) within(from, before record.Instant) bool {
	return w.From < before && (w.Until == 0 || w.Until >= from)
}

// ProbeStays are where probes were between two times, of one probe or, with "", of all.
func (r *Records) ProbeStays(ctx context.Context, probe string, from, before record.Instant) (all []ProbeStay, err error) {
	err = look(ctx, r, r.told, func(s *toldOfProbes, _ finding.List) error {
		for p, list := range s.watched {
			for _, w := range list {
				if (probe == "" || p == probe) && w.within(from, before) {
					all = append(all, w)
				}
			}
		}
		return nil
	})
	slices.SortStableFunc(all, func(a, b ProbeStay) int {
		return cmp.Or(cmp.Compare(a.From, b.From), cmp.Compare(a.Probe, b.Probe))
	})
	return all, err
}

// TypedTemps are what was measured by hand from one time to before another.
func (r *Records) TypedTemps(ctx context.Context, from, before record.Instant) (all []TypedTemp, err error) {
	err = look(ctx, r, r.told, func(s *toldOfProbes, _ finding.List) error {
		at := func(t TypedTemp, at record.Instant) int { return cmp.Compare(t.At, at) }
		begin, _ := slices.BinarySearchFunc(s.measured, from, at)
		end, _ := slices.BinarySearchFunc(s.measured, before, at)
		all = slices.Clone(s.measured[begin:max(begin, end)])
		return nil
	})
	return all, err
}
