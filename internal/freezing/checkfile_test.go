package freezing

import (
	"fmt"
	"strconv"
	"strings"
	"testing"

	"kettlefrost/internal/heat"
	"kettlefrost/internal/heat/heattest"
	"kettlefrost/internal/medium"
)

// The bags and stacks of the file of derived check values, if it is at hand: it guards the typing of the tables here. 1 %, as the file says.
func TestCheckFile(t *testing.T) {
	checked, worst := 0, 0.0
	for _, row := range heattest.CheckRows(t) {
		p, at, film, airC, coreC, ok := readCase(row[0], row[1])
		if !ok {
			continue
		}
		want, err := strconv.ParseFloat(row[2], 64)
		if err != nil || row[3] != "h" || row[4] != "1%" {
			t.Fatalf("%v: %v", row, err)
		}
		checked++
		got := must(Times(p, at, one(film), airC, coreC))(t).Usual
		near(t, row[0]+", "+row[1], got.TimeS/3600, want, 0.01)
		worst = max(worst, got.TimeS/3600/want-1, 1-got.TimeS/3600/want)
	}
	if checked != 24 {
		t.Errorf("%d rows understood, want 24", checked)
	}
	t.Logf("%d rows, at most %.2f %% off", checked, 100*worst)
}

// readCase reads "bag soup 25.4 mm both faces h 5 air -18" or "stack of 4 bags soup, 0.02 m2K/W between bags, h 8 air -18".
func readCase(body, quantity string) (p Pack, at Placing, film, airC, coreC float64, ok bool) {
	if n, _ := fmt.Sscanf(quantity, "time centre 5 -> %g C", &coreC); n != 1 {
		return
	}
	food, found := map[string]heat.FreezingFood{"soup": soup, "braise": braise}, ""
	var mm float64
	if n, _ := fmt.Sscanf(body, "bag %s %g mm both faces h %g air %g", &found, &mm, &film, &airC); n == 4 {
		at = Placing{Lie: Apart}
	} else if n, _ := fmt.Sscanf(strings.ReplaceAll(body, ",", " ,"), "stack of 4 bags %s", &found); n == 1 {
		at, mm = Placing{Lie: Stacked, High: 4}, 25.4
		if strings.Contains(body, "0.02 m2K/W between") {
			at.GapM2KW = medium.AirGapM2KW
		}
		if n, _ := fmt.Sscanf(body[strings.LastIndex(body, "h "):], "h %g air %g", &film, &airC); n != 2 {
			return
		}
	}
	p = soupBag()
	p.Food, p.ThicknessM = food[found], mm/1000
	return p, at, film, airC, coreC, mm > 0
}
