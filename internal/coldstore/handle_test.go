package coldstore_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/record"
	"kettlefrost/internal/sheet"
	"kettlefrost/internal/unit"
)

func says(bodies []record.Body) string {
	var all []string
	for _, b := range bodies {
		all = append(all, sheet.EntryText(b, unit.Metric))
	}
	return strings.Join(all, "; ")
}

func at(p record.Place) *record.Place { return &p }

// What somebody scans or types comes to one entry, or to a plain sentence beside the field that is wrong, and then to none.
func TestHandling(t *testing.T) {
	s, _ := told(t, append(day(t),
		record.HandedOver{Customer: "cafe", Lot: "P-1", Numbers: nos(t, "21-22")},
		record.WrittenOff{Lot: "P-1", Numbers: nos(t, "23"), Why: "torn"},
		record.Moved{Lot: "R-1", Mass: kg, To: "cellar"},
	)...)
	type ask = coldstore.Ask
	move := func(a ask) ([]record.Body, error) { return a.Move(s) }
	off := func(a ask) ([]record.Body, error) { return a.WriteOff(s) }
	hold := func(a ask) ([]record.Body, error) { return a.Hold(s) }
	free := func(a ask) ([]record.Body, error) { return a.Release(s) }
	for _, c := range []struct {
		do   func(ask) ([]record.Body, error)
		ask  ask
		want string // the entries, or the field and the problem
	}{
		{move, ask{Code: "P-1#3", To: "upright"}, "moved 1 pack (no. 3) of P-1 to upright"},
		{move, ask{Code: " p-1 # 3, 5-6 ", To: "upright"}, "moved 3 packs (no. 3, 5-6) of P-1 to upright"},
		{move, ask{Code: "P-1", Which: "next 12", From: at("chest/bottom"), To: "upright"}, "moved 12 packs (no. 1-12) of P-1 to upright"},
		{move, ask{Code: "P-1", Which: "2 packs", From: at("upright"), To: "chest/basket"}, "moved 2 packs (no. 24-25) of P-1 to chest/basket"},
		{move, ask{Code: "P-1", Which: "all", From: at("upright"), To: "chest/basket"}, "moved 17 packs (no. 24-40) of P-1 to chest/basket"},
		{move, ask{Code: "R-2", Which: "all", To: "cellar"}, `code: by the records nothing of lot R-2 is on hand`},
		{move, ask{Code: "M-1", Which: "1.5", To: "walk-in"}, "moved 1.5 kg of M-1 to walk-in"},
		{move, ask{Code: "M-1", Which: "1.5", To: "walk-in", Units: unit.US}, "moved 680 g of M-1 to walk-in"},
		{move, ask{Code: "M-1", Which: "2.1 kg", To: "walk-in"}, "which: 2.1 kg are more than the 2 kg that are there"},
		{move, ask{Code: "P-1", Which: "next 12", To: "upright"}, "from: lot P-1 is at chest/bottom and upright"},
		{move, ask{Code: "P-1", Which: "next 99", From: at("upright"), To: "x"}, "which: 99 packs are more than the 17 that are there"},
		{move, ask{Code: "P-1", Which: "next 0", From: at("upright"), To: "x"}, "which: no packs are none"},
		{move, ask{Code: "P-1", Which: "0", From: at("upright"), To: "x"}, `which: "0" says no packs`},
		{move, ask{Code: "P-1", Which: "12", To: "upright"}, "which: 12 alone can be a number or a count"},
		{move, ask{Code: "P-1", To: "upright"}, "which: it is not said which packs"},
		{move, ask{Code: "P-1#41", To: "upright"}, "code: lot P-1 has no pack 41: its packs are 1-40"},
		{move, ask{Code: "P-1#21, 23, 30", To: "chest/basket"}, "which: not on hand of lot P-1: packs 21, 23 (21 handed over to cafe; 23 written off)"},
		{move, ask{Code: "P-1#5", From: at("upright"), To: "chest/basket"}, "which: not at upright of lot P-1: pack 5 (5 at chest/bottom)"},
		{move, ask{Code: "P-1#25", To: "upright"}, "to: there already: pack 25"},
		{move, ask{Code: "P-1#25"}, "to: it is not said to which place"},
		{move, ask{Code: "P-9#25", To: "x"}, `code: no entry names a lot "P-9#25"`},
		{move, ask{Code: "pot of soup in tue", Which: "all", To: "x"}, `code: no entry names a lot "pot of soup in tue"`},
		{move, ask{Code: "R-1#4", To: "x"}, "code: lot R-1 is not of numbered packs"},
		{move, ask{Code: "", To: "x"}, "code: there is no code"},
		{move, ask{Code: "P-1 12", To: "x"}, `code: it is not clear whether "P-1 12" means pack 12 of lot P-1`},
		{move, ask{Code: "R-1", Which: "1 kg", To: "x"}, "from: lot R-1 is at cellar and walk-in"},
		{move, ask{Code: "R-1", Which: "1 kg", From: at("walk-in"), To: "walk-in"}, "to: it is there already"},
		// Bulk says no place in its entry, and the cellar comes first by its name: counts put it right.
		{move, ask{Code: "R-1", Which: "1 kg", From: at("walk-in"), To: "attic"}, "moved 1 kg of R-1 to attic; counted 1 kg of R-1 at cellar; counted 2 kg of R-1 at walk-in"},
		{off, ask{Code: "R-1", Which: "all", From: at("walk-in"), Why: "slimy"}, "wrote off 3 kg of R-1: slimy; counted 1 kg of R-1 at cellar; counted nothing of R-1 at walk-in"},
		{off, ask{Code: "P-1#7", Why: "torn"}, "wrote off 1 pack (no. 7) of P-1: torn"},
		{off, ask{Code: "P-1#7"}, "why: it is not said why"},
		{off, ask{Code: "P-1#23", Why: "torn"}, "which: not on hand of lot P-1: pack 23 (23 written off)"},
		{hold, ask{Code: "R-1", Why: "smells"}, "held all of R-1: smells"},
		{hold, ask{Code: "P-1#21-22", Why: "recall"}, "held no. 21-22 of P-1: recall"}, // they are out of the house
		{hold, ask{Code: "P-1", Which: "#38", Why: "again"}, "which: held already: pack 38 (seal looks weak)"},
		{hold, ask{Code: "R-1", Which: "2 kg", Why: "smells"}, "which: lot R-1 is not of numbered packs"},
		{hold, ask{Code: "P-1#7"}, "why: it is not said why"},
		{free, ask{Code: "P-1#38", Why: "seal tested", Do: record.ReleaseForUse}, "decided to release no. 38 of P-1: seal tested"},
		{free, ask{Code: "P-1", Why: "seal tested", Do: record.Destroy}, "decided to destroy all of P-1: seal tested"},
		{free, ask{Code: "P-1#1", Why: "x", Do: record.Destroy}, "which: nothing of it is held"},
		{free, ask{Code: "P-1", Why: "x"}, "do: it is not said what becomes of it"},
		{free, ask{Code: "P-1", Do: record.Destroy}, "why: it is not said why"},
	} {
		bodies, err := c.do(c.ask)
		got := says(bodies)
		if r := (*coldstore.Refusal)(nil); errors.As(err, &r) {
			got = r.Field + ": " + r.Problem
			if len(bodies) > 0 || r.Fix == "" {
				t.Errorf("%+v: %d entries beside %q, what to do: %q", c.ask, len(bodies), got, r.Fix)
			}
		} else if err != nil {
			t.Fatal(err)
		}
		if got != c.want {
			t.Errorf("%+v:\n got %s\nwant %s", c.ask, got, c.want)
		}
	}
}

// Of a lot in bulk at two places, what is entered comes to what was meant, whichever of them comes first by its name.
func TestBulkIsTakenWhereItWasMeant(t *testing.T) {
	for _, c := range []struct {
		from, to record.Place
		want     map[record.Place]unit.Mass
	}{
		{"a", "b", map[record.Place]unit.Mass{"a": 2 * kg, "b": 5 * kg}}, {"b", "a", map[record.Place]unit.Mass{"a": 4 * kg, "b": 3 * kg}},
		{"b", "c", map[record.Place]unit.Mass{"a": 3 * kg, "b": 3 * kg, "c": kg}},
	} {
		come := []record.Body{record.Received{Lot: "R", Ingredient: "salt", Supplier: "s", Mass: 7 * kg, Place: "b"}, record.Moved{Lot: "R", Mass: 3 * kg, To: "a"}}
		s, _ := told(t, come...)
		bodies, err := coldstore.Ask{Code: "R", Which: "1 kg", From: at(c.from), To: c.to}.Move(s)
		if err != nil {
			t.Fatal(err)
		}
		s, _ = told(t, append(come, bodies...)...)
		for place, want := range c.want {
			if got := s.Lot("R").Here[place].Mass; got != want {
				t.Errorf("from %s to %s: %s at %s, want %s", c.from, c.to, got, place, want)
			}
		}
	}
}

func TestLotNames(t *testing.T) {
	s, _ := told(t, record.Received{Lot: "R-1201-2", Ingredient: "salt", Supplier: "s", Mass: kg})
	if got := fmt.Sprint(coldstore.NextLots(s, "2026-12-01", 3, "R-1201-3")); got != "[R-1201-1 R-1201-4 R-1201-5]" {
		t.Errorf("proposed %s", got)
	}
}

func TestTheDoor(t *testing.T) {
	for _, c := range []struct {
		kind coldstore.Kind
		temp unit.Temp
		over bool
	}{{coldstore.Chilled, unit.TempF(41), false}, {coldstore.Chilled, unit.TempC(5), false}, {coldstore.Chilled, unit.TempF(41.1), true}, {coldstore.Frozen, unit.TempC(-12), false}, {coldstore.Frozen, unit.TempF(11), true}} {
		l, ok := coldstore.DoorLimitOf(c.kind)
		if !ok || l.Over(c.temp) != c.over || l.Source == "" {
			t.Errorf("%s at %s: over is %t, want %t", c.kind, c.temp, l.Over(c.temp), c.over)
		}
	}
	if _, ok := coldstore.DoorLimitOf(coldstore.Dry); ok {
		t.Error("flour has a limit at the door")
	}
}
