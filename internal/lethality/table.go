package lethality

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

//go:embed data/meat.csv
var meatCSV string

//go:embed data/poultry.csv
var poultryCSV string

// Class is a class of product that a table is for.
type Class string

const (
	MeatRoast Class = "meat" // beef, pork, lamb and veal: 6.5 tenfold reductions of Salmonella
	Chicken   Class = "chicken"
	Turkey    Class = "turkey"
)

// Row is how long food must stay at or above a temperature.
type Row struct {
	TempF float64
	HoldS float64 // 0: at once
}

// Table is the published times for one class of product, the coldest first.
type Table struct {
	Class  Class
	Rows   []Row
	Logs   float64
	Source string
}

// TableOf is the published table of a class; false when there is none, and then another class's must not be taken.
func TableOf(c Class) (Table, bool) {
	i := slices.IndexFunc(tables, func(t Table) bool { return t.Class == c })
	if i < 0 {
		return Table{}, false
	}
	return tables[i], true
}

var tables = []Table{
	read(MeatRoast, 6.5, meatCSV, "minutes_6.5log", "USDA FSIS Appendix A (1999), meat, 6.5 tenfold of Salmonella; agrees with FDA Food Code 3-401.11(B)"),
	read(Chicken, 7, poultryCSV, "minutes_7log_chicken", "USDA FSIS time-temperature tables for ready-to-eat poultry, chicken of 12 % fat, 7 tenfold of Salmonella"),
	read(Turkey, 7, poultryCSV, "minutes_7log_turkey", "USDA FSIS time-temperature tables for ready-to-eat poultry, turkey of 12 % fat, 7 tenfold of Salmonella"),
}

// read takes one column of an embedded table. A mistake in it stops the program as it starts.
func read(c Class, logs float64, text, column, source string) Table {
	t := Table{Class: c, Logs: logs, Source: source}
	lines, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		panic(fmt.Sprintf("lethality: table of %s: %v", c, err))
	}
	at := slices.Index(lines[0], column)
	for _, line := range lines[1:] {
		temp, err := strconv.ParseFloat(line[0], 64)
		hold, err2 := strconv.ParseFloat(line[at], 64)
		if err != nil || err2 != nil {
			panic(fmt.Sprintf("lethality: table of %s: %q", c, line))
		}
		t.Rows = append(t.Rows, Row{temp, hold * 60})
	}
	return t
}

// row is the row for a reading: that of the whole degree Fahrenheit below it. It is false below the coldest row.
func (t Table) row(tempC float64) (Row, bool) {
	f := math.Floor(tempC*9/5 + 32 + 1e-9)
	found, ok := Row{}, false
	for _, r := range t.Rows {
		if r.TempF <= f {
			found, ok = r, true
		}
	}
	return found, ok
}

// Held is how a heating stands against a table.
type Held struct {
	Met   bool
	Row   Row     // the row that was met first, or the one that came nearest
	HeldS float64 // how long the food was at or above it without a break
	AtS   float64 // when it was met
	// Fractions adds up how much of each interval's time was done: 1 would do if shares might be added. The tables do not say that they may, so
	// it supports and does not decide.
	Fractions float64
	Assumes   []string
}

// Hold judges a heating by a table: some row must be held without a break. An interval counts at its colder end, and a reading at the whole
// degree below it. Errors are *ReadingError.
func Hold(t Table, readings []Reading) (Held, error) {
	if err := check(readings); err != nil {
		return Held{}, err
	}
	h := Held{Assumes: append([]string{fmt.Sprintf("the food is %s: the table of another class is never taken", t.Class), t.Source}, assumes...)}
	best := -1.0
	for _, row := range t.Rows {
		heldS, atS, met := held(row, readings)
		if met && (!h.Met || atS < h.AtS) {
			h.Met, h.Row, h.HeldS, h.AtS = true, row, heldS, atS
		}
		if share := heldS / row.HoldS; !h.Met && heldS > 0 && share > best {
			best, h.Row, h.HeldS = share, row, heldS
		}
	}
	h.Fractions = t.fractions(readings)
	return h, nil
}

// held is the longest time without a break at or above a row, and when its time was full.
func held(row Row, readings []Reading) (longestS, atS float64, met bool) {
	ranS := -1.0
	for i, r := range readings {
		switch {
		case math.Floor(r.TempC*9/5+32+1e-9) < row.TempF:
			ranS = -1
			continue
		case ranS < 0:
			ranS = 0
		default:
			ranS += r.TimeS - readings[i-1].TimeS
		}
		longestS = max(longestS, ranS)
		if ranS >= row.HoldS-1e-9 && !met {
			met, atS = true, r.TimeS-(ranS-row.HoldS)
		}
	}
	return longestS, atS, met
}

func (t Table) fractions(readings []Reading) float64 {
	sum := 0.0
	for i := 1; i < len(readings); i++ {
		row, ok := t.row(min(readings[i-1].TempC, readings[i].TempC))
		switch dt := readings[i].TimeS - readings[i-1].TimeS; {
		case !ok:
		case row.HoldS == 0:
			sum++
		default:
			sum += dt / row.HoldS
		}
	}
	return sum
}
