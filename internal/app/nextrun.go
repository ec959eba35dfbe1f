package app

import (
	"cmp"
	"context"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/nextrun"
	"kettlefrost/internal/orders"
	"kettlefrost/internal/record"
)

// NextRun works out what to make next, with the orders and the sales of the records, where some are followed. Of the ask, Sold and Open are filled
// in, and Today when it is left out. Errors are *nextrun.AskError and *store.Error.
func (a *App) NextRun(ctx context.Context, book kitchen.Book, ask nextrun.Ask) (nextrun.Proposal, error) {
	today := record.Day(cmp.Or(ask.Today, string(Today(a.now()))))
	ask.Today = string(today)
	if _, isDay := kitchen.DaysUntil(ask.Today, ask.Today); isDay && a.records != nil {
		err := a.records.Till(ctx, today, func(t Till) error {
			ask.Sold, ask.Open = t.sales(), t.wanted()
			return nil
		})
		if err != nil {
			return nextrun.Proposal{}, err
		}
	}
	return nextrun.Plan(book, ask)
}

// sales are the packs that customers had, on the day when they had them, without what they brought back.
func (t Till) sales() []nextrun.Sale {
	var all []nextrun.Sale
	for _, d := range t.Deliveries() {
		all = append(all, nextrun.Sale{Pack: kitchen.PackID(d.Pack), Day: string(d.Day), Count: d.Count})
	}
	return all
}

// farthest is how many days ahead standing orders are looked at.
const farthest = 200

// wanted are the packs that are ordered and not handed over.
func (t Till) wanted() []nextrun.Wanted {
	var all []nextrun.Wanted
	for _, o := range t.Orders.Dated(t.Today, orders.Plus(t.Today, farthest)) {
		if !o.Live() {
			continue
		}
		for _, l := range o.Lines {
			if n := l.Open + l.Aside; n > 0 {
				all = append(all, nextrun.Wanted{Pack: kitchen.PackID(l.Pack), Order: o.ID, Due: string(o.Due), Count: n})
			}
		}
	}
	return all
}
