package app

import (
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/labelmaker"
	"kettlefrost/internal/netdeclare"
	"kettlefrost/internal/nutrition"
	"kettlefrost/internal/packlabel"
	"kettlefrost/internal/unit"
)

// StockOf is labels as a value for programs.
func StockOf(s labelmaker.Stock) LabelStock {
	out := LabelStock{Name: s.Name, WideMm: s.WideMm, HighMm: s.HighMm, Sheet: s.Sheet != nil, Per: s.Per(), Columns: 1, Rows: 1, DPI: s.DPI, Source: s.Source, Confirm: s.Confirm}
	if s.Sheet != nil {
		out.Columns, out.Rows = s.Sheet.Columns, s.Sheet.Rows
	}
	return out
}

func netOf(l packlabel.Label) LabelNet {
	n := LabelNet{Says: l.Net.Text, Declared: l.Net.Declared, Filled: l.Food.Mass, Source: l.Net.Source}
	if us, err := netdeclare.US(l.Mass, netdeclare.Style{}); err == nil {
		n.US = us.Text
	}
	if eu, err := netdeclare.EU(l.Mass, 1, false); err == nil {
		n.EU = eu.Text
	}
	return n
}

// servingOf is one serving: of the panel, the portion of the declaration, or the pack.
func servingOf(l packlabel.Label) (string, unit.Mass) {
	if l.Panel != nil && l.Panel.Serving.Mass > 0 {
		return l.Panel.Serving.Text, l.Panel.Serving.Mass
	}
	return "the whole pack", l.Mass
}

// onPanel is what a panel prints of a nutrient, and its percentage.
func onPanel(l packlabel.Label, n nutrition.Nutrient) (amount, percent string) {
	rows := []nutrition.Row{}
	switch {
	case l.EUPanel != nil:
		rows = l.EUPanel.Rows
	case l.Panel == nil || l.NoPanel:
		return "", ""
	case n == nutrition.Energy && len(l.Panel.Calories) > 0:
		return l.Panel.Calories[0].Amount, ""
	default:
		rows = l.Panel.Rows
	}
	i := slices.IndexFunc(rows, func(r nutrition.Row) bool { return r.Nutrient == n && len(r.Cells) > 0 })
	if i < 0 {
		return "", ""
	}
	return rows[i].Cells[0].Amount, rows[i].Cells[0].Percent
}

func nutrients(l packlabel.Label, serving unit.Mass) []LabelNutrient {
	all := []LabelNutrient{}
	if l.Food.Mass <= 0 {
		return all
	}
	per, hundred, pack := l.Food.In(serving), l.Food.Per100g(), l.PerPack()
	per[nutrition.Energy], hundred[nutrition.Energy], pack[nutrition.Energy] = per.GeneralEnergy(), hundred.GeneralEnergy(), pack.GeneralEnergy()
	for _, n := range append([]nutrition.Nutrient{nutrition.Energy}, slices.DeleteFunc(nutrition.Required(), func(n nutrition.Nutrient) bool { return n == nutrition.Energy })...) {
		row := LabelNutrient{Name: n.String(), Serving: amountText(per[n], n.Unit()), Hundred: amountText(hundred[n], n.Unit()), Pack: amountText(pack[n], n.Unit()), Missing: []string{}}
		_, row.Known = hundred[n].Get()
		row.Printed, row.Percent = onPanel(l, n)
		for _, g := range hundred[n].Missing {
			row.Missing = append(row.Missing, g.Part)
		}
		all = append(all, row)
	}
	return all
}

// amountText is an amount in words.
func amountText(a nutrition.Amount, in string) string {
	if x, whole := a.Get(); whole {
		return figureText(x) + " " + in
	}
	if most, bounded := a.Most.Get(); bounded {
		return fmt.Sprintf("%s to %s %s, not known better", figureText(a.Least), figureText(most), in)
	}
	if a.Least > 0 {
		return fmt.Sprintf("at least %s %s", figureText(a.Least), in)
	}
	return "not known"
}

// figureText is a figure with three digits, and none that mean nothing.
func figureText(x float64) string {
	switch {
	case x == 0:
		return "0"
	case x < 0.005:
		return "below 0.005"
	case x >= 100:
		return fmt.Sprintf("%.0f", x)
	}
	return strings.TrimRight(strings.TrimRight(fmt.Sprintf("%.*f", 2-min(1, int(x/10)), x), "0"), ".")
}

func energyOf(w nutrition.EnergyWays) LabelEnergy {
	e := LabelEnergy{Factors: amountText(w.General, "kcal"), Table: amountText(w.Table, "kcal"), Known: w.Known, Off: w.OffShare}
	if !w.Known {
		e.Says = "the two cannot be compared while something is missing"
		return e
	}
	e.Says = fmt.Sprintf("the factors give %s kcal %s than the table, %.0f %%; the label has the factors", figureText(max(w.OffKcal, -w.OffKcal)), map[bool]string{true: "more", false: "less"}[w.OffKcal >= 0], 100*max(w.OffShare, -w.OffShare))
	return e
}

func allergensOf(l packlabel.Label) []LabelAllergen {
	all := []LabelAllergen{}
	for _, f := range l.Statement.Found {
		name := f.Allergen
		if len(f.Species) > 0 {
			name += " (" + strings.Join(f.Species, ", ") + ")"
		}
		all = append(all, LabelAllergen{name, f.From})
	}
	for _, f := range l.EUList.Found {
		all = append(all, LabelAllergen{"annex II: " + f.Name(), f.From})
	}
	return all
}

func agencyOf(l packlabel.Label, book kitchen.Book) LabelAgency {
	a := LabelAgency{Agriculture: l.Agency.Agriculture, Why: append([]string{}, l.Agency.Why...), Answer: book.Kitchen.Labels.Inspected, Source: l.Agency.Source, Confirm: l.Agency.Confirm,
		Asks: "It most likely falls to the Food and Drug Administration. Does the state or county license the kitchen for it?"}
	if a.Agriculture {
		a.Asks = "It most likely falls to the Department of Agriculture, which inspects what has much meat or poultry in it. Is it made under inspection, or is the kitchen exempt? Ask the state's meat inspection office before you sell it."
	}
	if l.Regime == kitchen.EULabels {
		a.Asks = "Is the kitchen registered, or approved where it handles food of animal origin for others? Ask the local food authority."
	}
	return a
}

func exemptionsOf(l packlabel.Label) []LabelExemption {
	all := []LabelExemption{}
	for _, e := range l.Exemptions {
		all = append(all, LabelExemption{e.Code, e.May, e.Notice, e.Why, e.Source})
	}
	return all
}

// waysOut tries what would make a label fit; none when it fits or something else stops it.
func waysOut(l packlabel.Label) []LabelWay {
	if l.Hash == "" || !slices.ContainsFunc(l.Open, func(f finding.Finding) bool { return f.Code == labelmaker.CodeDoesNotFit }) {
		return nil
	}
	var all []LabelWay
	for _, w := range labelmaker.Ways(l.Content, l.Stock, l.Rules) {
		all = append(all, LabelWay{w.Says, w.Does, w.Second != nil})
	}
	return all
}
