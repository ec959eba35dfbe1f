package fill

import (
	"slices"

	"kettlefrost/internal/unit"
)

// Offers are the uses that the caller allows for what is left.
type Offers struct {
	// Lift allows more of the packs than their maxima. LiftSupplies allows it even where a supply runs out.
	Lift, LiftSupplies bool
	// Smaller are packs that are not on the list, filled from the same outputs and supplies.
	Smaller []Pack
	// Keep says for each output how much of it may be kept for the next run; negative means all of it. Empty means none.
	Keep []unit.Mass
	// Crew says for each output how much of it the crew can eat; negative means all of it. Empty means none.
	Crew []unit.Mass
}

// Leftover says where all that a plan leaves over can go.
type Leftover struct {
	More    []int // of each pack of the problem, beyond the plan and its maximum
	Smaller []int // of each pack of the offer
	Wanted  []int // pieces of each supply that these packs need and that are not there; only when supplies are lifted
	Value   int64 // of these packs, in micro-money
	Outputs []Rest
	Proven  bool // no other packs of either kind bring more, the packs of the list being filled first
}

// Rest is where the left-over of one output goes. Left is the sum of all that follow it.
type Rest struct {
	Left    unit.Mass
	More    unit.Mass // into more packs of the list
	Smaller unit.Mass // into smaller packs
	Keep    unit.Mass // to the next run
	Crew    unit.Mass // to the crew
	Discard unit.Mass
}

// Uses offers a use for what a plan leaves over, to the nanogram: more packs of the list, then smaller ones, then the next run,
// then the crew, and what nobody can use is discarded. It returns *InputError for offers or a plan that make no sense, and
// *ShortError when a smaller pack has a minimum that the rest does not give.
func Uses(p Problem, plan Plan, o Offers) (Leftover, error) {
	if err := Check(p, plan); err != nil {
		return Leftover{}, err
	}
	for _, most := range [][]unit.Mass{o.Keep, o.Crew} {
		if len(most) != 0 && len(most) != len(p.Stock) {
			return Leftover{}, &InputError{Pack: -1, Output: -1, Reason: "what may be kept or eaten must be given for every output or for none"}
		}
	}
	u := Leftover{More: make([]int, len(p.Packs)), Smaller: make([]int, len(o.Smaller)), Wanted: make([]int, len(p.Supplies)), Proven: true}
	left := slices.Clone(plan.Left)
	spare := slices.Clone(plan.Spare)
	for _, m := range left {
		u.Outputs = append(u.Outputs, Rest{Left: m})
	}
	if o.Lift {
		took, err := u.fillRest(p, unlimited(p.Packs), o.LiftSupplies, left, spare, u.More)
		if err != nil {
			return Leftover{}, err
		}
		for j := range took {
			u.Outputs[j].More = took[j]
		}
	}
	took, err := u.fillRest(p, o.Smaller, o.LiftSupplies, left, spare, u.Smaller)
	if err != nil {
		return Leftover{}, err
	}
	for j := range took {
		r := &u.Outputs[j]
		r.Smaller = took[j]
		r.Keep = atMost(left[j], o.Keep, j)
		r.Crew = atMost(left[j]-r.Keep, o.Crew, j)
		r.Discard = left[j] - r.Keep - r.Crew
	}
	return u, nil
}

// unlimited are the packs with nothing but their needs to limit them.
func unlimited(packs []Pack) []Pack {
	var free []Pack
	for _, k := range packs {
		most := -1
		if len(k.Needs) == 0 {
			most = 0 // it would use nothing up
		}
		free = append(free, Pack{Name: k.Name, Needs: k.Needs, Uses: k.Uses, Value: k.Value, Max: most})
	}
	return free
}

// fillRest fills packs from what is left and spare, which it lowers, and says how much of each output they took. Supplies that are
// lifted don't limit them; what is then lacking is wanted.
func (u *Leftover) fillRest(p Problem, packs []Pack, lift bool, left []unit.Mass, spare, count []int) ([]unit.Mass, error) {
	rest := Problem{Stock: left, PieceMass: p.PieceMass, Packs: slices.Clone(packs), Goals: []Rule{ByValue, ByLeft}, Budget: p.Budget}
	for j, s := range p.Supplies {
		rest.Supplies = append(rest.Supplies, Supply{Name: s.Name, Have: spare[j]})
	}
	if lift {
		rest.Supplies = nil
		for i := range rest.Packs {
			rest.Packs[i].Uses = nil
		}
	}
	plan, err := Solve(rest)
	if err != nil {
		return nil, err
	}
	took := make([]unit.Mass, len(left))
	for j := range left {
		took[j] = left[j] - plan.Left[j]
		left[j] = plan.Left[j]
	}
	for i, k := range packs {
		count[i] = plan.Count[i]
		for _, use := range k.Uses {
			spare[use.Supply] -= use.Pieces * plan.Count[i]
		}
	}
	for j := range spare {
		u.Wanted[j] += max(0, -spare[j])
		spare[j] = max(0, spare[j])
	}
	u.Value += plan.Value
	u.Proven = u.Proven && plan.Proof.Optimal
	return took, nil
}

// atMost is as much of m as is allowed for output j.
func atMost(m unit.Mass, allowed []unit.Mass, j int) unit.Mass {
	switch {
	case len(allowed) == 0:
		return 0
	case allowed[j] < 0:
		return m
	}
	return min(m, allowed[j])
}
