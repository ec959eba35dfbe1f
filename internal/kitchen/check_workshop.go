package kitchen

// fineScale checks the scale that small doses are weighed on.
func (c *checker) fineScale(at spot, s Scale) {
	if s == (Scale{}) {
		return
	}
	here := at.key("fine-scale")
	c.size(here, "division", s.Division.Kg(), scaleSteps, "it says how near a dose can be weighed")
	c.within(here, "capacity", s.Capacity.Kg(), loadMass)
	if s.Capacity > 0 && s.Capacity < s.Division {
		c.stop(RangeBackwards, here.key("capacity"), "the scale holds "+s.Capacity.String()+", less than its smallest step of "+s.Division.String(), "correct one of them")
	}
}

// keeping checks how long a pack is at its best, and how much of it one person eats.
func (c *checker) keeping(at spot, p Pack) {
	c.within(at, "serving", p.Serving.Kg(), packMass)
	c.gtin(at, p.GTIN)
	c.within(at, "cup", p.Cup.Kg(), cupMass)
	if p.BestBefore == (Keeping{}) {
		return
	}
	here := at.key("best-before")
	c.size(here, "weeks", float64(p.BestBefore.Weeks), weeksFrozen, "the best-before day follows from it")
	c.text(here, "source", p.BestBefore.Source)
}
