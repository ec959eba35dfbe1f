package haccp

import (
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/foodcode"
)

func (p *Plan) weigh(e Edit) (string, string) {
	i := slices.IndexFunc(p.Hazards, func(h Hazard) bool { return h.Key == e.At })
	switch {
	case i < 0:
		return "there is no such hazard", "choose one of the plan"
	case e.Reason == "":
		return "there is no reason", "say why: what keeps it down, or how likely and how bad it is"
	}
	h := &p.Hazards[i]
	h.Significant, h.Reason = e.Significant, e.Reason+" ("+e.By+")"
	return "", ""
}

func (p *Plan) addHazard(e Edit) (string, string) {
	switch {
	case !p.hasStep(e.At):
		return "there is no such step", "choose one of the flow"
	case e.Kind != Biological && e.Kind != Chemical && e.Kind != Physical:
		return "it is not said of what kind it is", "choose biological, chemical or physical"
	case e.What == "" || e.Control == "":
		return "it does not say what could hurt somebody, and what is done about it", "fill in both"
	case e.Point != "" && p.pointAt(e.Point) < 0:
		return "there is no such control point", "choose one of the plan"
	case e.Programme != "" && !slices.ContainsFunc(p.Programmes, func(x Programme) bool { return x.Name == e.Programme }):
		return "there is no such programme", "choose one of the plan, or write it first"
	}
	p.Hazards = append(p.Hazards, Hazard{Key: e.At + "/own/" + e.What, Step: e.At, Kind: e.Kind, What: e.What, Why: e.Why, Significant: e.Significant, Control: e.Control,
		Programme: e.Programme, Reason: e.Reason, Added: true, at: e.Point})
	return "", ""
}

func (p *Plan) hasStep(id string) bool {
	return slices.ContainsFunc(p.Flow, func(f FlowStep) bool { return f.ID == id })
}

func (p *Plan) setLimit(e Edit) (string, string) {
	i := p.pointAt(e.At)
	if i < 0 {
		return "there is no such control point", "choose one of the plan"
	}
	l := &p.Points[i].Limit
	if len(l.Figures) != len(e.Figures) {
		return fmt.Sprintf("the limit has %d figures, and %d are given", len(l.Figures), len(e.Figures)), "give each of them, also those that stay"
	}
	if len(l.Figures) == 0 {
		if e.Text != "" {
			l.Was, l.Text, l.Reason = l.Text, e.Text, e.Reason
		}
		return missing(e.Text)
	}
	return l.set(e)
}

// set puts other figures into a limit. What is laxer takes a reason.
func (l *Limit) set(e Edit) (string, string) {
	figures, words, laxer := slices.Clone(l.Figures), []string(nil), false
	for i := range figures {
		to := e.Figures[i]
		if !(to.TempC > -60 && to.TempC < 300) || !(to.Seconds >= 0 && to.Seconds < 1e6) {
			return "a figure is none that food can have", "write it again"
		}
		laxer = laxer || figures[i].laxer(to)
		figures[i] = figures[i].reworded(to)
		words = append(words, figures[i].Words)
	}
	if laxer && e.Reason == "" {
		return "it would be laxer than drafted", "say why, such as the authority's approval with its reference; or make it stricter"
	}
	l.Was, l.Text = l.Text, strings.Join(words, ", and ")
	l.Figures, l.Reason, l.Laxer = figures, e.Reason, l.Laxer || laxer
	return "", ""
}

// laxer says whether another figure asks for less.
func (f Figure) laxer(to Figure) bool {
	const slack = 1e-9
	if f.Sense == foodcode.AtLeast {
		return to.TempC < f.TempC-slack || to.Seconds < f.Seconds-slack
	}
	return to.TempC > f.TempC+slack || to.Seconds > f.Seconds+slack
}

// reworded is a figure with another temperature and time, and its words with them.
func (f Figure) reworded(to Figure) Figure {
	was := f
	f.TempC, f.Seconds = to.TempC, to.Seconds
	switch {
	case f.Sense == foodcode.AtLeast && f.Seconds > 0:
		f.Words = Fahrenheit(f.TempC) + " for " + foodcode.Time(f.Seconds)
	case f.Sense == foodcode.AtLeast:
		f.Words = Fahrenheit(f.TempC) + " at once"
	default:
		f.Words = strings.Replace(f.Words, Fahrenheit(was.TempC), Fahrenheit(f.TempC), 1)
		f.Words = strings.Replace(f.Words, "within "+foodcode.Time(was.Seconds), "within "+foodcode.Time(f.Seconds), 1)
	}
	return f
}

// Fahrenheit is a temperature in the words of the rules.
func Fahrenheit(c float64) string {
	return strings.TrimSuffix(fmt.Sprintf("%.1f", c*9/5+32), ".0") + " °F"
}

func (p *Plan) addPoint(e Edit) (string, string) {
	switch {
	case !p.hasStep(e.At):
		return "there is no such step", "choose one of the flow"
	case e.What == "" || e.Text == "" || e.Source == "":
		return "it does not say against what, within what limit, and where the limit is from", "fill in all three"
	case e.Watch == nil || e.Watch.What == "" || e.Watch.How == "" || e.Watch.Often == "" || e.Watch.Who == "" || len(e.Lines) == 0:
		return "it does not say how it is watched, and what is done when it is missed", "fill in all of it"
	}
	key := e.At + "/" + string(OwnStage)
	p.Points = append(p.Points, Point{Key: key, Stage: OwnStage, Step: e.At, Why: e.Why, Limit: Limit{Text: e.Text, Source: e.Source, Reason: e.Reason, Confirm: "all of it: a person wrote it"},
		Watch: *e.Watch, Corrective: e.Lines, Verify: verifyAll(), Records: entryRecords()})
	p.Hazards = append(p.Hazards, Hazard{Key: e.At + "/own/" + e.What, Step: e.At, Kind: e.Kind, What: e.What, Why: e.Why, Significant: true, Control: e.Text, Added: true, at: key})
	return "", ""
}

func (p *Plan) dropPoint(e Edit) (string, string) {
	i := p.pointAt(e.At)
	switch {
	case i < 0:
		return "there is no such control point", "choose one of the plan"
	case e.Reason == "":
		return "there is no reason", "say what keeps its hazards down instead"
	}
	if p.Points[i].Stage == CookingStage { // what survives there is the business of the other points where the same is cooked
		for k := range p.Hazards {
			if h := &p.Hazards[k]; h.Key == p.Points[i].Step+"/survival" {
				h.Significant, h.Reason = false, e.Reason+" ("+e.By+")"
			}
		}
	}
	p.Dropped = append(p.Dropped, Dropped{Step: p.Points[i].Step, Limit: p.Points[i].Limit.Text, Reason: e.Reason, By: e.By})
	p.Points = slices.Delete(p.Points, i, i+1)
	return "", ""
}

func (p *Plan) setProgramme(e Edit) (string, string) {
	if e.Watch == nil || e.Watch.What == "" || e.Watch.Often == "" || e.Watch.Who == "" {
		return "it does not say what is done, how often and by whom", "fill in all three"
	}
	to := Programme{Name: e.At, What: e.Watch.What, Often: e.Watch.Often, Who: e.Watch.Who}
	i := slices.IndexFunc(p.Programmes, func(x Programme) bool { return x.Name == e.At })
	if i < 0 {
		p.Programmes = append(p.Programmes, to)
		return missing(e.At)
	}
	to.Confirm = p.Programmes[i].Confirm
	p.Programmes[i] = to
	return "", ""
}
