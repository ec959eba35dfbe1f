package learning

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// A yield by hand: the book says 0.80, worth four runs, ± 0.03, worth four; four runs of 0.87 in the mean. Squares about it 0.0020, the
// book's 0.0036, between them 4·4/8·0.07² = 0.0098: 0.0154 over 8 degrees of freedom. t of 8 at 95 %: 1.8595.
func TestYieldByHand(t *testing.T) {
	p, err := Update(Prior{Value: 0.8, Runs: 4, SD: 0.03, SDRuns: 4}, runsOf(0.9, 0.86, 0.88, 0.84), Options{})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "after", p.After, 0.835, 1e-12)
	near(t, "spread", p.SDAfter, math.Sqrt(0.0154/8), 1e-12)
	near(t, "low", p.True.Low, 0.835-1.8595*math.Sqrt(0.0154/64), 2e-6)
	near(t, "next, high", p.Next.High, 0.835+1.8595*math.Sqrt(0.0154/8*1.125), 5e-6)
	if p.Ending != Proposed || p.Runs != 4 || p.Weight != 0.5 || p.Before != 0.8 || p.SDBefore != 0.03 || p.Cover != 0.9 {
		t.Errorf("%+v", p)
	}
	if len(p.Asked) != 0 {
		t.Errorf("asked: %+v", p.Asked)
	}
	if got, want := p.String(), "0.8 to 0.835 (0.806 to 0.864, 90 %): 4 runs of 0.87, which weigh 50 % against a book worth 4"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}

// A time by hand: 60 min worth two, runs of 90 and 90 min: half way in ratios is sqrt(60·90) = 73.48 min.
func TestTimeByHand(t *testing.T) {
	p, err := Update(Prior{Value: 60, Runs: 2}, runsOf(90, 90), Options{Scale: Ratio})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "after", p.After, math.Sqrt(60*90), 1e-9)
	near(t, "of the runs", p.MeanRuns, 90, 1e-9)
	near(t, "spread", p.SDAfter, math.Log(1.5)/math.Sqrt(2), 1e-9) // 2·2/4·ln²1.5 over 2
	near(t, "low and high are one ratio", p.After/p.True.Low, p.True.High/p.After, 1e-9)
	if p.True.Low <= 0 {
		t.Errorf("%+v", p.True)
	}
}

func TestEndings(t *testing.T) {
	book := Prior{Value: 10, Runs: 5, SD: 1, SDRuns: 5}
	left := runsOf(30)
	left[0].LeftOut = "pot boiled over"
	for _, c := range []struct {
		name string
		runs []Run
		opt  Options
		want Ending
	}{
		{"no runs", nil, Options{}, TooFew},
		{"one that is left out", left, Options{}, TooFew},
		{"one, and the book knows the spread", runsOf(11), Options{}, Proposed},
		{"a change under a tenth", runsOf(11), Options{Least: 0.1}, TooSmall},
	} {
		p, err := Update(book, c.runs, c.opt)
		if err != nil || p.Ending != c.want {
			t.Errorf("%s: %v (%v)", c.name, p.Ending, err)
		}
		if c.want == TooFew && (p.After != 10 || p.Weight != 0) {
			t.Errorf("%s: %+v", c.name, p)
		}
	}
	p, err := Update(Prior{Value: 10}, runsOf(12), Options{})
	if got, want := p.String(), "10 to 12: 1 run of 12, which weighs 100 % against a book worth 0; too few runs"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	if err != nil || p.Ending != TooFew || p.After != 12 || p.Weight != 1 {
		t.Errorf("a book worth nothing and one run: %+v (%v)", p, err)
	}
	p, err = Update(book, left, Options{})
	if err != nil || len(p.LeftOut) != 1 || p.LeftOut[0].LeftOut != "pot boiled over" {
		t.Errorf("%+v (%v)", p, err)
	}
}

// A run far from the others is asked about and counted; the proposal without it is the one that leaving it out gives.
func TestQuestioned(t *testing.T) {
	book := Prior{Value: 0.8, Runs: 3, SD: 0.02, SDRuns: 6}
	runs := runsOf(0.80, 0.81, 0.79, 0.80, 0.82, 0.40)
	p, err := Update(book, runs, Options{})
	if err != nil {
		t.Fatal(err)
	}
	why := map[Why]int{}
	for _, q := range p.Asked {
		why[q.Why]++
		if q.Run.ID != "f" || q.Is <= q.Limit {
			t.Errorf("asked: %+v", q)
		}
	}
	if why[FarFromRuns] != 1 || why[FarFromBook] != 1 || why[FarFromMost] != 0 || p.Runs != 6 { // by Grubbs already
		t.Errorf("asked: %v of %d", why, p.Runs)
	}
	runs[5].LeftOut = "a tub left on the cart"
	without, err := Update(book, runs, Options{})
	if err != nil || math.Abs(without.After-p.Asked[0].AfterWithout) > 1e-12 || len(without.Asked) != 0 {
		t.Errorf("without: %+v (%v), said %g", without, err, p.Asked[0].AfterWithout)
	}
	// Two far ones hide each other from Grubbs; the median does not move.
	p, err = Update(Prior{Value: 0.8}, runsOf(0.80, 0.81, 0.79, 0.80, 0.82, 0.40, 0.41), Options{})
	if err != nil {
		t.Fatal(err)
	}
	var ids []string
	for _, q := range p.Asked {
		ids = append(ids, q.Run.ID+" "+q.Why.String())
	}
	if strings.Join(ids, ", ") != "f far from most runs, g far from most runs" {
		t.Errorf("asked: %v", ids)
	}
}

// The spread of fillings by hand: 2 g worth ten packs; eleven packs at 3 g and six at 4 g: 40 + 90 + 80 over 10 + 10 + 5.
func TestSpreadByHand(t *testing.T) {
	s, err := UpdateSpread(2, 10, []Weighed{{"a", 11, 3, ""}, {"b", 6, 4, ""}, {"c", 10, 9, "scale not levelled"}}, Options{})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "after", s.After, math.Sqrt(210.0/25), 1e-12)
	near(t, "of the runs", s.SDRuns, math.Sqrt(170.0/15), 1e-12)
	near(t, "weight", s.Weight, 0.6, 1e-12)
	near(t, "low", s.True.Low, math.Sqrt(210/37.652), 5e-5) // chi-square of 25 degrees at 0.95 and 0.05 (printed tables, from memory)
	near(t, "high", s.True.High, math.Sqrt(210/14.611), 1e-4)
	if s.Ending != Proposed || s.Runs != 2 || s.Weighed != 17 || len(s.LeftOut) != 1 || len(s.Asked) != 0 {
		t.Errorf("%+v", s)
	}
}

func TestInputRefused(t *testing.T) {
	for _, c := range []struct {
		prior Prior
		runs  []Run
		opt   Options
		says  string
	}{
		{Prior{Value: math.NaN()}, nil, Options{}, "the book's value"},
		{Prior{Value: 1, Runs: -1}, nil, Options{}, "the worth of the book"},
		{Prior{Value: 1, SDRuns: 3}, nil, Options{}, "the book's spread"},
		{Prior{Value: 1}, []Run{{"x", math.Inf(1), ""}}, Options{}, "run x"},
		{Prior{Value: 1}, []Run{{"x", 1, ""}, {"x", 2, ""}}, Options{}, "run x is there twice"},
		{Prior{Value: 1}, []Run{{"", 0, ""}}, Options{Scale: Ratio}, "run 1"},
		{Prior{Value: 1}, nil, Options{Cover: 1}, "the cover"},
		{Prior{Value: 1}, nil, Options{Doubtful: 0.6}, "the doubt"},
	} {
		_, err := Update(c.prior, c.runs, c.opt)
		if wrong := (*InputError)(nil); !errors.As(err, &wrong) || !strings.Contains(err.Error(), c.says) || wrong.Fix == "" {
			t.Errorf("%s: %v", c.says, err)
		}
	}
	if _, err := UpdateSpread(1, 1, []Weighed{{"a", 1, 2, ""}}, Options{}); err == nil {
		t.Error("a spread of one pack was taken")
	}
}

// Whatever was run: the proposal lies between book and runs, their order makes no difference, the same runs again weigh more, and leaving the
// book out gives the runs.
func TestLearningAlways(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		scale := rapid.SampledFrom([]Scale{Plain, Ratio}).Draw(t, "scale")
		prior := Prior{Value: rapid.Float64Range(0.1, 100).Draw(t, "book"), Runs: rapid.Float64Range(0, 20).Draw(t, "worth"),
			SD: rapid.Float64Range(0.01, 2).Draw(t, "sd"), SDRuns: rapid.Float64Range(0, 20).Draw(t, "sd worth")}
		values := rapid.SliceOfN(rapid.Float64Range(0.1, 100), 1, 12).Draw(t, "runs")
		opt := Options{Scale: scale}
		learn := func(values []float64) Proposal {
			p, err := Update(prior, runsOf(values...), opt)
			if err != nil {
				t.Fatal(err)
			}
			return p
		}
		p := learn(values)
		low, high := min(prior.Value, p.MeanRuns), max(prior.Value, p.MeanRuns)
		if p.After < low-1e-9*high || p.After > high+1e-9*high {
			t.Errorf("%g is not between %g and %g", p.After, low, high)
		}
		if q := learn(rapid.Permutation(values).Draw(t, "shuffled")); q.After != p.After || q.SDAfter != p.SDAfter || q.True != p.True || len(q.Asked) != len(p.Asked) {
			t.Errorf("in another order %+v, else %+v", q, p)
		}
		if q := learn(slices.Concat(values, values)); q.Weight < p.Weight || math.Abs(q.After-q.MeanRuns) > math.Abs(p.After-p.MeanRuns)+1e-9*high {
			t.Errorf("twice as many: %+v, else %+v", q, p)
		}
		if p.Ending == Proposed && !(p.Next.Low <= p.True.Low && p.True.Low <= p.After && p.After <= p.True.High && p.True.High <= p.Next.High) {
			t.Errorf("%+v", p)
		}
		prior.Runs = 0
		if q := learn(values); math.Abs(q.After-q.MeanRuns) > 1e-9*high {
			t.Errorf("a book worth nothing: %+v", q)
		}
	})
}

// Whatever was weighed: the spread lies between the book's and the runs', in any order.
func TestSpreadAlways(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		book, worth := rapid.Float64Range(0.1, 10).Draw(t, "book"), rapid.Float64Range(0.5, 50).Draw(t, "worth")
		runs := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Weighed {
			return Weighed{Count: rapid.IntRange(2, 40).Draw(t, "count"), SD: rapid.Float64Range(0, 10).Draw(t, "sd")}
		}), 1, 8).Draw(t, "runs")
		s, err := UpdateSpread(book, worth, runs, Options{})
		if err != nil {
			t.Fatal(err)
		}
		if s.After < min(book, s.SDRuns)-1e-9 || s.After > max(book, s.SDRuns)+1e-9 || s.True.Low > s.After || s.True.High < s.After*(1-1e-9) && s.Weighed > 20 {
			t.Errorf("%+v", s)
		}
		again, err := UpdateSpread(book, worth, rapid.Permutation(runs).Draw(t, "shuffled"), Options{})
		if err != nil || again.After != s.After || again.True != s.True || len(again.Asked) != len(s.Asked) {
			t.Errorf("in another order %+v (%v), else %+v", again, err, s)
		}
	})
}

func BenchmarkUpdateThirtyRuns(b *testing.B) {
	values := make([]float64, 30)
	for i := range values {
		values[i] = 0.8 + float64(i*7%11)/100
	}
	runs := make([]Run, len(values))
	for i, x := range values {
		runs[i].Value = x
	}
	for b.Loop() {
		if _, err := Update(Prior{Value: 0.8, Runs: 5, SD: 0.03, SDRuns: 5}, runs, Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
