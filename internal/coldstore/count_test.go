package coldstore_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

func scanned(t testing.TB, s *lots.State, place record.Place, scans ...string) coldstore.Tally {
	t.Helper()
	tally := coldstore.Tally{Place: place}
	for _, scan := range scans {
		var err error
		if tally, _, err = tally.Scan(s, scan, unit.Metric); err != nil {
			t.Fatalf("%s: %v", scan, err)
		}
	}
	return tally
}

// A day of taking stock, by hand: of packs 21 to 40 in the upright, 25 and 26 are missing; pack 3, which should be in the chest, is found, and
// pack 22, which the cafe got. A pack is worth $1.00: 16 kg of carrots at $1.50 and 10 kg of broth at $2.00 made 22 kg of soup, of 500 g each.
func TestTakingStock(t *testing.T) {
	come := append(day(t), record.HandedOver{Customer: "cafe", Lot: "P-1", Numbers: nos(t, "21-22")},
		record.Received{Lot: "R-3", Ingredient: "ice", Supplier: "farm", Mass: 4 * kg, Place: "upright"},
		record.Received{Lot: "R-4", Ingredient: "peas", Supplier: "farm", Mass: 4 * kg, Paid: 8_000_000, Place: "upright"})
	s, _ := told(t, come...)
	tally := scanned(t, s, "upright", "P-1#23", "P-1#24", "P-1#27-40", "P-1 #3", "p-1#22", "R-4 3 kg")
	d := tally.Against(s, nil)
	var got []string
	for _, l := range d.Lines {
		got = append(got, fmt.Sprintf("%s looked %t missing %s extra %s (%s) off %s worth %s %s", l.Lot.ID, l.Looked, l.Missing, l.Extra, l.Elsewise, l.Off, l.Worth.Money, l.Worth.By))
	}
	want := []string{
		"P-1 looked true missing 25-26 extra 3, 22 (3 at chest/bottom; 22 handed over to cafe) off 0 kg worth 0.00 as paid for what went into it",
		"R-4 looked true missing  extra  () off -1 kg worth -2.00 as paid for it",
		"R-3 looked false missing  extra  () off -4 kg worth 0.00 not known",
	}
	if strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("lines\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	if d.Lost != 2 || d.Extra != 2 || d.Short != 6*kg || d.Over != kg || d.ShortWorth != 4_000_000 || d.OverWorth != 2_000_000 || d.NotPriced != 1 || d.Unlooked != 1 {
		t.Errorf("in all %+v", d)
	}
	if got, want := says(tally.Entries(s)), "counted 18 packs (no. 3, 22-24, 27-40) of P-1 at upright; counted nothing of R-3 at upright; counted 3 kg of R-4 at upright"; got != want {
		t.Errorf("enters %s\nwant %s", got, want)
	}
	s, _ = told(t, append(come, tally.Entries(s)...)...)
	if here := s.Lot("P-1").Here["upright"].Numbers.String(); here != "3, 22-24, 27-40" || s.Lot("P-1").Missing.String() != "25-26" {
		t.Errorf("after it: %s there, %s missing", here, s.Lot("P-1").Missing)
	}
	again := scanned(t, s, "upright", tally.Texts()...)
	if d := again.Against(s, nil); d.Lost+d.Extra+int64(d.Unlooked)+int64(d.Short+d.Over) != 0 {
		t.Errorf("counted a second time, there is a difference: %+v", d)
	}
}

// A pack without a price in the records is worth what it is sold for, if the book says that.
func TestWorthAsSold(t *testing.T) {
	bodies := day(t)
	r := bodies[0].(record.Received)
	r.Paid = 0
	bodies[0] = r
	s, _ := told(t, bodies...)
	price := func(l *lots.Lot) unit.Money { return map[string]unit.Money{"soup-500": 6_500_000}[l.What] }
	for _, c := range []struct {
		lot   record.Lot
		m     unit.Mass
		packs int64
		want  coldstore.Worth
	}{
		{"P-1", kg, 2, coldstore.Worth{Money: 13_000_000, By: coldstore.AsSold, Sold: 13_000_000}}, {"M-1", kg, 0, coldstore.Worth{By: coldstore.NotKnown}},
		{"R-2", kg, 0, coldstore.Worth{Money: 2_000_000, By: coldstore.AsPaid}}, {"P-1", 0, 0, coldstore.Worth{}},
	} {
		if got := coldstore.NewPricer(s, price).Worth(s.Lot(c.lot), c.m, c.packs); got != c.want {
			t.Errorf("%s of %s: %+v, want %+v", c.m, c.lot, got, c.want)
		}
	}
}

// A bad scan says what is wrong in plain words and leaves the count as it was.
func TestBadScans(t *testing.T) {
	s, _ := told(t, append(day(t), record.Received{Lot: "R-3", Ingredient: "ice", Supplier: "farm", Mass: 4 * kg, Place: "upright"})...)
	tally := scanned(t, s, "upright", "P-1#21-23", "R-3 none")
	for scan, want := range map[string]string{
		"P-1#22":        "pack 22 of lot P-1 found before",
		"P-1#20-22":     "packs 21-22 of lot P-1 found before",
		"P-1 next 2":    "packs 21-22 of lot P-1 found before",
		"P-1#41":        "lot P-1 has no pack 41: its packs are 1-40",
		"P-1":           "which packs of lot P-1?",
		"P-1 12":        "which packs of lot P-1?",
		"P-1 next 0":    "which packs of lot P-1?",
		"P-1 none":      "packs of lot P-1 found before",
		"R-3":           "lot R-3 is in bulk: how much of it is there?",
		"R-3 0":         "lot R-3 is in bulk: how much of it is there?",
		"R-3 a bit":     "lot R-3 is in bulk: how much of it is there?",
		"P-7#1":         `no entry names a lot "P-7#1"`,
		"4006381333931": `no entry names a lot "4006381333931"`,
		"":              "there is no code",
	} {
		after, _, err := tally.Scan(s, scan, unit.Metric)
		r := (*coldstore.Refusal)(nil)
		if !errors.As(err, &r) || r.Problem != want || r.Fix == "" {
			t.Errorf("%q: %v, want %s", scan, err, want)
		}
		if strings.Join(after.Texts(), "|") != "P-1#21-23|R-3 none" {
			t.Errorf("%q left %q", scan, after.Texts())
		}
	}
	if after, lot, err := tally.Scan(s, "r-3 2 lb 3 oz", unit.Metric); err != nil || lot != "R-3" {
		t.Errorf("weighed after all: %v", err)
	} else if f, _ := after.Of("R-3"); f.Mass != 2*unit.Pound+3*unit.Ounce || f.Nothing {
		t.Errorf("weighed after all: %+v", f)
	}
	if got := tally.Without("P-1").Texts(); len(got) != 1 || len(tally.Texts()) != 2 {
		t.Errorf("without P-1: %q", got)
	}
}
