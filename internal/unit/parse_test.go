package unit

import (
	"encoding"
	"errors"
	"math"
	"strings"
	"testing"
)

// The definitions, as exact decimals. US volumes, the pound and the ounce: NIST Handbook 44, appendix C (the volumes follow there
// from 1 gal = 231 in³ and were read in the project's reference notes; pound and ounce are marked there as from memory).
// Inch: NIST SP 811, appendix B.8. Cubic foot: 0.3048 m cubed, derived here.
func TestDefinitions(t *testing.T) {
	for _, c := range []struct{ us, metric string }{
		{"1 gal", "3785.411784 ml"},
		{"1 qt", "946.352946 ml"},
		{"1 pt", "473.176473 ml"},
		{"1 cup", "236.5882365 ml"},
		{"1 fl oz", "29.5735295625 ml"},
		{"1 tbsp", "14.78676478125 ml"},
		{"1 tsp", "4.92892159375 ml"},
		{"1 gal", "231 in3"},
		{"1 ft3", "28.316846592 L"},
		{"1 ft3", "1728 cu in"},
		{"3 tsp", "1 tbsp"}, {"2 tbsp", "1 fl oz"}, {"16 tbsp", "1 cup"}, {"2 cups", "1 pt"}, {"2 pt", "1 qt"}, {"4 qt", "1 gal"},
		{"1 m3", "1000 L"}, {"3 dl", "300 ml"}, {"2 cl", "20 ml"},
	} {
		same(t, ParseVolume, c.us, c.metric)
	}
	same(t, ParseMass, "1 lb", "453.59237 g")
	same(t, ParseMass, "1 oz", "28.349523125 g")
	same(t, ParseMass, "1 lb", "16 oz")
	same(t, ParseMass, "1 mg", "1000 µg")
	same(t, ParseLength, "1 in", "25.4 mm")
	same(t, ParseLength, "1 ft", "0.3048 m")
	same(t, ParseTemp, "32 °F", "0 °C")
	same(t, ParseTemp, "212 °F", "100 °C")
	same(t, ParseTemp, "-40 °F", "-40 °C")
	same(t, ParseTemp, "-459.67 °F", "-273.15 °C") // absolute zero: NIST SP 811, appendix B.8
	same(t, ParseSpan, "1.5 h", "90 min")
	same(t, ParseSpan, "2 days", "48 h")
}

// The worked examples of the project's reference notes: one from a military recipe card, one from a naval one (both read there).
func TestWorkedExamples(t *testing.T) {
	same(t, ParseMass, "4.35 lb", "4 lb 5.60 oz") // 1.25 lb x 3.48
	want := must(ParseMass("4.35 lb"))
	if got := Mass(scale(int64(must(ParseMass("1.25 lb"))), 348, 100)); got != want {
		t.Errorf("1.25 lb x 3.48 is %v, want %v", got, want)
	}
	quarters, _ := mulDivRound(uint64(want), 4, uint64(Ounce))
	if quarters != 4*64+22 { // 4 lb 5 1/2 oz on the card's scale of quarter ounces
		t.Errorf("4.35 lb is %d quarter ounces, want 278", quarters)
	}

	got := Volume(scale(int64(6*Gallon), 333, 100))
	if got != must(ParseVolume("19.98 gal")) {
		t.Errorf("6 gal x 3.33 is %v, want 19.98 gal", got)
	}
	card := must(ParseVolume("19 gal 3 qt 1 pt 1 cup 10 tbsp 2 3/4 tsp"))
	if off := card - got; off.L() > 0.00125 || off.L() < -0.00125 { // the card rounds to 1/4 tsp: half of that is 0.62 ml
		t.Errorf("6 gal x 3.33: card and product differ by %v", off)
	}
	same(t, ParseMass, "5.22 lb", "5 lb 3.52 oz") // 2 lb x 2.61
}

// Powers and rates: 1 Btu (international table) = 1055.05585262 J, NIST SP 811 appendix B.8, which also prints the factors
// 1 Btu/h = 0.2930711 W, 1 lb/gal = 119.8264 kg/m³, 1 lb/ft² = 4.882428 kg/m², 1 Btu/(h·ft²·°F) = 5.678263 W/(m²·K). From memory.
func TestHandbookFactors(t *testing.T) {
	same(t, ParsePower, "360000 Btu/h", "105505.585262 W") // exact, from the definition
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"Btu/h", must(ParsePower("1000000 Btu/h")).W() / 1e6, 0.2930711},
		{"lb/gal", float64(must(ParseDensity("1 lb/gal"))), 0.1198264},
		{"lb/ft2", float64(must(ParseAreaLoad("1 lb/ft2"))), 4.882428},
		{"Btu/hft2F", float64(must(ParseFilm("1 Btu/h·ft²·°F"))), 5.678263},
		{"lb/ft2h", float64(must(ParseEvaporation("1 lb/ft²·h"))), 4.882428},
		{"min/lb", float64(must(ParsePace("1 min/lb"))), 60 / 0.45359237},
	} {
		if math.Abs(c.got/c.want-1) > 5e-7 /* seven figures are printed */ {
			t.Errorf("1 %s is %v, want %v", c.name, c.got, c.want)
		}
	}
}

func TestParseReadsWhatCooksWrite(t *testing.T) {
	for _, c := range []struct {
		text string
		want Mass
	}{
		{"12 lb 4 oz", 196 * Ounce},
		{"12lb4oz", 196 * Ounce},
		{" 12 Lbs.  4 OZ ", 196 * Ounce},
		{"12 pounds 4 ounces", 196 * Ounce},
		{"1.2 kg", 1200 * Gram},
		{"1 kg 200 g", 1200 * Gram},
		{".5 kg", 500 * Gram},
		{"450 g", 450 * Gram},
		{"250 mg", 250 * Milligram},
		{"1,250 g", 1250 * Gram},
		{"1,250,000.5 mg", 1_250_000_500 * Microgram},
		{"2 lb 3 1/2 oz", 1_006_408_070_938}, // 35.5 x 28,349,523,125 ng = 1,006,408,070,937.5
		{"½ lb ½ oz", 240_970_946_563},       // 8.5 x 28,349,523,125 ng = 240,970,946,562.5
		{"1/3 lb 1/2 oz", 165_372_218_229},   // 151,197,456,666.67 + 14,174,761,562.5: rounded once, not part by part
		{"1½ lb", 24 * Ounce},
		{"1⁄2 lb", 8 * Ounce},
		{"3/2 lb", 24 * Ounce},
		{"0 g", 0},
		{"1.000000000000000000000000 kg", Kilogram},
	} {
		if got, err := ParseMass(c.text); err != nil || got != c.want {
			t.Errorf("ParseMass(%q) = %d, %v, want %d ng", c.text, got, err, c.want)
		}
	}
	for _, c := range [][2]string{
		{"2 1/2 cups", "2.5 cup"}, {"1/2 c", "½ cup"}, {"1 gal 2 cups", "18 cups"}, {"3 qt 1 pt", "7 pints"},
		{"8 fl oz", "1 cup"}, {"8 fl. oz.", "8 fluid ounces"}, {"2 Tbsp", "1 fl oz"}, {"⅔ cup", "2/3 cup"}, {"1⅓ cups", "1 1/3 cups"},
		{"¼ tsp", "1/4 tsp"}, {"¾ tsp", "3/4 tsp"}, {"⅛ tsp", "1/8 tsp"}, {"⅜ tsp", "3/8 tsp"}, {"⅝ tsp", "5/8 tsp"}, {"⅞ tsp", "7/8 tsp"},
		{"20 cu ft", "20 ft3"}, {"20 ft³", "20 cubic feet"}, {"1 m3", "1 m³"}, {"1.5 L", "1500 ml"}, {"1.5 l", "15 dl"},
		{"1/3 cup 1/3 tsp", "16 1/3 tsp"},
	} {
		same(t, ParseVolume, c[0], c[1])
	}
	for _, c := range [][2]string{
		{"165 °F", "165F"}, {"165 degrees F", "165 º F"}, {"-18 C", "−18 °c"}, {"74 °C", "165.2 °F"}, {"-0 C", "32 °F"},
	} {
		same(t, ParseTemp, c[0], c[1])
	}
	same(t, ParseLength, "1 ft 4 in", "16 inches")
	same(t, ParseLength, "1 m 20 cm", "1200 mm")
	same(t, ParseSpan, "1 h 20 min", "80 minutes")
	same(t, ParseSpan, "2 d 4 h", "52 hrs")
	same(t, ParsePower, "30,000 Btu/h", "30000 BTU/h")
	same(t, ParsePower, "24 kw", "24000 watts")
	same(t, ParseShare, "12.5 %", "12½%")
	same(t, ParseShare, "1/4 %", "0.25 percent")
	same(t, ParseMoney, "$1,250.00", "1250")
	same(t, ParseMoney, "€4", "4.00 €")
	same(t, ParseMoney, "-$4.5", "$-4.50")
	same(t, ParseWage, "$19.50/h", "19.5 per hour")
	same(t, ParseTariff, "$0.18/kWh", "0.18 per kWh")
	same(t, ParseTariff, "$2.930711/therm", "$0.10/kWh") // a therm is 29.30711 kWh: NIST Handbook 44, app. C
	same(t, ParseDensity, "1.03 kg/L", "1.03 g/ml")
	same(t, ParseAreaLoad, "1.6 g/cm2", "16 kg/m²")
	same(t, ParseEvaporation, "13.4 kg/m2h", "13.4 kg/(m² · h)")
	same(t, ParsePace, "3 min/kg", "180 s/kg")
	same(t, ParseFilm, "10 W/m2K", "10 W/m²·K")
	same(t, ParseClock, "6:30", "06:30")
	same(t, ParseCount, "2 1/2", "2.5")
	if got := must(ParseClock("14:05")); got != 14*60+5 {
		t.Errorf("14:05 is %d min, want 845", got)
	}
	if got := must(ParseDensity("1.03 kg/L")); got != 1.03 {
		t.Errorf("1.03 kg/L is %v", float64(got))
	}
}

func TestParseRefuses(t *testing.T) {
	for _, c := range [][2]string{
		{"", "is empty"},
		{"   ", "is empty"},
		{"12", "has no unit (kg, g, mg, lb or oz)"},
		{"12 cups", "is a volume"},
		{"12 °C", "is a temperature"},
		{"12 stone", `has the unit "stone", which is not known here`},
		{"lb", "does not start with a number"},
		{"NaN kg", "does not start with a number"},
		{"Inf kg", "does not start with a number"},
		{"1e309 kg", "has a power of ten"},
		{"1E-3 kg", "has a power of ten"},
		{"0x10 kg", "is not a decimal number"},
		{"+5 kg", "starts with a plus sign"},
		{"-5 kg", "is below zero"},
		{"−5 kg", "is below zero"},
		{"1,5 kg", "has a comma that could mean a decimal point"},
		{"0,250 kg", "has a comma that could mean a decimal point"},
		{"1,25,000 g", "has a comma that could mean a decimal point"},
		{"12345,678 g", "has a comma that could mean a decimal point"},
		{"1 lb 200 g", "mixes metric and US units"},
		{"1/3 oz 1 g", "mixes metric and US units"},
		{"1 lb 2 cups", "mixes a mass and a volume"},
		{"4 oz 1 lb", "does not go from the bigger unit to the smaller"},
		{"1 lb 2 lb", "does not go from the bigger unit to the smaller"},
		{"1 lb 4", "has a number without a unit at its end"},
		{"1 lb, 4 oz", `cannot be read from ", 4 oz" on`},
		{"1 lb + 4 oz", `cannot be read from "+ 4 oz" on`},
		{"5 kg!", `has the unit "kg!"`},
		{"5. kg", "where it says nothing"},
		{"1-2 kg", "has a dash behind a number"},
		{"1 3/2 lb", "not below one"},
		{"1/0 kg", "divides by zero"},
		{"1.5/2 kg", "divides a decimal number"},
		{"2 T", "which may be a tablespoon, a teaspoon or a tonne"},
		{"2 Mg", "which is a tonne"},
		{"9300 t", "which may be"},
		{"10000000 kg", "is bigger than this program counts"},
		{"99999999999999999999999 kg", "is bigger than this program counts"},
		{"0.0000000000001 kg", "is smaller than this program counts"},
		{"1.00000000000000000001 kg", "has more digits than this program counts"},
		{"1/9999999999 kg", "has more digits than this program counts"},
		{strings.Repeat("1", 500) + " kg", "is too long to be read"},
	} {
		refuse(t, ParseMass, c[0], c[1])
	}
	refuse(t, ParseVolume, "8 oz", "is a mass")
	refuse(t, ParseVolume, "2 t", "write tbsp, tsp or kg")
	refuse(t, ParseTemp, "165", "has no unit (°C or °F)")
	refuse(t, ParseTemp, "-273.16 °C", "is below absolute zero")
	refuse(t, ParseTemp, "-459.68 F", "is below absolute zero")
	refuse(t, ParseTemp, "70 °F 2 °F", "has more than one number")
	refuse(t, ParseSpan, "5 m", "is a length")
	refuse(t, ParseShare, "1/4", "has no unit (%)")
	refuse(t, ParseShare, "-5 %", "is below zero")
	refuse(t, ParsePower, "5 kW 200 W", "has more than one number")
	refuse(t, ParseCount, "3 each", `has "each" at its end`)
	refuse(t, ParseDensity, "-1 kg/L", "is below zero")
	refuse(t, ParseDensity, strings.Repeat("9", 320)+" kg/L", "is bigger than this program counts")
	refuse(t, ParseDensity, "0."+strings.Repeat("0", 340)+"1 kg/L", "is smaller than this program counts")
	refuse(t, ParsePace, "3 min", "is a time span")
	refuse(t, ParseMoney, "18,75", "has a comma that could mean a decimal point")
	refuse(t, ParseMoney, "18.75 x", `has "x" at its end`)
	refuse(t, ParseMoney, "$ $5", "does not start with a number")
	refuse(t, ParseMoney, "$1/2", "is a fraction")
	refuse(t, ParseMoney, "+5", "plus sign")
	refuse(t, ParseMoney, "9300000000000", "is bigger than this program counts")
	refuse(t, ParseWage, "19.50", "does not say per what")
	refuse(t, ParseWage, "-19.50/h", "is below zero")
	refuse(t, ParseTariff, "$0.18", "does not say per what")
	refuse(t, ParseTariff, "$0.18/h", `has "/h" at its end`)
	refuse(t, ParseTariff, "-$0.18/kWh", "is below zero")
	refuse(t, ParseClock, "24:01", "is not in a day")
	refuse(t, ParseClock, "6.30", "is not hours:minutes")
	refuse(t, ParseClock, "6:30 pm", "is not hours:minutes")
	refuse(t, ParseClock, "", "is empty")
	refuse(t, ParseSystem, "imperial", "is no system of units")
}

func TestParseErrorReadsAsOneSentence(t *testing.T) {
	_, err := ParseMass("12 cups")
	const want = `"12 cups" is a volume; a mass is meant, e.g. 1.2 kg or 2 lb 10 oz`
	if err == nil || err.Error() != want {
		t.Errorf("got  %v\nwant %s", err, want)
	}
	_, err = ParseMass(strings.Repeat("x", 500))
	if len(err.Error()) > 200 {
		t.Errorf("the message repeats a long text: %s", err)
	}
}

func TestUnmarshalLeavesTheValueAloneOnError(t *testing.T) {
	m := Pound
	if err := m.UnmarshalText([]byte("nonsense")); err == nil || m != Pound {
		t.Errorf("got %v, %v", m, err)
	}
	var _ encoding.TextUnmarshaler = &m
}

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// same checks that two texts are read as the same quantity.
func same[T comparable](t *testing.T, parse func(string) (T, error), a, b string) {
	t.Helper()
	x, errX := parse(a)
	y, errY := parse(b)
	if errX != nil || errY != nil || x != y {
		t.Errorf("%q is %v (%v), %q is %v (%v); want them equal", a, x, errX, b, y, errY)
	}
}

// refuse checks that text is refused with a *ParseError that names the problem.
func refuse[T any](t *testing.T, parse func(string) (T, error), text, problem string) {
	t.Helper()
	v, err := parse(text)
	var pe *ParseError
	if !errors.As(err, &pe) {
		t.Errorf("%q is read as %v, error %v; want it refused", text, v, err)
		return
	}
	if !strings.Contains(pe.Problem, problem) {
		t.Errorf("%q: problem %q, want %q", text, pe.Problem, problem)
	}
	if pe.Text == "" && strings.TrimSpace(text) != "" || pe.Want == "" || pe.Example == "" {
		t.Errorf("%q: incomplete error %+v", text, *pe)
	}
}
