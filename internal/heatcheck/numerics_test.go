package heatcheck

import (
	"fmt"
	"math"

	"kettlefrost/internal/conduction"
	"kettlefrost/internal/heat"
)

func (l *lab) numerics() section {
	s := section{title: "The numerics themselves",
		intro: "What the simulation promises of itself, measured in the same run: energy, order of convergence, and the two accuracies that " +
			"can be asked for."}
	l.accuracyLines(&s)
	l.orderLines(&s)
	l.closureLine(&s)
	s.note("Bodies of three directions are in the first two lines only: at the fine accuracy they take seconds each.")
	s.note("Against a second program the error holds its own error too, some 0.05 to 0.5 %. The largest are open pans, whose evaporation " +
		"below 37.8 °C the other program takes differently. The two accuracies against each other are free of that.")
	s.note("Orders are measured by halving twice. Cells: a slab cut into 12, 24 and 48 layers that touch, which makes as many cells from " +
		"its middle to a face. " +
		"Steps: asking for 50, 100 and 200 moments on the way. Where food freezes, the front steps through the cells, and the order is a little lower or higher from one refinement to the next.")
	s.note("How much faster this is than a plain explicit scheme of the same accuracy is a benchmark, not a test: " +
		"`go test -run '^$' -bench Bag ./internal/conduction` reports it as explicit/own, with the errors of both.")
	return s
}

// closureLine: the number itself is noise of the machine, so it is given as a power of ten that is well above it.
func (l *lab) closureLine(s *section) {
	largest := 1e-13
	for _, c := range l.closures {
		largest = math.Max(largest, c)
	}
	var err error
	if len(l.closures) < 300 {
		err = fmt.Errorf("only %d energy balances", len(l.closures))
	}
	power := math.Ceil(math.Log10(3 * largest))
	s.add("energy that is missing, as a part of what moved: largest of all the runs that say", "", source{"what one cell loses the next one gains", exact},
		between(-20, -9).reading("below 1e-9"), from(power, err).beside("0", fmt.Sprintf("below 1e%g", power)))
}

// accuracyLines: every case above with an independent answer, at both accuracies. What is promised is 1 and 0.1 % of the exact answer.
func (l *lab) accuracyLines(s *section) {
	var all, exactly, fineExactly, programs, finePrograms, between2 spread
	var failed error
	for _, c := range l.cases {
		engineering := 100 * math.Abs(c.engineeringS/c.wantS-1)
		all.add(engineering)
		if len(c.body.Axes) > 2 {
			continue
		}
		r, err := l.run(c.body, conduction.Ask{CoreC: c.coreC, Accuracy: conduction.Fine})
		if err != nil {
			failed = err
			continue
		}
		fine := 100 * math.Abs(r.TimeS/c.wantS-1)
		if c.exact {
			exactly.add(engineering)
			fineExactly.add(fine)
		} else {
			programs.add(engineering)
			finePrograms.add(fine)
		}
		between2.add(100 * math.Abs(c.engineeringS/r.TimeS-1))
	}
	series, second := source{"exact series", exact}, source{"second programs and textbooks", derived}
	for _, line := range []struct {
		what               string
		of                 spread
		src                source
		meanWithin, within float64
		promise            string
	}{
		{"usual accuracy, all cases with an answer of somebody else", all, source{"all of the above", derived}, 0.5, 3, "–"},
		{"usual accuracy against exact series", exactly, series, 0.5, 1, "1 % promised"},
		{"fine accuracy against exact series", fineExactly, series, 0.05, 0.1, "0.1 % promised"},
		{"usual accuracy against second programs", programs, second, 0.5, 3, "–"},
		{"fine accuracy against second programs", finePrograms, second, 0.3, 3, "–"},
		{"usual against fine accuracy", between2, source{"each other", exact}, 0.5, 1.1, "1.1 % promised"},
	} {
		if line.of.n < 20 && failed == nil {
			failed = fmt.Errorf("only %d cases", line.of.n)
		}
		s.add(fmt.Sprintf("%s (%d cases), mean error", line.what, line.of.n), "%", line.src, between(0, line.meanWithin),
			from(rounded(line.of.mean()), failed).beside("–", ""))
		s.add(fmt.Sprintf("%s, largest error", line.what), "%", line.src, between(0, line.within),
			from(rounded(line.of.largest), failed).beside(line.promise, ""))
	}
}

// rounded is to two figures, as errors are.
func rounded(x float64) float64 {
	if !(x > finest) {
		return finest
	}
	unit := math.Pow(10, math.Floor(math.Log10(x))-1)
	return math.Round(x/unit) * unit
}

// spread gathers errors.
type spread struct {
	n            int
	sum, largest float64
}

func (s *spread) add(off float64) { s.n, s.sum, s.largest = s.n+1, s.sum+off, math.Max(s.largest, off) }

func (s *spread) mean() float64 { return s.sum / float64(max(1, s.n)) }

// smooth is a slab whose order of convergence is measured.
type smooth struct {
	name                             string
	what                             any
	startC, sizeM, film, airC, coreC float64
	low, high                        float64 // order
}

func (l *lab) orderLines(s *section) {
	second := source{"the method is of second order", exact}
	for _, c := range []smooth{
		{"slab chilled, 57 to 21 °C in 0 °C", heat.Solid{DensityKgM3: 1000, SpecificHeatJKgK: 4000, ConductivityWMK: 0.5}, 57, 0.05, 20, 0, 21, 1.8, 2.2},
		{"gel slab 30 mm, 5 to −18 °C in −25 °C", gel, 5, 0.03, 25, -25, -18, 1.5, 2.5},
		{"bag of soup, 5 to −15 °C in −18 °C", soupCold, 5, 0.0254, 8, -18, -15, 1.5, 2.5},
	} {
		inCells, inSteps, err := l.orders(c)
		s.add("order of convergence in the cells, "+c.name, "", second, between(c.low, c.high), from(rounded(inCells), err).beside("2", ""))
		s.add("order of convergence in the steps, "+c.name, "", second, between(c.low, c.high), from(rounded(inSteps), err).beside("2", ""))
	}
}

// orders measures how fast the time changes with ever more cells at many steps, and with ever more steps on the same cells.
func (l *lab) orders(c smooth) (inCells, inSteps float64, err error) {
	body := slab(c.what, c.startC, c.sizeM, face(c.film, c.airC))
	usual, err := l.run(body, conduction.Ask{CoreC: c.coreC, Accuracy: conduction.Fine})
	if err != nil {
		return 0, 0, err
	}
	order := func(each func(k int) (conduction.Result, error)) (float64, error) {
		var s [3]float64
		for i, k := range []int{1, 2, 4} {
			r, err := each(k)
			if err != nil {
				return 0, err
			}
			s[i] = r.TimeS
		}
		return math.Log2(math.Abs((s[0] - s[1]) / (s[1] - s[2]))), nil
	}
	inCells, err = order(func(k int) (conduction.Result, error) {
		const touching = 1e-9 // m²·K/W
		layered := stack(c.what, c.startC, c.sizeM, face(c.film, c.airC), 12*k, touching)
		r, err := l.run(layered, conduction.Ask{CoreC: c.coreC, MarksC: moments(usual, 400)})
		if err == nil && r.Cells != 12*k {
			err = fmt.Errorf("%d cells, want %d", r.Cells, 12*k)
		}
		return r, err
	})
	if err != nil {
		return 0, 0, err
	}
	inSteps, err = order(func(k int) (conduction.Result, error) {
		return l.run(body, conduction.Ask{CoreC: c.coreC, MarksC: moments(usual, 50*k)})
	})
	return inCells, inSteps, err
}

// moments are the temperatures of the core at n equal spaces of time from a twentieth of the way on: asked for as marks, the simulation
// has to end a step on each.
func moments(r conduction.Result, n int) (all []float64) {
	for i := 1; i < n; i++ {
		timeS := r.TimeS * (0.05 + 0.95*float64(i)/float64(n))
		for j := 1; j < len(r.Points); j++ {
			if a, b := r.Points[j-1], r.Points[j]; a.TimeS <= timeS && timeS < b.TimeS {
				all = append(all, a.CoreC+(b.CoreC-a.CoreC)*(timeS-a.TimeS)/(b.TimeS-a.TimeS))
			}
		}
	}
	return all
}
