package coolforecast

import (
	"math"

	"kettlefrost/internal/coolrule"
)

const (
	badChance, goodChance = 0.95, 0.05
	horizonS              = 48 * 3600
	halvings              = 15 // of the horizon: to 5 s
	// unevenPart is the doubt of how fast what is left goes: ice that runs out, a door that stays open (common practice).
	unevenPart = 0.06
)

// later is over with the doubt of the time that is left.
func (f fit) later(timeS, tempC float64) float64 {
	left := timeS - f.lastS
	return 0.5*f.over(timeS, tempC) + 0.25*f.over(f.lastS+left*(1-math.Sqrt2*unevenPart), tempC) + 0.25*f.over(f.lastS+left*(1+math.Sqrt2*unevenPart), tempC)
}

// reached is when it is at a temperature, from the last reading on; +Inf is not within the horizon.
func (f fit) reached(tempC float64) Span {
	at := func(chance float64) float64 {
		low, high := f.lastS, f.lastS+horizonS
		if 1-f.later(high, tempC) < chance {
			return math.Inf(1)
		}
		for range halvings {
			middle := (low + high) / 2
			if 1-f.later(middle, tempC) < chance {
				low = middle
			} else {
				high = middle
			}
		}
		return high
	}
	return Span{at(goodChance), at(0.5), at(badChance)}
}

// crossing is when it passes a temperature, as usual.
func (f fit) crossing(tempC float64) float64 {
	low, high := f.lastS, f.lastS+horizonS
	if f.over(high, tempC) > 0.5 {
		return math.Inf(1)
	}
	for range halvings {
		if middle := (low + high) / 2; f.over(middle, tempC) > 0.5 {
			low = middle
		} else {
			high = middle
		}
	}
	return high
}

// margin is the time to spare. Each course has its own start of the clock while none has been read.
func (f fit) margin(stage coolrule.Stage, x Limit, accuracyC float64) Span {
	if x.Started {
		return Span{x.DeadlineS - x.ReachedS.Good, x.DeadlineS - x.ReachedS.Usual, x.DeadlineS - x.ReachedS.Bad}
	}
	deadlines := make([]float64, len(f.courses))
	for i, c := range f.courses {
		one := fit{lastS: f.lastS, vSize: f.vSize, courses: []course{c}}
		one.courses[0].weight = 1
		deadlines[i] = one.crossing(stage.FromC+accuracyC) + stage.WithinS
	}
	inTime := func(spareS float64) float64 {
		sum := 0.0
		for i, c := range f.courses {
			if math.IsInf(deadlines[i], 1) {
				continue
			}
			for _, k := range [...]struct{ part, pace float64 }{{0.5, 1}, {0.25, 1 - math.Sqrt2*unevenPart}, {0.25, 1 + math.Sqrt2*unevenPart}} {
				at := f.lastS + max(0, deadlines[i]-spareS-f.lastS)*k.pace
				mean, sd := f.at(c, at)
				sum += c.weight * k.part * normal((stage.ToC-accuracyC-mean)/sd)
			}
		}
		return sum
	}
	with := func(chance float64) float64 {
		low, high := -float64(horizonS), stage.WithinS
		if inTime(low) < chance {
			return math.Inf(-1)
		}
		for range halvings {
			if middle := (low + high) / 2; inTime(middle) >= chance {
				low = middle
			} else {
				high = middle
			}
		}
		return low
	}
	return Span{with(goodChance), with(0.5), with(badChance)}
}

// bandPoints are drawn.
const bandPoints = 24

// draw gives the temperatures of a point from its last reading on, until all limits are behind it.
func (f *Forecast) draw(of fit, c Case) {
	if len(of.courses) == 0 {
		return
	}
	f.NowC.Good, f.NowC.Usual, f.NowC.Bad = of.quantiles(max(c.NowS, of.lastS))
	if c.Model != nil {
		f.Pace = of.pace()
	}
	untilS := c.NowS
	for _, x := range f.Limits {
		for _, at := range []float64{x.ReachedS.Bad, x.DeadlineS, x.ReachedS.Usual} {
			if !math.IsInf(at, 0) && !math.IsNaN(at) {
				untilS = max(untilS, at)
			}
		}
	}
	untilS = min(untilS, of.lastS+12*3600) + 600
	for i := range bandPoints {
		t := of.lastS + (untilS-of.lastS)*math.Pow(float64(i)/(bandPoints-1), 1.3)
		low, usual, high := of.quantiles(t)
		f.Band = append(f.Band, BandPoint{t, low, usual, high})
	}
}
