package heatshow

import (
	"strings"
	"testing"

	"kettlefrost/internal/heatcase"
	"kettlefrost/internal/unit"
)

func logged(t *testing.T, took unit.Span, keys ...string) heatcase.Calibration {
	t.Helper()
	c := heatcase.Example(heatcase.Cool)
	for i := 0; i < len(keys); i += 2 {
		if err := c.Set(keys[i], keys[i+1]); err != nil {
			t.Fatalf("%s %q: %v", keys[i], keys[i+1], err)
		}
	}
	k, err := c.Calibrate(took)
	if err != nil {
		t.Fatal(err)
	}
	return k
}

// The layout of tables and logs; their figures are tested where they are computed.
func TestOtherTexts(t *testing.T) {
	c := heatcase.Example(heatcase.Freeze)
	p, err := c.Food.Properties()
	if err != nil {
		t.Fatal(err)
	}
	golden(t, "properties", Properties(p, unit.Metric))
	golden(t, "log-pan", Calibration(logged(t, 5*unit.Hour+40*unit.Minute, "units", "metric")))
	golden(t, "log-pot", Calibration(logged(t, 70*unit.Minute, "pot", "12 in x 10 in", "stir", "thick", "in", "ice-bath-stirred")))
}

// Where the food sets the pace, an end of the range is open, and that is said.
func TestOpenEndIsSaid(t *testing.T) {
	k := heatcase.Calibration{Question: "cool x", Medium: "ice-bath-still", UsualW: 900, LowW: 400, HighW: 5000, HighOpen: true}
	if text := Calibration(k); !strings.Contains(text, "900 W/m²·K  (400 to 5000 or more)") || !strings.Contains(text, "leaves an end of the range open") {
		t.Errorf("an open end:\n%s", text)
	}
}
