package packlabel_test

import (
	"maps"
	"slices"
	"testing"

	"kettlefrost/demo"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/packlabel"
	"kettlefrost/internal/statement"
	"kettlefrost/internal/unit"
)

type statementItem = statement.Item

// copied is a book with ingredients of its own to change.
func copied(b kitchen.Book) kitchen.Book {
	b.Ingredients = maps.Clone(b.Ingredients)
	return b
}

// A supplier of milk now says soybeans too: every pack with milk in it is touched, first of all, and their lots, and no other. Read off the recipes by
// hand: milk goes into the ale sauce and the meatballs, not into the mushroom filling, which has cream and butter.
func TestAChangedAllergenIsFlaggedWhereverItGoes(t *testing.T) {
	before := bookfile.Read(demo.Book()).Book
	after := copied(before)
	edit(after.Ingredients, "milk", func(i *kitchen.Ingredient) { i.Allergens = with("milk", "soybeans") })
	lots := []packlabel.Made{{Code: "A-1", Pack: "ale-cheddar-lb"}, {Code: "A-2", Pack: "ale-cheddar-lb"}, {Code: "T-1", Pack: "tomato-fennel-lb"}, {Code: "B-1", Pack: "bean-pot-2lb"},
		{Code: "B-2", Pack: "bean-pot-2lb", Instead: []packlabel.Instead{{Of: "water", By: "milk"}}}}
	got := map[kitchen.PackID][]string{}
	for _, touch := range packlabel.Touched(before, after, foods(t), lots) {
		got[touch.Pack] = touch.Lots
		if len(touch.Changes) > 0 && (touch.Changes[0].What != packlabel.Allergens || touch.Changes[0].Severity != finding.Stop) {
			t.Errorf("%s: %+v does not come first", touch.Pack, touch.Changes)
		}
	}
	want := map[kitchen.PackID][]string{"ale-cheddar-lb": {"A-1", "A-2"}, "meatballs-six": nil, "bean-pot-2lb": {"B-2"}}
	if !maps.EqualFunc(got, want, slices.Equal) {
		t.Errorf("touched are %v, want %v", got, want)
	}
	if more := packlabel.Touched(before, before, foods(t), lots); len(more) > 0 {
		t.Errorf("nothing was changed: %v", more)
	}
}

func TestChanged(t *testing.T) {
	base := made(t, asked(t, lentilSoup()))
	for _, c := range []struct {
		name   string
		change func(*kitchen.Book)
		want   []string
	}{
		{"nothing", func(*kitchen.Book) {}, nil},
		{"the name of the food", func(b *kitchen.Book) { edit(b.Packs, "pack", func(p *kitchen.Pack) { p.Identity = "Soup of lentils" }) }, []string{packlabel.Identity}},
		{"an ounce more", func(b *kitchen.Book) { edit(b.Packs, "pack", func(p *kitchen.Pack) { p.Fill[0].Mass += unit.Ounce }) }, []string{packlabel.Net, packlabel.Nutrition}},
		{"more sodium", func(b *kitchen.Book) {
			edit(b.Ingredients, "base", func(i *kitchen.Ingredient) { a := *i.Analysis; na := 2 * *a.Sodium; a.Sodium = &na; i.Analysis = &a })
		}, []string{packlabel.Nutrition}},
		{"sesame", func(b *kitchen.Book) {
			edit(b.Ingredients, "base", func(i *kitchen.Ingredient) { i.Allergens = with("sesame") })
		}, []string{packlabel.Allergens}},
		{"an answer taken back", func(b *kitchen.Book) {
			edit(b.Ingredients, "base", func(i *kitchen.Ingredient) { i.Allergens = kitchen.Allergens{} })
		}, []string{packlabel.Allergens}},
		{"the address", func(b *kitchen.Book) { b.Kitchen.Labels.Address = "elsewhere" }, []string{packlabel.Firm}},
	} {
		b := lentilSoup()
		c.change(&b)
		var got []string
		for _, x := range packlabel.Changed(base, made(t, asked(t, b))) {
			got = append(got, x.What)
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: changed are %v, want %v", c.name, got, c.want)
		}
	}
	a := asked(t, lentilSoup())
	a.Lot.Code = "L-0918"
	if other := made(t, a); len(packlabel.Changed(base, other)) > 0 || other.Hash == base.Hash {
		t.Error("another lot is no change of the label, but says something else")
	}
	if again := made(t, asked(t, lentilSoup())); again.Hash != base.Hash || base.Hash == "" {
		t.Error("the same label has another hash")
	}
}
