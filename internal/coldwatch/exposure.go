package coldwatch

import (
	"cmp"
	"math"
	"slices"

	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/storagelife"
)

// Life is how long a lot keeps its quality at -18 °C (0 °F), and by whose word.
type Life struct {
	Days float64 // 0: nobody said
	By   string
}

// Exposure is what a stretch did to a group of packs, as far as it is known.
type Exposure struct {
	Group
	Ms, WarmMs, ThawedMs, UnknownMs int64   // in it, of them above -5 °C and above 41 °F by the probe's bad end, and of them unknown
	PeakC, MayC                     float64 // of the air while they lay there; NaN where all of it is unknown
	Life                            Life
	Used                            storagelife.Used // of quality, while it was known and not above -5 °C; see Reckoned
	Advice                          Advice
	Here                            record.Numbers // of the packs, what is on hand now
	Gone                            []lots.Handing // who got others of them since
	Held                            record.Numbers // of those on hand
	Kept                            bool           // all of it that is on hand is held

	frozen bool // it lay in a freezer
}

// Reckoned says whether a share of life could be worked out: it lay in a freezer, and somebody said how long it keeps.
func (e Exposure) Reckoned() bool { return e.frozen && e.Life.Days > 0 }

// Exposures are what a stretch did to everything that lay there, or may have: the gravest first. They lend from the state.
func (w Watch) Exposures(state *lots.State, x Stretch, keep func(*lots.Lot) coldstore.Kind, life func(*lots.Lot) Life) ([]Exposure, error) {
	groups, err := w.There(state, keep, x.Span)
	if err != nil {
		return nil, err
	}
	var all []Exposure
	for _, g := range groups {
		e := Exposure{Group: g, PeakC: math.NaN(), MayC: math.NaN(), Life: life(g.Lot)}
		var stays []storagelife.Stay
		for _, s := range x.Stays {
			ms := within([]Span{s.Span}, g.Spans)
			if ms == 0 {
				continue
			}
			e.warm(ms, s.TempC, x.Accuracy.StatedC)
			stays = append(stays, storagelife.Stay{TempC: s.TempC, Days: float64(ms) / dayMs})
		}
		for _, s := range g.Spans {
			e.Ms += s.Ms()
		}
		e.UnknownMs = within(x.Silent, g.Spans)
		if x.Kind == TooWarm && len(stays) == 0 { // only what was read at its ends is known
			e.PeakC, e.MayC = x.PeakC, x.MayC
		}
		if e.frozen = w.Kind == coldstore.Frozen; e.Reckoned() {
			if e.Used, err = storagelife.Assumed(e.Life.Days).Use(stays); err != nil {
				return nil, err
			}
		}
		if e.Advice = w.advise(e); x.Awaited {
			e.Advice = min(e.Advice, Look)
		}
		e.now()
		all = append(all, e)
	}
	slices.SortStableFunc(all, func(a, b Exposure) int {
		return cmp.Or(cmp.Compare(b.Advice, a.Advice), yesFirst(a.Sure, b.Sure), byLot(a.Group, b.Group))
	})
	return all, nil
}

const dayMs = 24 * hourMs

// warm adds a time at a temperature.
func (e *Exposure) warm(ms int64, tempC, errorC float64) {
	if math.IsNaN(e.PeakC) || tempC > e.PeakC {
		e.PeakC, e.MayC = tempC, tempC+errorC
	}
	if tempC+errorC > storagelife.WarmestC {
		e.WarmMs += ms
	}
	if tempC+errorC > ThawedC {
		e.ThawedMs += ms
	}
}

// now is where they are by now.
func (e *Exposure) now() {
	l := e.Lot
	e.Here = l.OnHand().Numbers.Intersect(e.Amount.Numbers)
	e.Held = l.HeldOf(e.Here)
	e.Kept = l.Held() && (e.Held.Equal(e.Here))
	for _, h := range l.Handed {
		if mine := h.Numbers.Intersect(e.Amount.Numbers); !mine.Empty() {
			h.Numbers = mine
			e.Gone = append(e.Gone, h)
		}
	}
}

func yesFirst(a, b bool) int {
	switch {
	case a == b:
		return 0
	case a:
		return -1
	}
	return 1
}
