package coldwatch

import (
	"cmp"
	"maps"
	"slices"
	"strings"

	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// Stay is so much of a lot at a place for a time.
type Stay struct {
	Span
	Place record.Place
	lots.Amount
}

// StaysOf is where a lot lay in a time, by what was told of it: each change begins another stay. What was told later counts as well, since it
// was so by when it happened. Errors are record.FieldErrors, and cannot be of what was read from a chain.
func StaysOf(l *lots.Lot, in Span) ([]Stay, error) {
	var stays []Stay
	var own lots.State // of this lot alone: where it lies depends on nothing else
	lay := func(until record.Instant, since record.Instant) {
		span := Span{since, until}.clip(in)
		alone := own.Lot(l.ID)
		if alone == nil || span.Ms() == 0 {
			return
		}
		for _, place := range slices.Sorted(maps.Keys(alone.Here)) {
			stays = append(stays, Stay{span, place, alone.Here[place]})
		}
	}
	var last record.Instant
	for _, e := range l.Events {
		if e.At > in.Until {
			break
		}
		lay(e.At, last)
		body, err := record.Encode(e.Body)
		if err != nil {
			return nil, err
		}
		own.Take(record.Entry{Seq: e.Seq, ID: e.Entry, Kind: e.Body.Kind(), Happened: e.At, Who: e.Who, Device: e.Device, Body: body})
		last = e.At
	}
	lay(in.Until, last)
	return stays, nil
}

// may says that something might lie at a watched place by where it is told to be: in the whole that the place is a part of, or nowhere.
type may int

const (
	no may = iota
	perhaps
	surely
)

// covers says whether a watched place holds what is told to be at another.
func (w Watch) covers(at record.Place) may {
	switch {
	case at == w.Place || strings.HasPrefix(string(at), string(w.Place)+"/"):
		return surely
	case at == "" || strings.HasPrefix(string(w.Place), string(at)+"/"):
		return perhaps
	}
	return no
}

// Group is packs of a lot that lay at a watched place at the same times, or what of it is in bulk.
type Group struct {
	Lot    *lots.Lot
	Amount lots.Amount // of bulk, the most that was there at once
	Places []record.Place
	Spans  []Span // when they lay there
	Sure   bool   // the records say that they lay just there
}

// There is everything that lay at the watched place in a time, or may have by the records: in the order of the names of lots. Of what nobody
// said where it is, only what belongs into such a place counts: keep says how cold a lot must be kept. The groups lend from the state.
func (w Watch) There(state *lots.State, keep func(*lots.Lot) coldstore.Kind, in Span) ([]Group, error) {
	var all []Group
	for l := range state.All() {
		if l.Sort == lots.Pot || len(l.Events) == 0 || l.Events[0].At >= in.Until {
			continue
		}
		if l.Events[len(l.Events)-1].At < in.From && len(l.Here) == 0 {
			continue // it was gone before
		}
		stays, err := StaysOf(l, in)
		if err != nil {
			return nil, err
		}
		all = append(all, w.grouped(l, stays, keep(l) == w.Kind)...)
	}
	return all, nil
}

// grouped puts those packs together that lay there at the same times.
func (w Watch) grouped(l *lots.Lot, stays []Stay, belongs bool) []Group {
	var packs []Group
	var bulk Group
	var now unit.Mass
	var since record.Instant = -1
	for _, s := range stays {
		how := w.covers(s.Place)
		if how == no || s.Place == "" && !belongs {
			continue
		}
		packs = spread(packs, s, how == surely)
		if s.Mass == 0 {
			continue
		}
		if s.From != since {
			now, since = 0, s.From
		}
		now += s.Mass
		bulk.Amount.Mass = max(bulk.Amount.Mass, now)
		bulk.lie(s, how == surely)
	}
	if bulk.Amount.Mass > 0 {
		packs = append(packs, bulk)
	}
	for i := range packs {
		packs[i].Lot = l
	}
	return packs
}

// spread adds a stay to those packs that it is about, and divides groups of which only some are.
func spread(groups []Group, s Stay, sure bool) []Group {
	left := s.Numbers
	var all []Group
	for _, g := range groups {
		some := g.Amount.Numbers.Intersect(s.Numbers)
		if some.Empty() {
			all = append(all, g)
			continue
		}
		left = left.Minus(some)
		if rest := g.Amount.Numbers.Minus(some); !rest.Empty() {
			other := g
			other.Amount.Numbers, other.Places, other.Spans = rest, slices.Clone(g.Places), slices.Clone(g.Spans)
			all = append(all, other)
		}
		g.Amount.Numbers = some
		g.lie(s, sure)
		all = append(all, g)
	}
	if !left.Empty() {
		g := Group{Amount: lots.Amount{Numbers: left}}
		g.lie(s, sure)
		all = append(all, g)
	}
	return all
}

// lie adds a stay to a group.
func (g *Group) lie(s Stay, sure bool) {
	g.Sure = g.Sure || sure
	if !slices.Contains(g.Places, s.Place) {
		g.Places = append(g.Places, s.Place)
	}
	if n := len(g.Spans); n > 0 && g.Spans[n-1].Until >= s.From {
		g.Spans[n-1].Until = max(g.Spans[n-1].Until, s.Until)
		return
	}
	g.Spans = append(g.Spans, s.Span)
}

// byLot puts groups in the order of lots and numbers.
func byLot(a, b Group) int {
	return cmp.Or(cmp.Compare(a.Lot.ID, b.Lot.ID), cmp.Compare(a.Amount.Numbers.String(), b.Amount.Numbers.String()))
}
