package app

import (
	"cmp"
	"context"
	"slices"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
)

// OpeningOf is what packs that are to be opened belong to.
type OpeningOf string

// What packs are opened for.
const (
	OfKept  OpeningOf = "kept"  // kept from a run, to see how they last
	OfTrial OpeningOf = "trial" // of a trial
)

// Opening is packs that are to be opened on a day, and were not yet.
type Opening struct {
	Of      OpeningOf      `json:"of"`
	Name    string         `json:"name"` // of the lot, or of the trial
	Says    string         `json:"says"` // what is to be opened: pack 28 of ale and cheddar sauce
	Due     record.Day     `json:"due"`
	Late    int            `json:"late_days"` // since then; 0 on the day
	Packs   int64          `json:"packs"`
	Numbers record.Numbers `json:"numbers,omitzero"` // of kept ones: any of the lot that are kept will do
	Places  []record.Place `json:"places,omitempty"`
	Week    record.Week    `json:"week,omitempty"` // of a trial
}

// Openings are all packs that are to be opened on a day or were to be before, the earliest first: the day's page, the board and the first page
// show them.
func (r *Records) Openings(ctx context.Context, book kitchen.Book, today record.Day) ([]Opening, error) {
	var all []Opening
	for _, of := range []func(context.Context, kitchen.Book, record.Day) ([]Opening, error){r.keptOpenings, r.trialOpenings} {
		some, err := of(ctx, book, today)
		if err != nil {
			return nil, err
		}
		all = append(all, some...)
	}
	for i, o := range all {
		if days, ok := kitchen.DaysUntil(string(o.Due), string(today)); ok {
			all[i].Late = max(0, days)
		}
	}
	slices.SortStableFunc(all, func(a, b Opening) int { return cmp.Compare(a.Due, b.Due) })
	return all, nil
}
