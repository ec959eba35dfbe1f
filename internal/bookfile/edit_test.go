package bookfile_test

import (
	"strings"
	"testing"
	"testing/fstest"

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
		{"a new key after a comment at the end of a group", []bookfile.Change{bookfile.Set("kitchen.vacuum-approval", "none: no. 12")}, "kitchen.yaml", "+  vacuum-approval: 'none: no. 12'\n"},
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

// New entries go where others of their kind are, and what nothing is left in goes.
func TestEditWhichFile(t *testing.T) {
	allSteps := kitchen.Take{Given: true, Share: unit.Whole}
	pie := kitchen.Dish{Name: "pie", Steps: []kitchen.Step{
		{ID: "mix", Do: "Mix.", Use: []kitchen.Use{{Of: "flour", Amount: mass(unit.Pound)}, {Of: "salt", Amount: mass(5 * unit.Gram)}}},
		{ID: "bake", Do: "Bake.", Use: []kitchen.Use{{From: "mix", Take: allSteps}}, Time: unit.Hour},
	}}
	for _, c := range []struct {
		name    string
		changes []bookfile.Change
		files   map[string]string // what comes or goes in them
	}{
		{"a dish gets a file of its own, and its pack stands beside it", []bookfile.Change{
			bookfile.Set("dishes.pie", pie),
			bookfile.Set("packs.pie-lb", kitchen.Pack{Name: "Pie", Dish: "pie", Fill: []kitchen.Fill{{Of: "bake", Mass: unit.Pound}}, Bag: "bag-6x9", Pace: unit.Minute}),
		}, map[string]string{"dishes/pie.yaml": `+dishes:
+  pie:
+    name: pie
+    steps:
+      - id: mix
+        do: Mix.
+        use:
+          - {of: flour, amount: 1 lb}
+          - {of: salt, amount: 5 g}
+
+      - id: bake
+        do: Bake.
+        use: [{from: mix, take: all}]
+        time: 1 h
+
+packs:
+  pie-lb:
+    name: Pie
+    dish: pie
+    fill: [{of: bake, mass: 1 lb}]
+    bag: bag-6x9
+    pace: 1 min
`}},
		{"cheese goes to the dairy", []bookfile.Change{bookfile.Set("ingredients.gouda", kitchen.Ingredient{Name: "gouda", Class: "dairy", Storage: "chilled"})},
			map[string]string{"ingredients/dairy.yaml": "+  gouda:\n+    name: gouda\n+    class: dairy\n+    storage: chilled\n"}},
		{"or where it is told", []bookfile.Change{{Do: bookfile.DoSet, Path: "ingredients.gouda", Value: "{name: gouda}", File: "ingredients/cheese.yaml"}},
			map[string]string{"ingredients/cheese.yaml": "+ingredients:\n+  gouda:\n+    name: gouda\n"}},
		{"a section that no file has", []bookfile.Change{bookfile.Set("media.ice-slurry", kitchen.Medium{Low: 200, Usual: 300, High: 400, Note: "log of 3 May"})},
			map[string]string{"media.yaml": "+media:\n+  ice-slurry:\n+    low: 200 W/m2K\n+    usual: 300 W/m2K\n+    high: 400 W/m2K\n+    note: log of 3 May\n"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := bookfile.Edit(demo.Book(), c.changes...)
			if err != nil {
				t.Fatal(err)
			}
			lines := map[string]string{}
			for _, name := range got.Names() {
				lines[name] = diff(string(demoTexts(t)[name]), string(got.Files[name]))
			}
			if d := cmp.Diff(c.files, lines); d != "" {
				t.Error(d)
			}
		})
	}
	got, err := bookfile.Edit(folders(map[string]string{"kitchen.yaml": house, "bags.yaml": "# Bags.\nbags:\n  small: {name: small, length: 9 in, width: 6 in}\n"}), bookfile.Delete("bags.small"))
	if text, there := got.Files["bags.yaml"]; err != nil || !there || text != nil {
		t.Errorf("a file without anything left: %q, %v", text, err)
	}
}

// folders is files as a folder.
func folders(texts map[string]string) fstest.MapFS {
	files := fstest.MapFS{}
	for name, text := range texts {
		files[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return files
}

// However a cook has laid a file out, all but what is changed stays as it is.
func TestEditKeepsTheLayout(t *testing.T) {
	for _, c := range []struct {
		name, before, after string
		change              bookfile.Change
	}{
		{"quotes stay", "bags:\n  a: {name: 'small', length: \"9 in\", width: 6 in}\n", "bags:\n  a: {name: 'it''s', length: \"9 in\", width: 6 in}\n", bookfile.Set("bags.a.name", "it's")},
		{"double ones too", "bags:\n  a: {name: \"small\", length: 9 in, width: 6 in}\n", "bags:\n  a: {name: \"a \\\"b\\\"\", length: 9 in, width: 6 in}\n", bookfile.Set("bags.a.name", `a "b"`)},
		{"quotes where they are needed", "bags:\n  a: {name: small, length: 9 in, width: 6 in}\n", "bags:\n  a: {name: 'a, b', length: 9 in, width: 6 in}\n", bookfile.Set("bags.a.name", "a, b")},
		{"Windows line ends", "bags:\r\n  a:\r\n    name: small\r\n    length: 9 in # in\r\n    width: 6 in\r\n", "bags:\r\n  a:\r\n    name: small\r\n    length: 9 in # in\r\n    width: 6 in\r\n    stock: 5\r\n", bookfile.Set("bags.a.stock", "5")},
		{"no line end at the end", "bags:\n  a:\n    name: small\n    length: 9 in\n    width: 6 in", "bags:\n  a:\n    name: small\n    length: 9 in\n    width: 7 in", bookfile.Set("bags.a.width", "7 in")},
		{"four spaces, dashes at the left", "people:\n    ada:\n        name: Ada\n        shift:\n            from: 08:00\n            to: 16:00\n            breaks:\n            - {from: 12:00, to: 12:30}\n",
			"people:\n    ada:\n        name: Ada\n        shift:\n            from: 08:00\n            to: 16:00\n            breaks:\n            - {from: 12:00, to: 12:30}\n            - {from: 15:00, to: 15:10}\n", bookfile.Append("people.ada.shift.breaks", "{from: 15:00, to: 15:10}")},
		{"one word for a list of one", "people:\n  ada: {name: Ada, shift: {from: 08:00, to: 16:00}, can: kettle}\n", "people:\n  ada: {name: Ada, shift: {from: 08:00, to: 16:00}, can: [kettle, sealing]}\n", bookfile.Append("people.ada.can", "sealing")},
		{"a group over lines in braces", "bags:\n  a: {\n    name: small, # ours\n    length: 9 in,\n    width: 6 in, # inside\n  }\n", "bags:\n  a: {\n    name: small, # ours\n    length: 9 in,\n    width: 6 in, stock: 5, # inside\n  }\n", bookfile.Set("bags.a.stock", "5")},
		{"a key goes out of braces", "bags:\n  a: {name: small, stock: 5, length: 9 in, width: 6 in}\n", "bags:\n  a: {name: small, length: 9 in, width: 6 in}\n", bookfile.Delete("bags.a.stock")},
		{"the first key after a dash", "ingredients:\n  salt:\n    name: salt\n    buy:\n      - supplier: depot # the cheap one\n        pack: 3 lb\n        price: 2\n", "ingredients:\n  salt:\n    name: salt\n    buy:\n      - pack: 3 lb\n        price: 2\n", bookfile.Delete("ingredients.salt.buy[0].supplier")},
		{"comments below belong to what they are set under", "bags:\n  a:\n    name: small\n    length: 9 in\n    width: 6 in\n    # measured in May\n  # the big one\n  b: {name: big, length: 12 in, width: 8 in}\n",
			"bags:\n  a:\n    name: small\n    length: 9 in\n    width: 6 in\n    # measured in May\n    stock: 5\n  # the big one\n  b: {name: big, length: 12 in, width: 8 in}\n", bookfile.Set("bags.a.stock", "5")},
		{"a text that ends in a question is not the mark of a key", "suppliers:\n  farm:\n    name: farm?\n    note: by noon\n    lead-days: 1\n", "suppliers:\n  farm:\n    name: farm?\n    lead-days: 1\n", bookfile.Delete("suppliers.farm.note")},
		{"a key over several lines", "suppliers:\n  farm:\n    name: farm\n    ? note\n    : by noon\n    lead-days: 1\n", "suppliers:\n  farm:\n    name: farm\n    lead-days: 1\n", bookfile.Delete("suppliers.farm.note")},
		{"an allergen more", "ingredients:\n  a: {name: a, allergens: milk}\n", "ingredients:\n  a: {name: a, allergens: [milk, wheat]}\n", bookfile.Set("ingredients.a.allergens", "milk, wheat")},
	} {
		t.Run(c.name, func(t *testing.T) {
			files := folders(map[string]string{"kitchen.yaml": house, "book.yaml": c.before})
			got, err := bookfile.Edit(files, c.change)
			if err != nil {
				t.Fatal(err)
			}
			if d := cmp.Diff(c.after, string(got.Files["book.yaml"])); d != "" || len(got.Files) != 1 {
				t.Error(d)
			}
		})
	}
}

// What cannot be changed is said with its place and what would help, and nothing is.
func TestEditSaysWhatIsWrong(t *testing.T) {
	for _, c := range []struct {
		change bookfile.Change
		want   string
	}{
		{bookfile.Set("dishes.ale-cheddar.steps[bse].time", "5 min"), "dishes.ale-cheddar.steps[bse].time: steps has no bse: did you mean base?"},
		{bookfile.Set("dishes/ale-cheddar/steps/base/tme", "5 min"), "dishes/ale-cheddar/steps/base/tme: there is no key tme: did you mean time?"},
		{bookfile.Set("dishes/ale-cheddar/steps/base/time", "5 parsecs"), ":9: dishes/ale-cheddar/steps/base/time: time: \"5 parsecs\""},
		{bookfile.Set("dishes.ale-cheddar.steps[base].use[milk].of.x", "1"), "of is a single value: there is no x in it: end the path before it"},
		{bookfile.Delete("dishes.ale-cheddar.steps[base].do"), ":9: dishes.ale-cheddar.steps[base].do: do must be given: set it to something else"},
		{bookfile.Delete("dishes.ale-cheddar.steps[base].skill"), "it is not there: nothing needs deleting"},
		{bookfile.Delete("dishes.soup"), "it is not there"},
		{bookfile.Append("dishes.ale-cheddar.name", "x"), "is not a list: name the list"},
		{bookfile.Before("dishes.ale-cheddar", "x"), "is not an entry of a list"},
		{bookfile.Set("dishes.ale-cheddar.steps[99].time", "1 min"), "steps has 9 entries, counted from 0: there is no 99"},
		{bookfile.Append("dishes.ale-cheddar.steps", "{id: x"), "this is not how Step is written"},
		{bookfile.Append("dishes.ale-cheddar.steps", "{id: x, do: y, use: [], us: []}"), "there is no key us here: did you mean use?"},
		{bookfile.Change{Do: bookfile.DoSet, Path: "ingredients.a", Value: "{name: a}", File: "../a.yaml"}, "can be no file of a book"},
		{bookfile.Change{Do: "move", Path: "ingredients.salt"}, `there is no change "move"`},
		{bookfile.Set("dishes.ale-cheddar.steps[base", "x"), "this path cannot be read"},
		{bookfile.Set(".", "x"), "this path cannot be read"},
		{bookfile.Set("kitchen.", "x"), "this path cannot be read"},
		{bookfile.Set("kitchen..name", "x"), "this path cannot be read"},
		{bookfile.Set("", "x"), "this path cannot be read"},
	} {
		got, err := bookfile.Edit(demo.Book(), c.change)
		if err == nil || !strings.Contains(err.Error(), c.want) || got.Files != nil {
			t.Errorf("%s %s: %v", c.change.Do, c.change.Path, err)
		}
	}
	_, err := bookfile.Edit(folders(map[string]string{"kitchen.yaml": house, "a.yaml": "bags: [\n"}), bookfile.Set("kitchen.name", "x"))
	if err == nil || !strings.Contains(err.Error(), "a.yaml:") || !strings.Contains(err.Error(), "cannot be edited before this is mended") {
		t.Error(err)
	}
}
