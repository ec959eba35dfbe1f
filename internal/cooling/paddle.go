package cooling

import (
	"kettlefrost/internal/heat"
	"kettlefrost/internal/medium"
	"kettlefrost/internal/vessel"
)

// Paddles are closed bottles of frozen water that stir the pots of one load. One whose ice has melted is changed for a frozen one while
// there are any; the last ones stay in until they are as warm as the food.
type Paddles struct {
	Have      int         // 0 is none, at most 1000; shared out evenly between the pots
	Together  int         // in one pot at a time, 1 to 20
	WaterKg   float64     // in one, 0.05 to 50
	AreaM2    float64     // of one, in the food
	Film      medium.Film // between the food and the ice or water in it
	StartC    float64     // of the freezer, -40 to 0
	RefreezeS float64     // until a melted one is ready again; 0 is not on that day
	ChangeS   float64     // hands to put one in
}

// quickestPaddleS is the shortest time constant that is followed; real ones have minutes.
const quickestPaddleS = 10

func (p Paddles) check() error {
	if err := heat.InRange("number of paddles", "", float64(p.Have), 0, 1000); err != nil || p.Have == 0 {
		return err
	}
	if err := checkFilm("surface coefficient of a paddle", p.Film, false, mostStirredWM2K); err != nil {
		return err
	}
	for _, x := range []struct {
		what, unit         string
		value, least, most float64
	}{
		{"paddles in a pot at a time", "", float64(p.Together), 1, 20},
		{"water in a paddle", "kg", p.WaterKg, 0.05, 50},
		{"surface of a paddle", "m²", p.AreaM2, 1e-4, 5},
		{"temperature of a frozen paddle", "°C", p.StartC, -40, 0},
		{"time to freeze a paddle again", "s", p.RefreezeS, 0, 100 * dayS},
		{"hands to change a paddle", "s", p.ChangeS, 0, dayS},
		{"time constant of a paddle", "s", p.WaterKg * vessel.IceHeatJKgK / (p.AreaM2 * p.Film.HighWM2K), quickestPaddleS, 1e9},
	} {
		if err := heat.InRange(x.what, x.unit, x.value, x.least, x.most); err != nil {
			return err
		}
	}
	return nil
}

// rack is the paddles of one pot while it cools.
type rack struct {
	Paddles
	fresh   int
	in      int       // in the pot
	inJ     float64   // heat of each of those, from water at 0 °C
	backS   []float64 // when those that are freezing again are ready, in order
	used    int
	goneS   float64 // when the last one came out
	emptied bool
}

func (r *rack) tempC(heatJ float64) float64 { return melt{r.WaterKg}.tempC(heatJ) }

// spentK is how near to the food a melted paddle is taken out.
const spentK = 0.5

// change swaps or takes out what has melted. It says whether the paddles in the pot are others now.
func (r *rack) change(timeS, foodC float64) bool {
	for len(r.backS) > 0 && r.backS[0] <= timeS {
		r.fresh++
		r.backS = r.backS[1:]
	}
	if r.in > 0 {
		melted := r.inJ >= 0
		spent := foodC-r.tempC(r.inJ) < spentK
		if !spent && !(melted && r.fresh > 0) {
			return false
		}
		for range r.in {
			if r.RefreezeS > 0 {
				r.backS = append(r.backS, timeS+r.RefreezeS)
			}
		}
		r.in = 0
		if r.fresh == 0 {
			r.goneS, r.emptied = timeS, true
		}
	} else if r.fresh == 0 {
		return false
	}
	r.in = min(r.Together, r.fresh)
	r.fresh -= r.in
	r.used += r.in
	r.inJ = iceJ(r.WaterKg, r.StartC)
	return true
}

// pending says that a paddle cools the food or will.
func (r *rack) pending() bool { return r.in > 0 || r.fresh > 0 || len(r.backS) > 0 }
