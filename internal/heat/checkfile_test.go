package heat

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"strconv"
	"strings"
	"testing"
)

// The file of derived check values that the tables of these tests were typed from, if it is at hand: it guards the typing.
func TestCheckFile(t *testing.T) {
	file, err := os.Open("../../../shared/reference/thermal_checks.csv")
	if errors.Is(err, fs.ErrNotExist) {
		t.Skip("no check file here")
	}
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	checked := 0
	for _, row := range rows[1:] {
		want, err := strconv.ParseFloat(row[2], 64)
		if err != nil {
			t.Fatal(err)
		}
		got, known := checkFileValue(row[0], row[1])
		for _, other := range []func(body, quantity string) (float64, bool){checkFileFood, checkFileVessel} {
			if !known {
				got, known = other(row[0], row[1])
			}
		}
		if !known {
			continue
		}
		checked++
		tol := row[4]
		if share, isShare := strings.CutSuffix(tol, "%"); isShare {
			near(t, row[0]+": "+row[1], got, want, number(t, share)/100)
		} else {
			within(t, row[0]+": "+row[1], got, want, number(t, strings.TrimSuffix(tol, " abs")))
		}
	}
	if checked < 289 { // 64 of the components, 48 first terms, 27 of Biot 2, 128 of foods, 22 of vessels
		t.Errorf("only %d rows understood", checked)
	}
}

func number(t *testing.T, s string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// checkFileValue works out the rows of components and of the series.
func checkFileValue(body, quantity string) (float64, bool) {
	if name, ok := strings.CutPrefix(body, "choi-okos "); ok {
		return componentValue(name, quantity)
	}
	var shape string
	var bi, fo float64
	timed := true
	if n, _ := fmt.Sscanf(body, "%s Bi=%g Fo=%g", &shape, &bi, &fo); n != 3 {
		timed = false
		if n, _ := fmt.Sscanf(body, "%s Bi=%g", &shape, &bi); n != 2 {
			return 0, false
		}
	}
	s, ok := map[string]Shape{"slab": Slab, "cylinder": Cylinder, "sphere": Sphere}[shape]
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
