package kitchen

import (
	"fmt"
	"slices"

	"kettlefrost/internal/unit"
)

// aims checks what a day should be good at.
func (c *checker) aims(at spot, aims []Aim) {
	for i, a := range aims {
		here := at.item("aims", i, string(a))
		if slices.Contains(aims[:i], a) {
			c.stop(AimTwice, here, fmt.Sprintf("the aim %s stands here twice", a), "take one of them out")
		}
		if a == LeastChange {
			c.caution(AimUnderWay, here, "least-change counts only when the rest of a day under way is timed again", "leave it, or take it out")
		}
	}
}

// visit checks what comes or goes at a fixed time of a run.
func (c *checker) visit(at spot, v Visit, r Request) {
	c.text(at, "what", v.What)
	days := max(1, r.Days)
	c.within(at, "at", float64(v.At)/60, limits{high: float64(24 * days), unit: "h after the first midnight"})
	c.within(at, "for", inHours(v.For), halfDay)
	c.within(at, "people", float64(v.People), number)
	if people := max(1, v.People); v.For > 0 && c.working(v.At) < people {
		c.stop(TooFewPeople, at.key("at"), fmt.Sprintf("it takes %d, but %d work at %s", people, c.working(v.At), v.At), "choose a time when enough people work, or take for: out when nobody has to be there")
	}
	for i, id := range v.Brings {
		c.refers(spot{path: PathAt(at.key("brings").path, i), where: at.where}, "ingredient", string(id), names(c.book.Ingredients))
	}
	for i, id := range v.Takes {
		here := spot{path: PathAt(at.key("takes").path, i), where: at.where}
		c.refers(here, "pack", string(id), names(c.book.Packs))
		if dish := c.book.Packs[id].Dish; !slices.ContainsFunc(r.Want, func(w Want) bool { return w.Pack == id || w.Pack == "" && w.Dish == dish }) {
			c.caution(PackNotMade, here, fmt.Sprintf("this run does not make %s", id), "add it to want:, or take it out here")
		}
	}
}

// working is how many people work at a moment.
func (c *checker) working(m unit.Moment) int {
	at, n := unit.Clock((m%1440+1440)%1440), 0
	for _, p := range c.book.People {
		away := slices.ContainsFunc(p.Shift.Breaks, func(b Break) bool { return b.From <= at && at < b.To })
		if p.Shift.From <= at && at < p.Shift.To && !away {
			n++
		}
	}
	return n
}
