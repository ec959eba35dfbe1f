package packlabel

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/labelmaker"
	"kettlefrost/internal/nutrition"
	"kettlefrost/internal/statement"
)

// What is said on a label, as changes of it are told.
const (
	Allergens   = "allergens"
	Ingredients = "ingredients"
	Withheld    = "withheld"
	Net         = "net quantity"
	Identity    = "statement of identity"
	Nutrition   = "nutrition"
	Heating     = "heating and cautions"
	Firm        = "firm and place"
)

// Change is something that two labels of a pack say differently.
type Change struct {
	What     string
	Was, Is  string
	Severity finding.Severity // stop: packs that carry the old label are misbranded, and may harm somebody
}

// Changed is what a label says otherwise than before, allergens first. Lots, days and the size of the type are no change.
func Changed(before, after Label) []Change {
	var all []Change
	add := func(what, was, is string, severity finding.Severity) {
		if was != is {
			all = append(all, Change{what, was, is, severity})
		}
	}
	add(Allergens, allergensSaid(before), allergensSaid(after), finding.Stop)
	add(Withheld, withheldSaid(before), withheldSaid(after), finding.Caution)
	add(Ingredients, before.Statement.Ingredients, after.Statement.Ingredients, finding.Caution)
	add(Net, before.Net.Text, after.Net.Text, finding.Caution)
	add(Identity, before.Name, after.Name, finding.Caution)
	add(Nutrition, nutritionSaid(before), nutritionSaid(after), finding.Caution)
	add(Heating, heatingSaid(before.Content), heatingSaid(after.Content), finding.Note)
	add(Firm, strings.Join(before.Content.Firm, ", "), strings.Join(after.Content.Firm, ", "), finding.Note)
	return slices.DeleteFunc(all, func(c Change) bool {
		// What a label does not say while it is withheld is no change of its own.
		return (c.What == Heating || c.What == Firm) && (before.Hash == "" || after.Hash == "")
	})
}

// allergensSaid is all that is known of a label's allergens: what is found, and what nobody has answered.
func allergensSaid(l Label) string {
	var all []string
	for _, f := range l.Statement.Found {
		all = append(all, found(f))
	}
	for _, f := range l.EUList.Found {
		all = append(all, "annex II: "+f.Name())
	}
	for _, x := range l.Statement.Missing {
		all = append(all, "not answered: "+x.String())
	}
	for _, q := range l.EUList.Questions {
		all = append(all, "not answered: "+q.Part+", "+q.Asks)
	}
	return strings.Join(all, "; ")
}

func found(f statement.Found) string {
	if len(f.Species) == 0 {
		return f.Allergen
	}
	return f.Allergen + " (" + strings.Join(f.Species, ", ") + ")"
}

func withheldSaid(l Label) string {
	var why []string
	for _, f := range l.Open {
		if f.Severity == finding.Stop && f.Code != labelmaker.CodeDoesNotFit && f.Code != CodeAllergens {
			why = append(why, f.Where+": "+f.Message)
		}
	}
	return strings.Join(why, "; ")
}

func nutritionSaid(l Label) string {
	var rows []nutrition.Row
	said := ""
	switch {
	case l.EUPanel != nil:
		rows = l.EUPanel.Rows
	case l.Panel != nil && !l.NoPanel:
		rows, said = l.Panel.Rows, l.Panel.Serving.Text+", "+l.Panel.Servings.Text
		for _, c := range l.Panel.Calories {
			said += ", " + c.Amount
		}
	}
	for _, row := range rows {
		for i, c := range row.Cells {
			said += fmt.Sprintf(", %s %s", row.Text(i), cmp.Or(c.Percent, "-"))
		}
	}
	return said
}

func heatingSaid(c labelmaker.Content) string {
	return strings.Join(append(slices.Clone(c.Heating), c.Cautions...), " ")
}
