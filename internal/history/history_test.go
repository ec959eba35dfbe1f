package history_test

import (
	"maps"
	"reflect"
	"slices"
	"strings"
	"testing"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/history"
	"kettlefrost/internal/history/historytest"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/orders"
	"kettlefrost/internal/record"
)

// small is half a year.
var small = history.Size{Runs: 78, Packs: 60}

func told(t testing.TB, size history.Size, seed uint64) *history.History {
	t.Helper()
	h, err := history.Make(size, seed)
	if err != nil {
		t.Fatal(err)
	}
	return h
}

// standing are the entries of a history that hold, corrections put in.
func standing(t testing.TB, h *history.History) *record.Standing {
	t.Helper()
	sealed, err := h.Sealed()
	if err != nil {
		t.Fatal(err)
	}
	all := &record.Standing{}
	for _, e := range sealed {
		if _, err := all.Add(e); err != nil {
			t.Fatal(err)
		}
	}
	return all
}

// folded is the state of a history as its entries tell it, corrections put in.
func folded(t testing.TB, h *history.History) (*lots.State, finding.List) {
	t.Helper()
	return lots.Of(standing(t, h).All())
}

func TestEntriesTellTheTruth(t *testing.T) {
	for seed := range uint64(6) {
		h := told(t, small, seed)
		state, found := folded(t, h)
		d := historytest.Differences(h, state, found, 1)
		for _, line := range d[:min(len(d), 12)] {
			t.Errorf("seed %d: %s", seed, line)
		}
	}
}

// Of the orders nothing does not fit but what was handed over once more under the order of another, which was never put right.
func TestOrdersFindTheSlips(t *testing.T) {
	h := told(t, small, 1)
	have := map[string]int{}
	state := &orders.State{}
	for e := range standing(t, h).All() {
		for _, f := range state.Take(e) {
			have[f.Code]++
		}
	}
	n := h.Findings["pack-not-here"]
	if want := map[string]int{"handed-twice": n, "handed-wrong": n}; !maps.Equal(have, want) {
		t.Errorf("found %v, want %v", have, want)
	}
}

// All that the truth is held against is in a history of half a year, so that no comparison is empty.
func TestEverythingHappens(t *testing.T) {
	h := told(t, small, 1)
	kinds := map[record.Kind]int{}
	late, corrections := 0, 0
	for i, e := range h.Entries {
		kinds[e.Kind]++
		if e.Corrects != (record.ID{}) {
			corrections++
		}
		if i > 0 && e.Entered < h.Entries[i-1].Entered {
			t.Fatalf("entry %d arrives before the one before it", i+1)
		}
		if e.Entered-e.Happened > 3_600_000 && e.Corrects == (record.ID{}) {
			late++
		}
	}
	t.Logf("%d entries, of which %d late and %d corrections: %v", len(h.Entries), late, corrections, kinds)
	if late < 100 || corrections < 50 {
		t.Errorf("%d entries are late and %d correct others", late, corrections)
	}
	for _, k := range strings.Fields("received used made packed moved counted written-off held released opened closed started finished skipped weighed measured check-weighed changed " +
		"customer ordered cancelled picked handed-over returned invoiced paid voided drilled") {
		if kinds[record.Kind(k)] == 0 {
			t.Errorf("nothing is %s", k)
		}
	}
	states := map[history.State]int64{}
	held, mixed, deep := 0, 0, 0
	for _, p := range h.Packs {
		for s := history.Here; s <= history.Missing; s++ {
			states[s] += p.Count(s)
		}
		if slices.Contains(p.Held, true) {
			held++
		}
		deep = max(deep, len(p.Of))
	}
	for _, b := range h.Bulk {
		if b.Unaccounted() != 0 {
			mixed++
		}
	}
	for s := history.Here; s <= history.Missing; s++ {
		if states[s] == 0 {
			t.Errorf("no pack is in state %d", s)
		}
	}
	if held == 0 || mixed == 0 || deep < 20 {
		t.Errorf("%d lots of packs are held, %d in bulk are unaccounted for in part, at most %d deliveries are in one", held, mixed, deep)
	}
}

func TestSameSeedSameHistory(t *testing.T) {
	a, b, c := told(t, small, 7), told(t, small, 7), told(t, small, 8)
	if !reflect.DeepEqual(a, b) {
		t.Error("two histories of one seed differ")
	}
	if reflect.DeepEqual(a.Entries, c.Entries) {
		t.Error("two seeds give one history")
	}
}

// A truth that is not what the entries tell must be told: otherwise the comparison could not fail.
func TestDifferencesAreFound(t *testing.T) {
	for name, change := range map[string]func(h *history.History){
		"a pack elsewhere":            func(h *history.History) { h.Packs[5].At[3] = history.Spot{State: history.With, Where: "nobody"} },
		"a pack lost":                 func(h *history.History) { h.Packs[9].At[0] = history.Spot{State: history.Missing} },
		"a nanogram more came":        func(h *history.History) { h.Bulk[3].Came++ },
		"a nanogram less is here":     func(h *history.History) { h.Bulk[len(h.Bulk)-1].Here-- },
		"a delivery in other packs":   func(h *history.History) { h.Packs[40].Of["R-none"] = 0.1 },
		"a delivery not in the packs": func(h *history.History) { clear(h.Packs[40].Of) },
		"a thousandth more in a pack": func(h *history.History) {
			for lot := range h.Packs[40].Of {
				h.Packs[40].Of[lot] *= 1.001
			}
		},
		"a finding that nobody found":  func(h *history.History) { h.Findings["held-taken"] = 1 },
		"a finding that was not meant": func(h *history.History) { h.Findings["stock-differs"]-- },
		"a lot that is not there":      func(h *history.History) { h.Bulk = append(h.Bulk, &history.Bulk{Lot: "R-none"}) },
		"a hold that is not there":     func(h *history.History) { h.Bulk[3].Held = !h.Bulk[3].Held },
	} {
		h := told(t, history.Size{Runs: 30, Packs: 30}, 2)
		state, found := folded(t, h)
		change(h)
		if len(historytest.Differences(h, state, found, 1)) == 0 {
			t.Errorf("%s: no difference is found", name)
		}
	}
}
