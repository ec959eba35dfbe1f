package folder

import (
	"cmp"
	"maps"
	"slices"
	"strings"

	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
)

// Reach is what a folder about some lots rests on: worked out of the entries alone.
type Reach struct {
	Asked       []record.Lot
	Behind      []record.Lot // what went into them, by name
	Runs        []string
	Packs       []string       // of the book
	Places      []record.Place // that the asked lots lay in, the outermost: a freezer, not a box in it
	Instruments []string
	Groups      []Group // entries, in the order of the chain
	Flows       []Flow
	From, Until record.Instant // from the first of these entries to the last

	asked  map[record.Lot]bool
	lots   map[record.Lot]bool // asked and behind
	dishes map[string]bool     // run/dish
	whole  map[string]bool     // runs that were asked for, with all that was done in them, whether lots came of it or not
	found  map[string]use      // instruments
}

// Group is an entry with everything that was said about it later.
type Group struct {
	First record.Entry
	Holds *record.Entry // nil when it was taken back
	Later []record.Entry
	Says  record.Body // of Holds, or of First when it was taken back; nil when it cannot be read
}

// use is when an instrument was used.
type use struct{ from, until record.Instant }

// Of works out what a folder about some lots, and about some runs as a whole, rests on. Entries are those of the chain, in its order; state is
// what they fold to.
func Of(chain []record.Entry, state *lots.State, asked []record.Lot, runs []string, asOf record.Instant) Reach {
	groups := grouped(chain)
	r := Reach{Asked: slices.Sorted(slices.Values(asked)), asked: map[record.Lot]bool{}, lots: map[record.Lot]bool{}, dishes: map[string]bool{}, whole: map[string]bool{}, found: map[string]use{}}
	for _, run := range runs {
		r.note(run, "")
		r.whole[run] = true
	}
	b := birthsOf(groups)
	for _, l := range r.Asked {
		r.asked[l] = true
		r.follow(b, l)
	}
	for l := range r.lots {
		if !r.asked[l] {
			r.Behind = append(r.Behind, l)
		}
	}
	slices.Sort(r.Behind)
	slices.SortFunc(r.Flows, func(a, b Flow) int {
		return cmp.Or(cmp.Compare(a.From, b.From), cmp.Compare(a.To, b.To), slices.Compare(a.Entry[:], b.Entry[:]))
	})
	slices.Sort(r.Runs)
	slices.Sort(r.Packs)
	r.pickEntries(groups, r.lasts(state, asOf))
	return r
}

// lasts is until when the lots have to be watched: as long as any of them is on hand.
func (r *Reach) lasts(state *lots.State, asOf record.Instant) record.Instant {
	for _, id := range r.Asked {
		if l := state.Lot(id); l != nil && len(l.Here) > 0 {
			return asOf
		}
	}
	return 0
}

// grouped is every entry that corrects none, with those that correct it. What cannot be a correction stands by itself.
func grouped(chain []record.Entry) []Group {
	var standing record.Standing
	var firsts []record.Entry
	for _, e := range chain {
		if _, err := standing.Add(e); err == nil && e.Corrects == (record.ID{}) {
			firsts = append(firsts, e)
		}
	}
	groups := make([]Group, 0, len(firsts))
	for _, e := range firsts {
		holds, later, _ := standing.Of(e.ID)
		g := Group{First: e, Holds: holds, Later: later}
		if heeds[e.Kind] {
			about := e
			if holds != nil {
				about = *holds
			}
			g.Says, _ = record.Decode(about.Kind, about.Body) // what cannot be read is told by those who fold it
		}
		groups = append(groups, g)
	}
	return groups
}

func potKey(run, dish string) string { return run + "/" + dish }

// PotName is what the pot of a dish in a run is called among the lots.
func PotName(run, dish string) record.Lot { return record.Lot("pot of " + dish + " in " + run) }

// follow takes in a lot and what went into it. What went round in a circle is taken in once.
func (r *Reach) follow(b births, lot record.Lot) {
	if r.lots[lot] {
		return
	}
	r.lots[lot] = true
	for _, p := range b.packed[lot] {
		r.note(p.Run, p.Pack)
		r.parts(b, p.From, lot)
	}
	for _, m := range b.made[lot] {
		r.note(m.Run, "")
		r.dishes[potKey(m.Run, m.Dish)] = true
		if len(m.From) > 0 {
			r.parts(b, m.From, lot)
			continue
		}
		pot := PotName(m.Run, m.Dish)
		r.Flows = append(r.Flows, Flow{pot, lot, m.Mass, b.entry[lot]})
		if r.lots[pot] {
			continue
		}
		r.lots[pot] = true
		for _, u := range b.used[potKey(m.Run, m.Dish)] {
			r.Flows = append(r.Flows, Flow{u.Lot, pot, u.Mass, u.entry})
			r.follow(b, u.Lot)
		}
	}
}

func (r *Reach) parts(b births, from []record.Part, lot record.Lot) {
	for _, p := range from {
		r.Flows = append(r.Flows, Flow{p.Lot, lot, p.Mass, b.entry[lot]})
		r.follow(b, p.Lot)
	}
}

func (r *Reach) note(run, pack string) {
	if run != "" && !slices.Contains(r.Runs, run) {
		r.Runs = append(r.Runs, run)
	}
	if pack != "" && !slices.Contains(r.Packs, pack) {
		r.Packs = append(r.Packs, pack)
	}
}

// pickEntries picks the entries: first what is about the lots and their runs, then what was read where they lay, then the checks of what read it.
func (r *Reach) pickEntries(groups []Group, until record.Instant) {
	in := make([]bool, len(groups))
	pick := func(concerns func(record.Body, record.Entry) bool) {
		for i, g := range groups {
			if !in[i] && heeds[g.First.Kind] && g.any(concerns) {
				in[i] = true
			}
		}
	}
	pick(r.ofFood)
	places := map[record.Place]bool{}
	for i, g := range groups {
		if in[i] {
			r.seen(g, places)
		}
	}
	r.Places, r.Until = slices.Sorted(maps.Keys(places)), max(r.Until, until)
	pick(r.ofPlaces)
	for i, g := range groups {
		if in[i] {
			r.instrument(g)
		}
	}
	r.Instruments = slices.Sorted(maps.Keys(r.found))
	pick(r.ofInstruments)
	for i, g := range groups {
		if in[i] {
			r.Groups = append(r.Groups, g)
		}
	}
}

// any says whether what an entry said, or says after any correction, concerns the folder: what was taken back is not hidden.
func (g Group) any(concerns func(record.Body, record.Entry) bool) bool {
	if g.Says != nil && concerns(g.Says, g.First) {
		return true
	}
	for _, e := range append([]record.Entry{g.First}, g.Later...) {
		if e.Kind != g.First.Kind || len(g.Later) == 0 {
			continue
		}
		if b, err := record.Decode(e.Kind, e.Body); err == nil && concerns(b, g.First) {
			return true
		}
	}
	return false
}

// seen notes when entries happened, and where the asked lots lay.
func (r *Reach) seen(g Group, places map[record.Place]bool) {
	if r.From == 0 || g.First.Happened < r.From {
		r.From = g.First.Happened
	}
	r.Until = max(r.Until, g.First.Happened)
	lot, place := placed(g.Says)
	if place != "" && r.asked[lot] {
		places[Outermost(place)] = true
	}
}

// Outermost is the place that holds a place: the freezer of a shelf.
func Outermost(p record.Place) record.Place {
	outer, _, _ := strings.Cut(string(p), "/")
	return record.Place(outer)
}

func (r *Reach) instrument(g Group) {
	name := read(g.Says)
	if name == "" {
		return
	}
	u, known := r.found[name]
	until := g.First.Happened
	if w, is := g.Says.(record.Watched); is {
		until = max(w.From, w.Until)
	}
	if !known || g.First.Happened < u.from {
		u.from = g.First.Happened
	}
	u.until = max(u.until, until)
	r.found[name] = u
}
