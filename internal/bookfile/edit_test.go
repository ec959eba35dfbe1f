package bookfile_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"kettlefrost/demo"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// diff is what a change does to a file: lines that went, with -, and lines that came, with +.
func diff(before, after string) string {
	a, b := strings.SplitAfter(before, "\n"), strings.SplitAfter(after, "\n")
	for len(a) > 0 && len(b) > 0 && a[0] == b[0] {
		a, b = a[1:], b[1:]
	}
	for len(a) > 0 && len(b) > 0 && a[len(a)-1] == b[len(b)-1] {
		a, b = a[:len(a)-1], b[:len(b)-1]
	}
	var out strings.Builder
	for _, l := range a {
		out.WriteString("-" + l)
	}
	for _, l := range b {
		out.WriteString("+" + l)
	}
	return out.String()
}

// What a cook changes in the demo's ale and cheddar sauce, and the lines that are otherwise then; all others are as they were.
func TestEditDemo(t *testing.T) {
	const steps = "dishes.ale-cheddar.steps"
	for _, c := range []struct {
		name    string
		changes []bookfile.Change
		file    string
		want    string
	}{
		{"a figure in braces; the comment on the line stays", []bookfile.Change{bookfile.Set("dishes/ale-cheddar/steps/base/loses/evaporation", "5.2 kg/m2h")}, "dishes/ale-cheddar.yaml",
			"-        loses: {evaporation: 6 kg/m2h} # a thick surface gives off less than water; invented weighing\n+        loses: {evaporation: 5.2 kg/m2h} # a thick surface gives off less than water; invented weighing\n"},
		{"another key into braces, in the order of the nouns", []bookfile.Change{bookfile.Set(steps+"[melt].loses.evaporation", "2 kg/m2h")}, "dishes/ale-cheddar.yaml",
			"-        loses: {residue: 8 oz}\n+        loses: {evaporation: 2 kg/m2h, residue: 8 oz}\n"},
		{"a group that is not there yet", []bookfile.Change{bookfile.Set(steps+"[thicken].loses.residue", "100 g")}, "dishes/ale-cheddar.yaml",
			"+        loses: {residue: 100 g}\n"},
		{"an amount, as the cook writes it", []bookfile.Change{bookfile.Set(steps+"[base].use[worcestershire].amount", "1/3 cup")}, "dishes/ale-cheddar.yaml",
			"-          - {of: worcestershire, amount: 1/4 cup}\n+          - {of: worcestershire, amount: 1/3 cup}\n"},
		{"one more line after another", []bookfile.Change{bookfile.After(steps+"[base].use[milk]", kitchen.Use{Of: "salt", Amount: mass(20 * unit.Gram)})}, "dishes/ale-cheddar.yaml",
			"+          - {of: salt, amount: 20 g}\n"},
		{"a list in brackets goes on lines of its own", []bookfile.Change{bookfile.Append(steps+"[chop-onion].use", "{of: garlic, amount: 2 oz}")}, "dishes/ale-cheddar.yaml",
			"-        use: [{of: onion, amount: 1 lb}]\n+        use:\n+          - {of: onion, amount: 1 lb}\n+          - {of: garlic, amount: 2 oz}\n"},
		{"a line goes", []bookfile.Change{bookfile.Delete(steps + "[roux].use[smoked-paprika]")}, "dishes/ale-cheddar.yaml", "-          - {of: smoked-paprika, amount: 6 g}\n"},
		{"the last of a group goes with the group", []bookfile.Change{bookfile.Delete(steps + "[melt].loses.residue")}, "dishes/ale-cheddar.yaml", "-        loses: {residue: 8 oz}\n"},
		{"an emptied field goes", []bookfile.Change{bookfile.Set(steps+"[roux].how", "")}, "dishes/ale-cheddar.yaml", "-        how: Pale and sandy, no darker.\n"},
		{"another pot", []bookfile.Change{bookfile.Set(steps+"[sweat].in", "pot-60, kettle")}, "dishes/ale-cheddar.yaml",
			"-        in: [pot-20, pot-60, kettle]\n+        in: [pot-60, kettle]\n"},
		{"a step between steps, with an empty line as its neighbours have it", []bookfile.Change{bookfile.Before(steps+"[thicken]", kitchen.Step{
			ID: "rest", Do: "Let it stand.", Use: []kitchen.Use{{From: "base", Take: kitchen.Take{Given: true, Share: unit.Whole}}, {Of: "salt", Amount: mass(unit.Gram)}}, Stays: true, Time: 5 * unit.Minute,
		})}, "dishes/ale-cheddar.yaml", `+      - id: rest
+        do: Let it stand.
+        use:
+          - {from: base, take: all}
+          - {of: salt, amount: 1 g}
+        stays: true
+        time: 5 min
+
`},
		{"a step goes with its empty line", []bookfile.Change{bookfile.Delete(steps + "[grate]")}, "dishes/ale-cheddar.yaml", `-      - id: grate
-        do: Grate the cheddar on the coarse disc.
-        use: [{of: cheddar, amount: 8 lb}]
-        in: [board]
-        load: {at-most: 25 lb}
-        pace: 1.5 min/kg
-
`},
		{"a note in folded lines stays in folded lines", []bookfile.Change{bookfile.Set("kitchen.note", "All invented.")}, "kitchen.yaml",
			`-    All of this is invented: the kitchen, the place, the people, the suppliers, the prices, the dishes and the yield tests. The
-    composition numbers (food) point at real rows of the USDA table. Times and paces are guesses in the range of common practice:
-    weigh and time your own before you trust a plan made from them.
+    All invented.
`},
		{"a new key before a comment at the end of a group", []bookfile.Change{bookfile.Set("kitchen.vacuum-approval", "none: no. 12")}, "kitchen.yaml", "+  vacuum-approval: 'none: no. 12'\n"},
		{"a new additive goes to the additives", []bookfile.Change{bookfile.Set("ingredients.guar", kitchen.Ingredient{Name: "guar gum", Class: "dry", Function: "thickener", Storage: "dry", Allergens: kitchen.Allergens{Answered: true}})}, "ingredients/additives.yaml",
			"+  guar:\n+    name: guar gum\n+    class: dry\n+    storage: dry\n+    function: thickener\n+    allergens: none\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := bookfile.Edit(demo.Book(), c.changes...)
			if err != nil {
				t.Fatal(err)
			}
			if names := got.Names(); len(names) != 1 || names[0] != c.file {
				t.Fatalf("files %v are otherwise, want %s alone", names, c.file)
			}
			if d := cmp.Diff(c.want, diff(string(demoTexts(t)[c.file]), string(got.Files[c.file]))); d != "" {
				t.Error(d)
			}
		})
	}
}
