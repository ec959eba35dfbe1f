package app

import (
	"context"

	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/homecard"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/language"
)

// HomeCard writes the dish of a pack for a home, in a language. Errors are *homecard.AskError and *homecard.DishError.
func HomeCard(ctx context.Context, book kitchen.Book, foods *foodtable.Table, pack kitchen.PackID, people int, in language.Language) (homecard.Card, error) {
	return homecard.Make(ctx, homecard.Ask{Book: book, Foods: foods, Pack: pack, People: people, In: in})
}
