package freezing

import (
	"kettlefrost/internal/conduction"
	"kettlefrost/internal/heat"
	"kettlefrost/internal/medium"
)

// Freezer is one cabinet, or Count equal ones; every figure is that of one.
type Freezer struct {
	Count    int         // 0 is 1; at most 100
	VolumeM3 float64     // inside; 0.01 to 200
	SetC     float64     // its air when it runs steadily, where it is at the start; -60 to -5 °C
	CoolingW float64     // what the machine can take out beside the leaks of its own cabinet; 1 to 1e6
	Film     medium.Film // of its air on a pack
	Placing  Placing     // how fresh packs lie; Apart when left out
	RoomKg   float64     // fresh packs that still find room; 0 to 1e5
	Stock    Stock
	// HeatCapacityJK is that of air, liner and baskets; 0 is 25 kJ/K for each m³: a judgement, from about 10 kg of sheet and wire in a chest
	// of 200 L. Half a kilogram of frozen soup for each 40 L holds as much, so the old stock matters far more.
	HeatCapacityJK float64
}

const cabinetJM3K = 25e3

// Stock is the frozen food that is already there.
type Stock struct {
	MassKg float64           // 0 to 1e5
	TempC  float64           // throughout; 0 is that of the air
	Food   heat.FreezingFood // left out: DefaultStock
	// PackM and Exposed say how much of it the air meets: packs so thick (0 is 25.4 mm, an inch) of whose two faces this share lies open
	// (above 0 to 1; 0 is a quarter, a judgement for packs lying in heaps). It acts as a slab with one face, of half the thickness over the
	// share. Fresh packs that touch old ones warm those much more than this says: lay them apart.
	PackM   float64
	Exposed float64
}

// DefaultStock is a soup of 86 % water that starts to freeze at -0.8 °C: an assumed recipe, its constants derived from composition.
func DefaultStock() heat.FreezingFood {
	return heat.FreezingFood{DensityKgM3: 1030, UnfrozenHeatJKgK: 3850, FrozenHeatJKgK: 2040, FreezableJKg: 282e3, FreezingPointC: -0.8,
		UnfrozenConductivityWMK: 0.54, FrozenConductivityWMK: 1.89}
}

const (
	usualStockPackM  = 0.0254
	usualExposed     = 0.25
	mostFreezers     = 100
	mostRoomKg       = 1e5
	smallestExposure = 1e-3
)

// whole is the freezer with what was left out put in, checked.
func (f Freezer) whole() (Freezer, error) {
	if f.Count == 0 {
		f.Count = 1
	}
	if f.HeatCapacityJK == 0 {
		f.HeatCapacityJK = cabinetJM3K * f.VolumeM3
	}
	if f.Placing.Lie == 0 {
		f.Placing.Lie = Apart
	}
	f.Stock = f.Stock.whole(f.SetC)
	if err := checkFilm("surface coefficient", f.Film); err != nil {
		return f, err
	}
	err := checkAll(
		limit{"number of freezers", "", float64(f.Count), 1, mostFreezers},
		limit{"volume of the freezer", "m³", f.VolumeM3, 0.01, 200},
		limit{"air temperature", "°C", f.SetC, -60, -5},
		limit{"cooling power", "W", f.CoolingW, 1, 1e6},
		limit{"room", "kg", f.RoomKg, 0, mostRoomKg},
		limit{"heat capacity of air and shelves", "J/K", f.HeatCapacityJK, 100, 1e9},
	)
	if err != nil {
		return f, err
	}
	return f, f.Stock.check()
}

func (s Stock) whole(setC float64) Stock {
	if s.TempC == 0 {
		s.TempC = setC
	}
	if s.Food == (heat.FreezingFood{}) {
		s.Food = DefaultStock()
	}
	if s.PackM == 0 {
		s.PackM = usualStockPackM
	}
	if s.Exposed == 0 {
		s.Exposed = usualExposed
	}
	return s
}

func (s Stock) check() error {
	if err := s.Food.Check(); err != nil {
		return err
	}
	return checkAll(
		limit{"old stock", "kg", s.MassKg, 0, mostRoomKg},
		limit{"temperature of the old stock", "°C", s.TempC, -60, s.Food.FreezingPointC},
		limit{"thickness of the packs in stock", "m", s.PackM, thinnestM, thickestM},
		limit{"exposed share of the old stock", "", s.Exposed, smallestExposure, 1},
		limit{"thickness of the old stock", "m", s.slabM(), thinnestM / 2, heat.LargestM},
	)
}

// slabM is the depth of stock behind its open face.
func (s Stock) slabM() float64 { return s.PackM / 2 / s.Exposed }

// batch is the stock as a slab with one open face.
func (s Stock) batch(filmWM2K float64) (conduction.Batch, error) {
	m, err := conduction.Food(s.Food)
	if err != nil {
		return conduction.Batch{}, err
	}
	open := conduction.Axis{Shape: heat.Slab, SizeM: s.slabM(), High: conduction.Face{FilmWM2K: filmWM2K}}
	return conduction.Batch{
		Body:  conduction.Body{Material: m, Axes: []conduction.Axis{open}, StartC: s.TempC},
		Count: s.MassKg / (s.Food.DensityKgM3 * s.slabM()),
	}, nil
}

// HouseholdIntakeKg is the household rule for one cabinet.
func (f Freezer) HouseholdIntakeKg() (Intake, error) { return HouseholdIntakeKg(f.VolumeM3) }
