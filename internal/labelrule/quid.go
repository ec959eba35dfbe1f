package labelrule

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"kettlefrost/internal/unit"
)

// Item is an ingredient as it is put in.
type Item struct {
	Name       string
	Mass       unit.Mass
	Water      bool // added water
	Pictured   bool // stressed on the label by words or a picture
	Essential  bool // needed to characterise the food, or usually associated with its name
	Flavouring bool // a small amount, for flavour
}

// Quid is an ingredient whose share must be told.
type Quid struct {
	Name  string
	Why   string
	Share float64 // of the finished food where that has lost weight, else of what went in; may be above 1
	Text  string  // "12 %", or "prepared with 120 g of tomatoes per 100 g"
}

// QuidSource is the rule of quantities of ingredients, of which all is from memory.
const QuidSource = "Regulation (EU) 1169/2011, article 22 and annex VIII (from memory); whole per cents, one decimal below 5 %, are common practice"

// Quids are the ingredients of a food for the European Union whose quantity must be told: those that its name says, that the label stresses, or
// that characterise it; a small amount for flavour need not. The share is as put in, of the finished weight where food has lost moisture; if the
// shares come to more than 100 %, the weight is told that 100 g were made with.
func Quids(food string, items []Item, finished unit.Mass) []Quid {
	var in unit.Mass
	for _, x := range items {
		in += x.Mass
	}
	of := in
	if finished > 0 && finished < in {
		of = finished
	}
	if of <= 0 {
		return nil
	}
	var all []Quid
	sum := 0.0
	for _, x := range items {
		why := x.due(food)
		if why == "" || x.Flavouring {
			continue
		}
		share := x.Mass.Kg() / of.Kg()
		sum += share
		all = append(all, Quid{Name: x.Name, Why: why, Share: share, Text: percent(share)})
	}
	if sum > 1+1e-9 {
		for i, q := range all {
			all[i].Text = fmt.Sprintf("prepared with %.0f g of %s per 100 g", math.Floor(100*q.Share+0.5+1e-9), q.Name)
		}
	}
	return all
}

// due is why an ingredient's quantity must be told; "" if not.
func (x Item) due(food string) string {
	if x.Water {
		return ""
	}
	for _, w := range strings.Fields(x.Name) {
		w = strings.Trim(strings.ToLower(w), ",.")
		if len(w) > 2 && !slices.Contains(plainWords, w) && (says(food, w) || says(food, singular(w)) || says(food, plural(w))) {
			return "the name of the food says " + singular(w)
		}
	}
	switch {
	case x.Pictured:
		return "the label stresses it"
	case x.Essential:
		return "it characterises the food"
	}
	return ""
}

// plainWords in the name of an ingredient do not name it.
var plainWords = []string{"and", "with", "the", "red", "white", "green", "black", "brown", "yellow", "dry", "dried", "fresh", "raw", "frozen", "whole", "ground", "hot", "sweet",
	"sauce", "soup", "stock", "oil", "powder", "paste", "hard", "soft", "low", "high", "smoked", "roasted", "canned", "salted", "unsalted", "large", "small", "water"}

func percent(share float64) string {
	if p := 100 * share; p < 5 {
		return fmt.Sprintf("%.1f %%", math.Floor(10*p+0.5+1e-9)/10)
	}
	return fmt.Sprintf("%.0f %%", math.Floor(100*share+0.5+1e-9))
}

// OrderEU puts ingredients in the order of a list for the European Union: by weight as put in, but added water by what of it is in the finished
// food, which is the finished weight less all other ingredients. It tells how much that is, and whether it may be left out: up to 5 % of the
// finished food may, but not of meat, meat preparations, unprocessed fish and molluscs. Annex VII A.1 (read); the order itself from memory.
func OrderEU(items []Item, finished unit.Mass) (ordered []Item, water unit.Mass, mayLeaveOut bool) {
	var others unit.Mass
	for _, x := range items {
		if x.Water {
			water += x.Mass
			continue
		}
		others += x.Mass
		ordered = append(ordered, x)
	}
	if water > 0 {
		water = min(water, max(0, finished-others))
		mayLeaveOut = 20*water <= finished
	}
	if water > 0 {
		ordered = append(ordered, Item{Name: "water", Mass: water, Water: true})
	}
	slices.SortStableFunc(ordered, func(a, b Item) int { return cmp.Compare(b.Mass, a.Mass) })
	return ordered, water, mayLeaveOut
}
