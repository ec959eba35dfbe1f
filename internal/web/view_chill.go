package web

import (
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/draw"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// chillView is how hot food is cooled.
type chillView struct {
	Grave  []reminder
	Things []chillThing
}

// chillThing is one hot output with its ways of cooling.
type chillThing struct {
	ID      string // fit for an id
	Letter  string
	Name    string
	Mass    figure
	From    figure
	Chosen  string // what to do, "" when no way is in time
	Stages  []chillStage
	Notes   []string
	Ice     figure
	Rule    string
	Source  string
	Curve   pictureView
	Options []chillOption
	Methods []method
}

// chillStage is one stage of the way that was chosen.
type chillStage struct {
	Name    string
	Vessels string
	Time    string
	End     figure
}

type chillOption struct {
	Name    string
	Chosen  bool
	Vessels string
	Short   bool // fewer vessels than needed
	To70    string
	To41    string
	Band70  string
	Band41  string
	Verdict string
	Within  bool
	Ice     figure
	Space   figure
	HandsOn string
	Why     string
	Fits    []string
	Curve   pictureView
	Try     string // address that asks about it at another depth; "" when that is nothing to ask
}

func viewChill(p plan.Plan, book kitchen.Book, codes draw.Codes, r reader, at pictures) chillView {
	v := chillView{Grave: graveFor(p, atChill)}
	for i, c := range p.Chill {
		t := chillThing{ID: "cool-" + strconv.Itoa(i), Letter: codes.Dish(c.Dish), Name: c.Name, Mass: r.fig(c.Mass), From: r.fig(c.From), Rule: c.Rule, Source: c.Source}
		for k, o := range c.Options {
			ov := r.chillOption(o)
			ov.Chosen, ov.Curve, ov.Try = k == c.Chosen, at.cooling(i, k), tryAddress(book, c, o, r)
			for _, s := range o.Stages {
				t.Methods = addMethod(t.Methods, o.Name, s.Formula)
			}
			if ov.Chosen {
				t.choose(o, ov, r)
			}
			t.Options = append(t.Options, ov)
		}
		if len(c.Options) > 0 {
			t.Curve = at.cooling(i, max(0, c.Chosen))
		}
		v.Things = append(v.Things, t)
	}
	return v
}

// choose shows the way that was chosen.
func (t *chillThing) choose(o plan.ChillOption, ov chillOption, r reader) {
	t.Chosen, t.Ice, t.Notes = o.Name, ov.Ice, o.Notes
	for _, s := range o.Stages {
		v := chillStage{Time: r.span(s.Time), End: r.fig(s.End)}
		if len(o.Stages) > 1 {
			v.Name = s.Name
		}
		if s.Vessels > 0 {
			v.Vessels = strconv.Itoa(s.Vessels) + " of " + strconv.Itoa(s.Have)
		}
		t.Stages = append(t.Stages, v)
	}
}

func (r reader) chillOption(o plan.ChillOption) chillOption {
	v := chillOption{Name: o.Name, To70: r.reach(o.To70, o.Verdict), To41: r.reach(o.To41, o.Verdict), Band70: r.band(o.Fast70, o.Slow70), Band41: r.band(o.Fast41, o.Slow41),
		Verdict: string(o.Verdict), Within: o.Verdict.InTime(), Ice: r.mass(o.Ice), HandsOn: r.span(o.HandsOn), Why: o.Why, Fits: o.Fits}
	var vessels []string
	for _, s := range o.Stages {
		if s.Vessels > 0 {
			vessels = append(vessels, strconv.Itoa(s.Vessels)+" (have "+strconv.Itoa(s.Have)+")")
			v.Short = v.Short || s.Vessels > s.Have
		}
	}
	v.Vessels = strings.Join(vessels, ", then ")
	if o.Space > 0 {
		v.Space = r.fig(o.Space)
	}
	return v
}

// band is from the best to the worst surface coefficient.
func (r reader) band(fast, slow *unit.Span) string {
	if fast == nil || slow == nil {
		return ""
	}
	return fast.Show(r.units) + " – " + slow.Show(r.units)
}

// reach is how long it takes to a temperature; that it never gets there is said only where it was computed.
func (r reader) reach(d *unit.Span, verdict plan.ChillVerdict) string {
	switch {
	case d != nil:
		return d.Show(r.units)
	case verdict == plan.ChillNever:
		return "never"
	}
	return "–"
}

// method is a way of computing and what was computed by it.
type method struct {
	Formula string
	Of      []string
}

// addMethod adds what was computed by a formula; nothing when none is named.
func addMethod(all []method, of, formula string) []method {
	if formula == "" {
		return all
	}
	for i := range all {
		if all[i].Formula == formula {
			if !slices.Contains(all[i].Of, of) {
				all[i].Of = append(all[i].Of, of)
			}
			return all
		}
	}
	return append(all, method{formula, []string{of}})
}
