package netcontents_test

import (
	"errors"
	"math"
	"testing"

	"kettlefrost/internal/netcontents"
	"kettlefrost/internal/unit"
)

// TestSamplingPlan: NIST Handbook 133, table 2-1, category A (from memory). The last column is Student's t at 0.975 with n-1 over the square
// root of n, by R 4.2 (qt): the printed factor may be off by its last digit.
func TestSamplingPlan(t *testing.T) {
	for _, c := range []struct {
		lots            []int
		sample, allowed int
		factor, byT     float64
	}{
		{[]int{2}, 2, 0, 8.984, 8.984644}, {[]int{3}, 3, 0, 2.484, 2.484138}, {[]int{4}, 4, 0, 1.591, 1.591223}, {[]int{5}, 5, 0, 1.241, 1.241664},
		{[]int{6}, 6, 0, 1.050, 1.049436}, {[]int{7}, 7, 0, 0.925, 0.924846}, {[]int{8}, 8, 0, 0.836, 0.836021}, {[]int{9}, 9, 0, 0.769, 0.768669},
		{[]int{10}, 10, 0, 0.715, 0.715357}, {[]int{11}, 11, 0, 0.672, 0.671809},
		{[]int{12, 60, 250}, 12, 0, 0.635, 0.635370}, {[]int{251, 3200}, 24, 0, 0.422, 0.422263}, {[]int{3201, 100_000}, 48, 1, 0.291, 0.290370},
	} {
		for _, lot := range c.lots {
			terms := ounces24
			terms.Lot = lot
			p, err := terms.Plan()
			if err != nil {
				t.Fatal(err)
			}
			stage := p.Stages[0]
			if len(p.Stages) != 1 || p.Sample() != c.sample || p.Average != c.sample || stage.Accept != c.allowed || stage.Reject != c.allowed+1 || p.Factor != c.factor {
				t.Errorf("lot of %d: %+v", lot, p)
			}
			near(t, "factor by t", p.Factor, c.byT, 0.0007)
		}
	}
}

// TestDirectivePlan: Directive 76/211/EEC, annex II, 2.2 (from memory) and 2.3; t at 0.995 over the square root of n by R 4.2.
func TestDirectivePlan(t *testing.T) {
	for _, c := range []struct {
		lot         int
		destructive bool
		stages      []netcontents.Stage
		average     int
		byT         float64
	}{
		{100, false, []netcontents.Stage{{30, 1, 3}, {30, 4, 5}}, 30, 0.5032449}, {500, false, []netcontents.Stage{{30, 1, 3}, {30, 4, 5}}, 30, 0.5032449},
		{501, false, []netcontents.Stage{{50, 2, 5}, {50, 6, 7}}, 50, 0.3790024}, {3200, false, []netcontents.Stage{{50, 2, 5}, {50, 6, 7}}, 50, 0.3790024},
		{3201, false, []netcontents.Stage{{80, 3, 7}, {80, 8, 9}}, 50, 0.3790024}, {400, true, []netcontents.Stage{{20, 1, 2}}, 20, 0.6397244},
	} {
		terms := e500
		terms.Lot, terms.Destructive = c.lot, c.destructive
		p, err := terms.Plan()
		if err != nil {
			t.Fatal(err)
		}
		if len(p.Stages) != len(c.stages) || p.Stages[0] != c.stages[0] || p.Stages[len(p.Stages)-1] != c.stages[len(c.stages)-1] || p.Average != c.average {
			t.Errorf("lot of %d: %+v", c.lot, p)
		}
		near(t, "factor", p.Factor, c.byT, 0.0005)
	}
}

// TestSmallDirectiveLots: under 100 all are weighed, the mean may not be short at all, and one pack in forty may be short of the tolerable
// error (annex I, from memory): 0 of 39, 1 of 40, 2 of 80.
func TestSmallDirectiveLots(t *testing.T) {
	for lot, accept := range map[int]int{1: 0, 39: 0, 40: 1, 79: 1, 80: 2, 99: 2} {
		terms := e500
		terms.Lot = lot
		p, err := terms.Plan()
		if err != nil {
			t.Fatal(err)
		}
		if want := (netcontents.Stage{Packs: lot, Accept: accept, Reject: accept + 1}); len(p.Stages) != 1 || p.Stages[0] != want || p.Average != lot || p.Factor != 0 || !p.Twice {
			t.Errorf("lot of %d: %+v, want all weighed and %d accepted", lot, p, accept)
		}
	}
}

// TestMAV: rows of NIST Handbook 133, table 2-5 (from memory), at their ends, in pounds and in grams. 8 oz gives 7/16 oz and 113 g gives 7 g in
// quotations of it.
func TestMAV(t *testing.T) {
	lb := func(hundredths int) unit.Mass { return unit.Mass(hundredths) * (unit.Pound / 100) }
	for _, c := range []struct {
		label unit.Mass
		in    unit.System
		wantG float64
		room  float64
	}{
		{lb(7), unit.US, 3.1751, 1e-4}, {g(35), unit.Metric, 3.5, 0}, // a tenth
		{lb(8), unit.US, 0.008 * 453.59237, 1e-9}, {lb(12), unit.US, 0.008 * 453.59237, 1e-9}, {lb(12) + 1, unit.US, 0.012 * 453.59237, 1e-9},
		{g(36), unit.Metric, 3.6, 0}, {g(54), unit.Metric, 3.6, 0}, {g(54.001), unit.Metric, 5.4, 0},
		{8 * unit.Ounce, unit.US, 7.0 / 16 * 28.349523125, 0.31}, {g(113), unit.Metric, 7.2, 0}, // 0.028 lb is 12.70 g, 7/16 oz is 12.40 g
		{24 * unit.Ounce, unit.US, 25.4, 0.0012}, {g(680), unit.Metric, 25.4, 0}, {g(454), unit.Metric, 19.9, 0}, {unit.Pound, unit.US, 19.9, 0.06},
		{g(970), unit.Metric, 31.7, 0}, {lb(1770), unit.US, 0.28 * 453.59237, 1e-9}, {g(8028), unit.Metric, 127, 0},
	} {
		got, err := netcontents.MAV(c.label, c.in)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "MAV of "+c.label.String(), float64(got)/float64(unit.Gram), c.wantG, c.room)
	}
	var table *netcontents.TableError
	for _, in := range []unit.System{unit.US, unit.Metric} {
		if _, err := netcontents.MAV(lb(1770)+unit.Gram, in); !errors.As(err, &table) {
			t.Errorf("17.7 lb and more: got %v, want a *TableError", err)
		}
	}
}

// TestMAVRowsAgree: every gram figure is its pound figure truncated, to a tenth or, from 49 g on, to a whole gram; so the two columns, read
// for the same label, never differ by a gram, and the one in grams is never the larger.
func TestMAVRowsAgree(t *testing.T) {
	for hundredths := 8; hundredths <= 1770; hundredths++ {
		label := unit.Mass(hundredths) * (unit.Pound / 100)
		us, err := netcontents.MAV(label, unit.US)
		if err != nil {
			t.Fatal(err)
		}
		metric, err := netcontents.MAV(label/unit.Gram*unit.Gram, unit.Metric) // the truncated label
		if err != nil {
			t.Fatal(err)
		}
		if d := float64(us-metric) / float64(unit.Gram); d < 0 || d > 1 {
			t.Errorf("%d hundredths of a pound: %s in pounds, %s in grams", hundredths, us, metric)
		}
	}
}

// TestTNE: Directive 76/211/EEC, annex I, 2.4, worked by hand from its bands.
func TestTNE(t *testing.T) {
	for _, c := range []struct{ nominal, want float64 }{
		{5, 0.5}, {25, 2.3}, {50, 4.5}, {100, 4.5}, {150, 6.8}, {200, 9}, {250, 9}, {300, 9}, {330, 9.9}, {350, 10.5}, {400, 12}, {450, 13.5},
		{475, 14.3}, {500, 15}, {750, 15}, {1000, 15}, {1200, 18}, {10_000, 150},
	} {
		got, err := netcontents.TNE(g(c.nominal))
		if err != nil {
			t.Fatal(err)
		}
		if got != g(c.want) {
			t.Errorf("TNE of %g g: got %s, want %g g", c.nominal, got, c.want)
		}
	}
	var table *netcontents.TableError
	for _, nominal := range []float64{4.9, 10_000.1} {
		if _, err := netcontents.TNE(g(nominal)); !errors.As(err, &table) {
			t.Errorf("%g g: got %v, want a *TableError", nominal, err)
		}
	}
}

// TestChance holds the chances to R 4.2: the average to pt with a noncentral t, the count to pbinom.
func TestChance(t *testing.T) {
	for _, c := range []struct {
		rules netcontents.Rules
		lot   int
		u     float64 // overfill in standard deviations
		want  float64
	}{ // 1 - pt(-k sqrt(n), n-1, sqrt(n) u)
		{netcontents.Handbook133, 2, -1, 0.909413858}, {netcontents.Handbook133, 2, 0.5, 0.991146618}, {netcontents.Handbook133, 3, -0.5, 0.921060767},
		{netcontents.Handbook133, 5, -0.3, 0.923829580}, {netcontents.Handbook133, 100, -0.3, 0.843316106}, {netcontents.Handbook133, 100, 0, 0.974944017},
		{netcontents.Handbook133, 100, 0.2, 0.995280294}, {netcontents.Handbook133, 300, 0.1, 0.992428593}, {netcontents.Handbook133, 4000, -0.1, 0.900663201},
		{netcontents.Directive76211, 400, -0.2, 0.938264222}, {netcontents.Directive76211, 600, 0.1, 0.999442307},
		{netcontents.OwnCheck, 100, 1.6448536 / math.Sqrt(12), 0.95}, // normal
	} {
		terms := netcontents.Terms{Rules: c.rules, Lot: c.lot, Label: g(500)}
		p, err := terms.Plan()
		if err != nil {
			t.Fatal(err)
		}
		near(t, "chance by the average", p.Chance(2*c.u, 2).Average, c.want, 1e-7)
	}
	for _, c := range []struct {
		terms      netcontents.Terms
		short      float64 // standard deviations from the mean down to the shortfall, so that a share of p is short
		want, room float64
	}{
		{netcontents.Terms{Rules: netcontents.Directive76211, Lot: 600, Label: g(500)}, 2.053748911, 0.9945718877, 1e-8}, // p = 0.02
		{netcontents.Terms{Rules: netcontents.Handbook133, Lot: 4000, Label: g(500)}, 2.326347874, 0.9165823305, 1e-8},   // p = 0.01
		{netcontents.Terms{Rules: netcontents.Handbook133, Lot: 100, Label: g(500)}, 2.747781385, 0.9645880999, 1e-8},    // p = 0.003
	} {
		p, err := c.terms.Plan()
		if err != nil {
			t.Fatal(err)
		}
		spreadG := float64(p.Shortfall) / float64(unit.Gram) / c.short
		near(t, "chance by the count", p.Chance(0, spreadG).Packs, c.want, c.room)
	}
}

// TestChanceByToleranceFactors: one-sided tolerance factors for a normal distribution at 95 % confidence (G. J. Hahn and W. Q. Meeker, and
// every quality text; from memory) are the same integral: with a factor K for n values, a mean z under the limit passes in 95 of 100.
func TestChanceByToleranceFactors(t *testing.T) {
	for _, c := range []struct {
		n    int
		k, z float64
	}{{10, 2.355, 1.28155}, {10, 2.911, 1.64485}, {10, 3.981, 2.32635}, {20, 2.396, 1.64485}, {30, 2.220, 1.64485}, {50, 2.065, 1.64485}} {
		p := netcontents.Plan{Average: c.n, Factor: c.k, Stages: []netcontents.Stage{{Packs: c.n, Accept: c.n, Reject: c.n + 1}}}
		near(t, "confidence", p.Chance(-c.z, 1).Average, 0.95, 2e-4)
	}
}
