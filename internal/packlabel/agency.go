package packlabel

import (
	"fmt"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/labelrule"
	"kettlefrost/internal/unit"
)

// thoroughC is from where on a step cooks meat, poultry, fish and eggs through: 165 °F, the hottest that the Food Code asks for (3-401.11).
const thoroughC = 73.8

// agency is how much meat and poultry is in the finished food, and what to ask about who inspects it.
func (m *maker) agency() {
	m.out.Shares = m.shares()
	m.out.Agency = labelrule.AgencyOf(m.out.Shares)
	if !m.us() {
		return
	}
	switch s := m.out.Shares; {
	case m.out.Agency.Agriculture:
		m.inspected()
	case s.RawMeat > 0 || s.CookedMeat > 0 || s.CookedPoultry > 0:
		m.advise(finding.Finding{Code: CodeAgency, Severity: finding.Note, Where: "inspection", Path: "kitchen.labels.inspected", Figures: m.meatFigures(), Source: m.out.Agency.Source,
			Message: "there is meat or poultry in it, under the lines of the Department of Agriculture (3 % raw meat, 2 % cooked), so that it most likely falls to the Food and Drug Administration; the meat must come from inspected sources all the same",
			Fix:     "keep the invoices; the authority decides"})
	}
	if note := m.out.Shares.PoultryName(m.out.Name); note != "" {
		m.ask(finding.Finding{Code: CodePoultryName, Severity: finding.Caution, Where: "statement of identity", Path: m.path("statement-of-identity"), Message: note, Source: "9 CFR 381.15(e) (read)", Fix: "call it flavored, or put more poultry in"})
	}
	if raw := m.notCooked(); len(raw) > 0 {
		m.advise(finding.Finding{Code: CodeNotCooked, Severity: finding.Caution, Where: m.where(), Path: "dishes." + string(m.pack.Dish),
			Message: "no step of the dish says that it cooks through: " + strings.Join(raw, ", ") + ". It is taken for not ready to eat",
			Source:  "FDA Food Code 3-401.11: 165 °F (74 °C) is the hottest that it asks for", Fix: "write heat-to or ready-at at the step that cooks it, 165 °F or more; if it is sold raw, safe handling instructions are due"})
	}
}

// shares are by weight of the finished food. Raw meat is taken as what was put in, cooked meat as what is left of it, all of a bird as its meat; fat
// alone, stock and extract of meat are not told apart from others and count as none.
func (m *maker) shares() labelrule.Contents {
	var raw, cooked, poultry float64
	for _, h := range m.inside.Held {
		switch m.Book.Ingredients[h.Of].Class {
		case "intact-meat", "ground-meat":
			raw += h.PutIn
			cooked += h.Kg()
		case "cooked-meat":
			cooked += h.Kg()
		case "poultry":
			poultry += h.Kg()
		case "":
			m.advise(finding.Finding{Code: CodeClass, Severity: finding.Caution, Where: "ingredient " + string(h.Of), Path: "ingredients." + string(h.Of) + ".class",
				Message: "nobody has said what " + m.nameOf(h.Of) + " is: it is taken for neither meat nor poultry", Fix: "write class"})
		}
	}
	whole := m.inside.Kg()
	if whole <= 0 {
		return labelrule.Contents{}
	}
	return labelrule.Contents{RawMeat: unit.ShareOf(raw / whole), CookedMeat: unit.ShareOf(cooked / whole), CookedPoultry: unit.ShareOf(poultry / whole)}
}

// inspected asks who inspects a product with meat or poultry.
func (m *maker) inspected() {
	a := m.out.Agency
	f := finding.Finding{Code: CodeAgency, Severity: finding.Caution, Where: "inspection", Path: "kitchen.labels.inspected", Source: a.Source + "; retail: 9 CFR 303.1(d), 381.10(d) (read)",
		Figures: m.meatFigures()}
	switch answer := strings.ToLower(strings.TrimSpace(m.Book.Kitchen.Labels.Inspected)); {
	case answer == "":
		f.Message = "it most likely falls to the Department of Agriculture: " + strings.Join(a.Why, "; ") + ". Is it made under federal or state inspection, or is the kitchen exempt, as a shop may be that sells mostly to households?"
		f.Fix = "ask the state's meat inspection office before you sell it, and write its answer at inspected: federal, state, or exempt with the reference"
	case strings.HasPrefix(answer, "federal"), strings.HasPrefix(answer, "state"):
		f.Message = "the inspection legend with the number of the establishment must stand on the label, and the label must be approved; neither is printed here"
		f.Fix = "order labels with the legend printed on them, and keep the approval with the book"
	default:
		f.Severity = finding.Note
		f.Message = "the book says " + m.Book.Kitchen.Labels.Inspected + ": the exemption holds within limits of sales and customers, and the meat must come from inspected sources"
		f.Fix = "look at the limits each year; " + a.Confirm
	}
	m.ask(f)
}

func (m *maker) meatFigures() []finding.Figure {
	return []finding.Figure{share("cooked meat", m.out.Shares.CookedMeat), share("raw meat as put in", m.out.Shares.RawMeat), share("cooked poultry", m.out.Shares.CookedPoultry)}
}

func share(name string, s unit.Share) finding.Figure {
	return finding.Figure{Name: name, Value: 100 * s.F(), Unit: "% of the finished food", Text: fmt.Sprintf("%.1f %%", 100*s.F())}
}

// notCooked are the names of meat, poultry, fish and eggs that no step cooks through on its way into the pack.
func (m *maker) notCooked() []string {
	var raw []string
	for _, h := range m.inside.Held {
		ing := m.Book.Ingredients[h.Of]
		switch ing.Class {
		case "intact-meat", "ground-meat", "poultry", "fish", "eggs":
			if m.reachesRaw(h.Of) {
				raw = append(raw, ing.Name)
			}
		}
	}
	return raw
}

// reachesRaw says whether an ingredient comes into the pack by steps of which none is hot.
func (m *maker) reachesRaw(id kitchen.IngredientID) bool {
	raw := map[kitchen.OutputID]bool{}
	steps := m.Book.Dishes[m.pack.Dish].Steps
	for range steps { // each round carries it one step on
		for _, s := range steps {
			if s.HeatTo != nil && s.HeatTo.C() >= thoroughC || s.ReadyAt != nil && s.ReadyAt.C() >= thoroughC {
				continue
			}
			for _, u := range s.Use {
				if u.Of == m.original(id) || u.Or == m.original(id) || u.From != "" && raw[u.From] {
					for _, o := range s.Outputs() {
						raw[o.ID] = true
					}
				}
			}
		}
	}
	for _, f := range m.pack.Fill {
		if raw[f.Of] {
			return true
		}
	}
	return false
}

// original is the ingredient in whose place another stands, as the dish names it.
func (m *maker) original(id kitchen.IngredientID) kitchen.IngredientID {
	for _, x := range m.Lot.Instead {
		if x.By == id {
			return x.Of
		}
	}
	return id
}
