package lots_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/trace"
	"kettlefrost/internal/unit"
)

const kg = unit.Kilogram

// day is a time on an invented day.
func day(minutes int) record.Instant { return 1_780_000_000_000 + record.Instant(minutes)*60_000 }

// diary makes entries of bodies, a minute apart, as Ada told them.
func diary(t testing.TB, bodies ...record.Body) []record.Entry {
	t.Helper()
	var entries []record.Entry
	for i, b := range bodies {
		e, err := record.Say(record.ID{byte(i/250 + 1), byte(i%250 + 1)}, day(i), "Ada", "tablet", b)
		if err != nil {
			t.Fatal(err)
		}
		e.Seq = uint64(i + 1)
		entries = append(entries, e)
	}
	return entries
}

func state(t testing.TB, bodies ...record.Body) (*lots.State, finding.List) {
	t.Helper()
	return lots.Of(slices.Values(diary(t, bodies...)))
}

func packs(t testing.TB, text string) record.Numbers {
	t.Helper()
	n, err := record.ParseNumbers(text)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// soupDay is invented and worked by hand: 20 kg of carrots and 2 kg of onions, of which 16 and 1.5 kg go into a soup of 26 kg (with water, which
// is no lot); 39 packs of 650 g, of which 12 go to a café; half a kilogram stays in the pot and is thrown away.
func soupDay(t testing.TB) []record.Body {
	return []record.Body{
		record.Received{Lot: "R-carrot", Ingredient: "carrot", Supplier: "farm", SupplierLot: "77", Mass: 20 * kg, Place: "walk-in", UseBy: "2026-12-09"},
		record.Received{Lot: "R-onion", Ingredient: "onion", Supplier: "market", Mass: 2 * kg, Place: "dry store"},
		record.Used{Run: "tue", Dish: "soup", Lot: "R-carrot", Mass: 16 * kg},
		record.Used{Run: "tue", Dish: "soup", Lot: "R-onion", Mass: 1500 * unit.Gram},
		record.Made{Run: "tue", Dish: "soup", Output: "soup", Lot: "M-soup", Mass: 26 * kg, Place: "ice bath"},
		record.Packed{Run: "tue", Pack: "soup-650", Lot: "P-soup", Numbers: packs(t, "1-39"), Label: 650 * unit.Gram, Mass: 25_500 * unit.Gram, From: []record.Part{{Lot: "M-soup", Mass: 25_500 * unit.Gram}}, BestBefore: "2027-06-01", Place: "chest-1"},
		record.WrittenOff{Lot: "M-soup", Mass: 500 * unit.Gram, Why: "left in the pot"},
		record.Moved{Lot: "P-soup", Numbers: packs(t, "1-20"), To: "chest-2/shelf 1"},
		record.HandedOver{Order: "O-1", Customer: "cafe", Lot: "P-soup", Numbers: packs(t, "1-12")},
	}
}

// show is the stock in a line each.
func show(s *lots.State) string {
	var lines []string
	for _, x := range s.Stock() {
		text := fmt.Sprintf("%s at %s: ", x.Lot.ID, x.Place)
		if x.Numbers.Empty() {
			text += x.Mass.String()
		} else {
			text += x.Numbers.String()
		}
		if !x.Held.Empty() {
			text += " (held " + x.Held.String() + ")"
		}
		lines = append(lines, text)
	}
	return strings.Join(lines, "\n")
}

func codes(list finding.List) string {
	var all []string
	for _, f := range list {
		all = append(all, f.Code)
	}
	return strings.Join(all, " ")
}

func TestADayByHand(t *testing.T) {
	s, found := state(t, soupDay(t)...)
	if len(found) > 0 {
		t.Errorf("found %v", found)
	}
	const want = "R-carrot at walk-in: 4 kg\nP-soup at chest-1: 21-39\nP-soup at chest-2/shelf 1: 13-20\nR-onion at dry store: 500 g"
	if got := show(s); got != want {
		t.Errorf("on hand\n%s\nwant\n%s", got, want)
	}
	for id, want := range map[record.Lot][5]unit.Mass{ // came, used, on hand, waste, dispatched; nothing is unaccounted
		"R-carrot": {20 * kg, 16 * kg, 4 * kg, 0, 0}, "M-soup": {26 * kg, 25_500 * unit.Gram, 0, 500 * unit.Gram, 0},
	} {
		b, err := s.Balance(id)
		if got := [5]unit.Mass{b.Came, b.Used, b.OnHand, b.Waste, b.Dispatched}; err != nil || got != want || b.Unaccounted != 0 {
			t.Errorf("%s: %v, %s unaccounted (%v), want %v", id, got, b.Unaccounted, err, want)
		}
	}
	if b, err := s.Balance("P-soup"); err != nil || b.Unaccounted != 0 || b.Came != b.OnHand+b.Dispatched {
		t.Errorf("packs: %+v (%v)", b, err)
	}
	back, err := s.Backward("P-soup")
	var names []string
	for _, x := range back {
		if x.Sort != lots.Pot {
			names = append(names, string(x.ID))
		}
	}
	if slices.Sort(names); err != nil || strings.Join(names, " ") != "M-soup P-soup R-carrot R-onion" {
		t.Errorf("went into the packs: %v (%v)", names, err)
	}
	r, err := s.Recall("R-onion")
	if err != nil || r.Made.Count != 39 || r.Found.Count != 39 || !r.Complete() || r.Ratio() != 1 {
		t.Errorf("recall %+v (%v)", r, err)
	}
	var where []string
	for _, l := range r.Lines {
		where = append(where, fmt.Sprintf("%s %s %s", l.State, l.Where, l.Packs))
	}
	if got := strings.Join(where, "; "); got != "on hand chest-1 21-39; on hand chest-2/shelf 1 13-20; handed over cafe 1-12" {
		t.Errorf("the packs are: %s", got)
	}
}

// A pot of 17.5 kg of vegetables and 10 kg of stock gave 26 kg of soup; 0.9 kg were burnt and had no lot: 0.6 kg boiled away or were not written
// down.
func TestWhatIsThrownAwayOfAPot(t *testing.T) {
	s, found := state(t, append(soupDay(t), record.Received{Lot: "R-stock", Ingredient: "stock", Supplier: "market", Mass: 10 * kg},
		record.Used{Run: "tue", Dish: "soup", Lot: "R-stock", Mass: 10 * kg}, record.Wasted{Run: "tue", Dish: "soup", Mass: 900 * unit.Gram, Why: "burnt"})...)
	b, err := s.Balance("pot of soup in tue")
	if err != nil || len(found) > 0 || b.Came != 27_500*unit.Gram || b.Used != 26*kg || b.Waste != 900*unit.Gram || b.Unaccounted != 600*unit.Gram {
		t.Errorf("%+v (%v, %v)", b, err, found)
	}
	if y, err := s.Story("pot of soup in tue"); err != nil || len(y.Events) != 5 {
		t.Errorf("%+v (%v)", y.Events, err)
	}
}

// What does not fit is told, taken as far as it goes, and nothing is lost.
func TestWhatDoesNotFit(t *testing.T) {
	of := func(more ...record.Body) []record.Body { return append(soupDay(t), more...) }
	for _, c := range []struct {
		name   string
		bodies []record.Body
		codes  string
		stock  string // a line that must be there
	}{
		{"a pack scanned twice", of(record.HandedOver{Customer: "bar", Lot: "P-soup", Numbers: packs(t, "12-14")}), lots.CodePackNowhere, "P-soup at chest-2/shelf 1: 15-20"},
		{"a lot used before it came", []record.Body{record.Used{Run: "tue", Dish: "soup", Lot: "R-leek", Mass: kg}, record.Received{Lot: "R-leek", Ingredient: "leek", Supplier: "farm", Mass: 3 * kg}},
			lots.CodeLotUnknown + " " + lots.CodeLotEarly, "R-leek at : 2 kg"},
		{"more used than there is", of(record.Used{Run: "wed", Dish: "stew", Lot: "R-carrot", Mass: 5 * kg}), lots.CodeMoreThan, "R-onion at dry store: 500 g"},
		{"a lot of that name again", of(record.Received{Lot: "R-onion", Ingredient: "leek", Supplier: "farm", Mass: 3 * kg}), lots.CodeLotTwice, "R-onion at dry store: 500 g"},
		{"held, and handed over", of(record.Held{Lot: "P-soup", Numbers: packs(t, "13-15"), Why: "cooled slowly"}, record.HandedOver{Customer: "bar", Lot: "P-soup", Numbers: packs(t, "15")}), lots.CodeHeldTaken, "P-soup at chest-2/shelf 1: 13-14, 16-20 (held 13-14)"},
		{"held, but others go", of(record.Held{Lot: "P-soup", Numbers: packs(t, "13-15"), Why: "cooled slowly"}, record.HandedOver{Customer: "bar", Lot: "P-soup", Numbers: packs(t, "16")}), "", "P-soup at chest-2/shelf 1: 13-15, 17-20 (held 13-15)"},
		{"released", of(record.Held{Lot: "P-soup", Why: "cooled slowly"}, record.Released{Lot: "P-soup", Numbers: packs(t, "1-20"), Disposition: record.ReleaseForUse, Why: "measured again"}), "", "P-soup at chest-1: 21-39 (held 21-39)"},
		{"to be destroyed it stays held", of(record.Held{Lot: "P-soup", Why: "cooled slowly"}, record.Released{Lot: "P-soup", Disposition: record.Destroy, Why: "no doubt"}), "", "P-soup at chest-1: 21-39 (held 21-39)"},
		{"to be reworked it may go into another dish", of(record.Held{Lot: "P-soup", Numbers: packs(t, "13-15"), Why: "torn"}, record.Released{Lot: "P-soup", Numbers: packs(t, "13-15"), Disposition: record.Rework, Why: "cooked again"},
			record.Used{Run: "wed", Dish: "stew", Lot: "P-soup", Numbers: packs(t, "13-14"), Mass: 1300 * unit.Gram}), "", "P-soup at chest-2/shelf 1: 15-20 (held 15)"},
		{"and not to a customer", of(record.Held{Lot: "P-soup", Numbers: packs(t, "13-15"), Why: "torn"}, record.Released{Lot: "P-soup", Numbers: packs(t, "13-15"), Disposition: record.Rework, Why: "cooked again"},
			record.HandedOver{Customer: "bar", Lot: "P-soup", Numbers: packs(t, "13")}), lots.CodeHeldTaken, "P-soup at chest-2/shelf 1: 14-20 (held 14-15)"},
		{"not all found", of(record.Counted{Lot: "P-soup", Place: "chest-1", Numbers: packs(t, "21-30, 32-39")}), lots.CodeStockOff, "P-soup at chest-1: 21-30, 32-39"},
		{"one found that was sold", of(record.Counted{Lot: "P-soup", Place: "chest-1", Numbers: packs(t, "5, 21-39")}), lots.CodePackGone, "P-soup at chest-1: 5, 21-39"},
		{"one found elsewhere", of(record.Counted{Lot: "P-soup", Place: "chest-1", Numbers: packs(t, "13, 21-39")}), "", "P-soup at chest-2/shelf 1: 14-20"},
		{"nothing found", of(record.Counted{Lot: "R-onion", Place: "dry store", Nothing: true}), lots.CodeStockOff, "R-carrot at walk-in: 4 kg"},
		{"brought back warm", of(record.Returned{Customer: "cafe", Lot: "P-soup", Numbers: packs(t, "1-2"), Why: "too many", Place: "chest-1"}), "", "P-soup at chest-1: 1-2, 21-39 (held 1-2)"},
		{"brought back by another", of(record.Returned{Customer: "bar", Lot: "P-soup", Numbers: packs(t, "1"), Why: "too many", Sound: true}), lots.CodeWrongReturn, "P-soup at chest-1: 21-39"},
		{"into itself", of(record.Made{Run: "tue", Dish: "soup", Output: "rest", Lot: "M-rest", Mass: kg, From: []record.Part{{Lot: "P-soup", Mass: kg}}}, record.Used{Run: "tue", Dish: "soup", Lot: "M-rest", Mass: kg}), lots.CodeMoreThan + " " + lots.CodeLoop, "R-carrot at walk-in: 4 kg"},
		{"packs opened for a stew", of(record.Used{Run: "wed", Dish: "stew", Lot: "P-soup", Numbers: packs(t, "13-14"), Mass: 1300 * unit.Gram}), "", "P-soup at chest-2/shelf 1: 15-20"},
		{"nothing was held", of(record.Released{Lot: "R-onion", Disposition: record.ReleaseForUse, Why: "w"}), lots.CodeNotHeld, "R-onion at dry store: 500 g"},
	} {
		s, found := state(t, c.bodies...)
		if got := codes(found); got != c.codes {
			t.Errorf("%s: found %q, want %q: %v", c.name, got, c.codes, found)
		}
		if got := show(s); !slices.Contains(strings.Split(got, "\n"), c.stock) {
			t.Errorf("%s: on hand\n%s\nwant a line %s", c.name, got, c.stock)
		}
		for _, f := range found {
			if f.Fix == "" || !strings.HasPrefix(f.Path, "entries.") {
				t.Errorf("%s: %+v does not name the entry and a fix", c.name, f)
			}
		}
	}
}

// A pack that is nowhere, and one that is in two places, show in a recall.
func TestARecallIsNotComplete(t *testing.T) {
	s, _ := state(t, append(soupDay(t), record.Counted{Lot: "P-soup", Place: "chest-1", Numbers: packs(t, "5, 21-38")})...)
	r, err := s.Recall("R-carrot")
	if err != nil || r.Complete() || r.Found.Count != 38 || r.Packs[0].Missing.String() != "39" || r.Packs[0].Twice.String() != "5" {
		t.Errorf("%+v (%v)", r.Packs, err)
	}
	if _, err := s.Recall("R-none"); err == nil {
		t.Error("a lot that nobody knows is traced")
	}
	if s.Lot("R-none") != nil {
		t.Error("to ask for a lot made one")
	}
}

// Who has to be told: by the customer's entry, wherever in time it stands, or by the address that went with the packs; else by the short name.
func TestARecallTellsWhomToTell(t *testing.T) {
	day := soupDay(t)
	for _, c := range []struct {
		more []record.Body
		want string
	}{
		{nil, "cafe, "},
		{[]record.Body{record.Customer{Customer: "cafe", Name: "Café Örtlich", Address: "1 Mill Lane\nTown", Phone: "555"}}, "Café Örtlich, 1 Mill Lane, Town, 555"},
		{[]record.Body{record.HandedOver{Customer: "bar", Lot: "P-soup", Numbers: packs(t, "13"), Address: "the pier"}}, "cafe, ; bar, the pier"},
	} {
		s, _ := state(t, append(slices.Clone(day), c.more...)...)
		r, err := s.Recall("R-carrot")
		var got []string
		for _, l := range r.Lines {
			if l.State == trace.Handed {
				got = append(got, l.Where+", "+l.Tell)
			}
		}
		if told := strings.Join(got, "; "); err != nil || told != c.want {
			t.Errorf("%q (%v), want %q", told, err, c.want)
		}
	}
}
