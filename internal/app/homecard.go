package app

import (
	"context"

	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/homecard"
	"kettlefrost/internal/kitchen"
)

// HomeCard writes the dish of a pack for a home. Errors are *homecard.AskError and *homecard.DishError.
func HomeCard(ctx context.Context, book kitchen.Book, foods *foodtable.Table, pack kitchen.PackID, people int) (homecard.Card, error) {
	return homecard.Make(ctx, homecard.Ask{Book: book, Foods: foods, Pack: pack, People: people})
}
