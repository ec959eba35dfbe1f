package sheet

import (
	"cmp"
	"fmt"
	"strings"

	"kettlefrost/internal/haccp"
	"kettlefrost/internal/hazardplan"
	"kettlefrost/internal/hazards"
	"kettlefrost/internal/unit"
)

// HazardsText is how the plans of all packs stand.
func HazardsText(r hazardplan.Report, clock Clock) string {
	w := listWriter("Hazard plans", r.Misfits, unit.Metric)
	if !r.Judged {
		w.para(0, "The book names no jurisdiction (safety), so nothing is judged by these plans.")
	}
	t := table{columns: []column{{head: "pack"}, {head: "stands"}, {head: "points", right: true}, {head: "versions", right: true}, {head: "in force", wraps: true}, {head: "to settle", right: true}}}
	for _, x := range r.Packs {
		force := "none"
		if x.InForce != nil {
			force = fmt.Sprintf("version %d, %s, %s", x.InForce.Version, clock(x.InForce.At), x.InForce.Reviewer)
		}
		t.add(x.Pack, strings.ToUpper(string(x.Stands)), fmt.Sprint(x.Points), fmt.Sprint(x.Versions), force, fmt.Sprint(len(x.Open)+len(x.Asked)))
		if x.Bad != "" {
			t.under(2, x.Bad)
		}
		for _, c := range x.Changed {
			t.under(2, "opened again: "+c.Where+" "+c.Says)
		}
	}
	w.table(t)
	w.para(0, "A draft is the program's reading of the dish. A qualified person and your authority decide; kettlefrost hazards PACK shows one plan.")
	return w.String()
}

// HazardPlanText is a plan. Title says which version it is, and stands says how the plan stands; draft is whether it must be called one.
func HazardPlanText(d haccp.Document, stands string, draft bool) string {
	w := listWriter("Hazard plan: "+d.Plan.Product, nil, unit.Metric)
	w.para(0, stands)
	if draft {
		w.para(0, d.Plan.Draft)
	}
	for _, c := range d.Plan.Cautions {
		w.hang(0, "! ", c)
	}
	w.planHead(d)
	w.planFlow(d.Plan)
	w.planHazards(d.Plan)
	for _, x := range d.Plan.Points {
		w.planPoint(x)
	}
	w.planRest(d.Plan)
	return w.String()
}

func (w *writer) planHead(d haccp.Document) {
	p := d.Plan
	for _, x := range []struct{ lead, text string }{{"Kitchen: ", d.Product.Kitchen}, {"Food: ", p.Category}, {"Packed in: ", p.Packed}, {"For: ", p.Intended}, {"Team: ", cmp.Or(strings.Join(p.Team, ", "), "nobody is named")},
		{"Keeps: ", cmp.Or(p.Life, "nobody has said how long")}, {"Flow held against the work: ", cmp.Or(p.Walked, "by nobody yet")}} {
		if x.text != "" {
			w.hang(0, x.lead, x.text)
		}
	}
	if len(p.Open) > 0 {
		w.heading("To settle", "")
	}
	for _, o := range p.Open {
		lead := "caution: "
		if o.Stop {
			lead = "STOP: "
		}
		w.hang(0, lead, o.Where+": "+o.Says+" ("+o.Fix+")")
	}
	for _, m := range d.Misfits {
		w.hang(0, "left out: ", fmt.Sprintf("what %s had changed (%s of %s): %s", m.Edit.By, m.Edit.Do, m.Edit.At, m.Why))
	}
	w.heading("The seven principles", "Codex CXC 1-1969")
	for i, x := range p.Principles {
		w.hang(0, fmt.Sprintf("%d. ", i+1), x.Name+": "+x.Answer)
	}
}

func (w *writer) planFlow(p haccp.Plan) {
	w.heading("Flow", "")
	for i, f := range p.Flow {
		text := f.Do
		if len(f.From) > 0 {
			text += " – after " + strings.Join(f.From, ", ")
		}
		if f.Point != "" {
			text += " – " + f.Point
		}
		w.hang(0, fmt.Sprintf("%2d. ", i+1), f.ID+": "+text)
		if len(f.In) > 0 {
			w.hang(4, "in: ", strings.Join(f.In, ", "))
		}
		if len(f.Equipment) > 0 {
			w.hang(4, "with: ", strings.Join(f.Equipment, " or "))
		}
	}
}

func (w *writer) planHazards(p haccp.Plan) {
	w.heading("Hazards", "")
	step := ""
	for _, h := range p.Hazards {
		if h.Step != step {
			step = h.Step
			w.sub(step)
		}
		counts, by := "not significant", cmp.Or(h.Point, h.Programme, "nothing named")
		if h.Significant {
			counts = "SIGNIFICANT"
		}
		w.hang(2, "- ", fmt.Sprintf("%s: %s (%s) – %s. Kept down: %s [%s]", h.Kind, h.What, h.Why, counts, h.Control, by))
		if h.Reason != "" {
			w.hang(4, "because: ", h.Reason)
		}
	}
}

func (w *writer) planPoint(x haccp.Point) {
	w.heading(x.Number+" at "+x.Step, "")
	w.hang(0, "Why here: ", x.Why)
	w.hang(0, "Against: ", strings.Join(x.Hazards, "; "))
	w.hang(0, "Limit: ", x.Limit.Text)
	w.hang(2, "source: ", x.Limit.Source)
	if x.Limit.Was != "" {
		w.hang(2, "as drafted: ", x.Limit.Was)
	}
	if x.Limit.Laxer {
		w.hang(2, "LAXER: ", x.Limit.Reason)
	} else if x.Limit.Reason != "" {
		w.hang(2, "because: ", x.Limit.Reason)
	}
	if x.Limit.Confirm != "" {
		w.hang(2, "from memory, to be confirmed by the local authority: ", x.Limit.Confirm)
	}
	w.hang(0, "Watched: ", x.Watch.What+"; "+x.Watch.How+"; "+x.Watch.Often+"; by "+x.Watch.Who)
	for _, part := range []struct {
		lead  string
		lines []string
	}{{"When it is missed: ", x.Corrective}, {"Verified: ", x.Verify}, {"Written down: ", x.Records}} {
		w.hang(0, part.lead, strings.Join(part.lines, "; "))
	}
}

func (w *writer) planRest(p haccp.Plan) {
	for i, d := range p.Dropped {
		if i == 0 {
			w.heading("Points of the draft that were taken out", "")
		}
		w.hang(0, "- ", fmt.Sprintf("%s: %s – %s (%s)", d.Step, d.Limit, d.Reason, d.By))
	}
	w.heading("Procedures that must be in order before any of this holds", "")
	for _, x := range p.Programmes {
		w.hang(0, "- ", fmt.Sprintf("%s: %s; %s; by %s", x.Name, x.What, x.Often, x.Who))
		if x.Confirm != "" {
			w.hang(4, "from memory, to be confirmed: ", x.Confirm)
		}
	}
	w.heading("Training", "")
	for _, x := range p.Training {
		w.hang(0, "- ", x.Who+": "+x.What+"; "+x.When)
	}
	w.heading("What the limits rest on", "")
	for _, s := range p.Science {
		w.hang(0, "- ", s)
	}
}

// ChangesText is what became of a plan, one change a line.
func ChangesText(all []haccp.Change) string {
	w := listWriter("What changed", nil, unit.Metric)
	for _, c := range all {
		lead := "  "
		if c.Basis {
			lead = "! "
		}
		w.hang(0, lead, c.Where+": "+c.Says)
	}
	if len(all) == 0 {
		w.para(0, "Nothing.")
	}
	return w.String()
}

// RulesText is every rule as the kitchen holds it.
func RulesText(r hazards.RuleSheet) string {
	w := listWriter("Rules of food safety: "+r.Jurisdiction, nil, unit.Metric)
	if r.Judged {
		w.para(0, "Lots of runs "+cmp.Or("from "+r.From+" on", "of any day")+" are judged by these. Coolings by: "+r.Cooling.Title+": "+strings.Join(r.Cooling.Stages, "; ")+".")
	} else {
		w.para(0, "The book names no jurisdiction (safety), so nothing is judged: these are shown as they are published.")
	}
	for _, topic := range r.Topics {
		w.heading(topic.Topic, "")
		for _, x := range topic.Rules {
			w.rule(x)
		}
	}
	w.gap()
	w.para(0, "What is from memory is to be confirmed by the local authority; it is never used to stop anything. Your local code decides.")
	return w.String()
}

func (w *writer) rule(x hazards.RuleRow) {
	w.hang(0, x.ID+": ", x.Food+": "+x.Limit)
	if x.Changed != "" {
		why := cmp.Or(x.Reason, "no reason is given")
		if x.By != "" {
			why += ", decided by " + x.By
		}
		w.hang(4, strings.ToUpper(x.Changed)+" than published ("+x.Published+"): ", why)
	}
	whose := cmp.Or(x.Jurisdiction, "nobody's law")
	if x.Edition != "" {
		whose += ", " + x.Edition
	}
	w.hang(4, "source: ", x.Source+"; "+whose)
	if x.Confirm != "" {
		w.hang(4, "from memory, to be confirmed by the local authority: ", x.Confirm)
	}
}
