package workbook

import (
	"bytes"
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"github.com/xuri/excelize/v2"

	"kettlefrost/internal/tables"
)

// mostUnzipped is how large a file may be once it is unpacked.
const mostUnzipped = 128 << 20

// Sheets reads the sheets of an XLSX file that have anything in them. What the file keeps as a number or a day is an exact cell; of a formula
// it is what the program that wrote the file has worked out. The error is *tables.Mistake.
func Sheets(data []byte) (sheets []tables.Sheet, err error) {
	defer func() { // the file is somebody else's, and the library may not expect what is in it
		if trouble := recover(); trouble != nil {
			sheets, err = nil, unreadable(fmt.Errorf("%v", trouble))
		}
	}()
	f, err := excelize.OpenReader(bytes.NewReader(data), excelize.Options{UnzipSizeLimit: mostUnzipped, UnzipXMLSizeLimit: mostUnzipped, RawCellValue: true})
	if err != nil {
		return nil, unreadable(err)
	}
	defer f.Close()
	r := sheetReader{file: f, dated: map[int]bool{}}
	if props, err := f.GetWorkbookProps(); err == nil && props.Date1904 != nil {
		r.from1904 = *props.Date1904
	}
	for _, name := range f.GetSheetList() {
		sheet, err := r.sheet(name)
		if err != nil {
			return nil, unreadable(err)
		}
		if len(sheet.Rows) > 0 {
			sheets = append(sheets, sheet)
		}
	}
	return sheets, nil
}

func unreadable(err error) *tables.Mistake {
	return &tables.Mistake{Problem: "the file cannot be read as a workbook: " + err.Error(), Fix: "save it again as .xlsx without a password, or as CSV in UTF-8"}
}

// Sheet is one sheet of an XLSX file: that of a name, or the only one. The error is *tables.Mistake, or *tables.Question when there are several.
func Sheet(data []byte, name string) (tables.Sheet, error) {
	sheets, err := Sheets(data)
	if err != nil {
		return tables.Sheet{}, err
	}
	q := tables.Question{Key: AskSheet, Asks: "Which sheet?", Because: fmt.Sprintf("the workbook has %d", len(sheets))}
	for _, s := range sheets {
		if s.Name == name || name == "" && len(sheets) == 1 {
			return s, nil
		}
		q.Choices = append(q.Choices, tables.Choice{Value: s.Name, Says: s.Name})
	}
	switch {
	case len(sheets) == 0:
		return tables.Sheet{}, &tables.Mistake{Problem: "the workbook is empty", Fix: "give one with a header and rows"}
	case name != "":
		return tables.Sheet{}, &tables.Mistake{Problem: fmt.Sprintf("the workbook has no sheet called %.40q", name), Fix: "name one of its sheets"}
	}
	return tables.Sheet{}, &q
}

// AskSheet is the question which sheet of a workbook is meant.
const AskSheet = "sheet"

type sheetReader struct {
	file     *excelize.File
	from1904 bool
	dated    map[int]bool // whether a style is one of days
}

func (r *sheetReader) sheet(name string) (tables.Sheet, error) {
	sheet := tables.Sheet{Name: name}
	rows, err := r.file.Rows(name)
	if err != nil {
		return sheet, err
	}
	defer rows.Close()
	for number := 1; rows.Next(); number++ {
		texts, err := rows.Columns(excelize.Options{RawCellValue: true})
		if err != nil {
			return sheet, err
		}
		cells := make([]tables.Cell, len(texts))
		for k, text := range texts {
			cells[k] = tables.Cell{Text: text}
			if value, err := strconv.ParseFloat(text, 64); err == nil {
				if cells[k], err = r.number(name, number, k+1, text, value); err != nil {
					return sheet, err
				}
			}
		}
		sheet.Rows = append(sheet.Rows, cells)
	}
	for n := len(sheet.Rows); n > 0 && len(sheet.Rows[n-1]) == 0; n-- {
		sheet.Rows = sheet.Rows[:n-1]
	}
	return sheet, rows.Error()
}

// number is a cell whose text is a number: kept as one, as a day, or as a text of digits.
func (r *sheetReader) number(sheet string, row, column int, text string, value float64) (tables.Cell, error) {
	at, err := excelize.CoordinatesToCellName(column, row)
	if err != nil {
		return tables.Cell{}, err
	}
	kind, err := r.file.GetCellType(sheet, at)
	if err != nil {
		return tables.Cell{}, err
	}
	if kind != excelize.CellTypeUnset && kind != excelize.CellTypeNumber && kind != excelize.CellTypeFormula || math.IsInf(value, 0) || math.IsNaN(value) {
		return tables.Cell{Text: text}, nil
	}
	style, err := r.file.GetCellStyle(sheet, at)
	if err != nil {
		return tables.Cell{}, err
	}
	if dated, err := r.isDated(style); err != nil || !dated {
		return tables.Cell{Text: fifteen(value), Exact: true}, err
	}
	moment, err := excelize.ExcelDateToTime(value, r.from1904)
	if err != nil {
		return tables.Cell{Text: text}, nil // below zero: no day
	}
	moment = moment.Round(time.Millisecond)
	if moment.Equal(moment.Truncate(24 * time.Hour)) {
		return tables.Cell{Text: moment.Format(time.DateOnly), Exact: true}, nil
	}
	return tables.Cell{Text: moment.Format("2006-01-02T15:04:05.000"), Exact: true}, nil
}

// fifteen is a number to the 15 figures that spreadsheets show, in plain digits: 0.1 and not 0.10000000000000001.
func fifteen(value float64) string {
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(value, 'e', 14, 64), 64)
	if err != nil {
		rounded = value
	}
	return strconv.FormatFloat(rounded, 'f', -1, 64)
}

// isDated says whether a style shows numbers as days.
func (r *sheetReader) isDated(style int) (bool, error) {
	if dated, known := r.dated[style]; known {
		return dated, nil
	}
	s, err := r.file.GetStyle(style)
	if err != nil {
		return false, err
	}
	// 14 to 22 and, in East Asian programs, 27 to 36 and 50 to 58 are built-in formats of days (ECMA-376 part 1, 18.8.30); 18 to 21 are
	// of a time alone.
	n := s.NumFmt
	dated := n >= 14 && n <= 17 || n == 22 || n >= 27 && n <= 36 || n >= 50 && n <= 58
	if s.CustomNumFmt != nil {
		dated = isDayFormat(*s.CustomNumFmt)
	}
	r.dated[style] = dated
	return dated, nil
}

// isDayFormat says whether a number format shows a year or a day, outside quoted text and brackets.
func isDayFormat(format string) bool {
	var plain strings.Builder
	quoted, bracketed, escaped := false, false, false
	for _, c := range strings.ToLower(format) {
		switch {
		case escaped:
			escaped = false
		case c == '"':
			quoted = !quoted
		case quoted:
		case c == '\\' || c == '_' || c == '*':
			escaped = true
		case c == '[' || c == ']':
			bracketed = c == '['
		case !bracketed:
			plain.WriteRune(c)
		}
	}
	p := strings.ReplaceAll(plain.String(), "general", "")
	return strings.ContainsAny(p, "yd")
}
