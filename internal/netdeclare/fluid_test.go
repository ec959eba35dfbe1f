package netdeclare_test

import (
	"testing"

	"kettlefrost/internal/netdeclare"
	"kettlefrost/internal/unit"
)

// Derived from the US fluid ounce of 29.5735295625 ml, exact; the order of the measures is from memory.
func TestFluid(t *testing.T) {
	const ml = unit.Millilitre
	for _, c := range []struct {
		net      unit.Volume
		noMetric bool
		want     string
	}{
		{8 * 29_573_529_562_500, false, "8 fl oz (236 mL)"}, // 236.588
		{16 * 29_573_529_562_500, false, "16 fl oz (1 pt) 473 mL"},
		{24 * 29_573_529_562_500, false, "24 fl oz (1 pt 8 fl oz) 709 mL"},
		{40 * 29_573_529_562_500, false, "40 fl oz (1 qt 8 fl oz) 1.18 L"},
		{1000 * ml, false, "33.81 fl oz (1 qt 1.81 fl oz) 1 L"},
		{700 * ml, true, "23.66 fl oz (1 pt 7.66 fl oz)"},
		{168 * 29_573_529_562_500, false, "1 gal 1 qt 8 fl oz (4.96 L)"},
	} {
		s, err := netdeclare.USFluid(c.net, c.noMetric)
		if err != nil || s.Text != c.want || s.Declared > c.net || s.Declared+s.Unsaid != c.net || s.Confirm == "" {
			t.Errorf("%v: %+v (%v), want %q", c.net, s, err, c.want)
		}
	}
	for _, v := range []unit.Volume{0, 100 * 1000 * ml} {
		if _, err := netdeclare.USFluid(v, false); err == nil {
			t.Errorf("%v in a pack", v)
		}
	}
}
