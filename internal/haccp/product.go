// Package haccp drafts a hazard plan for a cooked, packed and frozen product from what is known of its ingredients and steps: the flow, the
// hazards, the control points with limits, how to watch them, what to do when a limit is missed, how to verify, and what to write down (the
// seven principles of HACCP: Codex CXC 1-1969; NACMCF 1997, from memory), with what FDA Food Code 8-201.14 asks of a plan beside them.
// People edit the draft; what they changed is kept beside it (Edit), so that it can be put to a later draft too.
//
// A draft is a draft. It has to be reviewed by a qualified person and by the authority, which decides what must be in it; packing cooked food
// under vacuum is a special process under most codes and usually needs an approved plan or a variance (FDA Food Code 3-502.11 and .12).
package haccp

import (
	"fmt"

	"kettlefrost/internal/foodcode"
)

// Class is what an ingredient is, as far as hazards go.
type Class string

const (
	IntactMeat Class = "intact meat" // whole pieces of beef, pork, lamb, veal
	GroundMeat Class = "ground meat" // ground, injected or tenderised meat and sausage
	Poultry    Class = "poultry"
	Fish       Class = "fish" // and shellfish
	Eggs       Class = "eggs" // raw, in the shell or pooled
	Cooked     Class = "cooked or cured meat"
	Dairy      Class = "dairy" // pasteurised
	Produce    Class = "produce"
	Beans      Class = "beans"   // dried, to be boiled
	Starch     Class = "starch"  // rice, pasta, potato, flour: where spores of Bacillus cereus grow
	Dry        Class = "dry"     // spices, sugar, salt, oil, tinned
	Water      Class = "water"   // of the tap
	Unknown    Class = "unknown" // nobody has said
)

// raw says whether a class must be cooked before it is eaten, and how far.
func (c Class) raw() bool { _, ok := cookedBy[c]; return ok || c == Beans }

// Animal says whether a class is raw food of animals.
func (c Class) Animal() bool { _, ok := cookedBy[c]; return ok }

// Ingredient is one thing that goes in.
type Ingredient struct {
	ID             string   `json:"id"`
	Name           string   `json:"name"`
	Class          Class    `json:"class"`
	Guess          string   `json:"guess,omitempty"` // nobody has said the class: it was taken from this
	Storage        string   `json:"storage,omitempty"`
	Allergens      []string `json:"allergens,omitempty"`
	AllergensKnown bool     `json:"allergens_known"`
	StandsIn       string   `json:"stands_in,omitempty"` // for what it may stand in: it is not in every lot
}

// Step is one thing done to the food.
type Step struct {
	ID        string   `json:"id"`
	Do        string   `json:"do"`
	How       string   `json:"how,omitempty"`
	Uses      []string `json:"uses,omitempty"`      // ingredients, by ID
	Amounts   []string `json:"amounts,omitempty"`   // what goes in as the recipe has it, in words
	From      []string `json:"from,omitempty"`      // earlier steps, by ID
	Equipment []string `json:"equipment,omitempty"` // any of these
	HeatToC   *float64 `json:"heat_to_c,omitempty"` // the whole of it is brought to this temperature
	HeatSaid  string   `json:"heat_said,omitempty"` // how the book says so, where it is not a temperature to heat to
	HoldS     float64  `json:"hold_s,omitempty"`    // and kept there at least so long
	Blend     bool     `json:"blend,omitempty"`     // in a machine with blades
	Cut       bool     `json:"cut,omitempty"`       // by hand or machine
}

// Product is what is packed and sold.
type Product struct {
	ID          string       `json:"id"`
	Name        string       `json:"name"`
	Dish        string       `json:"dish,omitempty"`
	Kitchen     string       `json:"kitchen,omitempty"`
	Packed      string       `json:"packed,omitempty"` // what holds it, in words
	Ingredients []Ingredient `json:"ingredients"`
	Steps       []Step       `json:"steps"`
	Vacuum      bool         `json:"vacuum"`             // sealed under reduced oxygen
	Frozen      bool         `json:"frozen"`             // and sold frozen
	Approval    string       `json:"approval,omitempty"` // of the authority for vacuum packing; "" for none

	Rules   []foodcode.Held `json:"-"` // as the kitchen holds them; what is not among them is as published
	Cooling Limit           `json:"-"` // as the kitchen holds it; the Food Code's when it has no text
}

// ProductError says that a product cannot be analysed.
type ProductError struct{ Where, Problem, Fix string }

func (e *ProductError) Error() string {
	return fmt.Sprintf("haccp: %s: %s: %s", e.Where, e.Problem, e.Fix)
}

// check says whether everything that is named is there, and in the order of use.
func (p Product) check() error {
	known, done := map[string]bool{}, map[string]bool{}
	for _, g := range p.Ingredients {
		if g.ID == "" || known[g.ID] {
			return &ProductError{"ingredient " + g.ID, "it has no name of its own", "give each ingredient another id"}
		}
		known[g.ID] = true
	}
	if len(p.Steps) == 0 {
		return &ProductError{"dish " + p.ID, "it has no steps", "write the dish first"}
	}
	for _, s := range p.Steps {
		for _, u := range s.Uses {
			if !known[u] {
				return &ProductError{"step " + s.ID, "it uses " + u + ", which is no ingredient", "name an ingredient of the dish"}
			}
		}
		for _, f := range s.From {
			if !done[f] {
				return &ProductError{"step " + s.ID, "it takes from " + f + ", which does not come before it", "put the steps in the order of the work"}
			}
		}
		if s.ID == "" || done[s.ID] {
			return &ProductError{"step " + s.ID, "it has no name of its own", "give each step another id"}
		}
		done[s.ID] = true
	}
	return nil
}
