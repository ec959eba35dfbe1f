package sheet

import (
	"fmt"
	"strconv"

	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

func (w *writer) money(m unit.Money) string { return m.Show(w.plan.Currency) }

// small is money that may be less than can be paid: something is never shown as nothing.
func (w *writer) small(m unit.Money) string {
	if m > 0 && m < unit.Cent {
		return "under " + w.money(unit.Cent)
	}
	return w.money(m)
}

// percent is a share in whole per cent.
func percent(s unit.Share) string { return fmt.Sprintf("%.0f %%", 100*s.F()) }

// mass is a mass, or nothing when it is zero.
func (w *writer) mass(m unit.Mass) string {
	if m == 0 {
		return ""
	}
	return m.Show(w.units)
}

// span is a time, or nothing when it is zero.
func (w *writer) span(d unit.Span) string {
	if d == 0 {
		return ""
	}
	return d.Show(w.units)
}

// number is a figure without trailing zeros, at most two decimals.
func number(x float64) string {
	text := strconv.FormatFloat(x, 'f', 2, 64)
	for text[len(text)-1] == '0' {
		text = text[:len(text)-1]
	}
	if text[len(text)-1] == '.' {
		text = text[:len(text)-1]
	}
	return text
}

// amount is all of a line: its mass, and its pieces or its volume when it has them.
func (w *writer) amount(l plan.Line) string {
	text := l.Mass.Show(w.units)
	if l.Pieces > 0 {
		text += ", " + many(l.Pieces, "piece", "pieces")
	}
	if l.Volume > 0 {
		text += " (" + l.Volume.Show(w.units) + ")"
	}
	return text
}

// lines names several lines with their amounts.
func (w *writer) lines(ls []plan.Line) string {
	var parts []string
	for _, l := range ls {
		parts = append(parts, l.Name+" "+w.amount(l))
	}
	return list("; ", parts...)
}
