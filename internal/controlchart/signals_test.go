package controlchart_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"kettlefrost/internal/controlchart"
)

// TestPatterns reads the rules as they are printed, on points that were made for them: centre 0, standard deviation 1.
func TestPatterns(t *testing.T) {
	for _, c := range []struct {
		name   string
		points []float64
		rule   controlchart.Rule
		want   []controlchart.Signal
	}{
		{"a point on the limit is not beyond it", []float64{0, 3, -3}, controlchart.BeyondLimits, nil},
		{"one beyond on each side", []float64{0, 3.1, 0, -3.1}, controlchart.BeyondLimits, []controlchart.Signal{
			{Rule: controlchart.BeyondLimits, Side: controlchart.High, Seen: 1, Points: []int{1}},
			{Rule: controlchart.BeyondLimits, Side: controlchart.Low, Seen: 3, Points: []int{3}}}},
		{"three on end are one signal", []float64{4, 4, 4}, controlchart.BeyondLimits, []controlchart.Signal{
			{Rule: controlchart.BeyondLimits, Side: controlchart.High, Seen: 0, Points: []int{0, 1, 2}}}},
		{"two of three, the middle one in order", []float64{0, 2.5, 0, 2.5}, controlchart.TwoOfThree, []controlchart.Signal{
			{Rule: controlchart.TwoOfThree, Side: controlchart.High, Seen: 3, Points: []int{1, 3}}}},
		{"two beyond on different sides", []float64{2.5, -2.5, 0}, controlchart.TwoOfThree, nil},
		{"two of four", []float64{2.5, 0, 0, 2.5}, controlchart.TwoOfThree, nil},
		{"four of five", []float64{-1.5, -1.5, 0.5, -1.5, -1.5, 0}, controlchart.FourOfFive, []controlchart.Signal{
			{Rule: controlchart.FourOfFive, Side: controlchart.Low, Seen: 4, Points: []int{0, 1, 3, 4}}}},
		{"eight, and the run goes on", []float64{-1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, -1}, controlchart.EightOnOneSide, []controlchart.Signal{
			{Rule: controlchart.EightOnOneSide, Side: controlchart.High, Seen: 8, Points: []int{1, 2, 3, 4, 5, 6, 7, 8, 9, 10}}}},
		{"eight are not nine", slices.Repeat([]float64{1}, 8), controlchart.NineOnOneSide, nil},
		{"a point on the centre ends a run", []float64{1, 1, 1, 1, 0, 1, 1, 1, 1}, controlchart.EightOnOneSide, nil},
		{"six steadily down", []float64{0, 1, 0.8, 0.6, 0.4, 0.2, 0, 0.1}, controlchart.SixSteadily, []controlchart.Signal{
			{Rule: controlchart.SixSteadily, Side: controlchart.Low, Seen: 6, Points: []int{1, 2, 3, 4, 5, 6}}}},
		{"five steadily up", []float64{0, 0.1, 0.2, 0.3, 0.4, 0.4}, controlchart.SixSteadily, nil},
		{"thirteen by turns", slices.Repeat([]float64{1, -1}, 7)[:13], controlchart.FourteenUpDown, nil},
		{"fourteen by turns", slices.Repeat([]float64{1, -1}, 7), controlchart.FourteenUpDown, []controlchart.Signal{
			{Rule: controlchart.FourteenUpDown, Seen: 13, Points: []int{0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13}}}},
		{"fifteen hug the centre", slices.Repeat([]float64{0.5, -0.5, 0.2}, 5), controlchart.FifteenNear, []controlchart.Signal{
			{Rule: controlchart.FifteenNear, Seen: 14, Points: []int{0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14}}}},
		{"eight away from it on either side", slices.Repeat([]float64{1.5, -1.5}, 4), controlchart.EightAwayFromAll, []controlchart.Signal{
			{Rule: controlchart.EightAwayFromAll, Seen: 7, Points: []int{0, 1, 2, 3, 4, 5, 6, 7}}}},
		{"no rule", []float64{9, 9}, 0, nil},
	} {
		if diff := cmp.Diff(c.want, controlchart.Signals(c.points, 0, 1, []controlchart.Rule{c.rule})); diff != "" {
			t.Errorf("%s: want-, got+\n%s", c.name, diff)
		}
	}
}

// TestRunLengths: how many points of pure chance come before a false alarm on average. Limits of 3 s alone: 370.4 (1/0.0026998). The four
// Western Electric rules together: 91.75 (C. W. Champ and W. H. Woodall, Technometrics 29(4), 1987). Simulated with a seed; the band is
// four standard errors of a run length that scatters as much as its mean.
func TestRunLengths(t *testing.T) {
	for _, c := range []struct {
		name  string
		rules []controlchart.Rule
		want  float64
	}{
		{"3 s", []controlchart.Rule{controlchart.BeyondLimits}, 370.4},
		{"Western Electric", controlchart.WesternElectric, 91.75},
	} {
		const runs = 10_000
		total := 0
		for seed := range uint64(runs) {
			total += firstSignal(rand.New(rand.NewPCG(seed, 1)), c.rules)
		}
		near(t, c.name, float64(total)/runs, c.want, 4*c.want/100)
	}
}

// firstSignal is how many points it takes, counted from 1.
func firstSignal(r *rand.Rand, rules []controlchart.Rule) int {
	var points []float64
	for {
		for range 200 {
			points = append(points, r.NormFloat64())
		}
		first := len(points)
		for _, s := range controlchart.Signals(points, 0, 1, rules) {
			first = min(first, s.Seen)
		}
		if first < len(points) {
			return first + 1
		}
	}
}

func BenchmarkPlot(b *testing.B) {
	for b.Loop() {
		s, err := controlchart.Learn(controlchart.MeanRange, pistonRings)
		if err != nil {
			b.Fatal(err)
		}
		if _, err := s.Plot(pistonRings, controlchart.Nelson); err != nil {
			b.Fatal(err)
		}
	}
}
