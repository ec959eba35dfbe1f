package trials

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"kettlefrost/internal/record"
	"kettlefrost/internal/tastetrial"
)

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if math.Abs(got-want) > within {
		t.Errorf("%s is %.9g, published is %.9g", what, got, want)
	}
}

// tasting is a trial of one scored figure in week 1, with a row of points for each taster.
func tasting(t *testing.T, rows [][]float64) Results {
	t.Helper()
	laid := record.TrialLaid{Trial: "t", Dish: "d", Asks: "which?", Figures: []record.Figured{{Figure: "texture", Unit: Points, Better: record.HighIsBetter, Matters: *decimal(0.1)}}, Weeks: []record.Week{1}, Packs: 1, Seed: 3}
	for i := range rows[0] {
		laid.Variants = append(laid.Variants, record.Variant{Name: string(rune('a' + i)), Change: "x"})
	}
	for i := range rows {
		laid.Tasters = append(laid.Tasters, fmt.Sprintf("taster %d", i+1))
	}
	d := newDiary(t).enter(laid)
	x := d.trial("t")
	for i, row := range rows {
		for v, points := range row {
			d.enter(score(x, laid.Tasters[i], 1, v, "texture", points))
		}
	}
	done := d.trial("t")
	if len(done.Found) > 0 {
		t.Fatal(done.Found)
	}
	return ResultsOf(done)
}

// Hollander and Wolfe 1973, p. 29, as scores of nine tasters for two variants: V 40, exact two-sided p 10/256, Hodges and Lehmann 0.46 with the
// interval 0.01 to 0.786. Of two variants of which none is the base the second is held against the first.
func TestTwoVariantsOfHollanderAndWolfe(t *testing.T) {
	x := []float64{1.83, 0.50, 1.62, 2.48, 1.68, 1.88, 1.55, 3.06, 1.30}
	y := []float64{0.878, 0.647, 0.598, 2.05, 1.06, 1.29, 1.06, 3.14, 1.29}
	var rows [][]float64
	for i := range x {
		rows = append(rows, []float64{y[i], x[i]})
	}
	r := tasting(t, rows)
	p := r.Figures[0].Pairs[0]
	near(t, "p", p.P, 0.0390625, 1e-12)
	near(t, "the estimate", p.Estimate, 0.46, 5e-7)
	near(t, "the low end", p.Low, 0.01, 5e-7)
	near(t, "the high end", p.High, 0.786, 5e-7)
	if p.Of != 1 || p.Against != 0 || p.Verdict != tastetrial.Some || !p.Better || !strings.Contains(p.Text, "better, 0.01 to 0.79 points; whether by what matters (0.1 points) cannot be told") {
		t.Errorf("%+v", p)
	}
}

// Student 1908, the hours of sleep of ten patients with two drugs, as grams of drip of ten pairs of packs (2 g added to all, which drip has to
// be at least 0 for): B less A has the mean 1.58, t 4.06213, p 0.00283289 and the interval 0.700114 to 2.459886.
func TestTwoVariantsOfStudent(t *testing.T) {
	a := []float64{0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0}
	b := []float64{1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4}
	d := newDiary(t).enter(record.TrialLaid{Trial: "t", Dish: "d", Asks: "which?", Variants: []record.Variant{{Name: "A", Change: "as in the book", Base: true}, {Name: "B", Change: "x"}},
		Figures: []record.Figured{{Figure: Drip, Unit: Grams, Better: record.LowIsBetter, Matters: *decimal(0.5)}}, Tasters: []string{"Nora"}, Weeks: []record.Week{2}, Packs: 10, Seed: 3})
	for i := range a {
		d.enter(pack("t", "A", 2, int64(i+1), a[i]+2), pack("t", "B", 2, int64(i+1), b[i]+2))
	}
	p := ResultsOf(d.trial("t")).Figures[0].Pairs[0]
	near(t, "the mean", p.Estimate, 1.58, 1e-9)
	near(t, "p", p.P, 0.00283289, 5e-9)
	near(t, "the low end", p.Low, 0.700114, 5e-7)
	near(t, "the high end", p.High, 2.459886, 5e-7)
	if p.Better || p.Verdict != tastetrial.MattersMore || p.Text != "worse by a difference that matters, 0.7 to 2.46 g" || p.ByRanks {
		t.Errorf("%+v", p)
	}
}

// Hollander and Wolfe 1973, p. 140: ways to round first base, 22 players, as scores of 22 tasters for three variants: rank sums 53, 47, 32,
// chi-square corrected for ties 11.142857, p 0.003805041, Kendall's W 0.2532468.
func TestThreeVariantsOfHollanderAndWolfe(t *testing.T) {
	const text = "5.40 5.50 5.55; 5.85 5.70 5.75; 5.20 5.60 5.50; 5.55 5.50 5.40; 5.90 5.85 5.70; 5.45 5.55 5.60; 5.40 5.40 5.35; 5.45 5.50 5.35; 5.25 5.15 5.00; 5.85 5.80 5.70;" +
		"5.25 5.20 5.10; 5.65 5.55 5.45; 5.60 5.35 5.45; 5.05 5.00 4.95; 5.50 5.50 5.40; 5.45 5.55 5.50; 5.55 5.55 5.35; 5.45 5.50 5.55; 5.50 5.45 5.25; 5.65 5.60 5.40;" +
		"5.70 5.65 5.55; 6.30 6.30 6.25"
	var rows [][]float64
	for line := range strings.SplitSeq(text, ";") {
		row := make([]float64, 3)
		if _, err := fmt.Sscan(line, &row[0], &row[1], &row[2]); err != nil {
			t.Fatal(err)
		}
		rows = append(rows, row)
	}
	f := tasting(t, rows).Figures[0].Compared.Friedman
	if f == nil {
		t.Fatal("the variants were not tested together")
	}
	for i, want := range []float64{53, 47, 32} {
		near(t, "a rank sum", f.RankSums[i], want, 1e-12)
	}
	near(t, "chi-square", f.ChiSquare, 11.142857, 5e-7)
	near(t, "p", f.PChiSquare, 0.003805041, 5e-10)
	near(t, "W", f.W, 0.2532468, 5e-8)
}
