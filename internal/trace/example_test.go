package trace_test

import (
	"fmt"

	"kettlefrost/internal/trace"
	"kettlefrost/internal/unit"
)

func ExampleGraph_Forward() {
	var g trace.Graph
	flour, _ := g.AddLot(trace.Lot{Came: 2 * unit.Kilogram})
	milk, _ := g.AddLot(trace.Lot{Came: 9 * unit.Kilogram})
	sauce, _ := g.AddLot(trace.Lot{Came: 8 * unit.Kilogram}) // 2 kg boil away
	for _, f := range []trace.Flow{{From: flour, To: sauce, Mass: unit.Kilogram}, {From: milk, To: sauce, Mass: 9 * unit.Kilogram}} {
		if _, err := g.AddFlow(f); err != nil {
			fmt.Println(err)
		}
	}
	reach, err := g.Forward(flour)
	fmt.Println(err)
	for _, l := range reach.Lots {
		fmt.Printf("lot %d: %.1f kg of it, %.1f to %.1f; %.1f kg stay, %.1f kg are lost\n", l.Lot, l.Expected.Kg(), l.Least.Kg(), l.Most.Kg(), l.Rest.Kg(), l.Lost.Kg())
	}
	_, err = g.AddFlow(trace.Flow{From: sauce, To: milk, Mass: unit.Kilogram})
	fmt.Println(err)
	// Output:
	// <nil>
	// lot 0: 2.0 kg of it, 2.0 to 2.0; 1.0 kg stay, 0.0 kg are lost
	// lot 2: 0.8 kg of it, 0.0 to 1.0; 0.8 kg stay, 0.2 kg are lost
	// trace: lot 1 goes into itself: 1, 2, and 1 again; what is left over of a lot and used once more makes a new lot
}
