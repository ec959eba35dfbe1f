package kitchen

import (
	"fmt"

	"kettlefrost/internal/unit"
)

func (c *checker) house() {
	k, at := c.book.Kitchen, spot{path: "kitchen", where: "kitchen"}
	c.text(at, "name", k.Name)
	if k.Air != nil {
		c.within(at, "air", k.Air.C(), roomAir)
	}
	c.within(at, "altitude", k.Altitude.M(), altitude)
	c.within(at, "ice", k.Ice.Kg(), loadMass)
	c.within(at.key("energy"), "gas", unit.Money(k.Energy.Gas).Units(), energyPrice)
	c.within(at.key("energy"), "electricity", unit.Money(k.Energy.Electricity).Units(), energyPrice)
	c.within(at.key("spreads"), "yields", inPerCent(k.Spreads.Yields), spreads)
	c.within(at.key("spreads"), "times", inPerCent(k.Spreads.Times), spreads)
	c.within(at.key("spreads"), "prices", inPerCent(k.Spreads.Prices), spreads)
	net := at.key("net-contents")
	c.within(net, "confidence", inPerCent(k.NetContents.Confidence), sureness)
	c.within(net, "scale", k.NetContents.Scale.Kg(), scaleSteps)
	c.within(net, "scatter", inPerCent(k.NetContents.Scatter), scatters)
	c.fineScale(at, k.FineScale)
	c.labels(at, k.Labels)
	c.within(at, "days-a-week", float64(k.Days), limits{high: 7})
	c.overhead(at, k.Overhead)
	c.within(at, "cleaning", k.Cleaning.Units(), money)
	c.within(at, "food-target", inPerCent(k.FoodTarget), perCent)
	c.within(at, "margin-target", inPerCent(k.MarginTarget), notAll)
	for i, m := range k.PricesEnd {
		c.limit(spot{path: PathAt(at.key("prices-end").path, i), where: at.where}, "prices-end", m.Units(), endings)
	}
	c.within(at, "fixed-costs", k.FixedCosts.Units(), money)
}

func (c *checker) people() {
	for id, p := range inOrder(c.book.People) {
		at := entrySpot("people", string(id))
		c.id(at, string(id))
		c.text(at, "name", p.Name)
		c.within(at, "wage", unit.Money(p.Wage).Units(), hourlyWage)
		c.skills(at, p.Can)
		c.shift(at, p.Shift)
	}
}

// shift checks a day's working time.
func (c *checker) shift(at spot, s Shift) {
	at = at.key("shift")
	backwards := s.To <= s.From
	if backwards {
		c.stop(ShiftBackwards, at.key("to"), fmt.Sprintf("the shift ends at %s, not after its start at %s", s.To, s.From), "correct from or to; a shift ends at 24:00 at the latest")
	}
	for i, b := range s.Breaks {
		here := at.item("breaks", i, "")
		switch {
		case b.To <= b.From:
			c.stop(ShiftBackwards, here.key("to"), fmt.Sprintf("the break ends at %s, not after its start at %s", b.To, b.From), "correct from or to")
		case !backwards && (b.From < s.From || b.To > s.To):
			c.stop(BreakOutside, here, fmt.Sprintf("the break from %s to %s is not within the shift from %s to %s", b.From, b.To, s.From, s.To), "move the break into the shift, or take it out")
		}
		for j, other := range s.Breaks[:i] {
			if b.From < other.To && other.From < b.To {
				c.stop(BreaksOverlap, here, fmt.Sprintf("the break overlaps break %d, from %s to %s", j+1, other.From, other.To), "make one break of the two")
			}
		}
	}
}

func (c *checker) suppliers() {
	for id, s := range inOrder(c.book.Suppliers) {
		at := entrySpot("suppliers", string(id))
		c.id(at, string(id))
		c.text(at, "name", s.Name)
		c.terms(at, s)
	}
}
