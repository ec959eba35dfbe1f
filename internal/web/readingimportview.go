package web

import (
	"cmp"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/record"
)

// busyView is how far a file is.
type busyView struct {
	Says     string
	Done, Of int // lines; Of is 0 where nobody knows
}

// logQuestionView is a question with its possible answers.
type logQuestionView struct {
	Key, ID   string
	Asks      string
	Example   string // the cell that leaves it open
	Options   []logOptionView
	Other     string // what was answered beside the options
	OtherHint string
	Problem   string
	Hint      string // what speaks against the answer
	Open      bool   // it has no answer yet
}

type logOptionView struct {
	Value, Says string
	Here        bool
}

// logColumnView is a column of the file, as it was read.
type logColumnView struct {
	Name, Probe string
	Readings    string
	From, To    string
	Low, High   figure
	Every       string
	Flags       []logFlagView
}

// logFlagView is how often something is odd, and where.
type logFlagView struct{ Says, Count, Lines string }

// logTakenView is what was taken in.
type logTakenView struct {
	Says, Entry, Hash string
	Days              []link
}

func readingsOf(x *app.LogReading) (n int) {
	if x == nil {
		return 0
	}
	for _, c := range x.Channels {
		n += c.Readings
	}
	return n
}

// fillLog shows a file that was read.
func (s *server) fillLog(v *logImportPage, x logLook, r *http.Request) {
	if x.reading == nil {
		return
	}
	v.Problem = cmp.Or(v.Problem, x.reading.Problem)
	book, _ := s.house.Book()
	rd := readerOf(book.Kitchen, r)
	for i, q := range x.reading.Questions {
		v.Asked = append(v.Asked, logQuestion(q, i))
	}
	flagged := 0
	for _, c := range x.reading.Channels {
		flagged += c.Flagged
		v.Columns = append(v.Columns, s.logColumn(c, rd))
	}
	if n := readingsOf(x.reading); n > 0 {
		v.Tally = fmt.Sprintf("%s readings, %s of them flagged. All are taken in as they are: nothing is dropped or put right.", thousands(n), thousands(flagged))
	}
	if n := len(x.reading.Skipped); n > 0 {
		v.Skipped = times(n, "line holds", "lines hold") + " no reading (empty, or words before the table): " + linesText(x.reading.Skipped, n)
	}
	for _, d := range x.reading.Done {
		v.Before = append(v.Before, fmt.Sprintf("This file was taken in on %s by %s.", s.wall(d.At).Format("2 Jan 2006 15:04"), d.Who))
	}
	done := slices.ContainsFunc(x.reading.Done, func(d app.LogDone) bool { return d.Batch == x.reading.Batch })
	v.CanTake = x.reading.Ready() && !done
}

func logQuestion(q app.LogQuestion, nth int) logQuestionView {
	v := logQuestionView{Key: q.Key, ID: fmt.Sprintf("q%d", nth), Asks: q.Asks, Example: q.Example, Problem: q.Problem, Hint: q.Hint, Open: q.Answer == ""}
	switch q.Key {
	case app.LogProbe:
		v.Key, v.OtherHint = answerProbe+q.Of, "as the probe is to be called"
	case app.LogZone:
		v.OtherHint = "such as America/New_York or −05:00"
	}
	known := false
	for _, o := range q.Options {
		v.Options = append(v.Options, logOptionView{o.Value, o.Says, o.Value == q.Answer})
		known = known || o.Value == q.Answer
	}
	if !known {
		v.Other = q.Answer
	}
	return v
}

func (s *server) logColumn(c app.LogChannel, rd reader) logColumnView {
	v := logColumnView{Name: c.Column, Probe: c.Probe, Readings: fmt.Sprintf("%s, %s with a temperature and a time", thousands(c.Readings), thousands(c.Valued))}
	if c.Valued > 0 {
		v.From, v.To = s.wall(c.From).Format("2 Jan 2006 15:04"), s.wall(c.To).Format("2 Jan 2006 15:04")
		v.Low, v.High = rd.readTemp(c.LowC), rd.readTemp(c.HighC)
	}
	if c.TypicalS > 0 {
		v.Every = secondsText(c.TypicalS)
	}
	for _, f := range c.Flags {
		v.Flags = append(v.Flags, logFlagView{f.Says, thousands(f.Count), linesText(f.Lines, f.Count)})
	}
	return v
}

// linesText is lines of a file, the first of them.
func linesText(lines []int, of int) string {
	var words []string
	for _, n := range lines[:min(len(lines), 12)] {
		words = append(words, strconv.Itoa(n))
	}
	text := "line " + strings.Join(words, ", ")
	if len(words) != 1 {
		text = "lines " + strings.Join(words, ", ")
	}
	if more := of - len(words); more > 0 {
		text += " and " + thousands(more) + " more"
	}
	return text
}

// secondsText is how often a reading came.
func secondsText(s float64) string {
	if s < 120 {
		return strconv.FormatFloat(s, 'f', -1, 64) + " s"
	}
	return strconv.FormatFloat(s/60, 'f', -1, 64) + " min"
}

// thousands is a number with spaces that make it readable.
func thousands(n int) string {
	text := strconv.Itoa(n)
	for at := len(text) - 3; at > 0; at -= 3 {
		text = text[:at] + "," + text[at:]
	}
	return text
}

// logTaken is what was taken in, with where to look at it.
func (s *server) logTaken(x logLook, query url.Values) *logTakenView {
	v := &logTakenView{Says: thousands(readingsOf(x.reading)) + " readings were taken in.", Entry: fmt.Sprintf("entry %d", x.entry.Seq), Hash: x.reading.Hash.String()}
	for _, c := range x.reading.Channels {
		if c.Valued > 0 {
			day := record.Day(s.wall(c.To).Format("2006-01-02"))
			v.Days = append(v.Days, link{fmt.Sprintf("%s on %s", c.Probe, day), dayURL(query, c.Probe, day)})
		}
	}
	return v
}
