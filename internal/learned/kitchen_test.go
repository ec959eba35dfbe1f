package learned

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"kettlefrost/demo"
	"kettlefrost/internal/board"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/history"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// truth is a kitchen as it truly is: the demo's book, and what its figures truly are.
type truth struct {
	book     kitchen.Book // as written
	request  string
	expected plan.Expected
	figures  map[string]float64 // by key
}

func demoBook(t testing.TB) (kitchen.Book, *foodtable.Table) {
	t.Helper()
	foods, err := foodtable.Default()
	if err != nil {
		t.Fatal(err)
	}
	return bookfile.Read(demo.Book()).Book, foods
}

func truthOf(t testing.TB, request string) *truth {
	book, foods := demoBook(t)
	return &truth{book: book, request: request, expected: plan.Expect(t.Context(), book, foods, book.Runs[request]), figures: map[string]float64{}}
}

// firstMorning is 06:00 UTC on 2026-01-05, a Monday.
const firstMorning = record.Instant(1767592800000)

const aDay = record.Instant(24 * 60 * 60 * 1000)

// clockFrom counts minutes from the midnight before a morning of six.
func clockFrom(morning record.Instant) board.Clock {
	return func(i record.Instant) unit.Moment { return unit.Moment((i - morning + 6*60*minuteMs) / minuteMs) }
}

// work is a day by the truth: what is planned goes in, and comes out by the true figures of the day. It is worked out naively, step by step.
func (x *truth) work(day int, draw func(key string, usual float64) float64) history.Worked {
	date := record.Day(kitchen.DaysBefore("2026-01-05", -day))
	w := history.Worked{Opened: record.Opened{Run: history.RunOn(x.request, date), Request: x.request, Day: date, Plan: record.Hash{1}}, Start: firstMorning + record.Instant(day)*aDay}
	now := 0.0
	for _, d := range x.expected.Dishes {
		out := map[kitchen.OutputID]float64{}
		planned := map[kitchen.OutputID]float64{}
		length := map[string]float64{}
		for _, s := range d.Steps {
			step, _ := stepOf(x.book, kitchen.DishID(d.ID), s.ID)
			at := fmt.Sprintf("dishes/%s/steps/%s", d.ID, s.ID)
			in := 0.0
			for n, u := range s.In {
				switch {
				case u.From != "" && step.Use[n].Or == "":
					in += u.Kg * out[u.From] / planned[u.From]
				default:
					in += u.Kg
				}
			}
			left := in
			if l := step.Loses.Water.F(); l > 0 {
				left -= in * draw(at+"/loses/water", l)
			}
			if l := step.Loses.Fat.F(); l > 0 {
				left -= in * draw(at+"/loses/fat", l)
			}
			if l := step.Loses.ReduceTo.F(); l > 0 {
				left = in * draw(at+"/loses/reduce-to", l)
			} else if rate := rateOf(step, s); rate > 0 {
				left -= draw(at+"/loses/evaporation", rate) * s.OpenM2 * float64(s.Loads) * s.HotS / 3600
			}
			for n, o := range step.Outputs() {
				planned[o.ID] = s.Out[n].Kg
				if o.Takes > 0 {
					out[o.ID] = in * draw(at+"/gives/"+string(o.ID)+"/takes", o.Takes.F())
					left -= out[o.ID]
				}
			}
			if r := step.Loses.Residue.Kg(); r > 0 {
				left -= float64(s.Loads) * draw(at+"/loses/residue", r)
			}
			for _, o := range step.Outputs() {
				if o.Takes == 0 {
					out[o.ID] = left
				}
			}
			length[s.Head] += float64(s.HeatMin + s.WorkMin)
		}
		for _, s := range d.Steps {
			step, _ := stepOf(x.book, kitchen.DishID(d.ID), s.ID)
			at := fmt.Sprintf("dishes/%s/steps/%s", d.ID, s.ID)
			if s.ID == s.Head {
				for _, key := range s.Tasks {
					minutes := length[s.Head]
					switch {
					case step.Pace > 0 && step.Time == 0 && step.HeatTo == nil && length[s.Head] == float64(s.WorkMin):
						minutes = draw(at+"/pace", float64(step.Pace)) * s.InKg / float64(len(s.Tasks)) / 60
					case step.Pace == 0 && step.Time > 0 && step.HeatTo == nil && length[s.Head] == float64(s.WorkMin):
						minutes = draw(at+"/time", step.Time.S()) / 60
					}
					w.Stints = append(w.Stints, history.Stint{Task: key, Who: "Sam", From: now, Until: now + minutes})
					now += minutes + 1.5
				}
			}
			for _, o := range s.Out {
				w.Pots = append(w.Pots, history.Pot{Dish: d.ID, Output: string(o.ID), Mass: unit.MassKg(out[o.ID]), Loads: s.Loads, At: now})
			}
		}
	}
	return w
}

// made tells a day and reads it as the program does.
func (x *truth) made(t testing.TB, w history.Worked, seed uint64, oneIn int) (Made, map[string]history.Slip) {
	t.Helper()
	entries, slips, err := w.Tell(seed, oneIn)
	if err != nil {
		t.Fatal(err)
	}
	var s board.State
	for _, e := range entries {
		s.Put(e)
	}
	return Made{Run: s.Run(w.Opened.Run), Day: string(w.Opened.Day), Book: x.book, Sure: true, Expected: x.expected, Clock: clockFrom(w.Start)}, slips
}

// figureOf is the figure of a key.
func figureOf(t testing.TB, all []Figure, key string) Figure {
	t.Helper()
	for _, f := range all {
		if f.Key == key {
			return f
		}
	}
	t.Fatalf("there is no figure %s", key)
	return Figure{}
}

// exactly draws the figures of the truth themselves, or those of the book.
func (x *truth) exactly(key string, usual float64) float64 {
	if v, ok := x.figures[key]; ok {
		return v
	}
	return usual
}

// scattered draws them with a scatter.
func (x *truth) scattered(r *rand.Rand, sd map[string]float64) func(string, float64) float64 {
	return func(key string, usual float64) float64 {
		return x.exactly(key, usual) + sd[key]*r.NormFloat64()
	}
}
