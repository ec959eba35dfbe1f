package web

import (
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/tables"
)

func (s *server) viewPreview(p app.ImportPreview, f app.ImportFile, key string) *previewView {
	v := &previewView{File: f.Name, Kept: []kept{{uploadField, key}}, Read: p.Read, Unused: strings.Join(p.Unused, ", ")}
	asked := map[string]bool{}
	for _, q := range p.Questions {
		a := askedView{Key: q.Key, Asks: q.Asks, Because: q.Because}
		for _, c := range q.Choices {
			a.Options = append(a.Options, option{Value: c.Value, Says: c.Says})
		}
		v.Asked, asked[q.Key] = append(v.Asked, a), true
	}
	for _, setting := range append(tables.Asked(), app.AskSheet) {
		answer := f.Settings[setting]
		if setting == app.AskSheet {
			answer = f.Sheet
		}
		if answer != "" && !asked[setting] {
			v.Kept = append(v.Kept, kept{setting, answer})
		}
	}
	v.mistakes(p, f)
	news := 0
	for i, l := range p.Lines {
		if l.New {
			news++
		}
		if i < shownLines {
			v.Lines = append(v.Lines, previewLine{Rows: rowNumbers(l.Rows), Says: l.Says, Note: l.Note, New: l.New})
		}
	}
	if more := len(p.Lines) - len(v.Lines); more > 0 {
		v.More = times(more, "line more is not shown", "lines more are not shown")
	}
	v.tally(p, news)
	if p.Ready() {
		v.Ready = "Enter " + times(news, "line", "lines")
	}
	if p.Done != nil {
		v.Done = fmt.Sprintf("This file was entered before: %s by %s, %s. Nothing is entered twice.", s.toldAt(p.Done.At), p.Done.Who, times(p.Done.Entries, "entry", "entries"))
	}
	v.Nothing = p.Done == nil && p.Entries == 0 && len(p.Mistakes)+len(p.Questions) == 0
	return v
}

func (v *previewView) tally(p app.ImportPreview, news int) {
	var parts []string
	for _, x := range []struct {
		n    int
		says string
	}{{news, "new"}, {len(p.Lines) - news, "as it is already"}, {len(p.Mistakes), "to mend"}, {len(p.Questions), "to answer"}} {
		if x.n > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", x.n, x.says))
		}
	}
	v.Tally = strings.Join(parts, ", ")
}

// mistakes shows each with a field to mend it in, and keeps what was mended before.
func (v *previewView) mistakes(p app.ImportPreview, f app.ImportFile) {
	all := p.Mistakes
	shown := map[string]bool{}
	for i, m := range all {
		if i >= shownMistakes {
			v.MoreBad = times(len(all)-i, "more is not shown: mend these first", "more are not shown: mend these first")
			break
		}
		x := mistakeView{Where: m.Where(), Text: m.Text, Problem: m.Problem, Fix: m.Fix, Beside: besides(p.Sheet, m)}
		if cell := fmt.Sprintf("%s%d", tables.Letters(m.Column), m.Row); m.Row > 0 && m.Column > 0 && !shown[cell] {
			x.Key, x.ID, shown[cell] = mendField+cell, "mend-"+cell, true
		}
		v.Mistakes = append(v.Mistakes, x)
	}
	var cells []string
	for cell := range f.Mended {
		if !shown[cell] {
			cells = append(cells, cell)
		}
	}
	slices.Sort(cells)
	for _, cell := range cells {
		v.Kept = append(v.Kept, kept{mendField + cell, f.Mended[cell]})
	}
}

// besides is what else stands in the row of a mistake, so that it is known which one it is.
func besides(s tables.Sheet, m tables.Mistake) string {
	if m.Row < 1 || m.Row > len(s.Rows) {
		return ""
	}
	var cells []string
	for i, c := range s.Rows[m.Row-1] {
		if text := tidy(c.Text); text != "" && i+1 != m.Column && len(cells) < 5 {
			cells = append(cells, text)
		}
	}
	return strings.Join(cells, " | ")
}

// rowNumbers is the rows of a line.
func rowNumbers(rows []int) string {
	if n := len(rows); n > 2 && rows[n-1]-rows[0] == n-1 {
		return fmt.Sprintf("%d to %d", rows[0], rows[n-1])
	}
	var all []string
	for _, r := range rows {
		all = append(all, fmt.Sprint(r))
	}
	return strings.Join(all, ", ")
}
