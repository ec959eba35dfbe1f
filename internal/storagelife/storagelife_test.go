package storagelife_test

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/storagelife"
)

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: %.5f, want %.5f", what, got, want)
	}
}

// Worked by hand: 90 days at -18 °C, Q10 of 3.
func TestLifeByHand(t *testing.T) {
	r := storagelife.Assumed(90)
	for tempC, want := range map[float64]float64{-24: 173.99, -18: 90, -15: 64.73, -12: 46.56, -10: 37.37, -6: 24.08} {
		near(t, "days", r.Days(tempC), want, 0.005)
	}
	u, err := r.Use([]storagelife.Stay{{-18, 30}, {-10, 2}, {-6, 0.5}})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "used", u.Share, 0.33333+0.05352+0.02076, 5e-6)
	near(t, "left", u.LeftDays, 53.3, 0.05)
	if !(u.Low < u.Share && u.Share < u.High) || u.WarmDays != 0 {
		t.Errorf("%+v", u)
	}
	u, err = r.Use([]storagelife.Stay{{-18, 30}, {-2, 1}})
	if err != nil || u.WarmDays != 1 || math.Abs(u.Share-1.0/3) > 1e-12 {
		t.Errorf("a day near thawing: %+v (%v)", u, err)
	}
}

// A freezer by hand, a reading an hour: warm from the second reading to the sixth, at its worst -3 °C.
func TestAFreezerThatGotWarm(t *testing.T) {
	hour := func(temps ...float64) []storagelife.Reading {
		var r []storagelife.Reading
		for i, c := range temps {
			r = append(r, storagelife.Reading{TimeS: 3600 * float64(i), TempC: c})
		}
		return r
	}
	all, err := storagelife.Excursions(hour(-20, -19, -10, -3, -8, -18, -20), -15)
	if err != nil || len(all) != 1 {
		t.Fatalf("%+v (%v)", all, err)
	}
	e := all[0]
	if e.FromS != 3600 || e.ToS != 5*3600 || !e.Ended || e.PeakC != -3 || e.WarmS != 2*3600 || e.ThawedS != 0 {
		t.Errorf("%+v", e)
	}
	u, err := storagelife.Assumed(90).Use(e.Stays) // an hour at -10 and one at -8: 1/24 day of 37.37 and of 30.00 days
	if err != nil {
		t.Fatal(err)
	}
	near(t, "share", u.Share, (1/37.37+1/30.00)/24, 1e-6)
	near(t, "warm days", u.WarmDays, 2.0/24, 1e-12)

	all, err = storagelife.Excursions(hour(-10, 6, 7), -15)
	if err != nil || len(all) != 1 || all[0].Ended || all[0].ThawedS != 2*3600 || all[0].FromS != 0 {
		t.Errorf("warm from the first to the last: %+v (%v)", all, err)
	}
	for _, bad := range [][]storagelife.Reading{hour(math.NaN()), {{TimeS: 1, TempC: -20}, {TimeS: 1, TempC: -20}}} {
		_, err := storagelife.Excursions(bad, -15)
		if wrong := (*storagelife.ReadingError)(nil); !errors.As(err, &wrong) {
			t.Errorf("%v: %v", bad, err)
		}
	}
}

// Whatever the stays: their order makes no difference, warmer never uses less, and more of it never uses less.
func TestAlways(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := storagelife.Assumed(rapid.Float64Range(10, 700).Draw(t, "days"))
		draw := rapid.Custom(func(t *rapid.T) storagelife.Stay {
			return storagelife.Stay{TempC: rapid.Float64Range(-40, -5).Draw(t, "at"), Days: rapid.Float64Range(0, 100).Draw(t, "for")}
		})
		stays := rapid.SliceOfN(draw, 1, 10).Draw(t, "stays")
		use := func(stays []storagelife.Stay) storagelife.Used {
			u, err := r.Use(stays)
			if err != nil {
				t.Fatal(err)
			}
			return u
		}
		u := use(stays)
		if got := use(rapid.Permutation(stays).Draw(t, "shuffled")); math.Abs(got.Share-u.Share) > 1e-9*max(1, u.Share) {
			t.Errorf("%g in another order, else %g", got.Share, u.Share)
		}
		warmer := append([]storagelife.Stay(nil), stays...)
		warmer[0].TempC = min(storagelife.WarmestC, warmer[0].TempC+3)
		if got := use(warmer); got.Share < u.Share || use(append(stays, stays[0])).Share < u.Share {
			t.Errorf("%g where it was warmer, else %g", got.Share, u.Share)
		}
	})
}
