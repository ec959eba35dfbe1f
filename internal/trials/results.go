package trials

import (
	"math"
	"slices"

	"kettlefrost/internal/record"
	"kettlefrost/internal/tastetrial"
)

// Level is how often the intervals of a trial hold what is true: all comparisons of it together, and each trend alone.
const Level = 0.95

// Results are what can be told from a trial so far.
type Results struct {
	Trial   Trial
	Opened  []record.Week // in which anything was measured or tasted
	Figures []Result
	Unknown []string // what is not known yet, in sentences
}

// Result is what can be told of one figure.
type Result struct {
	Figure   record.Figured
	Scored   bool
	Seen     []Seen
	Series   []Series // of each variant
	Compared *tastetrial.Comparison
	Pairs    []Told
	Not      string // why nothing is compared
}

// Series is a figure of one variant over the weeks.
type Series struct {
	Variant int
	Weeks   []WeekMean
	Trend   *tastetrial.Trend // nil as long as none can be put through
	Lasts   Lasting
}

// WeekMean is a figure of one variant in one week.
type WeekMean struct {
	Week   record.Week
	Values int
	Mean   float64
	Least  float64
	Most   float64
	Line   *float64 // what the trend has; nil for scores, and without a trend
	// Interval of the mean: by the trend, or for scores by what tasters said in that week; nil as long as there is none.
	Interval *tastetrial.Interval
}

// Lasting is for how long a figure stays within its bound.
type Lasting struct {
	Bounded bool // there is a bound
	Best    *tastetrial.BestBefore
	Not     string // why nothing can be said
}

// ResultsOf works out what can be told. Every figure is compared, so the intervals are wide enough for all of them together.
func ResultsOf(t Trial) Results {
	r := Results{Trial: t}
	for _, f := range t.Laid.Body.Figures {
		r.Figures = append(r.Figures, t.result(f))
	}
	for _, f := range r.Figures {
		for _, s := range f.Seen {
			if !slices.Contains(r.Opened, s.Week) {
				r.Opened = append(r.Opened, s.Week)
			}
		}
	}
	slices.Sort(r.Opened)
	r.Unknown = r.unknown()
	return r
}

func (t Trial) result(f record.Figured) Result {
	r := Result{Figure: f, Scored: isScored(f), Seen: t.SeenOf(f)}
	for v := range t.Laid.Body.Variants {
		r.Series = append(r.Series, series(f, r.Seen, v))
	}
	q := tastetrial.Question{Variants: len(t.Laid.Body.Variants), Matters: number(f.Matters), Level: Level, Figures: len(t.Laid.Body.Figures), Ranked: r.Scored, Seed: uint64(t.Laid.Body.Seed)}
	c, err := tastetrial.Compare(t.observations(r.Seen), q)
	if err != nil {
		r.Not = err.Error()
		return r
	}
	r.Compared = &c
	for _, p := range c.Pairs {
		r.Pairs = append(r.Pairs, t.told(f, c, p))
	}
	return r
}

func series(f record.Figured, seen []Seen, variant int) Series {
	s := Series{Variant: variant, Weeks: weekMeans(seen, variant)}
	weeks, values := independent(seen, variant)
	if trend, err := tastetrial.FitTrend(weeks, values, Level); err == nil {
		s.Trend = &trend
	}
	for i := range s.Weeks {
		w := &s.Weeks[i]
		switch {
		case isScored(f):
			if _, values := valuesOf(seen, variant, w.Week); len(values) > 1 {
				interval := tastetrial.MeanInterval(values, Level)
				w.Interval = &interval
			}
		case s.Trend != nil:
			if mean, interval, err := s.Trend.At(float64(w.Week)); err == nil {
				w.Line, w.Interval = &mean, &interval
			}
		}
	}
	s.Lasts = lasting(f, seen, variant, nil)
	return s
}

// valuesOf are the values of a variant in a week, or in every week for a week below 0, each with its week.
func valuesOf(seen []Seen, variant int, week record.Week) (weeks, values []float64) {
	for _, s := range seen {
		if s.Variant == variant && (week < 0 || s.Week == week) {
			weeks, values = append(weeks, float64(s.Week)), append(values, s.Value)
		}
	}
	return weeks, values
}

func weekMeans(seen []Seen, variant int) []WeekMean {
	var all []WeekMean
	for _, s := range seen {
		if s.Variant != variant {
			continue
		}
		if n := len(all); n == 0 || all[n-1].Week != s.Week {
			all = append(all, WeekMean{Week: s.Week, Least: math.Inf(1), Most: math.Inf(-1)})
		}
		w := &all[len(all)-1]
		w.Mean += s.Value // a sum as yet
		w.Values++
		w.Least, w.Most = min(w.Least, s.Value), max(w.Most, s.Value)
	}
	for i := range all {
		all[i].Mean /= float64(all[i].Values)
	}
	return all
}

// everyWeek stands for all weeks.
const everyWeek = record.Week(-1)

// lasting holds a figure of a variant against its bound: what is measured by its trend, scores week by week, since tasters come again.
func lasting(f record.Figured, seen []Seen, variant int, published *tastetrial.Published) Lasting {
	if f.Bound == nil {
		return Lasting{Not: "no bound was said: beyond which a pack is no longer good"}
	}
	bound := tastetrial.AtMost(number(*f.Bound))
	if f.Better == record.HighIsBetter {
		bound = tastetrial.AtLeast(number(*f.Bound))
	}
	weeks, values := valuesOf(seen, variant, everyWeek)
	propose, needs := tastetrial.Propose, "three values in two weeks or more are needed"
	if isScored(f) {
		propose, needs = tastetrial.ProposeByWeek, "two tasters or more are needed"
	}
	best, err := propose(weeks, values, bound, published, Level)
	if err != nil {
		return Lasting{Bounded: true, Not: needs}
	}
	return Lasting{Bounded: true, Best: &best}
}
