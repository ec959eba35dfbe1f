package lethality_test

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/lethality"
)

func minutes(temps ...float64) []lethality.Reading {
	var r []lethality.Reading
	for i, t := range temps {
		r = append(r, lethality.Reading{TimeS: 60 * float64(i), TempC: t})
	}
	return r
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: %.4f, want %.4f within %g", what, got, want, within)
	}
}

// Worked by hand from the definition F = ∫ 10^((T - 70)/7.5) dt, a reading a minute.
func TestThreeIntegrationsByHand(t *testing.T) {
	a, err := lethality.Accumulate(lethality.Listeria, minutes(60, 64, 67, 69, 70, 69, 66))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "trapezoid, min", a.TrapezoidS/60, 3.198, 0.0005)
	near(t, "straight lines, min", a.ExactS/60, 3.104, 0.0005)
	near(t, "safe, min", a.SafeS/60, 2.367, 0.0005)
	near(t, "tenfold", a.Logs, 7.1, 0.005)
	if !a.Reached || a.AtS < 240 || a.AtS > 300 { // 2 min are full after 1.338 min by minute 4 (0.0464 + 0.1585 + 0.3981 + 0.7356), so in the fifth
		t.Errorf("reached %v at %g s", a.Reached, a.AtS)
	}
}

// The agency's equivalents of 70 °C for 2 minutes, printed rounded, and those of 90 °C for 10 minutes, all 21 of them after rounding
// (UK Food Standards Agency, vacuum-packing training, module 3; data of the Chilled Food Association, 2006).
func TestPublishedEquivalents(t *testing.T) {
	for tempC, wantS := range map[float64]float64{60: 45 * 60, 65: 10 * 60, 75: 30, 80: 6} {
		near(t, "Listeria", lethality.Listeria.EquivalentS(tempC)/wantS, 1, 0.15) // printed rounded up: 43.1, 9.28 min, 25.9, 5.57 s
	}
	for i, want := range []float64{129, 100, 77, 60, 46, 36, 28, 22, 17, 13, 10} {
		if got := math.Round(lethality.ColdBotulinum.EquivalentS(80+float64(i)) / 60); got != want {
			t.Errorf("%d °C: %g min, want %g", 80+i, got, want)
		}
	}
	for i, want := range []float64{7.9, 6.3, 5.0, 4.0, 3.2, 2.5, 2.0, 1.6, 1.3, 1.0} {
		if got := math.Round(lethality.ColdBotulinum.EquivalentS(91+float64(i))/6) / 10; got != want {
			t.Errorf("%d °C: %g min, want %g", 91+i, got, want)
		}
	}
}

// FDA Food Code 3-401.11(B) (2013): whole-meat roasts, in °F and seconds.
func TestTheMeatTableIsTheFoodCodes(t *testing.T) {
	table, ok := lethality.TableOf(lethality.MeatRoast)
	if !ok {
		t.Fatal("no table")
	}
	got := map[float64]float64{}
	for _, r := range table.Rows {
		got[r.TempF] = r.HoldS
	}
	for tempF, wantS := range map[float64]float64{130: 112 * 60, 131: 89 * 60, 133: 56 * 60, 135: 36 * 60, 136: 28 * 60, 138: 18 * 60, 140: 12 * 60, 142: 8 * 60, 144: 5 * 60, 145: 4 * 60, 147: 134, 149: 85, 151: 54, 153: 34, 155: 22, 157: 14, 158: 0} {
		near(t, "hold, s", got[tempF], wantS, 0.06) // the minutes are printed to four decimals
	}
}

func f(tempF float64) float64 { return (tempF - 32) * 5 / 9 }

// Times at 140 °F by the tables: meat 12 min, chicken 35 min, turkey 33.7 min (FSIS). One class is never judged by another's.
func TestHolding(t *testing.T) {
	hold := func(c lethality.Class, r []lethality.Reading) lethality.Held {
		t.Helper()
		table, ok := lethality.TableOf(c)
		if !ok {
			t.Fatal(c)
		}
		h, err := lethality.Hold(table, r)
		if err != nil {
			t.Fatal(err)
		}
		return h
	}
	at := func(tempF float64, m float64) []lethality.Reading {
		return []lethality.Reading{{TimeS: 0, TempC: f(tempF)}, {TimeS: m * 60, TempC: f(tempF)}}
	}
	for _, c := range []struct {
		name     string
		class    lethality.Class
		readings []lethality.Reading
		met      bool
	}{
		{"meat at 140 for its 12 min", lethality.MeatRoast, at(140, 12), true},
		{"meat a second short", lethality.MeatRoast, at(140, 12-1.0/60), false},
		{"meat half a degree short", lethality.MeatRoast, at(139.5, 12), false},
		{"chicken for the time of meat", lethality.Chicken, at(140, 12), false},
		{"chicken for its own", lethality.Chicken, at(140, 35), true},
		{"turkey for its own", lethality.Turkey, at(140, 33.7), true},
		{"meat at 158 at once", lethality.MeatRoast, []lethality.Reading{{TimeS: 0, TempC: 20}, {TimeS: 60, TempC: f(158)}}, true},
		{"meat broken in two", lethality.MeatRoast, []lethality.Reading{{TimeS: 0, TempC: f(140)}, {TimeS: 360, TempC: f(140)}, {TimeS: 420, TempC: f(129)}, {TimeS: 480, TempC: f(140)}, {TimeS: 900, TempC: f(140)}}, false},
	} {
		if h := hold(c.class, c.readings); h.Met != c.met {
			t.Errorf("%s: met %v (%+v)", c.name, h.Met, h)
		}
	}
	// 9 min at 138 °F (18 are asked) and 6 min at 140 °F (12): half and half. It is whole, and decides nothing.
	h := hold(lethality.MeatRoast, []lethality.Reading{{TimeS: 0, TempC: f(138)}, {TimeS: 540, TempC: f(138)}, {TimeS: 540.001, TempC: f(140)}, {TimeS: 900.001, TempC: f(140)}})
	near(t, "fractions", h.Fractions, 1, 1e-5)
	if h.Met {
		t.Error("shares of two rows were taken for a row")
	}
	if _, ok := lethality.TableOf("fish"); ok {
		t.Error("fish has a table")
	}
}

func TestReadingsThatMakeNoSense(t *testing.T) {
	for name, r := range map[string][]lethality.Reading{
		"one": minutes(70), "no food is so hot": minutes(70, 720), "not a number": minutes(70, math.NaN()), "twice the same time": {{TimeS: 5, TempC: 70}, {TimeS: 5, TempC: 71}},
	} {
		_, err := lethality.Accumulate(lethality.Listeria, r)
		if bad := (*lethality.ReadingError)(nil); !errors.As(err, &bad) || bad.Fix == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// Whatever the readings: the safe sum is never more than the straight one, which is never more than the trapezoid; a reading more in
// between never makes the safe sum less when it lies on or above the colder end.
func TestTheSafeSumIsTheLeast(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		target := rapid.SampledFrom([]lethality.Target{lethality.Listeria, lethality.ColdBotulinum}).Draw(t, "target")
		temps := rapid.SliceOfN(rapid.Float64Range(20, 110), 2, 40).Draw(t, "temps")
		a, err := lethality.Accumulate(target, minutes(temps...))
		if err != nil {
			t.Fatal(err)
		}
		if slack := 1 + 1e-9; a.SafeS > a.ExactS*slack || a.ExactS > a.TrapezoidS*slack {
			t.Errorf("safe %g, straight %g, trapezoid %g", a.SafeS, a.ExactS, a.TrapezoidS)
		}
		if a.Reached != (a.SafeS >= target.NeedS) {
			t.Errorf("reached %v with %g of %g s", a.Reached, a.SafeS, target.NeedS)
		}
	})
}
