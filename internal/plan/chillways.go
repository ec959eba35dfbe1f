package plan

import (
	"errors"
	"maps"
	"math"
	"slices"

	"kettlefrost/internal/cooling"
	"kettlefrost/internal/heat"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/medium"
	"kettlefrost/internal/unit"
	"kettlefrost/internal/vessel"
)

// chillWay is one way of chilling: one of the book, or made of several.
type chillWay struct {
	id     string
	name   string
	stages []chilledStage // before it is followed: how many vessels and how long is not known
	plan   cooling.Plan
}

func plansOf(ways []chillWay) []cooling.Plan {
	plans := make([]cooling.Plan, len(ways))
	for i, w := range ways {
		plans[i] = w.plan
	}
	return plans
}

// mostWays bounds the comparison; the ways of the book come first.
const mostWays = 16

// chillWays is all that this kitchen can do: the ways of the book in the order of their ids, then what follows from them: a bath down to
// 70 °F and pans after it, and ice in place of a part of the water before a bath.
func (p *planner) chillWays(d *cooked, food cooling.Food, loads int) []chillWay {
	var ways, stirred, pans []chillWay
	for _, id := range slices.Sorted(maps.Keys(p.book.Chilling)) {
		c := p.book.Chilling[id]
		if food.Pieces && !p.onlyPans(c) {
			continue
		}
		w := p.bookWay(id, loads)
		ways = append(ways, w)
		switch {
		case c.Method == kitchen.StirredBath && c.Paddle == nil:
			stirred = append(stirred, w)
		case c.Method == kitchen.ShallowPans:
			pans = append(pans, w)
		}
	}
	if food.Pieces {
		return ways
	}
	for _, first := range stirred {
		for _, then := range pans {
			ways = append(ways, inTurn(first, target70, then))
		}
	}
	if share := d.dish.HoldBack; share > 0 && food.AddedWaterKg > 0 {
		ice := p.heldIce(share, loads)
		for _, then := range stirred {
			ways = append(ways, inTurn(ice, target41, then))
		}
	}
	return ways[:min(len(ways), mostWays)]
}

// onlyPans says that a way needs no stirring: pieces are cooled in one layer.
func (p *planner) onlyPans(c kitchen.Chilling) bool {
	if c.Method == kitchen.InStages {
		return p.onlyPans(p.book.Chilling[c.First]) && p.onlyPans(p.book.Chilling[c.Then])
	}
	return c.Method == kitchen.ShallowPans
}

func (p *planner) bookWay(id kitchen.ChillingID, loads int) chillWay {
	c := p.book.Chilling[id]
	if c.Method == kitchen.InStages && c.Until != nil {
		w := inTurn(p.bookWay(c.First, loads), *c.Until, p.bookWay(c.Then, loads))
		w.id, w.name = string(id), c.Name
		return w
	}
	stage := cooling.Stage{}
	if way, err := p.wayOf(c, loads); err == nil {
		stage.Way = way
	}
	return chillWay{id: string(id), name: c.Name, plan: cooling.Plan{Stages: []cooling.Stage{stage}},
		stages: []chilledStage{{by: id, name: c.Name, set: c.Set, tend: c.Tend}}}
}

// inTurn is one way until a temperature, then another.
func inTurn(first chillWay, until unit.Temp, then chillWay) chillWay {
	w := chillWay{id: first.id + "+" + then.id, name: first.name + ", then " + then.name, stages: slices.Concat(first.stages, then.stages),
		plan: cooling.Plan{Stages: slices.Concat(first.plan.Stages, then.plan.Stages)}}
	w.plan.Stages[len(first.plan.Stages)-1].UntilC = until.C()
	return w
}

const (
	// meltS is how long ice is stirred in until it has melted (common practice; it counts as slow).
	meltS = 5 * 60
	// paddlesTogether is how many paddles stir one pot at a time (common practice).
	paddlesTogether = 1
	changePaddleS   = 60
	dayS            = 24 * 3600
	iceC            = 0 // of wet ice from a bin: colder ice would take up more
	// bathWaterShare is the water of a bath as a part of what stands in it (common practice), and its loss to the room that of a bare tank.
	bathWaterShare = 0.5
)

func (p *planner) heldIce(share unit.Share, loads int) chillWay {
	ice := cooling.HeldIce{Share: share.F(), IceC: iceC, MeltS: meltS, HaveKg: p.book.Kitchen.Ice.Kg() / float64(loads), Work: cooling.Work{Tend: 1}}
	return chillWay{id: "ice", name: "ice in place of part of its water", plan: cooling.Plan{Stages: []cooling.Stage{{Way: ice}}},
		stages: []chilledStage{{name: "Stir ice in", tend: unit.Whole}}}
}

var errNoVessel = errors.New("the vessel that stands in it has no volume or diameter")

// wayOf translates a simple way of the book.
func (p *planner) wayOf(c kitchen.Chilling, loads int) (cooling.Way, error) {
	work := cooling.Work{SetUpS: c.Set.S(), Tend: c.Tend.F()}
	airC := mediumOf(c).C()
	if c.Method == kitchen.ShallowPans {
		pans := cooling.Pans{Work: work, LengthM: c.Length.M(), WidthM: c.Width.M(), DepthM: c.Depth.M(), Have: c.Count, Top: p.side(c.Top, c.In), Bottom: p.side(c.Bottom, c.In),
			AirC: airC, CoolingW: c.Power.W()}
		if c.Open {
			pans.Wet = 1
		}
		return pans, nil
	}
	e, ok := p.book.Equipment[c.Vessel]
	if !ok || e.Diameter <= 0 || workingL(e) <= 0 {
		return nil, errNoVessel
	}
	if c.Method == kitchen.PotInAir {
		return cooling.PotLeft{Work: work, DiameterM: e.Diameter.M(), FillM3: workingL(e) / 1000, Have: c.Count, Side: p.side(c.Wall, c.In), Top: p.side(c.Top, c.In), Bottom: p.side(c.Bottom, c.In), AirC: airC}, nil
	}
	wall, err := p.wall(c)
	if err != nil {
		return nil, err
	}
	return cooling.Pot{Work: work, DiameterM: e.Diameter.M(), FillM3: workingL(e) / 1000, Have: c.Count, Wall: wall, Bath: p.bath(c, e, loads), AirC: p.air.C(), Paddles: p.paddles(c)}, nil
}

// side is a face: as the book says, with the doubt of a measurement, or the medium's range.
func (p *planner) side(own unit.Film, in kitchen.MediumID) medium.Film {
	switch {
	case own > 0:
		return medium.Spread(float64(own))
	case in != "":
		return p.film(in)
	}
	return medium.Film{}
}

// potWallM2KW is the resistance of a pot's steel wall (assumed, as in the reference values of stirred pots).
const potWallM2KW = 1e-4

// wall is the overall coefficient of a stirred pot: as the book says, or from a thick food, scraped, through the wall to the medium.
func (p *planner) wall(c kitchen.Chilling) (medium.Film, error) {
	if c.Wall > 0 {
		return medium.Spread(float64(c.Wall)), nil
	}
	return overall(p.film("stirred-thick"), p.film(c.In).Through(potWallM2KW))
}

// overall is two films in series, each end of their ranges with the same end.
func overall(a, b medium.Film) (f medium.Film, err error) {
	for _, x := range []struct {
		into *float64
		a, b float64
	}{{&f.LowWM2K, a.LowWM2K, b.LowWM2K}, {&f.UsualWM2K, a.UsualWM2K, b.UsualWM2K}, {&f.HighWM2K, a.HighWM2K, b.HighWM2K}} {
		if *x.into, err = heat.OverallWM2K(x.a, x.b); err != nil {
			return f, err
		}
	}
	return f, nil
}

// bath is what a stirred pot stands in. Cold water counts as kept cold with ice; air stays as it is.
func (p *planner) bath(c kitchen.Chilling, e kitchen.Equipment, loads int) cooling.Bath {
	b := cooling.Bath{TempC: mediumOf(c).C(), AmbientC: p.air.C()}
	m, known := medium.Find(string(c.In))
	if iced := b.TempC >= 0 && b.TempC <= warmestIced && (!known || m.Wet); !iced {
		return b
	}
	b.Ice, b.IceC, b.IceKg = cooling.ToppedUp, iceC, p.book.Kitchen.Ice.Kg()/float64(loads)
	b.WaterKg, b.WaterC = bathWaterShare*workingL(e), tapC
	b.LossWK = vessel.BareWallWM2K * (circle(e.Diameter) + 4*workingL(e)/1000/e.Diameter.M())
	return b
}

const (
	warmestIced = 5  // °C: water colder than this is kept so with ice
	tapC        = 15 // cold water from the tap, from memory
)

func (p *planner) paddles(c kitchen.Chilling) cooling.Paddles {
	x := c.Paddle
	if x == nil {
		return cooling.Paddles{}
	}
	refreezeS := x.Refreeze.S()
	if refreezeS == 0 {
		refreezeS = dayS
	}
	// A paddle of ice and water has about the film of cold water at rest inside of its wall, and that of stirred food outside.
	inside, outside := p.film("ice-bath-still"), p.film("stirred-broth")
	film, err := overall(inside, outside)
	if err != nil {
		return cooling.Paddles{}
	}
	area := math.Pi*x.Diameter.M()*x.Length.M() + circle(x.Diameter)
	return cooling.Paddles{Have: x.Count, Together: paddlesTogether, WaterKg: x.Water.Kg(), AreaM2: area, Film: film, StartC: x.Start.C(), RefreezeS: refreezeS, ChangeS: changePaddleS}
}

// mediumOf is the temperature around the food.
func mediumOf(c kitchen.Chilling) unit.Temp {
	if c.Medium != nil {
		return *c.Medium
	}
	m, _ := medium.Find(string(c.In))
	return unit.TempC(m.TempC)
}
