package forecast

import "fmt"

// InputError says what makes no sense, and what would do.
type InputError struct {
	Where  string // "period 3", "ahead", "batch"
	Reason string
	Fix    string
}

// Error is one line.
func (e *InputError) Error() string { return "forecast: " + e.Where + ": " + e.Reason + "; " + e.Fix }

// farthest is how many periods may be added up or be a season, and most how high a count may be: far beyond any kitchen, so that no sum
// leaves the range.
const (
	farthest = 1000
	most     = 1e12
)

func (o Options) filled() (Options, error) {
	if o.Ahead == 0 {
		o.Ahead = 1
	}
	if o.Cover == 0 {
		o.Cover = 0.8
	}
	switch {
	case o.Ahead < 0 || o.Ahead > farthest:
		return o, &InputError{"ahead", fmt.Sprintf("%d periods can't be forecast", o.Ahead), fmt.Sprintf("ask for 1 to %d", farthest)}
	case o.Season < 0 || o.Season > farthest:
		return o, &InputError{"season", fmt.Sprintf("%d periods are none", o.Season), fmt.Sprintf("give 2 to %d, after which a pattern comes again, or 0", farthest)}
	case !(o.Cover > 0 && o.Cover < 1):
		return o, &InputError{"cover", fmt.Sprintf("%g is not between 0 and 1", o.Cover), "ask for 0.8 or the like; no range holds always"}
	}
	return o, nil
}

func check(counts []float64) error {
	if len(counts) == 0 {
		return &InputError{"history", "there is none", "give the counts of one period at least"}
	}
	for i, y := range counts {
		if !(y >= 0 && y <= most) {
			return &InputError{fmt.Sprintf("period %d", i+1), fmt.Sprintf("%g can't be a count", y), fmt.Sprintf("give 0 to %g", most)}
		}
	}
	return nil
}
