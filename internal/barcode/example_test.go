package barcode_test

import (
	"fmt"

	"kettlefrost/internal/barcode"
	"kettlefrost/internal/unit"
)

// What stands on a case: its number, the day by which it is best, its lot and its net weight.
func Example() {
	weight, err := barcode.NetKilograms(680*unit.Gram, 3)
	if err != nil {
		fmt.Println(err)
		return
	}
	best, err := barcode.Date{Year: 2027, Month: 5, Day: 31}.Value()
	if err != nil {
		fmt.Println(err)
		return
	}
	all := barcode.Elements{{AI: "01", Value: "99521234543216"}, {AI: "10", Value: "L-0917"}, {AI: "15", Value: best}, weight}.Ordered()
	symbol, err := barcode.EncodeGS1(all)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(symbol.Readable)
	fmt.Println(symbol.AcrossModules(), "modules with quiet zones")
	_, err = barcode.EncodeGS1(barcode.Elements{{AI: "10", Value: "L 0917"}})
	fmt.Println(err)
	// Output:
	// (01)99521234543216(15)270531(3103)000680(10)L-0917
	// 330 modules with quiet zones
	// barcode: batch or lot (10) "L 0917": character 2 is ' ', which this identifier may not hold; write "-" or "." in place of the space
}
