package app

import (
	"errors"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/packlabel"
	"kettlefrost/internal/record"
)

// The sum of what was printed less what was printed in place of others is what is told, and no label is printed beyond the packs without a reason,
// in whatever order entries come.
func TestNoLabelGoesMissingUnseen(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := &LabelMade{Ask: LabelAsk{Pack: "soup", Lot: "P-1"}}
		packs := rapid.Int64Range(1, 40).Draw(t, "packs")
		p := &LabelsPrinted{of: map[record.Lot][]LabelPrint{}}
		var first, again int64
		for i := range rapid.IntRange(1, 12).Draw(t, "times") {
			job := LabelJob{Count: rapid.Int64Range(1, 30).Draw(t, "count"), Why: rapid.SampledFrom([]string{"", "torn"}).Draw(t, "why")}
			bodies, err := m.Print(job, p.Count("P-1", packs))
			if beyond := job.Count - (packs - first); beyond > 0 && job.Why == "" {
				if err == nil {
					t.Fatalf("%d labels beyond the packs, and no reason", beyond)
				}
				continue
			}
			if err != nil {
				t.Fatal(err)
			}
			sum := int64(0)
			for k, b := range bodies {
				l := b.(record.Labelled)
				sum += l.Count
				if l.Reprint {
					again += l.Count
				} else {
					first += l.Count
				}
				e, err := record.Say(record.ID{byte(i + 1), byte(k)}, record.Instant(rapid.Int64Range(1, 9).Draw(t, "at")), "Ada", "test", b)
				if err != nil {
					t.Fatal(err) // a body that Print makes agrees with itself
				}
				if found := p.take(e); len(found) > 0 {
					t.Fatal(found)
				}
			}
			if sum != job.Count {
				t.Fatalf("%d labels are entered, %d asked for", sum, job.Count)
			}
		}
		if c := p.Count("P-1", packs); c.Printed != first+again || c.Replaced != again || c.Standing != first || c.Difference != first-packs || c.Difference > 0 {
			t.Fatalf("%+v: %d printed first, %d again", c, first, again)
		}
		for i, all := 1, p.Of("P-1"); i < len(all); i++ {
			if all[i].At < all[i-1].At {
				t.Fatal("not in the order in which they were printed")
			}
		}
	})
}

// A draft, a lot on hold, a label that is withheld and one of a lot with something strange in it are never printed.
func TestWhatIsNeverPrinted(t *testing.T) {
	stop := finding.List{{Code: packlabel.CodeAllergens, Severity: finding.Stop, Where: "ingredient salt", Message: "nobody has answered", Fix: "answer"}}
	for name, m := range map[string]*LabelMade{
		"a draft":          {Ask: LabelAsk{Pack: "soup"}},
		"a lot on hold":    {Ask: LabelAsk{Lot: "P-1"}, Held: []LabelHold{{Why: "cooled too slowly"}}},
		"some of it held":  {Ask: LabelAsk{Lot: "P-1"}, Held: []LabelHold{{Numbers: "3-5", Why: "a loose seal"}}},
		"withheld":         {Ask: LabelAsk{Lot: "P-1"}, Label: packlabel.Label{Open: stop}},
		"strange in a lot": {Ask: LabelAsk{Lot: "P-1"}, Found: stop},
	} {
		_, errPrint := m.Print(LabelJob{Count: 1}, LabelCount{Packs: 1, Difference: -1})
		_, errSheets := m.Sheets(1, Onto{}, 0)
		if a, b := new(LabelStop), new(LabelStop); !errors.As(errPrint, &a) || !errors.As(errSheets, &b) || a.Problem == "" || a.Fix == "" && len(m.Held) == 0 {
			t.Errorf("%s: %v, %v", name, errPrint, errSheets)
		}
	}
}

func TestLabelsByTheirSize(t *testing.T) {
	for text, wide := range map[string]float64{"4 x 6 in": 101.6, "100 x 150 mm": 100, "80 x 50": 80, " 4  X 6 IN": 101.6, "": 0} {
		if s, err := stockNamed(text); err != nil || s.WideMm < wide-0.001 || s.WideMm > wide+0.001 {
			t.Errorf("%q: %v %v", text, s, err)
		}
	}
	for _, text := range []string{"big", "4 x", "NaN x NaN mm", "1 x 1 mm", "-4 x 6 in", "9999 x 20 mm"} {
		if s, err := stockNamed(text); err == nil {
			t.Errorf("%q: %v", text, s)
		}
	}
}

// A lot that waits for nothing but a look at its label is labelled; whatever else holds it stops that.
func TestALabelIsPrintedToBeLookedAt(t *testing.T) {
	for _, c := range []struct {
		points []string
		only   bool
	}{{[]string{"mon/P-1/label=missing"}, true}, {nil, false}, {[]string{"mon/soup/chill/1/cooling=missing"}, false}, {[]string{"mon/P-1/label=missing", "mon/soup/chill/1/cooling=fail"}, false}, {[]string{"label/P-1/frozen=missing"}, false}} {
		if got := forItsLabel(lots.Hold{Points: c.points}); got != c.only {
			t.Errorf("%v: %v", c.points, got)
		}
	}
}
