package coldstore

import (
	"cmp"
	"fmt"
	"slices"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// Load is new packs of a kind, or something in bulk as one pack, that are to be put away.
type Load struct {
	Lot   record.Lot // if it has one already
	What  string     // as lots.Lot.What
	Name  string
	Packs int64
	Each  unit.Mass
	Keep  Kind
}

// Put is so many packs of a load at a place.
type Put struct {
	Load  int // index of the loads asked about
	Place record.Place
	Packs int64
	Mass  unit.Mass
	Why   []string
}

// Proposal is where loads could go.
type Proposal struct {
	Puts  []Put   // by load, then the order in which places are filled
	Left  []int64 // of each load: packs that fit nowhere
	Fit   unit.Mass
	Short unit.Mass // of what fits nowhere
}

// PutAway proposes where new packs go, the heaviest load first: to places that are cold enough and have room by mass and by volume. Packs of a
// lot stay together where they can, in as few places as can be; new ones go where nothing older of their kind would lie beneath them, and
// below or behind rather than in front, so that the oldest stay within reach. A place of which nobody said how much it holds is not proposed.
func (s Store) PutAway(loads []Load) Proposal {
	p := Proposal{Left: make([]int64, len(loads))}
	order := make([]int, len(loads))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(loads[b].mass(), loads[a].mass()) })
	added := map[int]unit.Mass{} // to spots, by this proposal
	for _, i := range order {
		left := loads[i].Packs
		for left > 0 && loads[i].Each > 0 {
			put, ok := s.next(loads[i], left, added)
			if !ok {
				break
			}
			put.Load = i
			p.Puts = append(p.Puts, put)
			for at := s.Layout.index[put.Place]; at >= 0; at = s.Spots[at].Whole {
				added[at] += put.Mass
			}
			left -= put.Packs
			p.Fit += put.Mass
		}
		p.Left[i] = left
		p.Short += unit.Mass(left) * loads[i].Each
	}
	slices.SortStableFunc(p.Puts, func(a, b Put) int { return cmp.Compare(a.Load, b.Load) })
	return p
}

func (l Load) mass() unit.Mass { return unit.Mass(l.Packs) * l.Each }

// candidate is a place that a load could go to.
type candidate struct {
	spot         Spot
	packs        int64 // that fit
	left         unit.Mass
	same, buries bool
}

// next is the best place for what is left of a load.
func (s Store) next(l Load, want int64, added map[int]unit.Mass) (Put, bool) {
	var best *candidate
	for i, spot := range s.Spots {
		if !s.takes(i, l) {
			continue
		}
		left, known := s.fitsWith(i, added)
		c := candidate{spot: spot, packs: min(want, int64(left/l.Each)), left: left}
		if !known || c.packs <= 0 {
			continue
		}
		c.same, c.buries = spot.has(func(g Goods) bool { return l.Lot != "" && g.Lot.ID == l.Lot }), spot.has(func(g Goods) bool { return g.Lot.What == l.What && g.Lot.ID != l.Lot })
		if best == nil || c.before(*best, want) {
			best = &c
		}
	}
	if best == nil {
		return Put{}, false
	}
	put := Put{Place: best.spot.ID, Packs: best.packs, Mass: unit.Mass(best.packs) * l.Each}
	put.Why = best.why(want)
	return put, true
}

// takes says whether a place is one to propose: in the book, cold enough, and not the whole of parts that have sizes of their own.
func (s Store) takes(i int, l Load) bool {
	spot := s.Spots[i]
	if !spot.Listed || l.Keep != "" && spot.Kind != l.Keep {
		return false
	}
	return !slices.ContainsFunc(s.Spots[i+1:], func(p Spot) bool { return p.Whole == i && p.Listed && (p.Rest.MassKnown || p.Rest.VolumeKnown) })
}

// fitsWith is Fits after what was proposed before.
func (s Store) fitsWith(i int, added map[int]unit.Mass) (unit.Mass, bool) {
	most, known := unit.Mass(0), false
	for ; i >= 0; i = s.Spots[i].Whole {
		p := s.Spots[i].Place
		r := restOf(p, s.Spots[i].All+added[i])
		for _, x := range r.masses(p) {
			if !known || x < most {
				most, known = x, true
			}
		}
	}
	return most, known
}

// masses are what still fits by mass and by volume, where they are known.
func (r Rest) masses(p Place) []unit.Mass {
	var all []unit.Mass
	if r.MassKnown {
		all = append(all, r.Mass)
	}
	if r.VolumeKnown {
		all = append(all, unit.MassKg(r.Volume.L()*float64(p.stow())))
	}
	return all
}

// before says that c is better: it takes all, then its lot is there, then it buries nothing, then it lies further back, then it leaves the least
// room, so that large rooms stay free; of places that do not take all, the one that takes the most.
func (c candidate) before(d candidate, want int64) bool {
	all := func(c candidate) int { return btoi(c.packs == want) }
	order := cmp.Or(cmp.Compare(all(d), all(c)), cmp.Compare(btoi(d.same), btoi(c.same)))
	if c.packs < want {
		order = cmp.Or(order, cmp.Compare(d.packs, c.packs))
	}
	return cmp.Or(order, cmp.Compare(btoi(c.buries), btoi(d.buries)), cmp.Compare(d.spot.Reach, c.spot.Reach), cmp.Compare(c.left, d.left), cmp.Compare(c.spot.ID, d.spot.ID)) < 0
}

func (c candidate) why(want int64) []string {
	var why []string
	if c.packs < want {
		why = append(why, "no place takes all that is left of them; this one takes the most")
	}
	if c.same {
		why = append(why, "the lot is there already")
	}
	if c.buries {
		why = append(why, "older packs of the kind are there: lift those to the top")
	} else {
		why = append(why, "nothing older of the kind is there to be buried")
	}
	return why
}

func btoi(b bool) int {
	if b {
		return 1
	}
	return 0
}

func (p Spot) has(what func(Goods) bool) bool { return slices.ContainsFunc(p.Goods, what) }

// RoomFor is what to tell of loads and the room that is left for them. Nil when there is nothing to tell.
func (s Store) RoomFor(loads []Load, units unit.System) (Proposal, finding.List) {
	p := s.PutAway(loads)
	var all unit.Mass
	for _, l := range loads {
		all += l.mass()
	}
	if all == 0 {
		return p, nil
	}
	known := slices.ContainsFunc(s.Spots, func(x Spot) bool { return x.Rest.MassKnown || x.Rest.VolumeKnown })
	if !known {
		return p, finding.List{{Code: CodeRoomGuess, Severity: finding.Caution, Where: "places", Message: fmt.Sprintf("whether %s more fit cannot be said: nobody wrote how much any place holds", all.Show(units)), Fix: "write room: or volume: of the freezers into the book"}}
	}
	if p.Short == 0 {
		return p, nil
	}
	var first string
	for i, left := range p.Left {
		if left > 0 {
			first = fmt.Sprintf("%d of %d packs of %s", left, loads[i].Packs, cmp.Or(loads[i].Name, loads[i].What))
			break
		}
	}
	return p, finding.List{{Code: CodeNoRoom, Severity: finding.Stop, Where: "places", Message: fmt.Sprintf("by the records there is room for %s of %s: %s find no place", p.Fit.Show(units), all.Show(units), first),
		Fix: fmt.Sprintf("make room for %s more, or pack less; if there is more room than this, take stock", p.Short.Show(units)), Source: StowOf(Frozen).Source,
		Figures: []finding.Figure{massFigure("to be put away", all, units), massFigure("room for", p.Fit, units), massFigure("without a place", p.Short, units)}}}
}

// Without is the store as if a lot were not there yet: what was just packed, and lies where it was packed, is in its own way nowhere.
func (s Store) Without(lot *lots.Lot) Store {
	spots := slices.Clone(s.Spots)
	for i := range spots {
		spots[i].Goods = slices.DeleteFunc(slices.Clone(spots[i].Goods), func(g Goods) bool { return g.Lot.ID == lot.ID })
		spots[i].Net, spots[i].Packs, spots[i].Lots = 0, 0, len(spots[i].Goods)
		for _, g := range spots[i].Goods {
			spots[i].Net, spots[i].Packs = spots[i].Net+g.Net, spots[i].Packs+g.Numbers.Count()
		}
	}
	s.Spots = spots
	s.addUp()
	return s
}
