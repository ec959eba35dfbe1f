package coldwatch_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/coldwatch"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/thermometers"
	"kettlefrost/internal/unit"
)

const (
	minute = 60 * 1000
	hour   = 60 * minute
	day    = 24 * hour
)

var began record.Instant = 1_790_000_000_000

func at(hours float64) record.Instant { return began + record.Instant(hours*hour) }

// chest is a freezer whose limit is 5 °F, watched by a probe that is right to 0.5 °C.
func chest() coldwatch.Watch {
	return coldwatch.Watch{Probe: "chest-air", Place: "chest", PlaceName: "chest", Kind: coldstore.Frozen, LimitC: -15, Trust: func(record.Instant) thermometers.Trust {
		return thermometers.Trust{AccuracyC: 0.5, StatedC: 0.5}
	}}
}

// read is a reading of so many hours after the beginning.
func read(hours, tempC float64) coldwatch.Reading {
	return coldwatch.Reading{At: at(hours), TempC: tempC, Valued: true}
}

// hourly are readings each hour, from an hour on.
func hourly(from int, temps ...float64) (all []coldwatch.Reading) {
	for i, c := range temps {
		all = append(all, read(float64(from+i), c))
	}
	return all
}

func times(n int, c float64) []float64 { return slices.Repeat([]float64{c}, n) }

func look(t testing.TB, w coldwatch.Watch, readings []coldwatch.Reading, until float64) coldwatch.Seen {
	t.Helper()
	s, err := w.Look(readings, began, at(until))
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// say is an entry of so many hours after the beginning.
type say struct {
	hours float64
	body  record.Body
}

func told(t testing.TB, says ...say) *lots.State {
	t.Helper()
	s := &lots.State{}
	for i, x := range says {
		e, err := record.Say(record.ID{byte(i + 1), byte(i >> 8)}, at(x.hours), "ada", "tablet", x.body)
		if err != nil {
			t.Fatal(err)
		}
		e.Seq = uint64(i + 1)
		s.Take(e)
	}
	return s
}

func nos(t testing.TB, text string) record.Numbers {
	t.Helper()
	n, err := record.ParseNumbers(text)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

func packed(t testing.TB, lot record.Lot, numbers string, to record.Place) record.Packed {
	n := nos(t, numbers)
	return record.Packed{Run: "r", Pack: "soup", Lot: lot, Numbers: n, Label: unit.Kilogram, Mass: unit.Mass(n.Count()) * unit.Kilogram, From: []record.Part{{Lot: "B", Mass: unit.Kilogram}}, BestBefore: "2027-01-01", Place: to}
}

func frozen(*lots.Lot) coldstore.Kind { return coldstore.Frozen }

func keeps(days float64) func(*lots.Lot) coldwatch.Life {
	return func(*lots.Lot) coldwatch.Life { return coldwatch.Life{Days: days, By: "test"} }
}

// The stays of the worked example of time-temperature tolerance: 90 days at -18 °C, Q10 = 3: 2 days at -10 °C use 0.05352 of the life and half a
// day at -6 °C 0.02076, by hand: 2/(90·3^-0.8) and 0.5/(90·3^-1.2). With Q10 = 2 and 4: 2/(90·2^-0.8) + 0.5/(90·2^-1.2) = 0.03869 + 0.01276 and
// 2/(90·4^-0.8) + 0.5/(90·4^-1.2) = 0.06736 + 0.02932.
func TestAWarmFreezerUsesSoMuchOfTheLife(t *testing.T) {
	readings := hourly(0, slices.Concat(times(1, -18), times(48, -10), times(11, -6), times(5, -18))...)
	seen := look(t, chest(), readings, 64)
	if len(seen.Stretches) != 1 {
		t.Fatalf("stretches %+v", seen.Stretches)
	}
	x := seen.Stretches[0]
	if x.Kind != coldwatch.TooWarm || x.From != at(0) || x.Until != at(60) || !x.Ended || x.PeakC != -6 || x.UnknownMs != 0 || x.WarmMs != 0 || !x.Asks() {
		t.Errorf("the stretch is %+v", x)
	}
	state := told(t, say{-24, packed(t, "P-1", "1-40", "chest/basket")}, say{-20, packed(t, "P-2", "1-5", "upright")})
	got, err := chest().Exposures(state, x, frozen, keeps(90))
	if err != nil || len(got) != 1 || got[0].Lot.ID != "P-1" || got[0].Ms != 60*hour || !got[0].Sure {
		t.Fatalf("there lay %+v (%v)", got, err)
	}
	for name, v := range map[string]struct{ got, want float64 }{
		"the share": {got[0].Used.Share, 0.05352 + 0.02076}, "with Q10 = 2": {got[0].Used.Low, 0.03869 + 0.01276}, "with Q10 = 4": {got[0].Used.High, 0.06736 + 0.02932},
	} {
		if math.Abs(v.got-v.want) > 2e-5 {
			t.Errorf("%s is %.5f, want %.5f", name, v.got, v.want)
		}
	}
	if got[0].Advice != coldwatch.Note {
		t.Errorf("it stayed frozen, and the advice is %s", got[0].Advice)
	}
}

func TestStretches(t *testing.T) {
	odd := func(hours, c float64) coldwatch.Reading {
		return coldwatch.Reading{At: at(hours), TempC: c, Valued: true, Odd: true}
	}
	cold := times(6, -18)
	for name, x := range map[string]struct {
		readings []coldwatch.Reading
		until    float64
		want     string // kind from-until hours, peak, unknown hours, a star when it goes on
	}{
		"always cold":                           {hourly(0, times(7, -18)...), 6, ""},
		"at the limit":                          {hourly(0, times(7, -15)...), 6, ""},
		"an hour of warmth":                     {hourly(0, -18, -18, -8, -18, -18), 4, "too-warm 1-3 peak -8 unknown 0"},
		"to and fro at the limit":               {[]coldwatch.Reading{read(0, -18), read(0.25, -14), read(0.5, -16), read(0.75, -14), read(1, -16), read(1.5, -18)}, 1.5, "too-warm 0-1 peak -14 unknown 0"},
		"warm twice":                            {hourly(0, -18, -8, -18, -18, -9, -18), 5, "too-warm 0-2 peak -8 unknown 0, too-warm 3-5 peak -9 unknown 0"},
		"still warm":                            {hourly(0, -18, -18, -8), 2.5, "too-warm 1-2.5 peak -8 unknown 0*"},
		"still warm, and silent":                {hourly(0, -18, -18, -8), 12, "too-warm 1-12 peak -8 unknown 10*"},
		"silent in between":                     {slices.Concat(hourly(0, cold...), hourly(12, cold...)), 17, "not-known 5-12 peak 0 unknown 7"},
		"silent at the end":                     {hourly(0, cold...), 12, "not-known 5-12 peak 0 unknown 7*"},
		"silent at the beginning":               {hourly(12, cold...), 17, "not-known 0-12 peak 0 unknown 12"},
		"never a reading":                       {nil, 12, "not-known 0-12 peak 0 unknown 12*"},
		"warm after a silence":                  {slices.Concat(hourly(0, cold...), hourly(12, -3, -18, -18)), 14, "too-warm 5-13 peak -3 unknown 7"},
		"silent and then cold again":            {slices.Concat(hourly(0, -18, -18, -3), hourly(12, cold...)), 17, "too-warm 1-12 peak -3 unknown 10"},
		"one warm reading in a long silence":    {[]coldwatch.Reading{read(0, -18), read(1, -18), read(2, -18), read(12, -2), read(24, -18)}, 24, "too-warm 2-24 peak -2 unknown 22"},
		"out of order, and one twice":           {[]coldwatch.Reading{read(2, -8), read(0, -18), read(1, -18), read(3, -18), read(2, -18)}, 3, "too-warm 1-3 peak -8 unknown 0"},
		"text instead of a number is no number": {append(hourly(0, times(4, -18)...), coldwatch.Reading{At: at(2), TempC: 0}), 3, ""},
		"a broken probe":                        {append(hourly(0, times(6, -18)...), hourly(6, times(12, 850)...)...), 17, "not-known 5-17 peak 0 unknown 12*"},
		"after now":                             {append(hourly(0, times(4, -18)...), read(99, 20)), 3, ""},
		"odd and cold proves nothing":           {append(hourly(0, -18, -18, -18), odd(4, -18), odd(5, -18), odd(6, -18), odd(7, -18), odd(8, -18)), 8, "not-known 2-8 peak 0 unknown 6*"},
		"odd and warm counts":                   {append(hourly(0, -18, -18, -18, -18), odd(2.5, 3)), 3, "too-warm 2-3 peak 3 unknown 0"},
	} {
		var got string
		for _, s := range look(t, chest(), x.readings, x.until).Stretches {
			if got != "" {
				got += ", "
			}
			got += fmt.Sprintf("%s %g-%g peak %g unknown %g", s.Kind, float64(s.From-began)/hour, float64(s.Until-began)/hour, s.PeakC, float64(s.UnknownMs)/hour)
			if !s.Ended {
				got += "*"
			}
		}
		if got != x.want {
			t.Errorf("%s: %q, want %q", name, got, x.want)
		}
	}
}

// A probe that read 6 °C too cold, as a later check found: the readings before it are raised by what it hid beyond its half degree.
func TestAProbeThatWasWrongHidWarmth(t *testing.T) {
	w := chest()
	w.Trust = func(record.Instant) thermometers.Trust {
		return thermometers.Trust{AccuracyC: 6, StatedC: 0.5, Doubt: true}
	}
	seen := look(t, w, hourly(0, -18, -18, -18), 2)
	if len(seen.Stretches) != 1 || seen.Stretches[0].PeakC != -12.5 || seen.Stretches[0].MayC != -12 || !seen.Stretches[0].Accuracy.Doubt {
		t.Errorf("%+v", seen.Stretches)
	}
	w.Trust = func(record.Instant) thermometers.Trust { return thermometers.Trust{Unusable: true} }
	if seen := look(t, w, hourly(0, -18, -18, -18), 2); len(seen.Stretches) != 1 || seen.Stretches[0].Kind != coldwatch.NotKnown || seen.Last != nil {
		t.Errorf("withdrawn: %+v", seen)
	}
}

// That a logger was not read out for some days is usual: what it read is not known yet, and nobody is sent to look.
func TestALoggerThatWasNotReadOut(t *testing.T) {
	w := chest()
	w.Logger = true
	s := look(t, w, hourly(0, times(6, -18)...), 60)
	if len(s.Stretches) != 1 || !s.Stretches[0].Awaited || s.Stretches[0].Asks() {
		t.Errorf("%+v", s.Stretches)
	}
	words := func(record.Instant) string { return "then" }
	if found := s.Alarms(unit.US, words); len(found) != 0 {
		t.Errorf("after two days: %v", found)
	}
	if found := look(t, w, hourly(0, times(6, -18)...), 24*8).Alarms(unit.US, words); len(found) != 1 || found[0].Code != coldwatch.CodeSilent {
		t.Errorf("after eight days: %v", found)
	}
}

// A hand that measures ends a silence as far as it goes, and what its thermometer may be wrong beyond the probe's half degree counts as warmth.
func TestSomebodyMeasuresByHand(t *testing.T) {
	hand := func(hours, tempC, errorC float64) coldwatch.Reading {
		return coldwatch.Reading{At: at(hours), TempC: tempC, Valued: true, Hand: "pen", ErrorC: errorC}
	}
	w := chest()
	w.Trust = func(record.Instant) thermometers.Trust {
		return thermometers.Trust{AccuracyC: 0.5, StatedC: 0.5, Unusable: true} // the probe itself was withdrawn
	}
	if s := look(t, w, append(hourly(0, times(6, -18)...), hand(5, -18, 0.5)), 5); s.Read != 1 || s.Last == nil || s.Last.Hand != "pen" {
		t.Errorf("a cold measurement: %+v", s)
	}
	if s := look(t, chest(), append(hourly(0, times(6, -18)...), hand(5.5, -16, 2)), 5.5); len(s.Stretches) != 1 || s.Stretches[0].PeakC != -14.5 {
		t.Errorf("by a thermometer that may be 2 °C wrong, -16 °C is %+v", s.Stretches)
	}
}

func TestWhoMustLook(t *testing.T) {
	for name, x := range map[string]struct {
		temps []float64
		asks  bool
		warm  float64 // hours
		thaw  float64
	}{
		"over the limit for an hour":   {[]float64{-18, -9, -18}, false, 0, 0},
		"over the limit for a morning": {[]float64{-18, -9, -9, -9, -9, -18}, true, 0, 0},
		"above -5 °C":                  {[]float64{-18, -4, -18}, true, 2, 0},
		"by the error of the probe":    {[]float64{-18, -5.4, -18}, true, 2, 0},
		"just not":                     {[]float64{-18, -5.6, -18}, false, 0, 0},
		"above 41 °F":                  {[]float64{-18, -4, 6, -4, -18}, true, 4, 2},
		"41 °F by the error":           {[]float64{-18, 4.6, -18}, true, 2, 2},
	} {
		seen := look(t, chest(), hourly(0, x.temps...), float64(len(x.temps)-1))
		if len(seen.Stretches) != 1 {
			t.Fatalf("%s: %+v", name, seen.Stretches)
		}
		s := seen.Stretches[0]
		if s.Asks() != x.asks || s.WarmMs != int64(x.warm*hour) || s.ThawedMs != int64(x.thaw*hour) {
			t.Errorf("%s: asks %v, warm %g h, thawed %g h; want %v, %g, %g", name, s.Asks(), float64(s.WarmMs)/hour, float64(s.ThawedMs)/hour, x.asks, x.warm, x.thaw)
		}
	}
}

// Whatever came: what was read over the limit lies in a time that is too warm; where nothing was read for longer than usual, nobody knows, and
// that is in a time too; times do not overlap; and what is known and not known of one adds up to it.
func TestNothingWarmAndNothingSilentIsMissed(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var readings []coldwatch.Reading
		for range rapid.IntRange(0, 60).Draw(rt, "readings") {
			r := read(rapid.Float64Range(0, 30).Draw(rt, "hour"), float64(rapid.IntRange(-24, 12).Draw(rt, "temp")))
			r.Odd = rapid.IntRange(0, 9).Draw(rt, "odd") == 0
			readings = append(readings, r)
		}
		s, err := chest().Look(readings, began, at(30))
		if err != nil {
			rt.Fatal(err)
		}
		in := func(kind coldwatch.Kind, t record.Instant) bool {
			return slices.ContainsFunc(s.Stretches, func(x coldwatch.Stretch) bool { return (kind == "" || x.Kind == kind) && x.From <= t && t <= x.Until })
		}
		seen := []record.Instant{began}
		for _, r := range readings {
			if r.TempC > -15 && !in(coldwatch.TooWarm, r.At) {
				rt.Fatalf("%g °C at %d is in no time that is too warm: %+v", r.TempC, r.At, s.Stretches)
			}
			if !r.Odd || r.TempC > -15 {
				seen = append(seen, r.At)
			}
		}
		seen = append(seen, at(30))
		slices.Sort(seen)
		for i := 1; i < len(seen); i++ {
			if middle := (seen[i-1] + seen[i]) / 2; int64(seen[i]-seen[i-1]) > s.GapMs && !in("", middle) {
				rt.Fatalf("nothing was read from %d to %d, and it is in no time: %+v", seen[i-1], seen[i], s.Stretches)
			}
		}
		for i, x := range s.Stretches {
			known := x.UnknownMs
			for _, w := range x.Stays {
				known += w.Ms()
			}
			if known != x.Ms() || x.Ms() < 0 {
				rt.Fatalf("%+v: %d ms are told of", x, known)
			}
			if i > 0 && x.From < s.Stretches[i-1].Until {
				rt.Fatalf("%+v and %+v overlap", s.Stretches[i-1], x)
			}
		}
	})
}

// Two weeks of a probe that reads every minute.
func BenchmarkTwoWeeks(b *testing.B) {
	var readings []coldwatch.Reading
	for i := range 14 * 24 * 60 {
		readings = append(readings, read(float64(i)/60, -18+float64(i%97)/20))
	}
	for b.Loop() {
		if _, err := chest().Look(readings, began, at(14*24)); err != nil {
			b.Fatal(err)
		}
	}
}
