package app

import (
	"fmt"
	"maps"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// shelf is what was received of each lot, in the order in which it was: of one lot the order matters, of two it does not.
type shelf struct {
	of   map[record.Lot][]unit.Mass
	last map[record.Lot]record.Entry
}

func shelves(withCopy bool) fold[*shelf] {
	f := fold[*shelf]{
		empty: func() *shelf { return &shelf{map[record.Lot][]unit.Mass{}, map[record.Lot]record.Entry{}} },
		take: func(s *shelf, e record.Entry) finding.List {
			b := bodyOf(e)
			s.of[b.Lot] = append(s.of[b.Lot], b.Mass)
			s.last[b.Lot] = e
			return finding.List{{Code: "received", Path: e.ID.String()}}
		},
		heeds: func(k record.Kind) bool { return k == record.Received{}.Kind() },
		late:  func(s *shelf, e record.Entry) bool { return record.Compare(e, s.last[bodyOf(e).Lot]) > 0 },
	}
	if withCopy {
		f.copy = func(s *shelf) *shelf {
			c := &shelf{map[record.Lot][]unit.Mass{}, maps.Clone(s.last)}
			for lot, masses := range s.of {
				c.of[lot] = slices.Clone(masses)
			}
			return c
		}
	}
	return f
}

func bodyOf(e record.Entry) record.Received {
	b, err := record.Decode(e.Kind, e.Body)
	if err != nil {
		panic(err)
	}
	return b.(record.Received)
}

// Whatever comes late, is corrected or taken back, and whenever somebody looks: the state is what folding all that stands gives, each entry
// told of once, also when it is folded from the middle.
func TestAStateIsKeptUpFromTheMiddle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		all := &record.Standing{}
		f := follow(&Records{}, shelves(rapid.Bool().Draw(t, "with copy")))
		f.window = rapid.IntRange(1, 6).Draw(t, "window")
		var ids []record.ID
		for i := range rapid.IntRange(1, 60).Draw(t, "entries") {
			e := anyEntry(t, i, ids)
			c, err := all.Add(e)
			if err != nil {
				continue // a correction of what was taken back
			}
			ids = append(ids, e.ID)
			f.changed(c)
			if rapid.IntRange(0, 2).Draw(t, "look") > 0 {
				continue
			}
			f.bring(all)
			whole, count := f.empty(), 0
			for e := range f.after(all, record.Entry{}) {
				f.take(whole, e)
				count++
			}
			if got, want := fmt.Sprint(f.state.of), fmt.Sprint(whole.of); got != want || len(f.found) != count {
				t.Fatalf("after entry %d: %s with %d findings, want %s with %d", i, got, len(f.found), want, count)
			}
		}
	})
}

// anyEntry is something received, late or not, or a correction of something.
func anyEntry(t *rapid.T, i int, ids []record.ID) record.Entry {
	at := record.Instant(1_790_000_000_000 + 1000*i - 1000*rapid.SampledFrom([]int{0, 0, 0, 1, 2, 9, 30}).Draw(t, "late"))
	lot := record.Lot(rapid.SampledFrom([]string{"A", "B", "C"}).Draw(t, "lot"))
	var b record.Body = record.Received{Lot: lot, Ingredient: "x", Supplier: "y", Mass: unit.Mass(i+1) * unit.Gram}
	var corrects record.ID
	if len(ids) > 0 && rapid.IntRange(0, 3).Draw(t, "corrects") == 0 {
		corrects = rapid.SampledFrom(ids).Draw(t, "which")
		if rapid.Bool().Draw(t, "void") {
			b = record.Voided{Why: "twice"}
		}
	}
	e, err := record.Say(record.ID{1, byte(i + 1)}, at, "Ada", "tablet", b)
	if err != nil {
		t.Fatal(err)
	}
	e.Corrects, e.Seq = corrects, uint64(i+1)
	return e
}
