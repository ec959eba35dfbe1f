package labelmaker

import "strings"

// runs are the words of a panel as one text: names strong, figures behind them, percents in parentheses.
func (p Panel) runs() []Run {
	var all []Run
	add := func(text string, strong bool) {
		if text != "" {
			all = append(all, Run{text, strong})
		}
	}
	add(p.Title, true)
	if p.Servings != "" {
		add(" ", false)
		add(p.Servings, false)
	}
	if p.Serving != (Fact{}) {
		add(", ", false)
		add(p.Serving.Name, true)
		add(" "+p.Serving.Is, false)
	}
	columns := p.columns()
	for i := range columns {
		if i > 0 || len(all) > 0 {
			add("; ", false)
		}
		if head := at(p.Heads, i); head != "" && columns > 1 {
			add(head+": ", true)
		} else if p.Amount != "" {
			add(p.Amount+": ", true)
		}
		p.column(i, add)
	}
	add(".", false)
	for _, note := range []string{p.NotSignificant, p.Footnote} {
		if note != "" {
			add(" "+note, false)
		}
	}
	return all
}

// column adds the figures of one column.
func (p Panel) column(i int, add func(text string, strong bool)) {
	between := ""
	one := func(l Line) {
		add(between, false)
		between = ", "
		add(l.label(), l.Strong)
		if !l.within() || i > 0 {
			add(" "+together(l.amount(i)), false)
		}
		if percent := l.percent(i); percent != "" {
			add(together(" ("+strings.TrimSpace(percent+" "+p.PercentOf)+")"), false)
		}
	}
	if p.Calories.Name != "" {
		calories := p.Calories
		calories.Strong = true
		one(calories)
	}
	for _, l := range p.Lines {
		one(l)
	}
}

// together keeps a figure and its unit on one line.
func together(text string) string {
	lead := text[:len(text)-len(strings.TrimLeft(text, " "))]
	return lead + strings.ReplaceAll(text[len(lead):], " ", "\u00a0")
}

// framed is a text in a frame.
type framed struct{ text *text }

func (f framed) set(wide, ease float64) (setting, bool) {
	edge := panelPad + panelStroke
	in, fits := f.text.set(wide-2*edge, ease)
	if !fits {
		return setting{}, false
	}
	s := setting{wide: wide, high: in.high + 2*edge}
	s.marks = func(x, y float64, to *[]Mark) {
		in.marks(x+edge, y+edge, to)
		p := &pen{}
		p.frame(s.wide, s.high)
		for _, m := range p.marks {
			m.X, m.Y = m.X+x, m.Y+y
			*to = append(*to, m)
		}
	}
	return s, true
}
