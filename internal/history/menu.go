package history

import "kettlefrost/internal/unit"

// dish is what is cooked. The names are those of the demo book, so that a page finds them there; the shares are invented.
type dish struct {
	name    string
	needs   []need
	sauce   int // so many of the first needs are made into a sauce of their own first
	packs   []pack
	steps   []string
	getsAll bool // each step has two loads
}

// need is so many of a thousand parts of what goes in.
type need struct {
	ingredient string
	parts      int64
}

type pack struct {
	name  string
	label unit.Mass
	price unit.Money
	parts int // of all packs of the dish
}

// good is how an ingredient is bought.
type good struct {
	supplier, pack string
	mass           unit.Mass // of one pack
	price          unit.Money
	place          string
	keeps          int // days
}

const dollar = unit.MoneyUnit

var menu = []dish{
	{"ale-cheddar", []need{{"leek", 120}, {"onion", 150}, {"butter", 60}, {"flour", 50}, {"ale", 180}, {"milk", 260}, {"cheddar", 170}, {"salt", 10}}, 0,
		[]pack{{"ale-cheddar-lb", unit.Pound, 9 * dollar, 1}}, []string{"cut", "sweat", "thicken", "melt"}, true},
	{"bean-pot", []need{{"bacon", 110}, {"white-bean", 240}, {"onion", 180}, {"carrot", 160}, {"celery", 120}, {"tomato-paste", 70}, {"vegetable-broth", 110}, {"salt", 10}}, 0,
		[]pack{{"bean-pot-2lb", 2 * unit.Pound, 13_500_000, 1}}, []string{"soak", "render", "sweat", "simmer", "finish"}, false},
	{"lentil-squash", []need{{"red-lentil", 260}, {"butternut", 380}, {"onion", 130}, {"coconut-milk", 170}, {"ginger", 30}, {"garlic", 20}, {"salt", 10}}, 0,
		[]pack{{"lentil-squash-lb", unit.Pound, 8 * dollar, 2}, {"lentil-squash-2lb", 2 * unit.Pound, 15 * dollar, 1}}, []string{"cut", "bloom", "simmer"}, true},
	{"mushroom-filling", []need{{"crimini", 520}, {"chestnut", 190}, {"leek", 140}, {"butter", 70}, {"crumbs", 60}, {"parsley", 10}, {"salt", 10}}, 0,
		[]pack{{"mushroom-filling-2lb", 2 * unit.Pound, 18 * dollar, 1}}, []string{"chop", "brown", "bind"}, false},
	{"turkey-meatballs", []need{{"crushed-tomato", 260}, {"fennel", 110}, {"olive-oil", 30}, {"turkey", 430}, {"crumbs", 80}, {"egg", 60}, {"garlic", 20}, {"salt", 10}}, 3,
		[]pack{{"meatballs-six", 12 * unit.Ounce, 11 * dollar, 3}, {"tomato-fennel-lb", unit.Pound, 6 * dollar, 1}}, []string{"mix", "shape", "roast", "simmer"}, true},
}

var market = map[string]good{
	"leek": {"hillside", "20 lb box", 20 * unit.Pound, 34 * dollar, "walk-in", 10}, "onion": {"hillside", "50 lb sack", 50 * unit.Pound, 27_500_000, "dry store", 60},
	"butter": {"cold-brook", "36 lb case", 36 * unit.Pound, 118 * dollar, "walk-in", 60}, "flour": {"pantry-depot", "50 lb sack", 50 * unit.Pound, 21 * dollar, "dry store", 200},
	"ale": {"pantry-depot", "keg", 58 * unit.Kilogram, 140 * dollar, "walk-in", 40}, "milk": {"cold-brook", "5 gal bag", 19 * unit.Kilogram, 22 * dollar, "walk-in", 12},
	"cheddar": {"cold-brook", "40 lb block", 40 * unit.Pound, 162 * dollar, "walk-in", 60}, "salt": {"pantry-depot", "25 lb bag", 25 * unit.Pound, 9 * dollar, "dry store", 900},
	"bacon": {"cold-brook", "15 lb case", 15 * unit.Pound, 71 * dollar, "walk-in", 20}, "white-bean": {"pantry-depot", "50 lb sack", 50 * unit.Pound, 56 * dollar, "dry store", 365},
	"carrot": {"hillside", "25 lb sack", 25 * unit.Pound, 19_800_000, "walk-in", 30}, "celery": {"hillside", "40 lb box", 40 * unit.Pound, 38 * dollar, "walk-in", 20},
	"tomato-paste": {"pantry-depot", "case of six cans", 18 * unit.Kilogram, 42 * dollar, "dry store", 700}, "vegetable-broth": {"pantry-depot", "case of twelve", 12 * unit.Kilogram, 36 * dollar, "dry store", 400},
	"red-lentil": {"pantry-depot", "25 lb sack", 25 * unit.Pound, 31 * dollar, "dry store", 365}, "butternut": {"hillside", "40 lb box", 40 * unit.Pound, 33 * dollar, "dry store", 45},
	"coconut-milk": {"pantry-depot", "case of 24 cans", 9600 * unit.Gram, 44 * dollar, "dry store", 700}, "ginger": {"hillside", "10 lb box", 10 * unit.Pound, 24 * dollar, "walk-in", 25},
	"garlic": {"hillside", "5 lb bag", 5 * unit.Pound, 15 * dollar, "dry store", 50}, "crimini": {"hillside", "10 lb box", 10 * unit.Pound, 29 * dollar, "walk-in", 7},
	"chestnut": {"pantry-depot", "case of bags", 8 * unit.Kilogram, 96 * dollar, "dry store", 300}, "crumbs": {"pantry-depot", "20 lb bag", 20 * unit.Pound, 26 * dollar, "dry store", 200},
	"parsley": {"hillside", "5 lb box", 5 * unit.Pound, 18 * dollar, "walk-in", 6}, "crushed-tomato": {"pantry-depot", "case of six cans", 18 * unit.Kilogram, 29 * dollar, "dry store", 700},
	"fennel": {"hillside", "25 lb box", 25 * unit.Pound, 35 * dollar, "walk-in", 12}, "olive-oil": {"pantry-depot", "5 L can", 4580 * unit.Gram, 41 * dollar, "dry store", 400},
	"turkey": {"cold-brook", "40 lb case", 40 * unit.Pound, 132 * dollar, "walk-in", 6}, "egg": {"cold-brook", "20 lb pail", 20 * unit.Pound, 52 * dollar, "walk-in", 20},
}

// freezers are where packs are kept.
var freezers = []string{"chest-1", "chest-2", "walk-in freezer", "upright"}
