package coldstore_test

import (
	"fmt"
	"strings"
	"testing"

	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/unit"
)

func puts(p coldstore.Proposal) string {
	var all []string
	for _, x := range p.Puts {
		all = append(all, fmt.Sprintf("%d: %d to %s", x.Load, x.Packs, x.Place))
	}
	return strings.Join(all, ", ")
}

// By hand, in the rooms of look_test.go: in the chest 10 of 20 kg are free at the bottom and 10 kg in the basket, 40 kg in the upright (by volume
// 56 kg less 10, which is more). Ten kilograms of the older soup lie at the bottom and in the upright each.
func TestWhereNewPacksGo(t *testing.T) {
	s, _ := told(t, day(t)...)
	store := coldstore.Look(rooms(), s, "2026-12-01", nil)
	soup := coldstore.Load{What: "soup-500", Name: "soup", Each: unit.Kilogram / 2, Keep: coldstore.Frozen}
	stew := coldstore.Load{What: "stew-500", Name: "stew", Each: unit.Kilogram / 2, Keep: coldstore.Frozen}
	many := func(l coldstore.Load, n int64) coldstore.Load { l.Packs = n; return l }
	old := many(soup, 4)
	old.Lot = "P-1"
	for _, c := range []struct {
		name  string
		loads []coldstore.Load
		want  string
		left  int64
	}{
		{"where nothing older is buried, though it fits elsewhere", []coldstore.Load{many(soup, 20)}, "0: 20 to chest/basket", 0},
		{"a kind that is nowhere goes below, and leaves the rest free", []coldstore.Load{many(stew, 20)}, "0: 20 to chest/bottom", 0},
		{"together, where only one place takes all", []coldstore.Load{many(stew, 60)}, "0: 60 to upright", 0},
		{"more than one place takes: the largest first", []coldstore.Load{many(stew, 110)}, "0: 80 to upright, 0: 20 to chest/bottom, 0: 10 to chest/basket", 0},
		{"the heaviest load chooses first", []coldstore.Load{many(soup, 10), many(stew, 60)}, "0: 10 to chest/basket, 1: 60 to upright", 0},
		{"more of a lot to where it is", []coldstore.Load{old}, "0: 4 to chest/bottom", 0},
		{"all that is free, and no more", []coldstore.Load{many(stew, 125)}, "0: 80 to upright, 0: 20 to chest/bottom, 0: 20 to chest/basket", 5},
		{"nothing chilled goes to a freezer", []coldstore.Load{{What: "milk", Packs: 9, Each: kg, Keep: coldstore.Chilled}}, "0: 9 to walk-in", 0},
		{"there is no dry place", []coldstore.Load{{What: "salt", Packs: 9, Each: kg, Keep: coldstore.Dry}}, "", 9},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := store.PutAway(c.loads)
			left := int64(0)
			for _, n := range p.Left {
				left += n
			}
			if got := puts(p); got != c.want || left != c.left {
				t.Errorf("%s, %d left; want %s, %d left", got, left, c.want, c.left)
			}
		})
	}
}

func TestRoomForALoad(t *testing.T) {
	s, _ := told(t, day(t)...)
	store := coldstore.Look(rooms(), s, "2026-12-01", nil)
	load := []coldstore.Load{{What: "stew-500", Name: "stew", Packs: 125, Each: unit.Kilogram / 2, Keep: coldstore.Frozen}}
	_, found := store.RoomFor(load, unit.Metric)
	if len(found) != 1 || found[0].Code != coldstore.CodeNoRoom || found[0].Figures[0].Value != 62.5 || found[0].Figures[1].Value != 60 || found[0].Figures[2].Value != 2.5 {
		t.Errorf("found %+v", found)
	}
	load[0].Packs = 120
	if _, found := store.RoomFor(load, unit.Metric); len(found) > 0 {
		t.Errorf("it fits, and there is found %v", found)
	}
	bare := coldstore.Look(coldstore.NewLayout([]coldstore.Place{{ID: "chest", Kind: coldstore.Frozen}}), s, "2026-12-01", nil)
	if _, found := bare.RoomFor(load, unit.Metric); len(found) != 1 || found[0].Code != coldstore.CodeRoomGuess {
		t.Errorf("nobody knows the room, and there is found %v", found)
	}
	// Of what was packed and lies there already, it is asked where it should go: it is in its own way nowhere.
	up, _ := store.Without(s.Lot("P-1")).Spot("upright")
	if up.All != 0 || up.Rest.Mass != 50*kg || len(up.Goods) != 0 {
		t.Errorf("without P-1 the upright has %+v", up)
	}
	if up, _ := store.Spot("upright"); up.All != 10*kg {
		t.Error("the store itself was changed")
	}
}
