package app

import (
	"cmp"
	"context"
	"maps"
	"slices"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
	"kettlefrost/internal/thermometers"
)

// usualCheckDays is how often a thermometer is checked when the book does not say, as its help tells.
const usualCheckDays = 30

// ThermometersOf are the thermometers of a book, by ID.
func ThermometersOf(book kitchen.Book) []thermometers.Instrument {
	var all []thermometers.Instrument
	for _, id := range slices.Sorted(maps.Keys(book.Thermometers)) {
		t := book.Thermometers[id]
		x := thermometers.Instrument{ID: string(id), Name: t.Name, Kind: string(cmp.Or(t.Kind, kitchen.Handheld)), At: record.Place(t.At), AccuracyC: t.Accuracy.C(), EveryDays: cmp.Or(t.Check, usualCheckDays)}
		if t.Warmest != nil {
			c := t.Warmest.C()
			x.WarmestC = &c
		}
		all = append(all, x)
	}
	return all
}

// followChecks keeps the checks of thermometers up.
func followChecks(r *Records) *follower[*thermometers.State] {
	return follow(r, fold[*thermometers.State]{empty: func() *thermometers.State { return &thermometers.State{} }, take: (*thermometers.State).Take, heeds: thermometers.Heeds})
}

// Bench is all thermometers with their checks, to be kept, and what could not be read of those.
func (r *Records) Bench(ctx context.Context, book kitchen.Book) (b thermometers.Bench, found finding.List, err error) {
	err = look(ctx, r, r.checks, func(s *thermometers.State, unread finding.List) error {
		b, found = thermometers.Look(ThermometersOf(book), s.Copy()), unread
		return nil
	})
	return b, found, err
}
