package kitchen

import (
	"fmt"

	"kettlefrost/internal/medium"
	"kettlefrost/internal/unit"
)

func (c *checker) chilling() {
	for id, way := range inOrder(c.book.Chilling) {
		at := entrySpot("chilling", string(id))
		c.id(at, string(id))
		c.text(at, "name", way.Name)
		c.within(at, "set-up", inHours(way.Set), week)
		if way.Method == InStages {
			c.stages(at, id, way)
			continue
		}
		c.atLeastOne(at, "count", way.Count)
		c.mediumOf(at, way)
		c.within(at, "top", float64(way.Top), film)
		c.within(at, "bottom", float64(way.Bottom), film)
		c.within(at, "wall", float64(way.Wall), film)
		c.within(at, "cooling", way.Power.W()/1000, power)
		c.within(at, "tending", inPerCent(way.Tend), perCent)
		c.paddles(at, way)
		if way.Method == ShallowPans {
			c.size(at, "length", way.Length.M(), panSide, "the size of a pan decides how much it takes")
			c.size(at, "width", way.Width.M(), panSide, "the size of a pan decides how much it takes")
			c.size(at, "depth", way.Depth.M(), foodDepth, "how deep the food lies decides how long it takes to cool")
			continue
		}
		c.vessel(at.key("vessel"), way.Vessel)
	}
}

// mediumOf asks for the temperature and the coefficients of what food stands in: its own, or those of a known medium.
func (c *checker) mediumOf(at spot, way Chilling) {
	if way.In != "" {
		c.refers(at.key("in"), "medium", string(way.In), mediumNames())
	}
	switch {
	case way.Medium != nil:
		c.within(at, "medium", way.Medium.C(), chillMedium)
	case way.In == "":
		c.stop(SizeMissing, at.key("medium"), "medium is missing: how cold it is around the food decides how long it takes", "measure it and write it after medium:, or name what it stands in after in:")
	}
	if way.In == "" && way.Top == 0 && way.Bottom == 0 && way.Wall == 0 {
		c.stop(SizeMissing, at, "nothing says how well heat leaves the food", "name what it stands in after in:, or write top:, bottom: or wall:")
	}
}

func mediumNames() []string {
	var ids []string
	for _, m := range medium.All() {
		ids = append(ids, m.ID)
	}
	return ids
}

// stages checks a way that goes in two: each must be a way of its own.
func (c *checker) stages(at spot, id ChillingID, way Chilling) {
	simple := map[ChillingID]Chilling{}
	for other, w := range c.book.Chilling {
		if w.Method != InStages {
			simple[other] = w
		}
	}
	c.refers(at.key("first"), "simple way of chilling", string(way.First), names(simple))
	c.refers(at.key("then"), "simple way of chilling", string(way.Then), names(simple))
	if way.Until == nil {
		c.stop(SizeMissing, at.key("until"), "until is missing: nothing says when the first way ends", "write the temperature after until:, such as 70 °F")
		return
	}
	c.within(at, "until", way.Until.C(), stageEnd)
}

func (c *checker) paddles(at spot, way Chilling) {
	p := way.Paddle
	if p == nil {
		return
	}
	at = at.key("paddles")
	if way.Method != StirredBath {
		c.stop(UsesNothing, at, "paddles stir a pot, but this way has no stirred pot", "write them at a stirred bath, or take them out")
	}
	c.atLeastOne(at, "count", p.Count)
	c.size(at, "water", p.Water.Kg(), paddleWater, "what is frozen in it decides how much heat it takes")
	c.size(at, "length", p.Length.M(), panSide, "its surface decides how fast it takes heat")
	c.size(at, "diameter", p.Diameter.M(), panSide, "its surface decides how fast it takes heat")
	c.within(at, "from", p.Start.C(), paddleStart)
	c.within(at, "refreeze", inHours(p.Refreeze), week)
}

func (c *checker) media() {
	for id, m := range inOrder(c.book.Media) {
		at := entrySpot("media", string(id))
		c.refers(at, "medium", string(id), mediumNames())
		c.text(at, "note", m.Note)
		for _, x := range []struct {
			key  string
			film unit.Film
		}{{"low", m.Low}, {"usual", m.Usual}, {"high", m.High}} {
			c.size(at, x.key, float64(x.film), film, "all three decide the band of what is predicted")
		}
		if m.Low > m.Usual || m.Usual > m.High {
			c.stop(RangeBackwards, at, fmt.Sprintf("low %s, usual %s and high %s do not rise", m.Low, m.Usual, m.High), "write the smallest after low: and the largest after high:")
		}
	}
}

func (c *checker) freezers() {
	for id, f := range inOrder(c.book.Freezers) {
		at := entrySpot("freezers", string(id))
		c.id(at, string(id))
		c.text(at, "name", f.Name)
		c.atLeastOne(at, "count", f.Count)
		c.size(at, "volume", f.Volume.L(), freezerVolume, "the inside of a freezer decides how much it takes")
		c.within(at, "air", f.Air.C(), freezerAir)
		c.size(at, "cooling", f.Cooling.W()/1000, power, "the heat it takes out decides how long freezing takes")
		c.within(at, "film", float64(f.Film), film)
		if f.In != "" {
			c.refers(at.key("in"), "medium", string(f.In), mediumNames())
		}
		c.within(at, "high", float64(f.High), number)
		if f.Lay == Stacked && f.High < 2 {
			c.stop(CountTooSmall, at.key("high"), fmt.Sprintf("high is %d: a stack has at least 2", f.High), "write how many packs lie on each other, or lay: apart")
		}
		c.within(at, "holds", f.Holds.Kg(), storedMass)
		c.size(at, "room", f.Room.Kg(), storedMass, "what it can store decides how many packs can be made")
		if f.Room > 0 && f.Holds > f.Room {
			c.caution(FreezerOverfull, at.key("holds"), fmt.Sprintf("it holds %s, more than its room of %s", f.Holds, f.Room), "correct holds or room, or make room before the run")
		}
	}
}
