package allocation

import (
	"math/rand/v2"
	"reflect"
	"testing"

	"pgregory.net/rapid"
)

// drawStock draws a freezer of any kind, with promises of an earlier day.
func drawStock(t *rapid.T) Stock {
	n := func(least, most int, name string) int { return rapid.IntRange(least, most).Draw(t, name) }
	s := Stock{Today: 50, Keep: Keep(n(0, 1, "keep"))}
	for range n(1, 8, "lots") {
		l := Lot{Product: n(0, 1, "product"), BestBefore: n(48, 70, "best before"), Packs: n(0, 12, "packs"), Held: n(0, 5, "held") == 0}
		if l.Packs > 4 && rapid.Bool().Draw(t, "numbered") {
			l.Free = []Range{{5, 7}, {20, 20 + l.Packs - 4}}
		}
		s.Lots = append(s.Lots, l)
	}
	for range n(1, 8, "orders") {
		o := Order{Due: n(48, 60, "due"), LeastLife: n(0, 12, "life"), Whole: n(0, 3, "whole") == 0, MostLots: max(0, n(-3, 2, "most lots"))}
		for range n(1, 2, "lines") {
			o.Lines = append(o.Lines, Line{n(0, 1, "product"), n(0, 15, "packs")})
		}
		s.Orders = append(s.Orders, o)
	}
	for range n(0, 4, "promises") {
		p := Promise{Order: n(0, len(s.Orders)-1, "order"), Lot: n(0, len(s.Lots)-1, "lot"), Packs: n(0, 6, "promised")}
		if s.Lots[p.Lot].Product == s.Orders[p.Order].Lines[0].Product {
			s.Promises = append(s.Promises, p)
		}
	}
	return s
}

func allocated(t rapid.TB, s Stock) Plan {
	t.Helper()
	p, err := Allocate(s)
	if err != nil {
		t.Fatal(err)
	}
	if err := Check(s, p); err != nil {
		t.Fatalf("%v\n%+v\n%+v", err, s, p)
	}
	return p
}

func TestNothingIsGivenThatMustNotBe(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawStock(t)
		s.Steps = rapid.SampledFrom([]int{0, 1, 100}).Draw(t, "steps")
		p := allocated(t, s)
		if !reflect.DeepEqual(p, allocated(t, s)) {
			t.Error("the same stock gives two plans")
		}
	})
}

// What of a promise does not stand is moved, and counted as such.
func TestPromisesStandOrAreSaidToMove(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawStock(t)
		p := allocated(t, s)
		promised, moved, kept := 0, 0, 0
		for _, pr := range s.Promises {
			promised += pr.packs()
		}
		for _, m := range p.Moves {
			if m.Packs <= 0 || m.Why == ServesOther && s.Keep == KeepLots {
				t.Errorf("moved for no reason: %+v", m)
			}
			moved += m.Packs
		}
		for _, l := range p.Lines {
			for _, take := range l.Takes {
				kept += take.Promised
			}
		}
		if promised != moved+kept {
			t.Errorf("%d promised, %d kept, %d moved", promised, kept, moved)
		}
	})
}

// A plan promised as it is stays as it is when nothing happens.
func TestAPlanThatIsPromisedStays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawStock(t)
		s.Promises = nil
		p := allocated(t, s)
		for _, l := range p.Lines {
			for _, take := range l.Takes {
				s.Promises = append(s.Promises, Promise{Order: l.Order, Line: l.Line, Lot: take.Lot, Packs: take.Packs})
			}
		}
		again := allocated(t, s)
		if len(again.Moves) > 0 {
			t.Errorf("moved: %+v", again.Moves)
		}
		for i, l := range again.Lines {
			if l.Packs != p.Lines[i].Packs || len(l.Takes) != len(p.Lines[i].Takes) {
				t.Errorf("line %d gets %+v, was promised %+v", i, l.Takes, p.Lines[i].Takes)
			}
		}
	})
}

// An order that comes in takes nothing from those that are served before it.
func TestALaterOrderHurtsNoEarlierOne(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawStock(t)
		s.Promises = nil
		before := allocated(t, s)
		s.Orders = append(s.Orders, Order{Due: 80, Lines: []Line{{0, 9}}}, Order{Due: 60, LeastLife: 10, Lines: []Line{{0, 9}, {1, 5}}})
		after := allocated(t, s)
		if !before.Proved || !after.Proved {
			return // the search ran out of steps, and says so
		}
		for i, l := range before.Lines {
			if after.Lines[i].Order != l.Order || after.Lines[i].Packs != l.Packs {
				t.Errorf("line %d got %d, now %d", i, l.Packs, after.Lines[i].Packs)
			}
		}
	})
}

// crowded is a freezer with so many lots, and as many order lines of so many products, one in fewEvery wanting one lot only.
func crowded(seed uint64, lots, lines, products, fewEvery int) Stock {
	rng := rand.New(rand.NewPCG(seed, 1))
	s := Stock{Today: 1000}
	for range lots {
		s.Lots = append(s.Lots, Lot{Product: rng.IntN(products), BestBefore: 1000 + rng.IntN(270), Packs: 5 + rng.IntN(200), Held: rng.IntN(40) == 0})
	}
	for i := range lines {
		o := Order{Due: 1000 + rng.IntN(60), LeastLife: []int{0, 0, 30, 60, 90}[rng.IntN(5)], Lines: []Line{{rng.IntN(products), 1 + rng.IntN(200)}}}
		if fewEvery > 0 && i%fewEvery == 0 {
			o.MostLots = 1
		}
		s.Orders = append(s.Orders, o)
	}
	return s
}

func TestACrowdedFreezer(t *testing.T) {
	for seed := range uint64(3) {
		p := allocated(t, crowded(seed, 500, 500, 20, 10))
		unproved := 0
		for _, l := range p.Lines {
			if !l.Proved {
				unproved++
			}
		}
		if unproved > 10 {
			t.Errorf("seed %d: %d of 500 lines are not proved to get all they can", seed, unproved)
		}
	}
}

func BenchmarkAllocate(b *testing.B) {
	for _, c := range []struct {
		name               string
		products, fewEvery int
	}{{"20 products", 20, 0}, {"one product", 1, 0}, {"20 products, each tenth line one lot", 20, 10}, {"20 products, each line one lot", 20, 1}, {"one product, each tenth line one lot", 1, 10}} {
		b.Run(c.name, func(b *testing.B) {
			s := crowded(1, 500, 500, c.products, c.fewEvery)
			for b.Loop() {
				if _, err := Allocate(s); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
