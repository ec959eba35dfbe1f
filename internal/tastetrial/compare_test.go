package tastetrial

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestVerdicts(t *testing.T) {
	for _, c := range []struct {
		low, high, level float64
		want             Verdict
	}{
		{1.2, 3, 0.95, MattersMore}, {-3, -1, 0.95, MattersLess}, {0.2, 3, 0.95, Some}, {-3, -0.2, 0.95, Some},
		{-0.5, 0.9, 0.95, TooSmall}, {0.1, 0.9, 0.95, TooSmall}, {-0.5, 1, 0.95, CannotTell}, {-2, 2, 0.95, CannotTell},
		{1.2, 3, 0.9, CannotTell},
	} {
		if got := Judge(Interval{c.low, c.high, c.level}, 1, 0.95); got != c.want {
			t.Errorf("%g to %g at %g: %v, want %v", c.low, c.high, c.level, got, c.want)
		}
	}
}

// trial has three variants, tasters in the rows, in one week.
func trial(rows [][]float64) []Observation {
	var all []Observation
	for b, row := range rows {
		for v, x := range row {
			all = append(all, Observation{Variant: v, Block: b, Value: x})
		}
	}
	return all
}

func TestCompareFirstBase(t *testing.T) {
	c := must(Compare(trial(firstBase), Question{Variants: 3, Matters: 0.05, Level: 0.95, Ranked: true}))(t)
	if len(c.Pairs) != 3 || c.Friedman == nil || math.Abs(c.Friedman.ChiSquare-11.142857) > 5e-7 || math.Abs(c.Each-(1-0.05/3)) > 1e-12 {
		t.Fatalf("%+v", c)
	}
	for _, p := range c.Pairs {
		if !p.ByRanks || p.PHolm < p.Effect.P || p.Effect.Interval.Level < c.Each || p.Blocks != 22 {
			t.Errorf("%+v", p)
		}
	}
	// Rounding wide is faster than narrow by 0.075 s at the median; with 22 runners that it is faster can be told, not that it is by 0.05 s.
	if wide := c.Pairs[2]; wide.Verdict != Some || wide.PHolm > 0.01 {
		t.Errorf("narrow against wide: %+v", wide)
	}
	if first := c.Pairs[0]; first.Verdict != CannotTell && first.Verdict != TooSmall {
		t.Errorf("round against narrow: %v", first.Verdict)
	}
}

// Three figures of one trial: intervals and p are those of three times as many comparisons, and all is said on one line.
func TestSeveralFigures(t *testing.T) {
	one := Question{Variants: 3, Matters: 0.05, Level: 0.95, Ranked: true}
	three := one
	three.Figures = 3
	a, b := must(Compare(trial(firstBase), one))(t), must(Compare(trial(firstBase), three))(t)
	near(t, "level", b.Each, 1-0.05/9, 1e-12)
	for i := range a.Pairs {
		near(t, "p among all", b.Pairs[i].PHolm, min(1, 3*a.Pairs[i].PHolm), 1e-12)
	}
	p := Pair{Effect: Effect{-0.833, Interval{-1.6, -0.05, 0.9833}, 0.012}, PHolm: 0.036, Verdict: CannotTell}
	if got, want := p.String(), "-0.833 (-1.6 to -0.05, 98.3 %), p 0.012, 0.036 among all: cannot tell"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}

// A taster asked in three weeks is one taster: his scores are averaged over the weeks in which he had both.
func TestAverageOverWeeks(t *testing.T) {
	all := []Observation{
		{0, 0, 7, 6}, {1, 0, 7, 4}, {0, 4, 7, 8}, {1, 4, 7, 4}, {0, 8, 7, 1}, // week 8: the first only
		{0, 0, 9, 5}, {1, 0, 9, 4}, {0, 4, 9, 5}, {1, 4, 9, 4},
		{1, 0, 3, 4}, // the second only
	}
	c := must(Compare(all, Question{Variants: 2, Matters: 1, Level: 0.95}))(t)
	p := c.Pairs[0]
	if p.Blocks != 2 || p.T == nil || p.T.Estimate != 2 || len(c.Incomplete) != 1 || c.Incomplete[0] != 3 { // (3 + 1) / 2
		t.Errorf("%+v, incomplete %v", p, c.Incomplete)
	}
}

// Differences all alike: there is no t, so the ranks decide; of five they cannot, of ten they can.
func TestAllAlike(t *testing.T) {
	for n, want := range map[int]Verdict{5: CannotTell, 10: MattersMore} {
		var rows [][]float64
		for i := range n {
			rows = append(rows, []float64{float64(i) + 2, float64(i)})
		}
		p := must(Compare(trial(rows), Question{Variants: 2, Matters: 1, Level: 0.95}))(t).Pairs[0]
		if p.T != nil || !p.ByRanks || p.Verdict != want {
			t.Errorf("%d: %+v", n, p)
		}
	}
}

func TestComparisonsRefused(t *testing.T) {
	q := Question{Variants: 2, Matters: 1, Level: 0.95}
	none := q
	none.Matters = 0
	for _, c := range []struct {
		all  []Observation
		q    Question
		says string
	}{
		{[]Observation{{0, 0, 0, 1}, {0, 0, 0, 2}}, q, "observation 2 is there twice"},
		{[]Observation{{2, 0, 0, 1}}, q, "variants are 0 to 1"},
		{[]Observation{{0, 0, 0, math.NaN()}}, q, "NaN"},
		{nil, none, "smallest difference that matters"},
	} {
		_, err := Compare(c.all, c.q)
		if wrong := (*InputError)(nil); !errors.As(err, &wrong) || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%v: %v", c.says, err)
		}
	}
	if c, err := Compare(nil, q); err != nil || c.Pairs[0].Verdict != CannotTell || c.Pairs[0].PHolm != 1 {
		t.Errorf("nothing seen: %+v (%v)", c, err)
	}
}

// What is sized is found: trials of that size, drawn with the assumed scatter, find the difference about as often as the power says.
func TestSizesHold(t *testing.T) {
	const sd, matters, power = 1.2, 1.0, 0.8
	n := must(PairsNeeded(Aim{matters, power, 0.95}, sd))(t)
	s := must(SimulateSignedRank(n, matters, sd, 0, 0.95, 4000, 1))(t)
	if s.Power < power-0.05 || s.Power > power+0.05 { // ranks are 0.955 as efficient with normal scatter (Hollander and Wolfe)
		t.Errorf("%d pairs by t; by ranks a power of %.3f ± %.3f", n, s.Power, s.Error)
	}
	if PowerPaired(n-1, matters, sd, 0.95) >= power {
		t.Errorf("%d would have done", n-1)
	}
}

func TestPlanNext(t *testing.T) {
	rows := [][]float64{{7, 6}, {8, 6}, {6, 6}, {7, 5}, {5, 6}, {8, 7}}
	q := Question{Variants: 2, Matters: 1, Level: 0.95}
	c := must(Compare(trial(rows), q))(t)
	n := must(c.PlanNext(0.8, 1, 1))(t)
	near(t, "sd", n.SD, 1.169045, 5e-7)          // 1 2 0 2 -1 1: mean 5/6, squares 11 - 25/6 = 6.8333
	near(t, "high sd", n.SDHigh, 1.7078, 0.0005) // by sqrt(5/2.343), chi-square of 5 degrees at 0.2 (printed tables, from memory)
	if n.Blocks != 13 || n.Plenty <= n.Blocks || !strings.Contains(n.Assumption(), "scatter normally") {
		t.Errorf("%+v", n)
	}
	if d := n.Design(2, []int{4, 8, 12}, 1); d.Packs*3 < n.Plenty || (d.Packs-1)*3 >= n.Plenty {
		t.Errorf("%d packs a week for %d", d.Packs, n.Plenty)
	}
	q.Ranked = true
	n = must(must(Compare(trial(rows), q))(t).PlanNext(0.8, 1, 1))(t)
	if len(n.Seen) != 2 || n.Seen[0].Power < 0.8 || n.Blocks < 11 || n.Blocks > 18 || !strings.Contains(n.Assumption(), "seed 1") {
		t.Errorf("%+v", n)
	}
	d := n.Design(3, []int{4}, 1) // six orders of three
	if l := must(Lay(d))(t); d.Tasters < n.Plenty || d.Tasters >= n.Plenty+6 || !l.Balanced {
		t.Errorf("%d tasters for %d", d.Tasters, n.Plenty)
	}
}

// Whatever was scored: naming variants in another order changes signs and nothing else, and no block is counted twice.
func TestCompareAlways(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var rows, turned [][]float64
		for range rapid.IntRange(2, 8).Draw(t, "tasters") {
			r := scores(t, 3, "row")
			rows, turned = append(rows, r), append(turned, []float64{r[2], r[1], r[0]})
		}
		q := Question{Variants: 3, Matters: 0.5, Level: 0.9, Ranked: rapid.Bool().Draw(t, "ranked")}
		a, err := Compare(trial(rows), q)
		if err != nil {
			t.Fatal(err)
		}
		b, err := Compare(trial(turned), q)
		if err != nil {
			t.Fatal(err)
		}
		p, r := a.Pairs[1], b.Pairs[1] // first to third, and back
		if math.Abs(p.Effect.P-r.Effect.P) > 1e-12 || math.Abs(p.Effect.Estimate+r.Effect.Estimate) > 1e-12 || math.Abs(a.Friedman.P-b.Friedman.P) > 1e-12 {
			t.Errorf("%+v\n%+v", p, r)
		}
		for _, p := range a.Pairs {
			if p.PHolm < p.Effect.P || p.PHolm > 1 || p.Blocks != len(rows) {
				t.Errorf("%+v", p)
			}
		}
	})
}

func BenchmarkCompareTwelveTasters(b *testing.B) {
	var rows [][]float64
	for i := range 12 {
		rows = append(rows, []float64{float64(i * 5 % 7), float64(i * 3 % 5), float64(i * 4 % 9), float64(i * 2 % 3)})
	}
	all := trial(rows)
	for b.Loop() {
		if _, err := Compare(all, Question{Variants: 4, Matters: 1, Level: 0.95, Ranked: true}); err != nil {
			b.Fatal(err)
		}
	}
}
