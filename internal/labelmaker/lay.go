package labelmaker

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"kettlefrost/internal/barcode"
	"kettlefrost/internal/finding"
)

// Codes of findings.
const (
	CodeStock      = "label-stock"             // labels that cannot be
	CodeEmpty      = "label-empty"             // nothing to print
	CodeCharacter  = "label-character-missing" // the faces lack a character
	CodeSymbol     = "label-symbol"            // a symbol where it does not belong
	CodeDoesNotFit = "label-does-not-fit"
	CodeModule     = "label-module-small" // a bar code finer than trade partners ask for
)

// Lay lays a label out. With a stop among the findings there is no label: nothing that is wrong or cut is ever printed. The same content, stock and
// rules give the same label.
func Lay(c Content, s Stock, r Rules) (Label, finding.List) {
	if found := refuse(c, s); len(found) > 0 {
		return Label{}, found
	}
	p := partsOf(c, s, r)
	plan, fits := p.arrange(frameOf(s, r))
	if !fits {
		return Label{}, finding.List{doesNotFit(c, s, r, p)}
	}
	l := p.finish(c, plan, s, r)
	return l, remarks(c, l)
}

// LayAll lays out the labels of one lot so that they look alike: all in the type of the fullest of them. Where one stops there are no labels; findings
// say which label they are about, and the same one of several labels is told once.
func LayAll(contents []Content, s Stock, r Rules) ([]Label, finding.List) {
	plans, all := make([]plan, len(contents)), make([]parts, len(contents))
	var found finding.List
	ease, head := eases[0], eases[0]
	for i, c := range contents {
		if stops := refuse(c, s); len(stops) > 0 {
			found = append(found, numbered(stops, i)...)
			continue
		}
		all[i] = partsOf(c, s, r)
		var fits bool
		if plans[i], fits = all[i].again(frameOf(s, r), ease, head); fits { // in the type of those before it
			continue
		}
		if plans[i], fits = all[i].arrange(frameOf(s, r)); !fits {
			found = append(found, numbered(finding.List{doesNotFit(c, s, r, all[i])}, i)...)
			continue
		}
		ease, head = min(ease, plans[i].ease), min(head, plans[i].head)
	}
	if len(found) > 0 {
		return nil, found
	}
	labels := make([]Label, len(contents))
	for i, c := range contents {
		if plans[i].ease != ease || plans[i].head != head {
			if alike, fits := all[i].again(frameOf(s, r), ease, head); fits {
				plans[i] = alike
			}
		}
		labels[i] = all[i].finish(c, plans[i], s, r)
		for _, f := range remarks(c, labels[i]) {
			if !slices.ContainsFunc(found, func(g finding.Finding) bool { return g.Code == f.Code }) {
				found = append(found, f)
			}
		}
	}
	return labels, found
}

// numbered says of which label findings are.
func numbered(all finding.List, i int) finding.List {
	for k := range all {
		all[k].Where = fmt.Sprintf("label %d: %s", i+1, all[k].Where)
	}
	return all
}

// finish draws what was planned, with the room of its symbols.
func (p parts) finish(c Content, plan plan, s Stock, r Rules) Label {
	l := p.place(plan, s, r)
	for e, symbol := range map[Element]*barcode.Symbol{Bars: c.Bars, Square: c.Square} {
		if symbol == nil {
			continue
		}
		if z, drawn := zone(*symbol, e, l.Marks); drawn {
			l.Zones = append(l.Zones, z)
		}
	}
	slices.SortFunc(l.Zones, func(a, b Zone) int { return int(a.Element - b.Element) })
	return l
}

// refuse are the stops that no layout could help.
func refuse(c Content, s Stock) finding.List {
	if err := s.Check(); err != nil {
		bad := err.(*StockError)
		return finding.List{{Code: CodeStock, Severity: finding.Stop, Where: "labels " + bad.Stock, Message: bad.Reason, Fix: bad.Fix}}
	}
	var all finding.List
	if c.Bars != nil && (!c.Bars.Linear() || c.Bars.Wide == 0) || c.Square != nil && (c.Square.Linear() || c.Square.Wide == 0) {
		all = append(all, finding.Finding{Code: CodeSymbol, Severity: finding.Stop, Where: "label", Message: "the bar code is not one of bars, or the QR code not one of squares", Fix: "make them again"})
	}
	if c.Square == nil && strings.TrimSpace(c.SquareSays) != "" {
		all = append(all, finding.Finding{Code: CodeSymbol, Severity: finding.Stop, Where: "label, " + SquareText.String(), Message: fmt.Sprintf("%q tells about a QR code that is not there", shortened(c.SquareSays)), Fix: "give the QR code, or leave its words out"})
	}
	all = append(all, disagree(c)...)
	empty, long := c.Bars == nil && c.Square == nil, 0
	for said := range c.texts() {
		empty = false
		long += utf8.RuneCountInString(said.text)
		if f, lacks := characters(said); lacks {
			all = append(all, f)
		}
	}
	if long > mostCharacters {
		all = append(all, finding.Finding{Code: CodeDoesNotFit, Severity: finding.Stop, Where: "label", Message: fmt.Sprintf("%d characters are more than any label holds", long),
			Figures: []finding.Figure{{Name: "characters", Value: float64(long), Text: fmt.Sprint(long)}}, Fix: "look whether something was pasted by mistake"})
	}
	if empty {
		all = append(all, finding.Finding{Code: CodeEmpty, Severity: finding.Stop, Where: "label", Message: "there is nothing to print", Fix: "give its contents"})
	}
	return all
}

// mostCharacters on a label: a page of small type has about half as many.
const mostCharacters = 20000

// spelt are signs that the faces lack and how people write them without.
var spelt = map[rune]string{'⅓': "1/3", '⅔': "2/3", '⅛': "1/8", '⅜': "3/8", '⅝': "5/8", '⅞': "7/8", '℃': "°C", '℉': "°F", '\u2009': "a plain space", '\u202f': "a plain space",
	'\u2011': "-", '\u00ad': "nothing", '\u200b': "nothing", '\ufeff': "nothing", '✓': "yes"}

// characters says which characters of a text cannot be printed.
func characters(s said) (finding.Finding, bool) {
	lacks := lacking(s.text)
	if len(lacks) == 0 {
		return finding.Finding{}, false
	}
	var names, fixes []string
	for _, r := range lacks[:min(len(lacks), mostNamed)] {
		names = append(names, fmt.Sprintf("%q (U+%04X)", r, r))
		if as, is := spelt[r]; is {
			fixes = append(fixes, fmt.Sprintf("write %s for U+%04X", as, r))
		}
	}
	more := ""
	if n := len(lacks) - len(names); n > 0 {
		more = fmt.Sprintf(" and %d more", n)
	}
	if len(fixes) < len(lacks) {
		fixes = append(fixes, "write it in Latin, Greek or Cyrillic letters, with accents as one character; labels in other scripts cannot be printed here")
	}
	return finding.Finding{Code: CodeCharacter, Severity: finding.Stop, Where: "label, " + s.element.String(),
		Message: fmt.Sprintf("%q has characters that the printed faces lack: %s%s", shortened(s.text), strings.Join(names, ", "), more),
		Figures: []finding.Figure{{Name: "characters", Value: float64(len(lacks)), Text: fmt.Sprint(len(lacks))}}, Fix: strings.Join(fixes, "; ")}, true
}

// mostNamed are as many characters as are named.
const mostNamed = 8

// shortened is the beginning of a text, to name it by.
func shortened(text string) string {
	const most = 40
	runes := []rune(strings.Join(strings.Fields(text), " "))
	if len(runes) <= most {
		return string(runes)
	}
	return string(runes[:most]) + "…"
}

// remarks are what to know about a label that is printed.
func remarks(c Content, l Label) finding.List {
	var all finding.List
	for _, z := range l.Zones {
		if z.Element != Bars {
			continue
		}
		module := z.Module / PtPerMm
		asked, source, fix := askedFor(c.Bars.Symbology)
		if module >= asked {
			continue
		}
		all = append(all, finding.Finding{Code: CodeModule, Severity: finding.Note, Where: "label, bar code", Message: "the bar code is finer than trade partners ask for; scanners at your own table read it",
			Figures: []finding.Figure{mm("module", module), mm("asked for", asked)}, Source: source, Fix: fix})
	}
	return all
}

// askedFor is the module that trade partners ask for; 0 where nobody does.
func askedFor(s barcode.Symbology) (mm float64, source, fix string) {
	switch s {
	case barcode.GS1128:
		return barcode.TradeModuleMm, "GS1 General Specifications, symbol sizes (quoted): 0.495 to 1.016 mm", "for cases that go to a trade partner, print it on a label of its own"
	case barcode.EAN13, barcode.EAN8:
		return barcode.LeastEANMm, "GS1 General Specifications, symbol sizes (from memory): 0.264 to 0.660 mm", "for a shop's till, give the label more width"
	}
	return 0, "", ""
}

func mm(name string, x float64) finding.Figure {
	return finding.Figure{Name: name, Value: x, Unit: "mm", Text: fmt.Sprintf("%.3g mm", x)}
}
