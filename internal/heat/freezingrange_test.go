package heat

import (
	"testing"

	"kettlefrost/internal/heat/heattest"
)

// Printed freezing points of watery foods lie in the range from their sugars (ASHRAE table 3, see foods: milk -0.6, carrot -1.4, potato
// -0.6, asparagus -0.6, kale -0.5 °C; sugars from memory): what is named alone gives the warm end. Raw lean meat lies outside, as the
// comment says.
func TestFreezingRangeAgainstPrinted(t *testing.T) {
	sugars := map[string]float64{"whole milk": 0.0465, "carrot": 0.047, "potato": 0.0115, "asparagus": 0.019, "kale": 0.0125}
	checked := 0
	for _, f := range foods {
		c := percent(f.water, f.protein, f.fat, f.carb-f.fibre, f.fibre, f.ash)
		share, named := sugars[f.name]
		if !named {
			continue
		}
		checked++
		got := heattest.Must(c.FreezingRange(Solute{Sucrose, share}))(t)
		if f.freezesC < got.LowC || f.freezesC > got.HighC {
			t.Errorf("%s, printed %g: %+v", f.name, f.freezesC, got)
		}
	}
	if checked != len(sugars) {
		t.Errorf("%d foods found", checked)
	}
	if beef := heattest.Must(percent(71.70, 21.24, 4.40, 0, 0, 1.08).FreezingRange(Solute{Salt, 0.001}))(t); beef.LowC <= -1.7 {
		t.Errorf("beef, printed -1.7, is covered after all: %+v", beef)
	}
}

func TestFreezingRange(t *testing.T) {
	soup := percent(86, 3.5, 3, 5.5, 1, 1)
	unknown := heattest.Must(soup.FreezingRange())(t)
	if unknown != (FreezingRange{-1.5, -0.8, -0.6}) {
		t.Errorf("nothing known: %+v", unknown)
	}
	salted := heattest.Must(soup.FreezingRange(Solute{Salt, 0.009}))(t)
	heattest.Within(t, "as FreezingPointC", salted.UsualC, heattest.Must(FreezingPointC(0.86, Solute{Salt, 0.009}))(t), 1e-12)
	heattest.Within(t, "the coldest soup", salted.LowC, -1.5, 0)
	// A sweet relish, 60 % water, 25 % carbohydrate of which 5 are named, 2 % ash of which 1 is salt: by hand with 1.86 K·kg/mol,
	// 20 g/342.3·1 + 5/342.3 + 10/58.44·1.85 + 10/74.55·1.85 per 600 g. The ideal law is a little flatter than the straight line.
	relish := heattest.Must(percent(60, 3, 8, 25, 2, 2).FreezingRange(Solute{Salt, 0.01}, Solute{Sucrose, 0.05}))(t)
	heattest.Near(t, "everything dissolved", relish.LowC, -1.86*(250/342.3+10/58.44*1.85+10/74.55*1.85)/0.6, 0.05)
	heattest.Near(t, "what is named", relish.UsualC, -1.86*(50/342.3+10/58.44*1.85)/0.6, 0.02)
	// A syrup would leave the law.
	heattest.Within(t, "syrup", heattest.Must(percent(30, 0, 0, 70, 0, 0).FreezingRange(Solute{Sucrose, 0.2}))(t).LowC, -6, 0)
	// What the doubt does at -18 °C: nearly twice the liquid water, 5 % less ice.
	colder, usual := heattest.Must(soup.State(-18, unknown.LowC))(t), heattest.Must(soup.State(-18, unknown.UsualC))(t)
	heattest.Near(t, "freezable water still liquid", (soup.FreezableWater()-colder.IceShare)/(soup.FreezableWater()-usual.IceShare), 1.5/0.8, 1e-9)
	heattest.Near(t, "ice", colder.IceShare/usual.IceShare, 1, 0.05)
}
