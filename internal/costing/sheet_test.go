package costing

import (
	"errors"
	"math"
	"slices"
	"testing"

	"kettlefrost/internal/unit"
	"pgregory.net/rapid"
)

// dal is an invented batch, worked by hand: food 4.00 + 1.50, bags 100 x 0.12, 2 h at 18.00 and 2 h of overhead at 20.00.
func dal() Batch {
	return Batch{Packs: 100, Charges: Charges{
		Components: []Component{
			{Name: "lentils", Mass: 2 * unit.Kilogram, Price: perKg(2.00)},
			{Name: "onion", Mass: 900 * unit.Gram, Yield: Yield{AP: unit.Kilogram, EP: 900 * unit.Gram}, Price: perKg(1.50)},
			{Name: "water", Mass: 8 * unit.Kilogram, Price: Price{Free: true}},
		},
		Packaging: []Item{{Name: "bag", Count: 100, Each: u(0.12)}},
		Labour:    []Work{{Name: "cook", Time: 2 * unit.Hour, Rate: unit.Wage(u(18))}},
		Energy:    []Heat{{Name: "gas", EnergyJ: 25 * 3.6e6, Price: unit.Tariff(u(0.05))}},
		Overhead:  []Work{{Name: "kitchen", Time: 2 * unit.Hour, Rate: unit.Wage(u(20))}},
	}}
}

func TestBatchCost(t *testing.T) {
	s, err := Cost(dal())
	if err != nil {
		t.Fatal(err)
	}
	if s.Food != u(5.50) || s.Packing != u(12) || s.Labour != u(36) || s.Energy != u(1.25) || s.Over != u(40) || s.Total != u(94.75) || s.PerPack != u(0.9475) {
		t.Errorf("got %+v, want 5.50 + 12 + 36 + 1.25 + 40 = 94.75, 0.9475 a pack", s)
	}
	if s.LowerBound() || len(s.Lines) != 7 {
		t.Errorf("all prices are known and there are seven lines: %+v", s)
	}
}

func TestMissingPriceIsNeverZero(t *testing.T) {
	for name, forget := range map[string]func(*Batch){
		"onion":   func(b *Batch) { b.Components[1].Price = Price{} },
		"lentils": func(b *Batch) { b.Components[0].Price.Money = 0 },
		"bag":     func(b *Batch) { b.Packaging[0].Each = 0 },
		"cook":    func(b *Batch) { b.Labour[0].Rate = 0 },
		"gas":     func(b *Batch) { b.Energy[0].Price = 0 },
		"kitchen": func(b *Batch) { b.Overhead[0].Rate = 0 },
	} {
		b := dal()
		forget(&b)
		s, err := Cost(b)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if !s.LowerBound() || len(s.Missing) != 1 || s.Missing[0].Name != name || s.Missing[0].Known || s.Total >= u(94.75) {
			t.Errorf("%s: missing %v, total %v: want that one line missing and a lower bound", name, s.Missing, s.Total)
		}
	}
}

func TestTrimThatIsWorthSomething(t *testing.T) {
	// By hand: 10 kg at 4.00 is 40; 2 kg of bones are worth 4.00; 6 kg usable then cost 36.00, so 6.00 a kilogram.
	y := Yield{AP: 10 * unit.Kilogram, EP: 6 * unit.Kilogram, TrimWorth: u(4)}
	if got, err := y.EPCost(perKg(4.00), unit.Kilogram); err != nil || got != u(6) {
		t.Errorf("got %v, %v; want 6.00", got, err)
	}
	y.TrimWorth = u(41)
	if _, err := y.EPCost(perKg(4.00), unit.Kilogram); err == nil {
		t.Error("trim worth more than the whole was let through")
	}
}

func TestRoundedUp(t *testing.T) {
	for _, c := range []struct{ in, want unit.Money }{
		{170_001, 180_000}, {180_000, 180_000}, {0, 0}, {-5_001, 0}, {-10_000, -10_000}, {math.MaxInt64, math.MaxInt64},
	} {
		if got := RoundedUp(c.in, unit.Cent); got != c.want {
			t.Errorf("%d: %d, want %d", c.in, got, c.want)
		}
	}
}

func TestJointCost(t *testing.T) {
	// By hand: 100.00 over 40 kg of stew and 10 kg of broth; and 10.00 over three alike, where one millionth is left over.
	for _, c := range []struct {
		total   unit.Money
		outputs []unit.Mass
		want    []unit.Money
	}{
		{u(100), []unit.Mass{40 * unit.Kilogram, 10 * unit.Kilogram}, []unit.Money{u(80), u(20)}},
		{u(10), []unit.Mass{unit.Pound, unit.Pound, unit.Pound}, []unit.Money{3_333_334, 3_333_333, 3_333_333}},
		{u(7), []unit.Mass{0, unit.Gram}, []unit.Money{0, u(7)}},
	} {
		if got, err := JointCost(c.total, c.outputs); err != nil || !slices.Equal(got, c.want) {
			t.Errorf("%v over %v: %v, %v; want %v", c.total, c.outputs, got, err, c.want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		total := unit.Money(rapid.Int64Range(0, 1e12).Draw(t, "total"))
		var outputs []unit.Mass
		for range rapid.IntRange(1, 6).Draw(t, "outputs") {
			outputs = append(outputs, unit.Mass(rapid.Int64Range(1, 1e15).Draw(t, "mass")))
		}
		shares, err := JointCost(total, outputs)
		if err != nil {
			t.Fatal(err)
		}
		if sum, err := Sum(shares...); err != nil || sum != total {
			t.Fatalf("%v was shared out as %v", total, shares)
		}
	})
}

func TestRefused(t *testing.T) {
	refused := func(name string, err error) {
		t.Helper()
		var bad *RangeError
		if !errors.As(err, &bad) {
			t.Errorf("%s: got %v, want it refused", name, err)
		}
	}
	_, err := Trimmed(unit.Gram, unit.Gram)
	refused("all trim", err)
	_, err = Yield{}.Share()
	refused("no yield test", err)
	_, err = AtYield(unit.Whole).EPCost(Price{}, unit.Gram)
	refused("no price", err)
	_, err = PriceFor(unit.MoneyUnit, 0)
	refused("target of nothing", err)
	_, err = PriceForMargin(unit.MoneyUnit, unit.Whole)
	refused("margin of all", err)
	_, err = Ratio(1, 0)
	refused("ratio to nothing", err)
	_, err = Sum(math.MaxInt64, 1)
	refused("sum out of range", err)
	_, err = Each(1, 0)
	refused("no portion", err)
	_, err = HourlyRate(1, 0)
	refused("no hours", err)
	_, err = WorkCost(1, -1)
	refused("time backwards", err)
	_, err = CostOf(1, unit.Mass(0), unit.Gram)
	refused("price for nothing", err)
	_, err = JointCost(1, []unit.Mass{0, 0})
	refused("nothing to share the cost", err)
	_, err = Cost(Batch{})
	refused("no packs", err)
	b := dal()
	b.Components[0].Price.Money = -1
	_, err = Cost(b)
	refused("negative price", err)
}

// What must be bought always gives what is needed, and a nanogram less would not.
func TestAPNeededIsJustEnough(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		y := Yield{AP: unit.Mass(rapid.Int64Range(1, 1e12).Draw(t, "ap")), EP: unit.Mass(rapid.Int64Range(1, 1e12).Draw(t, "ep"))}
		need := unit.Mass(rapid.Int64Range(0, 1e6).Draw(t, "need"))
		ap, err := y.APNeeded(need)
		if err != nil {
			t.Fatal(err)
		}
		gives := func(ap unit.Mass) bool {
			return over([]int64{int64(ap), int64(y.EP)}, nil).num.Cmp(product([]int64{int64(need), int64(y.AP)})) >= 0
		}
		if !gives(ap) || (ap > 0 && gives(ap-1)) {
			t.Fatalf("%v of %+v for %v", ap, y, need)
		}
	})
}

// A price for a target never lets the cost be more than its share, and a millionth less would.
func TestPriceForKeepsTheTarget(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cost := unit.Money(rapid.Int64Range(1, 1e9).Draw(t, "cost"))
		target := unit.Share(rapid.Int64Range(1, int64(unit.Whole)).Draw(t, "target"))
		price, err := PriceFor(cost, target)
		if err != nil {
			t.Fatal(err)
		}
		whole := product([]int64{int64(cost), int64(unit.Whole)})
		if product([]int64{int64(price), int64(target)}).Cmp(whole) < 0 || product([]int64{int64(price - 1), int64(target)}).Cmp(whole) >= 0 {
			t.Fatalf("cost %v, target %v: price %v", cost, target, price)
		}
	})
}

func BenchmarkCost(b *testing.B) {
	batch := dal()
	for b.Loop() {
		if _, err := Cost(batch); err != nil {
			b.Fatal(err)
		}
	}
}
