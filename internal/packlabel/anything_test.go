package packlabel_test

import (
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/kitchen/kitchentest"
	"kettlefrost/internal/nutrition"
	"kettlefrost/internal/packlabel"
	"kettlefrost/internal/unit"
)

// A book of any nonsense gives a label or says why not, and never both or neither.
func TestAnyBook(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := lentilSoup()
		nonsense := func(what string) bool { return rapid.IntRange(0, 3).Draw(t, "nonsense of "+what) == 0 }
		for id, ing := range b.Ingredients {
			if nonsense(string(id)) {
				kitchentest.Fill(t, reflect.ValueOf(&ing).Elem(), "")
				b.Ingredients[id] = ing
			}
		}
		if nonsense("labels") {
			kitchentest.Fill(t, reflect.ValueOf(&b.Kitchen.Labels).Elem(), "")
		}
		if nonsense("the bag") {
			bag := b.Bags["bag"]
			kitchentest.Fill(t, reflect.ValueOf(&bag).Elem(), "")
			b.Bags["bag"] = bag
		}
		if nonsense("the pack") {
			edit(b.Packs, "pack", func(p *kitchen.Pack) {
				fill := p.Fill
				kitchentest.Fill(t, reflect.ValueOf(p).Elem(), "")
				p.Dish, p.Fill, p.Bag = "soup", fill, "bag"
			})
		}
		a := packlabel.Asked{Book: b, Foods: table, Pack: "pack", Lot: packlabel.Lot{Code: rapid.String().Draw(t, "lot"), Packed: rapid.SampledFrom([]string{"", "2026-12-01", "soon"}).Draw(t, "packed")}}
		l, err := packlabel.Of(a)
		if err != nil {
			return
		}
		if l.Withheld() == (len(l.Sides) > 0) {
			t.Fatalf("withheld %v, with %d sides", l.Withheld(), len(l.Sides))
		}
		if again, _ := packlabel.Of(a); again.Hash != l.Hash || !reflect.DeepEqual(again.Open, l.Open) || !reflect.DeepEqual(again.Sides, l.Sides) {
			t.Fatal("the same book gives another label")
		}
	})
}

// What takes the place of an ingredient and is the same changes nothing; one that is otherwise changes it by just that.
func TestTheSameInItsPlaceChangesNothing(t *testing.T) {
	b := lentilSoup()
	twin, salty := b.Ingredients["base"], b.Ingredients["base"]
	analysis := *salty.Analysis
	sodium := 3 * *analysis.Sodium
	analysis.Sodium, salty.Analysis = &sodium, &analysis
	b.Ingredients["twin"], b.Ingredients["salty"] = twin, salty
	plain := made(t, asked(t, b)).PerPack()
	for _, c := range []struct {
		by    kitchen.IngredientID
		share unit.Share
		times float64 // as much sodium
	}{{"twin", 0, 1}, {"twin", 25 * unit.PerCent, 1}, {"salty", 0, 3}, {"salty", 25 * unit.PerCent, 1.5}} {
		a := asked(t, b)
		a.Lot.Instead = []packlabel.Instead{{Of: "base", By: c.by, Share: c.share}}
		got := made(t, a).PerPack()
		for _, n := range nutrition.Nutrients() {
			want := plain[n].Least
			if n == nutrition.Sodium {
				want *= c.times
			}
			if off := got[n].Least - want; off > 1e-6*max(1, want) || -off > 1e-6*max(1, want) {
				t.Errorf("%s for %v: %v is %v, want %v", c.by, c.share, n, got[n].Least, want)
			}
		}
	}
}
