package web

import (
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/draw"
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
	Letter  string
	Name    string
	Mass    figure
	From    figure
	Chosen  string // what to do, "" when no way is safe
	Ice     figure
	Rule    string
	Source  string
	Options []chillOption
	Methods []method
}

type chillOption struct {
	Name    string
	Chosen  bool
	Vessels string
	Short   bool // fewer vessels than needed
	To70    string
	To41    string
	Verdict string
	Within  bool
	Ice     figure
	HandsOn string
	Why     string
}

func viewChill(p plan.Plan, codes draw.Codes, r reader) chillView {
	v := chillView{Grave: graveFor(p, atChill)}
	for _, c := range p.Chill {
		t := chillThing{Letter: codes.Dish(c.Dish), Name: c.Name, Mass: r.fig(c.Mass), From: r.fig(c.From), Rule: c.Rule, Source: c.Source}
		for i, o := range c.Options {
			ov := chillOption{Name: o.Name, Chosen: i == c.Chosen, Vessels: strconv.Itoa(o.Vessels) + " of " + strconv.Itoa(o.Have), Short: o.Vessels > o.Have,
				To70: reach(o.To70, o.Verdict, r), To41: reach(o.To41, o.Verdict, r), Verdict: o.Verdict, Within: strings.HasPrefix(o.Verdict, "within"),
				Ice: r.mass(o.Ice), HandsOn: r.span(o.HandsOn), Why: o.Why}
			if ov.Chosen {
				t.Chosen, t.Ice = o.Name, ov.Ice
			}
			t.Options = append(t.Options, ov)
			t.Methods = addMethod(t.Methods, o.Name, o.Formula)
		}
		v.Things = append(v.Things, t)
	}
	return v
}

// reach is how long it takes to a temperature; that it never gets there is said only where it was computed.
func reach(d *unit.Span, verdict string, r reader) string {
	switch {
	case d != nil:
		return d.Show(r.units)
	case strings.HasPrefix(verdict, "never"):
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
