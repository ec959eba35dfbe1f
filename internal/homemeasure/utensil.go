package homemeasure

import (
	_ "embed"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/sourced"
	"kettlefrost/internal/unit"
)

// Utensil is a measure that a home has: a part of a unit.
type Utensil struct {
	Unit      string // tsp, tbsp, cup or qt
	Num, Den  int    // the part of the unit: 1/4, or 1/1
	Most      int    // fillings of it in one amount; more are another utensil
	SomeHomes bool   // not every home has it
	Source    string
	Confirm   string // why the row is to be confirmed; empty if it is not
}

// eighths is how many eighths of a teaspoon the utensil holds: all of them hold a whole number.
func (u Utensil) eighths() int64 { return 8 * int64(u.Num) * spoons[u.Unit] / int64(u.Den) }

// spoons is how many teaspoons a unit is.
var spoons = map[string]int64{"tsp": 1, "tbsp": 3, "cup": 48, "qt": 192}

//go:embed data/utensils.csv
var utensilsCSV string

// Household are the utensils of a home, the smallest first; those that only some homes have if all is set. The slice is the caller's.
func Household(all bool) []Utensil {
	return slices.DeleteFunc(slices.Clone(utensils), func(u Utensil) bool { return u.SomeHomes && !all })
}

var utensils = sourced.MustRead(utensilsCSV, func(row sourced.Row) (Utensil, error) {
	u := Utensil{Unit: row["unit"], Den: 1, SomeHomes: row["some_homes"] == "yes", Source: row["source"], Confirm: row["confirm"]}
	above, below, parted := strings.Cut(row["part"], "/")
	var err error
	if u.Num, err = strconv.Atoi(above); err != nil {
		return u, err
	}
	if parted {
		if u.Den, err = strconv.Atoi(below); err != nil {
			return u, err
		}
	}
	if u.Most, err = strconv.Atoi(row["most"]); err != nil {
		return u, err
	}
	if spoons[u.Unit] == 0 || u.eighths() <= 0 {
		return u, fmt.Errorf("no such utensil")
	}
	return u, nil
})

// Measure is a utensil filled so many times.
type Measure struct {
	Utensil Utensil
	Times   int
}

// Measures are what an amount is measured with, the larger utensil first.
type Measures []Measure

func (m Measures) eighths() int64 {
	sum := int64(0)
	for _, x := range m {
		sum += int64(x.Times) * x.Utensil.eighths()
	}
	return sum
}

// Volume is what they hold, to the nearest femtolitre.
func (m Measures) Volume() unit.Volume {
	return unit.Volume((m.eighths()*int64(unit.Teaspoon) + 4) / 8)
}

func (m Measures) fillings() int {
	n := 0
	for _, x := range m {
		n += x.Times
	}
	return n
}

// String is how a cook reads it: "1 1/4 cups", "3/4 cup + 2 tbsp", "3/8 tsp".
func (m Measures) String() string {
	var texts []string
	for i := 0; i < len(m); i++ {
		num, den := m[i].Times*m[i].Utensil.Num, m[i].Utensil.Den
		if i+1 < len(m) && m[i+1].Utensil.Unit == m[i].Utensil.Unit {
			next := m[i+1]
			if n, d := num*next.Utensil.Den+next.Times*next.Utensil.Num*den, den*next.Utensil.Den; plain(n, d) {
				num, den = n, d
				i++
			}
		}
		texts = append(texts, mixed(num, den)+" "+plural(m[i].Utensil.Unit, num > den))
	}
	return strings.Join(texts, " + ")
}

// plain says whether the part of num/den is a half, thirds, quarters or eighths.
func plain(num, den int) bool {
	d := den / gcd(num, den)
	return d <= 4 || d == 8
}

func mixed(num, den int) string {
	g := gcd(num, den)
	num, den = num/g, den/g
	switch {
	case den == 1:
		return strconv.Itoa(num)
	case num > den:
		return fmt.Sprintf("%d %d/%d", num/den, num%den, den)
	}
	return fmt.Sprintf("%d/%d", num, den)
}

func plural(unit string, many bool) string {
	if unit == "cup" && many {
		return "cups"
	}
	return unit
}

func gcd(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
