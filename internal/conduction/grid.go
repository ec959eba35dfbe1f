package conduction

import (
	"math"

	"kettlefrost/internal/heat"
)

// direction is one axis cut into cells of equal width, from the Low face, the middle of an even slab, or the centre of a round body.
type direction struct {
	cells     int
	widthM    float64
	volume    []float64 // of the cells: m for a slab, m² or m³ for round bodies
	area      []float64 // of the faces below and above each cell, one more than cells
	gapM2KW   []float64 // resistance of those faces; nil without layers
	low, high *Face
	halved    bool    // cut in the middle: low is closed, everything counts twice
	lowC      float64 // what the faces meet, at the end of the step being taken
	highC     float64
	lowPool   bool
	highPool  bool
}

var closed = &Face{}

// even says that both faces of a slab are alike, as far as can be seen before the courses are asked.
func (a *Axis) even() bool {
	return a.Shape == heat.Slab && a.Low.FilmWM2K == a.High.FilmWM2K && a.Low.Wet == a.High.Wet && (a.Low.Medium == nil) == (a.High.Medium == nil)
}

func (a *Axis) open() bool { return a.High.FilmWM2K > 0 || a.Shape == heat.Slab && a.Low.FilmWM2K > 0 }

// cut makes the cells: about so many from the middle to a face.
func (a *Axis) cut(perHalf int, halve bool) direction {
	d := direction{low: &a.Low, high: &a.High, halved: halve && a.even() && a.open(), lowPool: a.Low.Medium == nil, highPool: a.High.Medium == nil}
	reachM := a.SizeM
	switch {
	case a.Shape != heat.Slab:
		d.low, reachM = closed, a.SizeM/2
	case d.halved:
		d.low, reachM = closed, a.SizeM/2
	}
	d.cells = perHalf
	twoFaces := d.low.FilmWM2K > 0 && d.high.FilmWM2K > 0
	if twoFaces {
		d.cells *= 2
	}
	if !a.open() {
		d.cells = 1
	}
	d.layers(a)
	d.widthM = reachM / float64(d.cells)
	d.volume, d.area = make([]float64, d.cells), make([]float64, d.cells+1)
	for i := range d.area {
		d.area[i] = areaAt(a.Shape, float64(i)*d.widthM)
		if i > 0 {
			d.volume[i-1] = volumeTo(a.Shape, float64(i)*d.widthM) - volumeTo(a.Shape, float64(i-1)*d.widthM)
		}
	}
	return d
}

// layers lays the borders of the layers on faces of cells. An odd number of them is cut through the middle one, so each has an even
// number of cells.
func (d *direction) layers(a *Axis) {
	if a.Layers <= 1 || a.GapM2KW == 0 || !a.open() {
		return
	}
	whole := d.cells
	if d.halved {
		whole *= 2
	}
	each := 2 * max(1, (whole+2*a.Layers-1)/(2*a.Layers))
	whole = each * a.Layers
	first := 0
	d.cells = whole
	if d.halved {
		d.cells, first = whole/2, whole/2
	}
	d.gapM2KW = make([]float64, d.cells+1)
	for i := 1; i < d.cells; i++ {
		if (first+i)%each == 0 {
			d.gapM2KW[i] = a.GapM2KW
		}
	}
}

func areaAt(s heat.Shape, radiusM float64) float64 {
	switch s {
	case heat.Cylinder:
		return 2 * math.Pi * radiusM
	case heat.Sphere:
		return 4 * math.Pi * radiusM * radiusM
	}
	return 1
}

func volumeTo(s heat.Shape, radiusM float64) float64 {
	switch s {
	case heat.Cylinder:
		return math.Pi * radiusM * radiusM
	case heat.Sphere:
		return 4 * math.Pi / 3 * radiusM * radiusM * radiusM
	}
	return radiusM
}
