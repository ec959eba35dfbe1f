package plan

import (
	"errors"
	"fmt"
	"maps"
	"math"
	"slices"

	"kettlefrost/internal/coolrule"
	"kettlefrost/internal/heat"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/massflow"
	"kettlefrost/internal/medium"
	"kettlefrost/internal/unit"
)

// Verdicts on a way of chilling. Within is a prediction: a thermometer in the food decides.
const (
	within    = "within the limits, as predicted"
	tooSlow   = "too slow"
	neverCold = "never gets there"
	noRoom    = "not enough of them"
	unknown   = "cannot be computed"
)

// margin is the share of each limit that should be to spare, so that a surface coefficient some 20 % lower than thought still does.
const margin = 0.2

// cooling is one output being chilled: what the timetable needs of it.
type cooling struct {
	dish   *cooked
	output kitchen.OutputID
	step   int
	by     kitchen.ChillingID // empty when no way is safe
	each   int                // pots or pans for one load of the step
	timeS  float64            // of one load, set-up not included
}

// chill compares the kitchen's ways to cool each hot output that packs are filled from.
func (p *planner) chill() {
	for _, d := range p.dishes {
		for _, id := range p.drawn(d) {
			step := d.outputs[id].Step
			if p.outC(d, step) > target41.C() {
				p.chillOutput(d, id, step)
			}
		}
	}
}

// drawn is the outputs of a dish that the packs of this run are filled from, in the order of their names.
func (p *planner) drawn(d *cooked) []kitchen.OutputID {
	set := map[kitchen.OutputID]bool{}
	for _, f := range p.out.Fill {
		if f.Dish == string(d.id) && f.Count > 0 {
			for _, e := range f.Each {
				set[kitchen.OutputID(e.ID)] = true
			}
		}
	}
	return slices.Sorted(maps.Keys(set))
}

var (
	target41 = unit.TempF(41)
	target70 = unit.TempF(70)
	clock135 = unit.TempF(135)
)

func (p *planner) chillOutput(d *cooked, id kitchen.OutputID, step int) {
	ref := d.outputs[id]
	out := d.flow.Steps[ref.Step].Out[ref.Output]
	rule := coolrule.FoodCodeCooked()
	show := Chill{Dish: string(d.id), Output: string(id), Name: p.outLine(d, id, 0).Name, Mass: mass(out.LeftKg), From: unit.TempC(p.outC(d, step)), Options: []ChillOption{}, Chosen: -1,
		Rule: rule.Title, Source: rule.Source}
	loads := max(1, d.flow.Steps[step].Split.N)
	food := hotFood{kg: out.LeftKg / float64(loads), fractions: fractionsOf(out.Stream), fromC: p.outC(d, step), pieces: p.output(d, id).Piece > 0}
	var ways []way
	for _, c := range slices.Sorted(maps.Keys(p.book.Chilling)) {
		w := p.way(c, food, rule)
		ways = append(ways, w)
		show.Options = append(show.Options, w.option(c, p.book.Chilling[c], loads))
	}
	show.Chosen = choose(ways)
	p.judgeChill(d, show, ways)
	cool := cooling{dish: d, output: id, step: step}
	if show.Chosen >= 0 {
		w := ways[show.Chosen]
		cool.by, cool.each, cool.timeS = slices.Sorted(maps.Keys(p.book.Chilling))[show.Chosen], w.vessels, w.wholeS
	}
	p.day.cooling = append(p.day.cooling, cool)
	p.out.Chill = append(p.out.Chill, show)
}

// hotFood is one load of something hot.
type hotFood struct {
	kg        float64
	fractions massflow.Fractions
	fromC     float64
	pieces    bool
}

// way is one way of chilling one load, computed.
type way struct {
	vessels      int
	have         int
	to70S, to41S float64 // from 135 °F, or from the start when it begins colder
	wholeS       float64 // from the start to 41 °F
	reached70    bool
	reached41    bool
	iceKg        float64
	handsS       float64
	verdict      string
	why, formula string
}

func (p *planner) way(id kitchen.ChillingID, food hotFood, rule coolrule.Rule) way {
	c := p.book.Chilling[id]
	w, timeTo, err := p.cooler(c, food)
	w.have = c.Count
	if err != nil {
		w.verdict, w.why = unknown, err.Error()
		return w
	}
	crossings := coolrule.FromTimes(food.fromC, timeTo)
	verdict, err := coolrule.Judge(rule, crossings)
	if err != nil {
		w.verdict, w.why = unknown, err.Error()
		return w
	}
	w.to70S, w.reached70 = since135(crossings, target70)
	w.to41S, w.reached41 = since135(crossings, target41)
	if end, err := crossings(target41.C()); err == nil {
		w.wholeS = end.TimeS
	}
	w.handsS = float64(w.vessels)*c.Set.S() + c.Tend.F()*w.wholeS
	switch {
	case !w.reached41:
		w.verdict, w.why = neverCold, fmt.Sprintf("the medium is at %s", mediumOf(c).Show(p.out.Units))
	case verdict.Outcome != coolrule.WithinRule:
		w.verdict, w.why = tooSlow, whyTooSlow(verdict)
	case w.vessels > w.have:
		w.verdict, w.why = noRoom, fmt.Sprintf("one load needs %d, there are %d", w.vessels, w.have)
	default:
		w.verdict, w.why = within, whyWithin(verdict)
	}
	return w
}

// since135 is the time from the start of the limits' clock, which is 135 °F or the start of a food that is colder already.
func since135(when coolrule.Crossings, t unit.Temp) (float64, bool) {
	start, err := when(clock135.C())
	end, err2 := when(t.C())
	if errors.Join(err, err2) != nil || !end.Reached || !start.Reached {
		return 0, false
	}
	return end.TimeS - start.TimeS, true
}

// minutes is a time up to the next whole minute: nobody reads seconds of a cooling.
func minutes(s float64) unit.Span { return unit.Span(math.Ceil(s/60-1e-9)) * unit.Minute }

// cooler sets up one way: its vessels, what it needs, and the formula for the time to a temperature.
func (p *planner) cooler(c kitchen.Chilling, food hotFood) (way, func(float64) (float64, error), error) {
	if food.pieces && c.Method != kitchen.ShallowPans {
		return way{}, nil, errors.New("pieces are cooled in one layer, in pans")
	}
	x, err := properties(food.fractions, (food.fromC+5)/2)
	if err != nil {
		return way{}, nil, err
	}
	solid := heat.Solid{DensityKgM3: x.DensityKgM3, SpecificHeatJKgK: x.SpecificHeatJKgK, ConductivityWMK: x.ConductivityWMK}
	litres := food.kg / x.DensityKgM3 * 1000
	switch c.Method {
	case kitchen.ShallowPans:
		each := c.Length.M() * c.Width.M() * c.Depth.M() * 1000
		if each <= 0 {
			return way{}, nil, errors.New("give the pan's length, width and depth of food")
		}
		w := way{vessels: ceil(litres / each), formula: "conduction through a layer, exact series, nothing gained by evaporation"}
		sheet := heat.Sheet{Solid: solid, ThicknessM: c.Depth.M(), BottomFilmWM2K: float64(c.Bottom), TopFilmWM2K: float64(c.Top)}
		return w, slowed(mediumOf(c), func(t float64) (float64, error) { return sheet.CoreTimeS(food.fromC, mediumOf(c).C(), t) }), nil
	case kitchen.StirredBath, kitchen.PotInAir:
		e, ok := p.book.Equipment[c.Vessel]
		if !ok || e.Diameter <= 0 || workingL(e) <= 0 {
			return way{}, nil, errors.New("give the vessel that stands in it, with volume and diameter")
		}
		w := way{vessels: ceil(litres / workingL(e))}
		depth := litres / 1000 / float64(w.vessels) / circle(e.Diameter)
		if c.Method == kitchen.PotInAir {
			w.formula = "conduction in a pot left alone, exact series"
			pot := potInAir(solid, e.Diameter.M(), depth, c)
			return w, slowed(mediumOf(c), func(t float64) (float64, error) { return pot.CentreTimeS(food.fromC, mediumOf(c).C(), t) }), nil
		}
		w.formula = "stirred pot, Newton's law of cooling on its wet side and base"
		v := heat.Vessel{HeatCapacityJK: food.kg / float64(w.vessels) * x.SpecificHeatJKgK, LossWK: float64(c.Wall) * (math.Pi*e.Diameter.M()*depth + circle(e.Diameter))}
		if joules, err := v.HeatJ(food.fromC, target41.C()); err == nil {
			w.iceKg, _ = heat.IceKg(joules*float64(w.vessels), 0, max(0, mediumOf(c).C()))
		}
		return w, func(t float64) (float64, error) { return v.TimeS(food.fromC, mediumOf(c).C(), t) }, nil
	default:
		return way{}, nil, fmt.Errorf("the method %q is not known", c.Method)
	}
}

// potInAir is a pot of food left alone. Its height gives off heat as fast as the slower of top and bottom lets it, and when only one of
// them is given the other is taken as closed: the answer is never too short.
func potInAir(solid heat.Solid, diameterM, depthM float64, c kitchen.Chilling) heat.Body {
	slow, fast := min(c.Top, c.Bottom), max(c.Top, c.Bottom)
	up := heat.Axis{Shape: heat.Slab, HalfM: depthM / 2, FilmWM2K: float64(slow)}
	if slow == 0 {
		up.HalfM, up.FilmWM2K = depthM, float64(fast)
	}
	return heat.Body{Solid: solid, Axes: []heat.Axis{{Shape: heat.Cylinder, HalfM: diameterM / 2, FilmWM2K: float64(c.Wall)}, up}}
}

// freezingAir lengthens conduction times in air below 0 °C: the surface freezes before the core is cold, which the formula leaves out.
// A 4 in pan in -10 °C air came out 2.4 % short of a finite-volume solution (derived); twice that is taken.
const freezingAir = 1.05

func slowed(medium unit.Temp, timeTo func(float64) (float64, error)) func(float64) (float64, error) {
	if medium >= 0 {
		return timeTo
	}
	return func(t float64) (float64, error) {
		s, err := timeTo(t)
		return s * freezingAir, err
	}
}

// mediumOf is the temperature around the food.
func mediumOf(c kitchen.Chilling) unit.Temp {
	if c.Medium != nil {
		return *c.Medium
	}
	m, _ := medium.Find(string(c.In))
	return unit.TempC(m.TempC)
}

func ceil(x float64) int { return max(1, int(math.Ceil(x-1e-9))) }

// choose picks the way with the least hands-on time among those within the limits, one with a margin before one without.
func choose(ways []way) int {
	best := -1
	for i, w := range ways {
		if w.verdict != within {
			continue
		}
		if best < 0 || w.roomy() && !ways[best].roomy() || w.roomy() == ways[best].roomy() && w.handsS < ways[best].handsS {
			best = i
		}
	}
	return best
}

// roomy says that both limits are met with the margin.
func (w way) roomy() bool { return w.to70S <= (1-margin)*2*3600 && w.to41S <= (1-margin)*6*3600 }

func (w way) option(id kitchen.ChillingID, c kitchen.Chilling, loads int) ChillOption {
	o := ChillOption{ID: string(id), Name: c.Name, Vessels: w.vessels, Have: w.have, Verdict: w.verdict, Ice: mass(w.iceKg * float64(loads)),
		HandsOn: minutes(w.handsS * float64(loads)), Why: w.why, Formula: w.formula}
	if w.reached70 {
		t := minutes(w.to70S)
		o.To70 = &t
	}
	if w.reached41 {
		t := minutes(w.to41S)
		o.To41 = &t
	}
	return o
}
