package web

import (
	"fmt"
	"html/template"
	"strconv"
	"strings"

	"kettlefrost/internal/draw"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/roster"
	"kettlefrost/internal/unit"
)

// dayView is the timetable as drawings and as lists.
type dayView struct {
	dayFacts
	People    []template.HTML // drawings: made by draw, which escapes every text
	Equipment []pictureView
}

// dayFacts is what is said of the timetable, and the lists.
type dayFacts struct {
	Grave    []reminder
	Ending   string
	Why      string // what makes the day as long as it is
	Aims     []string
	Clash    []string
	Remedies []string
	Key      []keyLine
	Signs    []signLine
	Lists    []personList
	NextDay  bool // some times are followed by the number of days later
}

// keyLine explains a letter and its pattern.
type keyLine struct {
	Letter  string
	Name    string
	Pattern template.HTML
}

// signLine explains a sign of a drawing.
type signLine struct {
	Sign template.HTML
	Says string
}

// personList is what one person does, in order.
type personList struct {
	Name  string
	Turns []turn
}

// turn is one stay of a person at a task.
type turn struct {
	From     string
	For      string
	Code     string
	Label    string // in full the first time, then in few words
	Load     string // "load 2 of 6"
	On       string // the first time
	With     string // who else is there, the first time
	Slack    string // how much later it may be
	Critical bool
	Away     bool
	Done     bool
}

func viewDay(p plan.Plan, codes draw.Codes, at pictures) dayView {
	v := dayView{dayFacts: viewFacts(p, codes), People: drawings(draw.Timeline(p.Timetable, codes, draw.People), "tp")}
	for i := range draw.Timeline(p.Timetable, codes, draw.Equipment) {
		v.Equipment = append(v.Equipment, at.at("equipment", i).saying("Equipment, a part of the day"))
	}
	return v
}

func viewFacts(p plan.Plan, codes draw.Codes) dayFacts {
	t := p.Timetable
	v := dayFacts{Grave: graveFor(p, atDay), Ending: ending(t), Why: t.BoundWhy, Clash: t.Clash, Remedies: t.Remedies, NextDay: t.End >= 24*60,
		Key: keyLines(p.Dishes, codes), Signs: signLines(t)}
	for _, a := range roster.Aims(t) {
		v.Aims = append(v.Aims, roster.AimWords(a, p.Units))
	}
	for _, row := range roster.People(t, "") {
		v.Lists = append(v.Lists, viewPerson(t, row, codes))
	}
	return v
}

func keyLines(dishes []plan.Dish, codes draw.Codes) []keyLine {
	var lines []keyLine
	for i, d := range dishes {
		lines = append(lines, keyLine{Letter: codes.Dish(d.ID), Name: d.Name, Pattern: inline(codes.Sign(d.ID, d.Name), "k", i)})
	}
	return lines
}

func signLines(t plan.Timetable) []signLine {
	var lines []signLine
	for i, s := range draw.DayKey(t) {
		lines = append(lines, signLine{inline(s, "s", i), s.Says})
	}
	return lines
}

func inline(s draw.DaySign, prefix string, n int) template.HTML {
	return template.HTML(draw.InlineSVG(s.Picture(), prefix+strconv.Itoa(n)))
}

func drawings(pictures []draw.Picture, prefix string) []template.HTML {
	var out []template.HTML
	for i, p := range pictures {
		out = append(out, template.HTML(draw.InlineSVG(p, fmt.Sprintf("%s%d", prefix, i))))
	}
	return out
}

// viewPerson lists a person's turns by time. What a step says stands in full the first time.
func viewPerson(t plan.Timetable, row plan.Row, codes draw.Codes) personList {
	list := personList{Name: row.Name}
	told := map[string]bool{} // steps that stand above in full
	for _, r := range roster.Turns(t, row) {
		v := viewTurn(t, r, codes)
		if step := v.Code + v.Label; told[step] {
			v.Label, v.On = inFew(v.Label), ""
		} else {
			told[step] = true
		}
		list.Turns = append(list.Turns, v)
	}
	return list
}

func viewTurn(t plan.Timetable, r roster.Turn, codes draw.Codes) turn {
	v := turn{From: r.From.String(), For: minutes(r.To - r.From)}
	if r.Away() {
		v.Away, v.Label = true, "away"
		return v
	}
	task := t.Tasks[r.Task]
	v.Code, v.Label, v.On = codes.Task(task), draw.Brief(task), strings.Join(task.On, ", ")
	v.Load, v.With = loadOf(task), strings.Join(r.With, ", ")
	v.Critical, v.Done = roster.Critical(task), task.State == plan.Done
	if !v.Critical && !v.Done {
		v.Slack = roster.SlackWords(task, 0)
	}
	return v
}

// minutes is a time that is a whole number of minutes.
func minutes(m unit.Moment) string {
	if m < 60 {
		return fmt.Sprintf("%d min", m)
	}
	return (unit.Span(m) * unit.Minute).Show(0)
}

// inFew is the beginning of a label: it stands above in full.
func inFew(label string) string {
	const most = 3
	words := strings.Fields(label)
	if len(words) <= most {
		return label
	}
	return strings.TrimRight(strings.Join(words[:most], " "), ",;:") + " …"
}

func loadOf(t plan.Task) string {
	if t.Loads < 2 {
		return ""
	}
	return fmt.Sprintf("load %d of %d", t.Load, t.Loads)
}
