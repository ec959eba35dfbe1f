// Package massflow solves what goes in, what comes out and what is lost when a dish's graph of steps is cooked at some scale. It
// knows no food: ingredients are mixtures of components, steps are mixers with losses.
//
// Nothing here scales in a straight line by fiat: evaporation follows open surface, time and the number of fillings, residue
// follows the number of fillings, and the number of fillings follows the mass. Evaporation takes water only, rendering takes fat
// only. All masses are kilograms, volumes litres, areas square metres, times seconds.
package massflow

import (
	"fmt"
	"math"

	"kettlefrost/internal/loads"
)

// Component is one of the substances that a stream is made of. Their masses add up to the mass of the stream.
type Component int

const (
	Water Component = iota
	Protein
	Fat
	Carbohydrate // without fibre
	Fibre
	Ash
	Alcohol
	Other // what an analysis leaves over 100 %, of either sign, so that mass closes
	NumComponents
)

// String is the component's name.
func (c Component) String() string {
	return [...]string{"water", "protein", "fat", "carbohydrate", "fibre", "ash", "alcohol", "other"}[c]
}

// Fractions is a composition: mass fractions that add up to one.
type Fractions [NumComponents]float64

// Graph is a dish as numbers, at the scale it is written.
type Graph struct {
	Ingredients []Fractions
	Steps       []Step
	// DensityKgL is the density of each component alone, for the volume of mixtures: 1/ρ = Σ x/ρ. Zero entries take no room.
	DensityKgL Fractions
}

// Step mixes what it uses, loses some, and gives outputs.
type Step struct {
	Name   string
	Uses   []Use
	MakeUp int // index into Uses of the ingredient that is adjusted to keep the output's written mass per scale; -1 for none
	// Vessels that will do, the one with the fewest fillings is taken; none means no limit and no surface.
	Vessels []Vessel
	// Stays means that the step goes on in the vessel of step After, with its fillings; -1 for a vessel of its own.
	After int
	// BulkKgL is the density in the vessel at its fullest, 0 to compute it from composition.
	BulkKgL float64

	EvaporationKgM2H float64 // water from each square metre of open surface and hour, over TimeS
	TimeS            float64
	ReduceTo         float64 // evaporated down to this share of what went in, instead; 0 for not
	WaterLoss        float64 // share of what went in, taken from water
	FatLoss          float64 // share of what went in, taken from fat
	Drain            float64 // share of what went in, poured off as water
	ResidueKg        float64 // left in the vessel at each filling

	Outputs []Output // exactly one is Main
}

// Vessel is one filling's limits and what it evaporates from: an open surface, or a burner that keeps it at a rolling boil.
type Vessel struct {
	Limit      loads.Limit
	OpenAreaM2 float64
	// BoilKgH is what its burner boils off in an hour, whatever the surface; 0 when it does not boil.
	BoilKgH float64
}

// Use is one input of a step.
type Use struct {
	Ingredient int     // index, or -1 when the input is an earlier step's output
	From       Ref     // which output
	Kg         float64 // at the written scale
	Share      float64 // of the output, instead of Kg; 1 takes what the others leave
	StandIn    int     // ingredient bought when a by-product falls short; -1 for none
}

// Ref names an output: which step, which of its outputs.
type Ref struct{ Step, Output int }

// Part is what an output is drawn from.
type Part int

const (
	Mixed Part = iota
	FromFat
	FromWater
)

// Output is one thing that a step gives.
type Output struct {
	Name      string
	Main      bool    // takes the rest
	Takes     float64 // share of what went in, when not Main
	Part      Part
	ByProduct bool // nobody cooks more to get it
}

// Validate reports the first thing in the graph that cannot be computed.
func (g Graph) Validate() error {
	for i, f := range g.Ingredients {
		sum := 0.0
		for _, x := range f {
			sum += x
		}
		if !(math.Abs(sum-1) < 1e-6) {
			return fmt.Errorf("ingredient %d: components add up to %v, not 1", i, sum)
		}
	}
	for i := range g.Steps {
		if err := g.validateStep(i); err != nil {
			return fmt.Errorf("step %q: %w", g.Steps[i].Name, err)
		}
	}
	_, err := g.order()
	return err
}

func (g Graph) validateStep(i int) error {
	s := g.Steps[i]
	mains, taken := 0, s.WaterLoss+s.FatLoss+s.Drain
	for _, o := range s.Outputs {
		if o.Main {
			mains++
		}
		taken += o.Takes
	}
	switch {
	case mains != 1:
		return fmt.Errorf("has %d main outputs, wants one", mains)
	case !(taken < 1):
		return fmt.Errorf("outputs and losses take %.4g %% of what goes in: nothing is left for the main product", 100*taken)
	case s.ReduceTo < 0 || s.ReduceTo > 1:
		return fmt.Errorf("reduces to %v of what goes in", s.ReduceTo)
	case s.MakeUp >= len(s.Uses) || s.MakeUp >= 0 && s.Uses[s.MakeUp].Ingredient < 0:
		return fmt.Errorf("the make-up is not one of its ingredients")
	case s.After >= len(g.Steps):
		return fmt.Errorf("stays in the vessel of a step that does not exist")
	case len(s.Uses) == 0:
		return fmt.Errorf("uses nothing")
	}
	for _, x := range []float64{s.WaterLoss, s.FatLoss, s.Drain, s.ResidueKg, s.EvaporationKgM2H, s.TimeS, s.BulkKgL} {
		if !(x >= 0) || math.IsInf(x, 0) {
			return fmt.Errorf("has a loss, time or density of %v", x)
		}
	}
	for _, u := range s.Uses {
		if err := g.validateUse(u); err != nil {
			return err
		}
	}
	return nil
}

func (g Graph) validateUse(u Use) error {
	switch {
	case u.Ingredient >= len(g.Ingredients), u.StandIn >= len(g.Ingredients):
		return fmt.Errorf("uses an ingredient that does not exist")
	case u.Ingredient < 0 && (u.From.Step < 0 || u.From.Step >= len(g.Steps) || u.From.Output < 0 || u.From.Output >= len(g.Steps[u.From.Step].Outputs)):
		return fmt.Errorf("uses an output that does not exist")
	case !(u.Kg >= 0) || math.IsInf(u.Kg, 0), !(u.Share >= 0 && u.Share <= 1):
		return fmt.Errorf("uses %v kg or a share of %v", u.Kg, u.Share)
	case u.Ingredient >= 0 && u.Share != 0:
		return fmt.Errorf("takes a share of an ingredient")
	}
	return nil
}

// order is the steps such that each comes after those it draws on; steps that are ready at the same time keep their written order.
func (g Graph) order() ([]int, error) {
	const (
		unseen = iota
		open
		done
	)
	state := make([]int, len(g.Steps))
	var order, trail []int
	var visit func(int) error
	visit = func(i int) error {
		switch state[i] {
		case done:
			return nil
		case open:
			return g.cycle(append(trail, i))
		}
		state[i] = open
		trail = append(trail, i)
		for _, u := range g.Steps[i].Uses {
			if u.Ingredient < 0 {
				if err := visit(u.From.Step); err != nil {
					return err
				}
			}
		}
		trail = trail[:len(trail)-1]
		state[i] = done
		order = append(order, i)
		return nil
	}
	for i := range g.Steps {
		if err := visit(i); err != nil {
			return nil, err
		}
	}
	return order, nil
}

func (g Graph) cycle(trail []int) error {
	last := trail[len(trail)-1]
	text := ""
	for i, s := range trail {
		if s == last || text != "" {
			if text != "" {
				text += " needs "
			}
			text += g.Steps[trail[i]].Name
		}
	}
	return fmt.Errorf("steps go in a circle: %s", text)
}
