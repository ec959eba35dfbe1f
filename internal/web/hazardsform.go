package web

import (
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/foodcode"
	"kettlefrost/internal/haccp"
	"kettlefrost/internal/unit"
)

// Fields of the forms about a plan.
const (
	doKey          = "do"
	atKey          = "at"
	fromVersionKey = "from"
	noteKey        = "note"
)

// editInput is one thing that a form about a plan asks for.
type editInput struct {
	field
	Area bool // several lines
}

// editAsked is what a form about a plan is about.
type editAsked struct {
	do      haccp.EditKind
	at      string
	heading string
	now     []string // as it is
	inputs  []editInput
}

// The keys of what forms ask for.
const (
	significantKey = "significant"
	reasonKey      = "reason"
	hazardKindKey  = "kind"
	dangerKey      = "what"
	whyKey         = "why"
	controlKey     = "control"
	pointKey       = "point"
	programmeKey   = "programme"
	stepKey        = "step"
	textKey        = "text"
	sourceKey      = "source"
	linesKey       = "lines"
	watchedKey     = "watched"
	howKey         = "how"
	oftenKey       = "often"
	byWhomKey      = "whom"
	nameKey        = "name"
)

func lineInput(key, label, hint, value string) editInput {
	return editInput{field: field{Key: key, Label: label, Hint: hint, Value: value}}
}

func areaInput(key, label, hint string, lines ...string) editInput {
	return editInput{field: field{Key: key, Label: label, Hint: hint, Value: strings.Join(lines, "\n")}, Area: true}
}

func choiceInput(key, label, hint, value string, options ...option) editInput {
	in := editInput{field: field{Key: key, Label: label, Hint: hint, Value: value, Options: options}}
	for i := range options {
		in.Options[i].Here = options[i].Value == value
	}
	return in
}

// asked is the form for one change, with what is there now; false when there is no such thing to change.
func (a *hazardAsked) asked(do haccp.EditKind, at string) (e editAsked, ok bool) {
	e = editAsked{do: do, at: at}
	p := a.doc.Plan
	if i := slices.IndexFunc(p.Points, func(x haccp.Point) bool { return x.Key == at }); i >= 0 && a.pointForm(&e, p.Points[i]) {
		return e, true
	}
	switch do {
	case haccp.Weigh:
		i := slices.IndexFunc(p.Hazards, func(h haccp.Hazard) bool { return h.Key == at })
		if i < 0 {
			return e, false
		}
		h := p.Hazards[i]
		e.heading, e.now = "Is this hazard significant?", []string{h.Step + ": " + h.What, h.Why, "Kept down: " + h.Control}
		e.inputs = []editInput{choiceInput(significantKey, "It is", "", yesNo(h.Significant), option{Value: "yes", Says: "significant: a point or a programme must keep it down"}, option{Value: "no", Says: "not significant"}),
			areaInput(reasonKey, "Why", "how likely it is, how bad, and what keeps it down")}
	case haccp.AddHazard:
		e.heading = "Another hazard"
		e.inputs = append([]editInput{choiceInput(stepKey, "Step", "", "", steps(p)...)}, hazardInputs(p)...)
	case haccp.AddPoint:
		e.heading = "Another control point"
		e.inputs = append([]editInput{choiceInput(stepKey, "Step", "", "", steps(p)...), hazardKinds(), lineInput(dangerKey, "Against what", "what could hurt somebody", ""), lineInput(whyKey, "Why here", "", ""),
			lineInput(textKey, "Limit", "such as: no piece over 1/2 in", ""), lineInput(sourceKey, "Where the limit is from", "a rule, a study, a maker", "")}, append(watchInputs(haccp.Watch{}), areaInput(linesKey, "What is done when it is missed", "one line for each thing"))...)
	case haccp.SetProgramme:
		a.programmeForm(&e)
	case haccp.AddTraining:
		e.heading = "More training"
		e.inputs = []editInput{lineInput(byWhomKey, "Who", "", ""), lineInput(dangerKey, "What they have to have learned", "", ""), lineInput(oftenKey, "When", "such as: before the first time, and each year", "")}
	case haccp.SetTeam:
		e.heading = "Who made the plan"
		e.inputs = []editInput{areaInput(linesKey, "Names, and what each knows", "one line for each", p.Team...)}
	case haccp.SetWalked:
		e.heading = "The flow, held against the work"
		e.inputs = []editInput{lineInput(textKey, "Who walked it, and when", "during a run, from the door to the freezer", p.Walked)}
	case haccp.SetUse:
		e.heading = "For whom, and how it is eaten"
		e.inputs = []editInput{areaInput(textKey, "Intended use", "who eats it, who must not, and how it is heated", p.Intended)}
	case haccp.SetLife:
		e.heading = "How long it keeps"
		e.inputs = []editInput{areaInput(textKey, "Shelf life, and how it is known", "at 0 °F it is quality that is lost; your own taste tests, or a published table", p.Life)}
	}
	return e, e.heading != ""
}

// pointForm is a form about a control point; false when it is about something else.
func (a *hazardAsked) pointForm(e *editAsked, x haccp.Point) bool {
	e.now = []string{x.Number + " at " + x.Step + ": " + x.Limit.Text, "Source: " + x.Limit.Source}
	switch e.do {
	case haccp.SetLimit:
		e.heading = "Another limit"
		e.inputs = limitInputs(x.Limit, a.book.Kitchen.Units)
	case haccp.SetWatch:
		e.heading = "How it is watched"
		e.inputs = watchInputs(x.Watch)
	case haccp.SetCorrective:
		e.heading = "What is done when it is missed"
		e.inputs = []editInput{areaInput(linesKey, "What is done", "one line for each thing", x.Corrective...)}
	case haccp.SetVerify:
		e.heading = "How it is verified"
		e.inputs = []editInput{areaInput(linesKey, "How it is verified, by whom, how often", "one line for each thing; never who made the record", x.Verify...)}
	case haccp.SetRecords:
		e.heading = "What is written down"
		e.inputs = []editInput{areaInput(linesKey, "Records", "one line for each", x.Records...)}
	case haccp.DropPoint:
		e.heading = "Take the control point out"
		e.inputs = []editInput{areaInput(reasonKey, "Why, and what keeps its hazards down instead", "who reviews the plan will read it")}
	default:
		e.now = nil
		return false
	}
	return true
}

// limitInputs ask for the figures of a limit, or its words where it has none.
func limitInputs(l haccp.Limit, units unit.System) (all []editInput) {
	if len(l.Figures) == 0 {
		return []editInput{areaInput(textKey, "Limit", "", l.Text), areaInput(reasonKey, "Why", "")}
	}
	for i, f := range l.Figures {
		side, time := "at least", "and for how long"
		if f.Sense == foodcode.AtMost {
			side, time = "at most", "and within how long"
		}
		all = append(all, lineInput(figureKey("temp", i), f.Words+": temperature, "+side, "all parts of the food", unit.TempC(f.TempC).Show(units)))
		if f.Seconds > 0 || f.Sense == foodcode.AtLeast {
			all = append(all, lineInput(figureKey("time", i), time, "such as 15 s, 2 min or 1 h 30 min; 0 s for at once", foodcode.Time(f.Seconds)))
		}
	}
	return append(all, areaInput(reasonKey, "Why", "needed when it is laxer: the authority's approval, with its reference"))
}

func figureKey(of string, i int) string { return fmt.Sprintf("%s%d", of, i) }

func watchInputs(w haccp.Watch) []editInput {
	return []editInput{lineInput(watchedKey, "What is watched", "", w.What), lineInput(howKey, "How", "with what, and where in the food", w.How), lineInput(oftenKey, "How often", "", w.Often), lineInput(byWhomKey, "By whom", "", w.Who)}
}

func (a *hazardAsked) programmeForm(e *editAsked) {
	p := a.doc.Plan
	e.heading = "A procedure beside the points"
	now := haccp.Programme{Name: e.at}
	if i := slices.IndexFunc(p.Programmes, func(x haccp.Programme) bool { return x.Name == e.at }); i >= 0 {
		now, e.heading = p.Programmes[i], e.at
	} else {
		e.inputs = append(e.inputs, lineInput(nameKey, "What it is called", "in a word or two", e.at))
	}
	e.inputs = append(e.inputs, areaInput(watchedKey, "What is done", "", now.What), lineInput(oftenKey, "How often", "", now.Often), lineInput(byWhomKey, "By whom", "", now.Who))
}

func hazardInputs(p haccp.Plan) []editInput {
	points, programmes := []option{{Says: "none"}}, []option{{Says: "none"}}
	for _, x := range p.Points {
		points = append(points, option{Value: x.Key, Says: x.Number + " at " + x.Step})
	}
	for _, x := range p.Programmes {
		programmes = append(programmes, option{Value: x.Name, Says: x.Name})
	}
	return []editInput{hazardKinds(), lineInput(dangerKey, "What", "a pathogen, an allergen, a foreign body", ""), lineInput(whyKey, "Why", "where it comes from", ""),
		choiceInput(significantKey, "It is", "", "no", option{Value: "yes", Says: "significant"}, option{Value: "no", Says: "not significant"}), lineInput(controlKey, "What is done about it", "", ""),
		choiceInput(pointKey, "Control point that keeps it down", "", "", points...), choiceInput(programmeKey, "or procedure", "", "", programmes...)}
}

func hazardKinds() editInput {
	return choiceInput(hazardKindKey, "Kind", "", string(haccp.Biological), option{Value: string(haccp.Biological), Says: "biological"}, option{Value: string(haccp.Chemical), Says: "chemical"}, option{Value: string(haccp.Physical), Says: "physical"})
}

func steps(p haccp.Plan) (all []option) {
	for _, f := range p.Flow {
		all = append(all, option{Value: f.ID, Says: f.ID + ": " + f.Do})
	}
	return all
}

func yesNo(yes bool) string {
	if yes {
		return "yes"
	}
	return "no"
}
