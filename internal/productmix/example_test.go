package productmix_test

import (
	"fmt"

	"kettlefrost/internal/productmix"
	"kettlefrost/internal/unit"
)

// Two dishes for one kettle and one freezer: whole kettles only.
func ExampleBest() {
	p := productmix.Problem{
		Resources: []productmix.Resource{{Name: "kettle, min", Have: 600, Step: 60}, {Name: "freezer, l", Have: 100, Step: 10}},
		Products: []productmix.Product{
			{Name: "chili", Demand: 120, Lots: []productmix.Lot{{Name: "kettle", Packs: 40, Contribution: unit.MoneyOf(120), Uses: []int64{150, 24}}}},
			{Name: "broth", Demand: 200, Lots: []productmix.Lot{{Name: "kettle", Packs: 50, Contribution: unit.MoneyOf(100), Uses: []int64{90, 30}}}},
		},
	}
	m, err := productmix.Best(p)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(m.Packs, m.Contribution, "gap", m.Gap())
	worths, err := productmix.Worths(p, m)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, w := range worths {
		fmt.Println(p.Resources[w.Resource].Name, "+", w.Step, "earns", w.More.Low, "; pays from", w.Pays, "steps:", w.Earn.Low)
	}
	// By hand: three of chili and none of broth take 450 min and 72 l, earn 360, and leave 28 l, too little for a broth; two and one take
	// 78 l and earn 340. With 10 l more the broth fits as well: 102 l.
	// Output:
	// [120 0] 360.00 gap 0.00
	// kettle, min + 60 earns 0.00 ; pays from 0 steps: 0.00
	// freezer, l + 10 earns 100.00 ; pays from 1 steps: 100.00
}
