package draw

import (
	"slices"
	"strings"
	"testing"

	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// larder is made up: a chest with a basket, an upright with more than there is room for, a place that the book does not have.
func larder(t testing.TB) coldstore.Store {
	t.Helper()
	const kg = unit.Kilogram
	layout := coldstore.NewLayout([]coldstore.Place{{ID: "chest", Name: "chest freezer", Kind: coldstore.Frozen, Room: 30 * kg, Volume: 200 * unit.Litre}, {ID: "chest/basket", Name: "basket", Room: 10 * kg}, {ID: "chest/bottom", Name: "bottom", Room: 20 * kg},
		{ID: "upright", Name: "upright freezer", Kind: coldstore.Frozen, Room: 12 * kg}, {ID: "walk-in", Name: "walk-in", Kind: coldstore.Chilled, Room: 90 * kg}})
	packed := func(lot record.Lot, pack string, numbers string, place record.Place, best record.Day) record.Body {
		n, err := record.ParseNumbers(numbers)
		if err != nil {
			t.Fatal(err)
		}
		return record.Packed{Run: "tue", Pack: pack, Lot: lot, Numbers: n, Label: kg / 2, Mass: unit.Mass(n.Count()) * kg / 2, From: []record.Part{{Lot: "M", Mass: kg}}, BestBefore: best, Place: place}
	}
	bodies := []record.Body{packed("P-1201-1", "soup", "1-9", "chest/bottom", "2027-06-01"), packed("P-1124-1", "soup", "1-12", "chest/bottom", "2027-05-20"), packed("P-0601-1", "stew", "1-3", "chest/bottom", "2026-11-20"),
		packed("P-1201-2", "stew", "1-16", "upright", "2027-06-01"), packed("P-1201-3", "dal", "1-12", "upright", "2027-06-01"), record.Held{Lot: "P-1201-3", Why: "slow"},
		record.Received{Lot: "R-<1>", Ingredient: "carrot & co", Supplier: "farm", Mass: 20 * kg, Place: "shed"}}
	for _, n := range []record.Lot{"P-a", "P-b", "P-c", "P-d", "P-e"} {
		bodies = append(bodies, packed(n, "dip", "1", "chest/basket", "2027-07-01"))
	}
	var entries []record.Entry
	for i, b := range bodies {
		e, err := record.Say(record.ID{1, byte(i)}, record.Instant(1_790_000_000_000+60_000*i), "Ada", "tablet", b)
		if err != nil {
			t.Fatal(err)
		}
		e.Seq = uint64(i + 1)
		entries = append(entries, e)
	}
	s, _ := lots.Of(slices.Values(entries))
	return coldstore.Look(layout, s, "2026-12-01", nil)
}

func TestFreezerMapGolden(t *testing.T) {
	golden(t, "testdata/freezermap.svg", SVG(MapOf(larder(t), unit.Metric).Picture()))
}

func TestFreezerMapSaysWhatItShows(t *testing.T) {
	for _, wide := range []float64{0, 480} {
		m := MapOf(larder(t), unit.Metric)
		m.Width = wide
		text := string(SVG(m.Picture()))
		d := read(t, []byte(text))
		for _, want := range []string{"chest freezer", "bottom", "12 kg, 24 packs, room for 8 kg", "14 kg, 28 packs, 2 kg too much", "P-1124-1", "the oldest of its kind: goes first", "held, or some of it", "past its day", "how much fits is not known"} {
			if !contains(d.texts, want) {
				t.Errorf("%g wide: no %q among the texts %q", wide, want, d.texts)
			}
		}
		if d.smallest < 16 {
			t.Errorf("type of %g, want 16 or more", d.smallest)
		}
		for _, want := range []string{"P-1201-3, dal, 12 packs, 6 kg, good until 2027-06-01, held", "R-&lt;1&gt;, carrot &amp; co, 20 kg"} {
			if !strings.Contains(text, want) {
				t.Errorf("nothing says %q", want)
			}
		}
	}
	one := read(t, SVG(MapOf(larder(t), unit.US, "chest/bottom").Picture()))
	if contains(one.texts, "upright freezer") || !contains(one.texts, "bottom") {
		t.Errorf("of one place: %q", one.texts)
	}
	SVG(FreezerMap{}.Picture())
}
