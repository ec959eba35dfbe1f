package formula

import (
	"cmp"
	"fmt"
	"maps"
	"slices"

	"kettlefrost/internal/kitchen"
)

// Subject is what is looked at: a pack, or one output of a dish that no pack says more about.
type Subject struct {
	Dish   kitchen.DishID   `json:"dish"`
	Pack   kitchen.PackID   `json:"pack,omitempty"`
	Output kitchen.OutputID `json:"output,omitempty"`
}

// SubjectsOf are what a dish is frozen as: its packs, in the order of their ids, or where it has none, its outputs that no later step takes.
func SubjectsOf(book kitchen.Book, dish kitchen.DishID) []Subject {
	var all []Subject
	for _, id := range slices.Sorted(maps.Keys(book.Packs)) {
		if book.Packs[id].Dish == dish {
			all = append(all, Subject{Dish: dish, Pack: id})
		}
	}
	if len(all) > 0 {
		return all
	}
	taken := map[kitchen.OutputID]bool{}
	for _, s := range book.Dishes[dish].Steps {
		for _, u := range s.Use {
			taken[u.From] = true
		}
	}
	for _, s := range book.Dishes[dish].Steps {
		for _, o := range s.Outputs() {
			if !taken[o.ID] && !o.ByProduct {
				all = append(all, Subject{Dish: dish, Output: o.ID})
			}
		}
	}
	return all
}

// NoSubjectError says that the book has no such pack, dish or output.
type NoSubjectError struct{ What, Fix string }

// Error is one line.
func (e *NoSubjectError) Error() string { return fmt.Sprintf("formula: %s; %s", e.What, e.Fix) }

// portion is how much of an output is looked at.
type portion struct {
	of    kitchen.OutputID
	share float64 // in one pack, kg; all of the output where there is no pack
}

// portions are what a subject is made of; a pack names its dish.
func (s Subject) portions(book kitchen.Book) (kitchen.DishID, []portion, error) {
	if s.Pack == "" {
		return s.Dish, []portion{{of: s.Output}}, s.known(book)
	}
	pack, ok := book.Packs[s.Pack]
	if !ok {
		return "", nil, &NoSubjectError{fmt.Sprintf("there is no pack %q", s.Pack), "name a pack of the book"}
	}
	dish := book.Dishes[pack.Dish]
	var all []portion
	for _, f := range pack.Fill {
		kg := f.Mass.Kg()
		if f.Pieces > 0 {
			kg = float64(f.Pieces) * pieceKg(dish, f.Of)
		}
		if kg > 0 {
			all = append(all, portion{f.Of, kg})
		}
	}
	s.Dish = pack.Dish
	return pack.Dish, all, s.known(book)
}

func (s Subject) known(book kitchen.Book) error {
	if _, ok := book.Dishes[s.Dish]; !ok {
		return &NoSubjectError{fmt.Sprintf("there is no dish %q", s.Dish), "name a dish of the book"}
	}
	return nil
}

func pieceKg(dish kitchen.Dish, id kitchen.OutputID) float64 {
	for _, s := range dish.Steps {
		for _, o := range s.Outputs() {
			if o.ID == id {
				return o.Piece.Kg()
			}
		}
	}
	return 0
}

// name is what a subject is called.
func (s Subject) name(book kitchen.Book) string {
	if s.Pack != "" {
		return cmp.Or(book.Packs[s.Pack].Name, string(s.Pack))
	}
	dish := cmp.Or(book.Dishes[s.Dish].Name, string(s.Dish))
	for _, x := range book.Dishes[s.Dish].Steps {
		for _, o := range x.Outputs() {
			if o.ID == s.Output && o.Name != "" {
				return dish + ": " + o.Name
			}
		}
	}
	return dish
}
