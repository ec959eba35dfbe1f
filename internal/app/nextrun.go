package app

import (
	"context"
	"errors"

	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/nextrun"
	"kettlefrost/internal/orders"
	"kettlefrost/internal/record"
)

// NextRun works out what to make next, with the orders and the sales of the records; without records, from the book alone. Of the ask, Sold and
// Open are filled in. Errors are *nextrun.AskError and *store.Error.
func NextRun(ctx context.Context, r *Records, book kitchen.Book, ask nextrun.Ask) (nextrun.Proposal, error) {
	if _, isDay := kitchen.DaysUntil(ask.Today, ask.Today); isDay && r != nil {
		err := r.Till(ctx, record.Day(ask.Today), func(t Till) error {
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
	for _, o := range t.Orders.Live(t.Today, orders.Plus(t.Today, farthest)) {
		for _, l := range o.Lines {
			if n := l.Open + l.Aside; n > 0 {
				all = append(all, nextrun.Wanted{Pack: kitchen.PackID(l.Pack), Order: o.ID, Due: string(o.Due), Count: n})
			}
		}
	}
	return all
}

// RunFile is a run that is proposed as a file for the book. The error is that of a run of nothing, or what cannot be written.
func RunFile(r kitchen.Request) ([]byte, error) {
	if len(r.Want) == 0 {
		return nil, errors.New("nothing is to be made")
	}
	return bookfile.WriteRun("next-"+r.Day, r)
}
