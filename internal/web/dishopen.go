package web

import (
	"cmp"
	"fmt"
	"maps"
	"net/url"
	"slices"

	"kettlefrost/internal/dishgraph"
	"kettlefrost/internal/kitchen"
)

// dishOpen is a step that is open: what goes in, what comes out, and what can be done with it.
type dishOpen struct {
	StepID  string
	Code    string
	Do      string
	Close   string // address of the page without it
	Moves   []link // earlier, later, copy
	Goes    []dishGoes
	Gives   []dishGiven
	Strip   rowMoves // its stretch of the flow, in sight while its form is filled in
	Action  string   // where its form leads
	Form    *stepForm
	Scale   string
	Put     dishPut
	Split   []field
	Ahead   []dishTake
	Removes string // address that takes it out
	Removal *dishRemoval
}

// dishGoes is something that goes in, and the address that takes it out.
type dishGoes struct{ Says, Out string }

// dishGiven is something that comes out, and where it goes or may go.
type dishGiven struct {
	OutputID string
	Name     string
	To       []string
	Into     []option // steps that it may go into
	After    string   // where a step is put in behind it
	Between  []link   // and before one step: URL is the place
	Whole    string   // address that leaves it in the main product
}

// dishTake is something that a step put in before may take over.
type dishTake struct {
	Place string
	Says  string
}

// dishRemoval asks what is to become of what hangs on a step.
type dishRemoval struct {
	Hangs        []string
	Across, Away string // addresses
	CanAcross    bool
}

// dishAdd asks for a new step: where is fixed or chosen.
type dishAdd struct {
	Action string
	Does   string
	Where  []option
	In     []option
}

// do is the address of an operation.
func (a dishAsked) do(op string, more ...string) string {
	q := url.Values{dishDo: {op}}
	for i := 0; i+1 < len(more); i += 2 {
		q.Set(more[i], more[i+1])
	}
	if d := a.draft.text(); d != "" {
		q.Set(dishChanges, d)
	}
	if scale := a.query.Get(dishScale); scale != "" {
		q.Set(dishScale, scale)
	}
	return a.action() + "?" + q.Encode()
}

// action is where forms of operations lead.
func (a dishAsked) action() string { return dishPath + "/" + url.PathEscape(string(a.id)) + "/do" }

// adding asks for a new step at any place.
func (a dishAsked) adding() dishAdd {
	d, was := a.dish(), a.said(dishWhere)
	v := dishAdd{Action: a.action(), Does: a.said(dishDoes), Where: []option{{"", "a new start: it takes nothing of the others", was == ""}}}
	order, _ := dishgraph.Order(d)
	codes := stepCodes(d, order)
	for _, i := range order {
		for _, o := range d.Steps[i].Outputs() {
			value := "after." + string(o.ID)
			v.Where = append(v.Where, option{value, fmt.Sprintf("after %s, with all of the %s", codes[d.Steps[i].ID], outputName(o)), was == value})
			for _, k := range dishgraph.Takers(d, o.ID) {
				value := "between." + string(o.ID) + "." + d.Steps[k].ID
				v.Where = append(v.Where, option{value, fmt.Sprintf("between %s and %s, with the %s", codes[d.Steps[i].ID], codes[d.Steps[k].ID], outputName(o)), was == value})
			}
		}
	}
	v.In = equipmentOptions(a.book, a.said(dishIn))
	return v
}

func stepCodes(d kitchen.Dish, order []int) map[string]string {
	codes := map[string]string{}
	for n, i := range order {
		codes[d.Steps[i].ID] = numeral(n + 1)
	}
	return codes
}

// equipmentOptions are what a step may be done in.
func equipmentOptions(b kitchen.Book, now string) []option {
	all := []option{{"", "nothing yet, or anywhere", now == ""}}
	for _, id := range slices.Sorted(maps.Keys(b.Equipment)) {
		if e := b.Equipment[id]; e.Kind != kitchen.Burner && e.Kind != kitchen.Sealer {
			all = append(all, option{string(id), cmp.Or(e.Name, string(id)), now == string(id)})
		}
	}
	return all
}

// openStep is the step that the address opens; nil for none.
func (s *server) openStep(a dishAsked) *dishOpen {
	d := a.dish()
	i := dishgraph.Find(d, a.query.Get(dishStep))
	if i < 0 {
		return nil
	}
	step := d.Steps[i]
	order, _ := dishgraph.Order(d)
	codes := stepCodes(d, order)
	v := &dishOpen{StepID: step.ID, Code: codes[step.ID], Do: cmp.Or(step.Do, step.ID), Close: a.url(nil) + "#s-" + step.ID, Removes: a.do("remove", dishStep, step.ID)}
	if i > 0 {
		v.Moves = append(v.Moves, link{"Write it earlier", a.do("earlier", dishStep, step.ID)})
	}
	if i < len(d.Steps)-1 {
		v.Moves = append(v.Moves, link{"Write it later", a.do("later", dishStep, step.ID)})
	}
	v.Moves = append(v.Moves, link{"Copy it", a.do("copy", dishStep, step.ID)})
	for k, u := range step.Use {
		says := useSaid(u) + " " + useName(a.book, d, u)
		if u.From != "" {
			says = useName(a.book, d, u) + ", " + useSaid(u)
		}
		v.Goes = append(v.Goes, dishGoes{says, a.do("unuse", dishStep, step.ID, dishPlace, numeral(k))})
		v.Ahead = append(v.Ahead, dishTake{numeral(k), says})
	}
	for _, o := range step.Outputs() {
		v.Gives = append(v.Gives, a.given(d, step, o, codes))
	}
	v.Put = a.putting(s.house.Foods())
	v.Action, v.Form, v.Scale = dishPath+"/"+url.PathEscape(string(a.id)), s.stepFormOf(a, step.ID), a.query.Get(dishScale)
	v.Split = a.splitFields()
	if a.said(dishDo) == "remove" {
		v.Removal = a.removal(step, codes)
	}
	return v
}

// given is what a step gives, with where it may go: into steps that come after, and do not have it.
func (a dishAsked) given(d kitchen.Dish, step kitchen.Step, o kitchen.Output, codes map[string]string) dishGiven {
	g := dishGiven{OutputID: string(o.ID), Name: outputName(o), After: "after." + string(o.ID)}
	from, takers := dishgraph.Giver(d, o.ID), dishgraph.Takers(d, o.ID)
	for _, k := range takers {
		g.To = append(g.To, codes[d.Steps[k].ID]+" "+cmp.Or(d.Steps[k].Do, d.Steps[k].ID))
		g.Between = append(g.Between, link{"before " + codes[d.Steps[k].ID], "between." + string(o.ID) + "." + d.Steps[k].ID})
	}
	for _, p := range dishgraph.PacksWith(a.book, a.id, o.ID) {
		g.To = append(g.To, "the pack "+a.book.Packs[p].Name)
	}
	for k, other := range d.Steps {
		if !slices.Contains(takers, k) && !dishgraph.Before(d, k, from) {
			g.Into = append(g.Into, option{other.ID, codes[other.ID] + " " + cmp.Or(other.Do, other.ID), a.said(dishInto) == other.ID})
		}
	}
	if o.Takes > 0 {
		g.Whole = a.do("whole", dishStep, step.ID, dishOut, string(o.ID))
	}
	return g
}

// removal is what hangs on a step.
func (a dishAsked) removal(step kitchen.Step, codes map[string]string) *dishRemoval {
	v := &dishRemoval{Across: a.do("remove", dishStep, step.ID, dishAcross, "yes"), Away: a.do("remove", dishStep, step.ID, dishAcross, "no")}
	for _, h := range dishgraph.Hangs(a.book, a.id, step.ID) {
		if h.Step != "" {
			v.Hangs = append(v.Hangs, fmt.Sprintf("step %s takes its %s", codes[h.Step], h.Output))
		} else {
			v.Hangs = append(v.Hangs, fmt.Sprintf("the pack %s is filled with its %s", a.book.Packs[h.Pack].Name, h.Output))
		}
	}
	v.CanAcross = slices.ContainsFunc(step.Use, func(u kitchen.Use) bool { return u.From != "" })
	return v
}

// splitFields ask what else a step gives.
func (a dishAsked) splitFields() []field {
	part := a.said(dishPart)
	return []field{
		{Key: dishNamed, Label: "What else comes out", Hint: "such as chicken fat, or whey", Value: a.said(dishNamed)},
		{Key: dishShare, Label: "How much", Hint: "of all that goes in, such as 12 %", Value: a.said(dishShare)},
		{Key: dishPart, Label: "It is drawn from", Hint: "fat that is skimmed, water that is strained off", Options: []option{{string(kitchen.Mixed), "all of it alike", part == string(kitchen.Mixed)}, {string(kitchen.Fat), "the fat", part == string(kitchen.Fat)}, {string(kitchen.Water), "the water", part == string(kitchen.Water)}}},
	}
}
