package orders

import (
	"cmp"
	"slices"

	"kettlefrost/internal/record"
)

// Row is packs to be fetched from one place for one order.
type Row struct {
	Piece
	Order    string     `json:"order"`
	Customer string     `json:"customer"`
	Due      record.Day `json:"due"`
}

// PickList is what is to be fetched for the orders of a day, in the order of a walk: by place, then lot, then number. On the day itself those
// that were due before are among them.
func (a Allotment) PickList(day record.Day) []Row {
	return a.rows(func(v Served) bool { return a.isFor(v, day) })
}

// DueOn are the orders that the list of a day is for.
func (a Allotment) DueOn(day record.Day) []Served {
	return slices.Collect(func(yield func(Served) bool) {
		for _, v := range a.Orders {
			if a.isFor(v, day) && !yield(v) {
				return
			}
		}
	})
}

func (a Allotment) isFor(v Served, day record.Day) bool {
	return v.Due == day || day == a.Today && v.Due < day
}

// PickListOf is what is to be fetched for one order.
func (a Allotment) PickListOf(order string) []Row {
	return a.rows(func(v Served) bool { return v.ID == order })
}

func (a Allotment) rows(wanted func(Served) bool) []Row {
	var all []Row
	for _, v := range a.Orders {
		if !wanted(v) {
			continue
		}
		for _, p := range v.ToPick() {
			all = append(all, Row{p, v.ID, v.Customer, v.Due})
		}
	}
	slices.SortStableFunc(all, func(x, y Row) int { return cmp.Or(x.Piece.compare(y.Piece), natural(x.Order, y.Order)) })
	return all
}

// HandOver is the entries that say that everything set aside for an order left the house, one for each lot.
func (o Order) HandOver(takenBy string, address record.Text) []record.HandedOver {
	var all []record.HandedOver
	for _, p := range o.Aside {
		all = append(all, record.HandedOver{Order: o.ID, Customer: o.Customer, Lot: p.Lot, Numbers: p.Numbers, TakenBy: takenBy, Address: address})
	}
	return all
}
