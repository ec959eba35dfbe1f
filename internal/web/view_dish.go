package web

import (
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/draw"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// dishView is a dish at scale.
type dishView struct {
	Letter   string
	Name     string
	Target   string
	Limit    string
	Grave    []reminder
	In       figure
	Out      figure
	Lost     figure
	Steps    []stepView
	Surplus  []partView
	BoughtIn []partView
	Masses   string // address of the drawing of its masses
}

// stepView is a step as a cook works it.
type stepView struct {
	ID      string // of its element
	Code    string
	Do      string
	How     string
	On      string
	Loads   string // "6 loads of 9 lb 4 oz each"
	LoadsS  string // the same in the other units
	Limit   string // "limited by mass, 93 % full"
	Starts  string
	Grave   []reminder
	Split   bool // there are several loads, so that amounts are given for each
	Volumes bool // some amounts are given by volume too
	In      []lineView
	Out     []partView
	Heat    string
	Time    string
	Hands   string
	Losses  []lossView
}

type lineView struct {
	Name    string
	Mass    figure
	Each    figure
	Volume  figure
	Pieces  string
	Mark    string // adjusted, from an earlier step, by-product
	StandIn string
}

// partView is an amount of something in a sentence.
type partView struct {
	Name   string
	Mass   figure
	Pieces string
	Mark   string
}

type lossView struct {
	Cause string
	Mass  figure
}

func viewDishes(p plan.Plan, book kitchen.Book, codes draw.Codes, r reader) []dishView {
	var out []dishView
	for _, d := range p.Dishes {
		v := dishView{Letter: codes.Dish(d.ID), Name: d.Name, Target: d.Target, Limit: d.Limit, Grave: dishFindings(p.Findings, d.ID),
			In: r.fig(d.In), Out: r.fig(d.Out), Lost: r.fig(d.Lost), Surplus: viewParts(d.Surplus, r), BoughtIn: viewParts(d.BoughtIn, r)}
		paths := stepPlaces(book, d.ID)
		made := map[string]string{} // output to the code of its step
		for _, s := range d.Steps {
			sv := viewStep(s, r)
			sv.Code = codes.Step(d.ID, s.ID)
			for i, l := range s.In {
				if from := made[l.ID]; l.Kind == plan.Earlier && from != "" {
					sv.In[i].Mark = "from " + from
				}
			}
			for _, l := range s.Out {
				made[l.ID] = sv.Code
			}
			sv.ID = "step-" + sv.Code
			if path := paths[s.ID]; path != "" {
				sv.Grave = atStep(p.Findings, path)
			}
			v.Steps = append(v.Steps, sv)
		}
		out = append(out, v)
	}
	return out
}

func viewStep(s plan.Step, r reader) stepView {
	v := stepView{Do: s.Do, How: s.How, On: s.Equipment, Split: s.Loads.Count > 1, Starts: starts(s.Starts),
		In: viewLines(s.In, r), Out: viewParts(s.Out, r), Hands: r.span(s.HandsOn), Time: r.span(s.Time)}
	each := r.mass(s.Loads.Mass)
	if s.Loads.Count > 0 && each.First != "" {
		v.Loads, v.LoadsS = times(s.Loads.Count, "load", "loads")+" of "+each.First, each.Second
		if s.Loads.Count > 1 {
			v.Loads += " each"
		}
	}
	if s.Loads.Limit != "" && s.Loads.Limit != "no limit" {
		v.Limit = fmt.Sprintf("%.0f %% full", 100*s.Loads.Full.F())
		if v.Split {
			v.Limit = "limited by " + s.Loads.Limit + ", " + v.Limit
		}
	}
	v.Volumes = slices.ContainsFunc(s.In, func(l plan.Line) bool { return l.Volume != 0 })
	v.Heat = heat(s, r)
	for _, l := range s.Losses {
		v.Losses = append(v.Losses, lossView{Cause: l.Cause, Mass: r.fig(l.Mass)})
	}
	return v
}

// heat is "to 200 °F (93 °C), about 25 min".
func heat(s plan.Step, r reader) string {
	if s.HeatTo == nil {
		return ""
	}
	to := r.fig(*s.HeatTo)
	text := "to " + to.First
	if to.Second != "" {
		text += " (" + to.Second + ")"
	}
	if up := r.span(s.HeatUp); up != "" {
		text += ", about " + up
	}
	return text
}

// starts lists when each load begins, the middle left out when there are many.
func starts(clocks []unit.Moment) string {
	const most = 8
	var parts []string
	for i, c := range clocks {
		if len(clocks) > most && i >= most-2 && i < len(clocks)-1 {
			if i == most-2 {
				parts = append(parts, "…")
			}
			continue
		}
		parts = append(parts, c.String())
	}
	return strings.Join(parts, ", ")
}

var marks = map[plan.LineKind]string{plan.MadeUp: "adjusted to what boils off", plan.ByProduct: "by-product"}

func viewLines(lines []plan.Line, r reader) []lineView {
	var out []lineView
	for _, l := range lines {
		v := lineView{Name: l.Name, Mass: r.fig(l.Mass), Each: r.mass(l.Each), Volume: r.volume(l.Volume), Pieces: pieces(l), Mark: marks[l.Kind]}
		if l.StandIn != "" {
			v.StandIn = r.fig(l.Short).First + " of it falls short: " + l.StandIn + " stands in"
		}
		out = append(out, v)
	}
	return out
}

func viewParts(lines []plan.Line, r reader) []partView {
	var out []partView
	for _, l := range lines {
		out = append(out, partView{Name: l.Name, Mass: r.fig(l.Mass), Pieces: pieces(l), Mark: marks[l.Kind]})
	}
	return out
}

func pieces(l plan.Line) string {
	if l.Pieces == 0 {
		return ""
	}
	return times(l.Pieces, "piece", "pieces")
}
