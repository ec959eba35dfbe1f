package heatshow

import (
	"math"

	"kettlefrost/internal/draw"
	"kettlefrost/internal/heatcase"
	"kettlefrost/internal/unit"
)

// Curves is the picture of an answer: core, surface, mean and medium at the usual film, the core at the other films as a band, and the
// limits of cooling or the target.
func Curves(a heatcase.Answer) draw.Curves {
	usual, slow, fast := a.Of("usual"), a.Of("low"), a.Of("high")
	core := func(p heatcase.CurvePoint) float64 { return p.CoreC }
	c := draw.Curves{
		Title: capital(a.Question), Desc: "The core takes " + Time(a.Time.Usual) + ", in all " + Range(a.Time) + ".", Units: a.Units, Warming: a.ToC > a.FromC,
		Lines: []draw.Line{{Name: "core", Kind: draw.Core, Points: points(usual, core)}},
		Band:  draw.Band{Name: "core, with the range of surface coefficients", Low: points(fast, core), High: points(slow, core)},
	}
	if c.Warming {
		c.Band.Low, c.Band.High = c.Band.High, c.Band.Low
	}
	if usual.Cells > 0 { // a stirred pot has one temperature
		c.Lines = append(c.Lines,
			draw.Line{Name: "surface", Kind: draw.Surface, Points: points(usual, func(p heatcase.CurvePoint) float64 { return p.SurfaceC })},
			draw.Line{Name: "mean", Kind: draw.Mean, Points: points(usual, func(p heatcase.CurvePoint) float64 { return p.MeanC })})
	}
	c.Lines = append(c.Lines, draw.Line{Name: "around it", Kind: draw.Medium, Points: points(usual, func(p heatcase.CurvePoint) float64 { return p.MediumC })})
	c.Limits = limits(a)
	if a.Time.Usual.Reached {
		c.Marks = []draw.Mark{{TimeS: a.Time.Usual.TimeS, TempC: a.ToC, Text: Time(a.Time.Usual)}}
	}
	return c
}

func points(r heatcase.Run, of func(heatcase.CurvePoint) float64) []draw.At {
	all := make([]draw.At, len(r.Curve))
	for i, p := range r.Curve {
		all[i] = draw.At{TimeS: p.TimeS, TempC: of(p)}
	}
	return all
}

// limits are the stages of a cooling limit, from when the core passes where their clock starts, or else the target.
func limits(a heatcase.Answer) []draw.Limit {
	if a.Verdict == nil {
		return []draw.Limit{{TempC: a.ToC, Name: unit.TempC(a.ToC).Show(a.Units)}}
	}
	var all []draw.Limit
	for _, s := range a.Verdict.Stages {
		begin, since := 0.0, ""
		for _, m := range a.Marks {
			if math.Abs(m.TempC-s.FromC) < 1e-6 && m.Usual.Reached {
				begin, since = m.Usual.TimeS, " of "+unit.TempC(s.FromC).Show(a.Units)
			}
		}
		name := unit.TempC(s.ToC).Show(a.Units) + " within " + unit.SpanS(s.LimitS).Show(unit.Metric) + since
		all = append(all, draw.Limit{TempC: s.ToC, ByS: begin + s.LimitS, Name: name})
	}
	return all
}
