package app

import (
	"context"

	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
)

// KeepingChange is the change of the book that says how long packs of a kind keep: the next filling takes its best-before day from it.
func KeepingChange(pack kitchen.PackID, k kitchen.Keeping) bookfile.Change {
	return bookfile.Set("packs/"+string(pack)+"/best-before", k)
}

// TakeOverKeeping writes into the book how long packs of a kind keep. What it returns and its errors are as of EditBook.
func (a *App) TakeOverKeeping(ctx context.Context, id record.ID, by Author, pack kitchen.PackID, k kitchen.Keeping) (BookEdit, error) {
	return a.EditBook(ctx, id, by, KeepingChange(pack, k))
}
