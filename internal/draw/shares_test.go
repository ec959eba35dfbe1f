package draw

import (
	"math"
	"strings"
	"testing"
)

// threePacks are made up.
func threePacks() Shares {
	return Shares{Title: "Cost of one pack", Desc: "What each pack costs, by what it is spent on.", Rows: []SharesRow{
		{Name: "Squash soup, 2 lb", Total: "$5.10", Marks: []SharesMark{{"price", 9.5, "$9.50"}}, Parts: []SharesPart{{"food", 3.2, "$3.20"}, {"labour", 1.4, "$1.40"}, {"packaging", 0.5, "$0.50"}}},
		{Name: "Lentil stew, 1 lb", Total: "$6.40", Marks: []SharesMark{{"price", 6.0, "$6.00"}}, Parts: []SharesPart{{"food", 1.2, "$1.20"}, {"labour", 4.7, "$4.70"}, {"packaging", 0.5, "$0.50"}, {"energy", 0, "$0.00"}}},
		{Name: "Nothing yet, with a name that is by far too long for one line of a drawing that has to fit on a phone", Total: "$0.00"},
	}}
}

func TestSharesGolden(t *testing.T) {
	golden(t, "testdata/shares.svg", SVG(threePacks().Picture()))
}

func TestSharesSayWhatTheyShow(t *testing.T) {
	narrow := threePacks()
	narrow.Width = 360
	for _, s := range []Shares{threePacks(), narrow} {
		svg := SVG(s.Picture())
		d := read(t, svg)
		for _, want := range []string{"Squash soup, 2 lb", "$5.10", "$9.50", "food", "labour", "packaging", "price"} {
			if !contains(d.texts, want) {
				t.Errorf("no %q among the texts %q", want, d.texts)
			}
		}
		if contains(d.texts, "energy") {
			t.Error("a part that is nothing has a pattern")
		}
		if d.smallest < 16 {
			t.Errorf("type of %g, want 16 or more", d.smallest)
		}
		if !strings.Contains(string(svg), "food: $1.20") {
			t.Error("who points at a part is not told what it is")
		}
	}
}

// Whatever the amounts, every bar ends within the picture and begins at its left.
func TestSharesStayInside(t *testing.T) {
	odd := Shares{Rows: []SharesRow{{Name: "odd", Total: "a total that is rather long", Parts: []SharesPart{{"a", math.NaN(), ""}, {"b", math.Inf(1), ""}, {"c", -3, ""}, {"d", 1e11, ""}, {"e", 1, ""}},
		Marks: []SharesMark{{"m", math.NaN(), "?"}, {"n", 1e13, "too far"}, {"o", 2e11, "200"}}}}}
	for _, wide := range []float64{0, 320, 1200} {
		odd.Width = wide
		p := odd.Picture()
		x := odd.scale(p.Width)
		for _, v := range []float64{0, 1, 1e11, 2e11, math.NaN()} {
			if at := x(v); !(at >= stripLeft && at <= p.Width) {
				t.Errorf("%g is drawn at %g of %g", v, at, p.Width)
			}
		}
		SVG(p)
	}
	SVG(Shares{}.Picture())
}
