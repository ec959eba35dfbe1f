package labelmaker

import (
	_ "embed"
	"math"
	"strconv"

	"kettlefrost/internal/netdeclare"
	"kettlefrost/internal/nutrition"
	"kettlefrost/internal/sourced"
	"kettlefrost/internal/unit"
)

// PtPerMm is how many points a millimetre has: 72 to the inch of 25.4 mm, exactly.
const PtPerMm = 72 / 25.4

// Least is how small the type of an element may be. Letters are measured by a lower-case x where the text has lower-case letters, else by a
// capital. Where both are given, both hold.
type Least struct {
	LetterMm float64
	TypePt   float64
	Source   string
	Confirm  string // what of it is from memory or common practice; empty when nothing
}

// Rules are what a label must keep to, as numbers.
type Rules struct {
	Name  string
	Least [texts]Least
	// NetWithin is the share of the label's height, from below, in which the net quantity stands; 0 for anywhere. A label that is not the whole
	// principal display panel is held to it as if it were.
	NetWithin float64
	// NetClear keeps the net quantity's letter height free above and below it, and twice the width of its N at its sides.
	NetClear bool
	Source   string // of both
}

// height is a line of the table.
type height struct {
	rules, element, measure string
	over, upto              float64
	least                   Least
}

//go:embed data/heights.csv
var heightsCSV string

var heights = sourced.MustRead(heightsCSV, func(row sourced.Row) (height, error) {
	h := height{rules: row["rules"], element: row["element"], measure: row["measure"], upto: math.Inf(1), least: Least{Source: row["source"], Confirm: row["confirm"]}}
	for name, to := range map[string]*float64{"over": &h.over, "upto": &h.upto, "letter_mm": &h.least.LetterMm, "type_pt": &h.least.TypePt} {
		if row[name] == "" {
			continue
		}
		x, err := strconv.ParseFloat(row[name], 64)
		if err != nil {
			return h, err
		}
		*to = x
	}
	return h, nil
})

// smallPanelSqIn is a principal display panel on which the net quantity may stand anywhere (21 CFR 101.7(f), read in the 2015 text of 101.105).
const smallPanelSqIn = 5

// US are the rules of 21 CFR 101 for a pack whose principal display panel has an area, in square inches. What of them is from memory says so.
func US(panelSqIn float64) Rules {
	r := Rules{Name: "United States", NetClear: true, Source: "21 CFR 101.7(f), read in the 2015 text of 101.105"}
	if panelSqIn > smallPanelSqIn {
		r.NetWithin = 0.30
	}
	r.take("us", 0)
	if h, err := netdeclare.USHeight(min(max(panelSqIn, leastPanel), mostPanel), false); err == nil {
		r.Least[NetQuantity] = leastOf(h)
	}
	for _, s := range nutrition.TypeSizes() {
		for _, e := range panelSizes[s.Element] {
			size := s.Standard
			if e == PanelText { // only small packs have it
				size = s.Small
			}
			if points, given := size.Get(); given {
				r.Least[e] = Least{TypePt: points, Source: s.Source, Confirm: s.Confirm}
			}
		}
	}
	return r
}

// leastPanel and mostPanel hold an area to what package netdeclare has a height for.
const leastPanel, mostPanel = 0.01, 1e5

// panelSizes are the elements of a panel as package nutrition's table of type sizes has them.
var panelSizes = map[string][]Element{"servings per container": {PanelServings}, "serving size": {PanelServing}, "calories": {PanelCalories}, "figure of calories": {PanelFigure},
	"amount per serving": {PanelSmall}, "nutrients": {PanelLine, PanelText}, "footnote": {PanelNote}}

func leastOf(h netdeclare.Height) Least {
	return Least{LetterMm: h.Least.M() * 1000, Source: h.Source, Confirm: h.Confirm}
}

// EU are the rules of Regulation (EU) No 1169/2011 and Directive 76/211/EEC for a pack with a largest surface, in square centimetres, that holds
// an amount in grams or millilitres.
func EU(surfaceCm2, net float64) Rules {
	r := Rules{Name: "European Union"}
	r.take("eu", surfaceCm2)
	if h, err := netdeclare.EUHeight(max(unit.Milligram, unit.MassKg(net/1000))); err == nil {
		r.Least[NetQuantity] = leastOf(h)
	}
	return r
}

// take reads the table: a line for all elements first, then those of their own. The lower end of a band belongs to it, the upper does not.
func (r *Rules) take(rules string, surfaceCm2 float64) {
	for _, h := range heights {
		if h.rules != rules || h.measure != "" && !(surfaceCm2 >= h.over && surfaceCm2 < h.upto) {
			continue
		}
		for _, e := range Elements() {
			if h.element == e.String() || h.element == "*" && r.Least[e] == (Least{}) {
				r.Least[e] = h.least
			}
		}
	}
}

// size is the least type size of a text in points.
func (r Rules) size(e Element, text string, bold bool) float64 {
	least := r.Least[e]
	return max(least.TypePt, least.LetterMm*PtPerMm/letterHeight(text, bold), smallestPt)
}

// smallestPt is the smallest type that is ever set, whatever the rules say: common practice of label printers, which have 203 dots to the inch.
const smallestPt = 4.5
