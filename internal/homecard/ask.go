package homecard

import (
	"fmt"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/language"
	"kettlefrost/internal/plan"
)

// Fewest and Most are for how many people a card is written.
const (
	Fewest = 4
	Most   = 8
)

// Ask is for what a card is wanted.
type Ask struct {
	Book   kitchen.Book
	Foods  *foodtable.Table
	Pack   kitchen.PackID
	People int
	In     language.Language // of all that the card says itself; English when empty
}

// speaker says it. What the book calls things and how it says its steps stays as it is.
func (a Ask) speaker() language.Speaker { return language.In(a.In) }

// AskError is a card that cannot be asked for.
type AskError struct{ Field, Reason, Fix string }

func (e *AskError) Error() string { return fmt.Sprintf("%s %s: %s", e.Field, e.Reason, e.Fix) }

// DishError is a dish that cannot be written for a home.
type DishError struct {
	Dish   kitchen.DishID
	Reason string
	Fix    string
}

func (e *DishError) Error() string {
	text := fmt.Sprintf("dish %s cannot be written for a home: %s", e.Dish, e.Reason)
	if e.Fix != "" {
		text += "; " + e.Fix
	}
	return text
}

func (a Ask) check() error {
	pack, known := a.Book.Packs[a.Pack]
	switch {
	case a.People < Fewest || a.People > Most:
		return &AskError{"people", fmt.Sprintf("are %d", a.People), fmt.Sprintf("a card is for %d to %d", Fewest, Most)}
	case !known:
		return &AskError{"pack", fmt.Sprintf("%q is not in the book", a.Pack), "name one of its packs"}
	case len(a.Book.Dishes[pack.Dish].Steps) == 0:
		return &AskError{"pack", fmt.Sprintf("%q is filled from the dish %q, which has no steps", a.Pack, pack.Dish), "write the dish first"}
	case a.net(pack) <= 0:
		return &AskError{"pack", fmt.Sprintf("%q holds nothing that is known", a.Pack), "give its fill a mass, or its pieces one"}
	}
	return nil
}

// notPlanned is why a plan has no dish.
func notPlanned(id kitchen.DishID, p plan.Plan) error {
	for _, f := range p.Findings {
		if f.Severity == finding.Stop && (f.Code == plan.CodeNotPlanned || f.Code == plan.CodeUnreachable) {
			return &DishError{Dish: id, Reason: f.Message, Fix: f.Fix}
		}
	}
	return &DishError{Dish: id, Reason: "the plan has nothing of it"}
}
