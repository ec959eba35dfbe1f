package kitchen_test

import (
	"reflect"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"pgregory.net/rapid"

	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/kitchen/kitchentest"
)

// sound is an invented book that nothing is wrong with.
const sound = `
kitchen: {name: Mill Lane, air: 21 °C, altitude: 900 ft, ice: 80 lb, energy: {gas: $1.40/therm, electricity: $0.18/kWh}}
people:
  ann: {name: Ann, shift: {from: 06:30, to: 15:00, breaks: [{from: 10:00, to: 10:15}, {from: 12:00, to: 12:30}]}, wage: $19.50/h}
suppliers:
  mill: {name: the mill}
ingredients:
  lentil: {name: red lentils, food: "16144", density: 0.85 kg/L, buy: [{supplier: mill, pack: 25 lb, price: $31}], allergens: none}
  onion: {name: onion, food: "11282", measures: {each: 110 g}, trim: 10 %, buy: [{supplier: mill, pack: 50 lb, price: $28}], allergens: none}
  sauce:
    name: fish sauce
    analysis: {water: 70, protein: 5, fat: 0, carbohydrate: 4, ash: 21, source: supplier's sheet}
    measures: {"cup, strained": 280 g}
    buy: [{supplier: mill, pack: 1 kg, price: $9}]
    contains: [{name: anchovies, allergens: ["fish: anchovy"]}, {name: salt, allergens: none}]
    allergens: ["fish: anchovy"]
  water: {name: water, analysis: {water: 100, protein: 0, fat: 0, carbohydrate: 0, ash: 0, source: tap}, density: 1 kg/L, free: true, allergens: none}
equipment:
  pot: {name: 60 qt pot, kind: vessel, count: 3, volume: 60 qt, working: 80 %, diameter: 16 in, needs: [burner]}
  burner: {name: burner, kind: burner, count: 4, power: 30000 Btu/h, efficiency: 40 %}
  jar: {name: blender, kind: blender, count: 1, volume: 4 L, working: 50 %}
  oven: {name: oven, kind: oven, count: 1, places: 6}
  board: {name: board, kind: table, count: 2}
chilling:
  bath: {name: ice bath, method: stirred bath, medium: 1 °C, count: 2, vessel: pot, wall: 110 W/m2K, set-up: 5 min, tending: 25 %}
  stages: {name: bath then pans, method: in stages, first: bath, until: 70 °F, then: pans}
  stick: {name: paddles, method: stirred bath, in: still-air, count: 1, vessel: pot, paddles: {count: 4, water: 3.6 kg, length: 18 in, diameter: 4 in, from: 0 °F}}
  pans: {name: pans, method: shallow pans, medium: 3 °C, count: 30, length: 20 in, width: 12 in, depth: 2 in, top: 20 W/m2K}
media:
  still-air: {low: 5 W/m2K, usual: 7 W/m2K, high: 9 W/m2K, note: "log of 3 March"}
freezers:
  chest: {name: chest, count: 2, volume: 700 L, air: -20 °C, cooling: 130 W, film: 8 W/m2K, holds: 100 lb, room: 800 lb}
bags:
  small: {name: 6 x 9, length: 8 in, width: 6 in, price: $0.11, stock: 500}
dishes:
  dal:
    name: dal
    steps:
      - {id: chop, do: Chop., use: [{of: onion, amount: 10 each}], in: board, pace: 6 min/kg, gives: [{id: chopped}, {id: peel, takes: 8 %, by-product: true}]}
      - {id: stock, do: Boil the peel out., use: [{from: peel, take: all}, {of: water, amount: 2 L}], in: pot, heat-to: 100 °C, time: 1 h, loses: {open: true}}
      - id: simmer
        do: Simmer.
        use:
          - {of: lentil, amount: 4 kg}
          - {of: water, amount: 12 L}
          - {of: sauce, amount: "1/2 cup, strained"}
          - {from: chopped, take: 60 %}
          - {from: stock, amount: 1 kg, or: water}
        make-up: water
        in: [pot]
        heat-to: 100 °C
        time: 40 min
        hands: {start: 5 min, every: 10 min, for: 1 min}
        loses: {evaporation: 8 kg/m2h, residue: 200 g}
      - {id: finish, do: Stir the rest in., stays: true, use: [{from: simmer, take: all}, {from: chopped, take: 40 %}], time: 5 min}
  balls:
    name: lentil balls
    steps:
      - {id: roll, do: Roll., use: [{of: lentil, amount: 2 cups}], in: board, gives: [{id: ball, piece: 30 g}, {id: crumbs, takes: 5 %}]}
packs:
  dal-lb: {name: dal, dish: dal, fill: [{of: finish, mass: 1 lb}], bag: small, pace: 40 s, crew: 2, price: $6.50,
    trials: [{method: microwave, appliance: Warmer 7, power: 900 W, mass: 1 lb, start: -18 °C, time: 9 min, stand: 2 min, spots: [80 °C, 76 °C, 82 °C, 79 °C, 77 °C], who: Ann, date: 2026-11-20}]}
  balls-six: {name: six balls, dish: balls, fill: [{of: ball, pieces: 6}, {of: crumbs, mass: 50 g}], bag: small, pace: 60 s}
runs:
  tuesday: {day: 2026-12-01, want: [{pack: dal-lb, count: 40}, {dish: balls, use: {of: lentil, amount: 9 kg}, mix: {balls-six: 1}}, {dish: dal, fill-vessel: pot}], reserve: 3 %}
`

func known(ndb string) bool { return ndb == "16144" || ndb == "11282" }

func check(t *testing.T, text string) finding.List {
	t.Helper()
	l := bookfile.Read(fstest.MapFS{"book.yaml": {Data: []byte(text)}})
	if len(l.Findings) != 0 {
		t.Fatalf("the book cannot be read: %v", l.Findings)
	}
	return l.Place(kitchen.Check(l.Book, known))
}

func TestNothingIsWrongWithASoundBook(t *testing.T) {
	for _, f := range check(t, sound) {
		t.Errorf("%s %s: %s", f.Code, f.Path, f)
	}
}

// found is what one change to the sound book must give, and nothing else that is as grave: code, path, words of the message, words of the fix.
type found struct {
	code         kitchen.Code
	path         string
	message, fix string
}

type slip struct{ old, new string }

type slipCase struct {
	slip
	want []found
}

func testSlips(t *testing.T, severity finding.Severity, cases []slipCase) {
	t.Helper()
	testSlipsIn(t, sound, severity, cases)
}

// testSlipsIn makes the changes to another book that nothing is wrong with.
func testSlipsIn(t *testing.T, sound string, severity finding.Severity, cases []slipCase) {
	t.Helper()
	for _, c := range cases {
		t.Run(c.new, func(t *testing.T) {
			if strings.Count(sound, c.old) != 1 {
				t.Fatalf("%q stands %d times in the sound book", c.old, strings.Count(sound, c.old))
			}
			got := check(t, strings.Replace(sound, c.old, c.new, 1))
			got = slices.DeleteFunc(got, func(f finding.Finding) bool { return f.Severity < severity }) // what follows from it
			for _, w := range c.want {
				i := slices.IndexFunc(got, func(f finding.Finding) bool { return f.Code == string(w.code) && f.Path == w.path })
				if i < 0 {
					t.Errorf("want %s at %s, got\n%s", w.code, w.path, show(got))
					continue
				}
				f := got[i]
				if !strings.Contains(f.Message, w.message) || !strings.Contains(f.Fix, w.fix) {
					t.Errorf("want message %q, fix %q, got %s", w.message, w.fix, f)
				}
				if f.Severity != severity || f.Where == "" || f.Fix == "" || f.At == nil {
					t.Errorf("severity %s, where %q, at %v", f.Severity, f.Where, f.At)
				}
			}
			if len(got) != len(c.want) {
				t.Errorf("want %d findings, got\n%s", len(c.want), show(got))
			}
		})
	}
}

func show(l finding.List) string {
	var b strings.Builder
	for _, f := range l {
		b.WriteString(f.Code + " " + f.Path + ": " + f.String() + "\n")
	}
	return b.String()
}

// Whatever stands in a book: no panic, and the same findings twice.
func TestCheckAnyBook(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		book := kitchentest.Book(t)
		first := kitchen.Check(book, known)
		if again := kitchen.Check(book, known); !reflect.DeepEqual(first, again) {
			t.Errorf("first\n%s\nthen\n%s", show(first), show(again))
		}
		for _, f := range first {
			if f.Code == "" || f.Path == "" || f.Message == "" || f.Fix == "" {
				t.Errorf("a finding that says too little: %+v", f)
			}
		}
	})
}
