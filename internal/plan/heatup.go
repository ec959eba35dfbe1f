package plan

import (
	"errors"
	"fmt"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/heat"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/vessel"
)

// heatUpS is how long one load of step i takes to its temperature in a vessel, in seconds.
func (p *planner) heatUpS(d *cooked, i int, in kitchen.EquipmentID) (float64, error) {
	s, f := d.dish.Steps[i], d.flow.Steps[i]
	if s.HeatTo == nil || f.InKg <= 0 {
		return 0, nil
	}
	from, to := p.mixC(d, i), s.HeatTo.C()
	if from >= to-0.5 {
		return 0, nil
	}
	return p.heatLoad(d, i, in, from, min(to, 100))
}

// findHeatUp says that it is not known how long step i takes to its temperature, or that it never comes there.
func (p *planner) findHeatUp(d *cooked, i int, err error) {
	s := d.dish.Steps[i]
	found := finding.Finding{Code: CodeHeatUp, Severity: finding.Caution, Where: d.where + ", step " + s.ID, Path: fmt.Sprintf("dishes.%s.steps[%d]", d.id, i),
		Message: "the time to heat it is not known and counts as nothing: " + err.Error(), Fix: "give the vessel power, or a burner that it needs, with power and efficiency"}
	var never *heat.NeverError
	if errors.As(err, &never) {
		found.Code, found.Severity = CodeNeverHot, finding.Stop
		found.Message = fmt.Sprintf("the burner cannot bring it to %s: it ends at %.0f °C", s.HeatTo.Show(p.out.Units), never.LimitC)
		found.Fix = "use a stronger burner, a lid, or smaller loads"
	}
	p.find(found)
}

// heatLoad is how long one load of step i takes with its burner all the way up, with what it gives off to the kitchen on the way: through
// wall and lid, and, with the lid off, by evaporating.
func (p *planner) heatLoad(d *cooked, i int, in kitchen.EquipmentID, from, to float64) (float64, error) {
	h, err := p.hob(d, i, in)
	if err != nil {
		return 0, err
	}
	f, s := d.flow.Steps[i], d.dish.Steps[i]
	of, err := composition(fractionsOf(f.Mixture))
	if err != nil {
		return 0, err
	}
	k := vessel.Kettle{Of: of, MassKg: f.Split.EachKg, DiameterM: h.diameterM, Burner: h.heater, AmbientC: p.air.C(), WallWM2K: vessel.BareWallWM2K}
	if s.Loses.Open || s.Loses.ReduceTo > 0 {
		k.Wet = 1
	}
	up, err := k.HeatUp(max(from, 0), to)
	if err != nil {
		return 0, err
	}
	netW, err := h.heater.NetW()
	if err != nil || netW <= 0 {
		return up.TimeS, err
	}
	return up.TimeS + p.iceJ(d, i)/float64(max(1, f.Split.N))/netW, nil
}

// iceJ is the heat that melts the ice in what goes frozen into step i, all loads.
func (p *planner) iceJ(d *cooked, i int) float64 {
	joules := 0.0
	for k, u := range d.graph.Steps[i].Uses {
		if u.Ingredient < 0 || p.storedC(d.ingredients[u.Ingredient]) != frozenC {
			continue
		}
		parts, _ := p.fractions(d.ingredients[u.Ingredient])
		of, err := composition(parts)
		if err != nil {
			continue
		}
		if ice, err := of.IceShare(frozenC, heat.DefaultFreezingPointC); err == nil {
			joules += d.flow.Steps[i].In[k].Kg * ice * heat.LatentHeatIceJKg
		}
	}
	return joules
}

// hob is what heats a vessel, and what one load of a step in it loses to the kitchen.
type hob struct {
	heater    vessel.Heater
	fuel      kitchen.Fuel
	diameterM float64
	lossWK    float64
}

func (p *planner) hob(d *cooked, i int, id kitchen.EquipmentID) (hob, error) {
	source, err := p.heatSource(id)
	if err != nil {
		return hob{}, err
	}
	dia := p.book.Equipment[id].Diameter
	h := hob{heater: heaterOf(source), fuel: source.Fuel, diameterM: dia.M()}
	if dia > 0 {
		h.lossWK = vessel.BareWallWM2K * (4*d.flow.Steps[i].Split.EachL/1000/dia.M() + 2*circle(dia))
	}
	return h, nil
}

// heatSource is what heats a vessel: its own element, or the burner that it stands on.
func (p *planner) heatSource(id kitchen.EquipmentID) (kitchen.Equipment, error) {
	e, ok := p.book.Equipment[id]
	if !ok {
		return e, errors.New("it is heated in nothing")
	}
	source := e
	for k := 0; source.Power == 0 && k < len(e.Needs); k++ {
		source = p.book.Equipment[e.Needs[k]]
	}
	if source.Power == 0 {
		return source, fmt.Errorf("neither %s nor what it stands on has power", e.Name)
	}
	return source, nil
}

func heaterOf(source kitchen.Equipment) vessel.Heater {
	return vessel.Heater{RatedW: source.Power.W(), Efficiency: efficiency(source)}
}

// efficiency is the share of power that reaches the food, 40 % when the book does not say: the US Department of Energy's figure for
// gas, as quoted on trade pages.
func efficiency(e kitchen.Equipment) float64 {
	if e.Efficiency == 0 {
		return 0.40
	}
	return e.Efficiency.F()
}
