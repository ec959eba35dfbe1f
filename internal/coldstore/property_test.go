package coldstore_test

import (
	"errors"
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

var somewhere = []record.Place{"chest/basket", "chest/bottom", "upright", "walk-in"}

// history draws lots that come and are moved, written off and held as people type it; what is refused is left out.
func history(t *rapid.T, tt testing.TB) []record.Body {
	var bodies []record.Body
	place := rapid.SampledFrom(somewhere)
	for i := range rapid.IntRange(1, 4).Draw(t, "lots") {
		bodies = append(bodies, record.Received{Lot: record.Lot(fmt.Sprintf("R-%d", i)), Ingredient: "salt", Supplier: "s", Mass: unit.Mass(rapid.Int64Range(1, 40_000).Draw(t, "g")) * unit.Gram, Place: place.Draw(t, "place")})
		n := rapid.Int64Range(1, 60).Draw(t, "packs")
		bodies = append(bodies, record.Packed{Run: "r", Pack: "p", Lot: record.Lot(fmt.Sprintf("P-%d", i)), Numbers: nos(tt, fmt.Sprintf("1-%d", n)), Label: kg, Mass: unit.Mass(n)*kg + unit.Mass(rapid.Int64Range(0, 50).Draw(t, "ng")), From: []record.Part{{Lot: "?", Mass: kg}}, BestBefore: "2027-01-01", Place: place.Draw(t, "place")})
	}
	return bodies
}

// Whatever is typed: a move changes neither how many packs there are of a lot nor how much in bulk, and no entry that Ask gives is one that the
// records find wrong.
func TestMovesLoseNothing(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		bodies := history(rt, t)
		for range rapid.IntRange(1, 6).Draw(rt, "moves") {
			s, _ := told(t, bodies...)
			a := coldstore.Ask{Code: rapid.SampledFrom([]string{"P-0", "P-1", "R-0", "R-1", "P-0#1", "P-0#3-9"}).Draw(rt, "code"), To: rapid.SampledFrom(somewhere).Draw(rt, "to"),
				Which: rapid.SampledFrom([]string{"all", "next 1", "next 7", "#2", "1-5, 9", "200 g", "1 kg", "", "0", "9"}).Draw(rt, "which")}
			if rapid.Bool().Draw(rt, "says from") {
				a.From = at(rapid.SampledFrom(somewhere).Draw(rt, "from"))
			}
			more, err := a.Move(s)
			if err != nil {
				if r := (*coldstore.Refusal)(nil); !errors.As(err, &r) || len(more) > 0 {
					rt.Fatalf("%+v: %v with %d entries", a, err, len(more))
				}
				continue
			}
			before := s
			bodies = append(bodies, more...)
			after, found := told(t, bodies...)
			for l := range before.All() {
				was, is := l.OnHand(), after.Lot(l.ID).OnHand()
				if !was.Numbers.Equal(is.Numbers) || was.Mass != is.Mass {
					rt.Fatalf("%+v: of %s there were %v, and now %v", a, l.ID, was, is)
				}
			}
			for _, f := range found {
				if f.Code != lots.CodeStockOff && f.Code != lots.CodeLotUnknown {
					rt.Fatalf("%+v: %s", a, f)
				}
			}
		}
	})
}

// Taking stock and finding what the records say makes no difference, changes nothing, and is found by nobody.
func TestCountingWhatIsThereChangesNothing(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		bodies := history(rt, t)
		s, before := told(t, bodies...)
		for _, place := range somewhere {
			tally := coldstore.Tally{Place: place}
			for l := range s.All() {
				if _, here := l.Here[place]; here {
					var err error
					if tally, _, err = tally.Scan(s, string(l.ID)+" all", unit.US); err != nil {
						rt.Fatal(err)
					}
				}
			}
			if d := tally.Against(s, nil); d.Lost+d.Extra+int64(d.Short+d.Over)+int64(d.Unlooked) != 0 {
				rt.Fatalf("%s differs: %+v", place, d)
			}
			bodies = append(bodies, tally.Entries(s)...)
		}
		after, found := told(t, bodies...)
		if len(found) != len(before) {
			rt.Fatalf("found %v", found[len(before):])
		}
		for l := range s.All() {
			for _, place := range somewhere {
				was, is := l.Here[place], after.Lot(l.ID).Here[place]
				if was.Mass != is.Mass || !was.Numbers.Equal(is.Numbers) {
					rt.Fatalf("%s at %s was %v and is %v", l.ID, place, was, is)
				}
			}
		}
	})
}

// What a count found reads back from the texts that an address keeps.
func TestACountSurvivesItsAddress(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s, _ := told(t, history(rt, t)...)
		tally := coldstore.Tally{Place: "upright"}
		for range rapid.IntRange(0, 12).Draw(rt, "scans") {
			scan := rapid.SampledFrom([]string{"P-0#1", "P-0#2-4", "P-1#1", "P-1 none", "R-0 1.5", "R-0 none", "R-1 2 lb 3 oz", "R-1 333 g", "x"}).Draw(rt, "scan")
			tally, _, _ = tally.Scan(s, scan, unit.US)
		}
		again := scanned(t, s, "upright", tally.Texts()...)
		if fmt.Sprint(again.Texts()) != fmt.Sprint(tally.Texts()) {
			rt.Fatalf("%q reads back as %q", tally.Texts(), again.Texts())
		}
	})
}

// No place is ever filled over its room, whatever is to be put away; nothing is lost between places and what is left; what is left would fit
// nowhere; and room that is left is never below nothing, with what is over told beside it.
func TestNoPlaceIsOverfilled(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s, _ := told(t, history(rt, t)...)
		store := coldstore.Look(rooms(), s, "2026-12-01", nil)
		var loads []coldstore.Load
		for i := range rapid.IntRange(1, 4).Draw(rt, "loads") {
			loads = append(loads, coldstore.Load{What: rapid.SampledFrom([]string{"p", "q"}).Draw(rt, "what"), Lot: record.Lot(fmt.Sprintf("P-%d", i)), Packs: rapid.Int64Range(1, 120).Draw(rt, "packs"),
				Each: unit.Mass(rapid.Int64Range(100, 3000).Draw(rt, "g")) * unit.Gram, Keep: rapid.SampledFrom([]coldstore.Kind{coldstore.Frozen, coldstore.Chilled}).Draw(rt, "keep")})
		}
		p := store.PutAway(loads)
		placed, into := make([]int64, len(loads)), map[record.Place]unit.Mass{}
		for _, x := range p.Puts {
			placed[x.Load] += x.Packs
			into[x.Place] += x.Mass
			if spot, _ := store.Spot(x.Place); spot.Kind != loads[x.Load].Keep || x.Packs <= 0 {
				rt.Fatalf("%+v into a %s place", x, spot.Kind)
			}
		}
		into["chest"] = into["chest/basket"] + into["chest/bottom"]
		for _, spot := range store.Spots {
			if spot.Rest.Mass < 0 || spot.Rest.Volume < 0 || spot.Rest.OverMass < 0 || spot.Rest.OverVolume < 0 {
				rt.Fatalf("%s has left %+v", spot.ID, spot.Rest)
			}
			if spot.Room > 0 && spot.Room-spot.All != spot.Rest.Mass-spot.Rest.OverMass {
				rt.Fatalf("%s: %s of %s leave %+v", spot.ID, spot.All, spot.Room, spot.Rest)
			}
			if fits, known := store.Fits(spot.ID); known && into[spot.ID] > fits {
				rt.Fatalf("%s into %s, where %s fit", into[spot.ID], spot.ID, fits)
			}
		}
		for i, l := range loads {
			for _, spot := range store.Spots {
				if spot.Parts || !spot.Listed || spot.Kind != l.Keep || p.Left[i] == 0 {
					continue
				}
				fits, _ := store.Fits(spot.ID)
				whole := store.Spots[max(0, spot.Whole)].ID
				if over, known := store.Fits(whole); fits-into[spot.ID] > l.Each && (spot.Whole < 0 || known && over-into[whole] > l.Each) {
					rt.Fatalf("%d of %s are left, and %s has %s free", p.Left[i], l.Each, spot.ID, fits-into[spot.ID])
				}
			}
			if placed[i]+p.Left[i] != l.Packs {
				rt.Fatalf("of %d packs %d are placed and %d left", l.Packs, placed[i], p.Left[i])
			}
		}
	})
}
