package app

import (
	"context"

	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/keeping"
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

// mostSource is as long as the source in the book is written, in letters.
const mostSource = 200

// Accepted is what the book says when the proposal is taken over: its weeks, and what it rests on. False when that is not even a week.
func (p PackKeeping) Accepted() (kitchen.Keeping, bool) {
	by, ok := p.Proposal.Limiting()
	if !ok || p.Proposal.Weeks == 0 {
		return kitchen.Keeping{}, false
	}
	source := by.Says + " (" + by.Source + ")"
	if by.Basis == keeping.ByPublished {
		source = by.Name + ": " + by.Source
	}
	if letters := []rune(source); len(letters) > mostSource {
		source = string(letters[:mostSource-1]) + "…"
	}
	return kitchen.Keeping{Weeks: p.Proposal.Weeks, Source: source}, true
}
