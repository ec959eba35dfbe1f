package lots

import (
	"cmp"
	"fmt"
	"slices"

	"kettlefrost/internal/record"
	"kettlefrost/internal/trace"
	"kettlefrost/internal/unit"
)

// Report is the recall of what an Ask means, as of a time. Errors are as of ReadCode, and *trace.InputError.
func (s *State) Report(a Ask, at record.Instant) (Report, error) {
	found, err := s.Find(a)
	if err != nil {
		return Report{}, err
	}
	reach, err := s.follow(s.graph.Forward, found.Lots)
	if err != nil {
		return Report{}, err
	}
	r, err := s.Recall(found.Lots...)
	if err != nil {
		return Report{}, err
	}
	report := Report{Schema: RecallSchema, Asked: a.Words(), Of: found.Lots, Unsure: found.Unsure, At: at, Account: r.account(), Calls: r.calls(), OnHand: s.stays(r),
		Bulk: bulkRows(r.Bulk), Pots: bulkRows(r.Pots), Lots: s.reportLots(r.Lots), Flows: s.flows(reach)}
	for _, l := range r.Lines {
		if named := l.Packs.Intersect(found.Packs[l.Lot.ID]); !named.Empty() {
			report.Named = append(report.Named, Named{l.Lot.ID, named.String(), l.State.String(), l.Where, l.At})
		}
		if l.State != trace.OnHand && l.State != trace.Handed {
			report.Gone = append(report.Gone, Gone{l.Lot.ID, l.Lot.What, l.State.String(), l.Packs.String(), l.Packs.Count(), l.Mass})
		}
	}
	return report, nil
}

func (r Recall) account() Account {
	a := Account{Made: r.Made.Count, Found: r.Found.Count, Told: r.Told.Count, Share: r.Share(), Ratio: r.Ratio(), MadeMass: r.Made.Mass, FoundMass: r.Found.Mass,
		BulkMass: r.Came, BulkOpen: r.Open, PacksComplete: r.PacksComplete(), Complete: r.Complete()}
	for _, p := range r.Packs {
		a.Packs = append(a.Packs, PacksRow{p.Lot.ID, p.Lot.What, p.Made, p.Found, p.Told, p.Missing.String(), p.Twice.String(), p.Beyond.String()})
	}
	return a
}

// calls puts what was handed over together by customer.
func (r Recall) calls() []Call {
	calls := []Call{}
	at := map[string]int{}
	for _, l := range r.Lines {
		if l.State != trace.Handed {
			continue
		}
		i, there := at[l.Customer.Customer]
		if !there {
			i = len(calls)
			at[l.Customer.Customer] = i
			c := l.Customer
			calls = append(calls, Call{Customer: c.Customer, Name: c.Name, Phone: c.Phone, Mail: c.Mail, Address: string(c.Address)})
		}
		c := &calls[i]
		c.Items = append(c.Items, l.item())
		c.Packs += l.Packs.Count()
		c.Mass += l.Mass
	}
	for _, c := range calls {
		slices.SortFunc(c.Items, func(a, b CallItem) int {
			return cmp.Or(cmp.Compare(a.At, b.At), cmp.Compare(a.Lot, b.Lot), cmp.Compare(a.Numbers, b.Numbers))
		})
	}
	for i := range calls {
		calls[i].First = calls[i].Items[0].At
	}
	slices.SortFunc(calls, func(a, b Call) int { return cmp.Or(cmp.Compare(a.First, b.First), cmp.Compare(a.Customer, b.Customer)) })
	return calls
}

func (l RecallLine) item() CallItem {
	x := CallItem{Lot: l.Lot.ID, What: l.Lot.What, Numbers: l.Packs.String(), Packs: l.Packs.Count(), Mass: l.Mass, BestBefore: l.Lot.BestBefore, At: l.At, Order: l.Order, TakenBy: l.TakenBy, Doubted: l.Doubted}
	if l.Address != l.Customer.Address {
		x.Address = string(l.Address)
	}
	return x
}

// stays is everything on hand of the lots of a recall.
func (s *State) stays(r Recall) []Stay {
	stays := []Stay{}
	for _, x := range r.Lots {
		stays = append(stays, s.staysOf(x.Lot)...)
	}
	return stays
}

// staysOf is where a lot is on hand.
func (s *State) staysOf(l *Lot) []Stay {
	var stays []Stay
	for place, a := range l.places() {
		y := Stay{Lot: l.ID, Sort: l.Sort, What: l.What, Place: place, Numbers: a.Numbers.String(), Packs: a.Numbers.Count(), Mass: a.Mass + s.MassOf(l, a.Numbers)}
		if y.Held, y.Free = l.heldAt(a); y.Held != "" {
			y.Why = l.Holds[len(l.Holds)-1].Why
		}
		stays = append(stays, y)
	}
	return stays
}

// heldAt says what of an amount is held, and whether some of it is not.
func (l *Lot) heldAt(a Amount) (held string, free bool) {
	if a.Numbers.Empty() {
		if l.Held() {
			return "all", false
		}
		return "", true
	}
	n := l.HeldOf(a.Numbers)
	if n.Equal(a.Numbers) {
		return "all", false
	}
	return n.String(), true
}

// ToHold is the lots of which something that is on hand is not held.
func (r Report) ToHold() []record.Lot {
	var ids []record.Lot
	for _, y := range r.OnHand {
		if y.Free && !slices.Contains(ids, y.Lot) {
			ids = append(ids, y.Lot)
		}
	}
	return ids
}

func bulkRows(counts []BulkCount) []BulkRow {
	var rows []BulkRow
	for _, b := range counts {
		rows = append(rows, BulkRow{b.Lot.ID, b.Lot.What, b.Came, b.Used, b.OnHand, b.Waste, b.Unaccounted})
	}
	return rows
}

func (s *State) reportLots(reach []Reached) []ReportLot {
	rows := []ReportLot{}
	for _, x := range reach {
		came := x.Came
		if x.Sort == Pot {
			came = s.graph.Into(x.node)
		}
		rows = append(rows, ReportLot{Lot: x.ID, Sort: x.Sort, What: x.What, Run: x.Run, Supplier: x.Supplier, SupplierLot: x.SupplierLot, Born: x.Born, Came: came,
			Steps: x.Layer, Asked: x.Asked, Expected: x.Content.Expected, Least: x.Content.Least, Most: x.Content.Most})
	}
	return rows
}

// flows is what went from lot to lot along a reach, each pair once.
func (s *State) flows(reach trace.Reach) []Flow {
	sum := map[[2]int]unit.Mass{}
	for _, c := range reach.Flows {
		f := s.graph.Flow(c.Flow)
		sum[[2]int{f.From, f.To}] += f.Mass
	}
	var flows []Flow
	for pair, mass := range sum {
		from, to := s.byNode[pair[0]], s.byNode[pair[1]]
		flows = append(flows, Flow{from.ID, to.ID, mass, to.Sort == Pot && (from.Sort == Batch || from.Sort == Packs)})
	}
	slices.SortFunc(flows, func(a, b Flow) int { return cmp.Or(cmp.Compare(a.From, b.From), cmp.Compare(a.To, b.To)) })
	return flows
}

// Troubles is what is not accounted for, each in words.
func (r Report) Troubles(units unit.System) []string {
	var all []string
	for _, p := range r.Account.Packs {
		for _, x := range []struct{ numbers, words string }{{p.Missing, "no place is known of no. %s"}, {p.Twice, "two places are told of no. %s"}, {p.Beyond, "no. %s were never packed, and the records tell where they are"}} {
			if x.numbers != "" {
				all = append(all, fmt.Sprintf("Lot %s: "+x.words+".", p.Lot, x.numbers))
			}
		}
	}
	for _, b := range r.Bulk {
		switch {
		case b.Unaccounted > 0:
			all = append(all, fmt.Sprintf("Lot %s: %s unaccounted for.", b.Lot, b.Unaccounted.Show(units)))
		case b.Unaccounted < 0:
			all = append(all, fmt.Sprintf("Lot %s: %s more than came.", b.Lot, (-b.Unaccounted).Show(units)))
		}
	}
	return all
}
