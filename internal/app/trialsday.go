package app

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
	"kettlefrost/internal/trials"
)

// trialOpenings are the packs of trials that are to be opened on a day, or were to be before.
func (r *Records) trialOpenings(ctx context.Context, book kitchen.Book, today record.Day) ([]Opening, error) {
	all, _, err := r.Trials(ctx)
	if err != nil {
		return nil, err
	}
	var due []Opening
	for _, t := range all {
		for _, o := range trials.Due([]trials.Trial{t}, today) {
			due = append(due, Opening{Of: OfTrial, Name: o.Trial, Says: openingText(book, t, o), Due: o.Due, Packs: int64(len(o.Left)), Places: placesOfTrial(t), Week: o.Week})
		}
	}
	return due, nil
}

// openingText is what is left to be done of an opening.
func openingText(book kitchen.Book, t trials.Trial, o trials.Opening) string {
	name := o.Dish
	if d, ok := book.Dishes[kitchen.DishID(o.Dish)]; ok && d.Name != "" {
		name = d.Name
	}
	var left []string
	if n := len(o.Left); n > 0 {
		left = append(left, fmt.Sprintf("%d of %d packs to be measured", n, o.Packs))
	}
	if len(o.Tasters) > 0 {
		left = append(left, trials.Waiting(o.Tasters)+" to taste")
	}
	return fmt.Sprintf("trial of %s, week %d: %s", name, o.Week, strings.Join(left, "; "))
}

func placesOfTrial(t trials.Trial) []record.Place {
	var all []record.Place
	for _, m := range t.Made {
		if m.Body.Place != "" && !slices.Contains(all, m.Body.Place) {
			all = append(all, m.Body.Place)
		}
	}
	return all
}
