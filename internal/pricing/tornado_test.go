package pricing

import (
	"errors"
	"slices"
	"testing"

	"kettlefrost/internal/unit"
	"pgregory.net/rapid"
)

// By hand: a pack has 300 g of beef at 8 to 14 a kilogram, base 10, 4 minutes of work at 18 to 21 an hour, base 20, and a bag for 0.10 to
// 0.20; 0.40 is fixed.
func packCost() ([]Input, Linear) {
	return []Input{
			{"bag", 100_000, 120_000, 200_000},
			{"beef a kilogram", 8_000_000, 10_000_000, 14_000_000},
			{"wage", 18_000_000, 20_000_000, 21_000_000},
		}, Linear{Fixed: u(0.40), Terms: []Term{{1, 1}, {int64(300 * unit.Gram), int64(unit.Kilogram)},
			{int64(4 * unit.Minute), int64(unit.Hour)}}}
}

func TestTornado(t *testing.T) {
	inputs, cost := packCost()
	got := must[Tornado](t)(Sensitivity(inputs, cost.Cost))
	want := []Bar{
		{Input: 1, Name: "beef a kilogram", AtLow: 4_253_333, AtHigh: 6_053_333, Width: u(1.80), Share: 857_142_857},
		{Input: 2, Name: "wage", AtLow: u(4.72), AtHigh: u(4.92), Width: u(0.20), Share: 95_238_095},
		{Input: 0, Name: "bag", AtLow: 4_833_333, AtHigh: 4_933_333, Width: u(0.10), Share: 47_619_048},
	}
	if got.Base != 4_853_333 || !slices.Equal(got.Bars, want) || got.Main != 1 || !got.Dominates {
		t.Errorf("%+v\nwant %+v", got, want)
	}
	if got.Least != u(4.10) || got.Most != u(6.20) { // 0.40+0.10+2.40+1.20 and 0.40+0.20+4.20+1.40
		t.Errorf("from %v to %v, want 4.10 to 6.20", got.Least, got.Most)
	}
}

func TestNothingMovesTheCost(t *testing.T) {
	got := must[Tornado](t)(Sensitivity([]Input{{Name: "leek", Low: 1, Base: 1, High: 1}}, Linear{Fixed: 7, Terms: []Term{{1, 1}}}.Cost))
	if got.Main != -1 || got.Dominates || got.Base != 8 {
		t.Errorf("%+v", got)
	}
}

// A cost that turns inside the range is as wide as its ends and its base say.
func TestBaseOutsideTheEnds(t *testing.T) {
	square := func(v []int64) (unit.Money, error) { return unit.Money(v[0] * v[0]), nil }
	got := must[Tornado](t)(Sensitivity([]Input{{Low: -2, Base: 0, High: 1}}, square))
	if got.Bars[0].Width != 4 {
		t.Errorf("%+v", got.Bars[0])
	}
}

func TestCostMayFail(t *testing.T) {
	bad := errors.New("no price")
	for _, at := range []int64{0, 1, 2} {
		_, err := Sensitivity([]Input{{Low: 0, Base: 1, High: 2}}, func(v []int64) (unit.Money, error) {
			if v[0] == at {
				return 0, bad
			}
			return 0, nil
		})
		if !errors.Is(err, bad) {
			t.Errorf("fails at %d: %v", at, err)
		}
	}
}

// Of a linear cost the width is rate x (high - low) exactly, the bars are sorted, and every case lies between Least and Most.
func TestTornadoIsExactOnALinearCost(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := func(what string, low, high int64) int64 { return rapid.Int64Range(low, high).Draw(t, what) }
		var inputs []Input
		cost := Linear{Fixed: unit.Money(n("fixed", -1e9, 1e9))}
		for range n("inputs", 1, 6) {
			ends := []int64{n("end", -1e6, 1e6), n("end", -1e6, 1e6), n("end", -1e6, 1e6)}
			slices.Sort(ends)
			inputs = append(inputs, Input{"", ends[0], ends[1], ends[2]})
			cost.Terms = append(cost.Terms, Term{n("rate", -1e6, 1e6), 1})
		}
		got, err := Sensitivity(inputs, cost.Cost)
		if err != nil {
			t.Fatal(err)
		}
		if !slices.IsSortedFunc(got.Bars, func(a, b Bar) int { return int(b.Width - a.Width) }) {
			t.Fatalf("not sorted: %+v", got.Bars)
		}
		sum := unit.Money(0)
		for _, b := range got.Bars {
			in := inputs[b.Input]
			width := cost.Terms[b.Input].Rate * (in.High - in.Low)
			if b.Width != unit.Money(max(width, -width)) {
				t.Fatalf("%+v is not %d wide", b, width)
			}
			sum += b.Width
		}
		if got.Most-got.Least != sum {
			t.Fatalf("from %v to %v, but the bars add up to %v", got.Least, got.Most, sum)
		}
		any := make([]int64, len(inputs))
		for i, in := range inputs {
			any[i] = n("value", in.Low, in.High)
		}
		if c, _ := cost.Cost(any); c < got.Least || c > got.Most {
			t.Fatalf("%v is not between %v and %v", c, got.Least, got.Most)
		}
	})
}

func BenchmarkSensitivity(b *testing.B) {
	inputs, cost := packCost()
	for b.Loop() {
		if _, err := Sensitivity(inputs, cost.Cost); err != nil {
			b.Fatal(err)
		}
	}
}
