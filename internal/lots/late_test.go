package lots_test

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// anyBody is an entry about a few lots, runs and customers, so that entries often meet.
func anyBody(t *rapid.T) record.Body {
	lot := func() record.Lot {
		return record.Lot(rapid.SampledFrom([]string{"A", "B", "C", "D", "E", "F", "G", "H"}).Draw(t, "lot"))
	}
	mass := func() unit.Mass { return unit.Mass(rapid.IntRange(1, 9).Draw(t, "kg")) * kg }
	word := func(of ...string) string { return rapid.SampledFrom(of).Draw(t, "word") }
	some := func() record.Numbers {
		first := rapid.Int64Range(1, 12).Draw(t, "first")
		n, err := record.NumbersOf(record.Range{First: first, Last: first + rapid.Int64Range(0, 4).Draw(t, "more")})
		if err != nil {
			t.Fatal(err)
		}
		return n
	}
	parts := func() []record.Part { return []record.Part{{Lot: lot(), Mass: mass()}, {Lot: lot(), Mass: mass()}} }
	place := func() record.Place { return record.Place(word("chest", "shelf")) }
	switch rapid.IntRange(0, 18).Draw(t, "kind") {
	case 18:
		return record.Tasted{Lot: lot(), Pack: "p", Verdict: record.StillGood}
	case 17:
		return record.Tasted{Lot: lot(), Numbers: some(), Pack: "p", Verdict: record.Fading}
	case 16:
		return record.SetAside{Lot: lot(), Numbers: some(), Pack: "p", Open: []record.Day{"2027-01-05"}, Place: record.Place(word("", "shelf"))}
	case 15:
		return record.Drilled{Lots: []record.Lot{lot()}, Began: day(1), Asked: word("their lot 7", "their lot 8")}
	case 14:
		return record.Wasted{Run: word("mon", "tue"), Dish: word("soup", "stew"), Mass: mass(), Why: "w"}
	case 0, 1:
		return record.Received{Lot: lot(), Ingredient: word("leek", "kale"), Supplier: word("farm", "market"), SupplierLot: word("7", "8"), Mass: mass(), Place: place()}
	case 2, 3:
		return record.Used{Run: word("mon", "tue"), Dish: word("soup", "stew"), Lot: lot(), Mass: mass()}
	case 4:
		return record.Used{Run: word("mon", "tue"), Dish: word("soup", "stew"), Lot: lot(), Mass: mass(), Numbers: some()}
	case 5:
		return record.Made{Run: word("mon", "tue"), Dish: word("soup", "stew"), Output: "o", Lot: lot(), Mass: mass(), Place: place()}
	case 6:
		return record.Made{Run: word("mon", "tue"), Dish: word("soup", "stew"), Output: "o", Lot: lot(), Mass: mass(), From: parts()}
	case 7:
		n := some()
		return record.Packed{Run: "mon", Pack: "p", Lot: lot(), Numbers: n, Label: kg, Mass: kg * unit.Mass(n.Count()), From: parts(), BestBefore: "2027-01-01", Place: place()}
	case 8:
		return record.Moved{Lot: lot(), Numbers: some(), To: place()}
	case 9:
		return record.Counted{Lot: lot(), Place: place(), Numbers: some()}
	case 10:
		return record.WrittenOff{Lot: lot(), Mass: mass(), Why: "w"}
	case 11:
		return record.HandedOver{Customer: word("cafe", "bar"), Lot: lot(), Numbers: some()}
	case 12:
		return record.Returned{Customer: word("cafe", "bar"), Lot: lot(), Numbers: some(), Why: "w"}
	default:
		return record.Customer{Customer: word("cafe", "bar"), Name: word("one", "two", "three")}
	}
}

// anyHistory is entries in the order in which they came; some happened before those that came earlier.
func anyHistory(t *rapid.T) []record.Entry {
	var entries []record.Entry
	for i := range rapid.IntRange(1, 30).Draw(t, "entries") {
		e, err := record.Say(record.ID{1, byte(i + 1)}, day(10*i-rapid.SampledFrom([]int{0, 0, 15, 35}).Draw(t, "late")), word(i), "tablet", anyBody(t))
		if err != nil {
			t.Fatal(err)
		}
		e.Seq = uint64(i + 1)
		entries = append(entries, e)
	}
	return entries
}

func noDate(record.Instant) string { return "" }

func word(i int) string { return []string{"Ada", "Bo"}[i%2] }

func inOrder(entries []record.Entry) []record.Entry {
	return slices.SortedFunc(slices.Values(entries), record.Compare)
}

// everything is all that can be asked of a state, as text.
func everything(t interface{ Fatal(...any) }, s *lots.State) string {
	var b strings.Builder
	for l := range s.All() {
		fmt.Fprintln(&b, l.ID, l.Sort, l.What, l.Dish, l.Run, l.Supplier, l.SupplierLot, l.Born, l.Entry, l.Came, l.Label, l.Numbers, l.Used, l.WrittenOff, l.Handed, l.Doubted, l.Reopened, l.Missing, l.ForTasting, l.Tasted, l.Holds, l.Events)
		for _, p := range slices.Sorted(maps.Keys(l.Here)) {
			fmt.Fprintln(&b, p, l.Here[p])
		}
		balance, err := s.Balance(l.ID)
		fmt.Fprintln(&b, balance.Came, balance.Used, balance.OnHand, balance.Waste, balance.Dispatched, balance.Unaccounted, err)
		forward, err := s.Forward(l.ID)
		if err != nil {
			t.Fatal(err)
		}
		backward, err := s.Backward(l.ID)
		if err != nil {
			t.Fatal(err)
		}
		for _, x := range append(forward, backward...) {
			fmt.Fprintln(&b, x.ID, x.Layer, x.Content)
		}
		r, err := s.Recall(l.ID)
		for _, line := range r.Lines {
			fmt.Fprintln(&b, line.State, line.Where, line.Lot.ID, line.Packs, line.Mass, line.At, line.Doubted)
		}
		for _, p := range r.Packs {
			fmt.Fprintln(&b, p.Lot.ID, p.Made, p.Found, p.Told, p.Missing, p.Twice, p.Beyond)
		}
		fmt.Fprintln(&b, r.Made, r.Found, r.Told, r.Open, r.Came, err)
	}
	for d := range s.Drills() {
		fmt.Fprintln(&b, d.Entry, d.Who, d.Drilled)
	}
	fmt.Fprintln(&b, s.Customer("cafe"), s.Customer("bar"))
	return b.String()
}

func sorted(found finding.List) []string {
	var texts []string
	for _, f := range found {
		texts = append(texts, f.Path+f.Code+f.Message)
	}
	slices.Sort(texts)
	return texts
}

// An entry that comes late and commutes with those taken since gives the state, and finds what is found, as if all had come in their order.
func TestWhatCommutesCanBeTakenLate(t *testing.T) {
	late, loops := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		entries := anyHistory(t)
		s := &lots.State{}
		var found finding.List
		var taken []record.Entry
		for _, e := range entries {
			isLate := slices.ContainsFunc(taken, func(x record.Entry) bool { return record.Compare(e, x) < 0 })
			taken = append(taken, e)
			if isLate && !s.Commutes(e) {
				s, found = lots.Of(slices.Values(inOrder(taken)))
				continue
			}
			if isLate {
				late++
			}
			found = append(found, s.Take(e)...)
		}
		want, wantFound := lots.Of(slices.Values(inOrder(entries)))
		if got, want := everything(t, s), everything(t, want); got != want {
			t.Fatalf("taken as they came\n%s\nin their order\n%s", got, want)
		}
		if got, want := sorted(found), sorted(wantFound); !slices.Equal(got, want) {
			t.Fatalf("found as they came %q\nin their order %q", got, want)
		}
		for _, f := range wantFound {
			if f.Code == lots.CodeLoop {
				loops++
			}
		}
	})
	if late < 50 || loops < 10 {
		t.Errorf("only %d entries were taken late, and %d loops were refused: the histories say little", late, loops)
	}
}

// What two tablets tell of different lots within a few seconds needs no folding again; of the same lot it does, and so does a loop that only
// both together close.
func TestWhatCommutes(t *testing.T) {
	entries := diary(t, soupDay(t)...)
	s, _ := lots.Of(slices.Values(entries))
	moment := entries[1].Happened + 1 // after the goods came, before anything was used
	for _, c := range []struct {
		name string
		body record.Body
		want bool
	}{
		{"another lot", record.Received{Lot: "R-leek", Ingredient: "leek", Supplier: "farm", Mass: kg}, true},
		{"a lot that was used since", record.Moved{Lot: "R-carrot", Mass: kg, To: "chest-1"}, false},
		{"into a pot that was filled since", record.Used{Run: "tue", Dish: "soup", Lot: "R-leek", Mass: kg}, false},
		{"into another pot", record.Used{Run: "tue", Dish: "stew", Lot: "R-leek", Mass: kg}, true},
		{"a customer who got some since", record.Customer{Customer: "cafe", Name: "Café"}, true},
		{"a drill", record.Drilled{Lots: []record.Lot{"R-carrot"}, Began: moment}, true},
	} {
		e, err := record.Say(record.ID{9}, moment, "Bo", "phone", c.body)
		if err != nil {
			t.Fatal(err)
		}
		if e.Seq = 99; s.Commutes(e) != c.want {
			t.Errorf("%s: commutes %v, want %v", c.name, !c.want, c.want)
		}
	}
}
