package homecard

import (
	"context"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// timed is a settled dish on three burners, under three pairs of hands.
type timed struct{ quick, usual, slow plan.Plan }

// timed plans the dish on the best burner with quick hands, as usual, and on a weak burner with slow hands.
func (a Ask) timed(ctx context.Context, t settled) timed {
	hands := of("slower")
	on := func(book kitchen.Book, burner string, slower float64) plan.Plan {
		book.Equipment = homeEquipment(burner)
		dish := t.dish
		dish.Steps = append([]kitchen.Step(nil), dish.Steps...)
		for i := range dish.Steps {
			dish.Steps[i].Pace = unit.Pace(float64(dish.Steps[i].Pace) * slower / hands.usual)
		}
		id := t.book.Packs[homePack].Dish
		book.Dishes = map[kitchen.DishID]kitchen.Dish{id: dish}
		return plan.Make(ctx, book, a.Foods, kitchen.Request{Want: []kitchen.Want{{Pack: homePack, Count: a.People}}})
	}
	whole := t.book
	whole.Chilling = t.chilling()
	return timed{quick: on(lean(whole), "high", hands.low), usual: on(whole, "usual", hands.usual), slow: on(lean(whole), "low", hands.high)}
}

// of is the times of one step.
func (t timed) of(id string) (heatUp, time Range) {
	for _, p := range []struct {
		plan       plan.Plan
		heat, time *unit.Span
	}{{t.quick, &heatUp.Low, &time.Low}, {t.usual, &heatUp.Usual, &time.Usual}, {t.slow, &heatUp.High, &time.High}} {
		for _, s := range stepsOf(p.plan) {
			if s.ID == id {
				*p.heat, *p.time = s.HeatUp, s.Time
			}
		}
	}
	return heatUp, time
}

func stepsOf(p plan.Plan) []plan.Step {
	if len(p.Dishes) == 0 {
		return nil
	}
	return p.Dishes[0].Steps
}

// hands is how long somebody is busy.
func (t timed) hands(s settled) Range {
	sum := func(p plan.Plan) unit.Span {
		total := unit.Span(0)
		for _, x := range stepsOf(p) {
			total += x.HandsOn * unit.Span(max(1, x.Loads.Count))
		}
		return total
	}
	return Range{sum(t.quick), sum(t.usual), sum(t.slow)}
}

// whole is from the first step to the end of the last, for one cook.
func (t timed) whole() Range {
	return Range{cooking(t.quick), cooking(t.usual), cooking(t.slow)}
}

func cooking(p plan.Plan) unit.Span {
	first, last := unit.Moment(0), unit.Moment(0)
	any := false
	for _, x := range p.Timetable.Tasks {
		if x.Kind != plan.Cook {
			continue
		}
		if !any || x.Start < first {
			first = x.Start
		}
		last = max(last, x.End)
		any = true
	}
	return unit.Span(last-first) * unit.Minute
}
