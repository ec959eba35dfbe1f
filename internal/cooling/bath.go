package cooling

import (
	"kettlefrost/internal/heat"
	"kettlefrost/internal/vessel"
)

// Ice is how a bath gets its ice.
type Ice int

const (
	NoIce    Ice = iota // stays as cold as it is by itself: cold air, running water
	ToppedUp            // more is put in as it melts, so that the bath stays as cold as it is
	OnceOnly            // what is put in at the beginning must do: the bath warms when it has melted
)

// Bath is what the pots of one load stand in, all of them together.
type Bath struct {
	Ice      Ice
	TempC    float64 // -60 to 60, 0 to 60 if topped up; not used with OnceOnly
	IceKg    float64 // ToppedUp: all there is, 0 if not known. OnceOnly: put in
	IceC     float64 // -40 to 0
	WaterKg  float64 // put in with the ice
	WaterC   float64 // of that water then, 0 to 60
	LossWK   float64 // from the room into the bath
	AmbientC float64 // the room
}

// mostBathKg is a tank.
const mostBathKg = 100_000

func (b Bath) check() error {
	if err := heat.InRange("kind of ice", "", float64(b.Ice), float64(NoIce), float64(OnceOnly)); err != nil {
		return err
	}
	coldest := float64(coldestMediumC)
	if b.Ice == ToppedUp {
		coldest = 0
	}
	for _, x := range []struct {
		what, unit         string
		value, least, most float64
	}{
		{"bath temperature", "°C", b.TempC, coldest, warmestAirC},
		{"ice of the bath", "kg", b.IceKg, 0, mostBathKg},
		{"temperature of the ice", "°C", b.IceC, -40, 0},
		{"water of the bath", "kg", b.WaterKg, 0, mostBathKg},
		{"temperature of the bath's water", "°C", b.WaterC, 0, warmestAirC},
		{"heat from the room into the bath", "W/K", b.LossWK, 0, 1e5},
		{"room temperature", "°C", b.AmbientC, coldestMediumC, warmestAirC},
	} {
		if err := heat.InRange(x.what, x.unit, x.value, x.least, x.most); err != nil {
			return err
		}
	}
	return nil
}

// leastBath is how small a bath that warms may be, as a part of the mass of the food: less makes no bath.
const leastBath = 0.05

func (b Bath) checkFor(f Food) error {
	if b.Ice != OnceOnly {
		return nil
	}
	return heat.InRange("ice and water of the bath", "kg", b.IceKg+b.WaterKg, leastBath*f.MassKg, 2*mostBathKg)
}

// needKg is the ice that melts in a topped-up bath: it takes the heat of the food, of the room for timeS and of the bath's own water.
func (b Bath) needKg(foodJ, timeS float64) (float64, error) {
	roomJ := b.LossWK * max(0, b.AmbientC-b.TempC) * timeS
	waterJ := b.WaterKg * vessel.WaterHeatJKgK * max(0, b.WaterC-b.TempC)
	return vessel.IceKg(max(0, foodJ)+roomJ+waterJ, b.IceC, b.TempC)
}
