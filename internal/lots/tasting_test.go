package lots_test

import (
	"slices"
	"testing"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// Of 39 packs three are kept to be tasted in a box of their own; one of them is opened. It is waste, as samples are in a recall: the balance of
// the lot holds.
func TestPacksThatAreKeptForTasting(t *testing.T) {
	s, found := state(t, append(soupDay(t),
		record.SetAside{Run: "tue", Pack: "soup-650", Lot: "P-soup", Numbers: packs(t, "37-39"), Open: []record.Day{"2027-01-05", "2027-02-02"}, Place: "chest-1/box T"},
		record.Tasted{Lot: "P-soup", Numbers: packs(t, "38"), Pack: "soup-650", Verdict: record.StillGood})...)
	if len(found) > 0 {
		t.Error(found)
	}
	l := s.Lot("P-soup")
	if got := l.Kept(l.OnHand().Numbers).String(); got != "37, 39" {
		t.Errorf("%s are kept, want 37 and 39", got)
	}
	if l.Tasted.String() != "38" || l.WrittenOff.Numbers.String() != "38" || l.Here["chest-1/box T"].Numbers.String() != "37, 39" {
		t.Errorf("tasted %s, written off %s, in the box %s", l.Tasted, l.WrittenOff.Numbers, l.Here["chest-1/box T"].Numbers)
	}
	b, err := s.Balance("P-soup")
	if err != nil || b.Waste != s.MassOf(l, packs(t, "38")) || b.Unaccounted != 0 {
		t.Errorf("%+v, %v", b, err)
	}
}

func TestWhatDoesNotFitOfTasting(t *testing.T) {
	keep := record.SetAside{Pack: "soup-650", Lot: "P-soup", Numbers: packs(t, "30-31"), Open: []record.Day{"2027-01-05"}}
	taste := func(n string) record.Tasted {
		x := record.Tasted{Lot: "P-soup", Pack: "soup-650", Verdict: record.Fading}
		if n != "" {
			x.Numbers = packs(t, n)
		}
		return x
	}
	for _, c := range []struct {
		name string
		then []record.Body
		want []string
		kept string
	}{
		{"kept packs are handed over", []record.Body{keep, record.HandedOver{Customer: "cafe", Lot: "P-soup", Numbers: packs(t, "30")}}, []string{"kept-taken"}, "31"},
		{"kept packs are cooked again", []record.Body{keep, record.Used{Run: "wed", Dish: "pie", Lot: "P-soup", Numbers: packs(t, "31"), Mass: unit.Kilogram}}, []string{"kept-taken"}, "30"},
		{"packs that left are kept", []record.Body{record.SetAside{Pack: "soup-650", Lot: "P-soup", Numbers: packs(t, "12-13"), Open: []record.Day{"2027-01-05"}}}, []string{"pack-not-here"}, "13"},
		{"opened twice", []record.Body{keep, taste("30"), taste("30")}, []string{"pack-not-here"}, "31"},
		{"written off first", []record.Body{keep, record.WrittenOff{Lot: "P-soup", Numbers: packs(t, "30"), Why: "tasted"}, taste("30")}, nil, "31"},
		{"nobody said which", []record.Body{keep, taste("")}, []string{"tasted-which"}, "30-31"},
		{"one that was not kept", []record.Body{taste("20")}, nil, ""},
	} {
		s, found := state(t, append(soupDay(t), c.then...)...)
		var got []string
		for _, f := range found {
			got = append(got, f.Code)
			if f.Fix == "" || f.Severity < finding.Note {
				t.Errorf("%s: %+v", c.name, f)
			}
		}
		l := s.Lot("P-soup")
		if kept := l.Kept(l.OnHand().Numbers).String(); !slices.Equal(got, c.want) || kept != c.kept {
			t.Errorf("%s: found %v, want %v; %q are kept, want %q", c.name, got, c.want, kept, c.kept)
		}
	}
}
