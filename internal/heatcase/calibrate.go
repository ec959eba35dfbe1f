package heatcase

import (
	"errors"
	"fmt"
	"math"

	"kettlefrost/internal/calibration"
	"kettlefrost/internal/heat"
	"kettlefrost/internal/medium"
	"kettlefrost/internal/unit"
)

// CalibrationSchema is the name of a Calibration as JSON.
const CalibrationSchema = "kettlefrost.calibration/1"

// Calibration is the surface coefficient with which a case takes as long as it was logged to take.
type Calibration struct {
	Schema   string            `json:"schema"`
	Question string            `json:"question"` // the log, in one line of words
	Case     map[string]string `json:"case"`
	Units    unit.System       `json:"units"`
	TookS    float64           `json:"took_s"`
	Overall  bool              `json:"overall"` // it is a stirred pot's overall coefficient, not that of the medium
	Medium   string            `json:"medium"`
	Words    string            `json:"words"` // the medium's name
	LowW     float64           `json:"low_film_w_m2_k"`
	UsualW   float64           `json:"usual_film_w_m2_k"`
	HighW    float64           `json:"high_film_w_m2_k"`
	LowOpen  bool              `json:"low_open"`  // the low end is only the smallest that was looked at
	HighOpen bool              `json:"high_open"` // the high end is only the largest that was looked at
	DoubtK   float64           `json:"thermometer_doubt_k"`
	DoubtS   float64           `json:"clock_doubt_s"`
	WallW    float64           `json:"wall_w_m2_k,omitempty"` // of a stirred pot, on its side and base alone: what a book's way of chilling has as wall
	// Published is the range that is computed with otherwise.
	PublishedLowW   float64 `json:"published_low_film_w_m2_k"`
	PublishedUsualW float64 `json:"published_usual_film_w_m2_k"`
	PublishedHighW  float64 `json:"published_high_film_w_m2_k"`
}

// UnexplainedError is a log that no surface coefficient explains.
type UnexplainedError struct {
	LoggedS float64
	LimitS  float64 // the time with the coefficient that is nearest to explaining it; infinite when the core never gets there
	Quick   bool    // the log is quicker than with the largest coefficient; else slower than with the smallest
}

func (e *UnexplainedError) Error() string {
	logged := unit.SpanS(e.LoggedS).Show(unit.Metric)
	switch limit := CookTime(e.LimitS).Show(unit.Metric); {
	case math.IsInf(e.LimitS, 0):
		return "no surface coefficient explains it: in such surroundings the core never gets there"
	case e.Quick:
		return fmt.Sprintf("no surface coefficient explains %s: the food alone needs about %s, however well heat passes its surface", logged, limit)
	default:
		return fmt.Sprintf("no surface coefficient explains %s: even the smallest that was looked at, %d W/m²·K, needs only %s", logged, calibration.SmallestFilmWM2K, limit)
	}
}

// What a log must be for anything to be told from it.
const (
	shortestLog = 5 * unit.Minute // against half a minute of doubt
	longestLog  = 30 * unit.Day
)

// Calibrate finds the surface coefficient with which the core of a case goes from From to To in the time that one batch took, both read to
// calibration.ThermometerDoubtK and the time to calibration.ClockDoubtS: the coefficient of what it stands in, without the package, which is counted
// as usual (in simmering water with the bag's film, as the published ones are); of a stirred pot the overall one. Low and High are those
// of all doubts pulling one way. What the log cannot know, such as whether the air stayed as cold as said, is not in them. Sides that
// name a medium or coefficient of their own keep it.
//
// A case without a process is read from its temperatures. Errors: *CaseError, also for a log that is too short or shows too small a
// change; *UnexplainedError when no coefficient explains it; *heat.RangeError.
func (c Case) Calibrate(took unit.Span) (Calibration, error) {
	c, err := c.logged(took)
	if err != nil {
		return Calibration{}, err
	}
	q, err := c.question()
	if err != nil {
		return Calibration{}, err
	}
	around, _, _ := q.sides()
	k := Calibration{Schema: CalibrationSchema, Question: q.words(), Case: c.Given(), Units: c.Units, TookS: took.S(), Overall: c.Stir != Unstirred && c.Stir != "", Medium: around.medium.ID,
		Words: around.medium.Name, DoubtK: calibration.ThermometerDoubtK, DoubtS: calibration.ClockDoubtS}
	k.publish(around.film)
	if k.Overall {
		k.publish(q.overall())
		err = k.stirredPot(q)
	} else {
		err = k.simulated(q)
	}
	return k, err
}

func (k *Calibration) publish(f medium.Film) {
	k.PublishedLowW, k.PublishedUsualW, k.PublishedHighW = f.LowWM2K, f.UsualWM2K, f.HighWM2K
}

// logged is the case as it was logged, if it can be one.
func (c Case) logged(took unit.Span) (Case, error) {
	k := checker{c: c}
	switch {
	case c.From == nil:
		k.stop("from", "it is not said how warm the core was at the start", "give the logged temperature")
	case c.To == nil:
		k.stop("to", "it is not said how warm the core was at the end", "give the logged temperature")
	case took < shortestLog || took > longestLog:
		k.stop("took", took.Show(unit.Metric)+" is no time to tell a coefficient from", "give the logged time, 5 min to 30 days, such as 3 h 10 min")
	case math.Abs(c.From.C()-c.To.C()) <= 2*calibration.ThermometerDoubtK+0.1:
		k.stop("to", "the logged change is no larger than the doubt of a thermometer, 1 °C at each end", "take a longer log")
	case c.Around.Film != nil || c.U != nil:
		key := "film"
		if c.U != nil {
			key = "u"
		}
		k.stop(key, "the coefficient is what is looked for", "leave it out")
	}
	if len(k.found) > 0 {
		return c, &CaseError{k.found}
	}
	if c.Process == "" {
		if r, err := c.Food.resolve(); err == nil {
			c.Process = processOf(c.From.C(), c.To.C(), r.freezesC)
		} else {
			c.Process = Cool // Check says what is wrong with the food
		}
	}
	if c.Package == Film || c.Package == "" && c.Shape.Kind == Bag {
		if c.WithDefaults().Around.Medium == "simmering-water" {
			c.Package = NoPackage // its coefficients are those through a bag's film
		}
	}
	return c, nil
}

func processOf(fromC, toC, freezesC float64) Process {
	switch {
	case fromC < toC:
		return Reheat
	case toC < freezesC:
		return Freeze
	}
	return Cool
}

// pull is which way the doubts of a log pull.
type pull float64

const (
	slower  pull = -1 // a smaller change in a longer time
	asRead  pull = 0
	quicker pull = 1
)

// simulated finds the film by simulation.
func (k *Calibration) simulated(q question) error {
	q.marks = []Mark{{TempC: q.to}}
	find := func(p pull) (float64, error) {
		logged := k.TookS - float64(p)*k.DoubtS
		x, err := calibration.FilmWM2K(logged, 0, q.remembered(p))
		return x.Value, unexplained(err, logged)
	}
	var err error
	if k.UsualW, err = find(asRead); err != nil {
		return err
	}
	for _, end := range []struct {
		pull
		at   *float64
		open *bool
		most float64
	}{{slower, &k.LowW, &k.LowOpen, calibration.SmallestFilmWM2K}, {quicker, &k.HighW, &k.HighOpen, calibration.LargestFilmWM2K}} {
		*end.at, err = find(end.pull)
		if _, open := errors.AsType[*UnexplainedError](err); open {
			*end.at, *end.open = end.most, true
		} else if err != nil {
			return err
		}
	}
	return nil
}

// remembered is the time by film with the temperatures of the log pulled one way; each film is simulated once.
func (q question) remembered(p pull) func(filmWM2K float64) (float64, error) {
	toward := float64(p) * calibration.ThermometerDoubtK * math.Copysign(1, q.to-q.from)
	q.from, q.to = q.from-toward, q.to+toward
	known := map[float64]float64{}
	return func(film float64) (float64, error) {
		if t, ok := known[film]; ok {
			return t, nil
		}
		q.Around.Film = new(unit.Film(film))
		run, _, err := q.simulate(usualFilm)
		if err != nil {
			return 0, err
		}
		if !run.Reached {
			return 0, &heat.NeverError{StartC: q.from, TargetC: q.to, LimitC: run.EndCoreC}
		}
		known[film] = run.TimeS
		return run.TimeS, nil
	}
}

// unexplained puts the refusal of a logged time into its own words.
func unexplained(err error, loggedS float64) error {
	out, ok := errors.AsType[*heat.RangeError](err)
	if !ok || out.What != "logged time" {
		return err
	}
	if loggedS >= out.Low {
		return &UnexplainedError{LoggedS: loggedS, LimitS: out.High}
	}
	e := &UnexplainedError{LoggedS: loggedS, LimitS: out.Low, Quick: true}
	if out.Low >= out.High { // the time without end
		e.LimitS = math.Inf(1)
	}
	return e
}

// stirredPot finds the overall coefficient by Newton's law.
func (k *Calibration) stirredPot(q question) error {
	around, _, _ := q.sides()
	v := q.vessel(usualFilm)
	x, err := calibration.LossWK(v.HeatCapacityJK, calibration.Logged{StartC: q.from, EndC: q.to, MediumC: around.tempC, TimeS: k.TookS, TempDoubtK: k.DoubtK, TimeDoubtS: k.DoubtS})
	if out, ok := errors.AsType[*heat.RangeError](err); ok && out.What == "distance of the end from the medium" {
		c := checker{c: q.Case}
		c.stop("to", "the logged end is no further from "+around.medium.Name+" than the doubt of a thermometer", "log a time at a temperature further from it")
		return &CaseError{c.found}
	} else if err != nil {
		return err
	}
	area, base := q.exchangeM2(), q.baseM2()
	k.LowW, k.UsualW, k.HighW = x.Low/area, x.Value/area, x.High/area
	k.WallW = k.UsualW
	if !around.medium.Wet {
		k.WallW = x.Value / (area - base)
	}
	if k.UsualW < smallestOverall || k.UsualW > largestOverall {
		limit, quick := smallestOverall, false
		if k.UsualW > largestOverall {
			limit, quick = largestOverall, true
		}
		return &UnexplainedError{LoggedS: k.TookS, LimitS: k.TookS * k.UsualW / limit, Quick: quick}
	}
	return nil
}

// The overall coefficients that a pot can have: from one in still air to what thin steel between two streams of water lets through.
const smallestOverall, largestOverall = 1.0, 5000.0
