package web

import (
	"cmp"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/orders"
	"kettlefrost/internal/record"
)

// deliveriesPage is all that templates/orderroute.html may show: the deliveries of a day in the order in which they are driven.
type deliveriesPage struct {
	shell
	Day           string
	Action, Entry string
	Before, After string
	Stops         []stopRow
}

// stopRow is one delivery.
type stopRow struct {
	ID, URL, Place    string // its place in the order, from 1
	Customer, Address string
	Phone, Note       string
	Packs             string
	State             stateView
}

var deliveriesTemplate = parse[deliveriesPage]("orderroute")

func (s *server) showDeliveries(w http.ResponseWriter, r *http.Request) {
	day, ok := s.readDay(r)
	if !ok {
		book, _ := s.house.Book()
		s.missing(w, r, book, "That is no day: write it as in /route/2026-12-04, or /route/today.")
		return
	}
	s.atShop(w, r, "Deliveries", func(x shop) (func(), error) {
		v := deliveriesPage{shell: x.sh, Day: dayText(day, x.Today), Action: routePath + string(day), Entry: newEntryID(), Before: routePath + string(orders.Plus(day, -1)), After: routePath + string(orders.Plus(day, 1))}
		a, err := x.allot(day)
		for i, o := range x.Route(day, x.Today) {
			got, _ := a.Of(o.ID)
			c := x.Customer(o.Customer)
			v.Stops = append(v.Stops, stopRow{ID: o.ID, URL: orderURL(o.ID), Place: strconv.Itoa(i + 1), Customer: c.Name, Address: string(c.Address), Phone: c.Phone, Note: strings.TrimSpace(string(o.Note) + "\n" + string(c.Note)), Packs: times(int(o.Packs()), "pack", "packs"), State: stateOf(o, got)})
		}
		return func() { deliveriesTemplate.show(w, http.StatusOK, v) }, err
	})
}

// setDeliveries sets the order in which the deliveries of a day are driven: by the numbers typed, and as they were where those are the same.
func (s *server) setDeliveries(w http.ResponseWriter, r *http.Request) {
	day, ok := s.readDay(r)
	if !ok || r.ParseForm() != nil {
		s.showDeliveries(w, r)
		return
	}
	type stop struct {
		id    string
		place float64 // 2.5 is between 2 and 3
	}
	var stops []stop
	for i, id := range r.PostForm["stop"] {
		place, err := strconv.ParseFloat(strings.ReplaceAll(nth(r.PostForm["place"], i), ",", "."), 64)
		if err != nil {
			place = float64(i + 1)
		}
		stops = append(stops, stop{id, place})
	}
	slices.SortStableFunc(stops, func(a, b stop) int { return cmp.Compare(a.place, b.place) })
	var ids []string
	err := s.records.Desk(r.Context(), app.Today(s.house.Now()), func(d app.Desk) error {
		for _, x := range stops {
			if o, ok := d.Order(x.id, d.Today); ok && o.Due == day && !slices.Contains(ids, x.id) {
				ids = append(ids, x.id)
			}
		}
		return nil
	})
	switch {
	case err != nil:
		status, text := trouble(err)
		s.refuse(w, r, status, text)
	case len(ids) == 0:
		s.refuse(w, r, http.StatusUnprocessableEntity, "No delivery of that day was named.")
	default:
		s.enter(w, r, routePath+string(day), record.Routed{Day: day, Orders: ids})
	}
}
