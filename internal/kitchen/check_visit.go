package kitchen

import (
	"fmt"
	"math"
	"slices"

	"kettlefrost/internal/finding"
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

// crewOf reports each appointment that takes more people than work while it lasts, beside those of the appointments written before it.
func (c *checker) crewOf(at spot, visits []Visit) {
	for i, v := range visits {
		if !halfDay.hold(inHours(v.For)) || v.At < 0 || v.At > lastMoment {
			continue // reported as such
		}
		for m := v.At; m < v.ends(); m++ {
			people, others := v.people(), 0
			for _, other := range visits[:i] {
				if other.At <= m && m < other.ends() {
					others += other.people()
				}
			}
			work := c.working(m)
			if people+others <= work {
				continue
			}
			takes := fmt.Sprintf("it takes %d", people)
			if others > 0 {
				takes += fmt.Sprintf(" and other appointments %d", others)
			}
			c.report(finding.Stop, TooFewPeople, at.item("appointments", i, "").key("at"), fmt.Sprintf("%s, but %d work at %s", takes, work, m), "choose a time when enough people work, or take for: out when nobody has to be there",
				finding.Figure{Name: "needed", Value: float64(people + others)}, finding.Figure{Name: "at work", Value: float64(work)})
			break
		}
	}
}

// people is how many an appointment keeps busy, ends the minute from which it does so no more.
func (v Visit) people() int       { return max(1, v.People) }
func (v Visit) ends() unit.Moment { return v.At + unit.Moment(math.Ceil(v.For.S()/60)) }

// mostDays is over how many days a run may go, lastMoment the latest that anybody may speak of: a day after the longest run.
const (
	mostDays   = 7
	dayMinutes = 24 * 60
	lastMoment = unit.Moment((mostDays + 1) * dayMinutes)
)

// moment reports a time before a run or after the last one that can be meant.
func (c *checker) moment(at spot, key string, m, last unit.Moment) {
	if m < 0 || m > last {
		c.stop(OutOfRange, at.key(key), fmt.Sprintf("%s is %s, but should be from 00:00 to %s", key, m, last), "write a time of the run, such as 11:20, or 11:20+1 on its second day")
	}
}

// visit checks what comes or goes at a fixed time of a run.
func (c *checker) visit(at spot, v Visit, r Request) {
	c.text(at, "what", v.What)
	c.moment(at, "at", v.At, unit.Moment(min(max(1, r.Days), mostDays)*dayMinutes)-1)
	c.within(at, "for", inHours(v.For), halfDay)
	c.within(at, "people", float64(v.People), number)
	if v.People > 0 && v.For == 0 {
		c.stop(HandsUnclear, at.key("people"), fmt.Sprintf("it takes %d, but no time", v.People), "write how long they are busy after for:, or take people: out")
	}
	for i, id := range v.Brings {
		c.refers(spot{path: PathAt(at.key("brings").path, i), where: at.where}, "ingredient", string(id), names(c.book.Ingredients))
	}
	for i, id := range v.Takes {
		here := spot{path: PathAt(at.key("takes").path, i), where: at.where}
		c.refers(here, "pack", string(id), names(c.book.Packs))
		if dish := c.book.Packs[id].Dish; !slices.ContainsFunc(r.Want, func(w Want) bool {
			return w.Pack == id || w.Pack == "" && w.Dish == dish && (len(w.Mix) == 0 || w.Mix[id] > 0)
		}) {
			c.caution(PackNotMade, here, fmt.Sprintf("this run does not make %s", id), "add it to want:, or take it out here")
		}
	}
}

// working is how many people work at a moment of a run.
func (c *checker) working(m unit.Moment) int {
	at, n := unit.Clock(m%dayMinutes), 0
	for _, p := range c.book.People {
		away := slices.ContainsFunc(p.Shift.Breaks, func(b Break) bool { return b.From <= at && at < b.To })
		if p.Shift.From <= at && at < p.Shift.To && !away {
			n++
		}
	}
	return n
}
