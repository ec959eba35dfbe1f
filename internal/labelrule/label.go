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
	Letter   unit.Length // height of the lower-case o (US) or x (EU); of capitals where there are no others
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
	Statement  statement.Statement
	EU         []EUFound // for the European Union
	LargestCm2 float64   // the largest surface of the pack; only the European Union asks
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
