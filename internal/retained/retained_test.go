package retained_test

import (
	"fmt"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/retained"
	"kettlefrost/internal/unit"
)

const (
	hour = 3_600_000
	week = 7 * 24 * hour
	noon = record.Instant(1_780_000_000_000)
)

func nos(text string) record.Numbers {
	n, err := record.ParseNumbers(text)
	if err != nil {
		panic(err)
	}
	return n
}

// told is entries of bodies; each happened so many hours after noon.
type told struct {
	after int64
	body  record.Body
}

func entries(t interface{ Fatal(...any) }, all ...told) []record.Entry {
	var es []record.Entry
	for i, x := range all {
		e, err := record.Say(record.ID{9, byte(i / 250), byte(i%250 + 1)}, noon+record.Instant(x.after)*hour, "Ada", "tablet", x.body)
		if err != nil {
			t.Fatal(err)
		}
		e.Seq = uint64(i + 1)
		es = append(es, e)
	}
	return es
}

func packed(lot record.Lot, numbers string) record.Packed {
	n := nos(numbers)
	return record.Packed{Run: "tue", Pack: "soup", Lot: lot, Numbers: n, Label: unit.Kilogram, Mass: unit.Kilogram * unit.Mass(n.Count()), From: []record.Part{{Lot: "B", Mass: unit.Kilogram}}, BestBefore: "2027-06-01", Place: "chest-1"}
}

func keep(lot record.Lot, numbers string, open ...record.Day) record.SetAside {
	return record.SetAside{Run: "tue", Pack: "soup", Lot: lot, Numbers: nos(numbers), Open: open}
}

func taste(lot record.Lot, numbers string, v record.Verdict) record.Tasted {
	return record.Tasted{Lot: lot, Numbers: nos(numbers), Pack: "soup", Verdict: v}
}

// show is the openings in a line each.
func show(all []retained.Opening) string {
	var lines []string
	for _, o := range all {
		line := fmt.Sprintf("%s %s %d: %s", o.Day, o.Set.Lot, o.Packs, o.Which)
		if o.Gone > 0 {
			line += fmt.Sprintf(" gone %d", o.Gone)
		}
		lines = append(lines, line)
	}
	return strings.Join(lines, "; ")
}

// By hand: packs 28 to 30 of 30 are kept for three days.
func TestOpenings(t *testing.T) {
	three := keep("P", "28-30", "2027-03-02", "2027-01-05", "2027-02-02")
	for _, c := range []struct {
		name string
		then []record.Body
		want string
	}{
		{"one for each day, the earliest first", nil, "2027-01-05 P 1: 28; 2027-02-02 P 1: 29; 2027-03-02 P 1: 30"},
		{"any of them serves the first", []record.Body{taste("P", "30", record.StillGood)}, "2027-02-02 P 1: 28; 2027-03-02 P 1: 29"},
		{"two at once", []record.Body{taste("P", "28-29", record.StillGood)}, "2027-03-02 P 1: 30"},
		{"one that was not kept", []record.Body{taste("P", "3", record.StillGood)}, "2027-01-05 P 1: 28; 2027-02-02 P 1: 29; 2027-03-02 P 1: 30"},
		{"one torn", []record.Body{record.WrittenOff{Lot: "P", Numbers: nos("28"), Why: "torn"}}, "2027-01-05 P 1: 29; 2027-02-02 P 1: 30; 2027-03-02 P 1:  gone 1"},
		{"all opened", []record.Body{taste("P", "28-30", record.Bad)}, ""},
		{"kept twice", []record.Body{keep("P", "29-30", "2027-04-01")}, "2027-01-05 P 1: 28; 2027-02-02 P 1: 29; 2027-03-02 P 1: 30"},
	} {
		all := []told{{0, packed("P", "1-30")}, {1, three}}
		for i, b := range c.then {
			all = append(all, told{int64(2 + i), b})
		}
		es := entries(t, all...)
		s, found := retained.Of(slices.Values(es))
		stock, _ := lots.Of(slices.Values(es))
		if got := show(s.Openings(stock)); got != c.want || len(found) > 0 {
			t.Errorf("%s: %q %v\nwant %q", c.name, got, found, c.want)
		}
	}
}

func TestPacksAreDealtToTheDays(t *testing.T) {
	for _, c := range []struct{ numbers, want string }{
		{"1-7", "2027-01-05 P 3: 1-3; 2027-02-02 P 2: 4-5; 2027-03-02 P 2: 6-7"},
		{"1-2", "2027-01-05 P 1: 1; 2027-02-02 P 1: 2"},
	} {
		es := entries(t, told{0, packed("P", "1-30")}, told{1, keep("P", c.numbers, "2027-01-05", "2027-02-02", "2027-03-02")})
		s, _ := retained.Of(slices.Values(es))
		stock, _ := lots.Of(slices.Values(es))
		if got := show(s.Openings(stock)); got != c.want {
			t.Errorf("%s: %q, want %q", c.numbers, got, c.want)
		}
		if got := show(s.DueOn("2027-02-02", stock)); got != strings.Split(c.want, "; 2027-03")[0] {
			t.Errorf("due: %q", got)
		}
	}
}

func TestWeeksOfTastings(t *testing.T) {
	drip := record.Decimal(12_500)
	late := taste("P", "28", record.Fading)
	late.Whole, late.Drip = 500*unit.Gram, &drip
	es := entries(t, told{0, packed("P", "1-30")}, told{4*7*24 - 1, taste("P", "29", record.StillGood)}, told{4 * 7 * 24, late}, told{5, taste("Q", "1", record.Bad)})
	s, _ := retained.Of(slices.Values(es))
	var got []string
	for _, x := range s.Tastings("soup") {
		got = append(got, fmt.Sprintf("%s %s %d %s", x.Lot, x.Numbers, x.Weeks, x.Verdict))
	}
	if want := []string{"Q 1 -1 bad", "P 29 3 good", "P 28 4 fading"}; !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	if share, ok := s.Tastings("soup")[2].DripShare(); !ok || share != 0.025 {
		t.Errorf("12.5 g of 500 g are %g", share)
	}
	if _, ok := s.Tastings("soup")[1].DripShare(); ok {
		t.Error("nobody weighed")
	}
}

func TestPacksOfAnotherKind(t *testing.T) {
	es := entries(t, told{0, packed("P", "1-30")}, told{1, record.SetAside{Pack: "stew", Lot: "P", Numbers: nos("1"), Open: []record.Day{"2027-01-05"}}})
	s, _ := retained.Of(slices.Values(es))
	if found := s.Misfits(); len(found) != 1 || found[0].Code != retained.CodeOtherPack || !strings.Contains(found[0].Message, "stew") {
		t.Error(found)
	}
}

// In whatever order entries are taken, the state is the same; and every pack of a set is opened, to be opened, or gone.
func TestTheOrderMakesNoDifference(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		all := []told{{0, packed("P", "1-9")}, {0, packed("Q", "1-9")}}
		lot := rapid.SampledFrom([]record.Lot{"P", "Q", "R"})
		numbers := rapid.SampledFrom([]string{"1", "1-3", "2-6", "9"})
		for range rapid.IntRange(1, 12).Draw(t, "entries") {
			at := rapid.Int64Range(0, 2000).Draw(t, "hours")
			switch rapid.IntRange(0, 3).Draw(t, "what") {
			case 0, 1:
				days := rapid.SliceOfN(rapid.SampledFrom([]record.Day{"2027-01-05", "2027-02-02", "2027-03-02"}), 1, 3).Draw(t, "days")
				all = append(all, told{at, keep(lot.Draw(t, "lot"), numbers.Draw(t, "numbers"), days...)})
			case 2:
				all = append(all, told{at, taste(lot.Draw(t, "lot"), numbers.Draw(t, "numbers"), record.StillGood)})
			case 3:
				all = append(all, told{at, record.HandedOver{Customer: "cafe", Lot: lot.Draw(t, "lot"), Numbers: nos(numbers.Draw(t, "numbers"))}})
			}
		}
		es := entries(t, all...)
		inOrder := slices.SortedFunc(slices.Values(es), record.Compare)
		want, _ := retained.Of(slices.Values(inOrder))
		mixed := slices.Clone(es)
		r := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 0))
		r.Shuffle(len(mixed), func(i, j int) { mixed[i], mixed[j] = mixed[j], mixed[i] })
		got, _ := retained.Of(slices.Values(mixed))
		if !reflect.DeepEqual(got, want) {
			t.Errorf("%+v\nwant %+v", got, want)
		}
		stock, _ := lots.Of(slices.Values(inOrder))
		left := map[record.Lot]int64{}
		for _, o := range got.Openings(stock) {
			if o.Which.Count()+o.Gone != o.Packs || o.Packs == 0 {
				t.Errorf("%+v does not add up", o)
			}
			left[o.Set.Lot] += o.Packs
		}
		for _, id := range []record.Lot{"P", "Q", "R"} {
			var kept record.Numbers
			for _, x := range got.Sets() {
				if x.Lot == id {
					kept = kept.Union(x.Numbers)
				}
			}
			if l := stock.Lot(id); l != nil && left[id]+l.Tasted.Intersect(kept).Count() != kept.Count() {
				t.Errorf("%s: %d kept, %d left to open, %s tasted", id, kept.Count(), left[id], l.Tasted)
			}
		}
	})
}
