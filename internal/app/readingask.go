package app

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/loggerfile"
)

// LogQuestion is what a file leaves open.
type LogQuestion struct {
	Key     string      `json:"key"` // unit, zone, order, probe
	Of      string      `json:"of,omitzero"`
	Asks    string      `json:"asks"`
	Example string      `json:"example"` // the cell that leaves it open
	Options []LogOption `json:"options"`
	Answer  string      `json:"answer,omitzero"`
	Problem string      `json:"problem,omitzero"` // with the answer
	Hint    string      `json:"hint,omitzero"`    // what speaks against the answer
}

// LogOption is a possible answer.
type LogOption struct {
	Value string `json:"value"`
	Says  string `json:"says"`
}

// Keys of questions.
const (
	LogUnit  = "unit"
	LogZone  = "zone"
	LogOrder = "order"
	LogProbe = "probe"
)

// LogNoProbe is the answer that a column is none of a probe.
const LogNoProbe = "none"

// KitchenZone is the answer that the logger's clock ran by that of the kitchen.
const KitchenZone = "kitchen"

func capital(text string) string {
	if text == "" {
		return text
	}
	return strings.ToUpper(text[:1]) + text[1:]
}

// zoneOf is the zone that an answer names, or what is wrong with it.
func zoneOf(answer string, kitchen *time.Location) (*time.Location, string) {
	switch {
	case answer == "" || answer == KitchenZone:
		return kitchen, ""
	case strings.HasPrefix(answer, "+") || strings.HasPrefix(answer, "-"):
		at, err := time.Parse("-07:00", answer)
		if err != nil {
			return nil, "An offset is written like −05:00."
		}
		_, seconds := at.Zone()
		return time.FixedZone(answer, seconds), ""
	}
	z, err := time.LoadLocation(answer)
	if err != nil || answer == "Local" {
		return nil, "No zone is called so. Write America/New_York, UTC, or an offset like −05:00."
	}
	return z, ""
}

// ask puts the questions of a file, with the answers there are.
func (x *LogReading) ask(now time.Time, badZone string) {
	add := func(q loggerfile.Question, key, asks, answer, problem string, options ...LogOption) {
		if example, is := x.read.Open[q]; is {
			x.Questions = append(x.Questions, LogQuestion{Key: key, Asks: asks, Example: example, Options: options, Answer: answer, Problem: problem})
		}
	}
	add(loggerfile.WhichUnit, LogUnit, "Are these temperatures °F or °C?", x.answers.Unit, "", LogOption{"f", "°F"}, LogOption{"c", "°C"})
	add(loggerfile.WhichOrder, LogOrder, "Does the month or the day stand first?", x.answers.Order, "", LogOption{"mdy", "the month, as in the US"}, LogOption{"dmy", "the day"})
	zone := fmt.Sprintf("that of the kitchen (%s), put forward and back with it", now.Location())
	standard := now.In(now.Location())
	for _, m := range []time.Month{time.January, time.July} { // the smaller offset of a year is the one that a clock keeps which nobody puts forward
		if d := time.Date(now.Year(), m, 1, 12, 0, 0, 0, now.Location()); offset(d) < offset(standard) {
			standard = d
		}
	}
	fixed := standard.Format("-07:00")
	add(loggerfile.WhichZone, LogZone, "By which clock did the logger run?", x.answers.Zone, badZone, LogOption{KitchenZone, zone}, LogOption{fixed, "always " + fixed + " from UTC: nobody put it forward or back"}, LogOption{"UTC", "UTC"})
}

// doubtZone says so when times stand in the hour that the clock on the wall skipped: a clock that was put forward does not show them.
func (x *LogReading) doubtZone() {
	for _, c := range x.Channels {
		for _, f := range c.Flags {
			for i := range x.Questions {
				if q := &x.Questions[i]; q.Key == LogZone && f.Flag == string(loggerfile.NoSuchHour) {
					q.Hint = fmt.Sprintf("There are times in the hour that this clock skips: %d, from line %d on. Perhaps nobody put the logger's clock forward.", f.Count, f.Lines[0])
				}
			}
		}
	}
}

func offset(t time.Time) int {
	_, s := t.Zone()
	return s
}

// askProbes asks which probe each column is, and proposes what the book has.
func (x *LogReading) askProbes(book kitchen.Book) {
	var options []LogOption
	for _, t := range ThermometersOf(book) {
		options = append(options, LogOption{t.ID, fmt.Sprintf("%s (%s)", cmp.Or(t.Name, t.ID), t.ID)})
	}
	options = append(options, LogOption{LogNoProbe, "no probe: this column is left out"})
	for i, c := range x.read.Channels {
		name := columnName(x.read.Channels, i)
		q := LogQuestion{Key: LogProbe, Of: name, Asks: fmt.Sprintf("Which probe is the column “%s”?", c.Name), Example: c.Name, Options: options, Answer: strings.TrimSpace(x.answers.Probes[name])}
		if q.Answer == "" {
			q.Answer = proposed(c.Name, x.File, options)
		}
		switch {
		case len(q.Answer) > longestProbe:
			q.Problem, q.Answer = "That name is too long.", cutAt(q.Answer, longestProbe)
		case q.Answer != "" && q.Answer != LogNoProbe && slices.ContainsFunc(x.Questions, func(o LogQuestion) bool { return o.Key == LogProbe && o.Answer == q.Answer }):
			q.Problem = "Another column of this file is that probe."
		}
		x.Questions = append(x.Questions, q)
	}
}

// columnName is what a column is known by: its head, with a number where two have the same.
func columnName(all []loggerfile.Channel, i int) string {
	same := 0
	for _, c := range all[:i] {
		if c.Name == all[i].Name {
			same++
		}
	}
	if same > 0 {
		return fmt.Sprintf("%s (%d)", all[i].Name, same+1)
	}
	return all[i].Name
}

// proposed is the thermometer whose id or name stands in the head of a column, or else in the name of the file; "" for none or several.
func proposed(column, file string, options []LogOption) string {
	for _, text := range []string{plain(column), plain(file)} {
		var found []string
		for _, o := range options {
			name, _, _ := strings.Cut(o.Says, " (")
			if o.Value != LogNoProbe && (strings.Contains(text, plain(o.Value)) || strings.Contains(text, plain(name))) {
				found = append(found, o.Value)
			}
		}
		if len(found) == 1 {
			return found[0]
		}
	}
	return ""
}

// plain is a text without what names are written with in one way or another.
func plain(text string) string {
	return " " + strings.Join(strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !('a' <= r && r <= 'z' || '0' <= r && r <= '9') }), " ") + " "
}
