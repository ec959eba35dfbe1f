package packlabel

import (
	"kettlefrost/internal/finding"
	"kettlefrost/internal/labelmaker"
	"kettlefrost/internal/netdeclare"
	"kettlefrost/internal/nutrition"
)

// rules are the least sizes for this pack: of the net quantity by the area of its face, of the panel by its table, of the rest as the layout has them.
func (m *maker) rules() labelmaker.Rules {
	if !m.us() {
		r := labelmaker.EU(m.faceCm2(), m.inside.Net.Kg()*1000)
		if h, err := netdeclare.EUHeight(m.inside.Net); err == nil {
			r.Least[labelmaker.NetQuantity] = leastOf(h)
		}
		return r
	}
	r := labelmaker.US(m.faceSqIn())
	h, err := netdeclare.USHeight(m.faceSqIn(), false)
	if err == nil {
		r.Least[labelmaker.NetQuantity] = leastOf(h)
		// Half as high as the tallest print is what labelrule takes "reasonably related" for (21 CFR 101.3(d), from memory).
		identity := &r.Least[labelmaker.Identity]
		identity.LetterMm = max(identity.LetterMm, h.Least.M()*1000/2)
	}
	for _, s := range nutrition.TypeSizes() {
		points, given := s.Standard.Get()
		for _, e := range panelElements[s.Element] {
			if given {
				r.Least[e] = labelmaker.Least{TypePt: points, Source: s.Source, Confirm: s.Confirm}
			}
		}
	}
	return r
}

// small gives the panel the type of small packages, where a format for them is used.
func small(r labelmaker.Rules) labelmaker.Rules {
	for _, s := range nutrition.TypeSizes() {
		if points, given := s.Small.Get(); given && s.Element == "nutrients" {
			r.Least[labelmaker.PanelText] = labelmaker.Least{TypePt: points, Source: s.Source, Confirm: s.Confirm}
		}
	}
	return r
}

func leastOf(h netdeclare.Height) labelmaker.Least {
	return labelmaker.Least{LetterMm: h.Least.M() * 1000, Source: h.Source, Confirm: h.Confirm}
}

// panelElements are what the table of type sizes calls the elements of a panel.
var panelElements = map[string][]labelmaker.Element{
	"title": {labelmaker.PanelTitle}, "servings per container": {labelmaker.PanelServings}, "serving size": {labelmaker.PanelServing}, "calories": {labelmaker.PanelCalories},
	"figure of calories": {labelmaker.PanelFigure}, "amount per serving": {labelmaker.PanelSmall}, "% Daily Value": {labelmaker.PanelSmall}, "nutrients": {labelmaker.PanelLine},
	"vitamins and minerals": {labelmaker.PanelLine}, "footnote": {labelmaker.PanelNote},
}

// faceSqIn is the side of the pack that the label is on: the principal display panel of a flat pack (21 CFR 101.1). Without the size of its bag it is
// the label.
func (m *maker) faceSqIn() float64 {
	if m.bag.Length > 0 && m.bag.Width > 0 {
		return netdeclare.FlatSqIn(m.bag.Length, m.bag.Width)
	}
	return m.out.Stock.WideMm * m.out.Stock.HighMm / 25.4 / 25.4
}

func (m *maker) faceCm2() float64 { return m.faceSqIn() * 2.54 * 2.54 }

// faces are the sides of a flat pack that can bear labelling.
const faces = 2

// area tells when the size of the pack's face is not known, or the label is larger than it.
func (m *maker) area() {
	f := finding.Finding{Code: CodeArea, Severity: finding.Caution, Where: "bag " + string(m.pack.Bag), Path: "bags." + string(m.pack.Bag)}
	wide, high := m.out.Stock.WideMm, m.out.Stock.HighMm
	switch {
	case m.bag.Length <= 0 || m.bag.Width <= 0:
		f.Message = "the size of its bag is not known: type is as large as the label's own area asks for, which may be too small"
		f.Source, f.Fix = "21 CFR 101.1 and 101.7(i), formerly 101.105(i) (read)", "write length and width of the bag"
	case min(wide, high) > 1000*min(m.bag.Length, m.bag.Width).M() || max(wide, high) > 1000*max(m.bag.Length, m.bag.Width).M():
		f.Message = "a label of " + m.out.Stock.Name + " is larger than its bag"
		f.Fix = "print it on a smaller one"
	default:
		return
	}
	m.ask(f)
}
