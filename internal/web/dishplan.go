package web

import (
	"context"
	"fmt"
	"maps"
	"net/http"
	"net/url"
	"slices"
	"time"

	"kettlefrost/internal/dishgraph"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/formula"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// longestLook is how long a page waits for a timetable of a dish that is being changed: the best until then is shown, and said to be that.
const longestLook = 2500 * time.Millisecond

// dishPlanPage is all that templates/dishplan.html may show: what a day with nothing but this dish would be.
type dishPlanPage struct {
	shell
	Name    string
	Back    string
	Scales  []navLink
	Problem string // why there is no plan
	Stops   []reminder
	For     string   // what is reckoned
	Assumed []string // what is not in the book and stands in
	Head    []keyFigure
	Packs   []dishPack
	Grave   []reminder
	More    string // of findings that are not shown
	Formula []reminder
	Cooling []dishCooling
}

// dishPack is how many of a pack come out and what one costs.
type dishPack struct{ Name, Count, Cost string }

// dishCooling is how fast an output is cooled by the way that the plan takes.
type dishCooling struct{ Name, Way, Says, Class string }

var dishPlanTemplate = parse[dishPlanPage]("dishplan")

// showDishPlan answers with what a plan of the dish alone says.
func (s *server) showDishPlan(w http.ResponseWriter, r *http.Request) {
	a, ok := s.askDish(w, r)
	if !ok {
		return
	}
	v := dishPlanPage{shell: s.inShell(r, a.base.Kitchen, "A plan of "+a.dish().Name, "book"), Name: a.dish().Name, Back: a.url(nil), Scales: a.scales()}
	s.planDish(r.Context(), a, &v)
	dishPlanTemplate.show(w, http.StatusOK, v)
}

// scales are what a plan can be made for.
func (a dishAsked) scales() []navLink {
	now := a.query.Get(dishScale)
	path := dishPath + "/" + url.PathEscape(string(a.id))
	link := func(name, scale string) navLink {
		q := url.Values{}
		if d := a.draft.text(); d != "" {
			q.Set(dishChanges, d)
		}
		if scale != "" {
			q.Set(dishScale, scale)
		}
		if step := a.query.Get(dishStep); step != "" {
			q.Set(dishStep, step)
		}
		return navLink{Name: name, Here: now == scale, URL: path + queryOf(q) + "#headline"}
	}
	links := []navLink{link("As it is written", "")}
	seen := map[kitchen.EquipmentID]bool{}
	for _, s := range a.dish().Steps {
		for _, id := range s.In {
			if e := a.book.Equipment[id]; e.Kind == kitchen.Vessel && !seen[id] {
				seen[id] = true
				links = append(links, link("One full "+e.Name, string(id)))
			}
		}
	}
	return links
}

// request asks for the dish alone: at the scale it is written for, or one vessel full. What stands in for what is missing is said.
func (a *dishAsked) request(flow plan.Dish) (req kitchen.Request, says string, assumed []string) {
	req.Name = a.dish().Name
	if len(dishgraph.PacksOf(a.book, a.id)) == 0 {
		assumed = append(assumed, a.standInPacks())
	}
	if v := kitchen.EquipmentID(a.query.Get(dishScale)); v != "" {
		if e, there := a.book.Equipment[v]; there {
			req.Want = []kitchen.Want{{Dish: a.id, Vessel: v}}
			return req, "one full " + e.Name, assumed
		}
	}
	of, most := kitchen.IngredientID(""), unit.Mass(0)
	for _, s := range flow.Steps {
		for _, l := range s.In {
			if l.Kind == plan.Fresh && l.Mass > most {
				of, most = kitchen.IngredientID(l.ID), l.Mass
			}
		}
	}
	bought := unit.Mass(0)
	for _, s := range flow.Steps {
		for _, l := range s.In {
			if l.Kind == plan.Fresh && l.ID == string(of) {
				bought += l.Mass
			}
		}
	}
	if keep := 1 - a.book.Ingredients[of].Trim.F(); keep > 0 {
		bought = unit.Mass(float64(bought) / keep)
	}
	req.Want = []kitchen.Want{{Dish: a.id, Use: &kitchen.UseUp{Of: of, Amount: unit.Amount{Kind: unit.AmountMass, Mass: bought}}}}
	return req, "the dish as it is written", assumed
}

// standInPacks puts packs of a pound or of 500 g into the book for what nothing takes: a plan fills packs.
func (a *dishAsked) standInPacks() string {
	size := unit.Pound
	if a.rd.units == unit.Metric {
		size = 500 * unit.Gram
	}
	a.book.Packs, a.book.Bags = maps.Clone(a.book.Packs), maps.Clone(a.book.Bags)
	if a.book.Packs == nil {
		a.book.Packs = map[kitchen.PackID]kitchen.Pack{}
	}
	bag := kitchen.BagID("")
	for _, id := range slices.Sorted(maps.Keys(a.book.Bags)) {
		if bag == "" {
			bag = id
		}
	}
	if bag == "" {
		bag = "stand-in"
		a.book.Bags = map[kitchen.BagID]kitchen.Bag{bag: {Name: "a bag that stands in", Length: 250 * unit.Millimetre, Width: 180 * unit.Millimetre}}
	}
	for _, o := range dishgraph.Loose(a.book, a.id) {
		if o.ByProduct {
			continue
		}
		id := kitchen.PackID("stand-in-" + string(o.ID))
		a.book.Packs[id] = kitchen.Pack{Name: outputName(o) + ", " + size.Show(a.rd.units), Dish: a.id, Fill: []kitchen.Fill{{Of: o.ID, Mass: size}}, Bag: bag, Pace: 40 * unit.Second}
	}
	return "No pack is filled from this dish yet: it is reckoned in packs of " + size.Show(a.rd.units) + ", each filled in 40 s."
}

// planDish fills in what a plan says, or why there is none.
func (s *server) planDish(ctx context.Context, a dishAsked, v *dishPlanPage) {
	flow, _, err := s.masses(a)
	if err != nil {
		v.Problem = "There is no plan yet: " + err.Error() + "."
		return
	}
	ask := a
	req, says, assumed := ask.request(flow)
	v.For, v.Assumed = says, assumed
	for _, f := range a.found {
		if f.Severity == finding.Stop && f.Code != string(kitchen.OutputUnused) {
			v.Stops = append(v.Stops, remind(f))
		}
	}
	if len(v.Stops) > 0 {
		v.Problem = "There is no plan before this is put right:"
		return
	}
	ctx, cancel := context.WithTimeout(ctx, longestLook)
	defer cancel()
	p := s.house.Plan(ctx, ask.book, req)
	v.fill(a, p)
	s.fillFormula(a, v)
}

// fill puts a plan into words.
func (v *dishPlanPage) fill(a dishAsked, p plan.Plan) {
	rd := a.rd
	v.Head = []keyFigure{{Title: "Packs", Value: figure{First: fmt.Sprint(p.Summary.Packs)}}, {Title: "Food in them", Value: rd.fig(p.Summary.FoodMass)}}
	if len(p.Timetable.Tasks) > 0 {
		v.Head = append(v.Head, keyFigure{Title: "Length of the day", Value: figure{First: p.Timetable.Length.Show(rd.units)}, More: p.Timetable.Start.String() + " – " + p.Timetable.End.String() + dayLooked(p.Timetable.Status)})
	}
	v.Head = append(v.Head, keyFigure{Title: "Hands-on work", Value: figure{First: p.Summary.HandsOn.Show(rd.units)}, More: "of all people together"},
		keyFigure{Title: "To spend on ingredients", Value: figure{First: rd.money(p.Summary.BuyTotal)}})
	for i, f := range p.Fill {
		x := dishPack{Name: f.Name, Count: fmt.Sprint(f.Count)}
		if i < len(p.Cost) {
			x.Cost = rd.money(p.Cost[i].Total)
			if len(p.Cost[i].Missing) > 0 {
				x.Cost = "at least " + x.Cost
			}
		}
		v.Packs = append(v.Packs, x)
	}
	const most = 6
	for _, f := range p.Findings {
		if f.Severity <= finding.Note {
			continue
		}
		if len(v.Grave) == most {
			v.More = "More stands on the pages of a run."
			break
		}
		v.Grave = append(v.Grave, remind(f))
	}
	for _, c := range p.Chill {
		v.Cooling = append(v.Cooling, coolingOf(c, rd))
	}
}

// dayLooked says when the day is only the best that was found.
func dayLooked(status string) string {
	if status == "optimal" {
		return ""
	}
	return "; the shortest day found so far"
}

// fillFormula puts in how it stands in the freezer.
func (s *server) fillFormula(a dishAsked, v *dishPlanPage) {
	for _, subject := range formula.SubjectsOf(a.book, a.id) {
		report, err := formula.ReportOf(a.book, s.house.Foods(), formula.Asked{Subject: subject})
		if err != nil {
			continue
		}
		for _, f := range report.Review.Findings {
			x := viewFormulaFinding(f)
			if x.Class != "yes" && len(v.Formula) < 4 {
				v.Formula = append(v.Formula, reminder{Class: x.Class, Word: x.Word, Sign: x.Sign, Where: x.About, Message: x.Message})
			}
		}
	}
}

// coolingOf is how an output is cooled, and that no way is fast enough where none is.
func coolingOf(c plan.Chill, rd reader) dishCooling {
	v := dishCooling{Name: c.Name, Way: "no way of the kitchen is predicted to be fast enough", Class: "stop"}
	if c.Chosen >= 0 && c.Chosen < len(c.Options) {
		o := c.Options[c.Chosen]
		v.Way, v.Class = o.Name, ""
		if o.Slow41 != nil {
			v.Says = "at 41 °F (5 °C) after " + rd.span(*o.Slow41) + " at the slowest; the published limit and your local code decide"
		}
	}
	return v
}
