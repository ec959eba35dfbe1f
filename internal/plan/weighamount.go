package plan

import (
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// Weigh is what an amount of an ingredient weighs in every plan: as the book says, then by the composition table. The error says that nobody
// says.
func Weigh(book kitchen.Book, foods *foodtable.Table, id kitchen.IngredientID, a unit.Amount) (unit.Mass, error) {
	kg, err := (&planner{book: book, foods: foods}).weigh(id, a)
	return mass(kg), err
}
