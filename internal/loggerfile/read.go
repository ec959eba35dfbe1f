package loggerfile

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
	"regexp"
	"slices"
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

// column is one column of the table.
type column struct {
	at   int
	name string
	unit Unit // "" when its head does not say
}

// head is what the columns are.
type head struct {
	when  []int // one column, or a date and a time
	epoch bool
	temps []column
	zone  string // an offset that stands in the head of the times: "GMT-05:00"
}

var (
	tempName  = regexp.MustCompile(`(?i)temp|celsius|fahrenheit|°\s*[cf]\b|\b(deg|degrees)\s*[cf]\b|^(probe|channel|ch|sensor)\b`)
	celsius   = regexp.MustCompile(`(?i)celsius|°\s*c\b|℃|(deg|degrees|[\s_(\[])\s*c\b`)
	fahr      = regexp.MustCompile(`(?i)fahrenheit|°\s*f\b|℉|(deg|degrees|[\s_(\[])\s*f\b`)
	dateName  = regexp.MustCompile(`(?i)^(date|day|fecha|datum)\b`)
	timeName  = regexp.MustCompile(`(?i)^(time|hour|hora|zeit)\b`)
	whenName  = regexp.MustCompile(`(?i)time\s*stamp|timestamp|date\W*time|^when$|^(date|time)$|^logged|epoch|unix`)
	notTemp   = regexp.MustCompile(`(?i)humid|\brh\b|dew|battery|volt|alarm|limit|min\b|max\b`)
	headZone  = regexp.MustCompile(`(?i)(?:GMT|UTC)\s*([+-]\d{1,2}:?\d{0,2})?`)
	epochName = regexp.MustCompile(`(?i)epoch|unix`)
)

// findHead is the first line that names times and temperatures.
func findHead(lines []line) (head, int, bool) {
	for i, l := range lines[:min(len(lines), headLines)] {
		if h, ok := readHead(l.cells); ok && len(h.temps) > 0 {
			return h, i, true
		}
	}
	for i, l := range lines[:min(len(lines), headLines)] { // heads that name places: Date, Time, Walk-in, Chest
		if h, ok := readHead(l.cells); ok && h.byNumbers(l.cells, lines[i+1:min(len(lines), i+1+headLines)]) {
			return h, i, true
		}
	}
	return head{}, 0, false
}

// headLines are as many as are looked at for the head of a table, and for what stands below it.
const headLines = 60

// byNumbers takes as temperatures the columns that hold numbers as a temperature may be, and are called nothing else. Which probe each is has to
// be asked in any case.
func (h *head) byNumbers(cells []string, below []line) bool {
	for i, c := range cells {
		name := strings.TrimSpace(c)
		if name == "" || len(name) > 100 || slices.Contains(h.when, i) || notTemp.MatchString(name) || noProbe.MatchString(name) {
			continue
		}
		numbers, filled := 0, 0
		for _, l := range below {
			if i >= len(l.cells) || strings.TrimSpace(l.cells[i]) == "" {
				continue
			}
			filled++
			if x, flag := ReadTemp(l.cells[i], Celsius); flag == "" && x > -150 && x < 700 {
				numbers++
			}
		}
		if filled > 0 && numbers*2 > filled {
			h.temps = append(h.temps, column{i, name, unitIn(name)})
		}
	}
	return len(h.temps) > 0
}

// noProbe are columns of numbers that say something of the logger.
var noProbe = regexp.MustCompile(`(?i)^(no\.?|nr\.?|number|index|line|record|count|id|serial|seq.*|price|qty|weight|pressure|co2|lux|light|signal|rssi)\b|^#`)

func readHead(cells []string) (head, bool) {
	h := head{}
	date, clock, both := -1, -1, -1
	for i, c := range cells {
		name := strings.TrimSpace(c)
		switch {
		case name == "" || len(name) > 100 || !strings.ContainsFunc(name, isLetter):
		case whenName.MatchString(name) && !(strings.EqualFold(name, "date") || strings.EqualFold(name, "time")):
			both, h.epoch = i, epochName.MatchString(name)
		case dateName.MatchString(name) && date < 0:
			date = i
		case timeName.MatchString(name) && clock < 0:
			clock = i
		case tempName.MatchString(name) && !notTemp.MatchString(name):
			h.temps = append(h.temps, column{i, name, unitIn(name)})
		}
		if z := headZone.FindString(name); z != "" {
			h.zone = z
		}
	}
	switch {
	case both >= 0:
		h.when = []int{both}
	case date >= 0 && clock >= 0:
		h.when = []int{date, clock}
	case date >= 0 || clock >= 0:
		h.when = []int{max(date, clock)}
	}
	return h, len(h.when) > 0
}

func isLetter(r rune) bool { return r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r == '°' }

// unitIn is the unit that a text names, "" for none or both.
func unitIn(text string) Unit {
	c, f := celsius.MatchString(text), fahr.MatchString(text)
	switch {
	case c && !f:
		return Celsius
	case f && !c:
		return Fahrenheit
	}
	return ""
}

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
