package loggerfile

import (
	"regexp"
	"slices"
	"strings"
)

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
