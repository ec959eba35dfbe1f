package tables

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// Kind is what stands in a column.
type Kind int

const (
	Text    Kind = iota // as somebody wrote it
	Whole               // a whole number: -12
	Decimal             // an exact decimal: 12.5
	Day                 // a date: 2026-12-01
	Time                // a time in UTC: 2026-12-01T14:05:00.000Z
	YesNo               // yes or no
)

// Column is one column of a table.
type Column struct {
	Name string // "net mass"
	Unit string // of a decimal: "kg"; stands in the header
	Kind Kind
}

// Head is what stands above the column.
func (c Column) Head() string {
	if c.Unit == "" {
		return c.Name
	}
	return c.Name + " (" + c.Unit + ")"
}

// Table is rows of typed cells. A cell is the text of its kind and of no other form, so that equal cells are equal texts; an empty one says
// nothing.
type Table struct {
	Name    string // of its file and its sheet: lower-case words
	About   string // what a row is
	Columns []Column
	Rows    [][]string
}

// CellError is a cell that is not of its column's kind.
type CellError struct {
	Table  string
	Row    int // of the table, from 1, the header not counted
	Column string
	Text   string
	Want   string
}

func (e *CellError) Error() string {
	return fmt.Sprintf("tables: %s: row %d, column %s: %.40q is not %s", e.Table, e.Row, e.Column, e.Text, e.Want)
}

var wants = [...]string{Text: "text in UTF-8", Whole: "a whole number in plain digits", Decimal: "a plain decimal", Day: "a date such as 2026-12-01", Time: "a time such as 2026-12-01T14:05:00.000Z", YesNo: "yes or no"}

// Check holds every cell against its column. The error is *CellError.
func (t Table) Check() error {
	for i, row := range t.Rows {
		if len(row) != len(t.Columns) {
			return &CellError{Table: t.Name, Row: i + 1, Column: "?", Text: strings.Join(row, ","), Want: fmt.Sprintf("%d cells", len(t.Columns))}
		}
		for k, cell := range row {
			if c := t.Columns[k]; cell != "" && !c.Kind.allows(cell) {
				return &CellError{Table: t.Name, Row: i + 1, Column: c.Head(), Text: cell, Want: wants[c.Kind]}
			}
		}
	}
	return nil
}

func (k Kind) allows(cell string) bool {
	switch k {
	case Whole:
		return isDecimal(cell) && !strings.Contains(cell, ".")
	case Decimal:
		return isDecimal(cell)
	case Day:
		return isDay(cell)
	case Time:
		return isTime(cell)
	case YesNo:
		return cell == "yes" || cell == "no"
	}
	return utf8.ValidString(cell)
}

// isDecimal says whether s is a decimal in plain digits, without a zero that is not needed before the point, and not minus nothing.
func isDecimal(s string) bool {
	s, negative := strings.CutPrefix(s, "-")
	before, after, point := strings.Cut(s, ".")
	digits := func(d string) bool { return d != "" && strings.Trim(d, "0123456789") == "" }
	return digits(before) && (before == "0" || before[0] != '0') && (!point || digits(after)) && !(negative && strings.Trim(s, "0.") == "")
}

// isDay says whether s is a date of the Gregorian calendar as in 2026-12-01.
func isDay(s string) bool {
	if len(s) != 10 || s[4] != '-' || s[7] != '-' {
		return false
	}
	year, ok1 := number(s[:4])
	month, ok2 := number(s[5:7])
	day, ok3 := number(s[8:])
	return ok1 && ok2 && ok3 && year >= 1 && day >= 1 && day <= daysIn(year, month)
}

// daysIn is 0 for what is no month.
func daysIn(year, month int) int {
	if month < 1 || month > 12 {
		return 0
	}
	if month == 2 && year%4 == 0 && (year%100 != 0 || year%400 == 0) {
		return 29
	}
	return [...]int{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}[month-1]
}

// number reads plain digits.
func number(s string) (n int, ok bool) {
	if s == "" || len(s) > 9 || strings.Trim(s, "0123456789") != "" {
		return 0, false
	}
	for i := range len(s) {
		n = 10*n + int(s[i]-'0')
	}
	return n, true
}

// isTime says whether s is a time in UTC with milliseconds: 2026-12-01T14:05:00.000Z.
func isTime(s string) bool {
	if len(s) != 24 || s[10] != 'T' || s[13] != ':' || s[16] != ':' || s[19] != '.' || s[23] != 'Z' || !isDay(s[:10]) {
		return false
	}
	hour, ok1 := number(s[11:13])
	minute, ok2 := number(s[14:16])
	second, ok3 := number(s[17:19])
	_, ok4 := number(s[20:23])
	return ok1 && ok2 && ok3 && ok4 && hour < 24 && minute < 60 && second < 60
}
