package labelmaker_test

import (
	"bytes"
	"fmt"

	"kettlefrost/internal/labelmaker"
)

// A label that does not fit is not printed; the finding says how much is short and what would do.
func Example() {
	soup := labelmaker.Content{
		Identity:    "Red Lentil Soup",
		Keep:        "Keep frozen",
		Net:         []string{"NET WT 12 OZ (340 G)"},
		Ingredients: labelmaker.Plain("Ingredients: water, red lentils, onion, carrot, butter (milk, salt), salt, cumin, turmeric, black pepper."),
		Contains:    labelmaker.Plain("Contains: Milk."),
		Firm:        []string{"Made by Hill Road Kitchen, Burlington, VT 05401"},
		Lot:         labelmaker.Fact{Name: "Lot", Is: "L-0917"},
	}
	rules := labelmaker.US(20) // a principal display panel of 20 square inches
	_, found := labelmaker.Lay(soup, labelmaker.Roll(76.2, 25.4), rules)
	for _, f := range found {
		fmt.Println(f.Severity, f.Message)
		fmt.Println(f.Fix)
	}
	stock := labelmaker.Roll(101.6, 50.8)
	label, _ := labelmaker.Lay(soup, stock, rules)
	var file bytes.Buffer
	if err := labelmaker.PDF(&file, labelmaker.Job{Title: "lot L-0917", Labels: []labelmaker.Label{label}, Stock: stock}); err != nil {
		fmt.Println(err)
	}
	fmt.Println(len(labelmaker.Check(label)), "faults; a PDF:", bytes.HasPrefix(file.Bytes(), []byte("%PDF")))
	// Output:
	// stop what must be on it does not fit, with every type at its least
	// any of these would do (each was tried): labels of 3 x 2 in; the ingredients and the line of allergens on a second label
	// 0 faults; a PDF: true
}
