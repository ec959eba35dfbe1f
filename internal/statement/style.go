package statement

import (
	"math"
	"strconv"
	"strings"

	"kettlefrost/internal/unit"
)

// Style is how a statement is written, where the rules leave a choice. The zero Style writes compound ingredients with their parts in brackets,
// and everything in order.
type Style struct {
	// Spread puts the parts of compound ingredients into the list itself, each by its share, with equal ones as one (101.4(b)(2)(ii)). One that does
	// not give the share of every part keeps its brackets and is told in Nested.
	Spread bool
	// Last is the most that an ingredient may be of the food to stand at the end, behind "Contains 2 % or less of", where no order is asked for
	// (101.4(a)(2)): 2, 1.5, 1 or 0.5 %. 0: none does.
	Last unit.Share
	// Whole is what Last is a share of; 0: of all that was put in. Of food that loses water the finished mass is the stricter.
	Whole unit.Mass
	// FunctionFirst writes "emulsifier: sodium citrate", as Regulation (EU) 1169/2011, annex VII, part C has it.
	FunctionFirst bool
}

// lasts are the thresholds that 101.4(a)(2) knows.
var lasts = []unit.Share{0, unit.PerCent / 2, unit.PerCent, 3 * unit.PerCent / 2, 2 * unit.PerCent}

// spread takes a line apart into the parts that it declares; the masses add up to the line's. False when a share is missing.
func (l Line) spread() ([]Line, bool) {
	if len(l.Sub) == 0 {
		return []Line{l}, true
	}
	shares := make([]int64, len(l.Sub))
	for i, p := range l.Sub {
		if p.Share <= 0 {
			return nil, false
		}
		shares[i] = int64(p.Share)
	}
	each, err := l.Mass.Split(shares...)
	if err != nil {
		return nil, false
	}
	var all []Line
	for i, p := range l.Sub {
		part := Line{Name: p.Name, Mass: each[i], Function: p.Function, Sub: p.Sub, Allergens: p.Allergens, AllergensKnown: p.AllergensKnown}
		if deeper, known := part.spread(); known {
			all = append(all, deeper...)
		} else {
			all = append(all, part) // in brackets, which its own rule allows
		}
	}
	return all, true
}

// last is how many items at the end stand behind "Contains 2 % or less of". One alone, or all, keep their places.
func (s Statement) last(style Style) int {
	whole := style.Whole
	if whole <= 0 {
		for _, item := range s.Items {
			whole += item.Mass
		}
	}
	n := 0
	for n < len(s.Items) && s.Items[len(s.Items)-1-n].Mass <= style.Last.Of(whole) {
		n++
	}
	if style.Last <= 0 || n < 2 || n == len(s.Items) {
		return 0
	}
	return n
}

// LastSays is what stands before the items at the end: "Contains 2 % or less of".
func (style Style) LastSays() string {
	return "Contains " + strconv.FormatFloat(100*style.Last.F(), 'f', -1, 64) + " % or less of"
}

// list is the texts of items as they stand in a list.
func list(items []Item) string {
	texts := make([]string, len(items))
	for i, item := range items {
		texts[i] = item.Text
	}
	return strings.Join(texts, ", ")
}

// groups are items by all that is declared of them.
type groups map[string]*Item

// add adds a line to its item; false when the masses are too large to add up.
func (g groups) add(l Line, style Style) bool {
	name, text := tidy(l.Name), l.asSub().text(0, style.FunctionFirst)
	key := strings.ToLower(text)
	item := g[key]
	if item == nil {
		item = &Item{Name: name, Text: text}
		g[key] = item
	}
	if item.Mass > math.MaxInt64-l.Mass {
		return false
	}
	item.Mass += l.Mass
	item.Text, item.Name = min(item.Text, text), min(item.Name, name) // so that the order of the lines does not matter
	return true
}
