// Package truth invents productions of a book whose true figures are known, for the tests of what is learned from them.
package truth

import (
	"context"
	"math/rand/v2"

	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/history"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// Kitchen cooks one run of a book, day after day, and its figures are truly others than the book has.
type Kitchen struct {
	Book     kitchen.Book
	Request  string
	Expected plan.Expected
	True     map[string]float64 // by the figure's place in the book; others are as the book has them
	SD       map[string]float64 // of single runs; 0: none
	Random   *rand.Rand
	Slow     float64 // everything in a vessel that gets hot takes so many times as long, and evaporates for so long; 0: as planned
}

// New is a kitchen whose book is right.
func New(ctx context.Context, book kitchen.Book, foods *foodtable.Table, request string, seed uint64) *Kitchen {
	return &Kitchen{Book: book, Request: request, Expected: plan.Expect(ctx, book, foods, book.Runs[request]), True: map[string]float64{}, SD: map[string]float64{}, Random: rand.New(rand.NewPCG(seed, 7))}
}

// FirstMorning is 06:00 UTC on FirstDay, a Monday.
const (
	FirstDay     = "2026-01-05"
	FirstMorning = record.Instant(1767592800000)
)

const dayMs = record.Instant(24 * 60 * 60 * 1000)

// of is a figure as it is on a day.
func (k *Kitchen) of(key string, usual float64) float64 {
	if x, ok := k.True[key]; ok {
		usual = x
	}
	return usual + k.SD[key]*k.Random.NormFloat64()
}

// Work is a day so many days after the first: what is planned goes in and comes out by the figures of the day, worked out naively, step by
// step. Sam does everything, one task after another, with a minute and a half between. Hash is what the run is opened with.
func (k *Kitchen) Work(day int, hash record.Hash) history.Worked {
	date := record.Day(kitchen.DaysBefore(FirstDay, -day))
	w := history.Worked{Opened: record.Opened{Run: history.RunOn(k.Request, date), Request: k.Request, Day: date, Plan: hash}, Start: FirstMorning + record.Instant(day)*dayMs}
	now := 0.0
	for _, d := range k.Expected.Dishes {
		now = k.cook(&w, d, now)
	}
	return w
}

func (k *Kitchen) cook(w *history.Worked, d plan.ExpectedDish, now float64) float64 {
	out, planned, length := map[kitchen.OutputID]float64{}, map[kitchen.OutputID]float64{}, map[string]float64{}
	for _, s := range d.Steps {
		length[s.Head] += float64(s.HeatMin + s.WorkMin)
		k.step(d.ID, s, out, planned)
	}
	for _, s := range d.Steps {
		if s.ID == s.Head {
			for _, key := range s.Tasks {
				minutes := k.minutes(d.ID, s, length[s.Head])
				w.Stints = append(w.Stints, history.Stint{Task: key, Who: "Sam", From: now, Until: now + minutes})
				now += minutes + 1.5
			}
		}
		for _, o := range s.Out {
			w.Pots = append(w.Pots, history.Pot{Dish: d.ID, Output: string(o.ID), Mass: unit.MassKg(out[o.ID]), Loads: s.Loads, At: now})
		}
	}
	return now
}

// step works out what comes of a step.
func (k *Kitchen) step(dish string, s plan.ExpectedStep, out, planned map[kitchen.OutputID]float64) {
	step, at := k.Book.Dishes[kitchen.DishID(dish)].Steps[s.Index], "dishes/"+dish+"/steps/"+s.ID
	in := 0.0
	for n, u := range s.In {
		if u.From != "" && step.Use[n].Or == "" {
			in += u.Kg * out[u.From] / planned[u.From]
		} else {
			in += u.Kg
		}
	}
	left := in
	for i, share := range []float64{step.Loses.Water.F(), step.Loses.Fat.F(), step.Loses.Drain.F()} {
		if share > 0 {
			left -= in * k.of(at+"/loses/"+[]string{"water", "fat", "drain"}[i], share)
		}
	}
	if rate := s.EvaporationKgM2H; step.Loses.ReduceTo > 0 {
		left = in * k.of(at+"/loses/reduce-to", step.Loses.ReduceTo.F())
	} else if rate > 0 {
		if s.BoilKgH > 0 {
			rate = s.BoilKgH / s.OpenM2
		}
		left -= k.of(at+"/loses/evaporation", rate) * s.OpenM2 * float64(s.Loads) * s.HotS * max(1, k.Slow) / 3600
	}
	for n, o := range step.Outputs() {
		planned[o.ID] = s.Out[n].Kg
		if o.Takes > 0 {
			out[o.ID] = in * k.of(at+"/gives/"+string(o.ID)+"/takes", o.Takes.F())
			left -= out[o.ID]
		}
	}
	if r := step.Loses.Residue.Kg(); r > 0 {
		left -= float64(s.Loads) * k.of(at+"/loses/residue", r)
	}
	for _, o := range step.Outputs() {
		if o.Takes == 0 {
			out[o.ID] = left
		}
	}
}

// minutes is how long one load of a chain takes that should take so long.
func (k *Kitchen) minutes(dish string, s plan.ExpectedStep, planned float64) float64 {
	step, at := k.Book.Dishes[kitchen.DishID(dish)].Steps[s.Index], "dishes/"+dish+"/steps/"+s.ID
	switch {
	case step.HeatTo != nil || planned != float64(s.WorkMin):
		return planned * max(1, k.Slow)
	case step.Pace > 0 && step.Time == 0:
		return k.of(at+"/pace", float64(step.Pace)) * s.InKg / float64(len(s.Tasks)) / 60
	case step.Pace == 0 && step.Time > 0:
		return k.of(at+"/time", step.Time.S()) / 60
	}
	return planned
}
