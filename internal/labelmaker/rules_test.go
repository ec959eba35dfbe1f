package labelmaker

import (
	"math"
	"testing"
)

// Least heights of the net quantity, 21 CFR 101.7(i) (read in the 2015 text of 101.105(i)), in sixteenths of an inch; Directive 76/211/EEC Annex I 3.1,
// in millimetres (from memory); letters by Regulation (EU) No 1169/2011 Art. 13 (read).
func TestLeastHeights(t *testing.T) {
	for _, c := range []struct {
		sqIn, sixteenths float64
	}{{1, 1}, {5, 1}, {5.1, 2}, {25, 2}, {25.1, 3}, {100, 3}, {101, 4}, {400, 4}, {401, 8}} {
		if got := US(c.sqIn).Least[NetQuantity].LetterMm; math.Abs(got-c.sixteenths*25.4/16) > 1e-9 {
			t.Errorf("%g sq in: %g mm", c.sqIn, got)
		}
	}
	for _, c := range []struct{ grams, mm float64 }{{50, 2}, {50.1, 3}, {200, 3}, {201, 4}, {1000, 4}, {1001, 6}} {
		if got := EU(100, c.grams).Least[NetQuantity].LetterMm; got != c.mm {
			t.Errorf("%g g: %g mm", c.grams, got)
		}
	}
	for _, c := range []struct{ cm2, mm float64 }{{79.9, 0.9}, {80, 1.2}, {500, 1.2}} {
		for _, e := range []Element{Ingredients, Contains, Firm, Dates, PanelLine} {
			if got := EU(c.cm2, 100).Least[e].LetterMm; got != c.mm {
				t.Errorf("%g cm2, %v: %g mm", c.cm2, e, got)
			}
		}
	}
}

// Every element has a least height with a source by either set of rules, and what is from memory says so.
func TestEveryElementHasALeast(t *testing.T) {
	for _, r := range []Rules{US(4), US(20), EU(60, 100), EU(100, 680)} {
		for _, e := range Elements() {
			if l := r.Least[e]; l.LetterMm <= 0 && l.TypePt <= 0 || l.Source == "" {
				t.Errorf("%s: %v: %+v", r.Name, e, l)
			}
		}
	}
	if US(20).Least[Ingredients].Confirm == "" || EU(100, 680).Least[Ingredients].Confirm != "" {
		t.Error("what is from memory is not told from what was read")
	}
}

// 1/16 in is 4.5 points; an x of the regular face is 0.530 of its size high, so that type of 8.49 points is the least (worked by hand).
func TestTypeForAHeight(t *testing.T) {
	if got := US(20).size(Ingredients, "water, salt", false); math.Abs(got-4.5/(1086./2048)) > 1e-6 {
		t.Errorf("%g points", got)
	}
	if got := US(20).size(NetQuantity, "NET WT 24 OZ", true); math.Abs(got-9/(1480./2048)) > 1e-6 { // 1/8 in in capitals
		t.Errorf("%g points", got)
	}
	if got := (Rules{}).size(Lot, "x", false); got != smallestPt {
		t.Errorf("without rules %g points", got)
	}
}
