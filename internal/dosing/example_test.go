package dosing_test

import (
	"fmt"

	"kettlefrost/internal/dosing"
	"kettlefrost/internal/unit"
)

// Three quarts of soup at home, and a kitchen scale with steps of a gram.
func ExampleWeigh() {
	soup := (3 * unit.Quart).Times(1.036)
	dose, err := dosing.Gum(dosing.Xanthan, "soup", "", soup)
	if err != nil {
		fmt.Println(err)
		return
	}
	w, err := dosing.Weigh(dose, dosing.Scale{Division: unit.Gram}, unit.PerCent)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(w.Found[0].Message)
	fmt.Println(w.Found[0].Fix)
	// Output:
	// 4.41 g on a scale with steps of 1.00 g is 4.00 g, 9.3 % low
	// use a scale with steps of 0.10 g, or make a stock: 25.0 g of it in 2500.0 g in all, and weigh 441.0 g of that
}
