package app

import (
	"sync"

	"kettlefrost/internal/ledger"
	"kettlefrost/internal/lots"
)

// Deliveries are all packs that customers had and did not bring back, by lot. Those that the records cannot tell from where they came are among
// them: somebody had them.
func (t Till) Deliveries() []ledger.Delivery {
	var all []ledger.Delivery
	for l := range t.Stock.All() {
		pack := l.What
		if pack == "" {
			pack = "lot " + string(l.ID) // which the book does not know: it is found, not lost
		}
		for _, handed := range [][]lots.Handing{l.Handed, l.Doubted} {
			for _, h := range handed {
				all = append(all, ledger.Delivery{Goods: ledger.Goods{Customer: h.Customer, Order: h.Order, Pack: pack}, Count: h.Numbers.Count(), Day: t.dayOf(h.At)})
			}
		}
	}
	return all
}

// unbilled is what no invoice has. It is worked out when somebody first asks, and holds until the ledger or the lots change.
type unbilled struct {
	bills, lots int // the turns of both that it follows from
	once        sync.Once
	open, over  []ledger.Delivery
	of          map[string][]ledger.Delivery // open, by customer
}

// unbilledNow is what was worked out last, or begins anew when something has changed since. It needs the lock, to read.
func (r *Records) unbilledNow() *unbilled {
	known := r.unbilled.Load()
	if known == nil || known.bills != r.bills.turn || known.lots != r.lots.turn {
		known = &unbilled{bills: r.bills.turn, lots: r.lots.turn}
		r.unbilled.Store(known)
	}
	return known
}

// Unbilled are the packs that customers had and no invoice has, and those that were billed and came back: see ledger.State.Unbilled. They are lent,
// too.
func (t Till) Unbilled() (open, over []ledger.Delivery) {
	k := t.known
	k.once.Do(func() {
		k.open, k.over = t.State.Unbilled(t.Deliveries())
		k.of = map[string][]ledger.Delivery{}
		for _, d := range k.open {
			k.of[d.Customer] = append(k.of[d.Customer], d)
		}
	})
	return k.open, k.over
}

// unbilledOf is what a customer had and no invoice has.
func (t Till) unbilledOf(customer string) []ledger.Delivery {
	t.Unbilled()
	return t.known.of[customer]
}
