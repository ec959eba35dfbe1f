package conduction

import (
	"math"
	"strconv"
	"testing"
)

func itoa(n int) string { return strconv.Itoa(n) }

// fixed is a march whose steps a test chooses.
func fixed(b *Body, cells int) (*march, *field) {
	f := newField(b, cells, true, true)
	m := newMarch(settings{cells, 1, 1e-9}, []*field{f}, 1)
	m.limit(3e5, 1e9, true)
	return m, f
}

// lasting is the core temperature and the mean enthalpy after so many equal steps.
func lasting(t testing.TB, b Body, cells, steps int, timeS float64) (coreC, meanJKg float64) {
	m, f := fixed(&b, cells)
	for range steps {
		if _, ok, err := m.trial(timeS / float64(steps)); err != nil || !ok {
			t.Fatal(ok, err)
		}
		m.accept(timeS / float64(steps))
	}
	return f.core[now], f.meanJKg(now)
}

func order(coarse, middle, fine float64) float64 {
	return math.Log2(math.Abs((coarse - middle) / (middle - fine)))
}

// Second order in the steps, also where directions are split, and in the cells: measured by halving twice. Where the food freezes
// meanwhile the front crosses cell after cell, and the order is a little lower or higher from one refinement to the next.
func TestOrders(t *testing.T) {
	plain := mustSolid(1000, 4000, 0.5)
	for _, c := range []struct {
		name    string
		b       Body
		timeS   float64
		cells   int
		steps   int
		inTime  float64
		inSpace float64
	}{
		{"slab, chilled", slabOf(plain, 57, 0.05, in(20, 0)), 4000, 10, 20, 1.8, 1.8},
		{"slab, faces differ", panOf(plain, 57, 0.05, in(20, 0), in(5, 10)), 4000, 10, 20, 1.8, 1.8},
		{"bar in two directions", brickOf(plain, 57, in(20, 0), 0.05, 0.07), 3000, 8, 20, 1.8, 1.8},
		{"slab, freezing and frozen", slabOf(gel, 5, 0.03, in(25, -25)), 8000, 12, 100, 1.5, 1.5},
		{"bar, freezing and frozen", brickOf(gel, 5, in(25, -25), 0.03, 0.05), 6000, 8, 100, 1.5, 1.5},
	} {
		_, a1 := lasting(t, c.b, c.cells, c.steps, c.timeS)
		_, a2 := lasting(t, c.b, c.cells, 2*c.steps, c.timeS)
		_, a3 := lasting(t, c.b, c.cells, 4*c.steps, c.timeS)
		inTime := order(a1, a2, a3)
		s1, _ := lasting(t, c.b, c.cells, 200, c.timeS)
		s2, _ := lasting(t, c.b, 2*c.cells, 200, c.timeS)
		s3, _ := lasting(t, c.b, 4*c.cells, 200, c.timeS)
		inSpace := order(s1, s2, s3)
		t.Logf("%s: order %.2f in time, %.2f in space", c.name, inTime, inSpace)
		if inTime < c.inTime {
			t.Errorf("%s: order %.2f in time, want %g", c.name, inTime, c.inTime)
		}
		if inSpace < c.inSpace {
			t.Errorf("%s: order %.2f in space, want %g", c.name, inSpace, c.inSpace)
		}
	}
}

// The promise of an Accuracy, against a grid and steps several times finer still: films from still air to steam, thin and thick,
// freezing, thawing, reheating, chilling.
func TestAccuracy(t *testing.T) {
	finest := settings{110, 4e-5, 1e-7}
	worst := map[Accuracy]float64{}
	for _, c := range []struct {
		name           string
		m              Material
		mediumC, coreC float64
		startC         float64
	}{{"freezing", gel, -25, -15, 5}, {"reheating", soupHot, 95, 73.9, -18}, {"chilling", soupHot, 3, 5, 57.2}, {"thawing", braiseHot, 15, 0, -18}} {
		for _, film := range []float64{3, 20, 150, 1000} {
			for _, b := range []Body{slabOf(c.m, c.startC, 0.03, in(film, c.mediumC)), slabOf(c.m, c.startC, 0.1, in(film, c.mediumC)),
				panOf(c.m, c.startC, 0.05, in(film, c.mediumC), in(8, c.mediumC)), stackOf(c.m, c.startC, 0.075, in(film, c.mediumC), 3, 0.02)} {
				want := run(t, b, finest, c.coreC).TimeS
				for acc, tol := range map[Accuracy]float64{Engineering: 0.01, Fine: 0.001} {
					got, err := coreTime(b, c.coreC, acc)()
					if err != nil {
						t.Fatal(err)
					}
					near(t, c.name+", h "+strconv.FormatFloat(film, 'g', 4, 64), got, want, tol)
					worst[acc] = max(worst[acc], math.Abs(got/want-1))
				}
			}
		}
	}
	t.Logf("worst: engineering %.2f %%, fine %.3f %%", 100*worst[Engineering], 100*worst[Fine])
}

// A mark is landed on, so what is read off does not depend on where the steps fell: asking for more marks changes nothing beyond the
// accuracy, and at a mark the core is there.
func TestMarksAreExact(t *testing.T) {
	b := slabOf(soupCold, 20, 0.0254, in(8, -18))
	marks := []float64{-12, 10, -1, 30, -17, 5, -10}
	r, err := b.Simulate(Ask{CoreC: -15, MarksC: marks})
	if err != nil {
		t.Fatal(err)
	}
	for i, p := range r.Passed {
		if p.TempC != marks[i] {
			t.Fatalf("mark %d is %g", i, p.TempC)
		}
		if want := p.TempC <= 20 && p.TempC >= -15; p.Reached != want {
			t.Errorf("%g °C reached: %v", p.TempC, p.Reached)
			continue
		}
		if !p.Reached {
			within(t, "followed", p.TimeS, r.TimeS, 0)
			continue
		}
		alone, err := b.Simulate(Ask{CoreC: p.TempC})
		if err != nil {
			t.Fatal(err)
		}
		near(t, "the same mark alone", alone.TimeS, p.TimeS, 0.004)
		for _, at := range r.Points {
			if at.TimeS == p.TimeS {
				within(t, "core at its mark", at.CoreC, p.TempC, 1e-4)
			}
		}
	}
	for i := 1; i < len(r.Points); i++ {
		if r.Points[i].TimeS <= r.Points[i-1].TimeS || r.Points[i].CoreC > r.Points[i-1].CoreC {
			t.Errorf("points %v %v", r.Points[i-1], r.Points[i])
		}
	}
	if len(r.Profiles) != 7 { // start, five marks, end
		t.Errorf("%d profiles", len(r.Profiles))
	}
}

// Marching allocates nothing.
func TestNoAllocation(t *testing.T) {
	for _, b := range []Body{slabOf(soupCold, 5, 0.0254, in(8, -18)), panOf(soupHot, 57, 0.05, in(8, 3), Face{10, Steady(3), 1}), brickOf(gel, 5, in(8, -18), 0.03, 0.05, 0.05)} {
		m, _ := fixed(&b, 6)
		if n := testing.AllocsPerRun(10, func() {
			if _, ok, err := m.trial(20); err != nil || !ok {
				t.Fatal(ok, err)
			}
			m.accept(20)
		}); n > 0 {
			t.Errorf("%g allocations a step", n)
		}
	}
}
