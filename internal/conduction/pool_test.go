package conduction

import (
	"math"
	"testing"

	"kettlefrost/internal/heat"
)

func fourBags() (Pool, []Batch) {
	const areaM2 = 0.68 / (1030 * 0.0254)
	return Pool{StartC: 95, HeatCapacityJK: 10 * 0.962 * 4210, SetC: 95, PowerW: 2500, AmbientC: 20},
		[]Batch{{Body: slabOf(soupHot, -18, 0.0254, Face{FilmWM2K: 435}), Count: 4 * areaM2}}
}

// Four bags in ten litres on a weak burner (section 7.6 of the thermal reference, derived with the bath as one node): the water dips.
func TestBagsInTenLitres(t *testing.T) {
	pool, batches := fourBags()
	for acc, tol := range map[Accuracy]float64{Engineering: 0.01, Fine: 0.003} {
		r, err := pool.Simulate(batches, Ask{CoreC: 73.9, Accuracy: acc})
		if err != nil {
			t.Fatal(err)
		}
		near(t, "minutes to 73.9 °C", r.Batches[0].TimeS/60, 23.2667, tol)
		lowest := 100.0
		for _, p := range r.Points {
			lowest = min(lowest, p.TempC)
		}
		within(t, "lowest water temperature", lowest, 91.2884, 0.2)
		if r.Closure > 1e-9 {
			t.Errorf("balance closes to %g", r.Closure)
		}
	}
}

// Thin, well-conducting bodies and a pool are two lumps: C1 dT1/dt = -hA(T1-T2) and the same the other way. Their difference falls off
// with hA(1/C1+1/C2), they meet at the mean.
func TestTwoLumps(t *testing.T) {
	m := mustSolid(1000, 4000, 50)
	const sizeM, film, count, poolJK = 0.01, 20.0, 3.0, 60e3
	bodyJK := 1000 * 4000 * sizeM * count
	meetC := (bodyJK*60 + poolJK*10) / (bodyJK + poolJK)
	rate := 2 * film * count * (1/bodyJK + 1/poolJK)
	r, err := Pool{StartC: 10, HeatCapacityJK: poolJK}.Simulate(
		[]Batch{{Body: slabOf(m, 60, sizeM, Face{FilmWM2K: film}), Count: count}}, Ask{CoreC: meetC + 2, MarksC: []float64{50, 47}, Accuracy: Fine})
	if err != nil {
		t.Fatal(err)
	}
	at := func(tempC float64) float64 { return math.Log((60-meetC)/(tempC-meetC)) / rate }
	near(t, "to 50 °C", r.Batches[0].Passed[0].TimeS, at(50), 2e-3) // Bi = 0.002
	near(t, "to 47 °C", r.Batches[0].Passed[1].TimeS, at(47), 2e-3)
	near(t, "to the end", r.Batches[0].TimeS, at(meetC+2), 2e-3)
}

// A pool so large that it does not change is a medium.
func TestLargePoolIsAMedium(t *testing.T) {
	for _, c := range []struct {
		pool, own Body
		coreC     float64
	}{
		{slabOf(soupCold, 5, 0.0254, Face{FilmWM2K: 8}), slabOf(soupCold, 5, 0.0254, in(8, -18)), -15},
		{panOf(soupCold, 5, 0.0254, Face{FilmWM2K: 8}, in(30, -25)), panOf(soupCold, 5, 0.0254, in(8, -18), in(30, -25)), -15},
		{brickOf(soupCold, 5, Face{FilmWM2K: 20}, 0.03, 0.05), brickOf(soupCold, 5, in(20, -18), 0.03, 0.05), -15},
	} {
		r, err := Pool{StartC: -18, HeatCapacityJK: 1e10}.Simulate([]Batch{{Body: c.pool, Count: 1}}, Ask{CoreC: c.coreC})
		if err != nil {
			t.Fatal(err)
		}
		want, err := c.own.Simulate(Ask{CoreC: c.coreC})
		if err != nil {
			t.Fatal(err)
		}
		near(t, "time", r.Batches[0].TimeS, want.TimeS, 5e-3)
	}
}

// Ice holds 0 °C until it has melted: what melts is what bodies and room gave, over the heat of fusion.
func TestIceBath(t *testing.T) {
	pool := Pool{StartC: 0, HeatCapacityJK: 20 * 4186, IceKg: 15, LossWK: 3, AmbientC: 21}
	r, err := pool.Simulate([]Batch{{Body: slabOf(soupHot, 57.2, 0.0254, Face{FilmWM2K: 300}), Count: 0.5}}, Ask{CoreC: 5, MarksC: []float64{21.1}})
	if err != nil {
		t.Fatal(err)
	}
	bag := r.Batches[0]
	last := r.Points[len(r.Points)-1]
	within(t, "pool with ice in it", last.TempC, 0, 0)
	near(t, "ice melted", 15-last.IceKg, (0.5*bag.GivenOffJ+3*21*bag.TimeS)/heat.LatentHeatIceJKg, 1e-6)
	own, err := slabOf(soupHot, 57.2, 0.0254, in(300, 0)).Simulate(Ask{CoreC: 5})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "as in a medium of 0 °C", bag.TimeS, own.TimeS, 5e-3)

	pool.IceKg = 2 // melts early: then the bath warms
	r, err = pool.Simulate([]Batch{{Body: slabOf(soupHot, 57.2, 0.0254, Face{FilmWM2K: 300}), Count: 0.5}}, Ask{CoreC: 5, WithinS: 7200})
	if err != nil {
		t.Fatal(err)
	}
	last = r.Points[len(r.Points)-1]
	if r.Batches[0].Reached || last.IceKg != 0 || last.TempC < 5 || r.Closure > 1e-9 {
		t.Errorf("with too little ice: reached %v, ice %g kg, %g °C, balance %g", r.Batches[0].Reached, last.IceKg, last.TempC, r.Closure)
	}
}

// A freezer with old stock: too much fresh food for its machine warms air and stock. Half of the machine's power is half of the pull
// while it runs flat out, so it takes about twice as long; the energy balance closes and the thermostat holds at the end.
func TestFreezerPullDown(t *testing.T) {
	load := func(powerW float64) PoolResult {
		freezer := Pool{StartC: -18, HeatCapacityJK: 20e3, SetC: -18, PowerW: powerW, Cools: true, LossWK: 1, AmbientC: 21}
		fresh := slabOf(soupCold, 5, 0.0254, Face{FilmWM2K: 10})
		stock := slabOf(soupCold, -18, 0.1, Face{FilmWM2K: 5})
		r, err := freezer.Simulate([]Batch{{Body: fresh, Count: 1}, {Body: stock, Count: 0.2}, {Body: fresh, Count: 0.3, InS: 4 * 3600}},
			Ask{CoreC: -15, MarksC: []float64{-1}})
		if err != nil {
			t.Fatal(err)
		}
		if r.Closure > 1e-9 {
			t.Errorf("balance closes to %g", r.Closure)
		}
		return r
	}
	strong, weak := load(2000), load(200)
	if !strong.Batches[0].Reached || !weak.Batches[0].Reached || strong.Batches[1].Reached {
		t.Error("fresh bags freeze, stock has nothing to reach")
	}
	if weak.Batches[0].TimeS < 1.5*strong.Batches[0].TimeS {
		t.Errorf("%g s with 200 W, %g s with 2 kW", weak.Batches[0].TimeS, strong.Batches[0].TimeS)
	}
	alone, err := slabOf(soupCold, 5, 0.0254, in(10, -18)).Simulate(Ask{CoreC: -15})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "with power to spare as alone", strong.Batches[0].TimeS, alone.TimeS, 0.02)
	near(t, "the later batch too, from when it came in", strong.Batches[2].TimeS, alone.TimeS, 0.02)
	warmest := -18.0
	for _, p := range weak.Batches[1].Points {
		warmest = max(warmest, p.CoreC)
	}
	if !(warmest > -15) {
		t.Errorf("stock stays at %g °C although the machine is too weak", warmest)
	}
	// While it runs flat out the machine carries off its power: the heat of the bags and of the walls over the time.
	given := weak.Batches[0].GivenOffJ + 0.3*weak.Batches[2].GivenOffJ
	if end := weak.Points[len(weak.Points)-1].TimeS; given > 200*end {
		t.Errorf("bags gave %g J in %g s to a machine of 200 W", given, end)
	}
}
