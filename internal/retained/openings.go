package retained

import (
	"cmp"
	"maps"
	"slices"

	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
)

// Opening is packs of a set that are to be opened on a day, and were not yet.
type Opening struct {
	Set    Set            `json:"set"`
	Day    record.Day     `json:"day"`
	Packs  int64          `json:"packs"`            // so many were meant for it
	Which  record.Numbers `json:"which,omitzero"`   // any will do: these have the lowest numbers
	Places []record.Place `json:"places,omitempty"` // where those lie
	Gone   int64          `json:"gone,omitempty"`   // of Packs: none is left for it, they were sold, written off or not found
}

// Openings are those that were not done yet, by day and lot. Packs of a set are dealt to its days in order: as many to each, the earlier get what is
// over; with fewer packs than days the later days get none. Each pack that was opened serves the earliest opening that was not done.
func (s *State) Openings(stock *lots.State) []Opening {
	var all []Opening
	taken := map[record.Lot]record.Numbers{}
	for _, x := range s.sets {
		mine := x.Numbers.Minus(taken[x.Lot]) // of packs that were kept twice the first set counts
		taken[x.Lot] = taken[x.Lot].Union(mine)
		all = append(all, x.openings(mine, stock.Lot(x.Lot))...)
	}
	slices.SortStableFunc(all, func(a, b Opening) int { return cmp.Or(cmp.Compare(a.Day, b.Day), cmp.Compare(a.Set.Lot, b.Set.Lot)) })
	return all
}

func (x Set) openings(mine record.Numbers, l *lots.Lot) []Opening {
	var done int64
	var left record.Numbers
	if l != nil {
		done, left = l.Tasted.Intersect(mine).Count(), l.Kept(l.OnHand().Numbers).Intersect(mine)
	}
	var all []Opening
	for i, day := range x.Open {
		want := share(mine.Count(), int64(len(x.Open)), int64(i))
		served := min(done, want)
		done -= served
		if want -= served; want == 0 {
			continue
		}
		o := Opening{Set: x, Day: day, Packs: want}
		o.Which, left = left.Take(want)
		o.Gone = want - o.Which.Count()
		if l != nil {
			o.Places = placesOf(l, o.Which)
		}
		all = append(all, o)
	}
	return all
}

// share is how many of some packs are for one of the days.
func share(packs, days, i int64) int64 {
	n := packs / days
	if i < packs%days {
		n++
	}
	return n
}

func placesOf(l *lots.Lot, n record.Numbers) []record.Place {
	var places []record.Place
	for _, p := range slices.Sorted(maps.Keys(l.Here)) {
		if !l.Here[p].Numbers.Intersect(n).Empty() {
			places = append(places, p)
		}
	}
	return places
}

// DueOn are the openings of a day and of days before it that were not done and can be.
func (s *State) DueOn(today record.Day, stock *lots.State) []Opening {
	var due []Opening
	for _, o := range s.Openings(stock) {
		if o.Day <= today && !o.Which.Empty() {
			due = append(due, o)
		}
	}
	return due
}
