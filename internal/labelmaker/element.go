package labelmaker

import "fmt"

// Element is what a text or a mark on a label is. Each has a least type height.
type Element int

// The elements.
const (
	ProductName Element = iota
	Identity
	KeepFrozen
	NetQuantity
	Ingredients
	Contains
	Firm
	Heating
	Caution
	Dates
	Lot
	BarText
	SquareText
	PanelTitle
	PanelServings
	PanelServing
	PanelCalories
	PanelFigure
	PanelSmall
	PanelLine
	PanelNote
	PanelText // all of a linear panel
	texts     // what follows is no text
)

// What is drawn and is no text.
const (
	PanelFrame Element = texts + 1 + iota
	Bars
	Square
)

var elementNames = map[Element]string{
	ProductName: "product name", Identity: "statement of identity", KeepFrozen: "keep frozen", NetQuantity: "net quantity", Ingredients: "ingredients",
	Contains: "contains", Firm: "firm and place", Heating: "heating instructions", Caution: "caution", Dates: "dates", Lot: "lot",
	BarText: "bar code text", SquareText: "QR code text", PanelTitle: "panel title", PanelServings: "panel servings", PanelServing: "panel serving size",
	PanelCalories: "panel calories", PanelFigure: "panel calories figure", PanelSmall: "panel heads", PanelLine: "panel lines", PanelNote: "panel footnote",
	PanelText: "linear panel", PanelFrame: "panel frame", Bars: "bar code", Square: "QR code",
}

// String is its name.
func (e Element) String() string {
	if name, is := elementNames[e]; is {
		return name
	}
	return fmt.Sprintf("element %d", int(e))
}

// Elements are those that are text.
func Elements() []Element {
	all := make([]Element, texts)
	for i := range all {
		all[i] = Element(i)
	}
	return all
}
