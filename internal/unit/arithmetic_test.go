package unit

import (
	"math"
	"math/big"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func TestSplit(t *testing.T) {
	for _, c := range []struct {
		whole Money
		parts []int64
		want  []Money
	}{
		{100, []int64{1, 1, 1}, []Money{34, 33, 33}},
		{-100, []int64{1, 1, 1}, []Money{-34, -33, -33}},
		{10, []int64{0, 3, 0, 7}, []Money{0, 3, 0, 7}},
		{100, []int64{1, 2, 4}, []Money{14, 29, 57}}, // 14.29, 28.57, 57.14: the middle one has the largest remainder
		{0, []int64{5}, []Money{0}},
		{math.MinInt64, []int64{1}, []Money{math.MinInt64}},
	} {
		if got, err := c.whole.Split(c.parts...); err != nil || !slices.Equal(got, c.want) {
			t.Errorf("%d split by %v is %d (%v), want %d", c.whole, c.parts, got, err, c.want)
		}
	}
	for _, parts := range [][]int64{{}, {0, 0}, {1, -1}, {math.MaxInt64, math.MaxInt64, math.MaxInt64}} {
		if got, err := Pound.Split(parts...); err == nil {
			t.Errorf("a split by %v gives %v", parts, got)
		}
	}
}

func TestSplitAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		whole := wholeNumbers[Mass](math.MinInt64, Pound).Draw(t, "whole")
		parts := rapid.SliceOfN(rapid.Int64Range(0, math.MaxInt64/8), 1, 8).Draw(t, "parts")
		shares, err := whole.Split(parts...)
		if err != nil {
			if slices.Max(parts) > 0 {
				t.Fatal(err)
			}
			return
		}
		total := new(big.Int)
		for _, p := range parts {
			total.Add(total, big.NewInt(p))
		}
		var sum Mass
		for i, s := range shares {
			sum += s
			fair := new(big.Rat).SetFrac(new(big.Int).Mul(big.NewInt(int64(whole)), big.NewInt(parts[i])), total)
			off := new(big.Rat).Sub(fair, new(big.Rat).SetInt64(int64(s)))
			if off.Abs(off).Cmp(big.NewRat(1, 1)) >= 0 {
				t.Fatalf("share %d is %d, fair is %s", i, s, fair.FloatString(3))
			}
		}
		if sum != whole {
			t.Fatalf("shares add up to %d, not %d", sum, whole)
		}
	})
}

// scale against big.Rat.
func TestScaleIsExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		any64 := rapid.OneOf(rapid.Int64(), rapid.Int64Range(-100, 100), rapid.Just(int64(math.MinInt64)))
		v, num, den := any64.Draw(t, "v"), any64.Draw(t, "num"), any64.Draw(t, "den")
		got := scale(v, num, den)
		if den == 0 {
			if got != 0 {
				t.Fatalf("over zero is %d", got)
			}
			return
		}
		x := new(big.Rat).SetFrac(new(big.Int).Mul(big.NewInt(v), big.NewInt(num)), big.NewInt(den))
		half := big.NewRat(int64(x.Sign()), 2)
		x.Add(x, half)
		want := new(big.Int).Quo(x.Num(), x.Denom()) // toward zero
		switch {
		case want.Cmp(big.NewInt(math.MaxInt64)) > 0:
			want = big.NewInt(math.MaxInt64)
		case want.Cmp(big.NewInt(math.MinInt64)) < 0:
			want = big.NewInt(math.MinInt64)
		}
		if want.Int64() != got {
			t.Fatalf("%d * %d / %d = %d, want %s", v, num, den, got, want)
		}
	})
}

func TestPrices(t *testing.T) {
	if got, want := PriceOf(MoneyOf(37.5), 50*Pound, 12*Pound+4*Ounce), MoneyOf(9.1875); got != want {
		t.Errorf("12 lb 4 oz from a 50 lb sack at 37.50 costs %v, want %v", got, want)
	}
	if got := PriceOf(MoneyOf(37.5), 0, Pound); got != 0 {
		t.Errorf("from an empty pack: %v", got)
	}
	// 3 min at 3.50 an hour = 0.175, to the cent 0.18: the costing notes.
	if got := MoneyOf(3.5).Times(3, 60); got != MoneyOf(0.175) || got.RoundCents() != MoneyOf(0.18) {
		t.Errorf("3 min at 3.50 an hour: %v, in cents %v", got, got.RoundCents())
	}
	if got := MoneyUnit.Times(1, 3); got != 333_333 {
		t.Errorf("a third of 1.00 is %v", got)
	}
	if got := PerCent * 5; got.Of(Kilogram) != 50*Gram || got.Of(-Kilogram) != -50*Gram {
		t.Errorf("5 %% of 1 kg is %v", got.Of(Kilogram))
	}
}

func TestDensity(t *testing.T) {
	// The reference notes, check 2a (derived there): 40 US gal of soup at 1.036 g/ml is 151.42 L and 156.87 kg.
	soup := (40 * Gallon).Times(1.036)
	if math.Abs(soup.Kg()-156.87) > 0.005 {
		t.Errorf("40 gal of soup weigh %v", soup)
	}
	if back := soup.Over(1.036); math.Abs(back.L()-151.42) > 0.005 {
		t.Errorf("they fill %v", back)
	}
	for _, d := range []Density{0, -1, Density(math.NaN()), Density(math.Inf(1))} {
		if got := Pound.Over(d); got != 0 {
			t.Errorf("1 lb over %v is %v", float64(d), got)
		}
	}
}

func TestClock(t *testing.T) {
	for _, c := range []struct {
		from string
		add  Span
		want string
	}{
		{"06:30", 80 * Minute, "07:50"}, {"22:00", 3 * Hour, "01:00"}, {"01:00", -3 * Hour, "22:00"}, {"24:00", 0, "00:00"},
		{"06:30", 59, "06:30"}, {"06:30", -1, "06:29"}, {"06:30", 100 * Day, "06:30"},
	} {
		if got := must(ParseClock(c.from)).Add(c.add).String(); got != c.want {
			t.Errorf("%s and %d s is %s, want %s", c.from, c.add, got, c.want)
		}
	}
	for _, d := range []Span{math.MinInt64, math.MaxInt64} {
		if got := Clock(math.MaxInt32).Add(d); got < 0 || got >= 24*60 {
			t.Errorf("a far time of day is %d", got)
		}
	}
	if got := Clock(-30).String(); got != "23:30" {
		t.Errorf("half an hour before midnight is %s", got)
	}
}

// 3.6 MJ are a kilowatt-hour.
func TestTariffOf(t *testing.T) {
	if got := Tariff(18 * Cent).Of(5 * 3.6e6); got != 90*Cent {
		t.Errorf("5 kWh at 0.18 cost %v, want 0.90", got)
	}
}
