package labelrule

import (
	"fmt"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/statement"
	"kettlefrost/internal/unit"
)

func (l Label) us() finding.List {
	var all finding.List
	all = append(all, l.identity()...)
	if net, there := l.find(Net); !there || net.Panel != Principal {
		all = append(all, broken("us-net", "no net quantity stands on the principal display panel", "put it there"))
	}
	all = append(all, l.need("us-ingredients", Ingredients, "list them in descending order by weight")...)
	all = append(all, l.contains()...)
	all = append(all, l.need("us-operator", Operator, "print the name, and city, state and ZIP code")...)
	if !l.NoPanel {
		all = append(all, l.need("us-nutrition", Nutrition, "print the panel, or see which exemption the product falls under and ask the authority")...)
	}
	all = append(all, l.agency()...)
	return append(all, l.information()...)
}

// identity is the name of the food.
func (l Label) identity() finding.List {
	name, there := l.find(Identity)
	if !there {
		return l.need("us-identity", Identity, "print the common or usual name of the food")
	}
	var all finding.List
	if name.Panel != Principal {
		all = append(all, broken("us-identity-panel", "the name of the food does not stand on the principal display panel", "put it there"))
	}
	if !name.Parallel {
		all = append(all, broken("us-identity-parallel", "the name is not parallel to the base", "set it straight"))
	}
	var tallest unit.Length
	for _, p := range l.Elements {
		if p.Panel == Principal {
			tallest = max(tallest, p.Letter)
		}
	}
	if !name.Bold || name.Letter > 0 && 2*name.Letter < tallest {
		all = append(all, broken("us-identity-type", "the name is not bold, or less than half as high as the tallest print on its panel", "set it bold, and at least half as high",
			height("name", name.Letter), height("tallest", tallest)))
	}
	return all
}

// contains is the allergens: in the list, or behind Contains.
func (l Label) contains() finding.List {
	var all finding.List
	list, _ := l.find(Ingredients)
	line, hasLine := l.find(Contains)
	for _, f := range l.Statement.Found {
		inList, inLine := named(list.Text, f), named(line.Text, f)
		if len(inList) > 0 && len(inLine) > 0 {
			all = append(all, broken("us-allergen", "nowhere on the label does it say "+listed(inLine), "write it behind Contains, or in brackets behind the ingredient"))
			if len(f.Species) > 0 && says(line.Text+" "+list.Text, f.Allergen) {
				all = append(all, broken("us-species", f.Allergen+" is named without its kind", "write "+listed(f.Species)))
			}
		} else if hasLine && len(inLine) > 0 {
			all = append(all, broken("us-contains-whole", "the Contains line leaves out "+listed(inLine), "name it there too"))
		}
	}
	if !hasLine {
		return all
	}
	if line.After != Ingredients {
		all = append(all, broken("us-contains-place", "the Contains line does not follow the list of ingredients", "put it directly behind or beside the list"))
	}
	if line.Letter > 0 && line.Letter < list.Letter {
		all = append(all, broken("us-contains-type", "the Contains line is smaller than the list of ingredients", "set it at least as large", height("contains", line.Letter), height("ingredients", list.Letter)))
	}
	return all
}

// named is what a text leaves out of an allergen: the species where there are any, else its word.
func named(text string, f statement.Found) []string {
	want := f.Species
	if len(want) == 0 {
		want = []string{f.Allergen}
	}
	var missing []string
	for _, w := range want {
		if !says(text, w) && !says(text, plural(w)) && !says(text, singular(w)) {
			missing = append(missing, w)
		}
	}
	return missing
}

// agency is what meat and poultry ask for on top.
func (l Label) agency() finding.List {
	var all finding.List
	ask := func(yes bool, code string, e Element, fix string, onPrincipal bool) {
		if p, there := l.find(e); yes && (!there || onPrincipal && p.Panel != Principal) {
			r, _ := RuleOf(code)
			all = append(all, broken(code, "it is missing: "+r.Says, fix))
		}
	}
	ask(l.Frozen && l.Poultry, "us-keep-frozen", KeepFrozen, "print Keep Frozen there", true)
	ask(l.Frozen && l.Meat && !l.Poultry, "us-keep-frozen-meat", KeepFrozen, "print Keep Frozen there", true)
	ask(!l.ReadyToEat && l.Poultry, "us-safe-handling", SafeHandling, "print them with their heading, border and pictures", false)
	ask(!l.ReadyToEat && l.Meat && !l.Poultry, "us-safe-handling-meat", SafeHandling, "print them with their heading, border and pictures", false)
	return all
}

// information is type and place of what the information panel carries.
func (l Label) information() finding.List {
	var all finding.List
	least, _ := RuleOf("us-small-type")
	panels := map[Panel]bool{}
	for _, e := range []Element{Ingredients, Contains, Operator, Nutrition} {
		p, there := l.find(e)
		if !there {
			continue
		}
		if e != Contains {
			panels[p.Panel] = true
		}
		if e != Nutrition && p.Letter > 0 && p.Letter < least.Least { // the panel has sizes of its own
			all = append(all, broken("us-small-type", fmt.Sprintf("the type of %s is too small", e), "set it larger", height("height", p.Letter), height("at least", least.Least)))
		}
	}
	if len(panels) > 1 {
		all = append(all, broken("us-together", "ingredients, nutrition panel and operator stand on different panels", "put them together"))
	}
	return all
}
