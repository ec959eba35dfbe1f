package kitchen

import (
	"fmt"
	"slices"
	"time"
)

func (c *checker) request(at spot, r Request) {
	if r.Day != "" {
		c.date(at.key("day"), r.Day)
	}
	c.today(at.key("today"), r)
	if len(r.Want) == 0 {
		c.stop(NoTarget, at.key("want"), "it asks for nothing", "write what to make under want:")
	}
	c.within(at, "reserve", inPerCent(r.Reserve), perCent)
	c.within(at, "sure", inPerCent(r.Sure), notAll)
	c.within(at, "days", float64(r.Days), runDays)
	c.aims(at, r.Aims)
	for i, v := range r.Visits {
		c.visit(at.item("appointments", i, ""), v, r)
	}
	c.crewOf(at, r.Visits)
	c.packCounts(at.key("orders"), r.Orders)
	c.packCounts(at.key("at-least"), r.AtLeast)
	c.packCounts(at.key("at-most"), r.AtMost)
	for id, least := range inOrder(r.AtLeast) {
		if most, limited := r.AtMost[id]; limited && least > most {
			c.stop(RangeBackwards, spot{path: PathTo(at.key("at-most").path, string(id)), where: at.where}, fmt.Sprintf("at most %d of %s is less than at least %d", most, id, least), "correct one of them")
		}
	}
	for i, w := range r.Want {
		c.target(at.item("want", i, ""), w)
	}
}

// packCounts checks numbers of packs.
func (c *checker) packCounts(at spot, counts map[PackID]int) {
	for id, n := range inOrder(counts) {
		here := spot{path: PathTo(at.path, string(id)), where: at.where}
		c.refers(here, "pack", string(id), names(c.book.Packs))
		c.limit(here, string(id), float64(n), number)
	}
}

// target checks one target: a number of packs, or a dish by one other measure.
func (c *checker) target(at spot, w Want) {
	switch {
	case w.Pack == "" && w.Dish == "":
		c.stop(TargetOfWhat, at, "this target names no pack and no dish", "write pack: and count:, or dish: and one of use:, fill-vessel: and as-many:")
	case w.Pack != "" && w.Dish != "":
		c.stop(TargetOfWhat, at, fmt.Sprintf("this target names the pack %s and the dish %s", w.Pack, w.Dish), "make two targets of it, or take one out")
	case w.Pack != "":
		c.refers(at.key("pack"), "pack", string(w.Pack), names(c.book.Packs))
	default:
		c.refers(at.key("dish"), "dish", string(w.Dish), names(c.book.Dishes))
	}
	c.measure(at, w)
	if w.Use != nil {
		c.useUp(at.key("use"), w)
	}
	if w.Vessel != "" {
		c.vessel(at.key("fill-vessel"), w.Vessel)
	}
	c.mix(at, w)
}

// measure checks that a target says once how much is wanted, and in a way that suits it.
func (c *checker) measure(at spot, w Want) {
	if w.Count < 0 {
		c.stop(CountTooSmall, at.key("count"), fmt.Sprintf("count is %d, but should be at least 1", w.Count), "write how many are wanted, or take the target out")
		return
	}
	c.within(at, "count", float64(w.Count), number)
	var given []string
	for _, m := range []struct {
		key   string
		given bool
	}{
		{"count", w.Count != 0}, {"use", w.Use != nil}, {"fill-vessel", w.Vessel != ""}, {"as-many", w.Most},
	} {
		if m.given {
			given = append(given, m.key)
		}
	}
	const fix = "a pack takes count:, a dish takes one of use:, fill-vessel: and as-many:"
	switch {
	case len(given) == 0:
		c.stop(TargetMeasure, at, "this target does not say how much is wanted", fix)
	case len(given) > 1:
		c.stop(TargetMeasure, at, fmt.Sprintf("this target has %d measures: %s", len(given), joined(given)), fix)
	case w.Pack != "" && w.Dish == "" && given[0] != "count", w.Dish != "" && w.Pack == "" && given[0] == "count":
		c.stop(TargetMeasure, at.key(given[0]), given[0]+" is no measure for this target", fix)
	}
}

func joined(words []string) string {
	text := words[0]
	for _, w := range words[1:] {
		text += " and " + w
	}
	return text
}

// useUp checks an ingredient that should all go into a dish.
func (c *checker) useUp(at spot, w Want) {
	id := w.Use.Of
	c.refers(at.key("of"), "ingredient", string(id), names(c.book.Ingredients))
	c.ingredientAmount(at.key("amount"), id, w.Use.Amount)
	dish, there := c.book.Dishes[w.Dish]
	if _, known := c.book.Ingredients[id]; !there || !known {
		return
	}
	if !slices.ContainsFunc(dish.Steps, func(s Step) bool {
		return slices.ContainsFunc(s.Use, func(u Use) bool { return u.Of == id })
	}) {
		c.stop(TargetNotInDish, at.key("of"), fmt.Sprintf("the dish %s does not use %s", w.Dish, id), "name an ingredient that the dish uses")
	}
}

// mix checks how the packs of a dish stand to each other.
func (c *checker) mix(at spot, w Want) {
	if len(w.Mix) > 0 && w.Dish == "" {
		c.stop(TargetMeasure, at.key("mix"), "only a dish can be shared among packs", "write dish: and how much of it, or take mix out")
		return
	}
	for id, part := range inOrder(w.Mix) {
		here := spot{path: PathTo(at.key("mix").path, string(id)), where: Within(at.where, Entry("mix", string(id)))}
		c.refers(here, "pack", string(id), names(c.book.Packs))
		if p, ok := c.book.Packs[id]; ok && p.Dish != w.Dish {
			c.stop(TargetNotInDish, here, fmt.Sprintf("the pack %s is filled from the dish %s, not %s", id, p.Dish, w.Dish), "name a pack of this dish")
		}
		if part < 1 {
			c.stop(CountTooSmall, here, fmt.Sprintf("its part is %d, but should be at least 1", part), "write a whole number, or take the pack out of the mix")
			continue
		}
		c.limit(here, string(id), float64(part), number)
	}
}

// today reports a day of the orders that is no date, or that no run follows.
func (c *checker) today(at spot, r Request) {
	if r.Today == "" {
		return
	}
	c.date(at, r.Today)
	switch left, ok := DaysUntil(r.Today, r.Day); {
	case r.Day == "":
		c.stop(BadDate, at, "it says when the orders go out and not when it starts", "write day:, too, or take today: out")
	case ok && left < 0:
		c.stop(BadDate, at, fmt.Sprintf("the orders go out on %s, after it starts on %s", r.Today, r.Day), "write a later day:, or an earlier today:")
	}
}

// date reports a day that is no date.
func (c *checker) date(at spot, day string) {
	if _, err := time.Parse(time.DateOnly, day); err != nil {
		c.stop(BadDate, at, fmt.Sprintf("%q is no date", day), "write year, month and day, such as 2026-12-01")
	}
}
