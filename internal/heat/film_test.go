package heat

import (
	"testing"

	"kettlefrost/internal/heat/heattest"
)

// Overall coefficients assumed in the reference: 299 for broth, 108 for thick food scraped well.
func TestOverall(t *testing.T) {
	wall := Coat{ThicknessM: 1e-4, ConductivityWMK: 1} // 1e-4 m²·K/W
	heattest.Near(t, "broth", heattest.Must(OverallWM2K(800, 500, wall))(t), 299, 2e-3)
	heattest.Near(t, "thick", heattest.Must(OverallWM2K(150, 400, wall))(t), 108, 2e-3)
	// 0.1 mm of film at 0.33 W/(m·K) (from memory) brings 500 down to 435; 1 mm of air at 0.024 halves 24.
	heattest.Near(t, "bag in water", heattest.Must(CoatedFilmWM2K(500, Coat{1e-4, 0.33}))(t), 435, 3e-3)
	heattest.Near(t, "trapped air", heattest.Must(CoatedFilmWM2K(24, Coat{1e-3, 0.024}))(t), 12, 2e-3)
}
