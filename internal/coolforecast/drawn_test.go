package coolforecast_test

import (
	"math"
	"math/rand/v2"

	"kettlefrost/internal/coolforecast"
	"kettlefrost/internal/cooling"
	"kettlefrost/internal/coollog"
	"kettlefrost/internal/coolrule"
	"kettlefrost/internal/heat"
	"kettlefrost/internal/medium"
)

var stew = heat.FreezingFood{DensityKgM3: 1030, UnfrozenHeatJKgK: 3850, FrozenHeatJKgK: 2040, FreezableJKg: 282e3, FreezingPointC: -0.8,
	UnfrozenConductivityWMK: 0.59, FrozenConductivityWMK: 1.89}

func film(id string) medium.Film {
	m, _ := medium.Find(id)
	return m.Film
}

func same(h float64) medium.Film { return medium.Film{LowWM2K: h, UsualWM2K: h, HighWM2K: h} }

// draws are the ways in which a kitchen differs from what its book says. The surface coefficients lie in their range from low to high with nine
// chances in ten, log-normally; the other widths are common practice.
type draws struct{ *rand.Rand }

func (d draws) around(usual, relative float64) float64 {
	return usual * math.Exp(relative*d.NormFloat64())
}

func (d draws) film(f medium.Film) medium.Film {
	return same(f.UsualWM2K * math.Exp(d.NormFloat64()*math.Log(f.HighWM2K/f.LowWM2K)/3.29))
}

func (d draws) between(low, high float64) float64 { return low + (high-low)*d.Float64() }

// way is one way of cooling as the book has it, and as it is.
type way struct {
	name  string
	drawn func(d draws) (food cooling.Food, book, real cooling.Plan)
}

func one(w cooling.Way) cooling.Plan { return cooling.Plan{Stages: []cooling.Stage{{Way: w}}} }

func (d draws) pans(top string, airC, depthM float64) (book, real cooling.Pans) {
	book = cooling.Pans{LengthM: 0.5, WidthM: 0.3, DepthM: depthM, Have: 99, Top: film(top), Bottom: film("still-air"), AirC: airC}
	if top == "blast-chiller" {
		book.Bottom = film(top)
	}
	real = book
	real.DepthM, real.Top, real.Bottom, real.AirC = d.around(depthM, 0.08), d.film(book.Top), d.film(book.Bottom), airC+d.NormFloat64()*0.8
	return book, real
}

func (d draws) pot() (book, real cooling.Pot) {
	book = cooling.Pot{DiameterM: 0.45, FillM3: 0.06, Have: 9, Wall: medium.Film{LowWM2K: 55, UsualWM2K: 100, HighWM2K: 160}, Bath: cooling.Bath{Ice: cooling.ToppedUp, TempC: 0.5, AmbientC: 22}, AirC: 22}
	real = book
	real.Wall, real.DiameterM = d.film(book.Wall), d.around(book.DiameterM, 0.03)
	real.Bath.TempC = max(0, book.Bath.TempC+0.7*d.NormFloat64())
	return book, real
}

var drawnWays = []way{
	{"pans in a walk-in", func(d draws) (cooling.Food, cooling.Plan, cooling.Plan) {
		b, r := d.pans("walk-in-fan", 3, d.between(0.02, 0.06))
		return cooling.Food{MassKg: 20}, one(b), one(r)
	}},
	{"pans in a blast chiller", func(d draws) (cooling.Food, cooling.Plan, cooling.Plan) {
		b, r := d.pans("blast-chiller", -5, d.between(0.03, 0.08))
		return cooling.Food{MassKg: 20}, one(b), one(r)
	}},
	{"stirred pot in an ice bath", func(d draws) (cooling.Food, cooling.Plan, cooling.Plan) {
		b, r := d.pot()
		return cooling.Food{MassKg: d.between(20, 60)}, one(b), one(r)
	}},
	{"ice bath to 70 °F, then pans", func(d draws) (cooling.Food, cooling.Plan, cooling.Plan) {
		bp, rp := d.pot()
		b, r := d.pans("walk-in-fan", 3, d.between(0.03, 0.06))
		then := func(p cooling.Pot, q cooling.Pans) cooling.Plan {
			return cooling.Plan{Stages: []cooling.Stage{{Way: p, UntilC: 21}, {Way: q}}}
		}
		return cooling.Food{MassKg: 40}, then(bp, b), then(rp, r)
	}},
	{"pot left in a walk-in", func(d draws) (cooling.Food, cooling.Plan, cooling.Plan) {
		b := cooling.PotLeft{DiameterM: d.between(0.15, 0.35), FillM3: 0.02, Have: 9, Side: film("still-air"), Top: film("still-air"), Bottom: film("still-air"), AirC: 3}
		r := b
		r.Side, r.Top, r.Bottom, r.AirC = d.film(b.Side), d.film(b.Top), d.film(b.Bottom), 3+d.NormFloat64()*0.8
		return cooling.Food{MassKg: 12}, one(b), one(r)
	}},
}

// drawn is one cooling: as the book predicts it, as it really is, and as it is read.
type drawn struct {
	way   string
	model coolforecast.Model
	truth []cooling.CurvePoint
	warpS float64 // from then on it goes at another pace
	pace  float64
	log   []coollog.Reading
}

// tempC is what the food really has.
func (x drawn) tempC(timeS float64) float64 {
	if timeS > x.warpS {
		timeS = x.warpS + (timeS-x.warpS)*x.pace
	}
	c := x.truth
	for i := 1; i < len(c); i++ {
		if timeS <= c[i].TimeS {
			return c[i-1].CoreC + (c[i].CoreC-c[i-1].CoreC)*(timeS-c[i-1].TimeS)/(c[i].TimeS-c[i-1].TimeS)
		}
	}
	return c[len(c)-1].CoreC
}

// reachesS is when it really passes a temperature; false when not in two days.
func (x drawn) reachesS(tempC float64) (float64, bool) {
	low, high := 0.0, 48*3600.0
	if x.tempC(high) > tempC {
		return 0, false
	}
	for range 40 {
		if middle := (low + high) / 2; x.tempC(middle) > tempC {
			low = middle
		} else {
			high = middle
		}
	}
	return high, true
}

// draw is one cooling; false when the way cannot be followed to its end.
func draw(d draws, w way) (drawn, bool) {
	food, book, real := w.drawn(d)
	food.Props, food.StartC = stew, d.between(75, 95)
	was := food
	was.Props.UnfrozenConductivityWMK, was.MassKg, was.StartC = d.around(0.59, 0.08), d.around(food.MassKg, 0.08), food.StartC+2*d.NormFloat64()
	b := cooling.Judge(food, []cooling.Plan{book}, coolrule.FoodCodeCooked())[0]
	// The real one is followed below the last limit, so that where it passes that is on its curve.
	deeper := coolrule.FoodCodeCooked()
	deeper.Stages = append(deeper.Stages, coolrule.Stage{ToC: 4.4, WithinS: 3600, Start: coolrule.AtTheStart})
	r := cooling.Judge(was, []cooling.Plan{real}, deeper)[0]
	if b.Err != nil || r.Err != nil || len(r.Curve) < 2 {
		return drawn{}, false
	}
	x := drawn{way: w.name, model: coolforecast.Model{Curve: b.Curve, StartK: 4}, truth: r.Curve, warpS: math.Inf(1), pace: 1}
	end, readUntilS := r.Curve[len(r.Curve)-1].TimeS, 8*3600.0
	if len(b.Stages) > 1 { // the second way has a forecast of its own when it begins
		x.model.BendS, readUntilS = b.Stages[1].StartS, r.Stages[1].StartS
	}
	if d.Float64() < 0.25 { // ice runs low, a door stays open; or somebody moves the pans apart
		x.warpS, x.pace = d.between(0.2, 0.8)*min(end, 5*3600), d.between(0.75, 1.15)
	}
	bias := 0.3 * d.NormFloat64()
	for t := d.between(0, 900); t < readUntilS; t += d.between(600, 2400) {
		c := x.tempC(t)
		x.log = append(x.log, coollog.Reading{TimeS: t, TempC: math.Round((c+bias+0.4*d.NormFloat64())*10) / 10})
		if c < 5 {
			break
		}
	}
	return x, true
}
