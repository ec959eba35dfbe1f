package app

import (
	"context"

	"kettlefrost/internal/keeping"
	"kettlefrost/internal/record"
	"kettlefrost/internal/trials"
)

// trialsFound is what trials tell of how dishes keep.
type trialsFound struct{ all []trials.Trial }

func (r *Records) trialsFound(ctx context.Context) (trialsFound, error) {
	all, _, err := r.Trials(ctx)
	return trialsFound{all}, err
}

// of are the trials of a dish as it is made, for a pack. What is published is not held against them here: it counts by itself.
func (f trialsFound) of(dish, pack string) []keeping.Trial {
	var found []keeping.Trial
	for _, s := range trials.Supports(f.all, dish, pack, nil) {
		t := keeping.Trial{Name: "trial " + s.Trial, Weeks: int(s.Weeks), Ends: s.Ends(), Not: !s.Known || s.Past, Source: "packs of this kitchen: trial " + s.Trial + ", variant " + s.Variant}
		t.Says = s.Why
		if s.Past {
			t.Says += "; the dish has been changed since, so that it does not count"
		}
		found = append(found, t)
	}
	return found
}

// changed is from when on a dish is made as it is now, as far as trials tell.
func (f trialsFound) changed(dish string) record.Instant { return trials.Changed(f.all, dish) }
