// Package dispersal makes what is to be known of getting a powder into a pot without lumps (package dosing) real steps of a dish: liquid of
// the recipe that is held back, the blender's jar or a bowl, and the pot that takes the mix. Nothing is added to the dish but the
// powder, where it had none; what is held back in one place is not put in at another. What a dish does already is looked at and told,
// not done a second time.
package dispersal

import (
	"fmt"
	"maps"
	"slices"

	"kettlefrost/internal/dosing"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/formula"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// Asked is what is to be got into a dish.
type Asked struct {
	Dish kitchen.DishID
	Of   kitchen.IngredientID
	Dose formula.Own          // how much; its zero value: what the dish has
	Way  dosing.Way           // "": the best for which the dish and the kitchen have what it takes
	Into string               // the step of the pot; "": where the dish has it, or the heated step that most liquid goes into
	With kitchen.IngredientID // the liquid to hold back, or what it is mixed dry or stirred up with; "": the first that will do
}

// State is what the dish has to be told.
type State string

// States.
const (
	Fine    State = "fine"    // the dish does it already, and well enough
	Mended  State = "mended"  // the dish does it already, and is changed in part
	Changed State = "changed" // the powder went straight into the pot, and no longer does
	Added   State = "added"   // the dish had none of it
)

// Worked is a dish with a powder got into it.
type Worked struct {
	Asked
	State       State
	Powder      string // its name
	Mass        unit.Mass
	Pot         formula.Subject // what the dish is frozen as, by which the dose is judged
	Gives       unit.Mass       // of that, at the scale that the dish is written for
	Before      kitchen.Dish
	After       kitchen.Dish
	Step        string // the step in which it is got into the liquid
	Dispersion  dosing.Dispersion
	Jar         kitchen.EquipmentID // of Loads
	Held        []Held
	Alternative []Way // the other ways, and why not
	Asks        []Ask
	Found       finding.List
}

// Held is liquid, or what the powder is mixed with, that is taken from one step for another. Amount and Left are all there was.
type Held struct {
	Of           kitchen.IngredientID
	Name         string
	From         string // the step
	Amount, Left unit.Amount
	Mass         unit.Mass // of Amount
}

// Way is a way that could be taken, or why it cannot be.
type Way struct {
	Way dosing.Way
	Not string // empty: it can be taken
}

// Ask is something that nobody has said, put as a question, with what was taken meanwhile.
type Ask struct {
	Code    string `json:"code"`
	Path    string `json:"path,omitempty"` // in the book: where the answer goes
	Asks    string `json:"asks"`
	Assumed string `json:"assumed"`
}

// The codes of what is asked.
const (
	AskWeight = "powder-not-weighed"
	AskInto   = "step-not-said"
	AskDose   = "dose-assumed"
	AskJar    = "jar-not-said"
)

// InputError says what is missing or makes no sense, and what would do.
type InputError struct{ What, Reason, Fix string }

// Error is one line.
func (e *InputError) Error() string { return fmt.Sprintf("%s %s; %s", e.What, e.Reason, e.Fix) }

// Powders are the ingredients of a book that can be got into a dish so: gums, starches and emulsifying salts, by their role or by what they are said
// to do; those that the dish has come first.
func Powders(book kitchen.Book, dish kitchen.DishID) (in, others []kitchen.IngredientID) {
	has := map[kitchen.IngredientID]bool{}
	for _, s := range book.Dishes[dish].Steps {
		for _, u := range s.Use {
			has[u.Of] = true
		}
	}
	for _, id := range slices.Sorted(maps.Keys(book.Ingredients)) {
		if !powders[string(book.Ingredients[id].Role)] && !powders[book.Ingredients[id].Function] {
			continue
		}
		if has[id] {
			in = append(in, id)
		} else {
			others = append(others, id)
		}
	}
	return in, others
}

// powders are roles, and functions on a label, that such an ingredient may have.
var powders = map[string]bool{"gum": true, "emulsifying-salt": true, "native-starch": true, "waxy-starch": true, "modified-starch": true, "thickener": true, "stabilizer": true, "emulsifier": true}

// Work gets a powder into a dish at the scale that the dish is written for. Errors: *InputError, *dosing.InputError where the dish has not
// enough of what the way takes, and those of formula.PotOf.
func Work(book kitchen.Book, foods *foodtable.Table, a Asked) (Worked, error) {
	w, err := look(book, foods, a)
	if err != nil {
		return Worked{}, err
	}
	if w.by >= 0 {
		err = w.check()
	} else {
		err = w.choose()
	}
	w.out.After.Steps = w.steps
	w.out.Pot, w.out.Gives = w.pot.Subject, w.pot.Mass
	w.out.Alternative = w.ways()
	return w.out, err
}
