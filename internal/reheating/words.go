package reheating

import "math"

// litresPerKg is how much water the card asks for when nobody has said: 4 L for each kilogram of food, our own practice. It is what the
// water of a bag from the freezer falls by 35 K in if the burner gave nothing, so the minutes count from when it simmers again.
const litresPerKg = 4

// refrigeratorC is 40 °F, the refrigerator of the advice to households (USDA).
const refrigeratorC = (40 - 32) * 5 / 9.0

func line(s Section, c Code, figures ...Figure) Line {
	return Line{Code: c, Section: s, Figures: figures}
}

// FrozenMinutes and ThawedMinutes are what is printed: 0 if it is not to be heated in its bag from that state.
func (c Card) FrozenMinutes() int { return c.Frozen.Minutes }

// ThawedMinutes: see FrozenMinutes. A bag with fish is opened before it thaws, so it has none.
func (c Card) ThawedMinutes() int {
	if c.Bag.Fish {
		return 0
	}
	return c.Thawed.Minutes
}

// Lines is the card in order: steps, check, cautions, and what only the kitchen reads. It promises nothing: every card ends at the
// customer's thermometer, and one without minutes leads out of the bag into a pot.
func (c Card) Lines() []Line {
	var all []Line
	if c.FrozenMinutes() > 0 || c.ThawedMinutes() > 0 {
		all = c.inBag()
	} else {
		all = c.inPot()
	}
	all = append(all, c.measuredSteps()...)
	all = append(all, line(Check, CheckMiddle, Figure{FigTempC, TargetC}))
	if c.FrozenMinutes() > 0 || c.ThawedMinutes() > 0 {
		all = append(all, line(Check, CheckDecides), line(Check, CheckWater, Figure{FigTempC, c.Water.TempC}))
	}
	all = append(all, c.cautions()...)
	return append(all, c.forKitchen()...)
}

func (c Card) inBag() []Line {
	litres := orDefault(c.Water.LitresPerBag, litresPerKg*c.Bag.MassKg)
	var steps []Line
	if c.FrozenMinutes() == 0 {
		steps = append(steps, line(Steps, StepThaw, Figure{FigTempC, refrigeratorC}), line(Steps, StepTooLong))
	}
	apart := line(Steps, StepApart)
	if c.Water.Bags > 0 {
		apart = line(Steps, StepCrowd, Figure{FigBags, float64(c.Water.Bags)})
	}
	steps = append(steps, line(Steps, StepWater, Figure{FigTempC, c.Water.TempC}, Figure{FigLitresEach, litres}), line(Steps, StepUnder), apart)
	if m := c.FrozenMinutes(); m > 0 {
		steps = append(steps, line(Steps, StepFrozen, Figure{FigMinutes, float64(m)}))
	}
	if m := c.ThawedMinutes(); m > 0 {
		steps = append(steps, line(Steps, StepThawed, Figure{FigMinutes, float64(m)}))
	}
	return append(steps, line(Steps, StepTurn), line(Steps, StepCut))
}

func (c Card) inPot() []Line {
	first := line(Steps, StepThaw, Figure{FigTempC, refrigeratorC})
	if c.Bag.Fish {
		first = line(Steps, StepFishPot)
	}
	return []Line{first, line(Steps, StepPot), line(Steps, StepBoil)}
}

// measuredSteps are the validated times of other ways.
func (c Card) measuredSteps() []Line {
	var steps []Line
	for _, e := range c.Options.Measured {
		if l, ok := e.Line(); ok && e.Form.Method != Simmering {
			steps = append(steps, l)
		}
	}
	return steps
}

// Line is the measured time as a step; false if the runs give none.
func (e Evaluation) Line() (Line, bool) {
	minutes, stand := Figure{FigMinutes, float64(e.Minutes)}, Figure{FigStandMin, float64(e.StandMin)}
	switch {
	case !e.Given:
		return Line{}, false
	case e.Form.Method == Microwave:
		return line(Steps, StepMicro, Figure{FigPowerW, e.Watts}, minutes, stand), true
	case e.Form.Method == Oven:
		return line(Steps, StepOven, Figure{FigTempC, e.SetC}, minutes, stand), true
	}
	if e.Form.ColdestC >= coldestAirC {
		return line(Steps, StepThawed, minutes), true
	}
	return line(Steps, StepFrozen, minutes), true
}

func (c Card) cautions() []Line {
	keep := line(Caution, ThawUseNow)
	if c.Bag.ThawedKeepDays > 0 {
		keep = line(Caution, ThawUse, Figure{FigDays, float64(c.Bag.ThawedKeepDays)})
	}
	all := []Line{line(Caution, KeepFrozen), line(Caution, ThawCold, Figure{FigTempC, refrigeratorC}), keep}
	if c.Bag.Fish {
		all = append(all, line(Caution, OpenFish))
	}
	if c.FrozenMinutes() > 0 || c.ThawedMinutes() > 0 {
		all = append(all, line(Caution, NoHardBoil), line(Caution, OffBottom))
	}
	all = append(all, line(Caution, Discard), line(Caution, OnlyOnce))
	if len(c.measuredSteps()) == 0 {
		all = append(all, line(Caution, NotMeasured))
	}
	return all
}

func (c Card) forKitchen() []Line {
	all := c.why()
	if c.Bag.Fish && c.Thawed.Minutes > 0 {
		all = append(all, line(Kitchen, SayFish))
	}
	return append(all, line(Kitchen, AskSupplier), line(Kitchen, Measure, Figure{FigRuns, LeastRuns}))
}

// why says where the minutes come from, or why there are none.
func (c Card) why() []Line {
	if !c.Water.hotEnough() {
		return []Line{line(Kitchen, SayNeverHot, Figure{FigTempC, c.Water.TempC})}
	}
	var all []Line
	for _, h := range []Heating{c.Frozen, c.Thawed} {
		from := Figure{FigStart, float64(h.From)}
		switch h.Verdict {
		case DoneWell:
			all = append(all, line(Kitchen, SayWorst, from, Figure{FigThickM, h.Worst.ThicknessM}, Figure{FigMinutes, h.Worst.TimeS / 60},
				Figure{FigShare, c.Options.MarginShare}))
		case Uneven:
			all = append(all, line(Kitchen, SayUneven, from, Figure{FigTimes, h.Spread}))
		case TooThick:
			all = append(all, line(Kitchen, SayTooThick, from, Figure{FigThickM, c.Bag.ThickM}, Figure{FigMinutes, c.Options.LimitS / 60}))
		default:
			all = append(all, line(Kitchen, SayDips, from, Figure{FigTempC, h.Worst.LowestWaterC}))
		}
	}
	return all
}

// Lines is the thawing in words, with its cautions.
func (t Thawing) Lines() []Line {
	temp := Figure{FigTempC, t.Place.TempC}
	var all []Line
	switch {
	case !t.Worst.Done:
		all = append(all, line(Steps, ThawLonger, temp, Figure{FigDays, math.Floor(t.Worst.TimeS / 86400)}))
	case t.Place.Water:
		all = append(all, line(Steps, ThawWater, temp, Figure{FigMinutes, t.Worst.TimeS / 60}))
	default:
		all = append(all, line(Steps, ThawTakes, temp, Figure{FigHours, t.Worst.TimeS / 3600}))
	}
	if t.SurfaceWarm() {
		all = append(all, line(Caution, ThawSurface, Figure{FigTempC, coldC}, Figure{FigMinutes, math.Floor(t.firstWarmS() / 60)}))
	}
	if t.Fish {
		all = append(all, line(Caution, OpenFish))
	}
	return append(all, line(Caution, ThawCold, Figure{FigTempC, refrigeratorC}))
}

func (t Thawing) firstWarmS() float64 {
	first := math.Inf(1)
	for _, r := range []Thaw{t.Low, t.Usual, t.High, t.Worst} {
		if r.SurfaceWarm {
			first = min(first, r.SurfaceS)
		}
	}
	return first
}

func formRules(f Form) []Line {
	rules := []Line{
		line(Steps, RuleLargest, Figure{FigMassKg, f.LargestKg}, Figure{FigTempC, f.ColdestC}), line(Steps, RuleRuns, Figure{FigRuns, LeastRuns}),
	}
	if f.StandMin > 0 {
		rules = append(rules, line(Steps, RuleStand, Figure{FigStandMin, f.StandMin}))
	}
	return append(rules, line(Steps, RuleSpots), line(Check, RuleAll, Figure{FigTempC, TargetC}),
		line(Check, RuleLongest, Figure{FigShare, measuredMargin}))
}
