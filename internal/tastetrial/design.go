package tastetrial

import (
	"fmt"
	"math/rand/v2"
)

// Design is what a trial consists of.
type Design struct {
	Variants int
	Tasters  int
	Weeks    []int // in which packs are opened, each later than the one before
	Packs    int   // opened of each variant in each week
	Seed     uint64
}

// Serving is what one taster is given at one place of the row. Code is all that may be seen of it.
type Serving struct {
	Week, Taster, Position, Variant, Code int
}

// Layout is a trial laid out.
type Layout struct {
	Servings []Serving // by week, taster and position
	Packs    int       // to be frozen in all
	// Rows is how many orders make a balanced set. Balanced: over the whole trial every variant comes at every position as often, and after
	// every other variant as often; it takes a multiple of Rows servings.
	Rows     int
	Balanced bool
}

// Of is what a code stands for, when scores have been given; not ok for a code of no serving.
func (l Layout) Of(number int) (week, variant int, ok bool) {
	for _, s := range l.Servings {
		if s.Code == number {
			return s.Week, s.Variant, true
		}
	}
	return 0, 0, false
}

// code is what a variant is called in a week. The tasters' sheets, and the pots, bear codes only.
type code struct{ week, variant int }

// Lay lays a trial out: a new code for every variant in every week, and the orders of a Williams square drawn so that each set of
// tasters, going on from week to week, has every order once (Williams 1949). The same design is laid out alike every time. Errors are
// *InputError.
func Lay(d Design) (Layout, error) {
	if err := d.check(); err != nil {
		return Layout{}, err
	}
	source := rand.New(rand.NewPCG(d.Seed, 1))
	codes := d.codes(source)
	names := source.Perm(d.Variants) // which variant is which letter of the square
	square := Williams(d.Variants)
	l := Layout{Rows: len(square), Packs: d.Variants * len(d.Weeks) * d.Packs}
	var left []int
	for w, week := range d.Weeks {
		for taster := range d.Tasters {
			if len(left) == 0 {
				left = source.Perm(len(square))
			}
			row := square[left[0]]
			left = left[1:]
			for position, letter := range row {
				v := names[letter]
				l.Servings = append(l.Servings, Serving{week, taster, position, v, codes[code{w, v}]})
			}
		}
	}
	l.Balanced = len(left) == 0
	return l, nil
}

func (d Design) check() error {
	switch {
	case d.Variants < 2 || d.Variants > mostVariants:
		return &InputError{"the variants", fmt.Sprintf("are %d", d.Variants), fmt.Sprintf("take 2 to %d", mostVariants)}
	case d.Tasters < 1 || d.Tasters > mostPairs:
		return &InputError{"the tasters", fmt.Sprintf("are %d", d.Tasters), fmt.Sprintf("take 1 to %d", mostPairs)}
	case len(d.Weeks) == 0 || d.Variants*len(d.Weeks) > len(goodCodes)/2:
		return &InputError{"the weeks", fmt.Sprintf("are %d", len(d.Weeks)), fmt.Sprintf("take 1 to %d", len(goodCodes)/2/d.Variants)}
	case d.Packs < 1 || d.Packs > 1000:
		return &InputError{"the packs", fmt.Sprintf("are %d", d.Packs), "open 1 to 1000 of each variant in each week"}
	}
	for i, w := range d.Weeks {
		if w < 0 || i > 0 && w <= d.Weeks[i-1] {
			return &InputError{"the weeks", fmt.Sprintf("have %d as number %d", w, i+1), "give weeks from 0 up, each later than the one before"}
		}
	}
	return nil
}

func (d Design) codes(source *rand.Rand) map[code]int {
	drawn := source.Perm(len(goodCodes))
	codes := map[code]int{}
	for w := range d.Weeks {
		for v := range d.Variants {
			codes[code{w, v}] = goodCodes[drawn[len(codes)]]
		}
	}
	return codes
}

// goodCodes are the numbers of three digits that mean nothing to anybody: all three digits different, none of them 0, and not running up or
// down (common practice).
var goodCodes = func() (all []int) {
	for n := 123; n < 1000; n++ {
		a, b, c := n/100, n/10%10, n%10
		if a != b && b != c && a != c && b != 0 && c != 0 && (b-a != c-b || b-a != 1 && b-a != -1) && n != 911 {
			all = append(all, n)
		}
	}
	return all
}()

// Williams is a set of orders of so many treatments, a row for a taster, in which every treatment comes at every position as often and
// after every other one as often: as many rows as treatments, twice as many if they are odd.
func Williams(treatments int) [][]int {
	first := make([]int, treatments)
	for i := range first { // 0, n-1, 1, n-2, ...
		first[i] = i / 2
		if i%2 == 1 {
			first[i] = treatments - 1 - i/2
		}
	}
	var rows [][]int
	for shift := range treatments {
		row := make([]int, treatments)
		for i, x := range first {
			row[i] = (x + shift) % treatments
		}
		rows = append(rows, row)
	}
	if treatments%2 == 1 {
		for _, row := range rows[:treatments:treatments] {
			mirrored := make([]int, treatments)
			for i, x := range row {
				mirrored[treatments-1-i] = x
			}
			rows = append(rows, mirrored)
		}
	}
	return rows
}

// LayTriangles gives each taster an order of a triangle test, two of one variant (0 or 1) and one of the other, so that every set of six
// tasters has all six orders once, with a code of its own for each of the three servings. Errors are *InputError.
func LayTriangles(tasters int, seed uint64) (Layout, error) {
	if tasters < 1 || 3*tasters > len(goodCodes) {
		return Layout{}, &InputError{"the tasters", fmt.Sprintf("are %d", tasters), fmt.Sprintf("take 1 to %d", len(goodCodes)/3)}
	}
	orders := [][]int{{0, 0, 1}, {0, 1, 0}, {1, 0, 0}, {1, 1, 0}, {1, 0, 1}, {0, 1, 1}}
	source := rand.New(rand.NewPCG(seed, 2))
	drawn := source.Perm(len(goodCodes))
	l := Layout{Rows: len(orders)}
	var left []int
	for taster := range tasters {
		if len(left) == 0 {
			left = source.Perm(len(orders))
		}
		for position, v := range orders[left[0]] {
			l.Servings = append(l.Servings, Serving{0, taster, position, v, goodCodes[drawn[len(l.Servings)]]})
		}
		left = left[1:]
	}
	l.Balanced = len(left) == 0
	return l, nil
}
