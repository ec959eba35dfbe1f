package tables

import (
	"bytes"
	"fmt"
	"strings"
	"unicode/utf8"
)

// Cell is what stands in a cell of a sheet. Exact is one that a spreadsheet keeps as a number or a day: a plain decimal, or an ISO date,
// whatever signs its country writes.
type Cell struct {
	Text  string
	Exact bool
}

// Sheet is what somebody sent: rows of cells, the header among them. Rows may differ in length; a cell that is not there is empty.
type Sheet struct {
	Name string
	Rows [][]Cell
}

func (s Sheet) at(row, column int) string {
	if row >= len(s.Rows) || column >= len(s.Rows[row]) {
		return ""
	}
	return s.Rows[row][column].Text
}

// delimiters are what may stand between fields, with how they are called.
var delimiters = []struct {
	sign  byte
	key   string
	calls string
}{{',', "comma", "a comma"}, {';', "semicolon", "a semicolon"}, {'\t', "tab", "a tab"}}

// mostBytes is more than a kitchen's sheet has.
const mostBytes = 16 << 20

// ReadCSV reads a CSV file as RFC 4180 has it, with another sign between the fields if it is said; 0 takes the one that the header shows. Lines
// may end in LF alone, a byte order mark is passed over, empty lines at the end are left out. Where texts were guarded against being
// taken for a formula, they are as they were. Errors are *Mistake, and *Question when the header does not show what stands between fields.
func ReadCSV(data []byte, delimiter byte) (Sheet, error) {
	if m := encodingMistake(data); m != nil {
		return Sheet{}, m
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	if delimiter == 0 {
		var q *Question
		if delimiter, q = delimiterOf(data); q != nil {
			return Sheet{}, q
		}
	}
	r := csvReader{data: data, delimiter: delimiter}
	var sheet Sheet
	for r.pos < len(r.data) {
		row, m := r.line()
		if m != nil {
			return Sheet{}, m
		}
		sheet.Rows = append(sheet.Rows, row)
	}
	for n := len(sheet.Rows); n > 0 && len(sheet.Rows[n-1]) == 1 && sheet.Rows[n-1][0].Text == "" && r.blankEnd; n-- {
		sheet.Rows = sheet.Rows[:n-1]
	}
	return sheet, sameLength(sheet)
}

func encodingMistake(data []byte) *Mistake {
	const fix = "save it again as CSV in UTF-8"
	switch {
	case len(data) > mostBytes:
		return &Mistake{Problem: fmt.Sprintf("the file has more than %d MB", mostBytes>>20), Fix: "divide it into several files"}
	case bytes.HasPrefix(data, []byte{0xff, 0xfe}) || bytes.HasPrefix(data, []byte{0xfe, 0xff}):
		return &Mistake{Problem: "the file is in UTF-16", Fix: fix}
	case bytes.HasPrefix(data, []byte("PK\x03\x04")):
		return &Mistake{Problem: "the file is a workbook, not CSV", Fix: "give it the ending .xlsx"}
	case !utf8.Valid(data):
		at := 0
		for at < len(data) {
			r, size := utf8.DecodeRune(data[at:])
			if r == utf8.RuneError && size == 1 {
				break
			}
			at += size
		}
		row := 1 + bytes.Count(data[:at], []byte("\n"))
		return &Mistake{Row: row, Problem: fmt.Sprintf("the file is not UTF-8: line %d has the byte %#02x", row, data[at]), Fix: fix}
	case bytes.IndexByte(data, 0) >= 0:
		return &Mistake{Row: 1 + bytes.Count(data[:bytes.IndexByte(data, 0)], []byte("\n")), Problem: "the file has a zero byte: it is no text", Fix: fix}
	}
	return nil
}

// delimiterOf is the sign that stands between the fields of the header, when only one can.
func delimiterOf(data []byte) (byte, *Question) {
	counts, quoted := [256]int{}, false
	for _, c := range data {
		if !quoted && c == '\n' {
			break
		}
		if c == '"' {
			quoted = !quoted
		} else if !quoted {
			counts[c]++
		}
	}
	var names []string
	q := Question{Key: AskDelimiter, Asks: "What stands between the columns?"}
	last := byte(',')
	for _, d := range delimiters {
		if counts[d.sign] > 0 {
			last, names = d.sign, append(names, d.calls)
			q.Choices = append(q.Choices, Choice{d.key, d.calls})
		}
	}
	if len(names) <= 1 {
		return last, nil
	}
	q.Because = "the header has " + strings.Join(names, " and ")
	return 0, &q
}

// csvReader walks over a file.
type csvReader struct {
	data      []byte
	pos       int
	delimiter byte
	row       int  // that is being read, from 1
	blankEnd  bool // the last line was empty, not a quoted nothing
}

// line reads one line, which may go over several in quotation marks.
func (r *csvReader) line() ([]Cell, *Mistake) {
	r.row++
	var row []Cell
	for {
		r.blankEnd = true
		text, m := r.field(len(row) + 1)
		if m != nil {
			return nil, m
		}
		row = append(row, Cell{Text: unguard(text)})
		if r.pos < len(r.data) && r.data[r.pos] == r.delimiter {
			r.pos++
			continue
		}
		r.newline()
		return row, nil
	}
}

// newline steps over CRLF or LF, if it is next.
func (r *csvReader) newline() bool {
	rest := r.data[r.pos:]
	switch {
	case bytes.HasPrefix(rest, []byte("\r\n")):
		r.pos += 2
	case bytes.HasPrefix(rest, []byte("\n")):
		r.pos++
	default:
		return false
	}
	return true
}

func (r *csvReader) field(column int) (string, *Mistake) {
	if r.pos < len(r.data) && r.data[r.pos] == '"' {
		r.blankEnd = false
		return r.quoted(column)
	}
	start := r.pos
	for ; r.pos < len(r.data); r.pos++ {
		switch c := r.data[r.pos]; {
		case c == r.delimiter || c == '\n' || c == '\r' && r.pos+1 < len(r.data) && r.data[r.pos+1] == '\n':
			return string(r.data[start:r.pos]), nil
		case c == '"':
			return "", r.wrong(column, string(r.data[start:r.pos+1]), "has a quotation mark within a field", `put the whole field in quotation marks and write "" for one in it`)
		case c == '\r':
			return "", r.wrong(column, string(r.data[start:r.pos]), "has a carriage return without a line feed", "end lines with CRLF or LF, and put a field with a line break in quotation marks")
		}
	}
	return string(r.data[start:]), nil
}

func (r *csvReader) quoted(column int) (string, *Mistake) {
	r.pos++
	var text []byte
	for {
		end := bytes.IndexByte(r.data[r.pos:], '"')
		if end < 0 {
			return "", r.wrong(column, string(text), "begins with a quotation mark that never ends", `write a quotation mark at the end of the field, and "" for one in it`)
		}
		text = append(text, r.data[r.pos:r.pos+end]...)
		r.pos += end + 1
		switch {
		case r.pos == len(r.data) || r.data[r.pos] == r.delimiter || bytes.HasPrefix(r.data[r.pos:], []byte("\n")) || bytes.HasPrefix(r.data[r.pos:], []byte("\r\n")):
			return string(text), nil
		case r.data[r.pos] == '"':
			text = append(text, '"')
			r.pos++
		default:
			return "", r.wrong(column, string(text), "is followed by more after its closing quotation mark", `write "" for a quotation mark in a field`)
		}
	}
}

func (r *csvReader) wrong(column int, text, problem, fix string) *Mistake {
	return &Mistake{Row: r.row, Column: column, Text: text, Problem: problem, Fix: fix}
}

// sameLength names the first row with more or fewer fields than the header.
func sameLength(s Sheet) error {
	for i, row := range s.Rows {
		if want := len(s.Rows[0]); len(row) != want && !(len(row) == 1 && row[0].Text == "") {
			return &Mistake{Row: i + 1, Problem: fmt.Sprintf("has %d fields, and the header has %d", len(row), want), Fix: "put a field with a comma in it in quotation marks, and leave a field empty rather than out"}
		}
	}
	return nil
}
