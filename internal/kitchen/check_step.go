package kitchen

import (
	"fmt"
	"slices"
)

// boilsFrom is the temperature from which water that leaves a pot is taken for cooking, °C. Evaporation goes on below it, but not at
// the rate of a pot that is boiled down (common practice).
const boilsFrom = 60

func (c *checker) step(d dish, i int, s Step) {
	at := d.step(i)
	c.text(at, "do", s.Do)
	if len(s.Use) == 0 {
		c.stop(UsesNothing, at.key("use"), "nothing goes into this step", "write what it uses under use:")
	}
	for k, u := range s.Use {
		c.use(d, i, at.item("use", k, ""), u)
	}
	if s.MakeUp != "" && !slices.ContainsFunc(s.Use, func(u Use) bool { return u.Of == s.MakeUp }) {
		c.stop(MakeUpNotUsed, at.key("make-up"), fmt.Sprintf("%s makes up for what boils away, but this step does not use it", s.MakeUp), "add it to use: with its written amount, or name an ingredient that the step uses")
	}
	for k, id := range s.In {
		c.refers(spot{path: PathAt(at.key("in").path, k), where: at.where}, "equipment", string(id), names(c.book.Equipment))
	}
	c.stays(d, at, s)
	c.heat(at, s)
	c.hands(at, s.Hands)
	c.canBeDone(at, s.Skill, 1)
	c.atOnce(at, s)
	c.losses(at.key("loses"), s)
	c.gives(d, i, s)
	c.within(at, "time", inHours(s.Time), week)
	c.within(at, "within", inHours(s.Within), week)
	c.within(at, "pace", float64(s.Pace)/60, handPace)
	c.within(at.key("load"), "at-most", s.Load.AtMost.Kg(), loadMass)
	c.within(at.key("load"), "surface", float64(s.Load.Surface), panLoad)
	if s.Bulk != 0 {
		c.within(at, "bulk", float64(s.Bulk), density)
	}
}

// use checks one line of what goes into a step.
func (c *checker) use(d dish, i int, at spot, u Use) {
	switch {
	case u.Of == "" && u.From == "":
		c.stop(UseOfOrFrom, at, "this line does not say what goes in", "write of: and an ingredient, or from: and what an earlier step gives")
	case u.Of != "" && u.From != "":
		c.stop(UseOfOrFrom, at, fmt.Sprintf("this line names the ingredient %s and the output %s", u.Of, u.From), "make two lines of it, or take one out; or: names an ingredient that stands in")
	case u.Of != "":
		c.refers(at.key("of"), "ingredient", string(u.Of), names(c.book.Ingredients))
	default:
		c.from(d, at.key("from"), u.From)
	}
	if u.Or != "" {
		c.refers(at.key("or"), "ingredient", string(u.Or), names(c.book.Ingredients))
		if u.From == "" {
			c.stop(StandInWithoutOutput, at.key("or"), "only what a step gives can fall short: an ingredient is bought", "take or: out, or write from: instead of of:")
		}
	}
	c.insteads(at, u)
	c.howMuch(at, u)
}

// howMuch checks that a line says once how much goes in.
func (c *checker) howMuch(at spot, u Use) {
	amount := u.Amount != (Use{}).Amount
	switch {
	case amount && u.Take.Given:
		c.stop(UseAmountOrTake, at, "this line has an amount and a share", "keep amount: or take:")
	case !amount && !u.Take.Given && u.From != "":
		c.stop(UseAmountOrTake, at, "this line does not say how much goes in, or says nothing", "write amount: and a mass, or take: all, or take: and a share such as 60 %")
	case !amount && !u.Take.Given:
		c.stop(UseAmountOrTake, at, "this line does not say how much goes in, or says nothing", "write amount: and how much goes in at the written scale")
	case u.Take.Given && u.From == "" && u.Of != "":
		c.stop(UseAmountOrTake, at.key("take"), "a share can be taken of what a step gives, not of an ingredient", "write amount: and how much goes in at the written scale")
	case u.Take.Given:
		c.within(at, "take", inPerCent(u.Take.Share), perCent)
		if u.Take.Share == 0 {
			c.stop(UseAmountOrTake, at.key("take"), "it takes nothing", "write all or a share such as 60 %, or take the line out")
		}
	case u.From != "":
		c.outputAmount(at.key("amount"), u.Amount)
	default:
		c.ingredientAmount(at.key("amount"), u.Of, u.Amount)
	}
}

// from checks that an output is one of the dish.
func (c *checker) from(d dish, at spot, id OutputID) {
	if _, ok := d.giver[id]; ok {
		return
	}
	for other, written := range inOrder(c.book.Dishes) {
		if other != d.id && slices.ContainsFunc(written.Steps, func(s Step) bool {
			return slices.ContainsFunc(s.Outputs(), func(o Output) bool { return o.ID == id })
		}) {
			c.stop(FromOtherDish, at, fmt.Sprintf("%s comes from the dish %s: a step can only use what its own dish gives", id, other), "copy the steps that give it into this dish, or buy it as an ingredient")
			return
		}
	}
	c.refers(at, "output", string(id), d.outputs())
}

// stays checks that a step which goes on in the same vessel has one to go on in.
func (c *checker) stays(d dish, at spot, s Step) {
	if !s.Stays {
		return
	}
	at = at.key("stays")
	var before []int
	for _, u := range s.Use {
		if giver, ok := d.giver[u.From]; ok && u.From != "" {
			before = append(before, giver)
		}
	}
	if len(before) == 0 {
		c.stop(StaysWithoutVessel, at, "it goes on in the vessel of an earlier step, but uses nothing that a step gives", "add the earlier step's output to use: with from:, or take stays out and write in:")
		return
	}
	if len(s.In) == 0 {
		return
	}
	var there []EquipmentID
	for _, i := range before {
		there = append(there, d.vesselsOf(i, nil)...)
	}
	if !slices.ContainsFunc(s.In, func(id EquipmentID) bool { return slices.Contains(there, id) }) {
		c.stop(StaysElsewhere, at, fmt.Sprintf("it goes on in the same vessel, but the earlier step is in %s and this one in %s", list(there), list(s.In)), "name the same equipment in in:, or take stays out")
	}
}

// vesselsOf is where a step may be; one that stays and does not say is where its earlier steps are.
func (d dish) vesselsOf(i int, seen []int) []EquipmentID {
	s := d.steps[i]
	if len(s.In) > 0 || !s.Stays || slices.Contains(seen, i) {
		return s.In
	}
	var all []EquipmentID
	for _, u := range s.Use {
		if giver, ok := d.giver[u.From]; ok && u.From != "" {
			all = append(all, d.vesselsOf(giver, append(seen, i))...)
		}
	}
	return all
}

func list(ids []EquipmentID) string {
	if len(ids) == 0 {
		return "no vessel"
	}
	words := ""
	for i, id := range ids {
		if i > 0 {
			words += " or "
		}
		words += string(id)
	}
	return words
}
