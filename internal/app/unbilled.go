package app

import (
	"sync"

	"kettlefrost/internal/invoice"
	"kettlefrost/internal/ledger"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
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

// unbilled is what no invoice has, and what an audit found. Each is worked out when somebody first asks, and holds until the ledger or the lots change.
type unbilled struct {
	bills, lots int // the turns of both that it follows from
	once        sync.Once
	open, over  []ledger.Delivery
	of          map[string][]ledger.Delivery // open, by customer

	mu      sync.Mutex
	audited map[auditAsk]ledger.Audit
}

// auditAsk is by what numbers and up to which day an audit looks.
type auditAsk struct {
	invoices, credits invoice.Series
	day               record.Day
}

// unbilledNow is what was worked out last, or begins anew when something has changed since. It needs the lock, to read.
func (r *Records) unbilledNow() *unbilled {
	known := r.unbilled.Load()
	if known == nil || known.bills != r.bills.turn || known.lots != r.lots.turn {
		known = &unbilled{bills: r.bills.turn, lots: r.lots.turn, audited: map[auditAsk]ledger.Audit{}}
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

// Audit is as ledger.State.Audit. Its findings are lent, too.
func (t Till) Audit(invoices, credits invoice.Series, day record.Day) ledger.Audit {
	k, ask := t.known, auditAsk{invoices, credits, day}
	k.mu.Lock()
	defer k.mu.Unlock()
	a, done := k.audited[ask]
	if !done {
		a = t.State.Audit(invoices, credits, day)
		k.audited[ask] = a
	}
	return a
}
