package orders

import (
	"slices"
	"testing"

	"kettlefrost/internal/history"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
)

// invented is a history as its entries stand, and the days that it goes to.
func invented(t testing.TB, size history.Size) (*history.History, []record.Entry) {
	t.Helper()
	h, err := history.Make(size, 7)
	if err != nil {
		t.Fatal(err)
	}
	sealed, err := h.Sealed()
	if err != nil {
		t.Fatal(err)
	}
	var standing record.Standing
	for _, e := range sealed {
		if _, err := standing.Add(e); err != nil {
			t.Fatal(err)
		}
	}
	return h, slices.Collect(standing.All())
}

// lastDue is the last day for which a single order was given.
func lastDue(s *State) record.Day {
	var last record.Day
	for _, t := range s.told {
		if !t.standing() {
			last = max(last, t.terms[0].Due)
		}
	}
	return last
}

// Over half a year of an invented kitchen, with entries that came late, were wrong and were put right: whoever has a pack by the generator's
// own books has it here, pack by pack, and everything adds up.
func TestAgainstAnInventedHistory(t *testing.T) {
	h, entries := invented(t, history.Size{Runs: 78, Packs: 60})
	s, _ := Of(slices.Values(entries))
	n, checked := 0, 0
	for _, p := range h.Packs {
		have := map[int64]string{}
		for _, x := range s.byLot[p.Lot] {
			for r := range x.Numbers.Minus(x.Back).Ranges() {
				for k := r.First; k <= r.Last; k++ {
					have[k] = x.Customer
				}
			}
		}
		for i, at := range p.At {
			want := ""
			if at.State == history.With {
				want, n = at.Where, n+1
			}
			if checked++; have[int64(i+1)] != want {
				t.Fatalf("pack %d of %s is with %q, and the generator has it with %q", i+1, p.Lot, have[int64(i+1)], want)
			}
		}
	}
	if n < 1000 {
		t.Errorf("only %d of %d packs are with anybody: this checks little", n, checked)
	}
	today := lastDue(s)
	for _, o := range s.Dated(today, Plus(today, 28)) {
		for _, l := range o.Lines {
			if l.Count != l.Aside+l.Gone+l.Open+l.Off {
				t.Errorf("%s: %+v does not add up", o.ID, l)
			}
		}
	}
	stock, _ := lots.Of(slices.Values(entries))
	a, err := s.Allot(stock, today, Plus(today, 28))
	if err != nil || a.Check() != nil {
		t.Error(err, a.Check())
	}
	var given int64
	for _, v := range a.Orders {
		for _, g := range v.Gets {
			given += g.Packs
		}
	}
	if given == 0 {
		t.Error("nobody gets anything: this checks little")
	}
}

// Three years: some 470 productions, and what a page about orders works out each time it is shown.
func BenchmarkThreeYears(b *testing.B) {
	_, entries := invented(b, history.ThreeYears)
	s, _ := Of(slices.Values(entries))
	stock, _ := lots.Of(slices.Values(entries))
	today := lastDue(s)
	b.Run("fold", func(b *testing.B) {
		for b.Loop() {
			Of(slices.Values(entries))
		}
	})
	b.Run("live", func(b *testing.B) {
		for b.Loop() {
			s.Live(today, Plus(today, 28))
		}
	})
	b.Run("allot", func(b *testing.B) {
		for b.Loop() {
			if _, err := s.Allot(stock, today, Plus(today, 28)); err != nil {
				b.Fatal(err)
			}
		}
	})
}
