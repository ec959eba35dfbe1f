package tastetrial

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// By hand: 1, 3, 2, 4 in weeks 0 to 3. Slope 4/5, at week 0 1.3, squares about the line 1.8, so sd 0.9487, of the slope 0.4243; t of two
// degrees of freedom 4.3027.
func TestTrendByHand(t *testing.T) {
	r := must(FitTrend([]float64{0, 1, 2, 3}, []float64{1, 3, 2, 4}, 0.95))(t)
	near(t, "slope", r.Slope, 0.8, 1e-12)
	near(t, "at zero", r.AtZero, 1.3, 1e-12)
	near(t, "sd", r.SD, 0.94868, 5e-6)
	near(t, "slope's error", r.SlopeError, 0.42426, 5e-6)
	near(t, "low", r.SlopeInterval.Low, 0.8-4.3027*0.42426, 5e-5)
	near(t, "p", r.P, 0.2, 1e-9) // t = 1.8856: tail of two degrees of freedom 1 - t/sqrt(2+t²) = 0.2
	mean, i, err := r.At(1.5)
	near(t, "in the middle", mean, 2.5, 1e-12)
	near(t, "its half", i.High-mean, 4.3027*0.94868/2, 5e-5)
	if err != nil {
		t.Error(err)
	}
	for _, week := range []float64{-0.1, 3.1} {
		_, _, err := r.At(week)
		if beyond := (*BeyondError)(nil); !errors.As(err, &beyond) || beyond.Last != 3 {
			t.Errorf("week %g: %v", week, err)
		}
	}
}

func TestBestBefore(t *testing.T) {
	weeks := []float64{0, 0, 4, 4, 8, 8, 12, 12}
	steady := []float64{8, 7.8, 7.9, 8.1, 8, 7.9, 7.8, 8}
	falling := []float64{8, 7.8, 7, 7.2, 6.1, 6, 5.2, 5}
	cliff := []float64{8, 8.2, 8.1, 8, 7.9, 8.1, 5, 5.1}
	book := &Published{13, "a published chart"}
	for _, c := range []struct {
		name      string
		values    []float64
		bound     Bound
		published *Published
		weeks     float64
		ending    Ending
	}{
		{"steady, nothing published", steady, AtLeast(6), nil, 12, ByLastOpened},
		{"steady, published a little longer", steady, AtLeast(6), book, 12, ByLastOpened},
		{"steady, published 10 weeks", steady, AtLeast(6), &Published{10, "a published chart"}, 10, ByPublished},
		{"steady, published 3 weeks", steady, AtLeast(6), &Published{3, "a published chart"}, 3, ByPublished},
		{"falling through 6 soon after week 8", falling, AtLeast(5.9), nil, 8, ByQuality},
		{"its bad end is below 6 in week 8", falling, AtLeast(6.1), nil, 4, ByQuality},
		{"good, and then a fall that a line smooths over", cliff, AtLeast(5.2), nil, 8, ByQuality},
		{"never good enough", steady, AtLeast(8.5), book, 0, NotSupported},
		{"drip that must stay below 9", steady, AtMost(9), nil, 12, ByLastOpened},
		{"drip that is too much from the first week", steady, AtMost(7), nil, 0, NotSupported},
	} {
		b := must(Propose(weeks, c.values, c.bound, c.published, 0.95))(t)
		if beyond := map[string]bool{"good, and then a fall that a line smooths over": true, "never good enough": true, "drip that is too much from the first week": true, "falling through 6 soon after week 8": true, "its bad end is below 6 in week 8": true}[c.name]; b.Beyond != beyond {
			t.Errorf("%s: what ends it was found to be out of its bound: %v", c.name, b.Beyond)
		}
		if b.Weeks != c.weeks || b.Ending != c.ending {
			t.Errorf("%s: %g weeks, %v (bad end %.2f)", c.name, b.Weeks, b.Ending, b.Worst)
		}
	}
}

// Student's t of 4 degrees of freedom at 0.95, one-sided, is 2.1318 (printed tables): of 7, 8, 8, 8, 9 with the mean 8 and the sd 0.70711 the bad end
// is 8 - 2.1318 0.70711 / sqrt 5 = 7.3259.
func TestBestBeforeByWeek(t *testing.T) {
	week := func(w float64, values ...float64) (weeks, all []float64) {
		for range values {
			weeks = append(weeks, w)
		}
		return weeks, values
	}
	type opened struct {
		week   float64
		values []float64
	}
	good, wide, bad := []float64{7, 8, 8, 8, 9}, []float64{4, 10, 5, 10, 9}, []float64{5, 5, 6, 5, 5}
	for _, c := range []struct {
		name   string
		all    []opened
		least  float64
		weeks  float64
		ending Ending
		beyond bool
	}{
		{"just within the bad end", []opened{{1, good}, {4, good}}, 7.32, 4, ByLastOpened, false},
		{"just not", []opened{{1, good}, {4, good}}, 7.33, 0, NotSupported, false},
		{"a week in which they do not agree", []opened{{1, good}, {4, wide}, {8, good}}, 7, 1, ByQuality, false},
		{"a week in which it is bad", []opened{{1, good}, {4, good}, {8, bad}}, 7, 4, ByQuality, true},
		{"a week that one tasted", []opened{{1, good}, {4, []float64{9}}}, 7, 1, ByQuality, false},
	} {
		var weeks, values []float64
		for _, o := range c.all {
			w, v := week(o.week, o.values...)
			weeks, values = append(weeks, w...), append(values, v...)
		}
		b := must(ProposeByWeek(weeks, values, AtLeast(c.least), nil, 0.95))(t)
		if b.Weeks != c.weeks || b.Ending != c.ending || b.Beyond != c.beyond {
			t.Errorf("%s: %+v", c.name, b)
		}
	}
	b := must(ProposeByWeek([]float64{1, 1, 1, 1, 1}, good, AtLeast(5), nil, 0.95))(t)
	near(t, "the bad end", b.Worst, 7.3259, 5e-5)
	for name, values := range map[string][]float64{"none": nil, "one": {7}} {
		weeks := make([]float64, len(values))
		if _, err := ProposeByWeek(weeks, values, AtLeast(5), nil, 0.95); err == nil {
			t.Errorf("%s is enough", name)
		}
	}
}

// Whatever was seen: never beyond the last week opened, nor beyond what is published.
func TestBestBeforeNeverGuesses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 12).Draw(t, "n")
		weeks, values, last := make([]float64, n), make([]float64, n), 0.0
		for i := range n {
			weeks[i] = float64(rapid.IntRange(0, 20).Draw(t, "week"))
			values[i] = rapid.Float64Range(0, 10).Draw(t, "value")
			last = max(last, weeks[i])
		}
		limit := rapid.Float64Range(0.5, 30).Draw(t, "published")
		b, err := Propose(weeks, values, AtLeast(rapid.Float64Range(0, 10).Draw(t, "least")), &Published{limit, "x"}, 0.9)
		if err != nil {
			return // all in one week
		}
		if b.Weeks > last || b.Weeks > limit || b.Weeks < 0 || (b.Ending == NotSupported) != (b.Weeks == 0 && b.Ending != ByLastOpened && b.Ending != ByQuality) {
			t.Errorf("%+v with the last opened %g, published %g", b, last, limit)
		}
	})
}

// Lack of fit by hand: 1 and 3 in week 0, 5 and 7 in week 1, 3 and 5 in week 2. The line through the week means 2, 6, 4 is 3, 4, 5: its squares
// (1 + 4 + 1) times 2 are 12 of one degree, within weeks 6 of three: F = 6, of which 0.0917 lie beyond (one and three degrees: t = sqrt 6).
func TestLackOfFitByHand(t *testing.T) {
	r := must(FitTrend([]float64{0, 0, 1, 1, 2, 2}, []float64{1, 3, 5, 7, 3, 5}, 0.95))(t)
	near(t, "slope", r.Slope, 1, 1e-12)
	near(t, "p of the line", r.PLine, 2*student(3).Survival(math.Sqrt(6)), 1e-12)
	near(t, "p of the line, printed", r.PLine, 0.0917, 5e-5)
	if r := must(FitTrend([]float64{0, 1, 2}, []float64{1, 5, 3}, 0.95))(t); r.PLine != 1 {
		t.Errorf("no week twice: %g", r.PLine)
	}
}
