package conduction

// findCore finds the core of a stage, the hottest point while cooling and the coldest while warming, to second order. It never passes
// what was there before or surrounds it (no point of a body without sources does).
func (f *field) findCore(s, before stage) {
	sign := 1.0
	if !f.cooling {
		sign = -1
	}
	best := 0
	for i, h := range f.h[s] {
		f.tempC[i], _, _ = f.m.At(h)
		if sign*f.tempC[i] > sign*f.tempC[best] {
			best = i
		}
	}
	core := sign * f.tempC[best]
	bound := sign * f.core[before]
	for axis := range f.along {
		d := &f.along[axis]
		at := best / f.stride[axis] % d.cells
		core += f.peak(axis, best, at, sign)
		if d.low.FilmWM2K > 0 {
			bound = max(bound, sign*d.lowC)
		}
		if d.high.FilmWM2K > 0 {
			bound = max(bound, sign*d.highC)
		}
		if !f.cooling && d.low.Wet+d.high.Wet > 0 { // evaporation cools below the medium, but not below where it ends
			bound = max(bound, -highestOnsetC)
		}
	}
	f.core[s] = sign * min(core, bound)
}

// peak is how much further than its hottest cell a profile along an axis goes: the top of the parabola through three points. A
// neighbour beyond a closed face or the middle is a mirror image; beyond an open one it is the surface.
func (f *field) peak(axis, index, at int, sign float64) float64 {
	d := &f.along[axis]
	if d.cells == 1 && d.low.FilmWM2K == 0 && d.high.FilmWM2K == 0 {
		return 0
	}
	here := sign * f.tempC[index]
	side := func(step int) (fall, distance float64, mirror bool) {
		face, next := at, at+step
		if step > 0 {
			face = at + 1
		}
		if next < 0 || next >= d.cells {
			c := f.surface(axis, index, step > 0)
			film := d.low.FilmWM2K
			if step > 0 {
				film = d.high.FilmWM2K
			}
			return here - sign*c.surfaceC, 0.5, film == 0
		}
		if d.gapM2KW != nil && d.gapM2KW[face] > 0 { // the temperature jumps there
			return 0, 0, true
		}
		return here - sign*f.tempC[index+step*f.stride[axis]], 1, false
	}
	fallLow, distLow, mirrorLow := side(-1)
	fallHigh, distHigh, mirrorHigh := side(1)
	switch {
	case mirrorLow && mirrorHigh:
		return 0
	case mirrorLow:
		return max(0, fallHigh) / (8 * distHigh) * mirrorShare(distHigh)
	case mirrorHigh:
		return max(0, fallLow) / (8 * distLow) * mirrorShare(distLow)
	}
	rise := max(0, -fallLow, -fallHigh) // the surface itself
	bend := (fallLow/distLow + fallHigh/distHigh) / (distLow + distHigh)
	if bend <= 0 || rise > 0 {
		return rise
	}
	slope := (fallLow/distLow*distHigh - fallHigh/distHigh*distLow) / (distLow + distHigh)
	return min(slope*slope/(4*bend), max(fallLow, fallHigh))
}

// mirrorShare makes the parabola with its top on the near face right for a neighbour at half a cell.
func mirrorShare(distance float64) float64 {
	if distance == 1 {
		return 1
	}
	return 4.0 / 3 // through the centre of the cell, 1/2 from the top, and the surface, 1 from it: fall/3
}

// surface balances a face of the line through a cell at an end.
func (f *field) surface(axis, index int, high bool) crossing {
	d := &f.along[axis]
	face, mediumC := d.low, d.lowC
	if high {
		face, mediumC = d.high, d.highC
	}
	potential, _ := f.m.Potential(f.tempC[index])
	return surface(f.m, face, f.tempC[index], potential, d.widthM/2, mediumC)
}

// coreLine is the first and last cell of the line along the first axis through the hottest (coldest) cell.
func (f *field) coreLine() (first, end int) {
	best := 0
	for i, t := range f.tempC {
		if f.cooling && t > f.tempC[best] || !f.cooling && t < f.tempC[best] {
			best = i
		}
	}
	n := f.along[0].cells
	first = best - best%n
	return first, first + n - 1
}

// profile is the temperatures along the first axis, from the Low face or centre up. It uses the temperatures of the last core found.
func (f *field) profile(timeS float64) Profile {
	d := &f.along[0]
	first, end := f.coreLine()
	var up []Place
	for i := range d.cells {
		up = append(up, Place{(float64(i) + 0.5) * d.widthM, f.tempC[first+i]})
	}
	up = append(up, Place{float64(d.cells) * d.widthM, f.surface(0, end, true).surfaceC})
	p := Profile{TimeS: timeS}
	if d.halved {
		half := float64(d.cells) * d.widthM
		for i := len(up) - 1; i >= 0; i-- {
			p.Places = append(p.Places, Place{half - up[i].DepthM, up[i].TempC})
		}
		for _, at := range up {
			p.Places = append(p.Places, Place{half + at.DepthM, at.TempC})
		}
		return p
	}
	lowC := f.surface(0, first, false).surfaceC
	if d.low.FilmWM2K == 0 && d.cells > 1 { // the middle of a round body, or a closed face: no slope there
		lowC += (f.tempC[first] - f.tempC[first+1]) / 8
	}
	p.Places = append([]Place{{0, lowC}}, up...)
	return p
}
