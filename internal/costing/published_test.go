package costing

import (
	"testing"

	"kettlefrost/internal/unit"
)

// u is an amount of money as it is printed, to the ten-thousandth.
func u(x float64) unit.Money { return unit.MoneyOf(x) }

// perKg and perLb are prices by mass.
func perKg(x float64) Price { return Price{Money: u(x), Per: unit.Kilogram} }
func perLb(x float64) Price { return Price{Money: u(x), Per: unit.Pound} }

// near is v to the nearest step, the way a source prints it.
func near[T ~int64](v, step T) T { return (v + step/2) / step * step }

func must[T any](t *testing.T) func(T, error) T {
	return func(v T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

// Every example names where its figures come from. "published" means that the result was read there; "computed" that only the
// inputs were read, and the result is arithmetic done apart from this code.
const (
	bc     = "BCcampus, Basic Kitchen and Food Service Management, Yield Testing example 12"
	bcText = "BCcampus text as quoted elsewhere"
	shaw   = "Trade Calculations, members.shaw.ca, objective 4"
	pork   = "Ontario Pork, Costing for Foodservice"
	slides = "Culinary Math chapter 6 slides (question read, answer not)"
	gw     = "Controlling Costs in Foodservice, Goodheart-Willcox 2014, p. 25"
	tras   = "Traster, Foundations of Cost Control slides (inputs read, result not)"
	nu     = "hospitalitynu.blogspot 2012"
	prime  = "foodformulaa.blogspot.com 2012"
)

func TestYields(t *testing.T) {
	for _, c := range []struct {
		name     string
		ap, trim unit.Mass
		ep       unit.Mass
		percent  float64
		step     unit.Share // to which the percentage is printed
		source   string
	}{
		{"tenderloin", 2500 * unit.Gram, 750 * unit.Gram, 1750 * unit.Gram, 70.0, unit.PerCent / 10, bc + ": mass published, percentage computed"},
		{"salmon", 7750 * unit.Gram, 2750 * unit.Gram, 5000 * unit.Gram, 64.52, unit.PerCent / 100, bc + ": mass published, percentage computed"},
		{"carrot", 1000 * unit.Gram, 200 * unit.Gram, 800 * unit.Gram, 80.0, unit.PerCent / 10, bc + ": masses published, percentage computed"},
		{"striploin", 5200 * unit.Gram, 600 * unit.Gram, 4600 * unit.Gram, 88.5, unit.PerCent / 10, shaw + " example 1: published"},
		{"bone-in pork loin", 5 * unit.Kilogram, 1250 * unit.Gram, 3750 * unit.Gram, 75.0, unit.PerCent / 10, pork + ": published"},
	} {
		y := must[Yield](t)(Trimmed(c.ap, c.trim))
		share := must[unit.Share](t)(y.Share())
		if got := near(share, c.step); y.EP != c.ep || got != unit.ShareOf(c.percent/100) {
			t.Errorf("%s: EP %v, yield %v; want %v, %v %% (%s)", c.name, y.EP, got, c.ep, c.percent, c.source)
		}
	}
}

func TestEPCost(t *testing.T) {
	for _, c := range []struct {
		name   string
		yield  Yield
		price  Price
		mass   unit.Mass
		want   unit.Money
		step   unit.Money // to which the result is given
		source string
	}{
		{"trimmed roast", Yield{AP: 5 * unit.Kilogram, EP: 4 * unit.Kilogram}, perKg(8.00), unit.Kilogram, u(10.00), unit.Cent, bcText + " (5 kg roast): published"},
		{"striploin by weights", Yield{AP: 5200 * unit.Gram, EP: 4600 * unit.Gram}, perKg(11.95), unit.Kilogram, u(13.5087), 100, shaw + " example 2 method a: computed"},
		{"striploin by rounded yield", AtYield(885 * unit.PerCent / 10), perKg(11.95), unit.Kilogram, u(13.5028), 100, shaw + " example 2 method b: computed"},
		{"bone-in pork loin", Yield{AP: 5 * unit.Kilogram, EP: 3750 * unit.Gram}, Price{Money: u(25.00), Per: 5 * unit.Kilogram}, unit.Kilogram, u(6.6667), 100, pork + ": computed"},
		{"lychee", AtYield(60 * unit.PerCent), Price{Money: u(12.45), Per: 3 * unit.Pound}, unit.Pound, u(6.9167), 100, slides + ": computed"},
		{"prime cut", AtYield(80 * unit.PerCent), perLb(10.00), unit.Pound, u(12.50), unit.Cent, prime + ": published"},
		{"cost sheet carrot line", AtYield(77 * unit.PerCent), perLb(0.68), 4 * unit.Ounce, u(0.2208), 100, tras + ": computed"},
		{"cost sheet raisin line", AtYield(unit.Whole), perLb(4.37), 4 * unit.Ounce, u(1.0925), 100, tras + ": computed"},
	} {
		got := must[unit.Money](t)(c.yield.EPCost(c.price, c.mass))
		if near(got, c.step) != c.want {
			t.Errorf("%s: %v, want %v (%s)", c.name, got, c.want, c.source)
		}
	}
}

func TestAPNeededForPortions(t *testing.T) {
	// Trade Calculations, objective 4 example 3: 85 portions of 0.170 kg at 88.5 %; computed: 14.45 kg EP, 16.3277 kg AP.
	ep := 85 * 170 * unit.Gram
	if ep != 14450*unit.Gram {
		t.Fatal(ep)
	}
	got := must[unit.Mass](t)(AtYield(885 * unit.PerCent / 10).APNeeded(ep))
	if r := near(got, unit.Gram/10); r != unit.MassKg(16.3277) {
		t.Errorf("needs %v, want 16.3277 kg", r)
	}
}

func TestCostFactors(t *testing.T) {
	// BCcampus text as quoted: the AP price rises from 12.14 to 13.00 and the usable kilogram by 1.49 (published). The factor lies
	// between 1.7267 and 1.7384 (computed from the rounding of 1.49).
	rise := must[unit.Money](t)(Margin(u(13.00), u(12.14)))
	low := must[unit.Share](t)(Ratio(u(1.485), rise))
	high := must[unit.Share](t)(Ratio(u(1.495), rise))
	if r := near(low, 100_000); r != unit.ShareOf(1.7267) {
		t.Errorf("low factor %v, want 1.7267", r)
	}
	if r := near(high, 100_000); r != unit.ShareOf(1.7384) {
		t.Errorf("high factor %v, want 1.7384", r)
	}
	for _, f := range []unit.Share{low, high} { // and either factor gives the published rise back
		usable := must[unit.Money](t)(AtYield(must[unit.Share](t)(AtYield(f).Factor())).EPCost(Price{Money: rise, Per: unit.Kilogram}, unit.Kilogram))
		if usable < u(1.4849) || usable > u(1.4951) {
			t.Errorf("factor %v makes the rise %v, want 1.49", f, usable)
		}
	}
	// BCcampus cooking loss test as quoted: 0.2931 for a portion of 125 g (published) is 2.3448 for a kilogram (computed).
	perKilo := must[unit.Money](t)(CostOf(u(0.2931), 125*unit.Gram, unit.Kilogram))
	if perKilo != u(2.3448) {
		t.Errorf("factor for a kilogram %v, want 2.3448", perKilo)
	}
}

func TestWages(t *testing.T) {
	// Controlling Costs in Foodservice, figure 2-2: published, to the cent.
	for _, c := range []struct {
		who     string
		minutes unit.Span
		wage    float64
		want    float64
	}{{"cook", 10, 10.00, 1.67}, {"server", 3, 3.50, 0.18}, {"dishwasher", 1, 8.00, 0.13}} {
		got := must[unit.Money](t)(WorkCost(unit.Wage(u(c.wage)), c.minutes*unit.Minute))
		if got.RoundCents() != u(c.want) {
			t.Errorf("%s: %v, want %v", c.who, got, c.want)
		}
	}
}

func TestSums(t *testing.T) {
	money := must[unit.Money](t)
	for _, c := range []struct {
		name      string
		got, want unit.Money
		source    string
	}{
		{"salmon prime cost", money(Prime(u(3.75), u(2.00), u(0.40))), u(6.15), gw + ": published"},
		{"salmon price by prime cost", money(PriceFor(u(6.15), 50*unit.PerCent)), u(12.30), gw + ": computed"},
		{"hamburger prime cost", money(Prime(u(0.65), u(1.98), u(0.40))), u(3.03), gw + ": published"},
		{"hamburger variable cost", money(Sum(u(0.65), u(1.98), u(0.06))), u(2.69), gw + ": published"},
		{"monthly food cost", money(MonthFoodCost(u(10000), u(7500), u(9000))), u(8500), "BCcampus, Monthly Food Costs example 25: published"},
		{"strip contribution margin", money(Margin(u(23.65), u(7.50))), u(16.15), nu + ": published"},
		{"chicken contribution margin", money(Margin(u(16.45), u(5.20))), u(11.25), nu + ": published"},
		{"difference on 100 sold of each", 100 * money(Margin(u(16.15), u(11.25))), u(490), nu + ": published"},
		{"couscous line", money(CostOf(u(4.20), unit.Quart, 2*unit.Cup)), u(2.10), tras + ": computed"},
		{"stock line", money(CostOf(u(0.84), unit.Quart, 16*unit.FluidOunce)), u(0.42), tras + ": computed"},
		{"parsley line, 8 tablespoons to the bunch", money(CostOf(u(0.72), 8*unit.Tablespoon, 2*unit.Tablespoon)), u(0.18), tras + ": computed"},
		{"portion before spice factor", near(money(Each(u(4.0133), 8)), 100), u(0.5017), tras + ": computed"},
		{"cumin, 4 oz to the cup of 48 teaspoons", near(money(Each(money(CostOf(u(10.60), unit.Pound, 4*unit.Ounce)), 48)), 100), u(0.0552), slides + ": computed"},
		{"overhead for 6 h of 2,400", money(WorkCost(must[unit.Wage](t)(HourlyRate(u(48000), 2400*unit.Hour)), 6*unit.Hour)), u(120), "own illustration: 48,000 / 2,400 h x 6 h"},
		{"and for each of 120 portions", money(Each(u(120), 120)), u(1), "own illustration"},
		{"price for a margin of 20 %", money(PriceForMargin(u(8), 20*unit.PerCent)), u(10), "price = full cost / (1 - margin), by hand"},
	} {
		if c.got != c.want {
			t.Errorf("%s: %v, want %v (%s)", c.name, c.got, c.want, c.source)
		}
	}
	// Ontario Pork, Costing for Foodservice: 4.00 of 16.00 is 25 %, published.
	if s := must[unit.Share](t)(Ratio(u(4.00), u(16.00))); s != 25*unit.PerCent {
		t.Errorf("food-cost share %v, want 25 %%", s)
	}
	if p := money(PriceFor(u(4.00), 25*unit.PerCent)); p != u(16.00) {
		t.Errorf("price for 25 %%: %v, want 16.00", p)
	}
}

// TestCostSheet adds up the five lines of the Traster sheet: 4.0133 (computed) for 8 portions.
func TestCostSheet(t *testing.T) {
	money := must[unit.Money](t)
	sum := money(Sum(money(AtYield(77*unit.PerCent).EPCost(perLb(0.68), 4*unit.Ounce)),
		money(CostOf(u(4.20), unit.Quart, 2*unit.Cup)), money(CostOf(u(4.37), unit.Pound, 4*unit.Ounce)),
		money(CostOf(u(0.84), unit.Quart, 16*unit.FluidOunce)), money(CostOf(u(0.72), 8*unit.Tablespoon, 2*unit.Tablespoon))))
	if near(sum, 100) != u(4.0133) {
		t.Errorf("five lines: %v, want 4.0133", sum)
	}
}
