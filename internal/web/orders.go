package web

import (
	"cmp"
	"net/http"
	"net/url"
	"strings"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/orders"
	"kettlefrost/internal/record"
)

const (
	ordersPath    = "/orders"
	orderPath     = "/order/"
	customersPath = "/customers"
	customerPath  = "/customer/"
	pickPath      = "/pick/"
	routePath     = "/route/"
)

// orderRoutes are orders and customers.
func (s *server) orderRoutes(mux *http.ServeMux) {
	mux.HandleFunc("GET "+ordersPath, s.showOrders)
	mux.HandleFunc("GET "+ordersPath+".json", s.showOrdersJSON)
	mux.HandleFunc("GET "+ordersPath+"/new", s.showOrderForm)
	mux.HandleFunc("POST "+ordersPath+"/new", s.entering(s.enterOrder))
	mux.HandleFunc("GET "+orderPath+"{id}", s.showOrder)
	mux.HandleFunc("GET "+orderPath+"{id}/change", s.showOrderForm)
	mux.HandleFunc("POST "+orderPath+"{id}/change", s.entering(s.enterOrder))
	mux.HandleFunc("GET "+orderPath+"{id}/slip", s.showSlip)
	mux.HandleFunc("POST "+orderPath+"{id}/cancel", s.entering(s.cancelOrder))
	mux.HandleFunc("POST "+orderPath+"{id}/pick", s.entering(s.pickForOrder))
	mux.HandleFunc("POST "+orderPath+"{id}/back", s.entering(s.putBack))
	mux.HandleFunc("POST "+orderPath+"{id}/hand", s.entering(s.handOver))
	mux.HandleFunc("POST "+orderPath+"{id}/return", s.entering(s.takeReturn))
	mux.HandleFunc("GET "+customersPath, s.showCustomers)
	mux.HandleFunc("GET "+customersPath+"/new", s.showNewCustomer)
	mux.HandleFunc("POST "+customersPath+"/new", s.entering(s.enterCustomer))
	mux.HandleFunc("GET "+customerPath+"{id}", s.showCustomer)
	mux.HandleFunc("POST "+customerPath+"{id}", s.entering(s.enterCustomer))
	mux.HandleFunc("GET "+pickPath+"{day}", s.showPick)
	mux.HandleFunc("POST "+pickPath+"{day}", s.entering(s.pickForDay))
	mux.HandleFunc("GET "+routePath+"{day}", s.showDeliveries)
	mux.HandleFunc("POST "+routePath+"{day}", s.entering(s.setDeliveries))
}

func orderURL(id string) string    { return orderPath + url.PathEscape(id) }
func customerURL(id string) string { return customerPath + url.PathEscape(id) }

// shop is what a page about orders is made of: the book and its shell are looked up before what is ordered is lent.
type shop struct {
	app.Desk
	book kitchen.Book
	rd   reader
	sh   shell
}

// pack is what a pack is called.
func (x shop) pack(id string) string {
	if id == "" {
		return "of a kind that nobody knows"
	}
	return cmp.Or(x.book.Packs[kitchen.PackID(id)].Name, id)
}

// name is what a customer is called.
func (x shop) name(id string) string { return x.Customer(id).Name }

// allot works out who gets what, over the usual horizon or up to a later day.
func (x shop) allot(until record.Day) (orders.Allotment, error) {
	return x.Allot(max(until, orders.Plus(x.Today, app.Horizon)))
}

// atShop shows something of what is ordered. What is looked at is lent: at returns what then shows it, to however slow a browser. Without
// records the page of the orders says how to keep them.
func (s *server) atShop(w http.ResponseWriter, r *http.Request, title string, at func(shop) (show func(), err error)) {
	book, _ := s.house.Book()
	x := shop{book: book, rd: readerOf(book.Kitchen, r), sh: s.inShell(r, book.Kitchen, title, orderPlace(r.URL.Path))}
	if s.records == nil {
		ordersTemplate.show(w, http.StatusOK, ordersPage{shell: x.sh, None: true})
		return
	}
	var show func()
	err := s.records.Desk(r.Context(), app.Today(s.house.Now()), func(d app.Desk) (err error) {
		x.Desk = d
		show, err = at(x)
		return err
	})
	if err != nil {
		ordersTemplate.show(w, http.StatusInternalServerError, ordersPage{shell: x.sh, Problem: sentence(err)})
		return
	}
	show()
}

// orderPlace is the key of the place that an address about orders belongs to.
func orderPlace(path string) string {
	if strings.HasPrefix(path, customersPath) || strings.HasPrefix(path, customerPath) {
		return "customers"
	}
	return "orders"
}

// sentBefore answers a form whose entry is there already: as it was answered the first time.
func (s *server) sentBefore(w http.ResponseWriter, r *http.Request, back string) bool {
	id, err := record.ParseID(r.PostFormValue(entryField))
	if err != nil || id == (record.ID{}) {
		return false
	}
	_, there, err := s.records.Taken(r.Context(), id)
	if !there || err != nil {
		return false
	}
	http.Redirect(w, r, withDid(back, id.String()+"-1"), http.StatusSeeOther)
	return true
}

// dayText is a day as people say it: today, tomorrow, Friday 4 December; with its year when that is another.
func dayText(day, today record.Day) string {
	t, err := time.Parse(time.DateOnly, string(day))
	if err != nil {
		return cmp.Or(string(day), "no day")
	}
	layout := "Monday 2 January"
	if len(today) < 4 || day[:4] != today[:4] {
		layout += " 2006"
	}
	text := t.Format(layout)
	switch orders.Days(today, day) {
	case -1:
		return "yesterday, " + text
	case 0:
		return "today, " + text
	case 1:
		return "tomorrow, " + text
	}
	return text
}

// readDay is the day of an address: a date, or today.
func (s *server) readDay(r *http.Request) (record.Day, bool) {
	text := r.PathValue("day")
	if text == "today" {
		return app.Today(s.house.Now()), true
	}
	_, err := time.Parse(time.DateOnly, text)
	return record.Day(text), err == nil
}

// clockText is a moment as people read it, by the kitchen's clock.
func (s *server) clockText(at record.Instant) string {
	return time.UnixMilli(int64(at)).In(s.house.Now().Location()).Format("Mon 2 Jan 2006, 15:04")
}
