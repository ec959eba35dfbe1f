package lots_test

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/trace"
	"kettlefrost/internal/unit"
)

// What is told of any history, however little of it fits: one lot is in another forward exactly when it is backward, and so much of it either way
// but for a nanogram at each cut; the mass of every lot closes; a recall counts every pack that was made once, and nothing is lost between the
// state, the recall and the report.
func TestBothWaysAgreeAndMassCloses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		entries := anyHistory(t)
		s, _ := lots.Of(slices.Values(inOrder(entries)))
		all := slices.Collect(s.All())
		into, outOf := map[[2]record.Lot]unit.Mass{}, map[[2]record.Lot]unit.Mass{}
		for _, l := range all {
			forward, err := s.Forward(l.ID)
			if err != nil {
				t.Fatal(err)
			}
			backward, err := s.Backward(l.ID)
			if err != nil {
				t.Fatal(err)
			}
			for _, x := range forward {
				into[[2]record.Lot{l.ID, x.ID}] = x.Content.Expected
			}
			for _, x := range backward {
				outOf[[2]record.Lot{x.ID, l.ID}] = x.Content.Expected
			}
			closes(t, s, l)
			countsOnce(t, s, l)
		}
		if len(into) != len(outOf) {
			t.Fatalf("%d pairs forward, %d backward", len(into), len(outOf))
		}
		for pair, mass := range into {
			back, there := outOf[pair]
			if !there || max(mass-back, back-mass) > unit.Mass(len(all)+3*len(entries)) {
				t.Fatalf("%v: %d forward, %d backward (%v)", pair, mass, back, there)
			}
		}
	})
}

func closes(t *rapid.T, s *lots.State, l *lots.Lot) {
	b, err := s.Balance(l.ID)
	if err != nil {
		t.Fatal(err)
	}
	if b.Came != b.Used+b.OnHand+b.Waste+b.Dispatched+b.Unaccounted {
		t.Fatalf("%s: %+v", l.ID, b)
	}
	if l.Sort == lots.Packs && s.MassOf(l, l.Numbers) != l.Came {
		t.Fatalf("%s: its packs weigh %d of %d", l.ID, s.MassOf(l, l.Numbers), l.Came)
	}
}

// countsOnce goes through every single pack by itself.
func countsOnce(t *rapid.T, s *lots.State, l *lots.Lot) {
	r, err := s.Recall(l.ID)
	if err != nil {
		t.Fatal(err)
	}
	var made, found, told int64
	for _, x := range r.Lots {
		seen := map[int64]int{}
		for _, line := range r.Lines {
			for k := int64(1); line.Lot == x.Lot && line.State != trace.Unknown && k <= 20; k++ {
				if line.Packs.Has(k) {
					seen[k]++
				}
			}
		}
		for k := int64(1); k <= 20; k++ {
			told += int64(seen[k])
			if x.Numbers.Has(k) {
				made++
				found += int64(min(1, seen[k]))
			}
		}
		for _, p := range r.Packs {
			for k := int64(1); p.Lot == x.Lot && k <= 20; k++ {
				if has := x.Numbers.Has(k); p.Missing.Has(k) != (has && seen[k] == 0) || p.Beyond.Has(k) != (!has && seen[k] > 0) || has && p.Twice.Has(k) != (seen[k] > 1) {
					t.Fatalf("pack %d of %s, made %v, %d times: %+v", k, x.ID, has, seen[k], p)
				}
			}
		}
	}
	if r.Made.Count != made || r.Found.Count != found || r.Told.Count != told {
		t.Fatalf("%s: made %d, found %d, told %d; want %d, %d, %d", l.ID, r.Made.Count, r.Found.Count, r.Told.Count, made, found, told)
	}
	report, err := s.Report(lots.Ask{Codes: []string{string(l.ID)}}, 0)
	if err != nil {
		t.Fatal(err)
	}
	var packs int64
	for _, c := range report.Calls {
		packs += c.Packs
	}
	for _, y := range report.OnHand {
		packs += y.Packs
	}
	for _, g := range report.Gone {
		if !g.NotFound() {
			packs += g.Packs
		}
	}
	if packs != told {
		t.Fatalf("%s: the report names %d packs, the recall %d", l.ID, packs, told)
	}
}
