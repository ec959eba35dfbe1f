package heat

// Coat is one layer between a body and its medium: film of a bag, cardboard, trapped air, the wall of a pot.
type Coat struct {
	ThicknessM      float64 // 0 to 0.5
	ConductivityWMK float64 // 0.01 to 500
}

// CoatedFilmWM2K is the surface coefficient seen through layers in series: 1/(1/h + Σ thickness/conductivity), for a bare
// filmWM2K of 0.1 to 1e7. The layers are taken as thin compared with the body. Errors: *RangeError.
func CoatedFilmWM2K(filmWM2K float64, coats ...Coat) (float64, error) {
	if err := InRange("surface coefficient", "W/(m²·K)", filmWM2K, SmallestFilmWM2K, LargestFilmWM2K); err != nil {
		return 0, err
	}
	resistance := 1 / filmWM2K // m²·K/W
	for _, c := range coats {
		if err := InRange("layer thickness", "m", c.ThicknessM, 0, 0.5); err != nil {
			return 0, err
		}
		if err := InRange("layer conductivity", "W/(m·K)", c.ConductivityWMK, 0.01, 500); err != nil {
			return 0, err
		}
		resistance += c.ThicknessM / c.ConductivityWMK
	}
	return 1 / resistance, nil
}

// OverallWM2K is the overall coefficient between a liquid inside and a medium outside a wall: 1/(1/inside + wall + 1/outside), with
// the wall as coats. Errors: *RangeError.
func OverallWM2K(insideFilmWM2K, outsideFilmWM2K float64, wall ...Coat) (float64, error) {
	outside, err := CoatedFilmWM2K(outsideFilmWM2K, wall...)
	if err != nil {
		return 0, err
	}
	inside, err := CoatedFilmWM2K(insideFilmWM2K)
	if err != nil {
		return 0, err
	}
	return inside * outside / (inside + outside), nil
}
