package freezing

import "math"

// schedule is a course as it is told, with the simulation of every cabinet.
func (p *planner) schedule(c *course) (Schedule, error) {
	out := Schedule{Days: c.days(), LeastDays: p.least, Intakes: p.intakes()}
	loads := make([]Loaded, len(p.places))
	for i, at := range p.places {
		if len(p.batches(c, i)) == 0 {
			continue
		}
		var err error
		if loads[i], err = p.load(c, i); err != nil {
			return Schedule{}, err
		}
		out.Cabinets = append(out.Cabinets, CabinetLoad{Place: at, Load: loads[i]})
	}
	p.tell(c, loads, &out)
	out.Waiting = p.waiting(c)
	return out, nil
}

func (p *planner) tell(c *course, loads []Loaded, out *Schedule) {
	next := make([]int, len(p.places))
	for day := range c.counts {
		for i, at := range p.places {
			for k, n := range c.counts[day][i] {
				if n == 0 {
					continue
				}
				b := loads[i].Batches[next[i]]
				next[i]++
				in, _ := p.want.inS(day, k)
				coreC := p.want.Limits.in(p.want.Freezers[at.Freezer]).CoreC
				e := Entry{Day: day, Kind: k, Place: at, Count: n, InS: in, CoreC: coreC, FrozenS: in + b.TimeS, RewarmedC: b.RewarmedC}
				out.Entries = append(out.Entries, e)
				out.Placed += n
				out.FrozenS = max(out.FrozenS, e.FrozenS)
			}
		}
	}
}

func (p *planner) waiting(c *course) []Waiting {
	var out []Waiting
	for k, n := range c.left {
		if n > 0 {
			out = append(out, Waiting{Kind: k, Count: n, MassKg: float64(n) * p.want.Kinds[k].Pack.MassKg, Why: p.why(c, k)})
		}
	}
	return out
}

// why a kind was left over.
func (p *planner) why(c *course, k int) Reason {
	if p.takers(k) == 0 {
		return NoFreezer
	}
	for i, at := range p.places {
		if !math.IsInf(p.shares[at.Freezer][k], 1) && c.roomKg[i] >= p.want.Kinds[k].Pack.MassKg {
			return NoDay
		}
	}
	return NoRoom
}

func (p *planner) intakes() [][]float64 {
	out := make([][]float64, len(p.shares))
	for f := range p.shares {
		for _, s := range p.shares[f] {
			out[f] = append(out[f], 1/s)
		}
	}
	return out
}
