package pricing

import (
	"errors"
	"slices"
	"testing"

	"kettlefrost/internal/costing"
	"kettlefrost/internal/unit"
	"pgregory.net/rapid"
)

func u(x float64) unit.Money { return unit.MoneyOf(x) }

func must[T any](t *testing.T) func(T, error) T {
	return func(v T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

func TestFigures(t *testing.T) {
	for _, c := range []struct {
		name                 string
		sale                 Sale
		contribution         unit.Money
		margin, markUp, food float64
		source               string
	}{
		{"strip steak", Sale{Price: u(23.65), Cost: u(7.50), Food: u(7.50)}, u(16.15), 0.682875264, 2.153333333, 0.317124736, "hospitalitynu.blogspot 2012: contribution published, shares by hand"},
		{"pork plate", Sale{Price: u(16), Cost: u(4), Food: u(4)}, u(12), 0.75, 3, 0.25, "Ontario Pork, Costing for Foodservice: food-cost share published, the rest by hand"},
		{"hamburger", Sale{Price: u(5), Cost: u(2.69), Food: u(0.65)}, u(2.31), 0.462, 0.858736059, 0.13, "Goodheart-Willcox 2014, p. 25: variable cost published, the price is ours, shares by hand"},
		{"half margin is a mark-up of one", Sale{Price: u(8), Cost: u(4)}, u(4), 0.5, 1, 0, "by hand"},
		{"sold below cost", Sale{Price: u(4), Cost: u(5), Food: u(2)}, u(-1), -0.25, -0.2, 0.5, "by hand"},
	} {
		f := must[Figures](t)(Of(c.sale))
		if f.Contribution != c.contribution || f.Margin != unit.ShareOf(c.margin) || f.MarkUp != unit.ShareOf(c.markUp) || f.FoodShare != unit.ShareOf(c.food) {
			t.Errorf("%s: %+v (%s)", c.name, f, c.source)
		}
	}
	f := must[Figures](t)(Of(Sale{Price: u(4), AtLeast: true}))
	if f.HasMarkUp || !f.AtMost || f.Margin != unit.Whole {
		t.Errorf("no cost known yet: %+v; want no mark-up, and a margin that is at most all of the price", f)
	}
}

// Horngren, Cost Accounting, the chapter on cost, volume and profit (Do-All and Superword), from memory.
func TestBreakEven(t *testing.T) {
	doAll := Selling{Name: "Do-All", Price: u(200), Variable: u(120), Parts: 1}
	three := doAll
	three.Parts = 3
	superword := Selling{Name: "Superword", Price: u(100), Variable: u(70), Parts: 2}
	for _, c := range []struct {
		name          string
		fixed, profit unit.Money
		products      []Selling
		packs         []int64
		sales, exact  unit.Money
	}{
		{"one product breaks even", u(2000), 0, []Selling{doAll}, []int64{25}, u(5000), u(5000)},
		{"one product earns 1,200", u(2000), u(1200), []Selling{doAll}, []int64{40}, u(8000), u(8000)},
		{"two products, three to two", u(4500), 0, []Selling{three, superword}, []int64{45, 30}, u(12_000), u(12_000)},
		{"packs are whole (by hand)", u(2001), 0, []Selling{doAll}, []int64{26}, u(5200), u(5002.50)},
		{"nothing to pay (by hand)", 0, 0, []Selling{doAll}, []int64{0}, 0, 0},
	} {
		p := must[Point](t)(ToEarn(c.fixed, c.profit, c.products))
		if !slices.Equal(p.Packs, c.packs) || p.Sales != c.sales || p.Exact != c.exact {
			t.Errorf("%s: %+v, want %v for %v (exactly %v)", c.name, p, c.packs, c.sales, c.exact)
		}
	}
}

// At the point asked for the profit is reached, and one set less would not do.
func TestOneSetLessWouldNotDo(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		fixed, profit := unit.Money(rapid.Int64Range(0, 1e10).Draw(t, "fixed")), unit.Money(rapid.Int64Range(0, 1e10).Draw(t, "profit"))
		var products []Selling
		left := unit.Money(0)
		for range rapid.IntRange(1, 3).Draw(t, "products") {
			s := Selling{Variable: unit.Money(rapid.Int64Range(0, 1e7).Draw(t, "variable")), Parts: rapid.Int64Range(1, 5).Draw(t, "parts")}
			s.Price = s.Variable + unit.Money(rapid.Int64Range(1, 1e7).Draw(t, "contribution"))
			left += unit.Money(s.Parts) * (s.Price - s.Variable)
			products = append(products, s)
		}
		p, err := ToEarn(fixed, profit, products)
		if err != nil {
			t.Fatal(err)
		}
		earned := unit.Money(p.Sets)*left - fixed - profit
		if earned < 0 || earned != p.Over || (p.Sets > 0 && earned >= left) || p.Exact > p.Sales {
			t.Fatalf("%+v leaves %v", p, earned)
		}
	})
}

func TestPricesForTargets(t *testing.T) {
	to95 := Endings{Step: unit.MoneyUnit, At: []unit.Money{u(0.95)}}
	either := Endings{Step: unit.MoneyUnit, At: []unit.Money{u(0.95), u(0.49)}}
	quote := must[Quote](t)
	for _, c := range []struct {
		name         string
		got          Quote
		least, price unit.Money
	}{
		{"pork plate at 25 % (Ontario Pork: published)", quote(Endings{}.ForFoodShare(u(4), 25*unit.PerCent)), u(16), u(16)},
		{"the same, ending in .95", quote(to95.ForFoodShare(u(4), 25*unit.PerCent)), u(16), u(16.95)},
		{"salmon at a prime cost of 50 % (Goodheart-Willcox: computed)", quote(either.ForFoodShare(u(6.15), 50*unit.PerCent)), u(12.30), u(12.49)},
		{"margin of 20 % on 8.00 (by hand)", quote(Endings{Step: u(0.05), At: []unit.Money{0}}.ForMargin(u(8), 20*unit.PerCent)), u(10), u(10)},
		{"mark-up of 150 % on 2.30 (by hand)", quote(to95.ForMarkUp(u(2.30), 150*unit.PerCent)), u(5.75), u(5.95)},
		{"40 of Do-All for 1,200 (Horngren, from memory)", quote(Endings{}.ForProfit(u(120), u(2000), u(1200), 40)), u(200), u(200)},
		{"three share a millionth (by hand)", quote(Endings{}.ForProfit(0, 1, 0, 3)), 1, 1},
	} {
		if c.got.Least != c.least || c.got.Price != c.price {
			t.Errorf("%s: %+v, want %v and %v", c.name, c.got, c.least, c.price)
		}
	}
}

func TestEndingsOnlyGoUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		step := unit.Money(rapid.Int64Range(1, 1e7).Draw(t, "step"))
		e := Endings{Step: step}
		for range rapid.IntRange(1, 3).Draw(t, "endings") {
			e.At = append(e.At, unit.Money(rapid.Int64Range(0, int64(step)-1).Draw(t, "at")))
		}
		m := unit.Money(rapid.Int64Range(0, 1e9).Draw(t, "price"))
		p, err := e.Up(m)
		if err != nil || p < m || p >= m+step || !slices.Contains(e.At, p%step) {
			t.Fatalf("%v with %+v is %v, %v", m, e, p, err)
		}
		for q := m; q < min(p, m+1000); q++ { // none of the nearest below would have done
			if slices.Contains(e.At, q%step) {
				t.Fatalf("%v with %+v is %v, not %v", m, e, p, q)
			}
		}
	})
}

func TestRefused(t *testing.T) {
	second := func(_ any, err error) error { return err }
	ok := Selling{Name: "stew", Price: u(5), Variable: u(2), Parts: 1}
	spoilt := func(f func(*Selling)) []Selling { s := ok; f(&s); return []Selling{s} }
	for name, err := range map[string]error{
		"no price":            second(Of(Sale{Cost: 1})),
		"negative price":      second(Of(Sale{Price: -1})),
		"negative cost":       second(Of(Sale{Price: 1, Cost: -1})),
		"more food than cost": second(Of(Sale{Price: 9, Cost: 1, Food: 2})),
		"never breaks even":   second(ToEarn(1, 0, spoilt(func(s *Selling) { s.Variable = s.Price }))),
		"nothing sold":        second(ToEarn(1, 0, nil)),
		"negative fixed cost": second(ToEarn(-1, 0, []Selling{ok})),
		"no parts":            second(ToEarn(1, 0, spoilt(func(s *Selling) { s.Parts = 0 }))),
		"out of range":        second(ToEarn(1, 0, spoilt(func(s *Selling) { s.Parts = 1 << 62 }))),
		"ending outside":      second(Endings{Step: 1, At: []unit.Money{1}}.Up(1)),
		"step without ending": second(Endings{Step: 1}.Up(1)),
		"margin of all":       second(Endings{}.ForMargin(1, unit.Whole)),
		"target of nothing":   second(Endings{}.ForFoodShare(1, 0)),
		"negative mark-up":    second(Endings{}.ForMarkUp(1, -1)),
		"profit from no pack": second(Endings{}.ForProfit(1, 1, 1, 0)),
		"ends the wrong way":  second(Sensitivity([]Input{{Name: "leek", Low: 2, Base: 1, High: 3}}, Linear{Terms: []Term{{1, 1}}}.Cost)),
		"term too few":        second(Sensitivity([]Input{{Name: "leek"}}, Linear{}.Cost)),
		"rate for nothing":    second(Sensitivity([]Input{{Name: "leek"}}, Linear{Terms: []Term{{}}}.Cost)),
	} {
		var bad *costing.RangeError
		if !errors.As(err, &bad) || bad.Fix == "" {
			t.Errorf("%s: %v, want it refused with a fix", name, err)
		}
	}
}
