package packlabel

import (
	"kettlefrost/internal/finding"
	"kettlefrost/internal/labelmaker"
	"kettlefrost/internal/netdeclare"
)

// rules are the least sizes for this pack, by the area of its face.
func (m *maker) rules() labelmaker.Rules {
	if !m.us() {
		return labelmaker.EU(m.faceCm2(), m.inside.Net.Kg()*1000)
	}
	r := labelmaker.US(m.faceSqIn())
	// Half as high as the tallest print is what labelrule takes "reasonably related" for (21 CFR 101.3(d), from memory).
	identity := &r.Least[labelmaker.Identity]
	identity.LetterMm = max(identity.LetterMm, r.Least[labelmaker.NetQuantity].LetterMm/2)
	return r
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
