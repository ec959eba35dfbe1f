package web

import (
	"cmp"
	"html/template"
	"maps"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/dishgraph"
	"kettlefrost/internal/draw"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// dishPage is all that templates/dish.html may show: a dish as its steps, with what flows through them.
type dishPage struct {
	shell
	DishID  string
	Name    string
	About   string
	Back    string // address of the page as it is
	Problem string
	Fix     string
	Late    bool
	Draft   []kept // hidden fields that keep what is not saved
	Unsaved *dishUnsaved
	Total   dishTotal
	NoFlow  string // why the masses cannot be reckoned
	Rows    []dishRow
	End     []dishEnd
	Mouth   template.HTML
	Loose   []dishLoose
	Grave   []reminder // about the dish as a whole
	Plan    string     // address of what a plan says
	Add     dishAdd
	Open    *dishOpen
	Near    []link
	Packs   []link
	Runs    []link
}

// dishTotal is the mass of all of it.
type dishTotal struct{ In, Out, Lost figure }

// dishRow is a step as it stands in the flow.
type dishRow struct {
	ID    string // of its element
	Code  string
	Do    string
	URL   string // opens it
	Here  bool   // it is open
	Grave []reminder
	rowMoves
}

// rowMoves is what flows into a step and out of it.
type rowMoves struct {
	Picture template.HTML
	Under   string // where it is done, how hot and how long
	In      []dishLine
	Out     []dishLine
	Losses  []lossView
	Waits   []partView
}

// dishLine is something that goes into a step or comes out of it.
type dishLine struct {
	Name string
	Mass figure // empty where it cannot be reckoned
	Said string // how much, as it is written
	Mark string // from 3, by-product, to 4
}

// dishEnd is what is there at the end and what becomes of it.
type dishEnd struct {
	Name string
	Mass figure
	To   []link // the packs that are filled with it
}

// dishLoose is something that nothing takes.
type dishLoose struct{ Name, From string }

var dishTemplate = parse[dishPage]("dish")

func (s *server) showDish(w http.ResponseWriter, r *http.Request) {
	if a, ok := s.askDish(w, r); ok {
		s.dishPage(w, r, http.StatusOK, a, "", "")
	}
}

// dishPage shows a dish, with what is wrong with what was asked.
func (s *server) dishPage(w http.ResponseWriter, r *http.Request, status int, a dishAsked, problem, fix string) {
	d := a.dish()
	v := dishPage{shell: s.inShell(r, a.base.Kitchen, cmp.Or(d.Name, string(a.id)), "book"), DishID: string(a.id), Name: cmp.Or(d.Name, string(a.id)), About: d.About,
		Back: a.url(nil), Problem: cmp.Or(problem, a.problem), Fix: fix, Late: a.late(), Draft: a.kept(), Plan: strings.Replace(a.url(nil), "/"+string(a.id), "/"+string(a.id)+"/plan", 1),
		Grave: append(dishFindings(a.found, string(a.id)), dishFindings(a.found, string(a.id)+".steps")...)}
	flow, found, err := s.masses(a)
	a.found = append(a.found, found...)
	if err != nil {
		v.NoFlow = capital(err.Error()) + "."
	}
	v.fillRows(a, flow)
	v.Total = dishTotal{a.rd.fig(flow.In), a.rd.fig(flow.Out), a.rd.fig(flow.Lost)}
	for _, o := range dishgraph.Loose(a.book, a.id) {
		if !o.ByProduct {
			from := d.Steps[dishgraph.Giver(d, o.ID)]
			v.Loose = append(v.Loose, dishLoose{outputName(o), from.Do})
		}
	}
	v.Unsaved = s.unsaved(a)
	v.Add = a.adding()
	if v.Open = s.openStep(a); v.Open != nil {
		for _, row := range v.Rows {
			if row.Here {
				v.Open.Strip = row.rowMoves
				v.Open.Strip.Picture = template.HTML(strings.ReplaceAll(string(row.Picture), "flow-"+row.Code+"-", "strip-")) // ids stand once on a page
			}
		}
	}
	v.links(a)
	dishTemplate.show(w, status, v)
}

// kept are hidden fields with what is not saved.
func (a dishAsked) kept() []kept {
	var all []kept
	for _, key := range []string{dishChanges, dishScale} {
		if value := a.query.Get(key); value != "" {
			all = append(all, kept{key, value})
		}
	}
	return all
}

// fillRows puts the steps in the order of cooking, with their masses where these are known.
func (v *dishPage) fillRows(a dishAsked, flow plan.Dish) {
	d := a.dish()
	order, _ := dishgraph.Order(d)
	codes := map[kitchen.OutputID]string{}
	stepCode := map[string]string{}
	for n, i := range order {
		stepCode[d.Steps[i].ID] = strconv.Itoa(n + 1)
		for _, o := range d.Steps[i].Outputs() {
			codes[o.ID] = strconv.Itoa(n + 1)
		}
	}
	at := map[string]int{}
	for i, s := range flow.Steps {
		at[s.ID] = i
	}
	river := draw.River(inOrderOf(flow, d, order), a.rd.units)
	paths := stepPlaces(a.book, string(a.id))
	for n, i := range order {
		s := d.Steps[i]
		row := dishRow{ID: "s-" + s.ID, Code: stepCode[s.ID], Do: cmp.Or(s.Do, s.ID), URL: a.url(url.Values{dishStep: {s.ID}}) + "#open", Here: a.query.Get(dishStep) == s.ID, Grave: atStep(a.found, paths[s.ID])}
		on := equipmentOf(a.book, s)
		k, known := at[s.ID]
		for j, u := range s.Use {
			line := dishLine{Name: useName(a.book, d, u), Said: useSaid(u), Mark: map[bool]string{true: "from " + codes[u.From]}[u.From != ""]}
			if known && j < len(flow.Steps[k].In) {
				line.Mass = a.rd.fig(flow.Steps[k].In[j].Mass)
				if u.Amount.Kind == unit.AmountMass {
					line.Said = "" // it stands there already
				}
				if l := flow.Steps[k].In[j]; l.Kind == plan.MadeUp {
					line.Mark = marks[plan.MadeUp]
				}
			}
			row.In = append(row.In, line)
		}
		for j, o := range s.Outputs() {
			line := dishLine{Name: outputName(o), Mark: goesTo(d, o, stepCode)}
			if known && j < len(flow.Steps[k].Out) {
				line.Mass = a.rd.fig(flow.Steps[k].Out[j].Mass)
			}
			if o.ByProduct {
				line.Mark = strings.TrimPrefix(line.Mark+", by-product", ", ")
			}
			row.Out = append(row.Out, line)
		}
		if known {
			for _, l := range flow.Steps[k].Losses {
				row.Losses = append(row.Losses, lossView{l.Cause, a.rd.fig(l.Mass)})
			}
			if eq := flow.Steps[k].Equipment; eq != "" {
				on = eq
			}
		}
		row.Under = strings.Join(slices.DeleteFunc(append([]string{on}, stepFacts(s, a.rd)...), func(x string) bool { return x == "" }), ", ")
		if n < len(river) && len(flow.Steps) == len(order) {
			row.Picture = template.HTML(draw.InlineSVG(river[n].Picture, "flow-"+stepCode[s.ID]))
			row.Waits = viewParts(river[n].Waits, a.rd)
		}
		v.Rows = append(v.Rows, row)
	}
	if len(river) > 0 && len(flow.Steps) == len(order) {
		v.Mouth = template.HTML(draw.InlineSVG(river[len(river)-1].Picture, "flow-end"))
	}
	for _, l := range flow.Surplus {
		end := dishEnd{Name: l.Name, Mass: a.rd.fig(l.Mass)}
		for _, id := range dishgraph.PacksWith(a.book, a.id, kitchen.OutputID(l.ID)) {
			end.To = append(end.To, link{a.book.Packs[id].Name, "/book/packs/" + url.PathEscape(string(id))})
		}
		v.End = append(v.End, end)
	}
}

// inOrderOf is a flow with its steps in an order of the dish; nothing for a flow that has not all of them.
func inOrderOf(flow plan.Dish, d kitchen.Dish, order []int) plan.Dish {
	steps := map[string]plan.Step{}
	for _, s := range flow.Steps {
		steps[s.ID] = s
	}
	flow.Steps = nil
	for _, i := range order {
		s, known := steps[d.Steps[i].ID]
		if !known {
			return plan.Dish{}
		}
		flow.Steps = append(flow.Steps, s)
	}
	return flow
}

// links lead to what else there is about the dish.
func (v *dishPage) links(a dishAsked) {
	id := url.QueryEscape(string(a.id))
	book := "/book/dishes/" + url.PathEscape(string(a.id))
	v.Near = []link{{"In the freezer: formula and doses", workshopDishPath + "?dish=" + id}, {"As a form of the book", book}, {"Versions", book + "/versions"}, {"Compare", book + "/compare"}}
	for _, p := range dishgraph.PacksOf(a.book, a.id) {
		of := url.Values{packKey: {string(p)}}.Encode()
		v.Packs = append(v.Packs, link{a.book.Packs[p].Name, "/book/packs/" + url.PathEscape(string(p))}, link{"Its label", packLabelPath + "?" + of}, link{"Its home card", homeCardPath + "?" + of})
	}
	for _, name := range slices.Sorted(maps.Keys(a.book.Runs)) {
		for _, x := range a.book.Runs[name].Dishes(a.book) {
			if x == a.id {
				v.Runs = append(v.Runs, link{cmp.Or(a.book.Runs[name].Name, name), runPath(name)})
			}
		}
	}
}

func unsavedSays(n int) string { return times(n, "change", "changes") + " not saved" }
