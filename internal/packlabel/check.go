package packlabel

import (
	"math"
	"slices"
	"strings"

	"kettlefrost/internal/draw"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/labelmaker"
	"kettlefrost/internal/labelrule"
	"kettlefrost/internal/netdeclare"
	"kettlefrost/internal/unit"
)

// told says whether a finding of labelrule was told before, with its place in the book.
func (m *maker) told(code string) bool {
	switch code {
	case "label-withheld":
		return true // by the list of ingredients
	case "us-nutrition", "eu-nutrition":
		return slices.ContainsFunc(m.out.Open, func(f finding.Finding) bool {
			return f.Code == CodeNutrient || f.Code == CodeNutrition || f.Code == CodeReference
		})
	case "label-type-not-known":
		return len(m.out.Sides) == 0
	}
	return false
}

// check looks at what stands on the label, as it was laid out. Words are checked in English, which the rules are written for: the texts of every
// language are made of the same facts.
func (m *maker) check(english labelmaker.Content) {
	market := labelrule.EU
	if m.us() {
		market = labelrule.US
	}
	raw := m.notCooked()
	l := labelrule.Label{Elements: m.placed(english), Statement: m.out.Statement, EU: m.out.EUList.Found, Open: m.out.EUList.Questions, LargestCm2: m.faceCm2(), Frozen: true, ReadyToEat: len(raw) == 0, NoPanel: m.out.NoPanel,
		Meat:    m.out.Agency.Agriculture && (m.out.Shares.CookedMeat > 0 || m.out.Shares.RawMeat > 0),
		Poultry: m.out.Agency.Agriculture && m.out.Shares.CookedPoultry > 0}
	for _, f := range labelrule.Check(market, l) {
		if !m.told(f.Code) {
			m.ask(f)
		}
	}
	for _, side := range m.out.Sides {
		m.out.Open = append(m.out.Open, labelmaker.Check(side.Laid)...)
		if m.us() {
			m.checkNet(side.Laid, strings.Join(english.Net, " "))
		}
	}
}

// placed is every element with its words and the height of its letters.
func (m *maker) placed(c labelmaker.Content) []labelrule.Placed {
	lower := 'x'
	if m.us() {
		lower = 'o'
	}
	list, emphasised := runsText(c.Ingredients)
	contains, _ := runsText(c.Contains)
	all := []labelrule.Placed{
		{Element: labelrule.Identity, Text: c.Identity, Bold: true}, {Element: labelrule.Net, Text: strings.Join(c.Net, " ")},
		{Element: labelrule.Ingredients, Text: list, Emphasised: emphasised}, {Element: labelrule.Contains, Text: contains, After: labelrule.Ingredients},
		{Element: labelrule.Operator, Text: strings.Join(c.Firm, ", ")}, {Element: labelrule.KeepFrozen, Text: c.Keep},
		{Element: labelrule.Storage, Text: strings.Join(append(noEmpty(c.Keep), c.Cautions...), " ")},
	}
	if c.Panel != nil {
		all = append(all, labelrule.Placed{Element: labelrule.Nutrition, Text: c.Panel.Title})
	}
	for _, d := range c.Dates {
		all = append(all, labelrule.Placed{Element: labelrule.Date, Text: d.Name + " " + d.Is})
	}
	if c.Lot.Is != "" {
		all = append(all, labelrule.Placed{Element: labelrule.Lot, Text: c.Lot.Name + " " + c.Lot.Is})
	}
	var there []labelrule.Placed
	for _, p := range all {
		if strings.TrimSpace(p.Text) == "" {
			continue
		}
		p.Panel, p.Field, p.Letter = m.standsOn(setAs[p.Element], lower)
		p.Parallel = true
		there = append(there, p)
	}
	return there
}

// setAs is as what the layout sets an element.
var setAs = map[labelrule.Element][]labelmaker.Element{
	labelrule.Identity: {labelmaker.Identity}, labelrule.Net: {labelmaker.NetQuantity}, labelrule.Ingredients: {labelmaker.Ingredients}, labelrule.Contains: {labelmaker.Contains},
	labelrule.Operator: {labelmaker.Firm}, labelrule.KeepFrozen: {labelmaker.KeepFrozen}, labelrule.Storage: {labelmaker.KeepFrozen, labelmaker.Caution}, labelrule.Date: {labelmaker.Dates},
	labelrule.Lot: {labelmaker.Lot}, labelrule.Nutrition: {labelmaker.PanelLine, labelmaker.PanelText, labelmaker.PanelSmall, labelmaker.PanelNote},
}

func runsText(runs []labelmaker.Run) (text string, strong []string) {
	for _, r := range runs {
		text += r.Text
		if r.Strong {
			strong = append(strong, r.Text)
		}
	}
	return text, strong
}

// standsOn is the side that an element is on, the field of vision that is, and the height of its lowest letters; 0 where nothing was laid out.
func (m *maker) standsOn(of []labelmaker.Element, lower rune) (labelrule.Panel, int, unit.Length) {
	for i, side := range m.out.Sides {
		if letter := lowest(side.Laid, of, lower); letter > 0 {
			return side.Panel, i + 1, letter
		}
	}
	return labelrule.Principal, 1, 0
}

// lowest is the height of the lowest letters of some elements on a label; 0 when none is there.
func lowest(laid labelmaker.Label, of []labelmaker.Element, lower rune) unit.Length {
	lowest := math.Inf(1)
	for _, mark := range laid.Marks {
		if mark.Text != "" && slices.Contains(of, mark.Element) {
			lowest = min(lowest, letters().height(mark, lower))
		}
	}
	if math.IsInf(lowest, 1) {
		return 0
	}
	return points(lowest)
}

// checkNet holds the net quantity to its rules as it was laid out.
func (m *maker) checkNet(laid labelmaker.Label, text string) {
	var net []labelmaker.Mark
	var others []draw.Box
	for _, mark := range laid.Marks {
		if mark.Element == labelmaker.NetQuantity && mark.Text != "" {
			net = append(net, mark)
		} else {
			others = append(others, letters().ink(mark))
		}
	}
	if len(net) == 0 {
		return
	}
	box := letters().ink(net[0])
	for _, mark := range net[1:] {
		box = around(box, letters().ink(mark))
	}
	_, _, wide := letters().glyph('N', net[0].Bold)
	p := netdeclare.Placed{Text: text, PanelHeight: points(laid.HighPt), PanelSqIn: m.faceSqIn(), Top: points(laid.HighPt - box.Y), Letter: lowest(laid, setAs[labelrule.Net], 'o'),
		Wide: points(wide * net[0].Size), Parallel: true}
	p.Above, p.Below, p.Left, p.Right = free(box, others)
	found, err := netdeclare.Check(p)
	if err != nil {
		m.ask(finding.Finding{Code: CodeNet, Severity: finding.Stop, Where: "net quantity", Message: err.Error(), Fix: "correct the size of the bag or the label"})
	}
	m.out.Open = append(m.out.Open, found...)
}

func around(a, b draw.Box) draw.Box {
	x, y := min(a.X, b.X), min(a.Y, b.Y)
	return draw.Box{X: x, Y: y, W: max(a.X+a.W, b.X+b.W) - x, H: max(a.Y+a.H, b.Y+b.H) - y}
}

// free is how far the next print is on each side: of what stands in the same rows or columns. An empty side is as wide as a label may be.
func free(box draw.Box, others []draw.Box) (above, below, left, right unit.Length) {
	const far = 1e4
	up, down, before, behind := far, far, far, far
	for _, o := range others {
		if o.X < box.X+box.W && o.X+o.W > box.X {
			if o.Y+o.H <= box.Y {
				up = min(up, box.Y-o.Y-o.H)
			} else if o.Y >= box.Y+box.H {
				down = min(down, o.Y-box.Y-box.H)
			}
		}
		if o.Y < box.Y+box.H && o.Y+o.H > box.Y {
			if o.X+o.W <= box.X {
				before = min(before, box.X-o.X-o.W)
			} else if o.X >= box.X+box.W {
				behind = min(behind, o.X-box.X-box.W)
			}
		}
	}
	return points(up), points(down), points(before), points(behind)
}
