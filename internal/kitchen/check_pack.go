package kitchen

import (
	"fmt"

	"kettlefrost/internal/unit"
)

func (c *checker) packs() {
	for id, p := range inOrder(c.book.Packs) {
		at := entrySpot("packs", string(id))
		c.id(at, string(id))
		c.text(at, "name", p.Name)
		c.refers(at.key("dish"), "dish", string(p.Dish), names(c.book.Dishes))
		c.refers(at.key("bag"), "bag", string(p.Bag), names(c.book.Bags))
		c.within(at, "thickness", p.Thickness.M(), bagThickness)
		c.measured(at, p)
		c.within(at, "pace", inHours(p.Pace), week)
		c.within(at, "crew", float64(p.Crew), number)
		c.canBeDone(at, p.Skill, max(1, p.Crew))
		c.within(at, "price", p.Price.Units(), money)
		c.within(at, "label-cost", p.Label.Units(), money)
		c.fills(at, p)
		c.trials(at, p)
		c.keeping(at, p)
		c.sold(at, p)
		c.weighings(at, p)
	}
}

// spotsOfTrial is how many places are measured.
const spotsOfTrial = 5

// trials checks measured heatings: each must say how, of what and how warm all five spots were.
func (c *checker) trials(at spot, p Pack) {
	for i, trial := range p.Trials {
		here := at.item("trials", i, "")
		c.text(here, "appliance", trial.Appliance)
		c.text(here, "who", trial.Who)
		c.date(here.key("date"), trial.Date)
		c.size(here, "mass", trial.Mass.Kg(), packMass, "a time holds only for packs as heavy as the one that was measured")
		c.size(here, "time", inHours(trial.Time), week, "it is what was measured")
		c.within(here, "stand", inHours(trial.Stand), week)
		c.within(here, "start", trial.Start.C(), trialStart)
		switch {
		case trial.Method == Microwave:
			c.size(here, "power", trial.Power.W()/1000, power, "a time holds only for the power it was measured at")
		case trial.Set == nil:
			c.stop(SizeMissing, here.key("set"), "set is missing: a time holds only for the temperature it was measured at", "write what the oven was set to, or how hot the water was")
		}
		if len(trial.Spots) != spotsOfTrial {
			c.stop(CountTooSmall, here.key("spots"), fmt.Sprintf("%d temperatures are given, of %d spots", len(trial.Spots), spotsOfTrial), "measure the middle, the thickest place, two opposite corners and the edge of a long side")
		}
		for k, t := range trial.Spots {
			c.limit(spot{path: PathAt(here.key("spots").path, k), where: here.where}, "spots", t.C(), trialSpot)
		}
	}
}

// measured checks the thinnest and the thickest bag that were measured.
func (c *checker) measured(at spot, p Pack) {
	c.within(at, "thinnest", p.Thinnest.M(), bagThickness)
	c.within(at, "thickest", p.Thickest.M(), bagThickness)
	low, high := p.Thinnest, p.Thickest
	if p.Thickness > 0 {
		if low > p.Thickness || high > 0 && high < p.Thickness {
			c.stop(RangeBackwards, at.key("thickness"), fmt.Sprintf("thickness %s is not between the thinnest %s and the thickest %s", p.Thickness, low, high), "write the smallest measured after thinnest: and the largest after thickest:")
			return
		}
	}
	if high > 0 && low > high {
		c.stop(RangeBackwards, at.key("thinnest"), fmt.Sprintf("the thinnest, %s, is thicker than the thickest, %s", low, high), "write the smallest measured after thinnest: and the largest after thickest:")
	}
}

// fills checks what goes into a pack.
func (c *checker) fills(at spot, p Pack) {
	if len(p.Fill) == 0 {
		c.stop(FillsNothing, at.key("fill"), "nothing goes into the pack", "write what goes in under fill:, in the order of filling")
		return
	}
	dish, there := c.book.Dishes[p.Dish]
	outputs := map[OutputID]Output{}
	for _, s := range dish.Steps {
		for _, o := range s.Outputs() {
			outputs[o.ID] = o
		}
	}
	var mass unit.Mass
	known, byProducts := true, 0
	for i, f := range p.Fill {
		here := at.item("fill", i, "")
		o, found := outputs[f.Of]
		if there && !found {
			c.stop(UnknownReference, here.key("of"), fmt.Sprintf("the dish %s gives no %s", p.Dish, orNothing(string(f.Of))), nearestOf("output", string(f.Of), names(outputs)))
		}
		if found && o.ByProduct {
			byProducts++
		}
		each, ok := c.fillMass(here, f, o, found)
		known = known && ok
		mass += each
	}
	if known {
		c.within(at, "fill", mass.Kg(), packMass)
	}
	if byProducts == len(p.Fill) {
		c.note(PackOfByProduct, at.key("fill"), "only by-products go into it: nothing is cooked for it, and there are as many packs as come along", "leave it like this if that is meant")
	}
}

// fillMass is what one component weighs, as far as it can be known.
func (c *checker) fillMass(at spot, f Fill, o Output, found bool) (unit.Mass, bool) {
	switch {
	case f.Mass == 0 && f.Pieces == 0:
		c.stop(FillMassOrPieces, at, "this line does not say how much goes in", "write mass: or pieces:")
	case f.Mass != 0 && f.Pieces != 0:
		c.stop(FillMassOrPieces, at, "this line has a mass and a number of pieces", "keep one of them")
	case f.Mass != 0:
		c.within(at, "mass", f.Mass.Kg(), storedMass)
		return min(f.Mass, tooHeavy), f.Mass > 0
	default:
		c.within(at, "pieces", float64(f.Pieces), number)
		switch {
		case !found || !number.hold(float64(f.Pieces)):
		case o.Piece <= 0:
			c.stop(PieceMassMissing, at.key("pieces"), fmt.Sprintf("nothing says what a piece of %s weighs", f.Of), fmt.Sprintf("write piece: and its mass at the output %s", f.Of))
		default:
			return unit.MassKg(min(o.Piece.Kg()*float64(f.Pieces), tooHeavy.Kg())), true
		}
	}
	return 0, false
}

// tooHeavy is held instead of heavier components, so that adding them up cannot run over.
const tooHeavy = 1000 * unit.Kilogram
