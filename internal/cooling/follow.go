package cooling

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"kettlefrost/internal/coolrule"
	"kettlefrost/internal/heat"
	"kettlefrost/internal/unit"
)

// course is a plan followed with one set of surface coefficients.
type course struct {
	legs    []leg // of a stage that was not needed: formula NotComputed
	startsS []float64
	startC  float64
	passed  []passing
	reached bool
	timeS   float64
	taken   Taken
	shortOf Short
}

// task is what all plans are held against.
type task struct {
	food   Food
	rule   coolrule.Rule
	marksC []float64 // falling; the last is the end
}

func (t task) endC() float64 { return t.marksC[len(t.marksC)-1] }

// shown are the temperatures that are always shown, if the rule goes that far.
var shown = []float64{unit.TempF(135).C(), unit.TempF(70).C(), unit.TempF(41).C()}

// newTask checks food and rule. The end is the lowest temperature that the rule names.
func newTask(f Food, rule coolrule.Rule) (task, error) {
	t := task{food: f, rule: rule}
	if err := heat.InRange("stages of the rule", "", float64(len(rule.Stages)), 1, 100); err != nil {
		return task{}, err
	}
	end := math.Inf(1)
	for _, s := range rule.Stages {
		temps := []float64{s.ToC}
		if s.Start == coolrule.AtFromC {
			temps = append(temps, s.FromC)
		}
		for _, c := range temps {
			if err := heat.InRange("temperature of the rule", "°C", c, coldestMediumC, hottestC); err != nil {
				return task{}, err
			}
		}
		if err := heat.InRange("limit of the rule", "s", s.WithinS, 1, longestS); err != nil {
			return task{}, err
		}
		t.marksC = append(t.marksC, temps...)
		end = min(end, s.ToC)
	}
	for _, c := range shown {
		if c > end {
			t.marksC = append(t.marksC, c)
		}
	}
	t.marksC = slices.DeleteFunc(t.marksC, func(c float64) bool { return c < end })
	slices.SortFunc(t.marksC, func(a, b float64) int { return cmp.Compare(b, a) })
	t.marksC = slices.CompactFunc(t.marksC, func(a, b float64) bool { return math.Abs(a-b) < sameC })
	return t, f.check(end)
}

// vessels are the pots and pans of each stage; used is how many are used, as many as needed even if there are not so many.
func (p Plan) vessels(f Food) (all []Vessels, used []int) {
	for _, s := range p.Stages {
		v := s.Way.vessels(f)
		all, used = append(all, v), append(used, v.Need)
	}
	return all, used
}

// follow goes through the stages. The plan is checked.
func (t task) follow(p Plan, used []int, l level) (course, error) {
	c := course{legs: make([]leg, len(p.Stages)), startsS: make([]float64, len(p.Stages)), startC: t.food.StartC}
	nowC, mixed := t.food.StartC, true
	for i, s := range p.Stages {
		last := i == len(p.Stages)-1
		e := errand{level: l, endC: t.endC(), marksC: t.marksC, withinS: longestS}
		if !last {
			e.endC = max(e.endC, s.UntilC)
			if s.AtMostS > 0 {
				e.withinS = s.AtMostS
			}
		}
		c.startsS[i] = c.timeS
		_, ownIce := s.Way.(HeldIce)
		if ownIce {
			e.endC = t.endC()
		}
		if nowC <= e.endC+sameC {
			c.legs[i].cautions = []Caution{{Code: StageSkipped}}
			continue
		}
		if i > 0 {
			c.timeS += s.Way.work().SetUpS * float64(used[i])
			c.startsS[i] = c.timeS
		}
		leg, err := s.Way.follow(t.food, nowC, used[i], e)
		if err != nil {
			return course{}, fmt.Errorf("stage %d: %w", i+1, err)
		}
		if !mixed {
			leg.cautions = append(leg.cautions, Caution{Code: FromHottest, Value: nowC})
		}
		c.add(i, leg)
		nowC, mixed = leg.endC, s.Way.stirs()
		if !leg.reached && !last && s.AtMostS == 0 && !ownIce {
			break // it would stay in this stage for good
		}
	}
	c.reached = nowC <= t.endC()+sameC
	return c, nil
}

func (c *course) add(i int, l leg) {
	for _, m := range l.passed {
		c.passed = append(c.passed, passing{m.tempC, c.timeS + m.timeS})
	}
	c.timeS += l.timeS
	c.taken = c.taken.plus(l.taken)
	if c.shortOf == NothingShort {
		c.shortOf = l.shortOf
	}
	c.legs[i] = l
}

// iceKg is that of all stages.
func (c course) iceKg() float64 {
	var kg float64
	for _, l := range c.legs {
		kg += l.iceKg
	}
	return kg
}

// crossing answers for the marks.
func (c course) crossing(tempC float64) (coolrule.Crossing, error) {
	if tempC >= c.startC {
		return coolrule.Crossing{Reached: true}, nil
	}
	for _, m := range c.passed {
		if math.Abs(m.tempC-tempC) < sameC {
			return coolrule.Crossing{Reached: true, TimeS: m.timeS}, nil
		}
	}
	return coolrule.Crossing{Never: true}, nil
}
