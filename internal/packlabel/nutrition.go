package packlabel

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/labelrule"
	"kettlefrost/internal/nutrition"
	"kettlefrost/internal/unit"
)

// nutrition is what is in the pack, and the panel that says so.
func (m *maker) nutrition() {
	food, err := m.food()
	if err != nil {
		m.ask(finding.Finding{Code: CodeNutrition, Severity: finding.Stop, Where: m.where(), Path: "ingredients", Message: "its nutrition cannot be reckoned: " + err.Error(), Fix: "correct the figures of its ingredients"})
		return
	}
	m.out.Food, m.out.Energy = food, food.Per100g().EnergyWays()
	m.energies()
	if !m.us() {
		m.declaration()
		return
	}
	m.takenSugars()
	m.rendered()
	m.exempt()
	m.panel()
}

// farApart is from which difference on two ways of reckoning energy are told: that of the tolerance of 21 CFR 101.9(g)(5) for calories.
const farApart = 0.20

// energies tells when the two ways of reckoning energy differ by so much that a laboratory by the one would fault the other.
func (m *maker) energies() {
	if w := m.out.Energy; w.Known && math.Abs(w.OffShare) > farApart {
		general, table := w.General.Least, w.Table.Least
		m.advise(finding.Finding{Code: CodeEnergy, Severity: finding.Note, Where: "nutrition", Message: "calories by the factors 4, 4 and 9 and those of the food table are far apart; the label has the former",
			Figures: []finding.Figure{{Name: "by factors", Value: general, Unit: "kcal per 100 g", Text: fmt.Sprintf("%.0f kcal", general)}, {Name: "by the table", Value: table, Unit: "kcal per 100 g", Text: fmt.Sprintf("%.0f kcal", table)}},
			Source:  "21 CFR 101.9(c)(1)(i) (read) allows either; the 20 % of 101.9(g)(5) as a measure", Fix: "nothing, or have it analysed"})
	}
}

// exempt is whether an exemption lifts the panel, by what was said of the business.
func (m *maker) exempt() {
	business := m.Business
	business.Agriculture = m.out.Agency.Agriculture
	m.out.Exemptions = labelrule.Exemptions(business)
}

// mayExempt is the first exemption that may hold.
func (m *maker) mayExempt() (labelrule.Exemption, bool) {
	i := slices.IndexFunc(m.out.Exemptions, func(e labelrule.Exemption) bool { return e.May })
	if i < 0 {
		return labelrule.Exemption{}, false
	}
	return m.out.Exemptions[i], true
}

// panel is the nutrition panel of the United States.
func (m *maker) panel() {
	e, may := m.mayExempt()
	if m.out.NoPanel = may && m.WithoutPanel; m.out.NoPanel {
		m.without(e)
		return
	}
	reference, weighs, density, asked := m.reference()
	if asked {
		return
	}
	m.out.Reference = reference
	m.weighACup(reference, density)
	serving, err := m.serving(reference, density)
	if err == nil {
		var p nutrition.Panel
		p, err = nutrition.PanelOf(nutrition.Asked{Rules: m.panelRules(), Food: m.out.Food, Net: m.inside.Net, Reference: weighs, Serving: serving, Simplify: m.Simplify})
		m.out.Panel = &p
	}
	if err != nil {
		m.out.Panel = nil
		m.ask(finding.Finding{Code: CodeNutrition, Severity: finding.Stop, Where: m.where(), Path: m.path("reference-amount"), Message: "the nutrition panel cannot be made: " + err.Error(), Fix: "correct what is named"})
		return
	}
	m.open(m.out.Panel.Open)
	m.agriculture(reference)
	if m.out.NoPanel = may && !m.out.Panel.Printable(); m.out.NoPanel {
		m.without(e)
	}
}

// agriculture tells that a product of the Department of Agriculture has rules of its own.
func (m *maker) agriculture(r nutrition.Reference) {
	if !m.out.Agency.Agriculture {
		return
	}
	if m.panelRules() == nutrition.FDA {
		m.advise(finding.Finding{Code: CodePanelRules, Severity: finding.Caution, Where: "nutrition", Message: "the panel is that of the Food and Drug Administration of 2016; of meat and poultry the text that was read asks for older daily values, vitamins A and C and calories from fat",
			Source: "9 CFR 317.309, 2015 (read); that FSIS takes the newer panel is from memory", Fix: "ask FSIS, or the state's inspection office, which one applies"})
	}
	if r.Agency == "FDA" && !strings.Contains(r.Source, "9 CFR 317.312") {
		m.advise(finding.Finding{Code: CodeReference, Severity: finding.Caution, Where: "nutrition, serving", Path: m.path("reference-amount"), Message: "its reference amount is one of the Food and Drug Administration; meat and poultry have their own: 140 g of an entree with sauce, 85 g without",
			Source: "9 CFR 317.312(b), 2015 (read)", Fix: "write reference-amount: meat-entree-sauced or meat-entree, if it is that"})
	}
}

func (m *maker) panelRules() nutrition.Rules { return cmp.Or(m.Panel, nutrition.FDA) }

func (m *maker) without(e labelrule.Exemption) {
	notice := ""
	if e.Notice {
		notice = "; a notice to FDA is due each year"
	}
	m.advise(finding.Finding{Code: CodeExempt, Severity: finding.Caution, Where: "nutrition", Message: "the panel is left out, as the business may be exempt: " + e.Why + notice, Source: e.Source,
		Fix: "ask the state or local authority first; any nutrition claim loses the exemption"})
}

// open asks for every figure that decides what a line says. Where an exemption may lift the panel it only cautions.
func (m *maker) open(lines []nutrition.Open) {
	severity, or := finding.Stop, "; or say what exemption from the panel the business may have"
	if _, may := m.mayExempt(); may {
		severity, or = finding.Caution, ""
	}
	if !m.us() {
		or = ""
	}
	for _, o := range lines {
		if len(o.Amount.Missing) == 0 {
			m.ask(finding.Finding{Code: CodeNutrient, Severity: severity, Where: "nutrition", Path: "ingredients", Message: o.Nutrient.String() + " cannot be told", Fix: "correct the figures of the ingredients" + or})
			continue
		}
		var names []string
		for _, g := range o.Amount.Missing {
			names = append(names, g.Part)
		}
		m.ask(finding.Finding{Code: CodeNutrient, Severity: severity, Where: "nutrition, " + o.Nutrient.String(), Path: m.figurePath(o), Figures: m.bounds(o),
			Message: o.Nutrient.String() + " is not known whole: nothing says how much is in " + strings.Join(names, ", "),
			Fix:     "give each an analysis that has it, from its supplier's sheet (in place of the food of the table): 0 only where that is known" + or})
	}
}

// bounds are what is known of an open amount.
func (m *maker) bounds(o nutrition.Open) []finding.Figure {
	figures := []finding.Figure{{Name: "at least", Value: o.Amount.Least, Unit: o.Nutrient.Unit(), Text: fmt.Sprintf("%.3g %s", o.Amount.Least, o.Nutrient.Unit())}}
	if most, bounded := o.Amount.Most.Get(); bounded {
		figures = append(figures, finding.Figure{Name: "at most", Value: most, Unit: o.Nutrient.Unit(), Text: fmt.Sprintf("%.3g %s", most, o.Nutrient.Unit())})
	}
	return figures
}

// figureKeys are the keys of an analysis in the book.
var figureKeys = map[nutrition.Nutrient]string{nutrition.Fat: "fat", nutrition.SaturatedFat: "saturated-fat", nutrition.TransFat: "trans-fat", nutrition.Cholesterol: "cholesterol", nutrition.Sodium: "sodium",
	nutrition.Carbohydrate: "carbohydrate", nutrition.Fibre: "fibre", nutrition.Sugars: "sugars", nutrition.AddedSugars: "added-sugars", nutrition.Protein: "protein", nutrition.VitaminD: "vitamin-d",
	nutrition.Calcium: "calcium", nutrition.Iron: "iron", nutrition.Potassium: "potassium"}

// figurePath is where the first of the missing figures belongs.
func (m *maker) figurePath(o nutrition.Open) string {
	id := m.ingredientOf(o.Amount.Missing[0].Part)
	at, key := "ingredients."+string(id), figureKeys[o.Nutrient]
	switch {
	case id == "" || key == "":
		return "ingredients"
	case m.Book.Ingredients[id].Analysis == nil:
		return at + ".figures." + key
	}
	return at + ".analysis." + key
}

// declaration is the nutrition declaration of the European Union.
func (m *maker) declaration() {
	asked := nutrition.EUAsked{Food: m.out.Food}
	if s := m.pack.Serving; s > 0 && s < m.inside.Net {
		asked.Portion, asked.Portions = s, max(1, int(math.Round(m.inside.Net.Kg()/s.Kg())))
		if unit.Mass(asked.Portions)*s != m.inside.Net {
			asked.Portion, asked.Portions = 0, 0 // the number of portions is stated exactly, or none
		}
	}
	d, err := nutrition.EUDeclarationOf(asked)
	if err != nil {
		m.ask(finding.Finding{Code: CodeNutrition, Severity: finding.Stop, Where: m.where(), Message: "the nutrition declaration cannot be made: " + err.Error(), Fix: "correct what is named"})
		return
	}
	m.out.EUPanel = &d
	m.open(d.Open)
}
