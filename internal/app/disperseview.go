package app

import (
	"fmt"
	"slices"

	"kettlefrost/internal/dispersal"
	"kettlefrost/internal/dosing"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// DisperseSchema names the shape of DisperseView.
const DisperseSchema = "kettlefrost.disperse/1"

// DisperseView is a powder got into a dish, for programs, pages and the command line.
type DisperseView struct {
	Schema   string          `json:"schema"`
	Dish     string          `json:"dish"`
	DishName string          `json:"dish_name"`
	Of       string          `json:"of"`
	Powder   string          `json:"powder"`
	Mass     unit.Mass       `json:"mass_g"` // at the scale that the dish is written for
	State    dispersal.State `json:"state"`
	Says     string          `json:"says"` // the state in a sentence
	Way      string          `json:"way"`
	WayWords string          `json:"way_words"`
	Step     string          `json:"step"`
	Mix      unit.Mass       `json:"mix_g"`
	Share    float64         `json:"share"` // of the powder in the mix
	Jar      string          `json:"jar,omitempty"`
	Loads    []DisperseLoad  `json:"loads"` // of the jar, at the scale that the dish is written for
	Held     []DisperseHeld  `json:"held_back"`
	Do       []DisperseDo    `json:"do"`
	Others   []DisperseOther `json:"other_ways"`
	Asks     []dispersal.Ask `json:"asks"`
	Found    finding.List    `json:"findings"`
	Run      string          `json:"run,omitempty"` // what was planned
	Now      *DisperseDay    `json:"now,omitempty"` // with the dish as it is
	Then     *DisperseDay    `json:"then,omitempty"`
	Longer   unit.Span       `json:"longer_s"`     // the day, from the first hands to the last
	Hands    unit.Span       `json:"more_hands_s"` // hands-on time
	Files    []DisperseFile  `json:"files"`
	Changes  bool            `json:"changes"` // the book would be otherwise
	Stops    bool            `json:"stops"`   // and could not be planned with
}

// DisperseLoad is one filling of the jar.
type DisperseLoad struct {
	Powder unit.Mass `json:"powder_g"`
	Liquid unit.Mass `json:"liquid_g"`
}

// DisperseHeld is what is held back of one line of the dish.
type DisperseHeld struct {
	Of     string    `json:"of"`
	Name   string    `json:"name"`
	From   string    `json:"from"`
	Amount string    `json:"amount"`
	Left   string    `json:"left"` // empty when nothing is
	Mass   unit.Mass `json:"mass_g"`
}

// DisperseDo is one thing to do.
type DisperseDo struct {
	Act    string `json:"act"`
	Says   string `json:"says"`
	Source string `json:"source"`
}

// DisperseOther is another way, and why not.
type DisperseOther struct {
	Way   string `json:"way"`
	Words string `json:"words"`
	Not   string `json:"not,omitempty"`
}

// DisperseDay is the day of a plan, and what the powder's step is in it.
type DisperseDay struct {
	Status  string      `json:"status"`
	Start   unit.Moment `json:"start"`
	End     unit.Moment `json:"end"`
	Length  unit.Span   `json:"length_s"`
	Hands   unit.Span   `json:"hands_on_s"`
	Packs   int         `json:"packs"`
	Label   string      `json:"ingredients"`
	Jars    int         `json:"jars"` // loads of the powder's step
	Each    unit.Volume `json:"each_ml"`
	Time    unit.Span   `json:"time_s"`   // of one load
	Starts  string      `json:"starts"`   // of the loads, in words
	Full    unit.Share  `json:"full"`     // how full a load makes what it is mixed in
	Out     unit.Mass   `json:"mix_g"`    // that the step gives
	Powder  unit.Mass   `json:"powder_g"` // that goes into it
	Closure float64     `json:"closure"`  // of the dish's mass flow
}

// DisperseFile is a file of the book that would be otherwise.
type DisperseFile struct {
	Name  string   `json:"name"`
	Lines []string `json:"lines"` // with - for those that go and + for those that come
	diff  []DiffLine
}

// Diff are the lines for a page.
func (f DisperseFile) Diff() []DiffLine { return f.diff }

// View is it for programs, pages and the command line.
func (d Dispersed) View() DisperseView {
	units := d.Book.Kitchen.Units
	v := DisperseView{Schema: DisperseSchema, Dish: string(d.Dish), DishName: d.Before.Name, Of: string(d.Of), Powder: d.Powder, Mass: d.Mass, State: d.State, Says: d.says(),
		Way: string(d.Way), WayWords: dispersal.WayWords(d.Way), Step: d.Step, Mix: d.Dispersion.Mix, Share: d.Dispersion.Share, Loads: []DisperseLoad{}, Held: []DisperseHeld{}, Do: []DisperseDo{},
		Others: []DisperseOther{}, Asks: append([]dispersal.Ask{}, d.Asks...), Found: append(finding.List{}, d.Found...), Files: []DisperseFile{}, Changes: len(d.Edit.Files) > 0, Stops: d.Edit.Stops}
	if d.Jar != "" {
		v.Jar = d.Book.Equipment[d.Jar].Name
		for _, l := range d.Dispersion.Loads {
			v.Loads = append(v.Loads, DisperseLoad{l.Powder, l.Liquid})
		}
	}
	for _, h := range d.Held {
		one := DisperseHeld{Of: string(h.Of), Name: h.Name, From: h.From, Amount: h.Amount.String(), Left: h.Left.String(), Mass: h.Mass}
		if h.Left.Mass == 0 && h.Left.Volume == 0 {
			one.Left = ""
		}
		v.Held = append(v.Held, one)
	}
	for _, s := range d.Dispersion.Steps {
		if s.Act == dosing.HoldBack && len(v.Held) > 0 { // as a cook measures it: below
			continue
		}
		v.Do = append(v.Do, DisperseDo{string(s.Act), dispersal.Say(s, units), s.Source})
	}
	for i, h := range v.Held {
		more := ""
		if v.State == dispersal.Mended { // besides what its step has already
			more = " more"
		}
		v.Do = slices.Insert(v.Do, i, DisperseDo{string(dosing.HoldBack), fmt.Sprintf("Hold back %s%s of %s (%s) from step %s: it is part of the dish's, not more.", h.Amount, more, h.Name, h.Mass.Show(units), h.From), "the dish"})
	}
	for _, w := range d.Alternative {
		v.Others = append(v.Others, DisperseOther{string(w.Way), dispersal.WayWords(w.Way), w.Not})
	}
	v.files(d.Edit)
	v.days(d)
	return v
}

func (v *DisperseView) files(e BookEdit) {
	for _, f := range e.Files {
		one := DisperseFile{Name: f.Name, diff: f.Lines()}
		for _, l := range one.diff {
			one.Lines = append(one.Lines, string(l.Sign)+l.Text)
		}
		v.Files = append(v.Files, one)
	}
}

// manyJars is when blending in a jar becomes a task of its own: judgement.
const manyJars = 6

func (v *DisperseView) days(d Dispersed) {
	v.Run = d.Request.Name
	v.Now, v.Then = d.day(d.Now), d.day(d.Then)
	if v.Now != nil && v.Then != nil {
		v.Longer, v.Hands = v.Then.Length-v.Now.Length, v.Then.Hands-v.Now.Hands
	}
	if v.Now == nil && !v.Changes {
		v.Now = v.Then
	}
	if t := v.Then; t != nil && t.Jars > manyJars {
		v.Found = append(v.Found, finding.Finding{Code: "many-jars", Severity: finding.Note, Where: "step " + v.Step, Message: fmt.Sprintf("in this plan the jar is filled %d times", t.Jars),
			Figures: []finding.Figure{{Name: "jars", Value: float64(t.Jars), Text: fmt.Sprint(t.Jars)}}, Source: "judgement", Fix: "blend it in a pot of its own with a strong mixer, or take another way"})
	}
}

// day is a plan's; nil when the dish could not be planned.
func (d Dispersed) day(p *plan.Plan) *DisperseDay {
	if p == nil || len(p.Labels) == 0 {
		return nil
	}
	day := &DisperseDay{Status: p.Timetable.Status, Start: p.Timetable.Start, End: p.Timetable.End, Length: p.Timetable.Length, Hands: p.Summary.HandsOn, Packs: p.Summary.Packs}
	for _, l := range p.Labels {
		if pack := d.Book.Packs[kitchen.PackID(l.Pack)]; pack.Dish == d.Dish && day.Label == "" {
			day.Label = l.Statement
		}
	}
	for _, x := range p.Dishes {
		if x.ID == string(d.Dish) {
			day.Closure = x.Closure
		}
	}
	s, there := d.stepIn(p, d.Step)
	if !there {
		return day
	}
	day.Jars, day.Each, day.Time, day.Full = s.Loads.Count, s.Loads.Volume, s.Time, s.Loads.Full
	for i, at := range s.Starts {
		if i > 0 {
			day.Starts += ", "
		}
		day.Starts += at.String()
	}
	for _, l := range s.In {
		if l.ID == string(d.Of) {
			day.Powder = l.Mass
		}
	}
	for _, l := range s.Out {
		day.Out += l.Mass
	}
	return day
}

// says is the state in a sentence.
func (d Dispersed) says() string {
	name, dish := d.Powder, d.Before.Name
	switch d.State {
	case dispersal.Fine:
		return fmt.Sprintf("The dish gets its %s in well already, in step %s: nothing needs changing.", name, d.Step)
	case dispersal.Mended:
		return fmt.Sprintf("The dish gets its %s in already, in step %s; with this dose that step is changed.", name, d.Step)
	case dispersal.Changed:
		return fmt.Sprintf("In %s the %s goes straight into the pot. Step %s gets it in without lumps, with what the dish has.", dish, name, d.Step)
	default:
		return fmt.Sprintf("%s of %s is new in %s: step %s gets it in without lumps, with what the dish has.", dosing.Grams(d.Mass), name, dish, d.Step)
	}
}
