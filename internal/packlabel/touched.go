package packlabel

import (
	"cmp"
	"maps"
	"slices"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
)

// Made is a lot of packs that carries a label of the book as it was.
type Made struct {
	Code    string
	Pack    kitchen.PackID
	Instead []Instead
}

// Touch is a pack whose label a change in the book touches, with the lots that carry the old one.
type Touch struct {
	Pack    kitchen.PackID
	Dish    kitchen.DishID
	Changes []Change // the gravest first
	Lots    []string // whose own label is another now, in order
	Gone    bool     // the pack is no longer in the book, or cannot be made
}

// Touched is which packs, dishes and lots a change in the book touches, those with allergens first. Labels are made at the scale of the dish as it
// is written, so that a change is one of the book and not of a run.
func Touched(before, after kitchen.Book, foods *foodtable.Table, made []Made) []Touch {
	var all []Touch
	for _, id := range slices.Sorted(maps.Keys(before.Packs)) {
		t := Touch{Pack: id, Dish: before.Packs[id].Dish}
		was, err := Of(Asked{Book: before, Foods: foods, Pack: id})
		if err != nil {
			continue // it had no label
		}
		is, err := Of(Asked{Book: after, Foods: foods, Pack: id})
		if t.Gone = err != nil; !t.Gone {
			t.Changes = Changed(was, is)
		}
		for _, lot := range made {
			if lot.Pack == id && (t.Gone || len(lot.Instead) == 0 && len(t.Changes) > 0 || len(lot.Instead) > 0 && lot.changed(before, after, foods)) {
				t.Lots = append(t.Lots, lot.Code)
			}
		}
		slices.Sort(t.Lots)
		if t.Gone || len(t.Changes) > 0 || len(t.Lots) > 0 {
			all = append(all, t)
		}
	}
	slices.SortStableFunc(all, func(a, b Touch) int { return cmp.Compare(b.worst(), a.worst()) })
	return all
}

// changed says whether a lot's own label, with what stood in, is another by the new book.
func (x Made) changed(before, after kitchen.Book, foods *foodtable.Table) bool {
	asked := Asked{Book: before, Foods: foods, Pack: x.Pack, Lot: Lot{Code: x.Code, Instead: x.Instead}}
	was, errWas := Of(asked)
	asked.Book = after
	is, errIs := Of(asked)
	return errWas != nil || errIs != nil || len(Changed(was, is)) > 0
}

func (t Touch) worst() finding.Severity {
	worst := finding.Severity(0)
	for _, c := range t.Changes {
		worst = max(worst, c.Severity)
	}
	return worst
}
