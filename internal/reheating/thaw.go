package reheating

import (
	"errors"

	"kettlefrost/internal/conduction"
	"kettlefrost/internal/heat"
	"kettlefrost/internal/medium"
)

// ThawSource is where the limits of thawing come from.
const ThawSource = "FDA Food Code 3-501.13: in refrigeration at 41 °F or less, or under running water at 70 °F or below " +
	"with no part of ready-to-eat food above 41 °F"

// The limits of 3-501.13, and below which temperature we call nothing a place to thaw in.
const (
	coldC       = (41 - 32) * 5 / 9.0 // 41 °F
	tapWaterC   = (70 - 32) * 5 / 9.0 // 70 °F
	coldestAirC = 0.5
)

// ThawPlace is where a frozen bag thaws.
type ThawPlace struct {
	Water bool    // running water; else the still air of a refrigerator
	TempC float64 // 0.5 °C to 41 °F in air, to 70 °F in water; 0 is 4 °C in air and 15 °C in water
	// Film is the surface coefficient as it acts on the food through one film of plastic; zero is that of the medium, "still-air" or
	// "running-water", through one film.
	Film medium.Film
	ToC  float64 // at the core, above the freezing point of the food; 0 is 0 °C
}

func (p ThawPlace) ready(b Bag) (ThawPlace, error) {
	id, usualC, warmestC := "still-air", 4.0, coldC
	if p.Water {
		id, usualC, warmestC = "running-water", 15, tapWaterC
	}
	p.TempC = orDefault(p.TempC, usualC)
	if p.Film == (medium.Film{}) {
		m, _ := medium.Find(id)
		p.Film = m.Film.Through(medium.BagFilmM2KW)
	}
	if err := checkFilm(p.Film); err != nil {
		return ThawPlace{}, err
	}
	if err := heat.InRange("temperature to thaw in", "°C", p.TempC, coldestAirC, warmestC); err != nil {
		return ThawPlace{}, err
	}
	return p, heat.InRange("temperature of thawed food", "°C", p.ToC, b.Food.FreezingPointC, p.TempC)
}

// Thaw is one run: a bag that thaws.
type Thaw struct {
	ThicknessM, FilmWM2K float64
	Done                 bool    // the coldest point is where it was asked to be
	TimeS                float64 // until then; if not done, how long it was followed
	SurfaceWarm          bool    // the surface passed 41 °F before that: not a way for ready-to-eat food unless it is heated at once
	SurfaceS             float64 // when it did
}

// Thawing is how long a frozen bag takes in one place.
type Thawing struct {
	Place            ThawPlace // with its film and temperature
	Fish             bool
	Low, Usual, High Thaw // nominal thickness, by the film
	Worst            Thaw // thickest place, lowest film
}

// SurfaceWarm says whether the surface passes 41 °F before the middle has thawed in any of the runs.
func (t Thawing) SurfaceWarm() bool {
	return t.Low.SurfaceWarm || t.Usual.SurfaceWarm || t.High.SurfaceWarm || t.Worst.SurfaceWarm
}

// ThawIn is how long the bag takes from -18 °C. Errors: *heat.RangeError.
func ThawIn(b Bag, p ThawPlace) (Thawing, error) {
	b, err := b.measured()
	if err != nil {
		return Thawing{}, err
	}
	if p, err = p.ready(b); err != nil {
		return Thawing{}, err
	}
	t := Thawing{Place: p, Fish: b.Fish}
	for _, r := range []struct {
		into                 *Thaw
		thicknessM, filmWM2K float64
	}{
		{&t.Low, b.ThicknessM, p.Film.LowWM2K}, {&t.Usual, b.ThicknessM, p.Film.UsualWM2K},
		{&t.High, b.ThicknessM, p.Film.HighWM2K}, {&t.Worst, b.ThickM, p.Film.LowWM2K},
	} {
		if *r.into, err = b.thaw(p, r.thicknessM, 1/(1/r.filmWM2K+b.PackageM2KW)); err != nil {
			return Thawing{}, err
		}
	}
	return t, nil
}

const longestThawS = 14 * 24 * 3600

func (b Bag) thaw(p ThawPlace, thicknessM, filmWM2K float64) (Thaw, error) {
	t := Thaw{ThicknessM: thicknessM, FilmWM2K: filmWM2K}
	body, err := b.slab(thicknessM, Frozen.StartC(), filmWM2K, conduction.Steady(p.TempC))
	if err != nil {
		return Thaw{}, err
	}
	result, err := body.Simulate(conduction.Ask{CoreC: p.ToC, WithinS: longestThawS})
	var never *heat.NeverError
	if errors.As(err, &never) {
		return t, nil
	}
	if err != nil {
		return Thaw{}, err
	}
	t.Done, t.TimeS = result.Reached, result.TimeS
	t.SurfaceS, t.SurfaceWarm = firstAbove(result.Points, coldC)
	return t, nil
}

// firstAbove is when the surface passes a temperature, between two points on a straight line.
func firstAbove(points []conduction.Point, tempC float64) (timeS float64, passed bool) {
	for i, p := range points {
		if p.SurfaceC <= tempC {
			continue
		}
		if i == 0 {
			return p.TimeS, true
		}
		before := points[i-1]
		share := (tempC - before.SurfaceC) / (p.SurfaceC - before.SurfaceC)
		return before.TimeS + share*(p.TimeS-before.TimeS), true
	}
	return 0, false
}
