package sheet

import (
	"slices"
	"strings"
)

// column is one column of a table.
type column struct {
	head  string
	right bool // figures stand to the right
	wraps bool // may be made narrower than its longest cell
}

// table lays cells out in columns. Columns without any cell are left out.
type table struct {
	indent  int
	columns []column
	rows    []row
}

// row is a row of cells, or text across the whole table.
type row struct {
	cells  []string
	text   string
	indent int  // of the text, beside that of the table
	title  bool // the text opens a part of the table
}

func (t *table) add(cells ...string) {
	all := make([]string, len(t.columns))
	for i, c := range cells {
		all[i] = clean(c)
	}
	t.rows = append(t.rows, row{cells: all})
}

// title opens a part of the table below an empty line; all parts stand in the same columns. It need not have a text.
func (t *table) title(text string) { t.rows = append(t.rows, row{text: text, title: true}) }

// under adds text below a row, indented, across all columns. Empty text adds nothing.
func (t *table) under(indent int, text string) {
	if clean(text) != "" {
		t.rows = append(t.rows, row{text: text, indent: indent})
	}
}

const (
	gutter   = 2  // spaces between columns
	narrowed = 16 // no wrapping column is made narrower, unless there is no other way
)

// table writes t, with a line under its heads.
func (w *writer) table(t table) {
	t = t.withoutEmpty()
	if len(t.rows) == 0 || len(t.columns) == 0 {
		return
	}
	widths := t.widths()
	heads, rules, headed := make([]string, len(t.columns)), make([]string, len(t.columns)), false
	for i, c := range t.columns {
		heads[i] = c.head
		if c.head != "" {
			rules[i], headed = strings.Repeat("-", widths[i]), true
		}
	}
	if headed {
		w.row(t, widths, heads, true)
		w.row(t, widths, rules, false)
	}
	for _, r := range t.rows {
		switch {
		case r.title:
			w.gap()
			w.para(t.indent, r.text)
		case r.cells == nil:
			w.para(t.indent+r.indent, r.text)
		default:
			w.row(t, widths, r.cells, false)
		}
	}
}

// row writes the cells of a row, on as many lines as its longest cell needs; heads stand on their line, other cells hang from it.
func (w *writer) row(t table, widths []int, cells []string, heads bool) {
	parts, most := make([][]string, len(cells)), 1
	for i, c := range cells {
		parts[i] = wrap(c, widths[i])
		most = max(most, len(parts[i]))
	}
	for n := range most {
		line := strings.Repeat(" ", t.indent)
		for i, p := range parts {
			cell, k := "", n
			if heads {
				k -= most - len(p)
			}
			if k >= 0 && k < len(p) {
				cell = p[k]
			}
			if i > 0 {
				line += strings.Repeat(" ", gutter)
			}
			line += pad(cell, widths[i], t.columns[i].right)
		}
		w.raw(line)
	}
}

func (t table) withoutEmpty() table {
	kept := table{indent: t.indent, rows: slices.Clone(t.rows)}
	for n := range kept.rows {
		kept.rows[n].cells = nil
	}
	for i, c := range t.columns {
		if !slices.ContainsFunc(t.rows, func(r row) bool { return r.cells != nil && r.cells[i] != "" }) {
			continue
		}
		kept.columns = append(kept.columns, c)
		for n, r := range t.rows {
			if r.cells != nil {
				kept.rows[n].cells = append(kept.rows[n].cells, r.cells[i])
			}
		}
	}
	return kept
}

// shortHead is the widest head that is kept on one line.
const shortHead = 13

// widths gives each column what its longest cell needs, and takes back from the widest of those that wrap, then from the widest
// of all, until the table fits the page.
func (t table) widths() []int {
	widths := make([]int, len(t.columns))
	total := t.indent + gutter*(len(t.columns)-1)
	for i, c := range t.columns {
		widths[i] = headWidth(c.head)
		for _, r := range t.rows {
			if r.cells != nil {
				widths[i] = max(widths[i], columns(r.cells[i]))
			}
		}
		total += widths[i]
	}
	least := t.longestWords()
	for ; total > pageWidth; total-- {
		i := t.widest(widths, least, true)
		if i < 0 {
			i = t.widest(widths, make([]int, len(widths)), false) // some word has to break
		}
		if i < 0 {
			break
		}
		widths[i]--
	}
	return widths
}

// longestWords is what each column needs so that no word in it breaks, at least narrowed.
func (t table) longestWords() []int {
	words := make([]int, len(t.columns))
	for i := range t.columns {
		words[i] = narrowed
		for _, r := range t.rows {
			if r.cells == nil {
				continue
			}
			for word := range strings.FieldsSeq(r.cells[i]) {
				words[i] = max(words[i], columns(word))
			}
		}
	}
	return words
}

// headWidth is what a head needs: all of a short one, the longest word of a long one.
func headWidth(head string) int {
	if columns(head) <= shortHead {
		return columns(head)
	}
	most := 0
	for word := range strings.FieldsSeq(head) {
		most = max(most, columns(word))
	}
	return most
}

// widest is the widest column above its least width, among all or those that wrap; -1 when there is none.
func (t table) widest(widths, least []int, wrapsOnly bool) int {
	best := -1
	for i, c := range t.columns {
		if (c.wraps || !wrapsOnly) && widths[i] > max(1, least[i]) && (best < 0 || widths[i] > widths[best]) {
			best = i
		}
	}
	return best
}
