package loggerfile

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// reader turns lines into readings.
type reader struct {
	head         head
	opt          Options
	decimalComma bool
	times        times
}

func (r *reader) unitOf(c column) Unit {
	if c.unit != "" {
		return c.unit
	}
	return r.opt.Unit
}

// line adds the readings of a line; false when nothing stands in any of its columns.
func (r *reader) line(l line, channels []Channel) bool {
	when := r.when(l)
	at, odd, dated := r.times.read(when, r)
	any := false
	for i, c := range r.head.temps {
		raw := ""
		if c.at < len(l.cells) {
			raw = strings.TrimSpace(l.cells[c.at])
		}
		if raw == "" && (when == "" || len(r.head.temps) > 1) {
			continue
		}
		any = true
		x := Reading{Line: l.number, At: at, Raw: raw, RawAt: when, Flags: slices.Clone(odd)}
		if !dated {
			x.Flags = append(x.Flags, NoTime)
		}
		temp, read := r.temp(raw, r.unitOf(c))
		if x.TempC = temp; !read {
			x.Flags = append(x.Flags, NoNumber)
		}
		channels[i].Readings = append(channels[i].Readings, x)
	}
	return any
}

// when is the text that stands for the time of a line.
func (r *reader) when(l line) string {
	var words []string
	for _, at := range r.head.when {
		if at < len(l.cells) {
			if w := strings.TrimSpace(l.cells[at]); w != "" {
				words = append(words, w)
			}
		}
	}
	return strings.Join(words, " ")
}

var number = regexp.MustCompile(`^([+-]?\d+(?:[.,]\d+)?)\s*(.*)$`)

// temp reads a cell, in its own unit if it has one.
func (r *reader) temp(raw string, unit Unit) (float64, bool) {
	if x, err := strconv.ParseFloat(raw, 64); err == nil && !strings.ContainsAny(raw, "xXpPeEnN_") {
		return inCelsius(x, unit), true
	}
	raw = strings.ReplaceAll(raw, "\u2212", "-")
	m := number.FindStringSubmatch(raw)
	if m == nil {
		return 0, false
	}
	digits := m[1]
	if strings.Contains(digits, ",") {
		if !r.decimalComma {
			return 0, false
		}
		digits = strings.Replace(digits, ",", ".", 1)
	}
	x, err := strconv.ParseFloat(digits, 64)
	if own := unitIn(" " + m[2]); own != "" {
		unit = own
	} else if m[2] != "" {
		return 0, false // 38 volts are no temperature
	}
	return inCelsius(x, unit), err == nil
}

func inCelsius(x float64, unit Unit) float64 {
	if unit == Fahrenheit {
		return (x - 32) * 5 / 9
	}
	return x
}

// What a cable, a freezer or a pot can show.
const (
	coldestC = -90
	hottestC = 350
)

// flag marks what is odd about the readings of a channel beside each other.
func (c *Channel) flag(opt Options) {
	c.TypicalS = c.typical()
	beside := Neighbours{TypicalS: c.TypicalS, Received: opt.Received}
	for i := range c.Readings {
		beside.Flag(&c.Readings[i])
	}
}

// otherUnit says whether a step between two readings looks like a change of unit: what one is in the other's unit is near the other, and they
// are far apart.
func otherUnit(a, b float64) bool {
	near := func(x, y float64) bool { return math.Abs(x-y) <= 3 }
	return math.Abs(a-b) > 12 && (near(a*9/5+32, b) || near((a-32)*5/9, b))
}

// typical is the median time between readings that follow each other.
func (c *Channel) typical() float64 {
	var gaps []float64
	for i := 1; i < len(c.Readings); i++ {
		if a, b := c.Readings[i-1], c.Readings[i]; a.Valued() && b.Valued() && b.At.After(a.At) {
			gaps = append(gaps, b.At.Sub(a.At).Seconds())
		}
	}
	if len(gaps) == 0 {
		return 0
	}
	slices.Sort(gaps)
	return gaps[len(gaps)/2]
}

// ReadTemp reads a temperature that stands alone, in °C: in its own unit if it has one (38.1 °F), else in the given one. Without either there is
// none, and without a number neither.
func ReadTemp(raw string, unit Unit) (float64, Flag) {
	raw = strings.TrimSpace(raw)
	r := reader{decimalComma: true}
	temp, read := r.temp(raw, unit)
	switch {
	case !read:
		return 0, NoNumber
	case unit == "" && unitIn(" "+strings.TrimLeft(raw, "+-0123456789., \u2212")) == "":
		return 0, NoUnit
	}
	return temp, ""
}
