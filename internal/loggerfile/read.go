package loggerfile

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
	"regexp"
	"strings"
)

// mostLines and mostCells are more than any logger writes in a year, a line every ten seconds.
const (
	mostLines     = 5_000_000
	mostCells     = 200
	progressLines = 10_000 // between two words about how far it is
)

// line is a record of the CSV with where it began.
type line struct {
	number int
	cells  []string
}

// Read reads a logger's file. Errors are *FormatError and *AskError; with the latter the channels have their names and no readings.
func Read(data []byte, opt Options) (File, error) {
	data, isText := text(data)
	if !isText {
		return File{}, &FormatError{0, "it is not text", "export it from the logger's program as CSV, UTF-8"}
	}
	lines, comma, err := split(data)
	if err != nil {
		return File{}, err
	}
	h, at, ok := findHead(lines)
	if !ok {
		return File{}, &FormatError{0, "no line names a column of times and one of temperatures", "give a table whose head has such names as “Date”, “Time” and “Temperature (°C)”"}
	}
	r := reader{head: h, opt: opt, decimalComma: comma == ';' || comma == '\t'}
	f := File{}
	for _, c := range h.temps {
		f.Channels = append(f.Channels, Channel{Name: c.name, Unit: r.unitOf(c)})
	}
	if f.Open = r.settle(lines[at+1:]); len(f.Open) > 0 {
		if err := opt.unanswered(f.Open); err != nil {
			return f, err
		}
	}
	for _, l := range lines[:at] {
		f.Skipped = append(f.Skipped, l.number)
	}
	for i, l := range lines[at+1:] {
		if !r.line(l, f.Channels) {
			f.Skipped = append(f.Skipped, l.number)
		}
		if opt.Progress != nil && i%progressLines == 0 {
			opt.Progress(i, len(lines))
		}
	}
	for i := range f.Channels {
		f.Channels[i].flag(opt)
	}
	return f, nil
}

// split takes the text apart by whichever sign separates most of its cells.
func split(data []byte) ([]line, rune, error) {
	comma, most := ',', 0
	sample := data[:min(len(data), 20_000)]
	for _, c := range []rune{',', ';', '\t'} {
		if n := strings.Count(string(sample), string(c)); n > most {
			comma, most = c, n
		}
	}
	if strings.Count(string(sample), ";") > 0 && comma == ',' && looksDecimal(string(sample)) {
		comma = ';'
	}
	in := csv.NewReader(bytes.NewReader(data))
	in.Comma, in.FieldsPerRecord, in.LazyQuotes, in.TrimLeadingSpace = comma, -1, true, true
	var lines []line
	for {
		cells, err := in.Read()
		switch {
		case errors.Is(err, io.EOF):
			return lines, comma, nil
		case err != nil:
			return nil, comma, &FormatError{0, err.Error(), "mend the quotation marks in the file"}
		case len(lines) >= mostLines || len(cells) > mostCells:
			return nil, comma, &FormatError{0, "it has more lines or columns than a logger writes in a year", "cut it into several files"}
		}
		number, _ := in.FieldPos(0)
		lines = append(lines, line{number, cells})
	}
}

var decimalComma = regexp.MustCompile(`;\s*-?\d+,\d+\s*(;|\r|\n|$)`)

func looksDecimal(text string) bool { return decimalComma.MatchString(text) }

// settle finds what the file leaves open, with a cell that does.
func (r *reader) settle(lines []line) map[Question]string {
	open := map[Question]string{}
	for _, c := range r.head.temps {
		if _, known := open[WhichUnit]; c.unit == "" && !known {
			if example, is := r.unitless(c, lines); is {
				open[WhichUnit] = example
			}
		}
	}
	r.times.learn(r, lines, open)
	return open
}

// unanswered is the error that asks what nobody answered; nil when all is.
func (o Options) unanswered(open map[Question]string) error {
	ask := &AskError{Example: map[Question]string{}}
	for _, q := range []struct {
		Question
		answered bool
	}{{WhichUnit, o.Unit != ""}, {WhichOrder, o.DayFirst != nil}, {WhichZone, o.Zone != nil}} {
		if example, is := open[q.Question]; is && !q.answered {
			ask.Questions = append(ask.Questions, q.Question)
			ask.Example[q.Question] = example
		}
	}
	if len(ask.Questions) == 0 {
		return nil
	}
	return ask
}

// unitless finds a temperature without a unit in a column whose head has none.
func (r *reader) unitless(c column, lines []line) (string, bool) {
	for _, l := range lines {
		if c.at < len(l.cells) && strings.TrimSpace(l.cells[c.at]) != "" && unitIn(" "+l.cells[c.at]) == "" {
			return l.cells[c.at], true
		}
	}
	return "", false
}
