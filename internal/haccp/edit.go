package haccp

import (
	"fmt"
	"slices"
	"strings"
)

// Edit is one change that a person made to a draft. It names what it changes by keys that stay the same from draft to draft, so that it is put to
// the draft of a dish that has changed as well. A later edit of the same thing takes the place of an earlier one.
type Edit struct {
	Do          EditKind  `json:"do"`
	At          string    `json:"at,omitempty"` // the key of a hazard or a point, a step of the flow, or the name of a programme
	Significant bool      `json:"significant,omitempty"`
	Kind        Kind      `json:"kind,omitempty"`
	What        string    `json:"what,omitempty"`
	Why         string    `json:"why,omitempty"`
	Control     string    `json:"control,omitempty"`
	Point       string    `json:"point,omitempty"`     // the key of the point that keeps an added hazard down
	Programme   string    `json:"programme,omitempty"` // or the programme
	Figures     []Figure  `json:"figures,omitempty"`   // of a limit: as many as it has, in its order
	Text        string    `json:"text,omitempty"`
	Source      string    `json:"source,omitempty"`
	Watch       *Watch    `json:"watch,omitempty"`
	Lines       []string  `json:"lines,omitempty"`
	Reason      string    `json:"reason,omitempty"`
	By          string    `json:"by"`
	AtMs        int64     `json:"at_ms"` // when, in milliseconds since 1970
	Training    *Training `json:"training,omitempty"`
}

// EditKind is what an edit changes.
type EditKind string

const (
	Weigh         EditKind = "significance" // of a hazard, with a reason
	AddHazard     EditKind = "add-hazard"   // at a step
	SetLimit      EditKind = "limit"        // of a point: stricter freely, laxer with a reason
	SetWatch      EditKind = "watch"
	SetCorrective EditKind = "corrective"
	SetVerify     EditKind = "verify"
	SetRecords    EditKind = "records"
	AddPoint      EditKind = "add-point"  // at a step
	DropPoint     EditKind = "drop-point" // with a reason
	SetProgramme  EditKind = "programme"
	AddTraining   EditKind = "add-training"
	SetTeam       EditKind = "team"
	SetWalked     EditKind = "flow-walked" // who held the flow against the work, and when
	SetUse        EditKind = "intended-use"
	SetLife       EditKind = "shelf-life" // how long it keeps, and how that is known
)

// EditError says why an edit cannot be made.
type EditError struct {
	Edit         Edit
	Problem, Fix string
}

func (e *EditError) Error() string {
	return fmt.Sprintf("haccp: %s of %s: %s: %s", e.Edit.Do, e.Edit.At, e.Problem, e.Fix)
}

// Misfit is an edit of an earlier version that this draft has no place for, and why.
type Misfit struct {
	Edit Edit   `json:"edit"`
	Why  string `json:"why"`
}

// same says whether an edit takes the place of another.
func (e Edit) same(other Edit) bool {
	return e.Do == other.Do && e.At == other.At && (e.Do != AddHazard && e.Do != AddTraining || e.What == other.What)
}

// Add puts edits to those that were made before.
func Add(before []Edit, more ...Edit) []Edit {
	all := slices.Clone(before)
	for _, e := range more {
		all = append(slices.DeleteFunc(all, e.same), e)
	}
	return all
}

// Without takes edits of one thing back: it is as drafted again.
func Without(edits []Edit, do EditKind, at, what string) []Edit {
	return slices.DeleteFunc(slices.Clone(edits), Edit{Do: do, At: at, What: what}.same)
}

// With is the plan of a product with what people changed, and the edits that have no place in it any more. Errors are *ProductError.
func With(p Product, edits []Edit) (Plan, []Misfit, error) {
	d, err := drafted(p)
	if err != nil {
		return Plan{}, nil, err
	}
	var misfits []Misfit
	for _, e := range edits {
		if err := d.plan.apply(e); err != nil {
			misfits = append(misfits, Misfit{e, err.Error()})
		}
	}
	d.plan.settle(d.cooked)
	d.unwatched()
	return d.plan, misfits, nil
}

// Try says whether an edit can be made to the plan of a product that has some already. Errors are *ProductError and *EditError.
func Try(p Product, edits []Edit, e Edit) error {
	d, err := drafted(p)
	if err != nil {
		return err
	}
	for _, before := range edits {
		if !e.same(before) {
			_ = d.plan.apply(before) // what has no place is told by With
		}
	}
	return d.plan.apply(e)
}

// apply makes one edit, or says why it cannot be made. Errors are *EditError.
func (p *Plan) apply(e Edit) error {
	how, known := edits[e.Do]
	switch {
	case !known:
		return &EditError{e, "there is no such change", "choose one that is offered"}
	case e.By == "":
		return &EditError{e, "nobody stands for it", "say who changes it"}
	}
	if problem, fix := how(p, e); problem != "" {
		return &EditError{e, problem, fix}
	}
	return nil
}

// edits is how each kind is made: it answers what speaks against it and what to do, or nothing.
var edits = map[EditKind]func(*Plan, Edit) (problem, fix string){
	Weigh:     (*Plan).weigh,
	AddHazard: (*Plan).addHazard,
	SetLimit:  (*Plan).setLimit,
	AddPoint:  (*Plan).addPoint,
	DropPoint: (*Plan).dropPoint,
	SetWatch: ofPoint(func(x *Point, e Edit) (string, string) {
		if e.Watch == nil || e.Watch.What == "" || e.Watch.How == "" || e.Watch.Often == "" || e.Watch.Who == "" {
			return "it does not say what, how, how often and by whom", "fill in all four"
		}
		x.Watch = *e.Watch
		return "", ""
	}),
	SetCorrective: lines(func(x *Point, l []string) { x.Corrective = l }),
	SetVerify:     lines(func(x *Point, l []string) { x.Verify = l }),
	SetRecords:    lines(func(x *Point, l []string) { x.Records = l }),
	SetProgramme:  (*Plan).setProgramme,
	AddTraining: func(p *Plan, e Edit) (string, string) {
		if e.Training == nil || e.Training.Who == "" || e.Training.What == "" || e.Training.When == "" {
			return "it does not say who, what and when", "fill in all three"
		}
		p.Training = append(p.Training, *e.Training)
		return "", ""
	},
	SetTeam:   func(p *Plan, e Edit) (string, string) { p.Team = e.Lines; return "", "" },
	SetWalked: text(func(p *Plan, t string) { p.Walked = t }),
	SetUse:    text(func(p *Plan, t string) { p.Intended = t }),
	SetLife:   text(func(p *Plan, t string) { p.Life = t }),
}

func missing(text string) (problem, fix string) {
	if strings.TrimSpace(text) == "" {
		return "it is empty", "write something"
	}
	return "", ""
}

func text(set func(*Plan, string)) func(*Plan, Edit) (string, string) {
	return func(p *Plan, e Edit) (string, string) {
		if e.Text != "" {
			set(p, e.Text)
		}
		return missing(e.Text)
	}
}

func ofPoint(set func(*Point, Edit) (string, string)) func(*Plan, Edit) (string, string) {
	return func(p *Plan, e Edit) (string, string) {
		i := p.pointAt(e.At)
		if i < 0 {
			return "there is no such control point", "choose one of the plan"
		}
		return set(&p.Points[i], e)
	}
}

func lines(set func(*Point, []string)) func(*Plan, Edit) (string, string) {
	return ofPoint(func(x *Point, e Edit) (string, string) {
		if len(e.Lines) == 0 {
			return "it is empty", "write at least one line"
		}
		set(x, e.Lines)
		return "", ""
	})
}

func (p *Plan) pointAt(key string) int {
	return slices.IndexFunc(p.Points, func(x Point) bool { return x.Key == key })
}
