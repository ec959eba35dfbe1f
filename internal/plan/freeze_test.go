package plan_test

import (
	"strings"
	"testing"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// Every pack has a place on some day or is counted as left, in every freezer's own room.
func TestEveryPackIsScheduled(t *testing.T) {
	for _, n := range []int{10, 60, 150} {
		p := makePlan(t, soupKitchen(t), soups(n))
		placed := p.Freeze.Schedule.Left
		for _, e := range p.Freeze.Schedule.Entries {
			placed += e.Count
		}
		if placed != p.Fill[0].Count {
			t.Errorf("%d packs: %d have a place or are left", p.Fill[0].Count, placed)
		}
	}
}

// A pack 2.2 cm thick (650 g on 20 x 15 cm) in 8 W/m²K of -20 °C: the household's inch bag of soup takes 10.6 h to -15 °C in -18 °C (derived in
// the reference on heat); thinner and colder it must be less, and not less than the latent heat alone takes by Plank.
func TestPackTimeIsPlausible(t *testing.T) {
	p := makePlan(t, soupKitchen(t), soups(20))
	f := p.Freeze.Packs[0]
	near(t, "thickness, mm", f.Thickness.M()*1000, 21, 1)
	if f.Time <= f.Plank || f.Time > 12*unit.Hour || f.Fast >= f.Time || f.Slow <= f.Time {
		t.Errorf("%s (%s to %s), Plank %s", f.Time, f.Fast, f.Slow, f.Plank)
	}
	if off := f.Pham.S() / f.Time.S(); off < 0.85 || off > 1.15 {
		t.Errorf("Pham %s is %.2f of %s", f.Pham, off, f.Time)
	}
	for _, o := range f.Otherwise {
		switch {
		case strings.HasPrefix(o.Lies, "stacked") && o.Time < 3*f.Time:
			t.Errorf("stacked four high takes only %s, alone %s", o.Time, f.Time)
		case o.Lies == "on a plate" && o.Time >= f.Time:
			t.Errorf("on a cold plate it takes %s, in air %s", o.Time, f.Time)
		}
	}
}

// A machine of 20 W cannot freeze 100 kg, and what would do is computed.
func TestWeakFreezerSaysWhatWouldDo(t *testing.T) {
	book := soupKitchen(t)
	chest := book.Freezers["chest"]
	chest.Cooling = 20 * unit.Watt
	book.Freezers["chest"] = chest
	p := makePlan(t, book, soups(150))
	f := has(p.Findings, plan.CodeFreezerSlow)
	if f == nil || f.Severity != finding.Stop || p.Freeze.Schedule.Left == 0 {
		t.Fatalf("left %d, findings %v", p.Freeze.Schedule.Left, p.Findings)
	}
	if len(p.Freeze.Schedule.Remedies) == 0 || !strings.Contains(f.Fix, p.Freeze.Schedule.Remedies[0]) {
		t.Errorf("remedies %v are not in %q", p.Freeze.Schedule.Remedies, f.Fix)
	}
}

// Old stock warms when fresh packs go in, and stays below the limit for it.
func TestOldStockWarms(t *testing.T) {
	book := soupKitchen(t)
	chest := book.Freezers["chest"]
	chest.Holds = 60 * unit.Kilogram
	book.Freezers["chest"] = chest
	few, many := makePlan(t, book, soups(5)).Freeze.Schedule.Cabinets[0], makePlan(t, book, soups(40)).Freeze.Schedule.Cabinets[0]
	if !(few.StockPeak < many.StockPeak && many.StockPeak <= unit.TempC(-14.9)) {
		t.Errorf("old stock warms to %s with 5 packs and %s with 40", few.StockPeak, many.StockPeak)
	}
	if few.AirPeak >= many.AirPeak {
		t.Errorf("air warms to %s with 5 packs and %s with 40", few.AirPeak, many.AirPeak)
	}
}

// A card is not printed before the bag's maker has said that food may be heated in it.
func TestCardWaitsForTheMaker(t *testing.T) {
	book := soupKitchen(t)
	p := makePlan(t, book, soups(20))
	if len(p.Cards) != 1 || len(p.Cards[0].Missing) != 1 || has(p.Findings, plan.CodeBagNotForHeat) == nil {
		t.Fatalf("cards %+v", p.Cards)
	}
	bag := book.Bags["bag"]
	bag.Reheat = "letter of 3 March (invented)"
	book.Bags["bag"] = bag
	p = makePlan(t, book, soups(20))
	if len(p.Cards[0].Missing) != 0 || has(p.Findings, plan.CodeBagNotForHeat) != nil {
		t.Errorf("missing %v", p.Cards[0].Missing)
	}
	card := p.Cards[0]
	if card.Frozen.Minutes*60 < int(card.Frozen.Worst.S()) || card.Frozen.Worst <= card.Frozen.Nominal {
		t.Errorf("%d min printed for a worst case of %s, usual %s", card.Frozen.Minutes, card.Frozen.Worst, card.Frozen.Nominal)
	}
}

// An inch more of bag is no longer heated well from frozen; fish is never thawed in its vacuum pack (FDA Food Code 3-501.13).
func TestCardOfThickBagsAndFish(t *testing.T) {
	book := soupKitchen(t)
	thick := book.Packs["soup-650"]
	thick.Thickness = quantity(t, unit.ParseLength, "2 in")
	book.Packs["soup-650"] = thick
	p := makePlan(t, book, soups(20))
	if p.Cards[0].Frozen.Minutes != 0 || has(p.Findings, plan.CodeNoMinutes) == nil {
		t.Errorf("2 in thick: %d min", p.Cards[0].Frozen.Minutes)
	}
	book = soupKitchen(t)
	carrot := book.Ingredients["carrot"]
	carrot.Allergens = kitchen.Allergens{Answered: true, Names: []string{"fish: trout"}}
	book.Ingredients["carrot"] = carrot
	if m := makePlan(t, book, soups(20)).Cards[0].Thawed.Minutes; m != 0 {
		t.Errorf("fish: %d min from thawed", m)
	}
}

// A microwave's minutes come from three runs with the pack that is sold and 165 °F everywhere: the longest and a tenth, rounded up. 9.5 min
// are 10.45, so 11. Two runs give none, however good they are.
func TestMicrowaveMinutesAreMeasured(t *testing.T) {
	book := soupKitchen(t)
	temp := func(s string) unit.Temp { return quantity(t, unit.ParseTemp, s) }
	trial := func(minutes float64) kitchen.Trial {
		hot := temp("170 °F")
		return kitchen.Trial{Method: kitchen.Microwave, Appliance: "Warmer 7", Power: 900 * unit.Watt, Mass: 650 * unit.Gram, Start: temp("0 °F"), Time: unit.SpanS(60 * minutes), Stand: 2 * unit.Minute,
			Spots: []unit.Temp{hot, temp("166 °F"), hot, hot, hot}, Who: "Ada", Date: "2026-11-20"}
	}
	pack := book.Packs["soup-650"]
	pack.Trials = []kitchen.Trial{trial(9), trial(9.5)}
	book.Packs["soup-650"] = pack
	p := makePlan(t, book, soups(20))
	if m := p.Cards[0].Measured; len(m) != 1 || m[0].Minutes != 0 || m[0].Runs != 2 || has(p.Findings, plan.CodeNotMeasured) == nil {
		t.Fatalf("two runs: %+v", m)
	}
	pack.Trials = append(pack.Trials, trial(9.2))
	book.Packs["soup-650"] = pack
	p = makePlan(t, book, soups(20))
	if m := p.Cards[0].Measured; m[0].Minutes != 11 || has(p.Findings, plan.CodeNotMeasured) != nil {
		t.Errorf("three runs: %+v, want 11 min", m)
	}
	if text := cardText(p.Cards[0]); !strings.Contains(text, "Microwave of 900 W") || !strings.Contains(text, "11 minutes") {
		t.Errorf("the card does not say so:\n%s", text)
	}
	pack.Trials[0].Spots[3] = temp("150 °F")
	pack.Trials[0].Time = unit.SpanS(20 * 60) // it took the longest and left a cold spot: no time is above suspicion
	book.Packs["soup-650"] = pack
	if m := makePlan(t, book, soups(20)).Cards[0].Measured; m[0].Minutes != 0 {
		t.Errorf("a cold spot after 20 min, and %d min are printed", m[0].Minutes)
	}
}

func cardText(c plan.Card) string {
	var b strings.Builder
	for _, l := range c.Lines {
		b.WriteString(l.Text + "\n")
	}
	return b.String()
}
