package unit

import (
	"encoding"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"go.yaml.in/yaml/v4"
	"pgregory.net/rapid"
)

// What a cook types comes back as typed, but for the few spellings that have a plainer twin.
func TestSpelling(t *testing.T) {
	spells(t, ParseMass,
		"12 lb 4 oz", "100 lb", "130 lb", "2 lb 10 oz", "2 lb 3 1/2 oz", "1/2 oz", "7/8 oz", "1 lb", "5 lb 10 1/2 oz", "4.35 lb",
		"0.35 oz", "1.2 kg", "18 kg", "1.25 kg", "450 g", "3.72 g", "250 mg", "0.5 mg", "0.000001 mg", "0 kg",
		"9223372.036854775807 kg > 9223372.036854775807 kg", "16 oz > 1 lb", "1200 g > 1.2 kg", "0.5 kg > 500 g", "24 oz > 1 lb 8 oz")
	spells(t, ParseVolume,
		"40 gal", "60 gal", "1 gal", "3 1/2 gal > 14 qt", "19 3/4 gal", "19.98 gal", "1 qt", "2 qt", "6 qt", "4 1/2 qt", "3 qt 1 pt > 3 1/2 qt",
		"2 1/2 cups", "1 cup", "1/4 cup", "2/3 cup", "1 1/3 cups", "3 cups", "6 cups", "8 fl oz > 1 cup", "5 fl oz", "6 tbsp", "1 cup 2 tbsp",
		"2 tbsp", "1 1/2 tbsp", "4 tsp > 1 tbsp 1 tsp", "1 1/2 tsp", "1/4 tsp", "1/8 tsp", "2 3/4 tsp", "20 ft3",
		"1.5 L", "151 L", "250 ml", "2.5 ml", "1000 ml > 1 L", "3 dl > 300 ml", "0.000000000001 ml", "0 L")
	spells(t, ParseLength, "16 in", "1 ft", "6 ft", "10.5 in", "25 mm", "45 cm", "1.5 m", "0.5 mm", "1 ft 4 in > 16 in", "0 mm")
	spells(t, ParseTemp, "165 °F", "41 °F > 5 °C", "74 °C", "0 °F", "-18 °C", "-10 °F", "73.9 °C", "165.5 °F", "-1.1 °C", "0 °C", "32 °F > 0 °C")
	spells(t, ParseSpan, "1 h 20 min", "45 min", "90 s", "2 d", "36 h", "1 h", "4 min 30 s", "2 d 3 h 4 min 5 s", "2 d 4 h", "1.5 h > 1 h 30 min", "0 s")
	spells(t, ParsePower, "24 kW", "30000 Btu/h", "35000 Btu/h", "250 W", "2.5 kW", "0 W")
	spells(t, ParseShare, "12.5 %", "0.0000001 %", "150 %", "0 %")
	spells(t, ParseCount, "3", "1/2", "1/3", "2 2/3", "0.15", "0")
	spells(t, ParseMoney, "18.75", "4.00", "-0.50", "0.0125", "0.00")
	spells(t, ParseWage, "19.50/h")
	spells(t, ParseDensity, "1.03 kg/L", "8.6 lb/gal", "0 kg/L")
	spells(t, ParseAreaLoad, "16 kg/m2", "3 lb/ft2")
	spells(t, ParseEvaporation, "13.4 kg/m2h", "2.7 lb/ft2h")
	spells(t, ParsePace, "3 min/kg > 180 s/kg", "90 s/kg", "6 min/lb")
	spells(t, ParseFilm, "10 W/m2K", "2 Btu/hft2F")
	spells(t, ParseClock, "06:30", "14:05", "00:00", "24:00")
	spells(t, ParseSystem, "metric", "us")
	spells(t, ParseAmount, "5 lb", "2 1/2 cups", "2 cups, shredded", "3 each", "1/2 bunch", "12 cloves", "3 Large  Leaves > 3 large leaves",
		"2 cups , Roughly-Chopped > 2 cups, roughly-chopped", "1 jalapeño")
}

// spells checks "typed" or "typed > printed".
func spells[T encoding.TextMarshaler](t *testing.T, parse func(string) (T, error), cases ...string) {
	t.Helper()
	for _, c := range cases {
		typed, printed, differs := strings.Cut(c, " > ")
		if !differs {
			printed = typed
		}
		v, err := parse(typed)
		if err != nil {
			t.Errorf("%q: %v", typed, err)
			continue
		}
		if got, err := v.MarshalText(); err != nil || string(got) != printed {
			t.Errorf("%q comes back as %q (%v), want %q", typed, got, err, printed)
		}
	}
}

// quantity is what every type must do: T is the value, *T reads it.
type quantity[T any] interface {
	*T
	encoding.TextUnmarshaler
	encoding.TextMarshaler
}

// wholeNumbers draws from the whole range, with its ends, small numbers and round multiples of units well represented.
func wholeNumbers[T ~int64](lowest int64, units ...T) *rapid.Generator[T] {
	gens := []*rapid.Generator[T]{
		rapid.Map(rapid.Int64Range(lowest, math.MaxInt64), func(v int64) T { return T(v) }),
		rapid.Map(rapid.Int64Range(max(lowest, -1000), 1000), func(v int64) T { return T(v) }),
		rapid.Map(rapid.Int64Range(0, 1000), func(v int64) T { return T(math.MaxInt64 - v) }),
		rapid.Map(rapid.Int64Range(0, 1000), func(v int64) T { return T(lowest + v) }),
	}
	for _, u := range units {
		most := min(math.MaxInt64/int64(u), 100_000)
		gens = append(gens, rapid.Map(rapid.Int64Range(0, most*8-8), func(n int64) T { return T(scale(int64(u), n, 8)) }))
		gens = append(gens, rapid.Map(rapid.Int64Range(0, most*1000-1000), func(n int64) T { return T(scale(int64(u), n, 1000)) }))
	}
	return rapid.OneOf(gens...)
}

// realNumbers draws any finite float64 from zero up.
func realNumbers[T ~float64]() *rapid.Generator[T] {
	return rapid.OneOf(
		rapid.Map(rapid.Float64Range(0, math.MaxFloat64), func(x float64) T { return T(x) }),
		rapid.Map(rapid.Float64Range(0, 1000), func(x float64) T { return T(x) }),
		rapid.Map(rapid.IntRange(0, 100_000), func(n int) T { return T(n) / 100 }),
		rapid.SampledFrom([]T{0, math.SmallestNonzeroFloat64, math.MaxFloat64}),
	)
}

var anyAmount = rapid.Custom(func(t *rapid.T) Amount {
	words := rapid.SampledFrom([]string{"each", "bunch", "large leaves", "half-moon", "crème", "x", "e"}).Draw(t, "word")
	switch AmountKind(rapid.IntRange(1, 3).Draw(t, "kind")) {
	case AmountMass:
		return Amount{Kind: AmountMass, Mass: wholeNumbers(0, Ounce, Gram).Draw(t, "mass")}
	case AmountVolume:
		a := Amount{Kind: AmountVolume, Volume: wholeNumbers(0, Cup, Teaspoon, Millilitre).Draw(t, "volume")}
		if rapid.Bool().Draw(t, "has a form") {
			a.Measure = words
		}
		return a
	default:
		return Amount{Kind: AmountCount, Count: wholeNumbers(0, One).Draw(t, "count"), Measure: words}
	}
})

func TestTextRoundTrip(t *testing.T) {
	t.Run("mass", textRoundTrip(wholeNumbers(0, Pound, Ounce, Kilogram, Gram, Milligram)))
	t.Run("volume", textRoundTrip(wholeNumbers(0, Gallon, Quart, Cup, Tablespoon, Teaspoon, cubicFoot, FluidOunce, Litre, Millilitre)))
	t.Run("length", textRoundTrip(wholeNumbers(0, Inch, Foot, Metre, Millimetre)))
	t.Run("temp", textRoundTrip(wholeNumbers(kinds[tempKind].lowest, degreeC, degreeF)))
	t.Run("difference of temperature", textRoundTrip(wholeNumbers(0, TempDiffC(1), TempDiffF(1))))
	t.Run("span", textRoundTrip(wholeNumbers(0, Minute, Hour, Day)))
	t.Run("power", textRoundTrip(wholeNumbers(0, Watt, Kilowatt, PowerW(wattsPerBtuH))))
	t.Run("share", textRoundTrip(wholeNumbers(0, PerCent)))
	t.Run("count", textRoundTrip(wholeNumbers(0, One)))
	t.Run("money", textRoundTrip(wholeNumbers(math.MinInt64, Cent, MoneyUnit)))
	t.Run("wage", textRoundTrip(wholeNumbers(0, Wage(Cent))))
	t.Run("tariff", textRoundTrip(wholeNumbers(0, Tariff(Cent))))
	t.Run("clock", textRoundTrip(rapid.Map(rapid.Int32Range(0, 24*60), func(c int32) Clock { return Clock(c) })))
	t.Run("density", textRoundTrip(realNumbers[Density]()))
	t.Run("area load", textRoundTrip(realNumbers[AreaLoad]()))
	t.Run("evaporation", textRoundTrip(realNumbers[Evaporation]()))
	t.Run("pace", textRoundTrip(realNumbers[Pace]()))
	t.Run("film", textRoundTrip(realNumbers[Film]()))
	t.Run("amount", textRoundTrip(anyAmount))
}

func textRoundTrip[T comparable, P quantity[T]](gen *rapid.Generator[T]) func(*testing.T) {
	return func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) {
			v := gen.Draw(t, "value")
			text, err := P(&v).MarshalText()
			if err != nil {
				t.Fatal(err)
			}
			var back T
			if err := P(&back).UnmarshalText(text); err != nil || back != v {
				t.Fatalf("%s reads back as %v (%v)", text, back, err)
			}
		})
	}
}

func TestJSONRoundTrip(t *testing.T) {
	const lowest = math.MinInt64
	t.Run("mass", jsonRoundTrip(wholeNumbers(lowest, Pound, Gram)))
	t.Run("volume", jsonRoundTrip(wholeNumbers(lowest, Gallon, Teaspoon, Millilitre)))
	t.Run("length", jsonRoundTrip(wholeNumbers(lowest, Inch, Millimetre)))
	t.Run("temp", jsonRoundTrip(wholeNumbers(lowest, degreeC, degreeF)))
	t.Run("span", jsonRoundTrip(wholeNumbers(lowest, Minute)))
	t.Run("power", jsonRoundTrip(wholeNumbers(lowest, Watt)))
	t.Run("share", jsonRoundTrip(wholeNumbers(lowest, PerCent)))
	t.Run("count", jsonRoundTrip(wholeNumbers(lowest, One)))
	t.Run("money", jsonRoundTrip(wholeNumbers(lowest, Cent)))
	t.Run("wage", jsonRoundTrip(wholeNumbers(lowest, Wage(Cent))))
	t.Run("clock", jsonRoundTrip(rapid.Map(rapid.Int32Range(0, 24*60), func(c int32) Clock { return Clock(c) })))
	t.Run("density", jsonRoundTrip(realNumbers[Density]()))
	t.Run("area load", jsonRoundTrip(realNumbers[AreaLoad]()))
	t.Run("evaporation", jsonRoundTrip(realNumbers[Evaporation]()))
	t.Run("pace", jsonRoundTrip(realNumbers[Pace]()))
	t.Run("film", jsonRoundTrip(realNumbers[Film]()))
	t.Run("amount", jsonRoundTrip(anyAmount))
}

func jsonRoundTrip[T comparable](gen *rapid.Generator[T]) func(*testing.T) {
	return func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) {
			v := gen.Draw(t, "value")
			text, err := json.Marshal(v)
			if err != nil {
				t.Fatal(err)
			}
			var back T
			if err := json.Unmarshal(text, &back); err != nil || back != v {
				t.Fatalf("%s reads back as %v (%v)", text, back, err)
			}
		})
	}
}

func TestJSONIsNumbersInOneUnit(t *testing.T) {
	for _, c := range []struct {
		v    any
		want string
	}{
		{Pound, "453.59237"}, {-Gram, "-1"}, {Cup, "236.5882365"}, {Inch, "25.4"}, {TempF(165), "73.888889"}, {TempC(-18), "-18"},
		{TempC(4.4), "4.4"}, {Hour, "3600"}, {24 * Kilowatt, "24000"}, {PerCent * 25 / 2, "0.125"}, {5 * One / 2, "2.5"},
		{Density(1.03), "1.03"}, {Film(10), "10"}, {MoneyOf(12.5), `"12.50"`}, {MoneyOf(-0.0125), `"-0.0125"`}, {Wage(MoneyOf(19.5)), `"19.50"`},
		{Clock(390), `"06:30"`}, {US, `"us"`},
		{Amount{Kind: AmountMass, Mass: 450 * Gram}, `{"mass_g":450}`},
		{Amount{Kind: AmountVolume, Volume: 250 * Millilitre, Measure: "chopped"}, `{"volume_ml":250,"form":"chopped"}`},
		{Amount{Kind: AmountCount, Measure: "each"}, `{"count":0,"measure":"each"}`},
		{map[Temp]Mass{TempF(165): Gram}, `{"165 °F":1}`}, // keys are text, values numbers
	} {
		if got, err := json.Marshal(c.v); err != nil || string(got) != c.want {
			t.Errorf("%v is %s in JSON (%v), want %s", c.v, got, err, c.want)
		}
	}
	var byTemp map[Temp]Mass
	if err := json.Unmarshal([]byte(`{"165 °F":1e3}`), &byTemp); err != nil || byTemp[TempF(165)] != Kilogram {
		t.Errorf("map with a temperature as key: %v, %v", byTemp, err)
	}
	m := Gram
	if err := json.Unmarshal([]byte("null"), &m); err != nil || m != Gram {
		t.Errorf("null changed a mass to %v (%v)", m, err)
	}
}

func TestJSONRefuses(t *testing.T) {
	for _, c := range []struct {
		into any
		text string
	}{
		{new(Mass), `"1.2 L"`}, {new(Mass), "1e30"}, {new(Mass), "1e999999999"}, {new(Mass), "{}"}, {new(Money), "12.5"}, {new(Money), `"12,5"`},
		{new(Wage), "12"}, {new(Wage), `"12/h"`}, {new(Clock), `"25:00"`}, {new(Density), `"1 kg"`},
		{new(Amount), "{}"}, {new(Amount), `{"mass_g":1,"count":2,"measure":"each"}`}, {new(Amount), `{"count":2}`},
		{new(Amount), `{"count":2,"measure":"kg"}`}, {new(Amount), `{"mass_g":1,"form":"chopped"}`}, {new(Amount), `[]`},
	} {
		if err := json.Unmarshal([]byte(c.text), c.into); err == nil {
			t.Errorf("%s is read as %T", c.text, c.into)
		}
	}
	for _, v := range []any{Density(math.NaN()), Film(math.Inf(1)), Clock(2000), Amount{}} {
		if text, err := json.Marshal(v); err == nil {
			t.Errorf("%v is written as %s", v, text)
		}
	}
}

func TestMarshalTextRefusesWhatParseWould(t *testing.T) {
	for _, v := range []encoding.TextMarshaler{
		-Gram, -Cup, -Inch, TempC(-300), -Second, -Watt, -PerCent, -One, Wage(-1), Clock(-1), Clock(1441), Density(-1), Pace(math.NaN()),
		Film(math.Inf(1)), Amount{}, Amount{Kind: AmountMass, Mass: -1}, Amount{Kind: AmountCount, Count: One},
		Amount{Kind: AmountCount, Count: One, Measure: "cups"}, Amount{Kind: AmountVolume, Volume: Cup, Measure: "Chopped"},
	} {
		if text, err := v.MarshalText(); err == nil {
			t.Errorf("%v is written as %q", v, text)
		}
	}
	if got := (-196 * Ounce).String(); got != "-12 lb 4 oz" {
		t.Errorf("a mass below zero is shown as %q", got)
	}
}

// The book is YAML: quantities are plain text there, without quotes.
func TestYAMLIsText(t *testing.T) {
	type page struct {
		Load  Mass              `yaml:"load"`
		Price Money             `yaml:"price"`
		Start Clock             `yaml:"start"`
		Hold  Temp              `yaml:"hold"`
		Needs map[string]Amount `yaml:"needs"`
		Loss  map[Temp]Share    `yaml:"loss"`
	}
	const text = "load: 12 lb 4 oz\nprice: 18.75\nstart: 06:30\nhold: 165 °F\nneeds: {leek: 1/2 bunch}\nloss: {74 °C: 2 %}\n"
	want := page{196 * Ounce, MoneyOf(18.75), 390, TempF(165), map[string]Amount{"leek": {Kind: AmountCount, Count: One / 2, Measure: "bunch"}},
		map[Temp]Share{TempC(74): 2 * PerCent}}
	check := func(text []byte) {
		t.Helper()
		var got page
		if err := yaml.Unmarshal(text, &got); err != nil {
			t.Fatal(err)
		}
		if got.Load != want.Load || got.Price != want.Price || got.Start != want.Start || got.Hold != want.Hold ||
			got.Needs["leek"] != want.Needs["leek"] || got.Loss[TempC(74)] != want.Loss[TempC(74)] {
			t.Errorf("%s\nis read as %+v", text, got)
		}
	}
	check([]byte(text))
	out, err := yaml.Marshal(want)
	if err != nil {
		t.Fatal(err)
	}
	check(out)
}
