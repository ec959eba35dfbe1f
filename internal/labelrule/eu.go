package labelrule

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"kettlefrost/internal/finding"
)

const (
	smallCm2   = 80 // below: smaller type
	noPanelCm2 = 25 // below: no nutrition declaration
	tiniestCm2 = 10 // below: only name, allergens, net quantity and date (from memory)
)

// surface is the largest one; where it is not known, a large one, of which most is asked.
func (l Label) surface() float64 {
	if l.LargestCm2 <= 0 {
		return math.Inf(1)
	}
	return l.LargestCm2
}

func (l Label) eu() finding.List {
	var all finding.List
	for _, q := range l.Open {
		all = append(all, finding.Finding{Code: "label-withheld", Severity: finding.Stop, Where: "label", Message: fmt.Sprintf("of %s nobody has answered %s", q.Part, q.Asks), Source: q.Source,
			Fix: "read the supplier's label, or ask"})
	}
	all = append(all, l.need("eu-name", Identity, "print the name of the food")...)
	all = append(all, l.need("eu-net", Net, "print the net quantity in grams or kilograms")...)
	all = append(all, l.need("eu-date", Date, "print best before and the day, or best before end and the month")...)
	name, there := l.find(Identity)
	net, too := l.find(Net)
	if there && too && name.Field != net.Field {
		all = append(all, broken("eu-same-field", "name and net quantity cannot be seen at once", "put them on one side"))
	}
	all = append(all, l.annex2()...)
	all = append(all, l.xHeight()...)
	if l.surface() < tiniestCm2 {
		return all
	}
	all = append(all, l.need("eu-operator", Operator, "print name and address")...)
	all = append(all, l.need("eu-ingredients", Ingredients, "list them under that heading")...)
	if list, there := l.find(Ingredients); there && !says(list.Text, "ingredients") {
		all = append(all, broken("eu-ingredients", "the list of ingredients has no heading with that word", "begin it with Ingredients:"))
	}
	if l.surface() >= noPanelCm2 && !l.NoPanel {
		all = append(all, l.need("eu-nutrition", Nutrition, "print the declaration")...)
	}
	if l.Frozen {
		all = append(all, l.need("eu-storage", Storage, "print how to store it, and not to refreeze it once thawed")...)
	}
	return append(all, l.need("eu-lot", Lot, "print L and the code of the lot, or a date with day and month")...)
}

// annex2 is the fourteen: each named in the list, and set off from what stands around it.
func (l Label) annex2() finding.List {
	list, there := l.find(Ingredients)
	if !there {
		list, there = l.find(Contains) // a pack without a list says what it contains
	}
	var all finding.List
	for _, f := range l.EU {
		words := f.words()
		in := func(text string) bool {
			return slices.ContainsFunc(words, func(w string) bool { return says(text, w) })
		}
		switch {
		case !there || !in(list.Text):
			all = append(all, broken("eu-allergen", "it is not named: "+f.Name(), "write it behind the ingredient, emphasised"))
		case list.Element == Ingredients && !in(strings.Join(list.Emphasised, " ")):
			all = append(all, broken("eu-emphasis", "it is not emphasised: "+f.Name(), "set it in bold, wherever it stands"))
		}
	}
	return all
}

func (l Label) xHeight() finding.List {
	r, _ := RuleOf("eu-x-height")
	if l.surface() < smallCm2 {
		r, _ = RuleOf("eu-x-height-small")
	}
	var all finding.List
	for _, p := range l.Elements {
		if p.Letter > 0 && p.Letter < r.Least {
			all = append(all, broken(r.Code, fmt.Sprintf("the type of %s is too small", p.Element), "set it larger", height("x-height", p.Letter), height("at least", r.Least)))
		}
	}
	return all
}
