package packlabel

import (
	"fmt"
	"slices"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/labelrule"
)

// contradicted tells of ingredients whose name, or that of a part, says an allergen that their answer does not. It only cautions: vegan milk is no
// milk. Names that say nothing are not looked through, so that no such finding is no answer.
func (m *maker) contradicted() {
	for _, h := range m.inside.Held {
		names := []string{m.declared(h.Of)}
		for _, sub := range m.Book.Ingredients[h.Of].Contains {
			names = append(names, sub.Name)
		}
		for _, f := range m.unsaid(h.Of) {
			for _, name := range names {
				runs := labelrule.Emphasise(name, []labelrule.EUFound{f})
				if labelrule.Text(runs) != name || len(labelrule.Emphasised(runs)) == 0 {
					continue
				}
				m.ask(finding.Finding{Code: CodeContradicted, Severity: finding.Caution, Where: "ingredient " + string(h.Of), Path: "ingredients." + string(h.Of) + ".allergens",
					Message: fmt.Sprintf("%s says %s, and the answer about its allergens does not", name, f.Name()), Source: "21 U.S.C. 343(w) (read); Regulation (EU) 1169/2011, annex II (quoted)", Fix: "read the supplier's label again and correct the answer or the name"})
			}
		}
	}
}

// unsaid are the allergens that the market knows and the answer for an ingredient has not: none while it is open.
func (m *maker) unsaid(id kitchen.IngredientID) []labelrule.EUFound {
	part := m.part(id)
	ans, err := labelrule.EUAllergensOf([]labelrule.EUPart{part})
	if err != nil || !part.Known || !m.us() && !part.Asked {
		return nil
	}
	var all []labelrule.EUFound
	for _, a := range labelrule.EUAllergens() {
		if m.us() && a.Major == "" {
			continue
		}
		kinds := a.Kinds
		switch {
		case len(kinds) == 0:
			kinds = []string{""}
		case m.us() && a.Code == "gluten":
			kinds = []string{"wheat"}
		}
		for _, kind := range kinds {
			said := func(f labelrule.EUFound) bool {
				return f.Code == a.Code && (a.Code != "gluten" || f.Kind == kind) // which nut it is, is the answer's to say
			}
			if !slices.ContainsFunc(ans.Found, said) {
				all = append(all, labelrule.EUFound{Code: a.Code, Kind: kind})
			}
		}
	}
	return all
}
