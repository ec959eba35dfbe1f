package draw

import (
	"math"
	"strings"
	"testing"

	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

func temp(c float64) *unit.Temp { return new(unit.TempC(c)) }

// hotSoup falls from 90 °C through 135 °F (57.22 °C) at 1800 + 3600·(70-57.22)/(70-40) s.
func hotSoup() plan.Chill {
	curve := plan.Curve{
		{Time: 0, Core: unit.TempC(90), Slow: temp(90), Fast: temp(90), Medium: temp(3)},
		{Time: 1800 * unit.Second, Core: unit.TempC(70), Slow: temp(75), Fast: temp(60), Medium: temp(3)},
		{Time: 5400 * unit.Second, Core: unit.TempC(40), Slow: temp(50), Fast: temp(30), Medium: temp(3)},
		{Time: 20000 * unit.Second, Core: unit.TempC(5), Slow: temp(9), Fast: temp(4), Medium: temp(3)},
	}
	return plan.Chill{Name: "soup", Options: []plan.ChillOption{{Name: "pans", Curve: curve}, {Name: "pot", Curve: curve[:2]}}}
}

// The clock of the limits starts at 135 °F (FDA Food Code 3-501.14).
func TestCoolingCurve(t *testing.T) {
	c := Cooling(hotSoup(), 0, nil, unit.US)
	start := 1800 + 3600*(70-unit.TempF(135).C())/30
	if len(c.Limits) != 2 || math.Abs(c.Limits[0].ByS-start-7200) > 1 || math.Abs(c.Limits[1].ByS-start-21600) > 1 {
		t.Errorf("limits %+v, want 2 h and 6 h after %.0f s", c.Limits, start)
	}
	if len(c.Lines) != 2 || len(c.Lines[0].Points) != 4 || c.Lines[1].Kind != Medium {
		t.Errorf("lines %+v", c.Lines)
	}
	for i := range c.Band.Low {
		if c.Band.Low[i].TempC > c.Band.High[i].TempC {
			t.Errorf("the band is upside down at %+v", c.Band.Low[i])
		}
	}
	if two := Cooling(hotSoup(), 0, []int{0, 1, 7}, unit.US); len(two.Lines) != 2 || two.Lines[0].Name != "pans" || two.Lines[1].Name != "pot" {
		t.Errorf("two ways beside each other: %+v", two.Lines)
	}
	if none := Cooling(hotSoup(), 9, nil, unit.US); len(none.Lines) != 0 || none.Picture().Height <= 0 {
		t.Errorf("a way that is not there: %+v", none)
	}
}

func TestFreezingAndHeatingCurves(t *testing.T) {
	pack := plan.PackFreeze{Name: "soup, 1 lb", Freezer: "chest", Time: 5400 * unit.Second, To: unit.TempC(-18), Curve: plan.Curve{
		{Time: 0, Core: unit.TempC(5), Surface: temp(5), Medium: temp(-20)}, {Time: 5400 * unit.Second, Core: unit.TempC(-18), Surface: temp(-19), Medium: temp(-20)}}}
	f := Freezing(pack, unit.Metric)
	if len(f.Lines) != 3 || len(f.Marks) != 1 || f.Marks[0].Text != "1 h 30 min" {
		t.Errorf("freezing: %+v", f)
	}
	card := plan.Card{Name: "soup, 1 lb", Frozen: plan.CardTime{Curve: plan.Curve{
		{Time: 0, Core: unit.TempC(-18), Slow: temp(-18), Medium: temp(95)}, {Time: 900 * unit.Second, Core: unit.TempC(76), Slow: temp(60), Medium: temp(95)}}}}
	h := Heating(card, unit.US)
	if !h.Warming || len(h.Verdicts()) != 1 || !strings.Contains(h.Limits[0].Name, "165 °F") {
		t.Errorf("heating: %+v, verdicts %+v", h, h.Verdicts())
	}
}
