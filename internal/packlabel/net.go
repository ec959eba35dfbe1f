package packlabel

import (
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/language"
	"kettlefrost/internal/netdeclare"
)

// netWords is what a net weight begins with in the United States.
const netWords = "Net Wt "

// net is the statement of net quantity, and whether what is filled holds it.
func (m *maker) net() {
	write := func() (netdeclare.Statement, error) { return netdeclare.US(m.inside.Net, netdeclare.Style{}) }
	if !m.us() {
		write = func() (netdeclare.Statement, error) { return netdeclare.EU(m.inside.Net, 1, false) }
	}
	s, err := write()
	if err != nil {
		m.ask(finding.Finding{Code: CodeNet, Severity: finding.Stop, Where: m.where(), Path: m.path("fill"), Message: err.Error(), Fix: "give the mass of what goes into the pack"})
		return
	}
	m.out.Net = s
	if m.inside.Filled < s.Declared {
		m.ask(finding.Finding{Code: CodeNet, Severity: finding.Stop, Where: m.where(), Path: m.path("fill"), Message: "less is filled on average than the label says", Source: s.Source,
			Figures: []finding.Figure{{Name: "filled", Value: m.inside.Filled.Kg() * 1000, Unit: "g", Text: m.inside.Filled.Fine()}, {Name: "declared", Value: s.Declared.Kg() * 1000, Unit: "g", Text: s.Declared.Fine()}},
			Fix:     "fill more, or print a smaller quantity"})
	}
}

// netSaid is the net quantity in a language.
func (m *maker) netSaid(in language.Speaker) string {
	if amount, is := strings.CutPrefix(m.out.Net.Text, netWords); is {
		return in.Say("Net Wt %s", in.Measure(amount))
	}
	return in.Measure(m.out.Net.Text)
}
