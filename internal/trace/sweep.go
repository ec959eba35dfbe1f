package trace

import (
	"cmp"
	"maps"
	"slices"
	"strconv"

	"kettlefrost/internal/unit"
)

// Recall holds the lots of a forward reach against where their packs are, and against what is known of those in bulk; a lot in bulk
// that nothing is told of is unaccounted for but for what went into other lots. Holdings of one lot, at two places say, add up.
// Stretches and holdings of lots that were not reached are passed over. Errors are *InputError.
func (g *Graph) Recall(of Reach, packs []Stretch, bulk []Holding) (Recall, error) {
	slot := make([]int32, len(g.lots)) // one more than the place of a lot in of.Lots
	for i, l := range of.Lots {
		if err := g.checkLots(l.Lot); err != nil { // a reach of another graph
			return Recall{}, err
		}
		slot[l.Lot] = int32(i + 1)
	}
	mine, err := g.affected(packs, slot)
	if err != nil {
		return Recall{}, err
	}
	known, err := g.known(of, bulk, slot)
	if err != nil {
		return Recall{}, err
	}
	r := Recall{Lines: g.lines(mine)}
	for i, l := range of.Lots {
		if g.lots[l.Lot].Packs > 0 {
			n := 0
			for n < len(mine) && mine[n].Lot == l.Lot {
				n++
			}
			r.add(g.sweep(l.Lot, mine[:n]))
			mine = mine[n:]
			continue
		}
		b, err := g.Balance(known[i])
		if err != nil {
			return Recall{}, err
		}
		r.Bulk = append(r.Bulk, b)
		r.Came += b.Came
		r.Open += max(b.Unaccounted, -b.Unaccounted)
	}
	return r, nil
}

func (r *Recall) add(p PackLot) {
	r.Packs = append(r.Packs, p)
	r.Made.add(p.Made)
	r.Found.add(p.Found)
	r.Told.add(p.Told)
}

func (t *Tally) add(u Tally) {
	t.Count += u.Count
	t.Mass += u.Mass
}

// most is how much a recall may add up to, far enough below the end of the range for sums of rounded figures.
const most = 4e18

// affected is the stretches of lots that were reached, in the order of the reach and by number.
func (g *Graph) affected(packs []Stretch, slot []int32) ([]Stretch, error) {
	begin := make([]int32, len(slot)+1) // where the stretches of a lot begin, by its place in the reach
	told := 0.0
	for _, s := range packs {
		if err := g.checkLots(s.Lot); err != nil {
			return nil, err
		}
		if slot[s.Lot] == 0 {
			continue
		}
		if err := g.checkStretch(s); err != nil {
			return nil, err
		}
		if told += (float64(s.Last) - float64(s.First) + 1) * max(1, float64(g.came(s.Lot))/float64(g.lots[s.Lot].Packs)); told > most {
			return nil, &InputError{s.String(), "the packs add up to more than can be counted", "check the numbers"}
		}
		begin[slot[s.Lot]]++
	}
	for i := 1; i < len(begin); i++ {
		begin[i] += begin[i-1]
	}
	mine := make([]Stretch, begin[len(begin)-1])
	for _, s := range packs {
		if i := slot[s.Lot]; i != 0 {
			mine[begin[i-1]] = s
			begin[i-1]++
		}
	}
	for first, i := int32(0), 0; i < len(begin)-1; first, i = begin[i], i+1 {
		slices.SortFunc(mine[first:begin[i]], byNumber)
	}
	return mine, nil
}

func byNumber(a, b Stretch) int {
	return cmp.Or(cmp.Compare(a.First, b.First), cmp.Compare(a.Last, b.Last), cmp.Compare(a.State, b.State), cmp.Compare(a.Where, b.Where))
}

func (g *Graph) checkStretch(s Stretch) error {
	switch {
	case s.First < 1 || s.Last < s.First:
		return &InputError{s.String(), "numbers count from 1, the lower one first", "give the numbers on the packs"}
	case s.State < Unknown || s.State > Reused:
		return &InputError{s.String(), "they are in " + s.State.String(), "say unknown if nobody can tell"}
	case g.lots[s.Lot].Packs == 0:
		return &InputError{s.String(), "the lot is in bulk and has no packs", "say how many packs it is"}
	}
	return nil
}

// known is what is told of each lot of a reach, nothing where nothing is.
func (g *Graph) known(of Reach, bulk []Holding, slot []int32) ([]Holding, error) {
	known := make([]Holding, len(of.Lots))
	sum := 0.0
	for i, l := range of.Lots {
		known[i].Lot = l.Lot
		if sum += float64(g.held(l.Lot)) + float64(g.lots[l.Lot].Packs); sum > most {
			return nil, &InputError{"lot " + strconv.Itoa(l.Lot), "the lots reached add up to more than can be counted", "ask for fewer at a time"}
		}
	}
	for _, h := range bulk {
		if err := g.checkLots(h.Lot); err != nil {
			return nil, err
		}
		if slot[h.Lot] == 0 {
			continue
		}
		if err := g.checkHolding(h); err != nil {
			return nil, err
		}
		if sum += float64(h.OnHand) + float64(h.Waste) + float64(h.Dispatched); sum > most {
			return nil, &InputError{"lot " + strconv.Itoa(h.Lot), "what was found adds up to more than can be counted", "check the weights"}
		}
		k := &known[slot[h.Lot]-1]
		k.OnHand += h.OnHand
		k.Waste += h.Waste
		k.Dispatched += h.Dispatched
	}
	return known, nil
}

func (g *Graph) checkHolding(h Holding) error {
	switch {
	case min(h.OnHand, h.Waste, h.Dispatched) < 0:
		return h.negative()
	case g.lots[h.Lot].Packs > 0:
		return &InputError{"lot " + strconv.Itoa(h.Lot), "it is in packs, and what is told of it is in bulk", "say where its packs are, by number"}
	}
	return nil
}

// lines puts stretches together that are in one place, in their order.
func (g *Graph) lines(packs []Stretch) []Line {
	type place struct {
		state State
		where int
	}
	counts := map[place]int{}
	for _, s := range packs {
		counts[place{s.State, s.Where}]++
	}
	places := slices.SortedFunc(maps.Keys(counts), func(a, b place) int {
		return cmp.Or(cmp.Compare(a.state, b.state), cmp.Compare(a.where, b.where))
	})
	lines := make([]Line, len(places))
	sorted, line := make([]Stretch, len(packs)), map[place]*Line{}
	for i, p := range places {
		n := counts[p]
		lines[i] = Line{State: p.state, Where: p.where, Packs: sorted[:0:n]}
		line[p], sorted = &lines[i], sorted[n:]
	}
	for _, s := range packs {
		l := line[place{s.State, s.Where}]
		l.Packs = append(l.Packs, s)
		l.add(g.Tally(s.Lot, s.First, s.Last))
	}
	return lines
}

// Tally is packs of a lot by number. Their masses are the lot's, cut at whole packs, so that those of all packs add up to it; a pack
// that was never made counts as one of the others, rounded down.
func (g *Graph) Tally(lot int, first, last int64) Tally {
	came, made := g.came(lot), g.lots[lot].Packs
	upTo := func(n int64) unit.Mass {
		if n <= made {
			return part(came, unit.Mass(n), unit.Mass(made))
		}
		return came + unit.Mass(n-made)*(came/unit.Mass(made))
	}
	return Tally{last - first + 1, upTo(last) - upTo(first-1)}
}

// sweep goes through the packs of a lot by number.
func (g *Graph) sweep(lot int, packs []Stretch) PackLot {
	made := g.lots[lot].Packs
	p := PackLot{Lot: lot, Made: g.Tally(lot, 1, made)}
	var told, twice int64 // the highest number that was in a known place, and in two
	for _, s := range packs {
		if s.State == Unknown {
			continue
		}
		p.Told.add(g.Tally(lot, s.First, s.Last))
		p.gap(told+1, min(s.First-1, made))
		p.Twice = join(p.Twice, Numbers{max(s.First, twice+1), min(s.Last, told)})
		twice = max(twice, min(s.Last, told))
		p.Beyond = join(p.Beyond, Numbers{max(s.First, told+1, made+1), s.Last})
		told = max(told, s.Last)
	}
	p.gap(told+1, made)
	p.Found = p.Made
	for _, n := range p.Missing {
		t := g.Tally(lot, n.First, n.Last)
		p.Found.Count -= t.Count
		p.Found.Mass -= t.Mass
	}
	return p
}

// gap notes packs that were made and are in no known place.
func (p *PackLot) gap(first, last int64) { p.Missing = join(p.Missing, Numbers{first, last}) }

// join adds a stretch of numbers that begins no lower than the last one ends, if there is any.
func join(all []Numbers, n Numbers) []Numbers {
	switch k := len(all) - 1; {
	case n.Last < n.First:
		return all
	case k >= 0 && all[k].Last+1 >= n.First:
		all[k].Last = max(all[k].Last, n.Last)
		return all
	}
	return append(all, n)
}
