package heatcase

import (
	"math"
	"strings"

	"kettlefrost/internal/heat"
	"kettlefrost/internal/unit"
)

// Hold makes a known composition, such as that of a dish, the food of the case: its name, its parts to a hundredth of a per cent (the
// largest part takes up what rounding leaves) and where it begins to freeze, to a hundredth of a degree Celsius. A food of the table is
// let go. Whether the composition makes sense is for Check to say.
func (c *Case) Hold(name string, of heat.Composition, freezesC float64) {
	parts := []float64{of.Water, of.Protein, of.Fat, of.Carb, of.Fibre, of.Ash, of.Alcohol}
	rounded := make([]unit.Share, len(parts))
	left, largest := hundredth(of.Sum()), 0
	for i, x := range parts {
		rounded[i] = hundredth(x)
		left -= rounded[i]
		if x > parts[largest] {
			largest = i
		}
	}
	rounded[largest] += left
	c.Name = strings.TrimSpace(name)
	c.Food = Food{FreezesAt: new(unit.TempC(math.Round(100*freezesC) / 100)), Composition: Composition{Water: rounded[0], Protein: rounded[1], Fat: rounded[2],
		Carbohydrate: rounded[3] + rounded[4], Fibre: rounded[4], Ash: rounded[5], Alcohol: rounded[6]}}
}

// hundredth is a fraction to a hundredth of a per cent.
func hundredth(x float64) unit.Share {
	return unit.ShareOf(math.Round(x*1e4) / 1e4)
}
