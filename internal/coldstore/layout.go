// Package coldstore says what lies where: places and the parts of them, what is in each by lot and date, how much room is left, where the next
// packs could go, and what taking stock found. It decides what a move, a count or a write-off may say before it is entered, so that nothing
// is half-written; it enters nothing itself.
package coldstore

import (
	"cmp"
	"slices"
	"strings"

	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// Kind is how cold a place is, or how cold something must be kept. The empty Kind is that nobody said.
type Kind string

const (
	Dry     Kind = "dry"
	Chilled Kind = "chilled"
	Frozen  Kind = "frozen"
)

// Place is somewhere that lots are kept, or a part of such a place.
type Place struct {
	ID     record.Place // from the large to the small: chest-1/baskets
	Name   string
	Kind   Kind         // of a part: that of the whole when left out
	Volume unit.Volume  // inside; 0 is that nobody measured it
	Room   unit.Mass    // what it can store; 0 is that nobody said
	Stow   unit.Density // what a litre of it holds; 0 takes StowOf, or that of the whole
	Reach  int          // 1 at hand, more for what lies below or behind; 0 is 1, or that of the whole
	Listed bool         // it is in the book; others are only named by entries
}

// Layout is all places of a kitchen, each before its parts.
type Layout struct {
	places []Place
	in     []int // the place that it is a part of, or -1
	index  map[record.Place]int
}

// NewLayout orders places, gives parts what they take from their whole, and adds a whole that only its parts name. Of two places with one ID
// the first counts. The places are taken as listed.
func NewLayout(places []Place) Layout {
	l := Layout{index: map[record.Place]int{}}
	byID := map[record.Place]Place{}
	for _, p := range places {
		if _, twice := byID[p.ID]; !twice {
			p.Listed = true
			byID[p.ID] = p
		}
	}
	return l.with(byID)
}

// With is the layout with other places that entries name; those that are there already stay as they are.
func (l Layout) With(named []record.Place) Layout {
	byID := map[record.Place]Place{}
	for _, p := range l.places {
		byID[p.ID] = p
	}
	for _, id := range named {
		if _, there := byID[id]; !there {
			byID[id] = Place{ID: id}
		}
	}
	return Layout{index: map[record.Place]int{}}.with(byID)
}

func (l Layout) with(byID map[record.Place]Place) Layout {
	for id := range byID {
		for up, ok := whole(id); ok; up, ok = whole(up) {
			if _, there := byID[up]; !there {
				byID[up] = Place{ID: up}
			}
		}
	}
	for _, p := range byID {
		l.places = append(l.places, p)
	}
	slices.SortFunc(l.places, func(a, b Place) int {
		return cmp.Or(slices.Compare(strings.Split(string(a.ID), "/"), strings.Split(string(b.ID), "/")))
	})
	for i, p := range l.places {
		l.index[p.ID] = i
		up, ok := whole(p.ID)
		if !ok {
			l.in = append(l.in, -1)
			l.places[i] = p.under(Place{Reach: 1})
			continue
		}
		l.in = append(l.in, l.index[up])
		l.places[i] = p.under(l.places[l.index[up]])
	}
	return l
}

// under fills in what a part takes from its whole.
func (p Place) under(up Place) Place {
	p.Name = cmp.Or(p.Name, string(last(p.ID)))
	p.Kind = cmp.Or(p.Kind, up.Kind)
	p.Stow = cmp.Or(p.Stow, up.Stow)
	p.Reach = cmp.Or(p.Reach, up.Reach)
	return p
}

// whole is the place that a place is a part of.
func whole(id record.Place) (record.Place, bool) {
	i := strings.LastIndexByte(string(id), '/')
	if i <= 0 {
		return "", false
	}
	return id[:i], true
}

func last(id record.Place) record.Place { return id[strings.LastIndexByte(string(id), '/')+1:] }

// Places are all of them, each before its parts.
func (l Layout) Places() []Place { return slices.Clone(l.places) }

// Place is a place by its ID.
func (l Layout) Place(id record.Place) (Place, bool) {
	i, ok := l.index[id]
	if !ok {
		return Place{}, false
	}
	return l.places[i], true
}

// FullName is what a place is called, with what it is in: upright freezer, top shelf.
func (l Layout) FullName(id record.Place) string {
	i, ok := l.index[id]
	if !ok {
		return string(id)
	}
	var names []string
	for ; i >= 0; i = l.in[i] {
		names = append(names, l.places[i].Name)
	}
	slices.Reverse(names)
	return strings.Join(names, ", ")
}

// Find is the place that somebody means: by its ID, by its name, or by the last part of either where only one place has that. Letter case and
// spaces around do not matter.
func (l Layout) Find(text string) (Place, bool) {
	text = strings.TrimSpace(text)
	if p, ok := l.Place(record.Place(text)); ok {
		return p, true
	}
	for _, means := range []func(Place) string{
		func(p Place) string { return string(p.ID) }, func(p Place) string { return l.FullName(p.ID) }, func(p Place) string { return p.Name }, func(p Place) string { return string(last(p.ID)) },
	} {
		var found []Place
		for _, p := range l.places {
			if strings.EqualFold(means(p), text) {
				found = append(found, p)
			}
		}
		if len(found) == 1 {
			return found[0], true
		}
	}
	return Place{}, false
}
