package tastetrial

import (
	"fmt"
	"math"
	"slices"
)

// Bound is how far a figure may go before a pack is no longer good.
type Bound struct {
	Least, Most       float64
	HasLeast, HasMost bool
}

// AtLeast is a bound from below, as for a score; AtMost one from above, as for drip.
func AtLeast(x float64) Bound { return Bound{Least: x, HasLeast: true} }

// AtMost is a bound from above.
func AtMost(x float64) Bound { return Bound{Most: x, HasMost: true} }

// worst of some values.
func (b Bound) worst(values ...float64) float64 {
	if b.HasLeast {
		return slices.Min(values)
	}
	return slices.Max(values)
}

func (b Bound) holds(x float64) bool {
	return !(b.HasLeast && x < b.Least || b.HasMost && x > b.Most)
}

// Published is how long something published lets food of this kind be kept.
type Published struct {
	Weeks  float64
	Source string
}

// Ending is what a best-before is held back by.
type Ending int

const (
	ByQuality    Ending = iota + 1 // in a later week the figure may be out of its bound
	ByLastOpened                   // the figure was within its bound to the last week opened; nobody has looked further
	ByPublished                    // something published ends sooner
	NotSupported                   // already in the first week opened the figure may be out of its bound
)

var endingNames = [...]string{ByQuality: "by quality", ByLastOpened: "by the last week opened", ByPublished: "by what is published", NotSupported: "not supported"}

// String is the ending in words.
func (e Ending) String() string {
	if e < ByQuality || e > NotSupported {
		return fmt.Sprintf("ending(%d)", int(e))
	}
	return endingNames[e]
}

// BestBefore is for how many weeks a trial supports calling packs good. It says nothing of safety.
type BestBefore struct {
	Weeks     float64 // one in which packs were opened, or the published limit; 0 if not supported
	Ending    Ending
	Published *Published // that was held against it, if any
	Worst     float64    // in that week (or the last one opened before it): the bad end of the mean, one-sided, or what was found if that is worse
	Level     float64    // of that end
	// Beyond: in the week that ends it, what was found on average was itself out of the bound. Otherwise too little was seen then to tell.
	Beyond bool
}

// Propose takes the last week opened up to which the bad end of the mean by the trend stays within the bound, and what was found in that week
// on average too, so that no straight line hides a fall; in it and in every week opened before. But no later than what is published. Weeks
// between openings are not made up, and none after the last. Errors are *InputError.
func Propose(weeks, values []float64, bound Bound, published *Published, level float64) (BestBefore, error) {
	if err := checkBound(bound, published); err != nil {
		return BestBefore{}, err
	}
	t, err := FitTrend(weeks, values, level)
	if err != nil {
		return BestBefore{}, err
	}
	oneSided := student(t.Values - 2).Quantile(level)
	return walk(weeks, values, bound, published, level, func(week float64, found []float64) float64 {
		mean, reach := t.AtZero+t.Slope*week, oneSided*t.errorAt(week)
		return bound.worst(mean-reach, mean+reach)
	}), nil
}

// ProposeByWeek is Propose where the values of one week are independent of each other but those of several weeks are not, as of tasters who
// come again: each week is judged by its own values alone, at the bad end of their mean, and no line is put through. Of a week with one value
// nothing can be told. Errors are *InputError.
func ProposeByWeek(weeks, values []float64, bound Bound, published *Published, level float64) (BestBefore, error) {
	if err := checkBound(bound, published); err != nil {
		return BestBefore{}, err
	}
	if err := checkLevel(level); err != nil {
		return BestBefore{}, err
	}
	if len(weeks) != len(values) || len(weeks) == 0 {
		return BestBefore{}, &InputError{"the values", fmt.Sprintf("are %d in %d weeks", len(values), len(weeks)), "give each its week"}
	}
	for field, all := range map[string][]float64{"the weeks": weeks, "the values": values} {
		if err := checkValues(field, all); err != nil {
			return BestBefore{}, err
		}
	}
	if len(groupWeeks(weeks, values)[0]) < 2 {
		return BestBefore{}, &InputError{"the first week", "has one value", "give two or more, of tasters each"}
	}
	return walk(weeks, values, bound, published, level, func(_ float64, found []float64) float64 {
		if len(found) < 2 {
			return bound.worst(math.Inf(-1), math.Inf(1))
		}
		i := MeanInterval(found, 2*level-1) // as much outside on one side as this leaves on both
		return bound.worst(i.Low, i.High)
	}), nil
}

// MeanInterval is Student's interval of the mean of values that scatter normally; without width if they are all alike, and reaching everywhere if
// there is one.
func MeanInterval(values []float64, level float64) Interval {
	n := float64(len(values))
	if n < 2 {
		return Interval{math.Inf(-1), math.Inf(1), level}
	}
	mean, sd := moments(values)
	reach := student(len(values)-1).Quantile((1+level)/2) * sd / math.Sqrt(n)
	return Interval{mean - reach, mean + reach, level}
}

func checkBound(bound Bound, published *Published) error {
	switch {
	case bound.HasLeast == bound.HasMost || !finite(bound.Least) || !finite(bound.Most):
		return &InputError{"the bound", "is none, or more than one", "say how low, or how high, the figure may be"}
	case published != nil && !(published.Weeks > 0 && finite(published.Weeks)):
		return &InputError{"the published limit", fmt.Sprintf("is %g weeks", published.Weeks), "leave it out, or give weeks above 0"}
	}
	return nil
}

// walk goes from week to week as long as everything holds; badEnd is that of the mean in a week.
func walk(weeks, values []float64, bound Bound, published *Published, level float64, badEnd func(week float64, found []float64) float64) BestBefore {
	b := BestBefore{Ending: NotSupported, Published: published, Level: level}
	opened := slices.Compact(slices.Sorted(slices.Values(weeks)))
	found := groupWeeks(weeks, values)
	for i, week := range opened {
		seen, _ := moments(found[i])
		worst := bound.worst(badEnd(week, found[i]), seen)
		if i == 0 {
			b.Worst = worst
		}
		if !bound.holds(worst) {
			b.Beyond = !bound.holds(seen)
			break
		}
		if published != nil && week > published.Weeks {
			b.Weeks, b.Ending = published.Weeks, ByPublished
			return b
		}
		b.Weeks, b.Worst, b.Ending = week, worst, ByQuality
		if i == len(opened)-1 {
			b.Ending = ByLastOpened
		}
	}
	return b
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
