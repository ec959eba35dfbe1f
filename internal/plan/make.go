package plan

import (
	"context"
	"maps"
	"slices"

	"kettlefrost/internal/costing"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// Make plans a request with what the book says and the composition table. It always returns a plan: what cannot be planned is left
// out and said in the findings. A book with mistakes (bookfile, kitchen.Check) should not be planned with. When ctx ends, the best
// timetable so far is used.
func Make(ctx context.Context, book kitchen.Book, foods *foodtable.Table, req kitchen.Request) Plan {
	if !asksForMost(req) {
		return newPlanner(ctx, book, foods, req).make()
	}
	return asMany(ctx, book, foods, req)
}

func asksForMost(req kitchen.Request) bool {
	return slices.ContainsFunc(req.Want, func(w kitchen.Want) bool { return w.Most })
}

// planner carries one request through the computing packages.
type planner struct {
	ctx     context.Context
	book    kitchen.Book
	foods   *foodtable.Table
	req     kitchen.Request
	air     unit.Temp
	over    map[kitchen.PackID]overfill // of packs whose scatter is known or stated
	dishes  []*cooked
	tables  []table
	day     day
	changes kitchen.Changes // of a day under way
	was     []int           // starts as planned, of a day under way, and as they were of what was told; nil: before the day
	aimed   []int           // starts as planned, of all
	untimed Plan            // before the timetable
	planned day             // as it was planned, washing included
	outlook *Ranges         // before the day
	built   costing.Buildup // what everything costs
	priced  []PackPrice     // before the day
	bought  *Buy            // before the day
	starts  []int           // of the tasks of the day
	tubs    bool            // vessels are emptied as soon as they have done, into tubs
	yields  bool            // limits may be exceeded, on a day under way that has no other way
	elastic bool            // what has begun may wait for what it needs on the way
	settled bool            // nothing is left to choose
	wanting []string        // what would make a day possible that is not
	trial   bool            // one of many tries: without what only a reader needs
	out     Plan
}

func newPlanner(ctx context.Context, book kitchen.Book, foods *foodtable.Table, req kitchen.Request) *planner {
	p := &planner{ctx: ctx, book: book, foods: foods, req: req, air: unit.TempC(21), over: map[kitchen.PackID]overfill{}}
	if book.Kitchen.Air != nil {
		p.air = *book.Kitchen.Air
	}
	p.out = Plan{Schema: Schema, Kitchen: book.Kitchen.Name, Note: book.Kitchen.Note, Units: book.Kitchen.Units,
		Currency: book.Kitchen.Currency, Run: req.Name, Day: req.Day, Findings: finding.List{}, Dishes: []Dish{}, Chill: []Chill{}, Fill: []PackFill{},
		Buy: Buy{Lines: []BuyLine{}}, Cost: []PackCost{}, Labels: []Label{}, Cards: []Card{}}
	if p.out.Currency == "" {
		p.out.Currency = "$"
	}
	return p
}

func (p *planner) make() Plan {
	p.cook()
	p.fill()
	p.showDishes()
	p.chill()
	p.untimed = p.out.copied()
	return p.timeIt()
}

// timeIt does what depends on the timetable.
func (p *planner) timeIt() Plan {
	p.timetable()
	if p.changes.Told { // somebody stands at the board and waits
		p.out.Findings.Sort()
		return p.out
	}
	p.freeze()
	if !p.trial {
		p.cards()
	}
	p.buy()
	p.cost()
	p.ranges()
	p.prices()
	p.label()
	p.summarise()
	p.out.Findings.Sort()
	return p.out
}

// copied is a plan whose findings and starts can be added to without changing this one.
func (p Plan) copied() Plan {
	p.Findings, p.Dishes, p.Fill = slices.Clone(p.Findings), slices.Clone(p.Dishes), slices.Clone(p.Fill)
	for i := range p.Dishes {
		p.Dishes[i].Steps = slices.Clone(p.Dishes[i].Steps)
	}
	return p
}

func (p *planner) find(f finding.Finding) { p.out.Findings = append(p.out.Findings, f) }

// packsOf is the packs that are filled from a dish, in the order of their ids.
func (p *planner) packsOf(dish kitchen.DishID) []kitchen.PackID {
	var ids []kitchen.PackID
	for _, id := range slices.Sorted(maps.Keys(p.book.Packs)) {
		if p.book.Packs[id].Dish == dish {
			ids = append(ids, id)
		}
	}
	return ids
}

func (p *planner) summarise() {
	s := &p.out.Summary
	for _, f := range p.out.Fill {
		s.Packs += f.Count
		s.FoodMass += f.Net * unit.Mass(f.Count)
	}
	s.Start, s.End = p.out.Timetable.Start, p.out.Timetable.End
	for _, t := range p.day.tasks {
		for _, h := range t.hands {
			s.HandsOn += unit.Span(h.to-h.from) * unit.Minute * unit.Span(h.people)
		}
	}
	s.BuyTotal = p.out.Buy.Total
	for i, c := range p.out.Cost {
		s.CostTotal += c.Total * unit.Money(p.out.Fill[i].Count)
		s.CostLower = s.CostLower || len(c.Missing) > 0
	}
}
