package coldstore_test

import (
	"slices"
	"strings"
	"testing"

	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

const kg = unit.Kilogram

// told folds bodies that happened a minute apart.
func told(t testing.TB, bodies ...record.Body) (*lots.State, finding.List) {
	t.Helper()
	var entries []record.Entry
	for i, b := range bodies {
		e, err := record.Say(record.ID{1, byte(i >> 8), byte(i)}, record.Instant(1_790_000_000_000+60_000*i), "Ada", "tablet", b)
		if err != nil {
			t.Fatal(err)
		}
		e.Seq = uint64(i + 1)
		entries = append(entries, e)
	}
	return lots.Of(slices.Values(entries))
}

func nos(t testing.TB, text string) record.Numbers {
	t.Helper()
	n, err := record.ParseNumbers(text)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// rooms are a chest with a basket over its bottom, an upright and a walk-in.
func rooms() coldstore.Layout {
	return coldstore.NewLayout([]coldstore.Place{
		{ID: "chest/bottom", Name: "bottom", Room: 20 * kg, Volume: 50 * unit.Litre, Reach: 2},
		{ID: "chest", Name: "chest freezer", Kind: coldstore.Frozen, Room: 30 * kg},
		{ID: "chest/basket", Name: "basket", Room: 10 * kg},
		{ID: "upright", Name: "upright freezer", Kind: coldstore.Frozen, Room: 50 * kg, Volume: 100 * unit.Litre},
		{ID: "walk-in", Name: "walk-in", Kind: coldstore.Chilled, Room: 100 * kg},
	})
}

// day is a day in this kitchen: carrots and stock come, soup is made of them and packed, and half of it put into the upright.
func day(t testing.TB) []record.Body {
	return []record.Body{
		record.Received{Lot: "R-1", Ingredient: "carrot", Supplier: "farm", Mass: 20 * kg, Paid: 30_000_000, Place: "walk-in", UseBy: "2026-12-09"},
		record.Received{Lot: "R-2", Ingredient: "broth", Supplier: "farm", Mass: 10 * kg, Paid: 20_000_000, Place: "walk-in"},
		record.Used{Run: "tue", Dish: "soup", Lot: "R-1", Mass: 16 * kg},
		record.Used{Run: "tue", Dish: "soup", Lot: "R-2", Mass: 10 * kg},
		record.Made{Run: "tue", Dish: "soup", Output: "soup", Lot: "M-1", Mass: 22 * kg},
		record.Packed{Run: "tue", Pack: "soup-500", Lot: "P-1", Numbers: nos(t, "1-40"), Label: 500 * unit.Gram, Mass: 20 * kg, From: []record.Part{{Lot: "M-1", Mass: 20 * kg}}, BestBefore: "2027-06-01", Place: "chest/bottom"},
		record.Moved{Lot: "P-1", Numbers: nos(t, "21-40"), To: "upright"},
		record.Held{Lot: "P-1", Numbers: nos(t, "38-40"), Why: "seal looks weak"},
	}
}

func TestWhatIsWhere(t *testing.T) {
	s, _ := told(t, day(t)...)
	store := coldstore.Look(rooms(), s, "2026-12-01", nil)
	for _, want := range []struct {
		id                record.Place
		net, all, fits    unit.Mass
		packs, allPacks   int64
		mass              unit.Mass // left by mass
		depth, lots, held int
	}{
		// The chest has room for 30 kg, its bottom for 20 kg and 50 L: at 0.56 kg/L that is 28 kg, so that the mass decides.
		{id: "chest", all: 10 * kg, allPacks: 20, mass: 20 * kg, fits: 20 * kg},
		{id: "chest/basket", mass: 10 * kg, fits: 10 * kg, depth: 1},
		{id: "chest/bottom", net: 10 * kg, all: 10 * kg, packs: 20, allPacks: 20, mass: 10 * kg, fits: 10 * kg, depth: 1, lots: 1},
		{id: "upright", net: 10 * kg, all: 10 * kg, packs: 20, allPacks: 20, mass: 40 * kg, fits: 40 * kg, lots: 1, held: 3},
		{id: "walk-in", net: 4 * kg, all: 4 * kg, mass: 96 * kg, fits: 96 * kg, lots: 1},
		{id: "", net: 2 * kg, all: 2 * kg, lots: 1}, // of the soup that was made, what was not packed
	} {
		got, ok := store.Spot(want.id)
		fits, known := store.Fits(want.id)
		if !ok || got.Net != want.net || got.All != want.all || got.Packs != want.packs || got.AllPacks != want.allPacks || got.Rest.Mass != want.mass || got.Depth != want.depth || got.Lots != want.lots || fits != want.fits || known != (want.id != "") {
			t.Errorf("%q: %+v, fits %s (%t); want %+v", want.id, got, fits, known, want)
		}
		held := int64(0)
		for _, g := range got.Goods {
			held += g.Held.Count()
		}
		if held != int64(want.held) {
			t.Errorf("%q: %d packs held, want %d", want.id, held, want.held)
		}
	}
	var order []string
	for _, g := range store.OldestFirst() {
		mark := ""
		if g.Oldest {
			mark = " first"
		}
		order = append(order, string(g.Lot.ID)+" "+string(g.Place)+mark)
	}
	if want := []string{"R-1 walk-in first", "P-1 chest/bottom first", "P-1 upright", "M-1  first"}; !slices.Equal(order, want) {
		t.Errorf("the oldest first: %q, want %q", order, want)
	}
	if name := store.Layout.FullName("chest/bottom"); name != "chest freezer, bottom" {
		t.Errorf("full name %q", name)
	}
}

// What is held is not the oldest to go first, nor what is past its day.
func TestTheOldestThatMayGo(t *testing.T) {
	packed := func(lot record.Lot, best record.Day) record.Packed {
		return record.Packed{Run: "tue", Pack: "soup", Lot: lot, Numbers: nos(t, "1-10"), Label: kg, Mass: 10 * kg, From: []record.Part{{Lot: "M", Mass: 10 * kg}}, BestBefore: best, Place: "upright"}
	}
	s, _ := told(t, packed("P-1", "2026-11-30"), packed("P-2", "2026-12-10"), packed("P-3", "2026-12-01"), packed("P-4", "2027-01-01"), record.Held{Lot: "P-3", Why: "x"})
	got := map[record.Lot]coldstore.Goods{}
	for _, g := range coldstore.Look(rooms(), s, "2026-12-01", nil).OldestFirst() {
		got[g.Lot.ID] = g
	}
	for lot, want := range map[record.Lot][3]bool{"P-1": {true, false, false}, "P-3": {false, true, false}, "P-2": {false, false, true}, "P-4": {}} {
		if g := got[lot]; [3]bool{g.Past, g.Kept, g.Oldest} != want {
			t.Errorf("%s: past %t, kept %t, oldest %t; want %v", lot, g.Past, g.Kept, g.Oldest, want)
		}
	}
}

func TestFindingsAboutPlaces(t *testing.T) {
	s, _ := told(t,
		record.Received{Lot: "R-1", Ingredient: "cod", Supplier: "farm", Mass: 31 * kg, Place: "chest", UseBy: "2026-11-30"},
		record.Received{Lot: "R-2", Ingredient: "cod", Supplier: "farm", Mass: kg, Place: "walk-in", BestBefore: "2026-11-01"},
		record.Received{Lot: "R-3", Ingredient: "salt", Supplier: "farm", Mass: kg, Place: "shed"},
		record.Received{Lot: "R-4", Ingredient: "salt", Supplier: "farm", Mass: kg},
		record.Received{Lot: "R-5", Ingredient: "peas", Supplier: "farm", Mass: 60 * kg, Place: "upright"}, // 107 L of 100, and 60 kg of 50
	)
	keep := func(l *lots.Lot) coldstore.Kind {
		return map[string]coldstore.Kind{"cod": coldstore.Frozen, "peas": coldstore.Frozen, "salt": coldstore.Dry}[l.What]
	}
	store := coldstore.Look(rooms(), s, "2026-12-01", keep)
	var got []string
	for _, f := range store.Findings(unit.Metric) {
		got = append(got, f.Severity.String()+" "+f.Code+" "+f.Where)
	}
	want := []string{"stop past-its-day place chest", "caution place-overfull place chest", "caution place-overfull place upright", "caution place-overfull place upright", "caution past-its-day place walk-in", "caution kept-too-warm place walk-in", "note place-not-told no place", "note place-unlisted place shed"}
	if !slices.Equal(got, want) {
		t.Errorf("found\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	up, _ := store.Spot("upright")
	if up.Rest.Mass != 0 || up.Rest.OverMass != 10*kg || up.Rest.Volume != 0 || up.Rest.OverVolume.L() < 7.1 || up.Rest.OverVolume.L() > 7.2 {
		t.Errorf("the upright has left %+v", up.Rest)
	}
}

// A cubic foot is 28.316846592 L and a pound 0.45359237 kg (NIST Handbook 44): 35 lb a cubic foot are 0.5606 kg/L.
func TestTheFreezerRule(t *testing.T) {
	if rule, got := 35*unit.Pound.Kg()/28.316846592, float64(coldstore.StowOf(coldstore.Frozen).Usual); rule-got > 0.005 || got-rule > 0.005 {
		t.Errorf("a litre of freezer takes %g kg, the rule says %g", got, rule)
	}
}

func TestFindingAPlace(t *testing.T) {
	l := rooms()
	for text, want := range map[string]record.Place{"chest/basket": "chest/basket", " CHEST/Basket ": "chest/basket", "basket": "chest/basket", "Upright freezer": "upright", "chest freezer, bottom": "chest/bottom", "attic": ""} {
		if p, ok := l.Find(text); p.ID != want || ok != (want != "") {
			t.Errorf("%q is %q, want %q", text, p.ID, want)
		}
	}
}
