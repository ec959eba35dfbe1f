package fill

import (
	"errors"
	"math"
	"testing"

	"kettlefrost/internal/unit"
)

func TestDoubt(t *testing.T) {
	const lb, kg, oz, g = unit.Pound, unit.Kilogram, unit.Ounce, unit.Gram
	for _, c := range []struct {
		name                      string
		expected, weighed, spread unit.Mass
		tares                     []unit.Mass
		severity                  Severity
		cause                     Cause // the likeliest; 0 when there is none
		meant                     unit.Mass
	}{
		{"as expected", 71 * lb, 72 * lb, 2 * lb, nil, Ordinary, 0, 0},
		{"exactly two spreads off is ordinary still", 71 * lb, 75 * lb, 2 * lb, nil, Ordinary, 0, 0},
		{"a little more than two spreads", 71 * lb, 76 * lb, 2 * lb, nil, Unusual, 0, 0},
		{"by hand: 710 lb for 71", 71 * lb, 710 * lb, 2 * lb, nil, Doubtful, TenTimes, 71 * lb},
		{"by hand: 7.2 lb for 71", 71 * lb, 72 * lb / 10, 2 * lb, nil, Doubtful, TenthPart, 72 * lb},
		// 71 lb are 32.2 kg: 32 read in kg and written as lb.
		{"by hand: 32 lb where the scale said kg", 71 * lb, 32 * lb, 2 * lb, nil, Doubtful, PoundsForKilos, 32 * kg},
		{"by hand: 70 kg where the scale said lb", 71 * lb, 70 * kg, 2 * lb, nil, Doubtful, KilosForPounds, 70 * lb},
		{"by hand: 71 oz where it was lb", 71 * lb, 71 * oz, 2 * lb, nil, Doubtful, OuncesForPounds, 71 * lb},
		{"by hand: 9 lb where it was oz", 9 * oz, 9 * lb, oz, nil, Doubtful, PoundsForOunces, 9 * oz},
		{"by hand: 32 g for 32 kg", 32 * kg, 32 * g, kg, nil, Doubtful, GramsForKilos, 32 * kg},
		// A tub of 6 lb stood on the scale: 77.5 less 6.
		{"by hand: the tub weighed too", 71 * lb, 775 * lb / 10, 2 * lb, []unit.Mass{6 * lb}, Doubtful, TareNotTakenOff, 715 * lb / 10},
		{"by hand: the tub taken off twice", 71 * lb, 64 * lb, 2 * lb, []unit.Mass{6 * lb}, Doubtful, TareTakenOffTwice, 70 * lb},
		{"nothing explains it, and it is still doubted", 71 * lb, 100 * lb, 2 * lb, nil, Doubtful, 0, 0},
		{"below nothing", 71 * lb, -1 * lb, 2 * lb, nil, Impossible, 0, 0},
	} {
		q, err := Doubt(c.expected, c.weighed, c.spread, c.tares...)
		if err != nil || q.Severity != c.severity || q.Off != c.weighed-c.expected {
			t.Errorf("%s: got %+v, %v; want severity %d", c.name, q, err, c.severity)
			continue
		}
		if want := (c.weighed.Kg() - c.expected.Kg()) / c.spread.Kg(); math.Abs(q.Spreads-want) > 1e-9 {
			t.Errorf("%s: %g spreads off, want %g", c.name, q.Spreads, want)
		}
		switch {
		case c.cause == 0 && len(q.Slips) > 0:
			t.Errorf("%s: explained by %+v, and nothing should", c.name, q.Slips)
		case c.cause != 0 && (len(q.Slips) == 0 || q.Slips[0].Cause != c.cause || q.Slips[0].Meant != c.meant):
			t.Errorf("%s: explained by %+v, want %d and %v", c.name, q.Slips, c.cause, c.meant)
		}
	}
	var bad *SpreadError
	if _, err := Doubt(0, unit.Pound, unit.Pound); !errors.As(err, &bad) {
		t.Errorf("nothing expected: got %v", err)
	}
	if _, err := Doubt(unit.Pound, unit.Pound, 0); !errors.As(err, &bad) {
		t.Errorf("no spread: got %v", err)
	}
}
