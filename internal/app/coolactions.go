package app

import (
	"math"
	"strings"

	"kettlefrost/internal/coolforecast"
	"kettlefrost/internal/cooling"
	"kettlefrost/internal/coolrule"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// CoolAction is something that can be done about a load now, and what comes of it.
type CoolAction struct {
	coolforecast.Prospect
	Name  string
	Did   record.Deed // what is entered when it is done
	Text  string      // and with which words
	Ice   unit.Mass   // to have ready
	Part  float64     // of the load that there are vessels and ice for: 1 is all
	Hands unit.Span
	Food  bool // the ice goes into the food, in place of water that was held back when it was cooked
	Pours bool // hot food is moved to other vessels
}

// CoolAdvice is what can be done about a load, the best first, and what becomes of it when nothing helps.
type CoolAdvice struct {
	Actions []CoolAction
	Now     *CoolAction // the one to take; nil when it goes on as it is or nothing is worth doing
	FromC   float64     // the temperature that they are computed from
	Allowed []coolforecast.Allowed
	Again   *CoolAgain // what comes of heating it again; nil when that is not allowed
	Problem string     // why nothing can be computed
}

// CoolAgain is food that was heated to 165 °F and is cooled from there by the way that has the least work of those in time, or comes nearest.
type CoolAgain struct {
	Way     string
	Verdict cooling.Verdict
	To      []cooling.Milestone
	Rule    coolrule.Rule
}

// Advice is what can be done about a load, computed from its warmest point as forecast for now.
func (b *Boards) Advice(p *Production, c Cooling) CoolAdvice {
	a := CoolAdvice{Allowed: coolforecast.Remedies(c.Case.Rule, c.Forecast, c.Reheats), FromC: c.Forecast.NowC.Usual}
	switch {
	case c.Problem != "" || c.Over || len(c.Forecast.Band) == 0 || math.IsNaN(c.Forecast.LastS):
		return a
	case c.Forecast.Outcome == coolforecast.Missed: // cooling it faster does not make up for that
		if len(a.Allowed) > 0 && a.Allowed[0].Remedy == coolforecast.ReheatOnce {
			a.Again = b.again(p, c)
		}
		return a
	case c.Mass <= 0:
		a.Problem = "the plan has no mass of it"
		return a
	}
	food, ways, err := plan.Chillers(p.Book, b.house.Foods(), kitchen.DishID(c.Log.Dish), kitchen.OutputID(c.Log.Output), c.Mass, unit.TempC(a.FromC))
	if err != nil {
		a.Problem = err.Error()
		return a
	}
	a.Actions = c.actions(food, ways, a.FromC, p.Book.Kitchen.Ice)
	if len(a.Allowed) > 0 && a.Allowed[0].Remedy == coolforecast.ReheatOnce {
		a.Again = b.again(p, c)
	}
	for i := range a.Actions {
		// Whether water was held back when it was cooked is not known here: ice in its place is offered, and never the first thing to do.
		if x := &a.Actions[i]; !x.Food && c.helps(*x) {
			a.Now = x
			break
		}
	}
	return a
}

// helps says whether an action is better than going on: it is surer to meet the limits.
func (c Cooling) helps(a CoolAction) bool {
	switch c.Forecast.Outcome {
	case coolforecast.InDoubt:
		return a.Outcome == coolforecast.Meets
	case coolforecast.Misses:
		return a.Outcome == coolforecast.Meets || a.Outcome == coolforecast.InDoubt
	}
	return false
}

// actions follows every way but the one that it is cooled by; of a bath that one too, with its ice topped up.
func (c Cooling) actions(food cooling.Food, ways []plan.Chiller, fromC float64, ice unit.Mass) []CoolAction {
	byID := map[string]plan.Chiller{}
	var asked []coolforecast.Action
	for _, w := range ways {
		here := strings.HasSuffix(w.ID, "/half") || strings.HasSuffix(w.ID, "/stirred")
		if here && w.ID != c.way.id+"/half" && w.ID != c.way.id+"/stirred" || w.ID == c.way.id && w.Method != kitchen.StirredBath {
			continue
		}
		byID[w.ID] = w
		asked = append(asked, coolforecast.Action{ID: w.ID, Name: w.Name, Plan: w.Plan, ReadyS: c.readyS(w)})
	}
	var all []CoolAction
	for _, x := range c.Case.Prospects(c.Forecast, food, fromC, asked) {
		if x.Err != nil {
			continue // the book cannot do it with this food
		}
		w := byID[x.Action.ID]
		a := CoolAction{Prospect: x, Name: w.Name, Ice: unit.MassKg(x.Option.MostIceKg), Hands: unit.SpanS(math.Ceil(x.Option.HandsS/60) * 60), Did: c.deed(w), Text: NowBy + w.Name + "."}
		a.Food = w.Stages[0].By == ""
		a.Pours = a.Did == record.Relocated || a.Did == record.Shallower
		if a.Part = part(x.Option, ice); w.ID == c.way.id { // it is in there already
			a.Part = 1
		}
		all = append(all, a)
	}
	return all
}

// part is how much of a load there are vessels and ice for.
func part(o cooling.Option, ice unit.Mass) float64 {
	most := 1.0
	for _, s := range o.Stages {
		if s.Formula != cooling.NotComputed && s.Formula != cooling.IceBalance && s.Need > 0 {
			most = min(most, float64(s.Have)/float64(s.Need))
		}
	}
	if ice > 0 && o.MostIceKg > 0 {
		most = min(most, ice.Kg()/o.MostIceKg)
	}
	return most
}

// readyS is how long it takes until a way has begun: nothing where the food stays where it is.
func (c Cooling) readyS(w plan.Chiller) float64 {
	if w.ID == c.way.id || strings.HasSuffix(w.ID, "/stirred") {
		return 0
	}
	return max(leastReadyS, w.Stages[0].Set.S())
}

// leastReadyS is until hot food stands elsewhere (common practice).
const leastReadyS = 5 * 60

// deed is what is entered when food is put into a way.
func (c Cooling) deed(w plan.Chiller) record.Deed {
	switch {
	case w.Stages[0].By == "" || w.ID == c.way.id:
		return record.MoreIce
	case strings.HasSuffix(w.ID, "/stirred"):
		return record.Stirred
	case strings.HasSuffix(w.ID, "/half") || w.Method == kitchen.ShallowPans:
		return record.Shallower
	}
	return record.Relocated
}

// again is what comes of heating a load to 165 °F and cooling it from the beginning.
func (b *Boards) again(p *Production, c Cooling) *CoolAgain {
	food, ways, err := plan.Chillers(p.Book, b.house.Foods(), kitchen.DishID(c.Log.Dish), kitchen.OutputID(c.Log.Output), c.Mass, unit.TempC(coolforecast.ReheatC))
	if err != nil || len(ways) == 0 {
		return nil
	}
	rule := c.Case.Rule
	rule.Stages = append([]coolrule.Stage{}, rule.Stages...)
	for i := range rule.Stages {
		rule.Stages[i].ToC -= c.Case.AccuracyC
	}
	var plans []cooling.Plan
	for _, w := range ways {
		plans = append(plans, w.Plan)
	}
	options := cooling.Judge(food, plans, rule)
	best := cooling.Recommend(options)
	if best < 0 {
		best = 0
		for i, o := range options {
			if o.Err == nil && (options[best].Err != nil || o.TimeS < options[best].TimeS) {
				best = i
			}
		}
	}
	if options[best].Err != nil {
		return nil
	}
	return &CoolAgain{Way: ways[best].Name, Verdict: options[best].Verdict, To: options[best].To, Rule: rule}
}
