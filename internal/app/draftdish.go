package app

import (
	"context"
	"maps"
	"slices"

	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/draftdish"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
)

// DraftDish makes a first draft of a dish from a home recipe and answers. Errors are *draftdish.RecipeError.
func (a *App) DraftDish(r draftdish.Recipe, answers draftdish.Answers) (draftdish.Draft, error) {
	book, _ := a.Book()
	return draftdish.Make(r, answers, book, a.foods)
}

// DraftChanges are what makes a draft a dish of the book, with its new ingredients.
func DraftChanges(d draftdish.Draft) []bookfile.Change {
	var changes []bookfile.Change
	for _, id := range slices.Sorted(maps.Keys(d.Ingredients)) {
		changes = append(changes, bookfile.Set(kitchen.PathTo("ingredients", string(id)), d.Ingredients[id]))
	}
	return append(changes, bookfile.Set(kitchen.PathTo("dishes", string(d.ID)), d.Dish))
}

// SaveDraft puts a draft into the book, as EditBook does.
func (a *App) SaveDraft(ctx context.Context, id record.ID, by Author, d draftdish.Draft) (BookEdit, error) {
	return a.EditBook(ctx, id, by, DraftChanges(d)...)
}
