package plan

import (
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
	"kettlefrost/internal/vessel"
)

// loadEnergyJ is what the heater uses for a step's part of one load: full power while heating up, then what the walls lose and what
// evaporates, each over its efficiency. Nothing for a step that is not heated or whose heater is not known.
func (p *planner) loadEnergyJ(t task, s segment) (kitchen.Fuel, float64) {
	f, hot := t.dish.flow.Steps[s.step], t.dish.hot(s.step)
	if hot == nil {
		return "", 0
	}
	h, err := p.hob(t.dish, s.step, t.in)
	if err != nil || h.heater.Efficiency == 0 {
		return "", 0
	}
	holding := max(0, hot.C()-p.air.C())*h.lossWK*s.hotS + f.Lost.Evaporated/float64(t.loads)*vessel.BoilingLatentJKg
	return h.fuel, 60*float64(s.heat)*h.heater.RatedW + holding/h.heater.Efficiency
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
