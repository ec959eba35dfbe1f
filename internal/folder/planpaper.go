package folder

import (
	"cmp"
	"fmt"
	"strings"

	"kettlefrost/internal/draw"
	"kettlefrost/internal/haccp"
	"kettlefrost/internal/hazardplan"
	"kettlefrost/internal/pdf"
	"kettlefrost/internal/record"
)

// PlanPaper is a hazard plan for paper: a version, or a draft that nobody has entered (without a number).
type PlanPaper struct {
	Kitchen  Kitchen
	Name     string // of the pack
	Version  hazardplan.Version
	Plan     haccp.Plan
	InForce  *hazardplan.Review // nil marks every page as a draft
	Reopened []string           // what has changed of the dish since
	AsOf     record.Instant
	Clock    Clock
}

// Document is the plan for paper: what it is, its flow, hazards, control points, what must be in order besides, versions and reviews.
func (x PlanPaper) Document() pdf.Document {
	p := printer{Contents: Contents{Kitchen: x.Kitchen}, clock: x.Clock}
	version := "draft that nobody has entered"
	if x.Version.Number > 0 {
		version = fmt.Sprintf("version %d of %s, by %s", x.Version.Number, p.at(x.Version.At), x.Version.Who)
	}
	p.doc = pdf.Document{Title: "Hazard plan: " + x.Name, Subject: version, Head: cmp.Or(x.Kitchen.Name, "Kitchen") + " · hazard plan for " + x.Name, Foot: version, MadeMs: int64(x.AsOf), Paper: paperOf(x.Kitchen)}
	if x.InForce == nil {
		p.doc.Draft = cmp.Or(x.Plan.Draft, "DRAFT")
	}
	p.add(pdf.Title{Text: "Hazard plan: " + x.Name, Below: version})
	p.add(pdf.Facts{{Name: "Kitchen", Is: lines(x.Kitchen.Name, x.Kitchen.Place)}, {Name: "Product", Is: x.Plan.Product}, {Name: "Category", Is: x.Plan.Category}, {Name: "Packed", Is: cmp.Or(x.Plan.Packed, "nobody has said")}, {Name: "Meant for", Is: x.Plan.Intended},
		{Name: "Made by", Is: cmp.Or(strings.Join(x.Plan.Team, "\n"), "nobody is named")}, {Name: "Flow held against the work", Is: cmp.Or(x.Plan.Walked, "by nobody yet")}, {Name: "Rests on", Is: x.Plan.Basis}})
	if x.InForce != nil {
		p.says(fmt.Sprintf("Accepted on %s by %s (%s).", p.at(x.InForce.At), x.InForce.Reviewer, x.InForce.Qualified) + prefixed(" Authority: ", x.InForce.Authority))
	}
	if len(x.Reopened) > 0 {
		p.add(pdf.Paragraph{Text: "THE DISH HAS CHANGED since this version: it has to be looked at again.", Tone: pdf.Loud}, pdf.List(x.Reopened))
	}
	p.add(pdf.List(x.Plan.Cautions))
	p.add(opens(x.Plan))
	p.hazards(x.Plan)
	p.programmes(x.Plan)
	p.head("Versions and reviews")
	p.add(p.reviews(x.Version))
	p.add(pdf.Signatures{{As: "reviewed by, and why they are qualified"}, {As: "seen by the authority: name, reference"}})
	return p.doc
}

func (p *printer) hazards(plan haccp.Plan) {
	p.head("Flow")
	p.add(pdf.Figure{Picture: draw.HazardFlow(plan, chartWidth)})
	flow := pdf.Table{Columns: []pdf.Column{{Name: "step"}, {Name: "what is done"}, {Name: "from"}, {Name: "what goes in"}, {Name: "point"}}}
	for _, s := range plan.Flow {
		flow.Rows = append(flow.Rows, pdf.Row{Cells: []string{s.ID, lines(s.Do, s.How), strings.Join(s.From, "\n"), strings.Join(s.In, "\n"), s.Point}, Strong: s.Point != ""})
	}
	p.add(flow)
	p.head("Hazards (principle 1)")
	t := pdf.Table{Columns: []pdf.Column{{Name: "step"}, {Name: "hazard"}, {Name: "significant"}, {Name: "what keeps it down"}, {Name: "point, or programme"}}, None: "None is told."}
	for _, h := range plan.Hazards {
		t.Rows = append(t.Rows, pdf.Row{Cells: []string{h.Step, lines(string(h.Kind)+": "+h.What, h.Why), lines(map[bool]string{true: "yes", false: "no"}[h.Significant], h.Reason), h.Control, lines(h.Point, h.Programme)}, Strong: h.Significant && h.Point == "" && h.Programme == ""})
	}
	p.add(t)
	p.head("Control points (principles 2 to 7)")
	for _, x := range plan.Points {
		p.add(pdf.Heading{Level: 2, Text: x.Number + ": " + x.Step})
		p.add(pdf.Facts{{Name: "Why here", Is: x.Why}, {Name: "Hazards", Is: strings.Join(x.Hazards, "\n")}, {Name: "Limit", Is: lines(x.Limit.Text, prefixed("source: ", x.Limit.Source), prefixed("not read in a published text: ", x.Limit.Confirm), prefixed("differs from what is published: ", x.Limit.Reason), prefixed("as drafted: ", x.Limit.Was))},
			{Name: "Watched", Is: lines(x.Watch.What, x.Watch.How, x.Watch.Often, x.Watch.Who)}, {Name: "When it is missed", Is: strings.Join(x.Corrective, "\n")}, {Name: "Verified", Is: strings.Join(x.Verify, "\n")}, {Name: "Written down", Is: strings.Join(x.Records, "\n")}})
	}
	dropped := pdf.Table{Name: "Points of the draft that people took out", Columns: []pdf.Column{{Name: "step"}, {Name: "limit"}, {Name: "why"}, {Name: "by"}}}
	for _, d := range plan.Dropped {
		dropped.Rows = append(dropped.Rows, pdf.Row{Cells: []string{d.Step, d.Limit, d.Reason, d.By}, Strong: true})
	}
	p.add(dropped)
}

func (p *printer) programmes(plan haccp.Plan) {
	p.head("What must be in order before any of this holds")
	t := pdf.Table{Columns: []pdf.Column{{Name: "programme"}, {Name: "what"}, {Name: "how often"}, {Name: "who"}}}
	for _, x := range plan.Programmes {
		t.Rows = append(t.Rows, pdf.Row{Cells: []string{x.Name, lines(x.What, prefixed("not read in a published text: ", x.Confirm)), x.Often, x.Who}})
	}
	training := pdf.Table{Name: "Training", Columns: []pdf.Column{{Name: "who"}, {Name: "what"}, {Name: "when"}}}
	for _, x := range plan.Training {
		training.Rows = append(training.Rows, pdf.Row{Cells: []string{x.Who, x.What, x.When}})
	}
	principles := pdf.Table{Name: "The seven principles (Codex CXC 1-1969)", Columns: []pdf.Column{{Name: "principle"}, {Name: "where it stands"}}}
	for _, x := range plan.Principles {
		principles.Rows = append(principles.Rows, pdf.Row{Cells: []string{x.Name, x.Answer}})
	}
	p.add(t, training, principles)
	if len(plan.Science) > 0 {
		p.add(pdf.Heading{Level: 2, Text: "What the limits rest on"}, pdf.List(plan.Science))
	}
}

func (p *printer) reviews(v hazardplan.Version) pdf.Table {
	t := pdf.Table{Columns: []pdf.Column{{Name: "when"}, {Name: "who, why qualified"}, {Name: "word"}, {Name: "authority"}, {Name: "why"}}, None: "Nobody has reviewed this version."}
	for _, r := range v.Reviews {
		t.Rows = append(t.Rows, pdf.Row{Cells: []string{p.at(r.At), lines(r.Reviewer, r.Qualified, "entered by "+r.Who), map[bool]string{true: "accepted", false: "sent back"}[r.Accepted], r.Authority, r.Why}})
	}
	return t
}
