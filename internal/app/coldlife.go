package app

import (
	"context"

	"kettlefrost/internal/coldwatch"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
)

// LifeSpent is what storage has taken of the life of quality of a lot's packs.
type LifeSpent struct {
	Lot     record.Lot
	Life    coldwatch.Life    // no days: nobody said how long it keeps
	Watched bool              // a probe watches a freezer
	Spent   []coldwatch.Spent // by the ways of its packs, the commonest first
}

// Spent reckons what storage has taken of a lot's packs until now, from what the probes read where they lay. Errors are *lots.UnknownError and
// *store.Error.
func (r *Records) Spent(ctx context.Context, book kitchen.Book, id record.Lot, now record.Instant) (LifeSpent, error) {
	bench, _, err := r.Bench(ctx, book)
	if err != nil {
		return LifeSpent{}, err
	}
	var of lots.Lot
	err = r.Lots(ctx, func(state *lots.State, _ finding.List) error {
		l := state.Lot(id)
		if l == nil {
			return &lots.UnknownError{Lot: id}
		}
		of = *l // what was told of it is never changed
		return nil
	})
	if err != nil {
		return LifeSpent{}, err
	}
	watches := watchesOf(book, bench)
	x := LifeSpent{Lot: id, Life: r.lifeOf(&of), Watched: len(watches) > 0}
	x.Spent, err = coldwatch.SpentBy(&of, now, x.Life, func(place record.Place, in coldwatch.Span) ([]coldwatch.Warmth, bool, error) {
		w, watched := coldwatch.Nearest(watches, place)
		if !watched {
			return nil, false, nil
		}
		readings, _, err := r.readAt(ctx, w, in.From, in.Until)
		return w.Known(readings, in), true, err
	})
	return x, err
}
