package kitchen

import "fmt"

// heat checks temperatures, and that there is something to heat with.
func (c *checker) heat(at spot, s Step) {
	if s.ReadyAt != nil {
		c.within(at, "ready-at", s.ReadyAt.C(), heatTo)
	}
	if s.HeatTo == nil {
		return
	}
	c.within(at, "heat-to", s.HeatTo.C(), heatTo)
	boils := s.Loses.Evaporation > 0 || s.Loses.Open || s.Loses.ReduceTo > 0
	if boils && s.HeatTo.C() < boilsFrom {
		c.stop(ColdBoil, at.key("heat-to"), fmt.Sprintf("it boils water away, but is only brought to %s", heatTo.say(s.HeatTo.C())), fmt.Sprintf("give the temperature at which it boils, above %d °C, or take the evaporation out", boilsFrom))
	}
	for i, id := range s.In {
		if e, ok := c.book.Equipment[id]; ok && !c.heated(e) {
			here := spot{path: PathAt(at.key("in").path, i), where: at.where}
			c.caution(NoHeat, here, fmt.Sprintf("nothing heats %s, so the time to bring it to %s cannot be computed", id, heatTo.say(s.HeatTo.C())), "give it a power, or name the burner it stands on in needs:")
		}
	}
}

// heated says that equipment has power, or stands on something that has, or on something that is missing: that is another mistake.
func (c *checker) heated(e Equipment) bool {
	for _, need := range e.Needs {
		if under, there := c.book.Equipment[need]; !there || under.Power > 0 {
			return true
		}
	}
	return e.Power > 0
}

func (c *checker) hands(at spot, h Hands) {
	at = at.key("hands")
	c.within(at, "start", inHours(h.Start), week)
	c.within(at, "end", inHours(h.End), week)
	c.within(at, "every", inHours(h.Every), week)
	c.within(at, "for", inHours(h.For), week)
	switch {
	case h.Throughout && (h.Start != 0 || h.End != 0 || h.Every != 0 || h.For != 0):
		c.stop(HandsUnclear, at, "somebody stands by throughout and only at times", "keep throughout, or the times")
	case (h.Every != 0) != (h.For != 0):
		c.stop(HandsUnclear, at, "every and for belong together: every so often, for so long", "write both or none")
	case h.Every != 0 && h.For > h.Every:
		c.stop(HandsUnclear, at, fmt.Sprintf("every %s for %s is more than there is", h.Every, h.For), "let for be shorter than every, or write throughout: true")
	}
}

// losses checks each loss on its own.
func (c *checker) losses(at spot, s Step) {
	l := s.Loses
	c.within(at, "evaporation", float64(l.Evaporation), evaporation)
	c.within(at, "reduce-to", inPerCent(l.ReduceTo), notAll)
	c.within(at, "water", inPerCent(l.Water), notAll)
	c.within(at, "fat", inPerCent(l.Fat), notAll)
	c.within(at, "drain", inPerCent(l.Drain), notAll)
	c.within(at, "residue", l.Residue.Kg(), residueMass)
	ways := 0
	for _, given := range []bool{l.Evaporation != 0, l.Open, l.ReduceTo != 0} {
		if given {
			ways++
		}
	}
	if ways > 1 {
		c.stop(EvaporationTwice, at, "what boils away is said in more than one way", "keep one of evaporation, open and reduce-to")
	}
}

// gives checks what a step gives: one main product, and something left for it.
func (c *checker) gives(d dish, i int, s Step) {
	mains := 0
	shares := 0.0
	for k, o := range s.Outputs() {
		at := d.output(i, k)
		c.within(at, "takes", inPerCent(o.Takes), notAll)
		c.within(at, "piece", o.Piece.Kg(), pieceMass)
		c.within(at, "spread", inPerCent(o.Spread), spreads)
		shares += inPerCent(o.Takes)
		switch {
		case o.Takes != 0:
		case o.ByProduct:
			c.stop(ByProductWithoutTakes, at, fmt.Sprintf("%s is a by-product, but does not say how much of it there is", o.ID), "write takes: and its share of what went into the step")
		default:
			mains++
		}
		if mains > 1 && o.Takes == 0 && !o.ByProduct {
			c.stop(TwoMains, at, fmt.Sprintf("%s is one more output without takes: only the main product takes the rest", o.ID), "write takes: and its share of what went into the step")
		}
	}
	if mains == 0 {
		c.stop(NoMain, d.step(i).key("gives"), "no output takes the rest of what went in", "leave takes out at the main product")
	}
	c.left(d.step(i), s, shares)
}

// left reports a step that loses and gives away all that goes in. What is boiled down keeps its share less cooking losses or less,
// and the other outputs and the drain are taken of that.
func (c *checker) left(at spot, s Step, shares float64) {
	l := s.Loses
	rest := 100 - inPerCent(l.Water) - inPerCent(l.Fat)
	if l.ReduceTo > 0 {
		rest = min(rest, inPerCent(l.ReduceTo))
	}
	rest -= inPerCent(l.Drain) + shares
	if rest <= 1e-9 {
		c.stop(StepOverdrawn, at, fmt.Sprintf("losses and outputs come to %s of what goes in: nothing is left for the main product", perCent.say(100-rest)), "let takes and the losses come to less than 100 %")
	}
}
