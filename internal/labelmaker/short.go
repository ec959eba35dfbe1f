package labelmaker

import (
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/finding"
)

// doesNotFit says how much room is missing and what would do.
func doesNotFit(c Content, s Stock, r Rules, p parts) finding.Finding {
	f := finding.Finding{Code: CodeDoesNotFit, Severity: finding.Stop, Where: "label of " + s.Name, Source: sources(c, r)}
	fr := frameOf(s, r)
	if names, need := p.tooWide(fr.wide); len(names) > 0 {
		f.Message = fmt.Sprintf("%s cannot be set in the width of the label, whatever its height", strings.Join(names, ", "))
		f.Figures = []finding.Figure{mm("width needed", need/PtPerMm+2*s.MarginMm), mm("width of the label", s.WideMm)}
	} else if high, enough := p.highNeeded(s, r); enough {
		short := (high - s.HighMm) * s.WideMm / 100
		f.Message = "what must be on it does not fit, with every type at its least"
		f.Figures = []finding.Figure{mm("height needed at this width", high), mm("height of the label", s.HighMm),
			{Name: "area short", Value: short, Unit: "cm2", Text: fmt.Sprintf("%.1f cm2 (%.1f sq in)", short, short/6.4516)}}
		if free := r; r.NetWithin > 0 {
			if free.NetWithin = 0; fits(c, s, free) {
				f.Message += fmt.Sprintf("; it would but for the rule that the net quantity stands in the lowest %.0f %% of the label", 100*r.NetWithin)
			}
		}
	} else {
		f.Message = fmt.Sprintf("what must be on it does not fit in this width on any label up to %g mm high", largestMm)
	}
	f.Fix = wayOut(Ways(c, s, r))
	return f
}

// mostWays are as many as are named.
const mostWays = 4

// wayOut is what would do, in words, and what alone would not.
func wayOut(ways []Way) string {
	var does, not []string
	for _, w := range ways {
		if w.Does {
			does = append(does, w.Says)
		} else {
			not = append(not, w.Says)
		}
	}
	out := "none of the common sizes holds it: take some of it off, or give a free size"
	if len(does) > 0 {
		out = "any of these would do (each was tried): " + strings.Join(does[:min(len(does), mostWays)], "; ")
	}
	if len(not) > 0 {
		out += ". This alone would not: " + strings.Join(not, "; ")
	}
	return out
}

// sources of the type heights of what is on the label, each once.
func sources(c Content, r Rules) string {
	var all []string
	for said := range c.texts() {
		l := r.Least[said.element]
		source := l.Source
		if l.Confirm != "" && l.Confirm != source {
			source += " (" + l.Confirm + ")"
		}
		if source != "" && !slices.Contains(all, source) {
			all = append(all, source)
		}
	}
	return strings.Join(all, "; ")
}

// tooWide names what cannot be set in a width at its least, and how wide the widest of it must be.
func (p parts) tooWide(wide float64) (names []string, need float64) {
	try := func(one part) {
		if _, fits := one.set(wide, 0); fits {
			return
		}
		low, high := wide, largestMm*PtPerMm
		for high-low > 0.1 {
			middle := (low + high) / 2
			if _, fits := one.set(middle, 0); fits {
				high = middle
			} else {
				low = middle
			}
		}
		names = append(names, nameOf(one))
		need = max(need, high)
	}
	if p.head != nil {
		for _, one := range p.head.parts {
			try(one)
		}
	}
	for _, g := range p.body {
		if g.tall != nil { // at the side of a label that is high enough
			if _, fits := g.tall(largestMm*PtPerMm).set(sides[len(sides)-1]*wide, 0); fits {
				continue
			}
		}
		for _, one := range g.part.(stack).parts {
			try(one)
		}
	}
	if p.foot != nil {
		try(p.foot)
	}
	return names, need
}

// nameOf a part, for a cook.
func nameOf(p part) string {
	switch p := p.(type) {
	case *text:
		return p.element.String()
	case *panel, framed:
		return "nutrition panel"
	case *bars:
		return "bar code"
	case *square:
		return "QR code"
	case *foot:
		return NetQuantity.String()
	}
	return "a part"
}

// Shortest is how high, in millimetres, a label as wide as the stock's must be to hold a content with the least type: what to cut from a roll without
// gaps. It is false when no label of 10 to 500 mm holds it, or when Lay would refuse it for another reason.
func Shortest(c Content, s Stock, r Rules) (float64, bool) {
	s.HighMm = smallestMm
	s.MarginMm = min(s.MarginMm, smallestMm/4)
	if len(refuse(c, s)) > 0 {
		return 0, false
	}
	return partsOf(c, s, r).highNeeded(s, r)
}

// highNeeded is how high, in millimetres, a label of the same width must be; false when no height does.
func (p parts) highNeeded(s Stock, r Rules) (float64, bool) {
	at := func(high float64) bool {
		s.HighMm = high
		_, fits := p.again(frameOf(s, r), 0, 0)
		return fits
	}
	low, high := s.HighMm, s.HighMm
	for !at(high) {
		if high >= largestMm {
			return 0, false
		}
		low, high = high, min(2*high, largestMm)
	}
	for high-low > 0.5 {
		if middle := (low + high) / 2; at(middle) {
			high = middle
		} else {
			low = middle
		}
	}
	return high, true
}
