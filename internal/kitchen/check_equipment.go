package kitchen

import "fmt"

func (c *checker) equipment() {
	for id, e := range inOrder(c.book.Equipment) {
		at := entrySpot("equipment", string(id))
		c.id(at, string(id))
		c.text(at, "name", e.Name)
		c.atLeastOne(at, "count", e.Count)
		c.equipmentSize(at, e)
		c.within(at, "working", inPerCent(e.Working), perCent)
		c.within(at, "efficiency", inPerCent(e.Efficiency), perCent)
		c.within(at, "power", e.Power.W()/1000, power)
		for i, need := range e.Needs {
			here := spot{path: PathAt(at.key("needs").path, i), where: at.where}
			if need == id {
				c.stop(NeedsItself, here, fmt.Sprintf("%s needs itself", id), "name what it stands on, such as a burner, or take it out")
				continue
			}
			c.refers(here, "equipment", string(need), names(c.book.Equipment))
		}
	}
}

// equipmentSize asks for what the plan must know of each kind, and looks at the rest.
func (c *checker) equipmentSize(at spot, e Equipment) {
	volume, width, trays := e.Volume.L(), e.Diameter.M(), e.Places
	switch e.Kind {
	case Vessel:
		c.size(at, "volume", volume, vesselVolume, "how much a vessel holds decides how many loads there are")
		c.size(at, "diameter", width, vesselWidth, "how wide a vessel is decides how much evaporates")
	case Blender:
		c.size(at, "volume", volume, vesselVolume, "how much the jar holds decides how many loads there are")
		c.within(at, "diameter", width, vesselWidth)
	case Oven:
		c.atLeastOne(at, "places", trays)
		c.within(at, "volume", volume, vesselVolume)
		c.within(at, "diameter", width, vesselWidth)
	default:
		c.within(at, "volume", volume, vesselVolume)
		c.within(at, "diameter", width, vesselWidth)
	}
	if e.Kind != Oven {
		c.within(at, "places", float64(trays), number)
	}
}

func (c *checker) chilling() {
	for id, way := range inOrder(c.book.Chilling) {
		at := entrySpot("chilling", string(id))
		c.id(at, string(id))
		c.text(at, "name", way.Name)
		c.atLeastOne(at, "count", way.Count)
		c.within(at, "medium", way.Medium.C(), chillMedium)
		c.within(at, "top", float64(way.Top), film)
		c.within(at, "bottom", float64(way.Bottom), film)
		c.within(at, "wall", float64(way.Wall), film)
		c.within(at, "set-up", inHours(way.Set), week)
		c.within(at, "tending", inPerCent(way.Tend), perCent)
		if way.Method == ShallowPans {
			c.size(at, "length", way.Length.M(), panSide, "the size of a pan decides how much it takes")
			c.size(at, "width", way.Width.M(), panSide, "the size of a pan decides how much it takes")
			c.size(at, "depth", way.Depth.M(), foodDepth, "how deep the food lies decides how long it takes to cool")
			continue
		}
		c.vessel(at.key("vessel"), way.Vessel)
	}
}

// vessel checks that something is a vessel of the book.
func (c *checker) vessel(at spot, id EquipmentID) {
	vessels := map[EquipmentID]Equipment{}
	for other, e := range c.book.Equipment {
		if e.Kind == Vessel {
			vessels[other] = e
		}
	}
	if e, there := c.book.Equipment[id]; there && e.Kind != Vessel {
		c.stop(VesselIsNone, at, fmt.Sprintf("%s is a %s, not a vessel", id, e.Kind), nearestOf("vessel", string(id), names(vessels)))
		return
	}
	c.refers(at, "vessel", string(id), names(vessels))
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
		c.size(at, "film", float64(f.Film), film, "how well its air takes heat decides how long freezing takes")
		c.within(at, "holds", f.Holds.Kg(), storedMass)
		c.size(at, "room", f.Room.Kg(), storedMass, "what it can store decides how many packs can be made")
		if f.Room > 0 && f.Holds > f.Room {
			c.caution(FreezerOverfull, at.key("holds"), fmt.Sprintf("it holds %s, more than its room of %s", f.Holds, f.Room), "correct holds or room, or make room before the run")
		}
	}
}

func (c *checker) bags() {
	for id, b := range inOrder(c.book.Bags) {
		at := entrySpot("bags", string(id))
		c.id(at, string(id))
		c.text(at, "name", b.Name)
		c.size(at, "length", b.Length.M(), bagSide, "the size of a bag decides how thick a pack lies")
		c.size(at, "width", b.Width.M(), bagSide, "the size of a bag decides how thick a pack lies")
		c.within(at, "price", b.Price.Units(), money)
		c.within(at, "stock", float64(b.Stock), number)
	}
}
