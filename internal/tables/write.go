package tables

import "strings"

// CSV is the table with its header, as RFC 4180 has it. The error is *CellError.
func (t Table) CSV() ([]byte, error) {
	if err := t.Check(); err != nil {
		return nil, err
	}
	var out []byte
	heads := make([]string, len(t.Columns))
	for k, c := range t.Columns {
		heads[k] = guard(c.Head())
	}
	out = appendLine(out, heads)
	for _, row := range t.Rows {
		cells := make([]string, len(row))
		for k, cell := range row {
			if cells[k] = cell; t.Columns[k].Kind == Text {
				cells[k] = guard(cell)
			}
		}
		out = appendLine(out, cells)
	}
	return out, nil
}

// appendLine writes one line. A lone empty field is quoted: as nothing it would be an empty line, which readers pass over.
func appendLine(out []byte, cells []string) []byte {
	for k, cell := range cells {
		if k > 0 {
			out = append(out, ',')
		}
		if strings.ContainsAny(cell, ",\"\r\n") || len(cells) == 1 && cell == "" {
			out = append(out, '"')
			out = append(out, strings.ReplaceAll(cell, `"`, `""`)...)
			out = append(out, '"')
			continue
		}
		out = append(out, cell...)
	}
	return append(out, "\r\n"...)
}

// Fill reads rows that CSV has written into a table with the same columns. Errors are *Mistake and *CellError.
func (t Table) Fill(csv []byte) (Table, error) {
	sheet, err := ReadCSV(csv, ',')
	if err != nil {
		return t, err
	}
	t.Rows = nil
	if len(sheet.Rows) == 0 {
		return t, &Mistake{Problem: "the file is empty", Fix: "give the file with its header"}
	}
	for k, c := range t.Columns {
		if got := sheet.at(0, k); got != c.Head() {
			return t, &Mistake{Row: 1, Column: k + 1, Text: got, Problem: "is not the header " + c.Head(), Fix: "give the table that was written with these columns"}
		}
	}
	for i := range sheet.Rows[1:] {
		row := make([]string, len(t.Columns))
		for k := range row {
			row[k] = sheet.at(i+1, k)
		}
		t.Rows = append(t.Rows, row)
	}
	return t, t.Check()
}
