package plan

import (
	"fmt"
	"math"

	"kettlefrost/internal/cooling"
	"kettlefrost/internal/coolrule"
	"kettlefrost/internal/unit"
)

// showOption tells one way in the book's words. Ice and hands are of all loads, times of one.
func (p *planner) showOption(w chillWay, o cooling.Option, loads int) ChillOption {
	show := ChillOption{ID: w.id, Name: w.name, Verdict: p.chillVerdict(o), Ice: mass(o.MostIceKg * float64(loads)), HandsOn: minutes(o.HandsS * float64(loads)), Space: unit.Area(math.Round(o.FootprintM2*100) / 100),
		PeakKW: math.Round(o.PeakW/100) / 10, Stages: []ChillStage{}, Notes: []string{}, Fits: p.chillFits(o), Curve: chillCurve(o.Curve)}
	for i, s := range o.Stages {
		if w.stages[i].by == "" {
			s.Need, s.Have = 0, 0 // it stays in the vessel that it was cooked in
		}
		show.Stages = append(show.Stages, ChillStage{Name: w.stages[i].name, Vessels: s.Need, Have: s.Have, Time: minutes(s.TimeS), End: tenth(s.EndC), Ice: mass(s.IceKg), Formula: formulas[s.Formula]})
	}
	for _, c := range o.Cautions {
		if text := p.chillNote(c); text != "" {
			show.Notes = append(show.Notes, text)
		}
	}
	show.To70, show.Slow70, show.Fast70 = passings(o, target70)
	show.To41, show.Slow41, show.Fast41 = passings(o, target41)
	show.Why = p.whyChill(o)
	return show
}

var formulas = map[cooling.Formula]string{
	cooling.NotComputed:  "not needed",
	cooling.PotSeries:    "conduction in a pot left alone, exact series",
	cooling.FiniteVolume: "conduction, finite volumes",
	cooling.SharedAir:    "conduction, finite volumes, in air that the pans warm",
	cooling.StirredPot:   "stirred pot, heat balance with its bath",
	cooling.IceBalance:   "heat balance of food and ice",
}

// passings are the times from 135 °F, or from the start of a food that is colder, to a temperature; nil when it is never reached.
func passings(o cooling.Option, t unit.Temp) (usual, slow, fast *unit.Span) {
	at := func(c unit.Temp, pick func(cooling.Milestone) coolrule.Crossing) (float64, bool) {
		for _, m := range o.To {
			if math.Abs(m.TempC-c.C()) < 1e-6 {
				x := pick(m)
				return x.TimeS, x.Reached
			}
		}
		return 0, false
	}
	since := func(pick func(cooling.Milestone) coolrule.Crossing) *unit.Span {
		from, begun := at(clock135, pick)
		to, reached := at(t, pick)
		if !begun || !reached {
			return nil
		}
		return new(minutes(to - from))
	}
	return since(func(m cooling.Milestone) coolrule.Crossing { return m.Usual }), since(func(m cooling.Milestone) coolrule.Crossing { return m.Low }),
		since(func(m cooling.Milestone) coolrule.Crossing { return m.High })
}

// minutes is a time up to the next whole minute: nobody reads seconds of a cooling.
func minutes(s float64) unit.Span { return unit.Span(math.Ceil(s/60-1e-9)) * unit.Minute }

func (p *planner) chillVerdict(o cooling.Option) ChillVerdict {
	switch o.Verdict {
	case cooling.WithinMargin:
		return ChillRoomy
	case cooling.Within:
		return ChillTight
	case cooling.NotEnough:
		return ChillNoRoom
	case cooling.TooSlow:
		return ChillSlow
	case cooling.Never:
		return ChillNever
	}
	return ChillUnknown
}

func (p *planner) whyChill(o cooling.Option) string {
	switch o.Verdict {
	case cooling.Unknown:
		return o.Err.Error()
	case cooling.Never:
		if n := len(o.Curve); n > 0 {
			return "what is around it is at " + tenth(o.Curve[n-1].MediumC).Show(p.out.Units)
		}
		return ""
	case cooling.TooSlow:
		return whyTooSlow(o.UsualRule)
	case cooling.NotEnough:
		if o.Short == cooling.ShortOfIce {
			return "too little ice for one load"
		}
		return "too few " + o.Short.String() + " for one load"
	case cooling.Within:
		return "at worst " + whyTooSlow(o.LowRule)
	}
	return whyWithin(o.LowRule)
}

// chillNote is what to look at, in words; "" for what only programs need.
func (p *planner) chillNote(c cooling.Caution) string {
	kg := func() string { return mass(c.Value).Show(p.out.Units) }
	temp := func() string { return tenth(c.Value).Show(p.out.Units) }
	switch c.Code {
	case cooling.Uncovered:
		return "stands open while hot: keep anything from falling in"
	case cooling.SurfaceFreezes:
		return "its surface freezes in air of " + temp()
	case cooling.AirWarms:
		return "more heat than the machine takes out: its air warms to " + temp() + ", and all that is in there with it"
	case cooling.IceGone:
		return "the bath has no ice left after " + minutes(c.Value).Show(unit.Metric)
	case cooling.PaddlesGone:
		return "the last paddle has melted after " + minutes(c.Value).Show(unit.Metric)
	case cooling.CookedThicker:
		return "cook it without " + kg() + " of its water: it is thicker until then and catches sooner"
	case cooling.IceIsFood:
		return "the ice is food: of drinking water, handled clean"
	case cooling.WarmsAgain:
		return "what it stands in warms it again: take it out in time"
	case cooling.FromHottest:
		return "counted from its hottest point, " + temp() + ": stir it well when you pour it"
	}
	return ""
}

// chillFits is what would bring a way within the limits at the lowest surface coefficient, each change by itself.
func (p *planner) chillFits(o cooling.Option) []string {
	fits := []string{}
	if o.Verdict == cooling.WithinMargin {
		return fits
	}
	if o.Fit.DeepestM > 0 {
		fits = append(fits, fmt.Sprintf("fill the pans %s deep; that takes %d of them", p.atMostDeep(o.Fit.DeepestM).Show(p.out.Units), o.Fit.Pans))
	}
	if o.Fit.LoadKg > 0 {
		fits = append(fits, "cool "+mass(o.Fit.LoadKg).Show(p.out.Units)+" at a time")
	}
	if o.Fit.IceKg > 0 {
		fits = append(fits, mass(o.Fit.IceKg).Show(p.out.Units)+" of ice in the bath")
	}
	return fits
}

// atMostDeep is a depth rounded down to what a cook can measure: an eighth of an inch, or a millimetre.
func (p *planner) atMostDeep(m float64) unit.Length {
	step := unit.Millimetre
	if p.out.Units == unit.US {
		step = unit.Inch / 8
	}
	return unit.LengthM(m) / step * step
}

// chillCurve is a way's curve with its band.
func chillCurve(points []cooling.CurvePoint) Curve {
	c := Curve{}
	for _, x := range points {
		c = append(c, CurvePoint{Time: seconds(x.TimeS), Core: tenth(x.CoreC), Slow: new(tenth(x.LowC)), Fast: new(tenth(x.HighC)), Medium: new(tenth(x.MediumC))})
	}
	return c
}
