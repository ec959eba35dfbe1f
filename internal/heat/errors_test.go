package heat

import (
	"errors"
	"math"
	"strings"
	"testing"

	"kettlefrost/internal/heat/heattest"
)

// What lies outside a range is refused and named.
func TestRefused(t *testing.T) {
	soup := Composition{Water: 0.86, Protein: 0.035, Fat: 0.03, Carb: 0.055, Fibre: 0.01, Ash: 0.01}
	spirit, short := soup, soup
	spirit.Alcohol, spirit.Water = 0.4, 0.46
	short.Water = 0.5
	for _, c := range []struct {
		what string
		err  error
	}{
		{"alcohol fraction", heattest.Second(spirit.At(20))},
		{"sum of the composition", heattest.Second(short.At(20))},
		{"temperature for food properties", heattest.Second(soup.At(151))},
		{"temperature for food properties", heattest.Second(soup.At(math.NaN()))},
		{"temperature of the frozen food", heattest.Second(soup.FrozenAt(5, -0.8))},
		{"freezing point", heattest.Second(soup.FrozenAt(-20, -16))},
		{"temperature of the unfrozen food", heattest.Second(soup.FreezingFood(-0.8, -5))},
		{"enthalpy", heattest.Second(rounded("soup").TempC(1e9))},
		{"ideal freezing point", heattest.Second(FreezingPointC(0.5, Solute{Salt, 0.3}))},
		{"sum of the composition", heattest.Second(Composition{Water: 0.2}.Normalise())},
		{"freezing point", heattest.Second(soup.State(-20, 0))},
		{"temperature for food properties", heattest.Second(soup.State(-41, -0.8))},
		{"temperature for Chen's formulas", heattest.Second(ChenFood{0.86, 0.03, 0.14, -0.8}.HeatJKgK(101))},
		{"solids fraction", heattest.Second(ChenFood{0.86, 0.03, 1.4, -0.8}.EnthalpyJKg(5))},
		{"sum of the composition", heattest.Second(short.Chen(-0.8))},
		{"temperature for Tchigeov's formula", heattest.Second(TchigeovIceShare(0.86, -0.8, 5))},
		{"water share for Chang and Tao's formula", heattest.Second(ChangTaoJKg(0.5))},
		{"solute share", heattest.Second(soup.FreezingRange(Solute{Salt, -0.1}))},
		{"layer thickness", heattest.Second(CoatedFilmWM2K(8, Coat{-1, 0.3}))},
	} {
		var out *RangeError
		if !errors.As(c.err, &out) || out.What != c.what {
			t.Errorf("%s: got %v", c.what, c.err)
		} else if !strings.Contains(out.Error(), c.what) || !strings.Contains(out.Error(), "want") {
			t.Errorf("%s: message %q", c.what, out.Error())
		}
	}
}
