package freezing

import (
	"math"
	"slices"
)

// check re-reads a schedule with none of its code: who went where, what it weighs, and every cabinet simulated from the entries alone.
func check(t failer, w Want, s Schedule) {
	t.Helper()
	placed, inKg := make([]int, len(w.Kinds)), map[Place]float64{}
	batches, of := map[Place][]Batch{}, map[Place][]Entry{}
	wait := w.WaitS
	if wait == 0 {
		wait = 2 * 86400
	}
	for _, e := range s.Entries {
		kind := w.Kinds[e.Kind]
		placed[e.Kind] += e.Count
		inKg[e.Place] += float64(e.Count) * kind.Pack.MassKg
		p := kind.Pack
		if e.InS > kind.ReadyS {
			p.StartC = min(p.StartC, 5)
		}
		batches[e.Place] = append(batches[e.Place], Batch{Pack: p, Placing: kind.Placing, Count: e.Count, InS: e.InS})
		of[e.Place] = append(of[e.Place], e)
		if e.Count < 1 || e.Day < 0 || e.Day >= w.Days || e.InS < kind.ReadyS || e.InS > kind.ReadyS+wait+1 ||
			e.InS < float64(e.Day)*86400 || e.InS >= float64(e.Day+1)*86400 {
			t.Errorf("entry %+v of a kind ready at %g s", e, kind.ReadyS)
		}
	}
	for day := range w.Days {
		share := map[Place]float64{}
		for _, e := range s.Entries {
			if e.Day == day {
				share[e.Place] += float64(e.Count) / s.Intakes[e.Place.Freezer][e.Kind]
			}
		}
		for at, sum := range share {
			if sum > 1.1+1e-6 {
				t.Errorf("day %d: %v is given %g of its day", day, at, sum)
			}
		}
	}
	for _, l := range s.Waiting {
		placed[l.Kind] += l.Count
		if l.Count < 1 || l.Why < NoFreezer || l.Why > NoDay {
			t.Errorf("left over: %+v", l)
		}
	}
	for k, kind := range w.Kinds {
		if placed[k] != kind.Count {
			t.Errorf("kind %d: %d placed or left over, %d asked", k, placed[k], kind.Count)
		}
	}
	limitC := w.Limits.StockC
	if limitC == 0 {
		limitC = -15
	}
	for at, b := range batches {
		f := w.Freezers[at.Freezer]
		if at.Cabinet >= max(1, f.Count) || inKg[at] > f.RoomKg+1e-6 {
			t.Errorf("%v: %g kg in room for %g", at, inKg[at], f.RoomKg)
		}
		coreC := w.Limits.CoreC
		if w.Limits.Relax {
			coreC = max(coreC, f.SetC+1)
		}
		got, err := f.Load(b, Ask{CoreC: coreC})
		if err != nil {
			t.Errorf("%v: %v", at, err)
			continue
		}
		finite(t, got)
		for i, b := range got.Batches {
			if b.RewarmedC > max(limitC, coreC)+0.05 {
				t.Errorf("%+v: rewarmed to %g °C", of[at][i], b.RewarmedC)
			}
		}
		if f.Stock.MassKg > 0 && got.StockPeakC > limitC+0.05 {
			t.Errorf("%v: old stock at %g °C", at, got.StockPeakC)
		}
		heatJ, lastS := 0.0, 0.0
		for i, e := range of[at] {
			b := got.Batches[i]
			lastS = max(lastS, e.InS+b.TimeS)
			perKg, err := batches[at][i].Pack.Food.HeatJKg(batches[at][i].Pack.StartC, coreC)
			if err != nil {
				t.Errorf("%v", err)
			}
			heatJ += float64(e.Count) * w.Kinds[e.Kind].Pack.MassKg * perKg
			if !b.Reached || b.TimeS > 86400 || e.CoreC != coreC || math.Abs(e.InS+b.TimeS-e.FrozenS) > 300 || e.FrozenS > s.FrozenS {
				t.Errorf("%+v: simulated by itself %v after %g s, all by %g s", e, b.Reached, b.TimeS, s.FrozenS)
			}
		}
		// Energy: the machine, the air at its warmest and the stock at its warmest took it. What rewarmed had to be frozen twice, not less.
		stockJKg, err := DefaultStock().HeatJKg(got.StockPeakC, f.SetC)
		if most := f.CoolingW*lastS + cabinetJM3K*f.VolumeM3*(got.AirPeakC-f.SetC) + f.Stock.MassKg*stockJKg; err != nil || heatJ > most*1.005 {
			t.Errorf("%v: %g J frozen in %g s, the most is %g: %v", at, heatJ, lastS, most, err)
		}
	}
}

// checkFull says that nothing waits that a cabinet would have taken: least more of a kind that went in later, or share of what it takes in a
// day, put into any cabinet on a day on which they might have gone in, breaks a limit. What comes on later days is left out of it.
func checkFull(t failer, w Want, s Schedule, least, share float64) {
	t.Helper()
	w, err := w.whole()
	if err != nil {
		t.Errorf("%v", err)
		return
	}
	for day := range w.Days {
		for k := range w.Kinds {
			in, may := w.inS(day, k)
			if !may {
				continue
			}
			for f := range w.Freezers {
				n := int(math.Ceil(max(least, share*s.Intakes[f][k])))
				if math.IsInf(s.Intakes[f][k], 0) || waitingAfter(s, day, k) < n {
					continue
				}
				for c := range w.Freezers[f].Count {
					if at := (Place{f, c}); takesMore(t, w, s, at, day, Entry{Kind: k, Place: at, Day: day, InS: in, Count: n}) {
						t.Errorf("day %d: %v would have taken %d more of kind %d", day, at, n, k)
					}
				}
			}
		}
	}
}

func waitingAfter(s Schedule, day, kind int) int {
	n := 0
	for _, e := range s.Entries {
		if e.Kind == kind && e.Day > day {
			n += e.Count
		}
	}
	for _, l := range s.Waiting {
		if l.Kind == kind {
			n += l.Count
		}
	}
	return n
}

// takesMore simulates what went into a cabinet by a day and one entry more.
func takesMore(t failer, w Want, s Schedule, at Place, day int, more Entry) bool {
	f, kg := w.Freezers[at.Freezer], 0.0
	var in []Batch
	share := 0.0
	for _, e := range append(slices.Clone(s.Entries), more) {
		if e.Place != at {
			continue
		}
		kg += float64(e.Count) * w.Kinds[e.Kind].Pack.MassKg
		if e.Day > day {
			continue
		}
		if e.Day == day {
			share += float64(e.Count) / s.Intakes[at.Freezer][e.Kind]
		}
		kind := w.Kinds[e.Kind]
		if e.InS > kind.ReadyS {
			kind.Pack.StartC = min(kind.Pack.StartC, w.HoldC)
		}
		in = append(in, Batch{Pack: kind.Pack, Placing: kind.Placing, Count: e.Count, InS: e.InS})
	}
	if kg > f.RoomKg || share > mostShare {
		return false
	}
	lim := w.Limits.in(f)
	got, err := f.Load(in, Ask{CoreC: lim.CoreC, Side: lim.Side})
	if err != nil {
		t.Errorf("%v", err)
	}
	for _, b := range got.Batches {
		if !b.Reached || b.TimeS > lim.WithinS || b.RewarmedC > max(lim.StockC, lim.CoreC) {
			return false
		}
	}
	return got.StockPeakC <= lim.StockC || f.Stock.MassKg == 0
}
