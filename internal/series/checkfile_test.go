package series

import (
	"fmt"
	"strings"
	"testing"

	"kettlefrost/internal/heat"
	"kettlefrost/internal/heat/heattest"
)

// The file of derived check values that the tables of these tests were typed from, if it is at hand: it guards the typing.
func TestCheckFile(t *testing.T) {
	if known := heattest.CheckFile(t, checkFileSeries); known < 75 { // 48 first terms, 27 of Biot 2
		t.Errorf("only %d rows understood", known)
	}
}

// checkFileSeries works out the rows of the series.
func checkFileSeries(body, quantity string) (float64, bool) {
	var shape string
	var bi, fo float64
	timed := true
	if n, _ := fmt.Sscanf(body, "%s Bi=%g Fo=%g", &shape, &bi, &fo); n != 3 {
		timed = false
		if n, _ := fmt.Sscanf(body, "%s Bi=%g", &shape, &bi); n != 2 {
			return 0, false
		}
	}
	s, ok := map[string]heat.Shape{"slab": heat.Slab, "cylinder": heat.Cylinder, "sphere": heat.Sphere}[shape]
	if !ok {
		return 0, false
	}
	word, _, _ := strings.Cut(quantity, " ")
	if timed {
		p, ok := map[string]Place{"centre": Centre, "surface": Surface, "mean": Mean}[word]
		theta, err := RelativeTemp(s, p, bi, fo)
		return theta, ok && err == nil
	}
	first, err := FirstTermOf(s, bi)
	if quantity == "first root" {
		return first.Root, err == nil
	}
	return first.Coefficient, err == nil
}
