package orders

import (
	"slices"
	"testing"

	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"

	"pgregory.net/rapid"
)

// shelf is the slow twin of what is on hand and kept to be tasted, pack by pack.
type shelf struct {
	here, kept map[pack]bool
	with       map[pack]string // the customer that has it
}

func (s *shelf) take(b record.Body) {
	each := func(lot record.Lot, n record.Numbers, do func(pack)) {
		for r := range n.Ranges() {
			for k := r.First; k <= r.Last; k++ {
				do(pack{lot, k})
			}
		}
	}
	switch b := b.(type) {
	case record.Packed:
		each(b.Lot, b.Numbers, func(p pack) { s.here[p] = true })
	case record.HandedOver:
		each(b.Lot, b.Numbers, func(p pack) {
			if s.here[p] {
				s.with[p], s.here[p] = b.Customer, false
			}
		})
	case record.Returned:
		each(b.Lot, b.Numbers, func(p pack) {
			if s.with[p] == b.Customer {
				s.here[p] = true
				delete(s.with, p)
			}
		})
	case record.WrittenOff:
		each(b.Lot, b.Numbers, func(p pack) { s.here[p] = false })
	case record.Tasted:
		each(b.Lot, b.Numbers, func(p pack) { s.here[p] = false })
	case record.SetAside:
		each(b.Lot, b.Numbers, func(p pack) { s.kept[p] = s.kept[p] || s.here[p] })
	}
}

// Whatever happens: no order is promised, given, or may pick or be handed a pack that is kept to be tasted.
func TestNoOrderGetsAPackThatIsKeptForTasting(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		bodies := draw(rt)
		twin := shelf{map[pack]bool{}, map[pack]bool{}, map[pack]string{}}
		for _, b := range bodies {
			twin.take(b)
		}
		s := tell(t, bodies...)
		state, _ := s.fold()
		stock, _ := lots.Of(slices.Values(s.entries))
		a, err := state.Allot(stock, "2026-12-01", "2026-12-20")
		if err != nil {
			rt.Fatal(err)
		}
		for _, v := range a.Orders {
			for _, g := range v.Gets {
				for _, p := range g.Pieces {
					for k := int64(1); k <= 20; k++ {
						if p.Numbers.Has(k) && twin.kept[pack{p.Lot, k}] {
							rt.Errorf("%s gets pack %d of %s, which is kept for tasting", v.ID, k, p.Lot)
						}
					}
				}
			}
		}
		for _, o := range state.Dated("2026-12-01", "2026-12-20") {
			for p := range twin.kept {
				if !twin.kept[p] || !twin.here[p] {
					continue
				}
				n, err := record.NumbersOf(record.Range{First: p.no, Last: p.no})
				if err != nil {
					rt.Fatal(err)
				}
				if against := state.JudgePick(a, stock, o.ID, p.lot, n); !slices.ContainsFunc(against, func(x Objection) bool { return !x.Ask }) {
					rt.Errorf("pack %d of %s may be picked for %s: %v", p.no, p.lot, o.ID, against)
				}
				inBox := slices.ContainsFunc(o.Aside, func(x Parcel) bool { return x.Lot == p.lot && x.Numbers.Has(p.no) })
				if against := state.JudgeHanding(o, stock, "2026-12-01"); inBox && !slices.ContainsFunc(against, func(x Objection) bool { return x.Code == IsKept }) {
					rt.Errorf("pack %d of %s may be handed over for %s: %v", p.no, p.lot, o.ID, against)
				}
			}
		}
	})
}

// By hand: of ten packs the two oldest are kept to be tasted, so that an order of ten is two short, and says so; a pack of them that was put into
// a customer's box before is told.
func TestKeptPacksAreForNobody(t *testing.T) {
	keep := record.SetAside{Pack: "soup", Lot: "S-1", Numbers: nos("1-2"), Open: []record.Day{"2027-01-05"}}
	a := allot(t, lotOf("S-1", "soup", 10, "2027-06-01", "chest-1"), order("O-1", "cafe", "2026-12-04", line("soup", 10)), record.Picked{Order: "O-1", Lot: "S-1", Numbers: nos("2-4")}, keep)
	if got, want := gets(a), []string{"O-1: *S-1 3-4, S-1 5-10, 2 none-left"}; !slices.Equal(got, want) || !slices.Equal(codes(a.Findings), []string{CodePickedKept}) || a.Free["soup"] != 0 {
		t.Errorf("%q, free %d, found %v", got, a.Free["soup"], a.Findings)
	}
	if why := a.Orders[0].Gets[0].Short[0].Why; why != "no pack is left that an earlier order does not get; 2 are kept to be opened and tasted" {
		t.Error(why)
	}
}
