package storagelife

import "fmt"

// Reading is a temperature of a freezer's air, or of a pack in it.
type Reading struct{ TimeS, TempC float64 }

// Excursion is a time during which a freezer was warmer than it should be.
type Excursion struct {
	FromS, ToS float64 // from the last reading that was cold enough to the first that is so again
	Ended      bool    // a reading is cold enough again
	PeakC      float64
	WarmS      float64 // above -5 °C: packs must be looked at, one by one
	ThawedS    float64 // above 5 °C (41 °F), where food thaws and grows dangerous
	Stays      []Stay  // for the share of life: each interval at its warmer end
}

// ReadingError says which reading makes no sense.
type ReadingError struct {
	Reading int
	Problem string
}

func (e *ReadingError) Error() string {
	return fmt.Sprintf("storagelife: reading %d %s: correct it", e.Reading+1, e.Problem)
}

// thawedC is 41 °F, the limit of cold holding (FDA Food Code 3-501.16).
const thawedC = 5

const secondsPerDay = 24 * 3600

// Excursions finds when readings were above a limit. Between two readings the warmer counts, so that no warmth between them is missed for being
// short of a reading; what lies between is still unknown. Errors are *ReadingError.
func Excursions(readings []Reading, limitC float64) ([]Excursion, error) {
	var all []Excursion
	var now *Excursion
	for i, r := range readings {
		switch {
		case !(r.TempC > -200 && r.TempC < 200):
			return nil, &ReadingError{i, fmt.Sprintf("is %g °C", r.TempC)}
		case i > 0 && !(r.TimeS > readings[i-1].TimeS):
			return nil, &ReadingError{i, "is not later than the one before it"}
		}
		warm := r.TempC > limitC
		if warm && now == nil {
			now = &Excursion{FromS: readings[max(0, i-1)].TimeS, PeakC: r.TempC}
		}
		if now == nil {
			continue
		}
		if i > 0 {
			now.add(readings[i-1], r)
		}
		if now.ToS, now.Ended = r.TimeS, !warm; now.Ended {
			all, now = append(all, *now), nil
		}
	}
	if now != nil {
		all = append(all, *now)
	}
	return all, nil
}

func (e *Excursion) add(a, b Reading) {
	took, warmer := b.TimeS-a.TimeS, max(a.TempC, b.TempC)
	e.PeakC = max(e.PeakC, warmer)
	e.Stays = append(e.Stays, Stay{warmer, took / secondsPerDay})
	if warmer > WarmestC {
		e.WarmS += took
	}
	if warmer > thawedC {
		e.ThawedS += took
	}
}
