package conduction

import "math"

// crossing is the heat flux through a face of a cell and how it answers: to the potential of the cell, to that of the cell beyond (or
// to the temperature of the medium), both as positive numbers.
type crossing struct {
	fluxWM2            float64
	perPotential       float64 // 1/m
	perPotentialBeyond float64 // 1/m, of a gap
	perMediumWM2K      float64 // of a surface
	surfaceC, beyondC  float64 // either side of a gap; beyondC only there
}

const faceTolC = 1e-10 // a surface temperature is found to this, relative to 1 K + its own size

// surface balances the conduction through the half cell with film and evaporation. The flux is positive outwards.
func surface(m Material, f *Face, tempC, potentialWM, halfM, mediumC float64) crossing {
	if f.FilmWM2K == 0 {
		return crossing{surfaceC: tempC}
	}
	low, high := min(tempC, mediumC), max(tempC, mediumC)
	_, k := m.Potential(tempC)
	at := (k/halfM*tempC + f.FilmWM2K*mediumC) / (k/halfM + f.FilmWM2K)
	if f.Wet > 0 {
		low = min(low, highestOnsetC)
	}
	for range maxFaceSteps {
		potential, k := m.Potential(at)
		inner, film := (potentialWM-potential)/halfM, f.FilmWM2K
		outer := film * (at - mediumC)
		answer := film
		if f.Wet > 0 {
			loss, slope := evaporation(at, mediumC)
			outer += f.Wet * loss
			answer += f.Wet * slope
		}
		excess := inner - outer
		if excess > 0 {
			low = at
		} else {
			high = at
		}
		steepness := k/halfM + answer
		next := min(max(at+excess/steepness, low-faceTolC), high+faceTolC)
		if math.Abs(next-at) <= faceTolC*(1+math.Abs(at)) || high-low <= faceTolC {
			return crossing{
				fluxWM2: inner - (next-at)*k/halfM, perPotential: answer / halfM / steepness,
				perMediumWM2K: film * k / halfM / steepness, surfaceC: next,
			}
		}
		if !(next > low && next < high) {
			next = (low + high) / 2
		}
		at = next
	}
	return crossing{fluxWM2: math.NaN()}
}

const maxFaceSteps = 80

// gap balances the conduction through two half cells with the resistance between them. The flux is positive from the first to the
// second; each side keeps its own phase up to its surface.
func gap(m Material, tempC, potentialWM, otherC, otherWM, halfM, gapM2KW float64) crossing {
	low, high := min(tempC, otherC), max(tempC, otherC)
	at := (tempC*3 + otherC) / 4
	for range maxFaceSteps {
		potential, k := m.Potential(at)
		flux := (potentialWM - potential) / halfM
		beyondC := at - flux*gapM2KW
		beyond, kb := m.Potential(beyondC)
		excess := flux - (beyond-otherWM)/halfM
		if excess > 0 {
			low = at
		} else {
			high = at
		}
		next := min(max(at+excess/(k/halfM+kb*(1+gapM2KW*k/halfM)/halfM), low-faceTolC), high+faceTolC)
		if math.Abs(next-at) <= faceTolC*(1+math.Abs(at)) || high-low <= faceTolC {
			resistance := gapM2KW + halfM/k + halfM/kb
			return crossing{fluxWM2: flux - (next-at)*k/halfM, perPotential: 1 / (k * resistance), perPotentialBeyond: 1 / (kb * resistance),
				surfaceC: next, beyondC: beyondC}
		}
		if !(next > low && next < high) {
			next = (low + high) / 2
		}
		at = next
	}
	return crossing{fluxWM2: math.NaN()}
}
