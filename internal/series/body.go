package series

import (
	"math"

	"kettlefrost/internal/heat"
)

// Axis is one direction in which a Body gives off its heat.
type Axis struct {
	Shape    heat.Shape
	HalfM    float64 // half thickness, or radius
	FilmWM2K float64 // surface coefficient on that surface
}

// Body is a solid in a medium of constant temperature. One axis makes a slab, a long cylinder or a sphere; slabs cross to a brick;
// a cylinder and a slab make a can or a pot. The solution of each direction is multiplied by the others' (exact).
type Body struct {
	Solid heat.Solid
	Axes  []Axis
}

// Brick is a block of the given full sizes with the same coefficient all round.
func Brick(s heat.Solid, lengthM, widthM, heightM, filmWM2K float64) Body {
	return Body{s, []Axis{{heat.Slab, lengthM / 2, filmWM2K}, {heat.Slab, widthM / 2, filmWM2K}, {heat.Slab, heightM / 2, filmWM2K}}}
}

// Can is a cylinder of finite height with the same coefficient all round.
func Can(s heat.Solid, diameterM, heightM, filmWM2K float64) Body {
	return Body{s, []Axis{{heat.Cylinder, diameterM / 2, filmWM2K}, {heat.Slab, heightM / 2, filmWM2K}}}
}

// direction is an axis made dimensionless: Fourier number = pace · time.
type direction struct {
	series
	pace float64 // α/L², 1/s
}

// directions also checks the body.
func (b Body) directions() ([]direction, error) {
	alpha, err := b.Solid.DiffusivityM2S()
	if err != nil {
		return nil, err
	}
	if err := b.checkAxes(); err != nil {
		return nil, err
	}
	dirs := make([]direction, len(b.Axes))
	for i, a := range b.Axes {
		if err := heat.InRange("half thickness or radius", "m", a.HalfM, heat.SmallestM/2, heat.LargestM); err != nil {
			return nil, err
		}
		if err := heat.InRange("surface coefficient", "W/(m²·K)", a.FilmWM2K, heat.SmallestFilmWM2K, heat.LargestFilmWM2K); err != nil {
			return nil, err
		}
		biot := a.FilmWM2K * a.HalfM / b.Solid.ConductivityWMK
		if err := checkSeries(a.Shape, biot); err != nil {
			return nil, err
		}
		dirs[i] = direction{series{shape: a.Shape, biot: biot}, alpha / (a.HalfM * a.HalfM)}
	}
	return dirs, nil
}

func (b Body) checkAxes() error {
	var count [heat.Sphere + 1]int
	shapes := make([]heat.Shape, len(b.Axes))
	for i, a := range b.Axes {
		shapes[i] = a.Shape
		if err := a.Shape.Check(); err != nil {
			return err
		}
		count[a.Shape]++
	}
	slabs, cylinders, spheres := count[heat.Slab], count[heat.Cylinder], count[heat.Sphere]
	switch {
	case cylinders == 0 && spheres == 0 && slabs >= 1 && slabs <= 3,
		cylinders == 1 && spheres == 0 && slabs <= 1,
		spheres == 1 && len(b.Axes) == 1:
		return nil
	}
	return &heat.AxesError{Axes: shapes}
}

// TempC is the temperature at a place of the body timeS seconds after it was startC throughout and met the medium. Surface is the
// middle of the face of the first axis. timeS 0 to 1e9 s; surface and mean need 0 or a Fourier number of 1e-5
// at least. Errors: *heat.RangeError, *heat.AxesError.
func (b Body) TempC(p Place, startC, mediumC, timeS float64) (float64, error) {
	if err := heat.TempInRange("start temperature", startC); err != nil {
		return 0, err
	}
	if err := heat.TempInRange("temperature of the medium", mediumC); err != nil {
		return 0, err
	}
	dirs, err := b.directions()
	if err != nil {
		return 0, err
	}
	if err := p.check(); err != nil {
		return 0, err
	}
	if err := heat.InRange("time", "s", timeS, 0, heat.LongestTimeS); err != nil {
		return 0, err
	}
	theta := 1.0
	for i := range dirs {
		place := p
		if p == Surface && i > 0 {
			place = Centre
		}
		fourier := dirs[i].pace * timeS
		if fourier == 0 {
			continue
		}
		if place != Centre {
			if err := heat.InRange("Fourier number", "", fourier, LowestFourier, HighestFourier); err != nil {
				return 0, err
			}
		}
		part, _ := dirs[i].at(place, fourier)
		theta *= part
	}
	return mediumC + (startC-mediumC)*theta, nil
}

// CentreTimeS is how long the centre, the point that changes last, takes from startC to targetC. 0 if they are the same. Errors:
// *heat.NeverError if the target does not lie between start and medium, *heat.RangeError, *heat.AxesError.
func (b Body) CentreTimeS(startC, mediumC, targetC float64) (float64, error) {
	dirs, err := b.directions()
	if err != nil {
		return 0, err
	}
	theta, err := heat.WayLeft(startC, mediumC, targetC)
	if err != nil || theta == 1 {
		return 0, err
	}
	// Nothing happens before the fastest direction is touched, and the first terms alone give a time that is too long.
	untilS, logWeight, decay := math.Inf(1), 0.0, 0.0
	for i := range dirs {
		first := newTerm(dirs[i].shape, dirs[i].biot, 0)
		untilS = min(untilS, untouchedFourier/dirs[i].pace)
		logWeight += math.Log(first.centre)
		decay += first.rate * dirs[i].pace
	}
	oneTermS := (logWeight - math.Log(theta)) / decay
	excess := func(t float64) (f, slope float64) { // how far the centre is below the target, in the logarithm
		f = math.Log(theta)
		for i := range dirs {
			part, partSlope := dirs[i].at(Centre, dirs[i].pace*t)
			f -= math.Log(part)
			slope -= partSlope / part * dirs[i].pace
		}
		return f, slope
	}
	return bracketedNewton(excess, untilS, oneTermS*(1+1e-9), oneTermS), nil
}
