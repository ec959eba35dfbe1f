package labelrule

import (
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/statement"
	"kettlefrost/internal/unit"
)

// Panel is a side of a pack.
type Panel string

const (
	Principal   Panel = "principal" // the one a customer sees first
	Information Panel = "information"
	Other       Panel = "other"
)

// Placed is an element as it stands on a label.
type Placed struct {
	Element  Element
	Text     string
	Panel    Panel
	Letter   unit.Length // height of the lower-case o (US) or x (EU); of capitals where there are no others; 0: not known
	Bold     bool
	Parallel bool    // its lines are parallel to the base
	Field    int     // of vision: what has one number is seen at once
	After    Element // what it follows immediately or stands beside
	// Emphasised are the words of a list of ingredients that are set off from the others.
	Emphasised []string
}

// Label is what stands on a pack, and what must be known of the food to judge it.
type Label struct {
	Elements []Placed
	// Statement is the ingredients with their allergens, from which the label was written.
	Statement statement.Statement
	// EU and Open are for the European Union: which of the fourteen there are, and what nobody has answered.
	EU         []EUFound
	Open       []EUQuestion
	LargestCm2 float64 // the largest surface of the pack, which only the European Union asks for; 0: not known, and taken for large
	Frozen     bool
	Meat       bool // it is a meat product under the Department of Agriculture
	Poultry    bool // likewise, of poultry
	ReadyToEat bool
	NoPanel    bool // the nutrition panel may be left out (Exemptions)
}

// find is an element of the label.
func (l Label) find(e Element) (Placed, bool) {
	i := slices.IndexFunc(l.Elements, func(p Placed) bool { return p.Element == e && strings.TrimSpace(p.Text) != "" })
	if i < 0 {
		return Placed{}, false
	}
	return l.Elements[i], true
}

// Check says which rules of a market a label breaks. Size and place of the net quantity for the United States are netdeclare's.
func Check(m Market, l Label) finding.List {
	var all finding.List
	if l.Statement.Withheld() {
		var missing []string
		for _, x := range l.Statement.Missing {
			missing = append(missing, x.String())
		}
		all = append(all, finding.Finding{Code: "label-withheld", Severity: finding.Stop, Where: "label", Message: "the allergens are not known of " + strings.Join(missing, "; "),
			Source: "21 U.S.C. 343(w) (read)", Fix: "answer allergens for each: none, or their names"})
	}
	for _, p := range l.Elements {
		if p.Letter == 0 {
			all = append(all, finding.Finding{Code: "label-type-not-known", Severity: finding.Caution, Where: "label, " + string(p.Element), Message: "the height of its type is not known, and so not judged",
				Source: "21 CFR 101.2(c) (from memory); Regulation (EU) 1169/2011, article 13 (read)", Fix: "measure a lower-case o or x"})
		}
	}
	if m == EU {
		return append(all, l.eu()...)
	}
	return append(all, l.us()...)
}

// need tells of an element that is not there.
func (l Label) need(code string, e Element, fix string) finding.List {
	if _, there := l.find(e); there {
		return nil
	}
	r, _ := RuleOf(code)
	return finding.List{broken(code, fmt.Sprintf("there is no %s: %s", e, r.Says), fix)}
}

func height(name string, h unit.Length) finding.Figure {
	return finding.Figure{Name: name, Value: h.M() * 1000, Unit: "mm", Text: h.Show(unit.Metric)}
}
