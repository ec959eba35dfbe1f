package plan

import (
	"errors"
	"fmt"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
	"kettlefrost/internal/vessel"
)

// boilC is where the published table of evaporation ends; from there on it is a rolling boil, and the burner decides.
const boilC = 98.8

// boils says that step i is kept at a rolling boil with the lid off and that the book gives no rate of its own for it.
func (d *cooked) boils(i int) bool {
	l := d.dish.Steps[i].Loses
	t := d.hot(i)
	return l.Evaporation == 0 && (l.Open || l.ReduceTo > 0) && t != nil && t.C() >= boilC
}

// boilOffKgH is what a full vessel loses at a rolling boil with its burner all the way up, the loss of its wall taken off; 0 when
// nothing is known of its burner, so that the open surface has to do.
func (p *planner) boilOffKgH(id kitchen.EquipmentID) float64 {
	source, err := p.heatSource(id)
	if err != nil {
		return 0
	}
	net, err := heaterOf(source).NetW()
	if err != nil {
		return 0
	}
	e := p.book.Equipment[id]
	if e.Diameter > 0 {
		net -= (4*workingL(e)/1000/e.Diameter.M() + circle(e.Diameter)) * vessel.BareWallWM2K * (100 - p.air.C())
	}
	kg, err := vessel.BoilOffKgH(net)
	if err != nil {
		return 0
	}
	return kg
}

// evaporation is the rate from an open surface in step i: as given, or from the published table at the temperature of the step.
func (p *planner) evaporation(d *cooked, i int) (float64, error) {
	l := d.dish.Steps[i].Loses
	if l.Evaporation > 0 {
		return float64(l.Evaporation), nil
	}
	if !l.Open && l.ReduceTo == 0 {
		return 0, nil
	}
	t := d.hot(i)
	if t == nil {
		return 0, errors.New("it is open or reduces, but nothing says at what temperature: give heat-to")
	}
	e, err := vessel.StillAirEvaporation(min(t.C(), boilC))
	if err != nil {
		return 0, fmt.Errorf("evaporation: %w", err)
	}
	return e.KgM2H, nil
}

// hot is the temperature at which a step works: its own, or that of the earlier step whose vessel it stays in.
func (d *cooked) hot(i int) *unit.Temp {
	for range d.dish.Steps {
		s := d.dish.Steps[i]
		if s.HeatTo != nil {
			return s.HeatTo
		}
		if !s.Stays {
			return s.ReadyAt
		}
		from := -1
		for _, u := range s.Use {
			if ref, ok := d.outputs[u.From]; ok && u.From != "" {
				from = ref.Step
				break
			}
		}
		if from < 0 {
			return nil
		}
		i = from
	}
	return nil
}
