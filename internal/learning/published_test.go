package learning

import (
	"math"
	"testing"
)

func near(t *testing.T, what string, got, want, room float64) {
	t.Helper()
	if !(math.Abs(got-want) <= room) {
		t.Errorf("%s: got %.10g, want %.10g ± %g", what, got, want, room)
	}
}

func runsOf(values ...float64) []Run {
	runs := make([]Run, len(values))
	for i, x := range values {
		runs[i] = Run{ID: string(rune('a' + i)), Value: x}
	}
	return runs
}

// Hoff, A First Course in Bayesian Statistical Methods, 5.3 (from memory): wing lengths of nine midges, prior 1.9 worth one, variance 0.01
// worth one: mean 1.814, variance 0.015.
func TestHoffMidges(t *testing.T) {
	p, err := Update(Prior{Value: 1.9, Runs: 1, SD: 0.1, SDRuns: 1}, runsOf(1.64, 1.70, 1.72, 1.74, 1.82, 1.82, 1.82, 1.90, 2.08), Options{Cover: 0.95})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "mean of the runs", p.MeanRuns, 1.804, 0.0005)
	near(t, "mean", p.After, 1.814, 0.0005)
	near(t, "variance", p.SDAfter*p.SDAfter, 0.015, 0.0005)
	near(t, "low", p.True.Low, 1.727, 0.0015) // the book prints the 95 % interval (1.73, 1.90) from draws
	near(t, "high", p.True.High, 1.901, 0.0015)
	near(t, "weight", p.Weight, 0.9, 1e-15)
}

// NIST/SEMATECH e-Handbook 1.3.5.17.1 (from memory): readings of uranium isotopes. G 2.4687 against 2.032, which is one-sided at 5 %, so
// two-sided at 10 %.
func TestGrubbsHandbook(t *testing.T) {
	i, g, limit := farthest([]float64{199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57}, 0.10)
	if i != 7 {
		t.Errorf("the farthest is number %d", i)
	}
	near(t, "G", g, 2.4687, 1e-4)
	near(t, "critical", limit, 2.032, 0.0005)
}

// Critical values of Grubbs' test, one-sided at 5 % (Grubbs and Beck 1972; from memory), that is two-sided at 10 %.
func TestGrubbsTable(t *testing.T) {
	for n, want := range map[int]float64{3: 1.153, 4: 1.463, 5: 1.672, 6: 1.822, 7: 1.938, 8: 2.032, 9: 2.110, 10: 2.176, 15: 2.409, 20: 2.557, 30: 2.745} {
		near(t, "critical", Grubbs(n, 0.10), want, 0.001) // older tables are off by one in the last digit
	}
}

// Critical values of Cochran's largest variance at 5 % (Eisenhart and others 1947; from memory), which the F test is by
// C = 1 / (1 + (k-1)/F).
func TestCochranTable(t *testing.T) {
	for _, c := range []struct {
		k, count int
		want     float64
	}{{2, 2, 0.9985}, {2, 3, 0.9750}, {2, 5, 0.9057}, {3, 2, 0.9669}, {3, 3, 0.8709}, {3, 5, 0.7457}, {4, 3, 0.7679}, {4, 5, 0.6287}, {5, 3, 0.6838}, {5, 5, 0.5441}} {
		runs := make([]Weighed, c.k)
		for i := range runs {
			runs[i] = Weighed{Count: c.count, SD: 1}
		}
		runs[0].SD = 1e6 // so that it is asked, with its limit
		s, err := UpdateSpread(0, 0, runs, Options{})
		if err != nil || len(s.Asked) != 1 {
			t.Fatalf("%+v (%v)", s, err)
		}
		near(t, "critical", 1/(1+float64(c.k-1)/s.Asked[0].Limit), c.want, 0.0001)
	}
}
