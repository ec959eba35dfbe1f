package heatcheck

import (
	"math"
	"strconv"
	"testing"

	"kettlefrost/internal/heat/heattest"
)

// The file of derived check values that many outside figures were typed from, if it is at hand: it guards the typing. Every figure that
// names a row of it must be that row's, to the last digit.
func TestCheckFile(t *testing.T) {
	values := map[[2]string]float64{}
	for _, r := range heattest.CheckRows(t) {
		v, err := strconv.ParseFloat(r[2], 64)
		if err != nil {
			t.Fatal(err)
		}
		values[[2]string{r[0], r[1]}] = v
	}
	used := map[[2]string]bool{}
	for _, s := range sections() {
		for _, l := range s.lines {
			for _, v := range l.values {
				if v.row.body == "" {
					continue
				}
				key := [2]string{v.row.body, v.row.quantity}
				want, known := values[key]
				if !known {
					t.Errorf("%s, %s: the file has no such row: %q", l.what, v.name, key)
				} else if math.Abs(v.want-v.row.scale*want) > 1e-9*math.Abs(v.want) {
					t.Errorf("%s, %s: typed %g, the file has %g", l.what, v.name, v.want, v.row.scale*want)
				}
				used[key] = true
			}
		}
	}
	t.Logf("%d of %d rows of the file are on the page", len(used), len(values))
	if len(used) < 300 {
		t.Errorf("only %d rows of the file are on the page", len(used))
	}
}
