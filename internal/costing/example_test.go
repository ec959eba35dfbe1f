package costing_test

import (
	"fmt"

	"kettlefrost/internal/costing"
	"kettlefrost/internal/unit"
)

// Ninety packs were made of a hundred planned; the beef was dearer and more of it went in.
func ExampleCompare() {
	kg := func(x float64) costing.Price {
		return costing.Price{Money: unit.MoneyOf(x), Per: unit.Kilogram}
	}
	v, err := costing.Compare(costing.Run{Planned: 100, Made: 90,
		Inputs: []costing.Input{{Name: "beef", Standard: costing.Usage{Mass: 20 * unit.Kilogram, Price: kg(10)}, Actual: costing.Usage{Mass: 19 * unit.Kilogram, Price: kg(10.50)}}},
		Hands:  []costing.Hands{{Name: "cooking", StandardTime: 4 * unit.Hour, ActualTime: 4 * unit.Hour, StandardRate: unit.Wage(unit.MoneyOf(18))}}})
	if err != nil {
		fmt.Println(err)
		return
	}
	beef := v.Inputs[0]
	fmt.Println("price", beef.Price.Amount, beef.Price.Side())
	fmt.Println("usage", beef.Usage.Amount, beef.Usage.Side())
	fmt.Println("time", v.Hands[0].Efficiency.Amount, v.Hands[0].Efficiency.Side())
	fmt.Println(v.Untold[0])
	// Output:
	// price 9.50 adverse
	// usage 10.00 adverse
	// time 7.20 adverse
	// cooking, rate: what was really paid is not known
}
