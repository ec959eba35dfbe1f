package coolforecast_test

import (
	"math"
	"testing"

	"kettlefrost/internal/coolforecast"
	"kettlefrost/internal/cooling"
	"kettlefrost/internal/coollog"
	"kettlefrost/internal/coolrule"
	"kettlefrost/internal/medium"
)

// A pot of 40 kg that was read at 60, 52 and 46 °C, 0, 30 and 60 minutes after it was put down in the room: it will not be at 70 °F in 2 h.
func slowPot(t *testing.T) (coolforecast.Case, coolforecast.Forecast) {
	t.Helper()
	c := coolforecast.Case{Rule: coolrule.FoodCodeCooked(), MediumC: 3, NowS: 3600,
		Logs: []coollog.Log{{Point: "middle", Readings: []coollog.Reading{{TimeS: 0, TempC: 60}, {TimeS: 1800, TempC: 52}, {TimeS: 3600, TempC: 46}}}}}
	f, err := coolforecast.Of(c)
	if err != nil {
		t.Fatal(err)
	}
	return c, f
}

// stirredPot is a pot in ice water whose time constant is by Newton's law: mass · heat / (overall coefficient · wet area).
func stirredPot(low, usual, high float64) cooling.Pot {
	return cooling.Pot{DiameterM: 0.4, FillM3: 0.05, Have: 1, Wall: medium.Film{LowWM2K: low, UsualWM2K: usual, HighWM2K: high},
		Bath: cooling.Bath{Ice: cooling.ToppedUp, TempC: 0, AmbientC: 20}, AirC: 20}
}

// By hand: 40 kg of 3850 J/(kg·K) fill 40/1030 = 0.0388 m³, 0.309 m deep in a pot of 0.4 m, wet on 0.1257 + 0.3883 = 0.514 m². At 200 W/(m²·K)
// the time constant is 154,000/102.8 = 1498 s; from 46 °C to 21.1 °C in water of 0 °C: 1498·ln(46/21.11) = 1167 s, to 5 °C 1498·ln(46/5) = 3324 s.
func TestAnActionByHand(t *testing.T) {
	c, f := slowPot(t)
	if f.Outcome != coolforecast.Misses && f.Outcome != coolforecast.InDoubt {
		t.Fatalf("a pot left standing: %s", f.Outcome)
	}
	pot := stirredPot(199.99, 200, 200.01)
	got := c.Prospects(f, cooling.Food{MassKg: 40, Props: stew}, 46, []coolforecast.Action{{ID: "bath", Plan: one(pot), ReadyS: 300}})[0]
	if got.Err != nil || got.Outcome != coolforecast.Meets {
		t.Fatalf("%s, %v", got.Outcome, got.Err)
	}
	for i, want := range []float64{1167, 3324} {
		if s := got.Limits[i].ReachedS.Usual - c.NowS - 300; math.Abs(s-want) > 0.01*want {
			t.Errorf("limit %d after %.0f s, by hand %.0f", i, s, want)
		}
	}
	// 70 °F is due at 7200 s. From 46 °C it takes 1467 s with getting ready; the food cools a little while one waits, so that there is time until
	// more than 7200 - 1467 = 5733 s, and surely not longer than until 7200 s less what it takes from where the forecast's warm end is then.
	if got.LatestS < 5600 || got.LatestS > 6600 {
		t.Errorf("time to act until %.0f s", got.LatestS)
	}
}

// What meets the limits comes first, of those the least work; what is short of vessels comes after what is not,
// and before what helps nothing.
func TestActionsAreRanked(t *testing.T) {
	c, f := slowPot(t)
	quick, busy, slow, few := stirredPot(300, 400, 500), stirredPot(300, 400, 500), stirredPot(10, 15, 20), stirredPot(300, 400, 500)
	quick.Tend, busy.Tend = 0.1, 1
	few.FillM3 = 0.01
	all := c.Prospects(f, cooling.Food{MassKg: 40, Props: stew}, 46, []coolforecast.Action{
		{ID: "few", Plan: one(few)}, {ID: "slow", Plan: one(slow)}, {ID: "none"}, {ID: "busy", Plan: one(busy)}, {ID: "quick", Plan: one(quick)}})
	var ids string
	for _, p := range all {
		ids += p.Action.ID + " "
	}
	if ids != "quick busy few slow none " {
		t.Errorf("in the order %s", ids)
	}
	if last := all[4]; last.Err == nil || last.Outcome != coolforecast.Unsaid || !math.IsNaN(last.LatestS) {
		t.Errorf("a plan without stages: %+v", last)
	}
}
