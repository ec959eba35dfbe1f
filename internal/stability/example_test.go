package stability_test

import (
	"fmt"

	"kettlefrost/internal/stability"
)

// Creamed potato soup with corn starch, frozen slowly in tubs: what to change, and what each change leaves of it.
func ExampleOf() {
	r, err := stability.Of(pot{Components: []stability.Component{kg(water, 6), kg(milk, 2), kg(potato, 2), kg(cornStarch, 0.2)}, FrontMMH: 0.6})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, f := range r.Findings {
		fmt.Printf("%s: %s\n", f.Severity, f.Mechanism)
		for _, m := range f.Remedies {
			if m.Tried {
				fmt.Printf("  %s: then %s\n", m.Do, m.After)
			}
		}
	}
	for _, p := range r.Passed {
		fmt.Printf("passed: %s, as %s\n", p.Code, p.Why)
	}
	// Output:
	// leave out or add at reheating: cooked potato turns soft, crumbly, water-logged and mealy
	//   puree it, or blend it in hot until smooth: then good
	//   freeze the pot without it and add it at reheating: then good
	//   use a firm, waxy kind in large pieces, and stop while they are underdone: then change the recipe
	// note: amylose sets again, a sponge forms and water drains: the sauce separates or sets, and thins when it is stirred
	//   add xanthan, dispersed before it goes in: then good
	//   thicken with waxy rice flour, waxy starch or a modified starch for freezing in place of it: then good
	//   freeze it faster: flatter, with air moving on both sides: then note
	// passed: milk, as the pot is held together by 2.2 % of starch
}
