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
		c.washing(at, e)
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
