package heat

import (
	"fmt"
	"testing"

	"kettlefrost/internal/heat/heattest"
)

// The file of derived check values that the tables of these tests were typed from, if it is at hand: it guards the typing.
func TestCheckFile(t *testing.T) {
	if known := heattest.CheckFile(t, checkFileFood); known < 192 { // 64 of the components, 128 of foods
		t.Errorf("only %d rows understood", known)
	}
}

func componentValue(name, quantity string) (float64, bool) {
	var what string
	var at float64
	if n, _ := fmt.Sscanf(quantity, "%s at %g C", &what, &at); n != 2 {
		return 0, false
	}
	for c := water; c <= ice; c++ {
		if c.String() != name && !(c == carb && name == "carb") {
			continue
		}
		switch what {
		case "k":
			return substances[c].conductivity.at(at), true
		case "density":
			return substances[c].density.at(at), true
		case "cp":
			return c.heatKJKgK(at), true
		}
	}
	return 0, false
}
