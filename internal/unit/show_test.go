package unit

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

type shower interface{ Show(System) string }

func TestShow(t *testing.T) {
	for _, c := range []struct {
		v          shower
		metric, us string
	}{
		{196 * Ounce, "5.56 kg", "12 lb 4 oz"},
		{130 * Pound, "59 kg", "130 lb"},
		{450 * Gram, "450 g", "15 3/4 oz"}, // 15.873 oz
		{Mass(3.2 * 1e9), "3.2 g", "3.2 g"},
		{Gram / 4, "0.25 g", "0.25 g"},
		{50 * Milligram, "50 mg", "50 mg"},
		{99_960 * Microgram, "100 mg", "100 mg"},
		{999_600 * Milligram, "1 kg", "2 lb 3 1/2 oz"}, // 35.26 oz
		{100 * Gram, "100 g", "3 1/2 oz"},              // 3.527 oz, 0.8 %
		{96 * Gram, "96 g", "96 g"},                    // 3.386 oz: 3 1/2 is 3.4 % off
		{160 * Gram, "160 g", "160 g"},                 // 5.644 oz: 5 3/4 is 1.9 % off
		{1234 * Kilogram, "1234 kg", "2721 lb"},        // 2720.5 lb
		{-196 * Ounce, "-5.56 kg", "-12 lb 4 oz"},
		{Mass(0), "0 kg", "0 kg"},

		{40 * Gallon, "151 L", "40 gal"},
		{7 * Gallon / 2, "13.2 L", "3 gal 2 qt"},
		{7*Gallon/2 + 2*Cup, "13.7 L", "3 gal 2 qt 2 cups"},
		{5 * Cup / 2, "591 ml", "2 1/2 cups"},
		{3 * Teaspoon / 2, "7.39 ml", "1 1/2 tsp"},
		{350 * Millilitre, "350 ml", "1 1/2 cups"}, // 1.479 cups, 1.4 %
		{300 * Millilitre, "300 ml", "1 1/4 cups"}, // the reference notes: 1 1/4 cups is -1.4 %
		{9 * Tablespoon, "133 ml", "9 tbsp"},
		{100 * Millilitre / 1000, "0.1 ml", "0.1 ml"},
		{999_800 * Millilitre / 1000, "1 L", "1 qt 1/4 cup"}, // 4.226 cups
		{Volume(0), "0 L", "0 L"},

		{16 * Inch, "40.6 cm", "16 in"},
		{25 * Millimetre, "25 mm", "1 in"}, // 0.984 in, 1.6 %
		{2 * Metre, "2 m", "6 ft 7 in"},    // 78.74 in
		{Length(0), "0 mm", "0 mm"},
		{8 * Millimetre / 10, "0.8 mm", "0.8 mm"},

		{TempF(165), "74 °C", "165 °F"},
		{TempC(-18), "-18 °C", "0 °F"},
		{TempC(-0.3), "0 °C", "31 °F"},
		{30 * Second, "30 s", "30 s"},
		{90 * Second, "90 s", "90 s"},
		{270 * Second, "4 min 30 s", "4 min 30 s"},
		{45 * Minute, "45 min", "45 min"},
		{45*Minute + 29, "45 min", "45 min"},
		{80 * Minute, "1 h 20 min", "1 h 20 min"},
		{Hour - 20, "1 h", "1 h"},
		{52 * Hour, "2 d 4 h", "2 d 4 h"},
		{Day - 10, "1 d", "1 d"},
		{25 * Hour, "1 d 1 h", "1 d 1 h"},
		{-80 * Minute, "-1 h 20 min", "-1 h 20 min"},
		{24 * Kilowatt, "24 kW", "81,891 Btu/h"},
		{250 * Watt, "250 W", "853 Btu/h"},
		{25 * PerCent / 2, "12.5 %", "12.5 %"},
		{5 * One / 2, "2 1/2", "2 1/2"},
		{Density(1.036), "1.04 kg/L", "8.65 lb/gal"},
		{AreaLoad(16), "16 kg/m²", "3.28 lb/ft²"},
		{Evaporation(13.4), "13.4 kg/m²·h", "2.74 lb/ft²·h"},
		{Pace(180), "3 min/kg", "81.6 s/lb"},
		{Pace(600), "10 min/kg", "4.54 min/lb"},
		{Area(1), "1.00 m²", "10.8 sq ft"},
		{Film(10), "10 W/m²·K", "1.76 Btu/h·ft²·°F"},
		{Amount{Kind: AmountVolume, Volume: 2 * Cup, Measure: "chopped"}, "473 ml, chopped", "2 cups, chopped"},
		{Amount{Kind: AmountMass, Mass: Pound}, "454 g", "1 lb"},
		{Amount{Kind: AmountCount, Count: One / 2, Measure: "bunch"}, "1/2 bunch", "1/2 bunch"},
	} {
		if got := c.v.Show(Metric); got != c.metric {
			t.Errorf("%v in metric is %q, want %q", c.v, got, c.metric)
		}
		if got := c.v.Show(US); got != c.us {
			t.Errorf("%v in US units is %q, want %q", c.v, got, c.us)
		}
	}
}

// What is shown can be read, and is as near as the docstrings say.
func TestShowIsNear(t *testing.T) {
	const metric, mass, volume, length = 0.005, 0.013, 1.0 / 32, 0.02
	t.Run("mass", showIsNear(ParseMass, rapid.Map(rapid.Int64Range(int64(Milligram), int64(5000*Kilogram)), toMass), metric, mass))
	t.Run("small mass", showIsNear(ParseMass, rapid.Map(rapid.Int64Range(int64(Milligram), int64(300*Gram)), toMass), metric, mass))
	t.Run("volume", showIsNear(ParseVolume, rapid.Map(rapid.Int64Range(int64(Millilitre/10), int64(5000*Litre)), toVolume), metric, volume))
	t.Run("small volume", showIsNear(ParseVolume, rapid.Map(rapid.Int64Range(int64(Millilitre/10), int64(5*Litre)), toVolume), metric, volume))
	t.Run("length", showIsNear(ParseLength, rapid.Map(rapid.Int64Range(int64(Millimetre/10), int64(20*Metre)), toLength), metric, length))
	t.Run("span", showIsNear(ParseSpan, rapid.Map(rapid.Int64Range(1, 10*int64(Day)), toSpan), 0.05, 0.05))
	t.Run("power", showIsNear(ParsePower, rapid.Map(rapid.Int64Range(int64(Watt), int64(200*Kilowatt)), toPower), metric, metric))
	t.Run("share", showIsNear(ParseShare, rapid.Map(rapid.Int64Range(int64(PerCent/1000), int64(2*Whole)), toShare), metric, metric))
}

func toMass(v int64) Mass     { return Mass(v) }
func toVolume(v int64) Volume { return Volume(v) }
func toLength(v int64) Length { return Length(v) }
func toSpan(v int64) Span     { return Span(v) }
func toPower(v int64) Power   { return Power(v) }
func toShare(v int64) Share   { return Share(v) }

func showIsNear[T interface {
	~int64
	shower
}](parse func(string) (T, error), gen *rapid.Generator[T], metric, us float64) func(*testing.T) {
	return func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) {
			v := gen.Draw(t, "value")
			for s, bound := range map[System]float64{Metric: metric, US: us} {
				shown := v.Show(s)
				back, err := parse(shown)
				if err != nil {
					t.Fatalf("%v is shown as %q: %v", v, shown, err)
				}
				if off := math.Abs(float64(back)/float64(v) - 1); off > bound*(1+1e-9) {
					t.Fatalf("%v is shown as %q, %.2f %% off", v, shown, 100*off)
				}
			}
		})
	}
}

func TestShowHoldsAtTheEnds(t *testing.T) {
	for _, v := range []int64{math.MinInt64, math.MaxInt64} {
		for _, s := range []System{Metric, US} {
			for _, q := range []shower{Mass(v), Volume(v), Length(v), Temp(v), Span(v), Power(v), Share(v), Count(v)} {
				if q.Show(s) == "" {
					t.Errorf("%T(%d) is shown as nothing", q, v)
				}
			}
		}
	}
}

func TestMoneyShow(t *testing.T) {
	for _, c := range []struct {
		m    Money
		want string
	}{
		{MoneyOf(12.5), "$12.50"}, {MoneyOf(0.175), "$0.18"}, {MoneyOf(-0.175), "-$0.18"}, {MoneyOf(0.1749), "$0.17"}, {MoneyOf(-0.004), "$0.00"},
		{MoneyOf(1250), "$1,250.00"}, {MoneyOf(1234567.891), "$1,234,567.89"}, {0, "$0.00"}, {math.MinInt64, "-$9,223,372,036,854.77"},
	} {
		if got := c.m.Show("$"); got != c.want {
			t.Errorf("%v is shown as %q, want %q", c.m, got, c.want)
		}
	}
	if got := Wage(MoneyOf(19.5)).Show("€"); got != "€19.50/h" {
		t.Errorf("wage is shown as %q", got)
	}
}

func TestMassFine(t *testing.T) {
	for m, want := range map[Mass]string{Pound: "453.6 g", -3*Gram - 440*Milligram: "-3.4 g", 0: "0.0 g", 2 * Kilogram: "2000.0 g"} {
		if got := m.Fine(); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}
