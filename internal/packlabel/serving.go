package packlabel

import (
	"fmt"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/nutrition"
	"kettlefrost/internal/unit"
)

// reference is the reference amount of the pack, what it weighs and what a millilitre of the food weighs; asked when the book must answer first.
func (m *maker) reference() (r nutrition.Reference, weighs unit.Mass, gPerML float64, asked bool) {
	stop := func(message string) {
		m.ask(finding.Finding{Code: CodeReference, Severity: finding.Stop, Where: m.where(), Path: m.path("reference-amount"), Message: message, Source: "21 CFR 101.12(b) (read)",
			Fix: "write reference-amount: one of the list of reference amounts, such as soup"})
	}
	if m.pack.Reference == "" {
		stop("nothing says which food of the reference amounts it is, so that no serving can be told")
		return r, 0, 0, true
	}
	r, known := nutrition.ReferenceOf(m.pack.Reference)
	if !known {
		stop(fmt.Sprintf("%q is none of the reference amounts", m.pack.Reference))
		return r, 0, 0, true
	}
	gPerML = m.inside.KgPerL
	if m.Cup > 0 {
		gPerML = m.Cup.Kg() * 1000 / cupML
	}
	weighs, err := r.Weighs(gPerML)
	if err != nil {
		stop(err.Error())
		return r, 0, 0, true
	}
	return r, weighs, gPerML, false
}

// cupML is the cup of a label, 21 CFR 101.9(b)(5)(viii) (read in 9 CFR 317.309).
const cupML = 240

// serving is how the panel says one serving, of a pack that holds several.
func (m *maker) serving(r nutrition.Reference, gPerML float64) (nutrition.Serving, error) {
	if r.Say != "piece" {
		return r.ByMeasure(gPerML)
	}
	each, what := m.inside.Net, "pack"
	if n := m.pieces(); n > 0 {
		each, what = m.inside.Net/unit.Mass(n), "piece"
	}
	may, err := r.ByPieces(each, what, false)
	if err != nil {
		return nutrition.Serving{}, err
	}
	return may[0], nil
}

// pieces is how many pieces there are in the pack. Each takes its part of the sauce.
func (m *maker) pieces() int {
	n := 0
	for _, f := range m.pack.Fill {
		n += f.Pieces
	}
	return n
}

// weighACup tells that the weight of a cup comes from the composition.
func (m *maker) weighACup(r nutrition.Reference, gPerML float64) {
	if m.Cup > 0 || r.Say == "piece" {
		return
	}
	grams := cupML * gPerML
	m.advise(finding.Finding{Code: CodeDensity, Severity: finding.Caution, Where: "nutrition, serving", Message: "what a cup of it weighs is reckoned from its composition, without air between pieces",
		Figures: []finding.Figure{{Name: "a cup", Value: grams, Unit: "g", Text: fmt.Sprintf("%.0f g", grams)}}, Source: "21 CFR 101.9(b)(5)(viii): a cup of a label is 240 ml (read in 9 CFR 317.309)",
		Fix: "weigh a level cup of 240 ml of it three times and compare"})
}
