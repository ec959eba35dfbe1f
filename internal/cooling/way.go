package cooling

import (
	"fmt"

	"kettlefrost/internal/conduction"
	"kettlefrost/internal/heat"
	"kettlefrost/internal/medium"
	"kettlefrost/internal/vessel"
)

// Way is one way of taking the heat out: Pans, Pot, PotLeft or HeldIce.
type Way interface {
	check() error
	stirs() bool // the food is at one temperature in it
	work() Work
	vessels(f Food) Vessels
	// follow cools the food, which is startC throughout, until its hottest point is at the end of the errand. vessels are used.
	follow(f Food, startC float64, vessels int, e errand) (leg, error)
}

// Work is the hands that a way takes.
type Work struct {
	SetUpS float64 // for each pot or pan, 0 to a day
	Tend   float64 // share of the time that somebody stirs or watches, 0 to 1
}

func (w Work) check() error {
	if err := heat.InRange("set-up", "s", w.SetUpS, 0, dayS); err != nil {
		return err
	}
	return heat.InRange("share of the time to tend", "", w.Tend, 0, 1)
}

const (
	dayS = 24 * 3600
	// longestS is how long a cooling is followed. What is not cold then counts as never cold.
	longestS = 10 * dayS
)

// Vessels are the pots or pans of a stage.
type Vessels struct {
	Need        int
	Have        int
	FootprintM2 float64 // of those needed, side by side
}

// Stage is a way and when it ends.
type Stage struct {
	Way     Way
	UntilC  float64 // the hottest point, when the next stage begins; not used for the last stage
	AtMostS float64 // the next stage begins then at the latest, or when the food would warm again; 0 is no limit; not used for the last stage
}

// Plan is stages after one another. The clock runs through the set-up of the second and each later stage, during which the food counts
// as not cooling; the first begins when it is set up.
type Plan struct{ Stages []Stage }

// mostStages is more than anyone does.
const mostStages = 6

func (p Plan) check(f Food) error {
	if err := heat.InRange("number of stages", "", float64(len(p.Stages)), 1, mostStages); err != nil {
		return err
	}
	for i, s := range p.Stages {
		if err := s.check(i == len(p.Stages)-1); err != nil {
			return fmt.Errorf("stage %d: %w", i+1, err)
		}
		if f.Pieces && s.Way.stirs() {
			return &PiecesError{i}
		}
		if _, ice := s.Way.(HeldIce); ice && i > 0 {
			return fmt.Errorf("stage %d: %w", i+1, errIceFirst)
		}
	}
	return nil
}

func (s Stage) check(last bool) error {
	if s.Way == nil {
		return errNoWay
	}
	if err := s.Way.check(); err != nil {
		return err
	}
	if err := s.Way.work().check(); err != nil {
		return err
	}
	if last {
		return nil
	}
	if err := heat.InRange("end of the stage", "°C", s.UntilC, coldestMediumC, hottestC); err != nil {
		return err
	}
	return heat.InRange("longest time of the stage", "s", s.AtMostS, 0, longestS)
}

// errand is what is asked of a way.
type errand struct {
	level   level
	endC    float64
	marksC  []float64 // falling; those between start and end are wanted
	withinS float64   // above 0
}

// leg is one stage followed. Times count from its beginning.
type leg struct {
	reached bool
	timeS   float64 // until then, or until it was given up
	endC    float64 // hottest point at timeS
	points  []point // from 0 to timeS
	passed  []passing
	taken   Taken
	peakW   float64
	formula Formula

	iceKg    float64 // needed from outside, without the food's own
	paddles  int     // put in, all pots together
	shortOf  Short
	profile  []conduction.Place
	cautions []Caution
}

// point is one moment.
type point struct{ timeS, coreC, meanC, mediumC float64 }

// passing is when the hottest point passed a temperature.
type passing struct{ tempC, timeS float64 }

// sameC forgives rounding.
const sameC = 1e-9

// level is which end of the range of the surface coefficients.
type level int

const (
	low level = iota
	usual
	high
	levels
)

func (l level) film(f medium.Film) float64 {
	return [...]float64{f.LowWM2K, f.UsualWM2K, f.HighWM2K}[l]
}

// wet is the share of a surface that evaporates, with the spread of the evaporation table. More than a free water surface is not
// counted.
func (l level) wet(share float64) float64 {
	return min(1, share*[...]float64{1 - vessel.EvaporationSpread, 1, 1 + vessel.EvaporationSpread}[l])
}

// checkFilm allows a closed face, all three values 0, if closed.
func checkFilm(what string, f medium.Film, closed bool, largestWM2K float64) error {
	if closed && f == (medium.Film{}) {
		return nil
	}
	for _, h := range []float64{f.LowWM2K, f.UsualWM2K, f.HighWM2K} {
		if err := heat.InRange(what, "W/(m²·K)", h, heat.SmallestFilmWM2K, largestWM2K); err != nil {
			return err
		}
	}
	if err := heat.InRange(what+", low end", "W/(m²·K)", f.LowWM2K, 0, f.UsualWM2K); err != nil {
		return err
	}
	return heat.InRange(what+", high end", "W/(m²·K)", f.HighWM2K, f.UsualWM2K, largestWM2K)
}

// largestFilmWM2K is far above what any surface in a kitchen has.
const largestFilmWM2K = 1e6
