package heatcase

import (
	"errors"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/heat"
	"kettlefrost/internal/unit"
	"kettlefrost/internal/vessel"
)

// KettleSchema is the name of a KettleAnswer as JSON.
const KettleSchema = "kettlefrost.kettle/1"

// Kettle is a stirred pot of food on a burner that is all the way up.
type Kettle struct {
	Food       Food
	Mass       unit.Mass
	Diameter   unit.Length // of the pot, inside
	Power      unit.Power  // as rated
	Efficiency unit.Share  // of it that reaches the food; 0 is 40 %, the low end of gas
	From, To   unit.Temp
	Air        unit.Temp
}

// KettleAnswer is how long it takes, with the lid on and off.
type KettleAnswer struct {
	Schema     string       `json:"schema"`
	Food       string       `json:"food"`
	MassKg     float64      `json:"mass_kg"`
	DepthMM    float64      `json:"depth_mm"` // of the food in the pot
	NetW       float64      `json:"net_w"`    // that reaches the food
	FromC      float64      `json:"from_c"`
	ToC        float64      `json:"to_c"`
	LidOn      KettleWay    `json:"lid_on"`
	LidOff     KettleWay    `json:"lid_off"`
	Efficiency float64      `json:"efficiency"`
	Findings   finding.List `json:"findings"`
	Sources    []string     `json:"sources"`
}

// KettleWay is one way to the temperature.
type KettleWay struct {
	Reached   bool    `json:"reached"`
	TimeS     float64 `json:"time_s,omitempty"`
	EnergyKWh float64 `json:"energy_kwh,omitempty"` // that the burner uses
	WaterKg   float64 `json:"water_lost_kg,omitempty"`
	EndsC     float64 `json:"ends_c,omitempty"` // where it stays when it does not get there
	EndsWhy   string  `json:"why,omitempty"`
}

// gasLow is the efficiency that is taken when none is said.
const gasLow = vessel.GasEfficiencyLow

var kettleSources = []string{
	"loss of a bare pot 11.4 W/(m²·K), radiation included, and evaporation from an open surface, ±35 %: The Engineering Toolbox (read)",
	"efficiency of gas 40-44 %, electric 74-80 %, induction 84 %: US Department of Energy figures as quoted on trade pages (read there); time a known mass of water on your own",
}

// Answer works it out. Errors: *CaseError with every mistake, Path naming the key.
func (k Kettle) Answer() (KettleAnswer, error) {
	c := checker{c: Case{Food: k.Food}}
	r, ok := c.resolved()
	for _, x := range []struct {
		key, what string
		good      bool
		fix       string
	}{
		{"mass", "there is no food in the pot", k.Mass > 0, "say how much, such as 120 lb"},
		{"diameter", "the pot has no width", k.Diameter > 0, "measure it inside, such as 26 in"},
		{"power", "the burner gives no heat", k.Power > 0, "give its rated power, such as 30000 Btu/h or 24 kW"},
		{"efficiency", "more heat than the burner has cannot reach the food", k.Efficiency >= 0 && k.Efficiency <= unit.Whole, "give 0 to 100 %"},
		{"to", "it is as hot as that from the start", k.To > k.From, "ask for a temperature above the start"},
		{"to", "water boils before it gets there", k.To.C() <= 100, "ask for 212 °F (100 °C) or less"},
		{"from", "frozen food is thawed first", k.From.C() >= 0, "start at 32 °F (0 °C) or above"},
	} {
		if !x.good {
			c.stop(x.key, x.what, x.fix)
		}
	}
	if !ok || len(c.found) > 0 {
		return KettleAnswer{}, &CaseError{c.found}
	}
	if k.Efficiency == 0 {
		k.Efficiency = unit.ShareOf(gasLow)
	}
	return k.answer(r)
}

func (k Kettle) answer(r resolved) (KettleAnswer, error) {
	pot := vessel.Kettle{Of: r.composition, MassKg: k.Mass.Kg(), DiameterM: k.Diameter.M(), Burner: vessel.Heater{RatedW: k.Power.W(), Efficiency: k.Efficiency.F()}, AmbientC: k.Air.C(),
		WallWM2K: vessel.BareWallWM2K}
	net, err := pot.Burner.NetW()
	if err != nil {
		return KettleAnswer{}, err
	}
	a := KettleAnswer{Schema: KettleSchema, Food: r.name, MassKg: k.Mass.Kg(), NetW: net, FromC: k.From.C(), ToC: k.To.C(), Efficiency: k.Efficiency.F(), Findings: r.told(), Sources: append([]string{r.source}, kettleSources...)}
	if a.LidOn, a.DepthMM, err = way(pot, a.FromC, a.ToC); err != nil {
		return a, err
	}
	pot.Wet = 1
	a.LidOff, _, err = way(pot, a.FromC, a.ToC)
	return a, err
}

// way is one way up. A burner too weak is an answer, not an error.
func way(pot vessel.Kettle, fromC, toC float64) (KettleWay, float64, error) {
	up, err := pot.HeatUp(fromC, toC)
	never := (*heat.NeverError)(nil)
	if errors.As(err, &never) {
		return KettleWay{EndsC: never.LimitC, EndsWhy: "what it loses is as much as the burner gives"}, 1000 * up.DepthM, nil
	}
	dries := (*vessel.EvaporatedError)(nil)
	if errors.As(err, &dries) {
		return KettleWay{EndsC: toC, EndsWhy: "more than a fifth of it would have evaporated by then"}, 0, nil
	}
	return KettleWay{Reached: err == nil, TimeS: up.TimeS, EnergyKWh: up.EnergyJ / 3.6e6, WaterKg: up.WaterLostKg}, 1000 * up.DepthM, err
}
