// Package workbook writes typed tables as one XLSX file and reads the sheets of one. A text is kept as a text, so that nothing that
// somebody wrote is ever run as a formula; a number is kept as a number as long as 15 figures hold all of it, and as a text beyond that.
package workbook

import (
	"fmt"
	"io"
	"strconv"
	"strings"
	"time"
	"unicode/utf16"

	"github.com/xuri/excelize/v2"

	"kettlefrost/internal/tables"
)

// Limits of a sheet by ECMA-376 and the programs that read it.
const (
	mostRows  = 1_048_576
	mostUnits = 32_767 // UTF-16 units in a cell
	mostName  = 31     // characters in a sheet's name
)

// Write writes each table as a sheet of its own, in their order; one with more rows than a sheet has goes on in another. Errors are
// *tables.CellError and those of the writer.
func Write(w io.Writer, all []tables.Table) error {
	return write(w, all, mostRows)
}

func write(w io.Writer, all []tables.Table, most int) error {
	f := excelize.NewFile()
	defer f.Close()
	s, err := newStyles(f)
	if err != nil {
		return fmt.Errorf("workbook: %w", err)
	}
	first := true
	for _, t := range all {
		if err := t.Check(); err != nil {
			return err
		}
		rows := t.Rows
		for part := 1; part == 1 || len(rows) > 0; part++ {
			now := rows[:min(len(rows), most-1)]
			rows = rows[len(now):]
			if err := s.sheet(f, sheetName(t.Name, part), tables.Table{Columns: t.Columns, Rows: now}, first); err != nil {
				return fmt.Errorf("workbook: sheet %s: %w", t.Name, err)
			}
			first = false
		}
	}
	return f.Write(w)
}

// sheetName is a name that a sheet may have.
func sheetName(name string, part int) string {
	suffix := ""
	if part > 1 {
		suffix = fmt.Sprintf(" %d", part)
	}
	name = strings.Map(func(r rune) rune {
		if strings.ContainsRune(`:\/?*[]`, r) {
			return ' '
		}
		return r
	}, strings.Trim(name, "'"))
	runes := []rune(name)
	return string(runes[:min(len(runes), mostName-len(suffix))]) + suffix
}

// styles are how cells look, by their kind.
type styles struct {
	head   int
	ofKind map[tables.Kind]int
}

func newStyles(f *excelize.File) (styles, error) {
	day, moment := "yyyy-mm-dd", "yyyy-mm-dd hh:mm:ss.000"
	s := styles{ofKind: map[tables.Kind]int{}}
	var err error
	if s.head, err = f.NewStyle(&excelize.Style{Font: &excelize.Font{Bold: true}, Alignment: &excelize.Alignment{WrapText: true, Vertical: "top"}}); err != nil {
		return s, err
	}
	for kind, style := range map[tables.Kind]*excelize.Style{tables.Day: {CustomNumFmt: &day}, tables.Time: {CustomNumFmt: &moment}, tables.Text: {NumFmt: 49}} {
		if s.ofKind[kind], err = f.NewStyle(style); err != nil {
			return s, err
		}
	}
	return s, nil
}

func (s styles) sheet(f *excelize.File, name string, t tables.Table, first bool) error {
	if first {
		if err := f.SetSheetName(f.GetSheetName(0), name); err != nil {
			return err
		}
	} else if _, err := f.NewSheet(name); err != nil {
		return err
	}
	w, err := f.NewStreamWriter(name)
	if err != nil {
		return err
	}
	if err := w.SetColWidth(1, max(1, len(t.Columns)), 18); err != nil {
		return err
	}
	if err := w.SetPanes(&excelize.Panes{Freeze: true, YSplit: 1, TopLeftCell: "A2", ActivePane: "bottomLeft"}); err != nil {
		return err
	}
	var heads []any
	for _, c := range t.Columns {
		heads = append(heads, excelize.Cell{StyleID: s.head, Value: c.Head()})
	}
	if err := w.SetRow("A1", heads); err != nil {
		return err
	}
	for i, row := range t.Rows {
		cells := make([]any, len(row))
		for k, text := range row {
			if text != "" {
				kind := t.Columns[k].Kind
				cells[k] = excelize.Cell{StyleID: s.ofKind[kind], Value: valueOf(kind, text)}
			}
		}
		if err := w.SetRow(fmt.Sprintf("A%d", i+2), cells); err != nil {
			return err
		}
	}
	return w.Flush()
}

// valueOf is a cell as the file keeps it.
func valueOf(kind tables.Kind, text string) any {
	switch kind {
	case tables.Whole, tables.Decimal:
		if figures(text) <= 15 { // a float64 gives back as many
			if n, err := strconv.ParseFloat(text, 64); err == nil {
				return n
			}
		}
	case tables.Day:
		if at, err := time.Parse(time.DateOnly, text); err == nil && at.Year() >= 1901 {
			return serial(at)
		}
	case tables.Time:
		if at, err := time.Parse("2006-01-02T15:04:05.000Z", text); err == nil && at.Year() >= 1901 {
			return serial(at)
		}
	}
	return fitting(text)
}

// serial is a time in days since 1899-12-30, as spreadsheets count from 1 March 1900 on.
func serial(at time.Time) float64 {
	return float64(at.UnixMilli()-time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC).UnixMilli()) / (24 * 60 * 60 * 1000)
}

func figures(decimal string) int {
	return len(strings.TrimLeft(strings.NewReplacer("-", "", ".", "").Replace(decimal), "0"))
}

// cut ends a text that a cell cannot hold whole.
const cut = " … (cut here: the CSV file has all of it)"

// fitting is a text that a cell can hold.
func fitting(text string) string {
	units := utf16.Encode([]rune(text))
	if len(units) <= mostUnits {
		return text
	}
	keep := mostUnits - len(utf16.Encode([]rune(cut)))
	if utf16.IsSurrogate(rune(units[keep-1])) && units[keep-1] < 0xdc00 { // half of a pair
		keep--
	}
	return string(utf16.Decode(units[:keep])) + cut
}
