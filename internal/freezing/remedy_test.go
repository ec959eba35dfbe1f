package freezing

import (
	"slices"
	"testing"
)

// small is an invented want of one kind for one chest.
func small(count int) Want {
	return Want{Kinds: []Kind{{Pack: soupBag(), Count: count}}, Freezers: []Freezer{chest()}, Days: 2, Limits: Limits{CoreC: -17}}
}

func remedies(t *testing.T, w Want) map[Change]Remedy {
	t.Helper()
	s := must(w.Schedule())(t)
	if n, _ := s.NotPlaced(); n == 0 {
		t.Fatal("everything is placed")
	}
	out := map[Change]Remedy{}
	for _, r := range must(w.Remedies(s))(t) {
		t.Logf("%+v", r)
		out[r.Change] = r
	}
	return out
}

// leftOver makes a schedule of a changed want and is how many packs are left over.
func leftOver(t *testing.T, w Want, change func(*Want)) int {
	t.Helper()
	w.Kinds, w.Freezers = slices.Clone(w.Kinds), slices.Clone(w.Freezers)
	change(&w)
	s := must(w.Schedule())(t)
	check(t, w, s)
	n, _ := s.NotPlaced()
	return n
}

// Each remedy, carried out, does what it says, and a little less of it does not.
func TestRemediesOfTooMany(t *testing.T) {
	w := small(100)
	got := remedies(t, w)

	if r := got[FewerPacks]; !r.Fits || leftOver(t, w, func(w *Want) { w.Kinds[0].Count = r.Count }) != 0 || r.Count >= 100 || r.Count < 30 {
		t.Errorf("fewer packs: %+v", r)
	}
	r := got[MoreDays]
	longer := func(days int) func(*Want) { return func(w *Want) { w.Days, w.WaitS = days, longestLoad } }
	if !r.Fits || leftOver(t, w, longer(r.Days)) != 0 || leftOver(t, w, longer(r.Days-1)) == 0 || r.WaitS != float64(r.Days-1)*daySeconds {
		t.Errorf("more days: %+v", r)
	}
	r = got[Stronger]
	times := func(f float64) func(*Want) { return func(w *Want) { w.Freezers[0].CoolingW *= f } }
	if !r.Fits || leftOver(t, w, times(r.Factor)) != 0 || leftOver(t, w, times(r.Factor*0.9)) == 0 || r.CoolingW != 150*r.Factor {
		t.Errorf("stronger: %+v", r)
	}
	for _, not := range []Change{ChillFirst, Thinner, MoreRoom} {
		if r, is := got[not]; is {
			t.Errorf("cold bags an inch thick with room: %+v", r)
		}
	}
}

// A bag that is too thick for a day: alone in time at the thickness found, not in time two millimetres above.
func TestRemedyOfThickBags(t *testing.T) {
	w := small(6)
	w.Kinds[0].Pack.ThicknessM = 0.09
	r := remedies(t, w)[Thinner]
	if !r.Fits || leftOver(t, w, func(w *Want) { w.Kinds[0].Pack.ThicknessM = r.ThicknessM }) != 0 {
		t.Fatalf("%+v", r)
	}
	thicker := w.Kinds[0].Pack
	thicker.ThicknessM = r.ThicknessM + 0.002
	alone := must(Times(thicker, Placing{Lie: Apart}, chest().Film, -20, -17))(t).Usual.TimeS
	if alone < 0.97*daySeconds {
		t.Errorf("2 mm above %g m it takes %g h alone: could have been thicker", r.ThicknessM, alone/3600)
	}
}

// Bags that go in warm: chilling them first is what lets them all in.
func TestRemedyOfWarmBags(t *testing.T) {
	w := small(48)
	w.Days = 1
	w.Freezers[0].CoolingW = 600
	cold := must(w.Schedule())(t).Placed
	w.Kinds[0].Count, w.Kinds[0].Pack.StartC = cold, 55
	r := remedies(t, w)[ChillFirst]
	if !r.Fits || r.Placed != cold {
		t.Errorf("%d packs at 5 °C are placed: %+v", cold, r)
	}
}

// 100 packs of 0.68 kg where 50 kg find room: 18 kg are missing.
func TestRemedyOfRoom(t *testing.T) {
	w := small(100)
	w.Freezers[0].RoomKg = 50
	r := remedies(t, w)[MoreRoom]
	near(t, "room missing, kg", r.MassKg, 18, 1e-9)
	if r.Fits {
		t.Errorf("%+v", r)
	}
}

func BenchmarkRemedies(b *testing.B) {
	w := small(100)
	s, err := w.Schedule()
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := w.Remedies(s); err != nil {
			b.Fatal(err)
		}
	}
}
