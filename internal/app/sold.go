package app

import (
	"context"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
)

// Sold is how many packs of each kind customers had from a day on. What they brought back is still counted: it was asked for. Errors are
// *store.Error.
func (r *Records) Sold(ctx context.Context, since record.Day) (map[kitchen.PackID]int64, error) {
	sold := map[kitchen.PackID]int64{}
	err := r.Lots(ctx, func(state *lots.State, _ finding.List) error {
		for l := range state.All() {
			for _, h := range l.Handed {
				if l.Sort == lots.Packs && r.dayOf(h.At) >= since {
					sold[kitchen.PackID(l.What)] += h.Numbers.Count()
				}
			}
		}
		return nil
	})
	return sold, err
}
