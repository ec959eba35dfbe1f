package app

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"kettlefrost/internal/record"
	"kettlefrost/internal/tables"
	"kettlefrost/internal/unit"
)

// Cells of exported tables: exact, and in one unit for a column whatever the kitchen reads.

// decimal is v counted in units of the last of so many places, with at least some of them.
func decimal(v int64, places, least int) string {
	sign := ""
	digits := strconv.FormatInt(v, 10)
	if v < 0 {
		sign, digits = "-", digits[1:]
	}
	if len(digits) <= places {
		digits = strings.Repeat("0", places+1-len(digits)) + digits
	}
	whole, fraction := digits[:len(digits)-places], digits[len(digits)-places:]
	for len(fraction) > least && fraction[len(fraction)-1] == '0' {
		fraction = fraction[:len(fraction)-1]
	}
	if fraction == "" {
		return sign + whole
	}
	return sign + whole + "." + fraction
}

// kilos is a mass in kilograms: unit.Mass counts nanograms.
func kilos(m unit.Mass) string { return decimal(int64(m), 12, 0) }

// given is a mass in kilograms that somebody may have left out.
func given(m unit.Mass) string {
	if m == 0 {
		return ""
	}
	return kilos(m)
}

// money is an amount in the kitchen's currency: unit.Money counts millionths.
func money(m unit.Money) string { return decimal(int64(m), 6, 2) }

func paid(m unit.Money) string {
	if m == 0 {
		return ""
	}
	return money(m)
}

// celsius is a temperature in °C to a millionth, which is finer than unit.Temp.
func celsius(t unit.Temp) string {
	text := strconv.FormatFloat(t.C(), 'f', 6, 64)
	text = strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
	if text == "-0" {
		return "0"
	}
	return text
}

func whole(n int64) string { return strconv.FormatInt(n, 10) }

func counted(n int64) string {
	if n == 0 {
		return ""
	}
	return whole(n)
}

func moment(at record.Instant) string {
	return time.UnixMilli(int64(at)).UTC().Format("2006-01-02T15:04:05.000Z")
}

func yesNo(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}

// columns makes columns of short words: a name, and behind a bar the kind or the unit: "mass|kg", "due|day", "at|time", "count|whole".
func columns(names ...string) []tables.Column {
	kinds := map[string]tables.Kind{"": tables.Text, "day": tables.Day, "time": tables.Time, "whole": tables.Whole, "decimal": tables.Decimal, "yes": tables.YesNo}
	var all []tables.Column
	for _, n := range names {
		name, kind, _ := strings.Cut(n, "|")
		c := tables.Column{Name: name}
		if k, known := kinds[kind]; known {
			c.Kind = k
		} else {
			c.Kind, c.Unit = tables.Decimal, kind
		}
		if c.Kind == tables.Time {
			c.Unit = "UTC"
		}
		all = append(all, c)
	}
	return all
}

// row adds a row.
func row(t *tables.Table, cells ...string) {
	if len(cells) != len(t.Columns) {
		panic(fmt.Sprintf("app: a row of %s has %d cells, and it has %d columns", t.Name, len(cells), len(t.Columns)))
	}
	t.Rows = append(t.Rows, cells)
}
