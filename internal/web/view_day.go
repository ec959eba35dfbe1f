package web

import (
	"fmt"
	"html/template"
	"slices"
	"strings"

	"kettlefrost/internal/draw"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// dayView is the timetable as drawings and as lists.
type dayView struct {
	Grave     []reminder
	Ending    string
	Why       string // what makes the day as long as it is
	Clash     []string
	People    []template.HTML // drawings: made by draw, which escapes every text
	Equipment []template.HTML
	Key       []keyLine
	Lists     []personList
	NextDay   bool // some times are followed by the number of days later
}

// keyLine explains a letter and its pattern.
type keyLine struct {
	Letter  string
	Name    string
	Pattern template.HTML
}

// personList is what one person does, in order.
type personList struct {
	Name  string
	Turns []turn
}

// turn is one stay of a person at a task.
type turn struct {
	From  string
	For   string
	Code  string
	Label string // in full the first time, then in few words
	Load  string // "load 2 of 6"
	On    string // the first time
	With  string // who else is there
	Away  bool
}

func viewDay(p plan.Plan, codes draw.Codes) dayView {
	t := p.Timetable
	v := dayView{Grave: graveFor(p, atDay), Ending: ending(t), Why: t.BoundWhy, Clash: t.Clash, NextDay: t.End >= 24*60}
	v.People = drawings(draw.Timeline(t, codes, draw.People), "tp")
	v.Equipment = drawings(draw.Timeline(t, codes, draw.Equipment), "te")
	for i, d := range p.Dishes {
		swatch := draw.InlineSVG(codes.Sign(d.ID, d.Name).Picture(), fmt.Sprintf("k%d", i))
		v.Key = append(v.Key, keyLine{Letter: codes.Dish(d.ID), Name: d.Name, Pattern: template.HTML(swatch)})
	}
	for _, row := range t.Rows {
		if row.Person {
			v.Lists = append(v.Lists, viewPerson(t, row, codes))
		}
	}
	return v
}

func drawings(pictures []draw.Picture, prefix string) []template.HTML {
	var out []template.HTML
	for i, p := range pictures {
		out = append(out, template.HTML(draw.InlineSVG(p, fmt.Sprintf("%s%d", prefix, i))))
	}
	return out
}

// viewPerson lists a person's bars by time, those of one task that follow each other without a gap as one, with breaks between.
func viewPerson(t plan.Timetable, row plan.Row, codes draw.Codes) personList {
	list := personList{Name: row.Name}
	bars := slices.Clone(row.Bars)
	for _, away := range row.Away {
		if len(bars) > 0 && away.From > bars[0].From && away.To < bars[len(bars)-1].To {
			bars = append(bars, plan.Bar{Task: -1, From: away.From, To: away.To})
		}
	}
	slices.SortStableFunc(bars, func(a, b plan.Bar) int { return int(a.From) - int(b.From) })
	told := map[string]bool{} // steps that stand above in full
	for i := 0; i < len(bars); i++ {
		b := bars[i]
		for i+1 < len(bars) && bars[i+1].Task == b.Task && bars[i+1].From <= b.To {
			i++
			b.To = max(b.To, bars[i].To)
		}
		v := viewTurn(t, row.Name, b, codes)
		if step := v.Code + v.Label; told[step] {
			v.Label, v.On = inFew(v.Label), ""
		} else {
			told[step] = true
		}
		list.Turns = append(list.Turns, v)
	}
	return list
}

func viewTurn(t plan.Timetable, person string, b plan.Bar, codes draw.Codes) turn {
	v := turn{From: b.From.String(), For: minutes(b.To - b.From)}
	if b.Task < 0 || b.Task >= len(t.Tasks) {
		v.Away, v.Label = true, "away"
		return v
	}
	task := t.Tasks[b.Task]
	v.Code, v.Label, v.On = codes.Task(task), draw.Brief(task), strings.Join(task.On, ", ")
	v.Load = loadOf(task)
	var others []string
	for _, name := range task.People {
		if name != person {
			others = append(others, name)
		}
	}
	v.With = strings.Join(others, ", ")
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
