package web

import (
	"fmt"
	"net/url"
	"regexp"
	"strings"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// boardRead reads one form of the board. What cannot be used is told beside its field; what is odd is asked about, and may be entered all the
// same.
type boardRead struct {
	p    *app.Production
	rd   reader
	form url.Values
	lots []lotHere // that are on hand
	used map[record.Lot]bool
	bad  map[string]string
	asks []string
	also []record.Body // what is entered with it, all or nothing
	book kitchen.Book  // as it is now
}

func (b *boardRead) wrong(key, problem string) {
	if b.bad[key] == "" {
		b.bad[key] = problem
	}
}

func (b *boardRead) ask(format string, args ...any) {
	b.asks = append(b.asks, fmt.Sprintf(format, args...))
}

func (b *boardRead) text(key string) string { return tidy(b.form.Get(key)) }

// must is a text that cannot be left out.
func (b *boardRead) must(key, what string) string {
	text := b.text(key)
	if text == "" {
		b.wrong(key, what)
	}
	return text
}

var bareNumber = regexp.MustCompile(`^[0-9]+([.,][0-9]+)?$`)

// bareUnit is what a number alone means.
func (r reader) bareUnit() string {
	if r.units == unit.US {
		return "lb"
	}
	return "kg"
}

// readMass reads a mass; a number alone is in the kitchen's usual unit, or in the one that is given.
func (b *boardRead) readMass(key, text, bare string) unit.Mass {
	if bareNumber.MatchString(text) {
		text = strings.ReplaceAll(text, ",", ".") + " " + bare
	}
	mass, err := unit.ParseMass(text)
	switch {
	case err != nil:
		b.wrong(key, sentence(err))
	case mass <= 0:
		b.wrong(key, "This is no weight.")
	}
	return mass
}

// mass reads a mass that may be left out.
func (b *boardRead) mass(key string) unit.Mass {
	if text := b.text(key); text != "" {
		return b.readMass(key, text, b.rd.bareUnit())
	}
	return 0
}

// mustMass reads a mass that cannot be left out.
func (b *boardRead) mustMass(key string) unit.Mass {
	mass := b.mass(key)
	if mass == 0 {
		b.wrong(key, "Write what it weighs.")
	}
	return mass
}

// masses reads masses one after another, in grams unless they say otherwise.
func (b *boardRead) masses(key string) []unit.Mass {
	var all []unit.Mass
	text := b.text(key)
	split := strings.FieldsFunc(text, func(r rune) bool { return r == ';' || r == '\n' || r == ',' })
	if len(split) == 1 && !strings.ContainsFunc(text, func(r rune) bool { return r >= 'a' && r <= 'z' }) {
		split = strings.Fields(text)
	}
	for _, one := range split {
		if one = strings.TrimSpace(one); one != "" {
			all = append(all, b.readMass(key, one, "g"))
		}
	}
	return all
}

// temp reads a temperature; a number alone is in degrees of the kitchen.
func (b *boardRead) temp(key string) unit.Temp {
	text := b.must(key, "Write what the thermometer shows.")
	if bareNumber.MatchString(strings.TrimPrefix(text, "-")) {
		text = strings.ReplaceAll(text, ",", ".") + map[unit.System]string{unit.US: " F", unit.Metric: " C"}[b.rd.units]
	}
	temp, err := unit.ParseTemp(text)
	if err != nil && text != "" {
		b.wrong(key, sentence(err))
	}
	return temp
}

func (b *boardRead) day(key string) record.Day {
	text := b.text(key)
	if text != "" && !isDay(text) {
		b.wrong(key, "This is no day: write it like 2026-12-01.")
	}
	return record.Day(text)
}

// at is when it happened: as the form says, such as 10:05, or when it was touched.
func (b *boardRead) at(touched time.Time) time.Time {
	text := b.text("when")
	if text == "" {
		return touched
	}
	m, err := app.Moment(text)
	if err != nil {
		b.wrong("when", sentence(err))
		return touched
	}
	day, err := time.ParseInLocation(time.DateOnly, string(b.p.Opened.Day), touched.Location())
	if err != nil {
		b.wrong("when", "The production has no day.")
		return touched
	}
	at := time.Date(day.Year(), day.Month(), day.Day(), 0, int(m), 0, 0, touched.Location())
	if at.After(touched.Add(time.Minute)) {
		b.wrong("when", "That time is still to come.")
	}
	return at
}

// far tells whether a figure is far from another: by more than three tenths.
func far(got, planned unit.Mass) bool {
	return planned > 0 && (float64(got) < 0.7*float64(planned) || float64(got) > 1.3*float64(planned))
}
