package tables

import (
	"fmt"
	"strings"
)

// Mistake is something in a sheet that cannot be taken as it is: where it stands, what is wrong and what to do.
type Mistake struct {
	Row     int    `json:"row,omitzero"`    // as a spreadsheet counts, from 1, the header among them; 0: not of one row
	Column  int    `json:"column,omitzero"` // from 1; 0: not of one column
	Head    string `json:"head,omitzero"`   // what stands above the column
	Text    string `json:"text,omitzero"`   // what stands there
	Problem string `json:"problem"`         // to be read after the text: "is a volume"
	Fix     string `json:"fix"`
}

// Where is the place as a spreadsheet shows it: row 3, column B (due).
func (m *Mistake) Where() string {
	var parts []string
	if m.Row > 0 {
		parts = append(parts, fmt.Sprintf("row %d", m.Row))
	}
	if m.Column > 0 {
		column := "column " + Letters(m.Column)
		if m.Head != "" {
			column += " (" + m.Head + ")"
		}
		parts = append(parts, column)
	}
	return strings.Join(parts, ", ")
}

func (m *Mistake) Error() string {
	text := m.Problem
	if m.Text != "" {
		text = fmt.Sprintf("%.60q %s", m.Text, m.Problem)
	}
	if where := m.Where(); where != "" {
		text = where + ": " + text
	}
	return text + ": " + m.Fix
}

// Letters is the name of a column, from 1, as spreadsheets have it: A, Z, AA.
func Letters(column int) string {
	name := ""
	for ; column > 0; column = (column - 1) / 26 {
		name = string(rune('A'+(column-1)%26)) + name
	}
	return name
}
