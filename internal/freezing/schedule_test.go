package freezing

import (
	"errors"
	"math"
	"slices"
	"testing"

	"kettlefrost/internal/heat"
	"kettlefrost/internal/medium"
	"pgregory.net/rapid"
)

// upright is an invented upright freezer of 500 L with a fan.
func upright() Freezer {
	return Freezer{VolumeM3: 0.5, SetC: -22, CoolingW: 250, Film: medium.Film{LowWM2K: 10, UsualWM2K: 15, HighWM2K: 25},
		RoomKg: 150, Stock: Stock{MassKg: 60}}
}

// run is an invented production: four kinds of packs, all chilled to 41 °F, for two chests and an upright.
func run() Want {
	chests := chest()
	chests.Count = 2
	thick := soupBag()
	thick.ThicknessM, thick.MassKg = 0.038, 1.36
	small := braiseBag()
	small.ThicknessM, small.MassKg = 0.02, 0.34
	return Want{
		Kinds: []Kind{{Pack: soupBag(), Count: 60}, {Pack: braiseBag(), Count: 50}, {Pack: thick, Count: 20},
			{Pack: small, Count: 60, ReadyS: daySeconds}},
		Freezers: []Freezer{chests, upright()},
		Days:     3,
		Limits:   Limits{CoreC: -17},
	}
}

func TestSchedule(t *testing.T) {
	w := run()
	s := must(w.Schedule())(t)
	check(t, w, s)
	checkFull(t, w, s, 7, 0.06)
	if n, _ := s.NotPlaced(); n != 0 || s.Placed != 190 || s.Days != s.LeastDays {
		t.Errorf("%d of 190 placed on %d days, at least %d", s.Placed, s.Days, s.LeastDays)
	}
	if len(s.Cabinets) != 3 {
		t.Errorf("%d cabinets used", len(s.Cabinets))
	}
	if got := must(w.Remedies(s))(t); got != nil {
		t.Errorf("remedies for nothing: %+v", got)
	}
	for _, e := range s.Entries {
		t.Logf("day %d: %2d of kind %d into %v, core at %.1f h", e.Day, e.Count, e.Kind, e.Place, e.FrozenS/3600)
	}
}

// One kind and equal freezers: the days are the packs over what the freezers take in a day, rounded up: for these
// numbers also where the second day takes less.
func TestScheduleOfOneKind(t *testing.T) {
	f := chest()
	f.Count = 2
	perDay := must(f.PacksADay(soupBag(), Placing{}, Limits{CoreC: -17}))(t).Packs
	for _, packs := range []int{1, perDay, 2 * perDay, 2*perDay + 2, 3 * perDay} {
		w := Want{Kinds: []Kind{{Pack: soupBag(), Count: packs}}, Freezers: []Freezer{f}, Days: 3, Limits: Limits{CoreC: -17}}
		s := must(w.Schedule())(t)
		check(t, w, s)
		if want := (packs + 2*perDay - 1) / (2 * perDay); s.Placed != packs || s.Days != want {
			t.Errorf("%d packs at %d a day in each: %d placed on %d days, want %d", packs, perDay, s.Placed, s.Days, want)
		}
		checkFull(t, w, s, 7, 0.06)
	}
}

// What waits too long is left over, and what is ready later goes in when it is ready.
func TestScheduleKeepsTheWait(t *testing.T) {
	w := Want{Kinds: []Kind{{Pack: soupBag(), Count: 90}}, Freezers: []Freezer{chest()}, Days: 5, WaitS: daySeconds, Limits: Limits{CoreC: -17}}
	w.Freezers[0].RoomKg = 1000
	s := must(w.Schedule())(t)
	check(t, w, s)
	if len(s.Waiting) != 1 || s.Waiting[0].Why != NoDay || s.Days != 2 {
		t.Errorf("a day's wait, %d days used, left over: %+v", s.Days, s.Waiting)
	}
	w.WaitS = 4 * daySeconds
	if s = must(w.Schedule())(t); len(s.Waiting) > 0 || s.Days < 3 {
		t.Errorf("four days' wait, %d days used, left over: %+v", s.Days, s.Waiting)
	}
	check(t, w, s)

	w.Kinds = []Kind{{Pack: soupBag(), Count: 5}, {Pack: braiseBag(), Count: 5, ReadyS: 30 * 3600}}
	s = must(w.Schedule())(t)
	check(t, w, s)
	i := slices.IndexFunc(s.Entries, func(e Entry) bool { return e.Kind == 1 })
	if i < 0 || s.Entries[i].InS != 30*3600 || s.Entries[i].Day != 1 {
		t.Errorf("what is ready at 30 h: %+v", s.Entries)
	}
}

// A freezer of -16 °C cannot do -17 °C: unless the limits are relaxed that is an error; relaxed, it is asked for -15 °C and no more.
func TestScheduleRelaxed(t *testing.T) {
	w := Want{Kinds: []Kind{{Pack: soupBag(), Count: 60}}, Freezers: []Freezer{chest(), chest()}, Days: 1, Limits: Limits{CoreC: -17, StockC: -12}}
	w.Freezers[1].SetC = -16
	var warm *TooColdError
	if _, err := w.Schedule(); !errors.As(err, &warm) || warm.ColdestC != -15 {
		t.Errorf("not relaxed: %v", err)
	}
	w.Limits.Relax = true
	s := must(w.Schedule())(t)
	check(t, w, s)
	asked := map[int]float64{}
	for _, e := range s.Entries {
		asked[e.Place.Freezer] = e.CoreC
	}
	if len(asked) != 2 || asked[0] != -17 || asked[1] != -15 {
		t.Errorf("cores asked for: %v", asked)
	}
	if got := must(w.Freezers[1].PacksADay(soupBag(), Placing{}, w.Limits))(t); got.CoreC != -15 || got.Packs == 0 {
		t.Errorf("%d packs to %g °C", got.Packs, got.CoreC)
	}
}

func TestScheduleWhy(t *testing.T) {
	thick := soupBag()
	thick.ThicknessM = 0.12
	for name, c := range map[string]struct {
		change func(*Want)
		why    Reason
	}{
		"too thick for every freezer": {func(w *Want) { w.Kinds[0].Pack = thick }, NoFreezer},
		"no freezer":                  {func(w *Want) { w.Freezers = nil }, NoFreezer},
		"no room":                     {func(w *Want) { w.Freezers[0].RoomKg = 3 }, NoRoom},
		"air above the limit":         {func(w *Want) { w.Freezers[0].SetC, w.Freezers[0].Stock.TempC, w.Limits.CoreC = -14, -16, -10 }, NoFreezer},
		"not enough days":             {func(w *Want) { w.Days = 1 }, NoDay},
	} {
		w := Want{Kinds: []Kind{{Pack: soupBag(), Count: 50}}, Freezers: []Freezer{chest()}, Days: 2, Limits: Limits{CoreC: -17}}
		c.change(&w)
		s := must(w.Schedule())(t)
		check(t, w, s)
		if len(s.Waiting) != 1 || s.Waiting[0].Why != c.why {
			t.Errorf("%s: %+v", name, s.Waiting)
		}
	}
	// Air, stock and limit at the same temperature: the swing of the thermostat alone is beyond the limit.
	w := Want{Kinds: []Kind{{Pack: soupBag(), Count: 50}}, Freezers: []Freezer{chest()}, Days: 2, Limits: Limits{CoreC: -12}}
	w.Freezers[0].SetC = -15
	if s := must(w.Schedule())(t); s.Placed > 0 {
		t.Errorf("air at the limit: %d packs placed", s.Placed)
	}
	if s := must(Want{Days: 1, Limits: Limits{CoreC: -17}}.Schedule())(t); len(s.Entries)+len(s.Waiting) > 0 {
		t.Errorf("nothing asked: %+v", s)
	}
}

func TestScheduleAlways(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := Want{Days: rapid.IntRange(1, 3).Draw(t, "days"), Limits: Limits{CoreC: -17}}
		for range rapid.IntRange(1, 2).Draw(t, "freezers") {
			f := drawFreezer(t)
			f.Count = rapid.IntRange(1, 2).Draw(t, "equal")
			w.Freezers = append(w.Freezers, f)
		}
		for range rapid.IntRange(1, 2).Draw(t, "kinds") {
			w.Kinds = append(w.Kinds, Kind{Pack: drawPack(t), Count: rapid.IntRange(0, 60).Draw(t, "packs"),
				ReadyS: rapid.SampledFrom([]float64{0, 0, 9 * 3600, 30 * 3600}).Draw(t, "ready")})
		}
		s, err := w.Schedule()
		if err != nil {
			t.Fatal(err)
		}
		check(t, w, s)
		checkFull(t, w, s, 10, 0.1)
		if n, _ := s.NotPlaced(); n == 0 && s.Days < s.LeastDays {
			t.Errorf("on %d days, at least %d", s.Days, s.LeastDays)
		}
	})
}

func TestScheduleRefused(t *testing.T) {
	for what, spoil := range map[string]func(*Want){
		"days":                            func(w *Want) { w.Days = 0 },
		"wait":                            func(w *Want) { w.WaitS = -1 },
		"temperature of the refrigerator": func(w *Want) { w.HoldC = 30 },
		"number of packs":                 func(w *Want) { w.Kinds[0].Count = -1 },
		"time when packs are ready":       func(w *Want) { w.Kinds[0].ReadyS = math.NaN() },
		"cabinets":                        func(w *Want) { w.Freezers[0].Count, w.Freezers[1].Count = 60, 60 },
		"cooling power":                   func(w *Want) { w.Freezers[1].CoolingW = 0 },
		"time to freeze":                  func(w *Want) { w.Limits.WithinS = 1 },
		"thickness of the pack":           func(w *Want) { w.Kinds[2].Pack.ThicknessM = 0 },
		"way of lying in a load":          func(w *Want) { w.Kinds[2].Placing = Placing{Lie: Block, High: 1} },
	} {
		w := run()
		spoil(&w)
		_, err := w.Schedule()
		var out *heat.RangeError
		if !errors.As(err, &out) || out.What != what {
			t.Errorf("%s: %v", what, err)
		}
	}
	w := run()
	w.Limits.CoreC = -19.5
	var warm *TooColdError
	if _, err := w.Schedule(); !errors.As(err, &warm) || warm.AirC != -20 {
		t.Errorf("core colder than one freezer can: %v", err)
	}
}

func BenchmarkSchedule(b *testing.B) {
	for b.Loop() {
		if _, err := run().Schedule(); err != nil {
			b.Fatal(err)
		}
	}
}
