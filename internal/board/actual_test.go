package board

import (
	"testing"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// By hand: 4 kg of carrots were taken of 20 kg for $30, and 1 kg of 5 kg for $10: $6 and $2. Of the onions one of two lots has no price.
func TestActual(t *testing.T) {
	kg, usd := unit.Kilogram, unit.MoneyUnit
	goods := map[record.Lot]Goods{
		"R-1": {"carrot", 20 * kg, 30 * usd}, "R-2": {"carrot", 5 * kg, 10 * usd}, "R-3": {"onion", 10 * kg, 12 * usd}, "R-4": {"onion", 10 * kg, 0},
	}
	bought := func(id record.Lot) (Goods, bool) { g, ok := goods[id]; return g, ok }
	use := func(lot record.Lot, m unit.Mass) record.Body {
		return record.Used{Run: "r", Dish: "broth", Lot: lot, Mass: m}
	}
	pack := func(id, numbers string) record.Body {
		n, err := record.ParseNumbers(numbers)
		if err != nil {
			t.Fatal(err)
		}
		return record.Packed{Run: "r", Pack: id, Lot: record.Lot("P-" + id), Numbers: n, Label: kg, Mass: kg * unit.Mass(n.Count()), From: []record.Part{{Lot: "M-1", Mass: kg}}, BestBefore: "2027-01-01"}
	}
	d := &diary{}
	for _, b := range []record.Body{use("R-1", 4*kg), use("R-3", 2*kg), use("R-2", kg), use("R-4", kg), use("M-9", kg)} {
		d.say(at(8, 0), "Ada", b)
	}
	p := plan.Plan{Fill: []plan.PackFill{{Pack: "lb"}, {Pack: "pint"}}}
	run := d.board().Run
	if a, filled := Actual(run, p, bought); filled || a.Made["lb"] != 0 {
		t.Errorf("nothing was filled, and it is %v (%v)", a.Made, filled)
	}
	for _, b := range []record.Body{pack("lb", "1-40"), pack("lb", "41-52"), pack("other", "1-3")} {
		d.say(at(11, 0), "Bo", b)
	}
	a, filled := Actual(d.board().Run, p, bought)
	if !filled || len(a.Made) != 2 || a.Made["lb"] != 52 || a.Made["pint"] != 0 {
		t.Errorf("made %v", a.Made)
	}
	want := []kitchen.ActualUse{
		{Of: "carrot", Amount: unit.Amount{Kind: unit.AmountMass, Mass: 5 * kg}, Paid: 8 * usd},
		{Of: "onion", Amount: unit.Amount{Kind: unit.AmountMass, Mass: 3 * kg}},
	}
	if len(a.Used) != 2 || a.Used[0] != want[0] || a.Used[1] != want[1] {
		t.Errorf("used %+v, want %+v", a.Used, want)
	}
}
