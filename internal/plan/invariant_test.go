package plan_test

import (
	"encoding/json"
	"maps"
	"math"
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/demo"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// What must hold of every plan, read from the plan alone with none of the planner's code.

type tester interface {
	Helper()
	Errorf(string, ...any)
}

func checkPlan(t tester, p plan.Plan) {
	t.Helper()
	for _, d := range p.Dishes {
		checkMass(t, d)
	}
	checkRows(t, p.Timetable)
	checkMoney(t, p)
	for _, f := range p.Fill {
		if f.Low > f.Count || f.High < f.Count || f.Count < 0 {
			t.Errorf("pack %s: %d is not within %d to %d", f.Pack, f.Count, f.Low, f.High)
		}
	}
}

// checkMass: what goes into a dish comes out or is lost, and so with each step, to 1e-9 of it and the rounding of its lines.
func checkMass(t tester, d plan.Dish) {
	t.Helper()
	closes := func(what string, in, out, lost unit.Mass, lines int) {
		if diff := math.Abs(float64(in - out - lost)); diff > 1e-9*float64(in)+float64(lines) {
			t.Errorf("%s: in %s, out %s, lost %s", what, in, out, lost)
		}
	}
	closes("dish "+d.ID, d.In, d.Out, d.Lost, 100)
	if d.Closure > 1e-9 {
		t.Errorf("dish %s: closes to %g", d.ID, d.Closure)
	}
	for _, s := range d.Steps {
		var in, out, lost unit.Mass
		for _, l := range s.In {
			in += l.Mass
		}
		for _, l := range s.Out {
			out += l.Mass
		}
		for _, l := range s.Losses {
			lost += l.Mass
		}
		closes("dish "+d.ID+" step "+s.ID, in, out, lost, 500_000_000) // losses below a tenth of a gram are not listed
		if s.Loads.Count > 0 && (s.Loads.Full > unit.Whole+1 || len(s.Starts) > 0 && len(s.Starts) != s.Loads.Count) {
			t.Errorf("dish %s step %s: %+v with %d starts", d.ID, s.ID, s.Loads, len(s.Starts))
		}
	}
}

// checkRows: nobody is in two places or at work while away, no piece of equipment holds two loads, and everything lies within the day.
func checkRows(t tester, tt plan.Timetable) {
	t.Helper()
	for _, r := range tt.Rows {
		if len(r.Bars) > 0 && tt.Tasks[r.Bars[0].Task].Kind == plan.Cool && !r.Person {
			continue // a rack of pans takes many loads at once
		}
		bars := slices.SortedFunc(slices.Values(slices.Concat(r.Bars, r.Away)), func(a, b plan.Bar) int { return int(a.From - b.From) })
		for i, b := range bars {
			if b.From >= b.To || b.From < tt.Start || b.To > tt.End {
				t.Errorf("%s: %s to %s is outside the day %s to %s", r.Name, b.From, b.To, tt.Start, tt.End)
			}
			if i > 0 && b.From < bars[i-1].To {
				t.Errorf("%s: %s to %s overlaps %s to %s", r.Name, b.From, b.To, bars[i-1].From, bars[i-1].To)
			}
		}
	}
	if tt.Length < tt.Bound {
		t.Errorf("the day takes %s, which is less than its bound %s", tt.Length, tt.Bound)
	}
}

// checkMoney: totals are the sums of their parts, purchase packs cover the need, the parts of a pack's cost add up to it.
func checkMoney(t tester, p plan.Plan) {
	t.Helper()
	total := unit.Money(0)
	for _, l := range p.Buy.Lines {
		line := unit.Money(0)
		for _, x := range l.Packs {
			line += x.Price * unit.Money(x.Count)
		}
		total += line
		if line != l.Total {
			t.Errorf("%s: packs cost %s, the line says %s", l.Name, line, l.Total)
		}
		if l.Missing == "" && !l.Free && l.Stock+l.ToBuy < l.AP {
			t.Errorf("%s: %s in stock and %s to buy do not cover %s", l.Name, l.Stock, l.ToBuy, l.AP)
		}
		if l.Over < 0 || l.AP < l.Need {
			t.Errorf("%s: %s over, %s as purchased for %s", l.Name, l.Over, l.AP, l.Need)
		}
	}
	goods, delivery := unit.Money(0), unit.Money(0)
	for _, o := range p.Buy.Orders {
		goods, delivery = goods+o.Goods, delivery+o.Delivery
	}
	if total != p.Buy.Goods || goods != p.Buy.Goods || delivery != p.Buy.Delivery || total+delivery != p.Buy.Total {
		t.Errorf("the list adds up to %s, the orders to %s and %s for bringing them; told are %s, %s and %s in all", total, goods, delivery, p.Buy.Goods, p.Buy.Delivery, p.Buy.Total)
	}
	for _, c := range p.Cost {
		if c.Food+c.Packaging+c.Labour+c.Energy+c.Cleaning+c.Overhead+c.Waste != c.Total {
			t.Errorf("%s: %s + %s + %s + %s + %s + %s + %s is not %s", c.Pack, c.Food, c.Packaging, c.Labour, c.Energy, c.Cleaning, c.Overhead, c.Waste, c.Total)
		}
		food := unit.Money(0)
		for _, l := range c.Ingredients {
			food += l.Cost
		}
		if diff := food - c.Food; diff > unit.Money(len(c.Ingredients)+3) || diff < -unit.Money(len(c.Ingredients)+3) {
			t.Errorf("%s: ingredients add up to %s, food is %s", c.Pack, food, c.Food)
		}
	}
}

func demoBook(t testing.TB) kitchen.Book {
	t.Helper()
	loaded := bookfile.Read(demo.Book())
	if len(loaded.Findings) > 0 {
		t.Fatal(loaded.Findings)
	}
	return loaded.Book
}

func TestEveryDemoRunHolds(t *testing.T) {
	book := demoBook(t)
	for _, name := range slices.Sorted(maps.Keys(book.Runs)) {
		t.Run(name, func(t *testing.T) {
			p := makePlan(t, book, book.Runs[name])
			checkPlan(t, p)
			if p.Findings.Worst() > 2 || p.Summary.Packs == 0 {
				t.Errorf("%d packs; findings: %v", p.Summary.Packs, p.Findings)
			}
		})
	}
}

// Whatever is asked of the demo kitchen, the plan holds, and the same request gives the same plan.
func TestEveryRequestHolds(t *testing.T) {
	book, foods := demoBook(t), table(t)
	packs := slices.Sorted(maps.Keys(book.Packs))
	vessels := slices.Sorted(maps.Keys(book.Equipment))
	dishes := slices.Sorted(maps.Keys(book.Dishes))
	rapid.Check(t, func(t *rapid.T) {
		req := kitchen.Request{Reserve: unit.Share(rapid.Int64Range(0, int64(20*unit.PerCent)).Draw(t, "reserve"))}
		if rapid.IntRange(0, 3).Draw(t, "kind") > 0 {
			for range rapid.IntRange(1, 3).Draw(t, "wants") {
				req.Want = append(req.Want, kitchen.Want{Pack: rapid.SampledFrom(packs).Draw(t, "pack"), Count: rapid.IntRange(1, 150).Draw(t, "count")})
			}
		} else {
			req.Want = []kitchen.Want{{Dish: rapid.SampledFrom(dishes).Draw(t, "dish"), Vessel: rapid.SampledFrom(vessels).Draw(t, "vessel")}}
		}
		p := plan.Make(t.Context(), book, foods, req)
		checkPlan(t, p)
		if again := plan.Make(t.Context(), book, foods, req); !reflect.DeepEqual(p, again) {
			t.Errorf("planned twice, the plans differ")
		}
		if _, err := json.Marshal(p); err != nil {
			t.Errorf("no JSON: %v", err)
		}
	})
}
