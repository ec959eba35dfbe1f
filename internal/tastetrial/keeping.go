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
}

// Propose takes the last week opened up to which the bad end of the mean by the trend stays within the bound, and what was found in that week
// on average too, so that no straight line hides a fall; in it and in every week opened before. But no later than what is published. Weeks
// between openings are not made up, and none after the last. Errors are *InputError.
func Propose(weeks, values []float64, bound Bound, published *Published, level float64) (BestBefore, error) {
	switch {
	case bound.HasLeast == bound.HasMost || !finite(bound.Least) || !finite(bound.Most):
		return BestBefore{}, &InputError{"the bound", "is none, or more than one", "say how low, or how high, the figure may be"}
	case published != nil && !(published.Weeks > 0 && finite(published.Weeks)):
		return BestBefore{}, &InputError{"the published limit", fmt.Sprintf("is %g weeks", published.Weeks), "leave it out, or give weeks above 0"}
	}
	t, err := FitTrend(weeks, values, level)
	if err != nil {
		return BestBefore{}, err
	}
	oneSided := student(t.Values - 2).Quantile(level)
	b := BestBefore{Ending: NotSupported, Published: published, Level: level}
	opened := slices.Compact(slices.Sorted(slices.Values(weeks)))
	found := groupWeeks(weeks, values)
	for i, week := range opened {
		mean, reach := t.AtZero+t.Slope*week, oneSided*t.errorAt(week)
		seen, _ := moments(found[i])
		worst := bound.worst(mean-reach, mean+reach, seen)
		if i == 0 {
			b.Worst = worst
		}
		if !bound.holds(worst) {
			break
		}
		if published != nil && week > published.Weeks {
			b.Weeks, b.Ending = published.Weeks, ByPublished
			return b, nil
		}
		b.Weeks, b.Worst, b.Ending = week, worst, ByQuality
		if i == len(opened)-1 {
			b.Ending = ByLastOpened
		}
	}
	return b, nil
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
