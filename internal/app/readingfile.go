package app

import (
	"cmp"
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/loggerfile"
	"kettlefrost/internal/record"
)

// LogFile is the file of a logger as it came.
type LogFile struct {
	Name string
	Data []byte
}

// Hash is what ties the file to the chain.
func (f LogFile) Hash() record.Hash { return record.Hash(sha256.Sum256(f.Data)) }

// LogAnswers say what a file may leave open. What is empty was not answered.
type LogAnswers struct {
	Unit   string            // c, f
	Zone   string            // kitchen, an offset such as -05:00, or the name of a zone such as America/New_York
	Order  string            // dmy, mdy
	Probes map[string]string // which probe a column is, by its name
}

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

// LogReading is a file that was read, and what it would enter.
type LogReading struct {
	Schema    string        `json:"schema"` // kettlefrost.log-file/1
	File      string        `json:"file"`
	Hash      record.Hash   `json:"hash"`
	Batch     record.ID     `json:"batch"`
	Questions []LogQuestion `json:"questions,omitempty"` // with an answer or without
	Channels  []LogChannel  `json:"channels,omitempty"`
	Skipped   []int         `json:"skipped,omitempty"` // lines that hold no reading
	Done      []LogDone     `json:"done,omitempty"`    // when this very file was taken in before
	Problem   string        `json:"problem,omitzero"`  // it cannot be read as a logger's file
	Entered   record.ID     `json:"entered,omitzero"`  // the entry, once it is taken in

	read     loggerfile.File
	answers  LogAnswers
	received time.Time
}

// LogFileSchema is what a logger's file that was read says it is.
const LogFileSchema = "kettlefrost.log-file/1"

// LogChannel is one column of temperatures.
type LogChannel struct {
	Column   string         `json:"column"`
	Probe    string         `json:"probe,omitzero"`
	Unit     string         `json:"unit"`
	Readings int            `json:"readings"`
	Valued   int            `json:"valued"` // with a temperature and a time
	Flagged  int            `json:"flagged"`
	From     record.Instant `json:"from_ms,omitzero"`
	To       record.Instant `json:"to_ms,omitzero"`
	LowC     float64        `json:"low_c"`
	HighC    float64        `json:"high_c"`
	TypicalS float64        `json:"typical_s"`
	Flags    []LogFlag      `json:"flags,omitempty"`

	nth int // of the file's channels
}

// LogFlag is how often something is odd, and where.
type LogFlag struct {
	Flag  string `json:"flag"`
	Says  string `json:"says"`
	Count int    `json:"count"`
	Lines []int  `json:"lines"` // the first of them
}

// LogDone is when a file was taken in, and by whom.
type LogDone struct {
	Entry record.ID      `json:"entry"`
	Batch record.ID      `json:"batch"`
	Who   string         `json:"who"`
	At    record.Instant `json:"at_ms"`
}

// flagLines are so many lines told of each flag.
const flagLines = 12

// ReadLog reads a file as far as it is answered, and says what it leaves open. Nothing is taken in. The error is that of the records; what is
// wrong with the file is in the reading.
func (r *Records) ReadLog(ctx context.Context, book kitchen.Book, f LogFile, a LogAnswers, now time.Time, progress func(done, of int)) (*LogReading, error) {
	x := &LogReading{Schema: LogFileSchema, File: f.Name, Hash: f.Hash(), answers: a, received: now}
	opt := loggerfile.Options{Received: now.Add(clockSlack), Progress: progress, Unit: map[string]loggerfile.Unit{"c": loggerfile.Celsius, "f": loggerfile.Fahrenheit}[a.Unit]}
	zone, badZone := zoneOf(a.Zone, now.Location())
	if a.Zone != "" && badZone == "" {
		opt.Zone = zone
	}
	if a.Order != "" {
		dayFirst := a.Order == "dmy"
		opt.DayFirst = &dayFirst
	}
	var err error
	x.read, err = loggerfile.Read(f.Data, opt)
	if bad, is := errors.AsType[*loggerfile.FormatError](err); is {
		x.Problem = capital(strings.TrimPrefix(bad.Error(), "loggerfile: ")) + "."
		return x, nil
	}
	x.ask(now, badZone)
	x.askProbes(book)
	if err == nil {
		x.Skipped = x.read.Skipped
		x.summarize()
		x.doubtZone()
	}
	x.Batch = x.batchID()
	return x, r.logsBefore(ctx, x)
}

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

// Ready tells whether all is answered that has to be.
func (x *LogReading) Ready() bool {
	return x.Problem == "" && len(x.Channels) > 0 && !slices.ContainsFunc(x.Questions, func(q LogQuestion) bool { return q.Answer == "" || q.Problem != "" })
}

// summarize is what each column holds.
func (x *LogReading) summarize() {
	for i, c := range x.read.Channels {
		v := LogChannel{Column: columnName(x.read.Channels, i), Unit: string(c.Unit), Readings: len(c.Readings), TypicalS: c.TypicalS}
		if v.Probe = x.probeOf(v.Column); v.Probe == LogNoProbe {
			continue
		}
		v.nth = i
		at := map[loggerfile.Flag]int{}
		for _, one := range c.Readings {
			v.add(one, at)
		}
		x.Channels = append(x.Channels, v)
	}
}

func (v *LogChannel) add(x loggerfile.Reading, at map[loggerfile.Flag]int) {
	if len(x.Flags) > 0 {
		v.Flagged++
	}
	for _, f := range x.Flags {
		n, there := at[f]
		if !there {
			n = len(v.Flags)
			at[f] = n
			v.Flags = append(v.Flags, LogFlag{Flag: string(f), Says: FlagWords(string(f))})
		}
		if v.Flags[n].Count++; len(v.Flags[n].Lines) < flagLines {
			v.Flags[n].Lines = append(v.Flags[n].Lines, x.Line)
		}
	}
	if !x.Valued() {
		return
	}
	ms := record.Instant(x.At.UnixMilli())
	if v.Valued == 0 {
		v.From, v.To, v.LowC, v.HighC = ms, ms, x.TempC, x.TempC
	}
	v.From, v.To, v.LowC, v.HighC = min(v.From, ms), max(v.To, ms), min(v.LowC, x.TempC), max(v.HighC, x.TempC)
	v.Valued++
}

func (x *LogReading) probeOf(column string) string {
	for _, q := range x.Questions {
		if q.Key == LogProbe && q.Of == column {
			return q.Answer
		}
	}
	return ""
}

// batchID is that of the file with its answers: the same file with the same answers is taken in once.
func (x *LogReading) batchID() record.ID {
	sum := sha256.New()
	fmt.Fprintf(sum, "kettlefrost log\x00%s\x00", x.Hash)
	for _, q := range x.Questions {
		fmt.Fprintf(sum, "%s\x00%s\x00%s\x00", q.Key, q.Of, q.Answer)
	}
	return record.ID(sum.Sum(nil)[:16])
}
