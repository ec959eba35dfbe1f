package kitchen

import (
	"maps"
	"slices"
	"testing"

	"kettlefrost/internal/unit"
)

// roomy is a kitchen of two chests, one of them named, and a walk-in.
func roomy() Book {
	return Book{
		Freezers: map[FreezerID]Freezer{"chest": {Name: "chest", Count: 2, Volume: 700 * unit.Litre, Room: 400 * unit.Kilogram}, "tall": {Name: "tall", Count: 1, Volume: 1000 * unit.Litre, Room: 300 * unit.Kilogram}},
		Places: map[PlaceID]Place{
			"cold-room": {Name: "cold room", Kind: Chilled, Room: 900 * unit.Kilogram},
			"first":     {Name: "chest by the door", Freezer: "chest", Shelves: map[PlaceID]Shelf{"basket": {Name: "basket", Volume: 90 * unit.Litre, Boxes: map[PlaceID]Box{"a": {Name: "box A", Volume: 40 * unit.Litre}}}}},
		},
	}
}

func TestAllPlaces(t *testing.T) {
	all := roomy().AllPlaces()
	if got, want := slices.Sorted(maps.Keys(all)), []PlaceID{"chest-2", "cold-room", "first", "tall"}; !slices.Equal(got, want) {
		t.Fatalf("places are %v, want %v", got, want)
	}
	for id, want := range map[PlaceID]Place{
		"first":     {Kind: Frozen, Volume: 700 * unit.Litre, Room: 200 * unit.Kilogram},
		"chest-2":   {Kind: Frozen, Volume: 700 * unit.Litre, Room: 200 * unit.Kilogram},
		"tall":      {Kind: Frozen, Volume: 1000 * unit.Litre, Room: 300 * unit.Kilogram},
		"cold-room": {Kind: Chilled, Room: 900 * unit.Kilogram},
	} {
		if got := all[id]; got.Kind != want.Kind || got.Volume != want.Volume || got.Room != want.Room {
			t.Errorf("%s is %s with %s and %s, want %s with %s and %s", id, got.Kind, got.Volume, got.Room, want.Kind, want.Volume, want.Room)
		}
	}
}

func TestPlacesAreChecked(t *testing.T) {
	for _, c := range []struct {
		name  string
		spoil func(Book)
		code  Code
		path  string
	}{
		{"nothing wrong", func(Book) {}, "", ""},
		{"no kind", func(b Book) { b.Places["cold-room"] = Place{Name: "x"} }, EmptyText, "places.cold-room.kind"},
		{"no such freezer", func(b Book) { b.Places["first"] = Place{Name: "x", Freezer: "chets"} }, UnknownReference, "places.first.freezer"},
		{"a warm freezer", func(b Book) { b.Places["first"] = Place{Name: "x", Freezer: "chest", Kind: DryStore} }, FreezerNotFrozen, "places.first.kind"},
		{"two of one", func(b Book) {
			b.Places["other"] = Place{Name: "x", Freezer: "tall"}
			b.Places["tall"] = b.Places["other"]
		}, FreezerTwice, "places.tall.freezer"},
		{"a shelf larger than its place", func(b Book) {
			b.Places["first"] = Place{Name: "x", Freezer: "chest", Shelves: map[PlaceID]Shelf{"s": {Name: "s", Volume: 701 * unit.Litre}}}
		}, PartsLarger, "places.first.shelves"},
		{"boxes larger than their shelf", func(b Book) {
			b.Places["first"].Shelves["basket"] = Shelf{Name: "s", Room: unit.Kilogram, Boxes: map[PlaceID]Box{"a": {Name: "a", Room: 2 * unit.Kilogram}}}
		}, PartsLarger, "places.first.shelves.basket.boxes"},
		{"a bad name for a box", func(b Book) {
			b.Places["first"].Shelves["basket"] = Shelf{Name: "s", Boxes: map[PlaceID]Box{"a/b": {Name: "a"}}}
		}, BadID, `places.first.shelves.basket.boxes.a/b`},
		{"room that cannot be", func(b Book) { b.Places["cold-room"] = Place{Name: "x", Kind: Chilled, Room: 2_000_000 * unit.Kilogram} }, OutOfRange, "places.cold-room.room"},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := roomy()
			c.spoil(b)
			k := &checker{book: b}
			k.places()
			switch {
			case c.code == "" && len(k.found) > 0:
				t.Errorf("found %v", k.found)
			case c.code != "" && (len(k.found) != 1 || k.found[0].Code != string(c.code) || k.found[0].Path != c.path):
				t.Errorf("found %+v, want %s at %s", k.found, c.code, c.path)
			}
		})
	}
}
