package kitchen

import (
	"fmt"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/unit"
)

// Actual is what a run really made and used, for telling why it cost more or less than planned. What it does not name counts as planned.
type Actual struct {
	Made  map[PackID]int `yaml:"made" desc:"how many of each pack were filled"`
	Used  []ActualUse    `yaml:"used,omitempty" desc:"ingredients of which more or less was used, or that cost something else"`
	Hands []ActualHands  `yaml:"hands,omitempty" desc:"hands-on time that was taken, by dish"`
}

// ActualUse is what was really used of an ingredient.
type ActualUse struct {
	Of     IngredientID `yaml:"of" desc:"the ingredient"`
	Amount unit.Amount  `yaml:"amount" desc:"as purchased, all of it that was used"`
	Paid   unit.Money   `yaml:"paid,omitempty" desc:"what that cost; the planned price when left out"`
}

// ActualHands is the time that was really spent on a dish, from the first cut to the last seal.
type ActualHands struct {
	Dish DishID    `yaml:"dish" desc:"the dish"`
	Time unit.Span `yaml:"time" desc:"hands-on time of everybody together"`
	Wage unit.Wage `yaml:"wage,omitempty" desc:"mean pay per hour of those who did it; the crew's when left out"`
}

// CheckActual reports everything in what really happened that does not fit the book, or the dishes of the run.
func CheckActual(b Book, a Actual, dishes []DishID) finding.List {
	c := &checker{book: b}
	at := spot{where: "what really happened"}
	if len(a.Made) == 0 {
		c.stop(NoTarget, at.key("made"), "it does not say how many packs were filled", "write made: and each pack with its number")
	}
	for id, n := range inOrder(a.Made) {
		here := spot{path: PathTo(PathTo(at.path, "made"), string(id)), where: at.where}
		c.refers(here, "pack", string(id), names(b.Packs))
		c.limit(here, string(id), float64(n), number)
	}
	seen := map[IngredientID]bool{}
	for i, u := range a.Used {
		here := at.item("used", i, string(u.Of))
		c.refers(here.key("of"), "ingredient", string(u.Of), names(b.Ingredients))
		c.ingredientAmount(here.key("amount"), u.Of, u.Amount)
		c.within(here, "paid", u.Paid.Units(), money)
		if seen[u.Of] {
			c.stop(WeighedTwice, here.key("of"), fmt.Sprintf("%s stands here twice", u.Of), "add the two up, and write their sum once")
		}
		seen[u.Of] = true
	}
	for i, h := range a.Hands {
		here := at.item("hands", i, string(h.Dish))
		c.refers(here.key("dish"), "dish in this run", string(h.Dish), texts(dishes))
		c.within(here, "time", inHours(h.Time), week)
		c.within(here, "wage", unit.Money(h.Wage).Units(), hourlyWage)
	}
	return c.found
}
