package lots_test

import (
	"fmt"
	"maps"
	"math/rand/v2"
	"slices"
	"testing"

	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// years is an invented history and, kept beside it by the generator alone, what each supplier lot ended up in.
type years struct {
	entries []record.Entry
	packs   map[record.Lot]map[record.Lot]bool // of each supplier lot: the pack lots that contain any of it
	made    map[record.Lot]int64
	goods   []record.Lot
}

// threeYears is so many runs of three dishes each. A run takes eight ingredients a dish from deliveries that last for several runs, makes one
// batch, sometimes with what was left over of the run before, packs it and hands packs over; some packs are written off.
func threeYears(t testing.TB, runs, packsEach int) years {
	t.Helper()
	y := years{packs: map[record.Lot]map[record.Lot]bool{}, made: map[record.Lot]int64{}}
	random := rand.New(rand.NewPCG(2026, 12))
	say := func(b record.Body) {
		n := len(y.entries)
		e, err := record.Say(record.ID{1, byte(n >> 24), byte(n >> 16), byte(n >> 8), byte(n)}, day(n), "Ada", "tablet", b)
		if err != nil {
			t.Fatal(err)
		}
		e.Seq = uint64(n + 1)
		y.entries = append(y.entries, e)
	}
	open := map[int]record.Lot{} // the delivery of an ingredient that is in use
	left := map[int]unit.Mass{}
	rest := map[int]record.Lot{} // what was left over of a dish's last run
	holds := map[record.Lot]map[record.Lot]bool{}
	for run := range runs {
		for dish := range 3 {
			name, mine := fmt.Sprintf("dish-%d", dish), map[record.Lot]bool{}
			for k := range 8 {
				ingredient := dish*5 + k // neighbours share some
				if left[ingredient] < 10*kg {
					lot := record.Lot(fmt.Sprintf("R-%d-%d", ingredient, run))
					say(record.Received{Lot: lot, Ingredient: fmt.Sprintf("ingredient-%d", ingredient), Supplier: "farm", Mass: 50 * kg, Place: "store"})
					y.goods, y.packs[lot] = append(y.goods, lot), map[record.Lot]bool{}
					open[ingredient], left[ingredient] = lot, 50*kg
				}
				say(record.Used{Run: fmt.Sprint(run), Dish: name, Lot: open[ingredient], Mass: 10 * kg})
				left[ingredient] -= 10 * kg
				mine[open[ingredient]] = true
			}
			if lot, ok := rest[dish]; ok && random.IntN(3) == 0 {
				say(record.Used{Run: fmt.Sprint(run), Dish: name, Lot: lot, Mass: kg})
				for of := range holds[lot] {
					mine[of] = true
				}
				delete(rest, dish)
			}
			batch, pack := record.Lot(fmt.Sprintf("M-%d-%d", dish, run)), record.Lot(fmt.Sprintf("P-%d-%d", dish, run))
			each := 100 * unit.Gram
			say(record.Made{Run: fmt.Sprint(run), Dish: name, Output: name, Lot: batch, Mass: each*unit.Mass(packsEach) + kg, Place: "walk-in"})
			say(record.Packed{Run: fmt.Sprint(run), Pack: name, Lot: pack, Numbers: packs(t, fmt.Sprintf("1-%d", packsEach)), Label: each, Mass: each * unit.Mass(packsEach), From: []record.Part{{Lot: batch, Mass: each * unit.Mass(packsEach)}}, BestBefore: "2027-06-01", Place: "chest"})
			y.made[pack] = int64(packsEach)
			holds[batch], rest[dish] = mine, batch
			for of := range mine {
				y.packs[of][pack] = true
			}
			for c := range 20 {
				first := 1 + c*packsEach/25
				say(record.HandedOver{Customer: fmt.Sprintf("customer-%d", random.IntN(60)), Lot: pack, Numbers: packs(t, fmt.Sprintf("%d-%d", first, first+packsEach/25-1))})
			}
			say(record.WrittenOff{Lot: pack, Numbers: packs(t, fmt.Sprint(packsEach)), Why: "torn"})
		}
	}
	return y
}

// Of every tenth supplier lot of a history of a hundred runs, a recall names the pack lots that the generator put it into, no more and no
// fewer, and every pack of them is in one place.
func TestRecallsOfAHistory(t *testing.T) {
	y := threeYears(t, 100, 500)
	s, found := lots.Of(slices.Values(y.entries))
	if len(found) > 0 {
		t.Fatalf("found %v", found[0])
	}
	for i := 0; i < len(y.goods); i += 10 {
		r, err := s.Recall(y.goods[i])
		if err != nil {
			t.Fatal(err)
		}
		made := int64(0)
		for lot := range y.packs[y.goods[i]] {
			made += y.made[lot]
		}
		for _, p := range r.Packs {
			if !y.packs[y.goods[i]][p.Lot.ID] {
				t.Errorf("%s is not in %s", y.goods[i], p.Lot.ID)
			}
		}
		if len(r.Packs) != len(y.packs[y.goods[i]]) || r.Made.Count != made || r.Ratio() != 1 {
			t.Errorf("%s: %d pack lots with %d packs, %g accounted for; want %d with %d", y.goods[i], len(r.Packs), r.Made.Count, r.Ratio(), len(y.packs[y.goods[i]]), made)
		}
		for _, p := range r.Packs {
			if !p.Missing.Empty() || !p.Twice.Empty() {
				t.Errorf("%s: missing %s, twice %s", p.Lot.ID, p.Missing, p.Twice)
			}
		}
	}
}

// Of every tenth lot of packs, a trace back names the supplier lots that the generator put into it, no more and no fewer.
func TestTracesBackOfAHistory(t *testing.T) {
	y := threeYears(t, 100, 500)
	s, _ := lots.Of(slices.Values(y.entries))
	for i, pack := range slices.Sorted(maps.Keys(y.made)) {
		if i%10 != 0 {
			continue
		}
		back, err := s.Backward(pack)
		if err != nil {
			t.Fatal(err)
		}
		var got, want []record.Lot
		for _, x := range back {
			if x.Sort == lots.Goods {
				got = append(got, x.ID)
			}
		}
		for _, of := range y.goods {
			if y.packs[of][pack] {
				want = append(want, of)
			}
		}
		slices.Sort(got)
		if slices.Sort(want); !slices.Equal(got, want) {
			t.Errorf("into %s went %v, want %v", pack, got, want)
		}
	}
}

// A history of three years: 470 runs and a million packs.
func BenchmarkThreeYears(b *testing.B) {
	y := threeYears(b, 470, 710)
	s, _ := lots.Of(slices.Values(y.entries))
	b.Run("fold", func(b *testing.B) {
		for b.Loop() {
			lots.Of(slices.Values(y.entries))
		}
		b.ReportMetric(float64(len(y.entries))*float64(b.N)/b.Elapsed().Seconds(), "entries/s")
	})
	b.Run("recall", func(b *testing.B) {
		for b.Loop() {
			if _, err := s.Recall(y.goods[0]); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("backward", func(b *testing.B) {
		for b.Loop() {
			if _, err := s.Backward("P-0-469"); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("story", func(b *testing.B) {
		for b.Loop() {
			if _, err := s.Story("P-0-469"); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("report", func(b *testing.B) {
		for b.Loop() {
			if _, err := s.Report(lots.Ask{Codes: []string{string(y.goods[0])}}, 0); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("late", func(b *testing.B) {
		e := y.entries[len(y.entries)-40]
		for b.Loop() {
			s.Commutes(e)
		}
	})
	b.Run("stock", func(b *testing.B) {
		for b.Loop() {
			s.Stock()
		}
	})
}
