package conduction

import (
	"errors"
	"math"
)

// stage is one state of the enthalpy on the way through a step.
type stage int

const (
	now    stage = iota // accepted
	coarse              // after one step; then the extrapolation of coarse and fine
	middle              // after the first of two half steps
	fine                // after the second
	stages
)

// field is a body in cells, with its enthalpy.
type field struct {
	body    *Body
	m       Material
	along   []direction
	size    [3]int
	stride  [3]int
	weight  float64 // how often the cells are there, by symmetry
	h       [stages][]float64
	sense   []float64 // d h / d (temperature of the pool), of the step being taken in several directions
	rate    []float64 // of h in the last step, J/(kg·s), for a guess
	out     [stages]givenOff
	core    [stages]float64
	tempC   []float64 // of the last core that was looked for
	line    *line
	cooling bool
	startC  float64
	startH  float64
	massKg  float64
	givenJ  float64 // up to now
	poolJ   float64
	enterS  float64
}

// newField cuts a body that has been checked.
func newField(b *Body, perHalf int, halve, cooling bool) *field {
	f := &field{body: b, m: b.Material, weight: 1, cooling: cooling, startC: b.StartC, startH: b.Material.EnthalpyJKg(b.StartC), size: [3]int{1, 1, 1}}
	longest, cells := 0, 1
	f.massKg = f.m.DensityKgM3()
	for i := range b.Axes {
		d := b.Axes[i].cut(perHalf, halve)
		if d.halved {
			f.weight *= 2
		}
		total := 0.0
		for _, v := range d.volume {
			total += v
		}
		f.massKg *= total
		f.along = append(f.along, d)
		f.size[i], f.stride[i] = d.cells, cells
		cells *= d.cells
		longest = max(longest, d.cells)
	}
	f.massKg *= f.weight
	f.line = newLine(longest)
	for s := range f.h {
		f.h[s] = make([]float64, cells)
		f.core[s] = f.startC
	}
	f.sense, f.rate, f.tempC = make([]float64, cells), make([]float64, cells), make([]float64, cells)
	for i := range f.h[now] {
		f.h[now][i] = f.startH
		f.tempC[i] = f.startC
	}
	return f
}

// errUneven says that the two faces of a slab that was cut in half do not meet the same.
var errUneven = errors.New("faces differ")

// meet asks the courses for a moment of the simulation.
func (f *field) meet(timeS, poolC float64) error {
	for i := range f.along {
		d, a := &f.along[i], &f.body.Axes[i]
		lowC, err := f.medium(&a.Low, d.low.FilmWM2K > 0 || d.halved, timeS, poolC)
		if err != nil {
			return err
		}
		highC, err := f.medium(&a.High, true, timeS, poolC)
		if err != nil {
			return err
		}
		if d.halved && lowC != highC {
			return errUneven
		}
		d.lowC, d.highC = lowC, highC
	}
	return nil
}

func (f *field) medium(face *Face, open bool, timeS, poolC float64) (float64, error) {
	switch {
	case !open || face.FilmWM2K == 0:
		return 0, nil
	case face.Medium == nil:
		return poolC, nil
	}
	return mediumAt(face.Medium, timeS-f.enterS)
}

// relax takes one implicit step between two stages, one direction after the other (locally one-dimensional splitting). The media have
// been asked. Its error falls with the step, also that of the splitting, so the extrapolation of a whole and two half steps takes both
// away.
func (f *field) relax(to, from stage, stepS, tolJKg float64, sensed bool) bool {
	f.out[to] = givenOff{}
	if len(f.along) == 1 {
		l := f.line
		l.h, l.base = f.h[to], f.h[from]
		out, ok := l.relax(f.m, &f.along[0], stepS, tolJKg, sensed)
		f.out[to].add(out, f.weight)
		return ok
	}
	if sensed {
		clear(f.sense)
	}
	copy(f.h[to], f.h[from])
	for axis := range f.along {
		if !f.sweep(axis, to, stepS, tolJKg, sensed) {
			return false
		}
	}
	return true
}

// sweep takes the step along all lines of one direction.
func (f *field) sweep(axis int, to stage, stepS, tolJKg float64, sensed bool) bool {
	d, l, h, stride := &f.along[axis], f.line, f.h[to], f.stride[axis]
	p, q := (axis+1)%3, (axis+2)%3
	for j := range f.size[q] {
		for i := range f.size[p] {
			first := i*f.stride[p] + j*f.stride[q]
			for c := range d.cells {
				l.base[c] = h[first+c*stride]
				l.h[c] = l.base[c]
				l.senseBase[c] = f.sense[first+c*stride]
			}
			out, ok := l.relax(f.m, d, stepS, tolJKg, sensed)
			if !ok {
				return false
			}
			for c := range d.cells {
				h[first+c*stride] = l.h[c]
				if sensed {
					f.sense[first+c*stride] = l.sense[c]
				}
			}
			f.out[to].add(out, f.weight*f.across(p, i)*f.across(q, j))
		}
	}
	return true
}

// across is the size of cell i along an axis, 1 if there is no such axis.
func (f *field) across(axis, i int) float64 {
	if axis >= len(f.along) {
		return 1
	}
	return f.along[axis].volume[i]
}

// extrapolate puts 2·fine - coarse into coarse: with the same weights for the heat given off nothing is lost.
func (f *field) extrapolate() {
	c, fi := f.h[coarse], f.h[fine]
	for i := range c {
		c[i] = 2*fi[i] - c[i]
	}
	out := givenOff{}
	out.add(f.out[middle], 2)
	out.add(f.out[fine], 2)
	out.add(f.out[coarse], -1)
	f.out[coarse] = out
}

// spread is the difference of the coarse and the fine state, and what the step has changed: both root mean squares over the cells.
func (f *field) spread() (differenceJKg, changeJKg float64) {
	var d2, c2, all float64
	i := 0
	for k := range f.size[2] {
		for j := range f.size[1] {
			v := f.across(1, j) * f.across(2, k)
			for c := range f.size[0] {
				w := v * f.along[0].volume[c]
				d, ch := f.h[fine][i]-f.h[coarse][i], f.h[fine][i]-f.h[now][i]
				d2 += w * d * d
				c2 += w * ch * ch
				all += w
				i++
			}
		}
	}
	return math.Sqrt(d2 / all), math.Sqrt(c2 / all)
}

// meanJKg is the mean enthalpy.
func (f *field) meanJKg(s stage) float64 {
	var sum, all float64
	i := 0
	for k := range f.size[2] {
		for j := range f.size[1] {
			v := f.across(1, j) * f.across(2, k)
			for c := range f.size[0] {
				w := v * f.along[0].volume[c]
				sum += w * (f.h[s][i] - f.startH) // small numbers add up better
				all += w
				i++
			}
		}
	}
	return f.startH + sum/all
}

// accept makes the extrapolated state the present one.
func (f *field) accept(stepS float64) {
	before, after := f.h[now], f.h[coarse]
	for i := range after {
		f.rate[i] = (after[i] - before[i]) / stepS
	}
	f.h[now], f.h[coarse] = after, before
	f.core[now] = f.core[coarse]
	f.givenJ += f.out[coarse].allJ
	f.poolJ += f.out[coarse].toPoolJ
}

// guess starts Newton's method for a stage near its end. In several directions the sweeps start from what they find.
func (f *field) guess(to stage, stepS float64) {
	if len(f.along) > 1 {
		return
	}
	h := f.h[to]
	switch to {
	case coarse:
		for i, h0 := range f.h[now] {
			h[i] = h0 + f.rate[i]*stepS
		}
	case middle:
		for i, h0 := range f.h[now] {
			h[i] = (h0 + f.h[coarse][i]) / 2
		}
	case fine:
		copy(h, f.h[coarse])
	}
}
