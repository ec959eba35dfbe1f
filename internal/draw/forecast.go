package draw

import (
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// Cooling is the curve of one way of chilling with the limits, and beside it other ways to compare. A way that the plan does not have
// is left out.
func Cooling(c plan.Chill, way int, beside []int, units unit.System) Curves {
	chart := Curves{Title: "Cooling " + c.Name, Units: units, Desc: "The hottest point of one load over time, as predicted."}
	if way < 0 || way >= len(c.Options) {
		return chart
	}
	o := c.Options[way]
	start := passes135(o.Curve)
	chart.Title += ": " + o.Name
	chart.Limits = []Limit{
		{TempC: unit.TempF(70).C(), ByS: start + 2*3600, Name: "70 °F within 2 h of 135 °F"},
		{TempC: unit.TempF(41).C(), ByS: start + 6*3600, Name: "41 °F within 6 h of 135 °F"},
	}
	chart.Lines = append(chart.Lines, Line{Name: lineName(len(beside) > 0, o.Name, "hottest point"), Points: cores(o.Curve)})
	chart.Band = Band{Name: "range of the surface coefficients", Low: fasts(o.Curve), High: slows(o.Curve)}
	for _, i := range beside {
		if i >= 0 && i < len(c.Options) && i != way {
			chart.Lines = append(chart.Lines, Line{Name: c.Options[i].Name, Points: cores(c.Options[i].Curve)})
		}
	}
	if len(chart.Lines) == 1 {
		chart.Lines = append(chart.Lines, Line{Name: "what is around it", Kind: Medium, Points: media(o.Curve)})
	}
	return chart
}

func lineName(many bool, way, alone string) string {
	if many {
		return way
	}
	return alone
}

// passes135 is when a curve falls through 135 °F, where the limits' clock starts; 0 when it starts colder.
func passes135(c plan.Curve) float64 {
	hot := unit.TempF(135).C()
	for i := 1; i < len(c); i++ {
		a, b := c[i-1], c[i]
		if a.Core.C() > hot && b.Core.C() <= hot {
			return a.Time.S() + (b.Time.S()-a.Time.S())*(a.Core.C()-hot)/(a.Core.C()-b.Core.C())
		}
	}
	return 0
}

// Freezing is the curve of a pack in a freezer.
func Freezing(p plan.PackFreeze, units unit.System) Curves {
	return Curves{Title: "Freezing " + p.Name, Units: units, Desc: "The core and the surface of one pack over time, as predicted, in " + p.Freezer + ".",
		Lines: []Line{{Name: "core", Points: cores(p.Curve)}, {Name: "surface", Kind: Surface, Points: surfaces(p.Curve)}, {Name: "air", Kind: Medium, Points: media(p.Curve)}},
		Band:  Band{Name: "range of the surface coefficients", Low: fasts(p.Curve), High: slows(p.Curve)},
		Marks: []Mark{{TimeS: p.Time.S(), TempC: p.To.C(), Text: p.Time.Show(units)}},
	}
}

// Cabinet is how warm a freezer and the old stock in it get with what is loaded, counted from the first loading.
func Cabinet(c plan.CabinetDay, units unit.System) Curves {
	chart := Curves{Title: "Loading " + c.Freezer, Units: units, Desc: "The air of the freezer and the warmest point of its old stock over time, as predicted."}
	if air := media(c.Curve); len(air) > 0 {
		chart.Lines = []Line{{Name: "old stock, warmest point", Points: cores(c.Curve)}, {Name: "air", Kind: Medium, Points: air}}
	} else {
		chart.Lines = []Line{{Name: "air", Kind: Medium, Points: cores(c.Curve)}}
	}
	return chart
}

// Heating is the curve of a pack in simmering water from frozen: of a usual bag, and of the thickest in the poorest pot.
func Heating(c plan.Card, units unit.System) Curves {
	chart := Curves{Title: "Heating " + c.Name, Units: units, Desc: "The coldest point of a frozen bag in simmering water over time, as predicted.", Warming: true,
		Limits: []Limit{{TempC: unit.TempF(165).C(), Name: "165 °F (74 °C)"}}}
	chart.Lines = []Line{{Name: "coldest point, usual bag", Points: cores(c.Frozen.Curve)}, {Name: "thickest bag, poorest pot", Kind: Mean, Points: slows(c.Frozen.Curve)},
		{Name: "water", Kind: Medium, Points: media(c.Frozen.Curve)}}
	return chart
}

// track is the points of a curve at which something is known.
func track(c plan.Curve, of func(plan.CurvePoint) *unit.Temp) []At {
	var points []At
	for _, p := range c {
		if t := of(p); t != nil {
			points = append(points, At{TimeS: p.Time.S(), TempC: t.C()})
		}
	}
	return points
}

func cores(c plan.Curve) []At { return track(c, func(p plan.CurvePoint) *unit.Temp { return &p.Core }) }
func slows(c plan.Curve) []At { return track(c, func(p plan.CurvePoint) *unit.Temp { return p.Slow }) }
func fasts(c plan.Curve) []At { return track(c, func(p plan.CurvePoint) *unit.Temp { return p.Fast }) }
func surfaces(c plan.Curve) []At {
	return track(c, func(p plan.CurvePoint) *unit.Temp { return p.Surface })
}
func media(c plan.Curve) []At {
	return track(c, func(p plan.CurvePoint) *unit.Temp { return p.Medium })
}
