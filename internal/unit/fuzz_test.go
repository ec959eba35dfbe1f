package unit

import "testing"

// Whatever parses must be written, and read back as the same value; nothing may panic.
func fuzzParse[T comparable, P quantity[T]](f *testing.F, parse func(string) (T, error), seeds ...string) {
	for _, s := range append(seeds, "", "1e9 kg", "1,5 kg", "½", "1/0 c", "-0", "99999999999999999999", "0.0000000000000000001 lb") {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		v, err := parse(text)
		if err != nil {
			if err.Error() == "" {
				t.Error("an error without a message")
			}
			return
		}
		out, err := P(&v).MarshalText()
		if err != nil {
			t.Fatalf("%q is read as %v, which cannot be written: %v", text, v, err)
		}
		if back, err := parse(string(out)); err != nil || back != v {
			t.Fatalf("%q is written as %q, which is read as %v (%v)", text, out, back, err)
		}
	})
}

func FuzzParseMass(f *testing.F) {
	fuzzParse(f, ParseMass, "12 lb 4 oz", "2 lb 3 1/2 oz", "1,250 g", "9223372.036854775807 kg")
}
func FuzzParseVolume(f *testing.F) {
	fuzzParse(f, ParseVolume, "2 1/2 cups", "3 qt 1 pt", "1/3 cup 1/3 tsp", "20 cu ft", "1 m³", "8 fl. oz.")
}
func FuzzParseLength(f *testing.F) { fuzzParse(f, ParseLength, "1 ft 4 in", "25 mm") }
func FuzzParseTemp(f *testing.F)   { fuzzParse(f, ParseTemp, "165 °F", "-18 C", "0.00001 C") }
func FuzzParseSpan(f *testing.F)   { fuzzParse(f, ParseSpan, "1 h 20 min", "2 days 3.5 h") }
func FuzzParsePower(f *testing.F)  { fuzzParse(f, ParsePower, "24 kW", "30,000 Btu/h") }
func FuzzParseMoney(f *testing.F)  { fuzzParse(f, ParseMoney, "$18.75", "-€4", "1,250.00 $") }
func FuzzParseTariff(f *testing.F) { fuzzParse(f, ParseTariff, "$0.18/kWh", "1.40 per therm") }
func FuzzParseWage(f *testing.F)   { fuzzParse(f, ParseWage, "$19.50/h", "4 per hour") }
func FuzzParseClock(f *testing.F)  { fuzzParse(f, ParseClock, "06:30", "24:00") }
func FuzzParseEvaporation(f *testing.F) {
	fuzzParse(f, ParseEvaporation, "13.4 kg/(m²·h)", "2.7 lb/ft2h", "1/3 kg/m2h")
}
func FuzzParseAmount(f *testing.F) {
	fuzzParse(f, ParseAmount, "5 lb", "2 cups, shredded", "1/2 bunch", "3 each", "2 T", "3 İ")
}

// JSON from elsewhere never panics, and what is read is written back the same.
func FuzzMassJSON(f *testing.F) {
	for _, s := range []string{"1", "-1.5e-3", "1e400", "null", `"1"`, "0x1", "1/2", "1e-999999"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		var m, back Mass
		if m.UnmarshalJSON([]byte(text)) != nil {
			return
		}
		out, err := m.MarshalJSON()
		if err != nil || back.UnmarshalJSON(out) != nil || back != m {
			t.Fatalf("%q is read as %v, written as %s, read as %v", text, m, out, back)
		}
	})
}
