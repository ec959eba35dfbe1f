package app

import (
	"context"
	"maps"
	"slices"
	"time"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/orders"
	"kettlefrost/internal/record"
)

// Horizon is how many days ahead standing orders are looked at and given packs when nobody says otherwise.
const Horizon = 28

// Desk is what is ordered and what there is, as it stands now. It is lent: it is not to be changed, nor kept.
type Desk struct {
	*orders.State
	Stock *lots.State
	Found finding.List // about the entries that made both
	Today record.Day
}

// Desk shows what is ordered and what there is on a day.
func (r *Records) Desk(ctx context.Context, today record.Day, at func(Desk) error) error {
	if err := r.together(ctx, r.lots); err != nil {
		return err
	}
	return look(ctx, r, r.orders, func(s *orders.State, found finding.List) error {
		return at(Desk{s, r.lots.state, found, today})
	})
}

// Allot works out which packs go to which orders, up to a last day for standing ones.
func (d Desk) Allot(until record.Day) (orders.Allotment, error) {
	return d.State.Allot(d.Stock, d.Today, until)
}

// Today is the day by a clock on the wall.
func Today(now time.Time) record.Day { return record.Day(now.Format(time.DateOnly)) }

// PacksOf is the kinds of packs that a book sells, in the order of their names.
func PacksOf(book kitchen.Book) []string {
	var all []string
	for _, id := range slices.Sorted(maps.Keys(book.Packs)) {
		all = append(all, string(id))
	}
	return all
}

// Order enters a draft: said says by whom, with what and when. When something speaks against it, it tells what and enters nothing; a
// question alone does not when somebody is sure. What is sent twice is entered once: the second time gives the number of the first. Errors are
// as of Enter.
func (r *Records) Order(ctx context.Context, said Said, d orders.Draft, packs []string, sure bool) (number string, against []orders.Problem, err error) {
	r.ordering.Lock() // no two orders get one number
	defer r.ordering.Unlock()
	if number, there, err := r.ordered(ctx, said.ID); there || err != nil {
		return number, nil, err
	}
	err = r.Desk(ctx, Today(said.At), func(desk Desk) error {
		against = desk.Check(d, packs, desk.Today)
		if body, corrects := desk.Entry(d, desk.Today); len(against) == 0 || sure && !orders.Refused(against) {
			said.Body, said.Corrects, number, against = body, corrects, body.Order, nil
		}
		return nil
	})
	if err != nil || len(against) > 0 {
		return "", against, err
	}
	_, err = r.Enter(ctx, said)
	return number, nil, err
}

// Taken is the entry of an ID as it was taken in, whatever became of it; false when there is none.
func (r *Records) Taken(ctx context.Context, id record.ID) (e record.Entry, there bool, err error) {
	return r.store.ByID(ctx, id)
}

// ordered is the number of the order that an entry gave, and false when there is no such entry.
func (r *Records) ordered(ctx context.Context, id record.ID) (number string, there bool, err error) {
	if id == (record.ID{}) {
		return "", false, nil
	}
	e, there, err := r.store.ByID(ctx, id)
	if !there || err != nil {
		return "", false, err
	}
	body, err := record.Decode(e.Kind, e.Body)
	if o, ok := body.(record.Ordered); ok {
		return o.Order, true, err
	}
	return "", false, err
}

// OrdersSchema names the shape of an OrderSheet.
const OrdersSchema = "kettlefrost.orders/1"

// OrderSheet is every order that wants packs, what each gets, the standing orders, and what does not fit, as one value.
type OrderSheet struct {
	Schema string `json:"schema"`
	orders.Allotment
	Standing []orders.Standing `json:"standing"`
	Misfits  finding.List      `json:"misfits,omitempty"` // about entries that do not fit
}

// Sheet puts what is open beside an allotment.
func (d Desk) Sheet(a orders.Allotment) OrderSheet {
	a.Orders = append([]orders.Served{}, a.Orders...)
	v := OrderSheet{Schema: OrdersSchema, Allotment: a, Misfits: d.Found, Standing: []orders.Standing{}}
	for _, id := range d.StandingIDs() {
		if x, ok := d.State.Standing(id, d.Today); ok {
			v.Standing = append(v.Standing, x)
		}
	}
	return v
}
