package reheating

import (
	"math"

	"kettlefrost/internal/conduction"
	"kettlefrost/internal/heat"
)

// Verdict says whether minutes can be printed.
type Verdict int

const (
	DoneWell  Verdict = iota + 1 // the worst case is done within the limit
	Uneven                       // thick places take so much longer than thin ones that one time does not fit both
	TooThick                     // the worst case takes longer than the limit
	WaterDips                    // it would be done in time if the water stayed hot: more water, fewer bags or a stronger burner
	NeverHot                     // the water is not hot enough, or does not get hot again
)

var verdictNames = [...]string{DoneWell: "done-well", Uneven: "uneven", TooThick: "too-thick", WaterDips: "water-dips", NeverHot: "never-hot"}

// String is "done-well", "uneven", "too-thick", "water-dips" or "never-hot".
func (v Verdict) String() string {
	if v < DoneWell || v > NeverHot {
		return "unknown verdict"
	}
	return verdictNames[v]
}

// MarshalText writes the verdict as its word.
func (v Verdict) MarshalText() ([]byte, error) { return []byte(v.String()), nil }

// Options are the limits of a card. They are our own; zero takes the default.
type Options struct {
	MarginShare float64 // added to the worst case, up to 1; 0 is 10 %
	LimitS      float64 // longest time of the worst case, 60 s to 4 h; 0 is 45 min: longer, and people stop waiting and the water boils away
	// SpreadLimit is how many times longer the thickest place may take than the thinnest in the same water, 1 to 100; 0 is 3.
	SpreadLimit float64
	Accuracy    conduction.Accuracy
	Measured    []Evaluation // validated microwave and oven times to be printed too; one of simmering water is for comparing
}

func (o Options) ready() (Options, error) {
	o.MarginShare = orDefault(o.MarginShare, 0.1)
	o.LimitS = orDefault(o.LimitS, 45*60)
	o.SpreadLimit = orDefault(o.SpreadLimit, 3)
	if err := heat.InRange("margin", "", o.MarginShare, 0, 1); err != nil {
		return Options{}, err
	}
	if err := heat.InRange("longest time", "s", o.LimitS, 60, 4*3600); err != nil {
		return Options{}, err
	}
	return o, heat.InRange("spread", "", o.SpreadLimit, 1, 100)
}

func orDefault(v, otherwise float64) float64 {
	if v == 0 {
		return otherwise
	}
	return v
}

// Heating is a bag heated from one state. It holds no runs if the water is not hot enough to begin with.
type Heating struct {
	From    Start
	Verdict Verdict
	Minutes int     // to print: the worst case and the margin, rounded up; 0 unless the verdict is DoneWell
	Worst   Run     // thickest place, lowest film
	Nominal Run     // nominal thickness, usual film
	Low     Run     // nominal thickness, lowest film: with High the band that the doubt about the film leaves
	High    Run     // nominal thickness, highest film
	Thin    Run     // thinnest place, usual film
	Thick   Run     // thickest place, usual film
	Spread  float64 // Thick over Thin; 0 if the thick one is not done
}

// Card is what the computation says about a bag.
type Card struct {
	Bag            Bag   // with its thinnest and thickest place
	Water          Water // with its film and temperature
	Options        Options
	Frozen, Thawed Heating
}

// Make computes the card of a bag. Errors: *heat.RangeError.
func Make(b Bag, w Water, o Options) (Card, error) {
	b, err := b.measured()
	if err != nil {
		return Card{}, err
	}
	if w, err = w.ready(); err != nil {
		return Card{}, err
	}
	if o, err = o.ready(); err != nil {
		return Card{}, err
	}
	c := Card{Bag: b, Water: w, Options: o}
	if c.Frozen, err = c.heating(Frozen); err != nil {
		return Card{}, err
	}
	c.Thawed, err = c.heating(Thawed)
	return c, err
}

func (c Card) heating(s Start) (Heating, error) {
	h := Heating{From: s, Verdict: NeverHot}
	if !c.Water.hotEnough() {
		return h, nil
	}
	film := c.Water.Film
	for _, r := range []struct {
		into        *Run
		thicknessM  float64
		filmWM2K    float64
		withDrawing bool
	}{
		{&h.Worst, c.Bag.ThickM, film.LowWM2K, true},
		{&h.Nominal, c.Bag.ThicknessM, film.UsualWM2K, true},
		{&h.Low, c.Bag.ThicknessM, film.LowWM2K, false},
		{&h.High, c.Bag.ThicknessM, film.HighWM2K, false},
		{&h.Thin, c.Bag.ThinM, film.UsualWM2K, false},
		{&h.Thick, c.Bag.ThickM, film.UsualWM2K, false},
	} {
		run, err := soak(c.Bag, c.Water, r.thicknessM, r.filmWM2K, s, c.ask())
		if err != nil {
			return Heating{}, err
		}
		if !r.withDrawing {
			run = run.light()
		}
		*r.into = run
	}
	if h.Thick.Reached && h.Thin.Reached {
		h.Spread = h.Thick.TimeS / h.Thin.TimeS
	}
	return c.judged(h)
}

func (c Card) ask() conduction.Ask {
	return conduction.Ask{CoreC: TargetC, MarksC: []float64{0, HoldC}, WithinS: followS, Accuracy: c.Options.Accuracy}
}

// judged is h with its verdict and its minutes.
func (c Card) judged(h Heating) (Heating, error) {
	switch {
	case !inTime(h.Worst, c.Options.LimitS):
		v, err := c.whyLate(h)
		h.Verdict = v
		return h, err
	case h.Spread > c.Options.SpreadLimit:
		h.Verdict = Uneven
	default:
		h.Verdict = DoneWell
		h.Minutes = PrintedMinutes(h.Worst.TimeS * (1 + c.Options.MarginShare))
	}
	return h, nil
}

func inTime(r Run, limitS float64) bool { return r.Reached && r.TimeS <= limitS }

// whyLate tells a bag that is too thick from a pot that is too small: it asks for the same bag in water that stays hot.
func (c Card) whyLate(h Heating) (Verdict, error) {
	if !c.Water.dips() {
		return TooThick, nil
	}
	steady := c.Water
	steady.NetPowerW = 0
	run, err := soak(c.Bag, steady, c.Bag.ThickM, c.Water.Film.LowWM2K, h.From, c.ask())
	switch {
	case err != nil:
		return 0, err
	case !inTime(run, c.Options.LimitS):
		return TooThick, nil
	case !h.Worst.Reached:
		return NeverHot, nil
	}
	return WaterDips, nil
}

// PrintedMinutes is a time as it is printed: up to the next whole minute, and above 20 up to the next five. 0 for nothing and less.
func PrintedMinutes(timeS float64) int {
	const rounding = 1e-9 // what is a whole minute but for the last bits stays one
	m := math.Ceil(timeS/60 - rounding)
	if !(m > 0) {
		return 0
	}
	if m > 20 {
		m = 5 * math.Ceil(m/5)
	}
	return int(math.Min(m, math.MaxInt32))
}
