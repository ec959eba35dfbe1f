// Package calendar writes the day of a run as a calendar (iCalendar, RFC 5545) that a telephone takes in: an event for each turn of each
// person at a task. Times are floating, without a zone: the wall clock of the kitchen, wherever the telephone believes it is.
package calendar

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"strconv"
	"strings"
	"time"
	"unicode"

	"github.com/emersion/go-ical"

	"kettlefrost/internal/draw"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/roster"
	"kettlefrost/internal/unit"
)

// ContentType is how a calendar is served.
const ContentType = "text/calendar; charset=utf-8"

const product = "-//kettlefrost//day of a run//EN"

// Text is the calendar of a plan that has a day, for one person or, when person is "", for all. Stamp is when it is written. Without any
// turn it is an error, as a calendar must have an event.
func Text(p plan.Plan, person string, stamp time.Time) ([]byte, error) {
	midnight, err := time.Parse(time.DateOnly, p.Day)
	if err != nil {
		return nil, fmt.Errorf("the plan's day %q is no date such as 2026-12-01, and a calendar needs one", p.Day)
	}
	cal := ical.NewCalendar()
	cal.Props.SetText(ical.PropProductID, product)
	cal.Props.SetText(ical.PropVersion, "2.0")
	cal.Props.SetText(ical.PropMethod, "PUBLISH")
	cal.Props.SetText(ical.PropName, tidy(name(p, person)))
	codes := draw.NewCodes(p.Dishes)
	for _, row := range roster.People(p.Timetable, person) {
		for _, turn := range roster.Turns(p.Timetable, row) {
			if !turn.Away() {
				cal.Children = append(cal.Children, event(p, codes, row.Name, turn, midnight, stamp))
			}
		}
	}
	if len(cal.Children) == 0 {
		return nil, fmt.Errorf("nobody%s has a turn in this day, so there is no event for a calendar", of(person))
	}
	var out bytes.Buffer
	if err := ical.NewEncoder(&out).Encode(cal); err != nil {
		return nil, fmt.Errorf("the calendar cannot be written: %w", err)
	}
	return fold(out.Bytes()), nil
}

func name(p plan.Plan, person string) string {
	if person == "" {
		return p.Run
	}
	return person + ": " + p.Run
}

func of(person string) string {
	if person == "" {
		return ""
	}
	return " of the name " + strconv.Quote(person)
}

func event(p plan.Plan, codes draw.Codes, person string, turn roster.Turn, midnight, stamp time.Time) *ical.Component {
	task := p.Timetable.Tasks[turn.Task]
	e := ical.NewComponent(ical.CompEvent)
	e.Props.SetText(ical.PropUID, uid(p, task.Key, person, turn.Nth))
	e.Props.SetDateTime(ical.PropDateTimeStamp, stamp.UTC())
	floating(e, ical.PropDateTimeStart, midnight, turn.From)
	if turn.To > turn.From {
		floating(e, ical.PropDateTimeEnd, midnight, turn.To)
	}
	text(e, ical.PropSummary, strings.TrimSpace(codes.Task(task)+" "+draw.Brief(task)))
	text(e, ical.PropLocation, strings.Join(task.On, ", "))
	text(e, ical.PropDescription, describe(p, task, turn))
	text(e, ical.PropCategories, person)
	return e
}

// describe is the lines below an event's name.
func describe(p plan.Plan, task plan.Task, turn roster.Turn) string {
	var lines []string
	if task.Loads > 1 {
		lines = append(lines, fmt.Sprintf("Load %d of %d.", task.Load, task.Loads))
	}
	if len(turn.With) > 0 {
		lines = append(lines, "With "+strings.Join(turn.With, ", ")+".")
	}
	switch {
	case task.State == plan.Done:
		lines = append(lines, "Done.")
	case roster.Critical(task):
		lines = append(lines, "Critical: a delay here makes the day end later.")
	default:
		lines = append(lines, "Slack: it may begin "+task.Slack.Show(p.Units)+" later.")
	}
	return strings.Join(append(lines, "Times are the kitchen's own clock."), "\n")
}

// uid stays the same for a person's turn, so that a calendar that is taken in again replaces its events.
func uid(p plan.Plan, key, person string, nth int) string {
	sum := sha256.Sum256([]byte(strings.Join([]string{p.Kitchen, p.Run, p.Day, key, person, strconv.Itoa(nth)}, "\x00")))
	return hex.EncodeToString(sum[:16]) + "@kettlefrost"
}

// floating sets a time without a zone.
func floating(e *ical.Component, property string, midnight time.Time, m unit.Moment) {
	prop := ical.NewProp(property)
	prop.Value = midnight.Add(time.Duration(m) * time.Minute).Format("20060102T150405")
	e.Props.Set(prop)
}

// text sets a text, and nothing when there is none.
func text(e *ical.Component, property, value string) {
	if value = tidy(value); value != "" {
		e.Props.SetText(property, value)
	}
}

// tidy leaves out the control characters that a text may not have; the line feed has an escape of its own.
func tidy(value string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) && r != '\n' && r != '\t' {
			return -1
		}
		return r
	}, strings.ToValidUTF8(value, "\uFFFD"))
}
