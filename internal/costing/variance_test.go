package costing

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"kettlefrost/internal/unit"
	"pgregory.net/rapid"
)

// Garrison, Managerial Accounting, the chapter on standard costs (Colonial Pewter), from memory: 3 lb at 4.00 and 0.5 h at 22.00 for a
// piece; 2,000 pieces took 6,500 lb at 3.80 and 1,050 h at 21.60. Answers: price 1,300 F, quantity 2,000 U, rate 420 F, efficiency
// 1,100 U.
func pewter() Run {
	return Run{Planned: 1, Made: 2000,
		Inputs: []Input{{Name: "pewter", Standard: Usage{3 * unit.Pound, perLb(4.00)}, Actual: Usage{6500 * unit.Pound, perLb(3.80)}}},
		Hands:  []Hands{{Name: "casting", StandardTime: unit.Hour / 2, ActualTime: 1050 * unit.Hour, StandardRate: unit.Wage(u(22)), ActualRate: unit.Wage(u(21.60))}}}
}

func TestVariancesOfOneInput(t *testing.T) {
	v := must[Variances](t)(Compare(pewter()))
	in, work := v.Inputs[0], v.Hands[0]
	for _, c := range []struct {
		name string
		got  Variance
		want unit.Money
		side Side
	}{
		{"price", in.Price, u(-1300), Favourable},
		{"usage", in.Usage, u(2000), Adverse},
		{"mix", in.Mix, 0, Even},
		{"yield", in.Yield, u(2000), Adverse},
		{"material", in.Total, u(700), Adverse},
		{"rate", work.Rate, u(-420), Favourable},
		{"efficiency", work.Efficiency, u(1100), Adverse},
		{"labour", work.Total, u(680), Adverse},
	} {
		if c.got.Amount != c.want || c.got.Side() != c.side {
			t.Errorf("%s: %v %v, want %v %v", c.name, c.got.Amount, c.got.Side(), c.want, c.side)
		}
	}
	if v.Total != u(1380) || len(v.Untold) != 0 {
		t.Errorf("total %v, untold %v; want 1,380 and all told", v.Total, v.Untold)
	}
}

// Horngren, Cost Accounting, the appendix on mix and yield (Delpino's ketchup), from memory: 1.6 t of tomatoes for a tonne, 50 % at 70,
// 30 % at 80, 20 % at 90; 4,000 t took 3,250 at 70, 2,275 at 82 and 975 at 96. Answers: price 10,400 U, efficiency 4,450 U, of which
// mix 3,250 F and yield 7,700 U. Tonnes stand as kilograms.
func TestMixAndYield(t *testing.T) {
	kg := unit.Kilogram
	r := Run{Planned: 1000, Made: 4_000_000, Inputs: []Input{
		{Name: "Latoms", Standard: Usage{8 * kg / 10, perKg(70)}, Actual: Usage{3250 * kg, perKg(70)}},
		{Name: "Caltoms", Standard: Usage{48 * kg / 100, perKg(80)}, Actual: Usage{2275 * kg, perKg(82)}},
		{Name: "Flotoms", Standard: Usage{32 * kg / 100, perKg(90)}, Actual: Usage{975 * kg, perKg(96)}},
	}}
	v := must[Variances](t)(Compare(r))
	got := []unit.Money{v.Price, v.Usage, v.Mix, v.Yield, v.Total}
	if want := []unit.Money{u(10_400), u(4_450), u(-3_250), u(7_700), u(14_850)}; !slices.Equal(got, want) {
		t.Errorf("price, usage, mix, yield, total: %v, want %v", got, want)
	}
	for i, want := range []unit.Money{0, u(26_000), u(-29_250)} {
		if v.Inputs[i].Mix.Amount != want {
			t.Errorf("mix of %s: %v, want %v", v.Inputs[i].Name, v.Inputs[i].Mix.Amount, want)
		}
	}
}

func TestWhatCannotBeTold(t *testing.T) {
	for _, c := range []struct {
		name  string
		input Input
		price Side
		usage Side
		total Side
		why   string
	}{
		{"no invoice yet", Input{Standard: Usage{unit.Kilogram, perKg(2)}, Actual: Usage{2 * unit.Kilogram, Price{}}}, Untold, Adverse, Untold, noActualPrice},
		{"no standard price", Input{Standard: Usage{unit.Kilogram, Price{}}, Actual: Usage{unit.Kilogram, perKg(2)}}, Untold, Untold, Untold, noStandardPrice},
		{"none used", Input{Standard: Usage{unit.Kilogram, perKg(2)}, Actual: Usage{0, perKg(9)}}, Even, Favourable, Favourable, noneUsed},
		{"none planned", Input{Standard: Usage{0, perKg(2)}, Actual: Usage{unit.Kilogram, perKg(2)}}, Even, Adverse, Adverse, notPlanned},
		{"neither", Input{Standard: Usage{0, perKg(2)}, Actual: Usage{0, perKg(3)}}, Even, Even, Even, nothingAtAll},
		{"neither, and no price", Input{}, Untold, Untold, Untold, nothingAtAll},
		{"a gift", Input{Standard: Usage{unit.Kilogram, perKg(2)}, Actual: Usage{unit.Kilogram, Price{Free: true}}}, Favourable, Even, Favourable, ""},
	} {
		v := must[Variances](t)(Compare(Run{Planned: 1, Made: 1, Inputs: []Input{c.input}})).Inputs[0]
		if v.Price.Side() != c.price || v.Usage.Side() != c.usage || v.Total.Side() != c.total || !strings.Contains(v.Price.Why+v.Usage.Why, c.why) {
			t.Errorf("%s: %+v", c.name, v)
		}
	}
	// Work that nobody's rate is known of is untold; the sum over the rest says so.
	v := must[Variances](t)(Compare(Run{Planned: 1, Made: 1, Hands: []Hands{
		{Name: "filling", StandardTime: unit.Hour, ActualTime: 2 * unit.Hour, StandardRate: unit.Wage(u(20))},
		{Name: "cooking", StandardTime: unit.Hour, ActualTime: unit.Hour}, {Name: "sealing", StandardRate: unit.Wage(u(20))}}}))
	want := []string{"filling, rate: " + noActualPrice, "cooking, rate: " + noStandardPrice, "cooking, efficiency: " + noStandardPrice}
	if v.Total != u(20) || !slices.Equal(v.Untold, want) || v.Hands[2].Efficiency.Why != noTimeAtAll {
		t.Errorf("total %v, untold %v, sealing %+v", v.Total, v.Untold, v.Hands[2])
	}
}

func TestVariancesRefused(t *testing.T) {
	for name, r := range map[string]Run{
		"nothing planned": {Made: 1},
		"negative mass":   {Planned: 1, Made: 1, Inputs: []Input{{Name: "leek", Actual: Usage{Mass: -1}}}},
		"negative price":  {Planned: 1, Made: 1, Inputs: []Input{{Name: "leek", Actual: Usage{1, Price{Money: -1, Per: 1}}}}},
		"negative rate":   {Planned: 1, Made: 1, Hands: []Hands{{Name: "leek", ActualRate: -1}}},
	} {
		var bad *RangeError
		if _, err := Compare(r); !errors.As(err, &bad) || (len(r.Inputs)+len(r.Hands) > 0 && !strings.Contains(bad.What, "leek")) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// The parts add up to what was paid less the standard, whatever the figures.
func TestVariancesAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := func(what string, low, high int64) int64 { return rapid.Int64Range(low, high).Draw(t, what) }
		price := func() Price { return Price{Money: unit.Money(n("money", 1, 1e9)), Per: unit.Mass(n("per", 1e6, 1e13))} }
		r := Run{Planned: n("planned", 1, 1000), Made: n("made", 0, 1000)}
		for range n("inputs", 1, 4) {
			r.Inputs = append(r.Inputs, Input{Standard: Usage{unit.Mass(n("standard", 1, 1e12)), price()}, Actual: Usage{unit.Mass(n("actual", 0, 1e12)), price()}})
		}
		for range n("hands", 0, 2) {
			r.Hands = append(r.Hands, Hands{StandardTime: unit.Span(n("time", 0, 1e5)), ActualTime: unit.Span(n("spent", 0, 1e5)), StandardRate: unit.Wage(n("rate", 1, 1e8)), ActualRate: unit.Wage(n("paid", 1, 1e8))})
		}
		v, err := Compare(r)
		if err != nil {
			t.Fatal(err)
		}
		var total unit.Money
		for _, i := range v.Inputs {
			if i.Price.Amount+i.Usage.Amount != i.Total.Amount || i.Mix.Amount+i.Yield.Amount != i.Usage.Amount || i.Actual-i.Standard != i.Total.Amount {
				t.Fatalf("%+v", i)
			}
			total += i.Actual - i.Standard
		}
		for _, h := range v.Hands {
			if h.Rate.Amount+h.Efficiency.Amount != h.Total.Amount || h.Actual-h.Standard != h.Total.Amount {
				t.Fatalf("%+v", h)
			}
			total += h.Actual - h.Standard
		}
		if v.Total != total || v.Mix+v.Yield != v.Usage || len(v.Untold) != 0 {
			t.Fatalf("total %v, want %v: %+v", v.Total, total, v)
		}
	})
}
