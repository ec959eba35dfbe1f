package plan

import (
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
	"kettlefrost/internal/vessel"
)

// stepEnergyJ is what a step's heater uses for all loads: full power while heating up, then what the walls lose and what evaporates,
// each over its efficiency. Nothing for a step that is not heated or whose heater is not known.
func (p *planner) stepEnergyJ(d *cooked, i int) (kitchen.Fuel, float64) {
	s, f := d.dish.Steps[i], d.flow.Steps[i]
	hot := d.hot(i)
	if hot == nil || f.InKg <= 0 {
		return "", 0
	}
	h, err := p.hob(d, i)
	if err != nil || h.heater.Efficiency == 0 {
		return "", 0
	}
	heating := 60 * float64(p.day.heatUp[cookedStep{d, i}]) * h.heater.RatedW
	holding := max(0, hot.C()-p.air.C()) * h.lossWK * (s.Time.S() + f.ReduceS)
	loads := float64(max(1, f.Split.N))
	return h.fuel, loads*(heating+holding/h.heater.Efficiency) + f.Lost.Evaporated*vessel.BoilingLatentJKg/h.heater.Efficiency
}

// dishEnergyJ is what the heaters use for a dish, by what they burn; "" is of those that do not say.
func (p *planner) dishEnergyJ(d *cooked) map[kitchen.Fuel]float64 {
	sum := map[kitchen.Fuel]float64{}
	for i := range d.dish.Steps {
		if fuel, joules := p.stepEnergyJ(d, i); joules > 0 {
			sum[fuel] += joules
		}
	}
	return sum
}

// tariff is the price of a kind of energy; 0 is not known.
func (p *planner) tariff(fuel kitchen.Fuel) unit.Tariff {
	switch fuel {
	case kitchen.Gas:
		return p.book.Kitchen.Energy.Gas
	case kitchen.Electricity:
		return p.book.Kitchen.Energy.Electricity
	}
	return 0
}
