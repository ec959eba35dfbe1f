package unit

import "fmt"

// Area is square metres of floor or shelf. Not exact.
type Area float64

// Show is the area as far as anybody measures it: 20.1 sq ft or 1.87 m².
func (a Area) Show(s System) string {
	if s == US {
		return fmt.Sprintf("%.1f sq ft", float64(a)/(Foot.M()*Foot.M()))
	}
	return fmt.Sprintf("%.2f m²", float64(a))
}
