package app

import (
	"context"
	"maps"
	"slices"
	"time"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// Follow has the book's stock be what the records say is on hand, and the critical records judged by the book. Nil is no records: the stock is
// what the book says.
func (a *App) Follow(r *Records) {
	a.records = r
	if r != nil {
		r.judgeBy(a)
	}
}

// stocked is the book with what is on hand by the records, and what the freezers hold. Of ingredients and packs that the records name, what the book says of stock no
// longer counts, also when nothing is left. What is held is not counted.
func (a *App) stocked(book kitchen.Book) (kitchen.Book, finding.List) {
	if a.records == nil {
		return book, nil
	}
	today := record.Day(a.now().Format(time.DateOnly))
	err := a.records.Lots(context.Background(), func(state *lots.State, _ finding.List) error {
		book = withHolds(withStock(book, state, today), state)
		return nil
	})
	if err != nil {
		return book, finding.List{{Code: "records-unreadable", Severity: finding.Stop, Where: "the records", Message: "what is on hand cannot be told: " + err.Error(), Fix: "mend the records, or plan without them"}}
	}
	return book, nil
}

// withStock counts packs that are not past their best-before day.
func withStock(book kitchen.Book, state *lots.State, today record.Day) kitchen.Book {
	book.Ingredients, book.Packs = maps.Clone(book.Ingredients), maps.Clone(book.Packs)
	type kind struct {
		sort lots.Sort
		what string
	}
	told := map[kind]bool{} // by the records: what the book says of it counts no more
	for l := range state.All() {
		k := kind{l.Sort, l.What}
		if told[k] {
			continue
		}
		told[k] = true
		if g, ok := book.Ingredients[kitchen.IngredientID(l.What)]; ok && l.Sort == lots.Goods {
			g.Stock, g.Lots = unit.Amount{}, nil
			book.Ingredients[kitchen.IngredientID(l.What)] = g
		}
		if p, ok := book.Packs[kitchen.PackID(l.What)]; ok && l.Sort == lots.Packs {
			p.Frozen = 0
			book.Packs[kitchen.PackID(l.What)] = p
		}
	}
	for l := range state.All() {
		if len(l.Here) == 0 {
			continue
		}
		here := l.OnHand()
		if g, ok := book.Ingredients[kitchen.IngredientID(l.What)]; ok && l.Sort == lots.Goods && here.Mass > 0 && !l.Held() {
			g.Lots = append(slices.Clip(g.Lots), kitchen.StockLot{Lot: string(l.ID), Amount: unit.Amount{Kind: unit.AmountMass, Mass: here.Mass}, Until: string(l.Last())})
			book.Ingredients[kitchen.IngredientID(l.What)] = g
		}
		if p, ok := book.Packs[kitchen.PackID(l.What)]; ok && l.Sort == lots.Packs && (l.BestBefore == "" || l.BestBefore >= today) {
			p.Frozen += int(here.Numbers.Minus(l.HeldOf(here.Numbers)).Minus(l.Kept(here.Numbers)).Count())
			book.Packs[kitchen.PackID(l.What)] = p
		}
	}
	return book
}
