package web

import (
	"cmp"
	"fmt"
	"strings"

	"kettlefrost/internal/haccp"
)

// hazardView is a plan in words, for the page and for paper.
type hazardView struct {
	Cautions   []string
	Facts      []hazardFact
	Open       []reminder
	Misfits    []string
	Principles []hazardPrinciple
	Flow       []hazardBox
	Steps      []hazardStep
	Points     []hazardPoint
	Dropped    []string
	Programmes []hazardProgramme
	Training   []hazardTraining
	Science    []string
	Basis      string
}

// hazardFact is one thing that is said of the product.
type hazardFact struct{ Name, Value, Edit string }

// hazardPrinciple is one of the seven.
type hazardPrinciple struct{ Number, Name, Answer string }

// hazardBox is one step of the flow.
type hazardBox struct{ ID, Do, How, From, In, Equipment, Point string }

// hazardStep is the hazards of a step.
type hazardStep struct {
	Step    string
	Hazards []hazardLine
}

// hazardLine is one hazard.
type hazardLine struct {
	Kind, What, Why string
	Significant     bool
	Reason          string
	Control, By     string
	Added           bool
	Edit            string
}

// hazardPoint is one control point.
type hazardPoint struct {
	ID, Number, Step, Why                string
	Against                              []string
	Limit, Was, Source, Confirm          string
	Reason                               string
	Laxer                                bool
	What, How, Often, Who                string
	Corrective, Verify, Records          []string
	SetLimit, SetWatch                   string
	SetCorrective, SetVerify, SetRecords string
	Drop                                 string
}

// hazardProgramme is a procedure beside the points.
type hazardProgramme struct{ Name, What, Often, Who, Confirm, Edit string }

// hazardTraining is what somebody has to have learned.
type hazardTraining struct{ Who, What, When string }

// viewHazards puts a plan into words; with edits, everything that may be changed leads to its form.
func viewHazards(a *hazardAsked, edits bool) hazardView {
	p := a.doc.Plan
	edit := func(do haccp.EditKind, at string) string {
		if !edits {
			return ""
		}
		return a.editURL(do, at)
	}
	v := hazardView{Cautions: p.Cautions, Science: p.Science, Basis: p.Basis}
	v.Facts = []hazardFact{{"Kitchen", a.doc.Product.Kitchen, ""}, {"Food", p.Category, ""}, {"Packed in", p.Packed, ""}, {"For whom, and how it is eaten", p.Intended, edit(haccp.SetUse, "")}, {"Keeps", cmp.Or(p.Life, "nobody has said how long"), edit(haccp.SetLife, "")},
		{"Team", cmp.Or(strings.Join(p.Team, "; "), "nobody is named"), edit(haccp.SetTeam, "")}, {"Flow held against the work", cmp.Or(p.Walked, "by nobody yet"), edit(haccp.SetWalked, "")}}
	for _, o := range p.Open {
		v.Open = append(v.Open, openView(o))
	}
	for _, m := range a.doc.Misfits {
		v.Misfits = append(v.Misfits, fmt.Sprintf("%s had changed something (%s of %s) that has no place in this version: %s", m.Edit.By, m.Edit.Do, m.Edit.At, m.Why))
	}
	for i, x := range p.Principles {
		v.Principles = append(v.Principles, hazardPrinciple{fmt.Sprint(i + 1), x.Name, x.Answer})
	}
	for _, f := range p.Flow {
		v.Flow = append(v.Flow, hazardBox{f.ID, f.Do, f.How, strings.Join(f.From, ", "), strings.Join(f.In, ", "), strings.Join(f.Equipment, " or "), f.Point})
	}
	v.hazards(p, edit)
	for _, x := range p.Points {
		v.Points = append(v.Points, viewPoint(x, edit))
	}
	v.rest(p, edit)
	return v
}

// editURL is the address of the form for a change.
func (a *hazardAsked) editURL(do haccp.EditKind, at string) string {
	return hazardURL(hazardEditPath, string(a.Pack), 0, doKey, string(do), atKey, at)
}

func openView(o haccp.Open) reminder {
	v := reminder{Class: "caution", Word: "CAUTION", Sign: "▲", Where: o.Where, Message: o.Says, Fix: o.Fix}
	if o.Stop {
		v.Class, v.Word, v.Sign = "stop", "STOP", "■"
	}
	return v
}

func (v *hazardView) hazards(p haccp.Plan, edit func(haccp.EditKind, string) string) {
	for _, h := range p.Hazards {
		if n := len(v.Steps); n == 0 || v.Steps[n-1].Step != h.Step {
			v.Steps = append(v.Steps, hazardStep{Step: h.Step})
		}
		by := cmp.Or(h.Point, h.Programme)
		if h.Significant {
			by = cmp.Or(by, "nothing is named")
		}
		step := &v.Steps[len(v.Steps)-1]
		step.Hazards = append(step.Hazards, hazardLine{Kind: string(h.Kind), What: h.What, Why: h.Why, Significant: h.Significant, Reason: h.Reason, Control: h.Control, By: by, Added: h.Added, Edit: edit(haccp.Weigh, h.Key)})
	}
}

func viewPoint(x haccp.Point, edit func(haccp.EditKind, string) string) hazardPoint {
	return hazardPoint{ID: strings.ReplaceAll(strings.ToLower(x.Number), " ", "-"), Number: x.Number, Step: x.Step, Why: x.Why, Against: x.Hazards, Limit: x.Limit.Text, Was: x.Limit.Was, Source: x.Limit.Source,
		Confirm: x.Limit.Confirm, Reason: x.Limit.Reason, Laxer: x.Limit.Laxer, What: x.Watch.What, How: x.Watch.How, Often: x.Watch.Often, Who: x.Watch.Who,
		Corrective: x.Corrective, Verify: x.Verify, Records: x.Records, SetLimit: edit(haccp.SetLimit, x.Key), SetWatch: edit(haccp.SetWatch, x.Key),
		SetCorrective: edit(haccp.SetCorrective, x.Key), SetVerify: edit(haccp.SetVerify, x.Key), SetRecords: edit(haccp.SetRecords, x.Key), Drop: edit(haccp.DropPoint, x.Key)}
}

func (v *hazardView) rest(p haccp.Plan, edit func(haccp.EditKind, string) string) {
	for _, d := range p.Dropped {
		v.Dropped = append(v.Dropped, fmt.Sprintf("%s: %s. %s (%s)", d.Step, d.Limit, d.Reason, d.By))
	}
	for _, x := range p.Programmes {
		v.Programmes = append(v.Programmes, hazardProgramme{x.Name, x.What, x.Often, x.Who, x.Confirm, edit(haccp.SetProgramme, x.Name)})
	}
	for _, x := range p.Training {
		v.Training = append(v.Training, hazardTraining{x.Who, x.What, x.When})
	}
}
