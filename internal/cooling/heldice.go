package cooling

import (
	"kettlefrost/internal/heat"
	"kettlefrost/internal/vessel"
)

// HeldIce is a part of the recipe's own water that is held back from the cooking and added as ice, all at once, and stirred until it has
// melted. It is the first stage, and ends when the ice has melted, whatever the temperature then.
type HeldIce struct {
	Work
	Share  float64 // of Food.AddedWaterKg that may be held back, 0 to 1
	IceC   float64 // -40 to 0
	MeltS  float64 // stirring until it has melted, 0 to a day
	HaveKg float64 // ice that there is, 0 if not known
}

func (h HeldIce) check() error {
	for _, x := range []struct {
		what, unit         string
		value, least, most float64
	}{
		{"share of the water held back", "", h.Share, 0, 1},
		{"temperature of the ice", "°C", h.IceC, -40, 0},
		{"time until it has melted", "s", h.MeltS, 0, dayS},
		{"ice that there is", "kg", h.HaveKg, 0, mostBathKg},
	} {
		if err := heat.InRange(x.what, x.unit, x.value, x.least, x.most); err != nil {
			return err
		}
	}
	return nil
}

func (h HeldIce) stirs() bool { return true }
func (h HeldIce) work() Work  { return h.Work }

// vessels: it is melted where it was cooked.
func (h HeldIce) vessels(Food) Vessels { return Vessels{Need: 1, Have: 1} }

// follow is the heat balance: had the water been in from the start, the load would be at startC; as ice it takes up what ice takes up
// on the way there. Meanwhile the temperature is taken to fall in a straight line.
func (h HeldIce) follow(f Food, startC float64, _ int, e errand) (leg, error) {
	l := leg{formula: IceBalance, timeS: h.MeltS, endC: startC}
	uptakeJKg, err := vessel.IceUptakeJKg(h.IceC, min(startC, 100))
	if err != nil {
		return leg{}, err
	}
	uptakeJKg += vessel.WaterHeatJKgK * max(0, startC-100)
	mayKg := h.Share * f.AddedWaterKg
	canKg := f.heatJK() * (startC - e.endC) / uptakeJKg
	iceKg := min(mayKg, canKg)
	if h.HaveKg > 0 && h.HaveKg < iceKg {
		iceKg, l.shortOf = h.HaveKg, ShortOfIce
	}
	l.endC = max(e.endC, startC-iceKg*uptakeJKg/f.heatJK())
	l.reached = l.endC <= e.endC+sameC
	if l.reached {
		l.endC = e.endC
	}
	// What the rest of the load gives off: the ice takes up less than uptakeJKg, because it ends colder than startC.
	l.taken.OwnIceJ = (f.heatJK() - iceKg*vessel.WaterHeatJKgK) * (startC - l.endC)
	if l.timeS > 0 {
		l.peakW = l.taken.OwnIceJ / l.timeS
	}
	l.iceKg = iceKg
	l.points = []point{{0, startC, startC, h.IceC}, {l.timeS, l.endC, l.endC, h.IceC}}
	for _, c := range below(e.marksC, startC, l.endC) {
		l.passed = append(l.passed, passing{c, l.timeS * (startC - c) / (startC - l.endC)})
	}
	if iceKg > 0 {
		l.cautions = []Caution{{Code: CookedThicker, Value: iceKg}, {Code: IceIsFood, Value: iceKg}}
	}
	if mayKg > canKg {
		l.cautions = append(l.cautions, Caution{Code: LessIce, Value: mayKg - canKg})
	}
	return l, nil
}
