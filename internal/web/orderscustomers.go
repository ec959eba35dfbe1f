package web

import (
	"net/http"
	"strconv"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/orders"
	"kettlefrost/internal/record"
)

// customersPage is all that templates/customers.html may show: who buys.
type customersPage struct {
	shell
	Customers []customerRow
}

// customerRow is a customer in short.
type customerRow struct{ URL, Name, Address, Phone, Prices, Open string }

// customerPage is all that templates/customer.html may show: a customer, the orders, and what was known before.
type customerPage struct {
	shell
	ID, Name string
	Facts    []factRow
	NewOrder string // address
	Orders   []orderCard
	Past     []pastRow
	Before   []versionRow
	Form     customerForm
}

// pastRow is an order that is done.
type pastRow struct{ URL, ID, Due, What, State string }

// versionRow is what was known of a customer from a time on.
type versionRow struct{ Since, Says string }

// customerForm enters a customer, or what is known from now on.
type customerForm struct {
	Action, Entry, Does, Heading string
	Open                         bool
	Name, Phone, Mail, Prices    field
	Life, Lots                   field
	Address, Note                string
	Problem                      string
	AskSame                      string // a customer of that name is there
}

var (
	customersTemplate = parse[customersPage]("customers")
	customerTemplate  = parse[customerPage]("customer")
)

func (s *server) showCustomers(w http.ResponseWriter, r *http.Request) {
	s.atShop(w, r, "Customers", func(x shop) (func(), error) {
		v := customersPage{shell: x.sh}
		open := map[string]int{}
		for _, o := range x.Live(x.Today, orders.Plus(x.Today, app.Horizon)) {
			open[o.Customer]++
		}
		for _, c := range x.Customers() {
			id := c.Customer.Customer
			row := customerRow{URL: customerURL(id), Name: c.Name, Address: string(c.Address), Phone: c.Phone, Prices: c.Prices}
			if n := open[id]; n > 0 {
				row.Open = strconv.Itoa(n)
			}
			v.Customers = append(v.Customers, row)
		}
		return func() { customersTemplate.show(w, http.StatusOK, v) }, nil
	})
}

func (s *server) showNewCustomer(w http.ResponseWriter, r *http.Request) {
	s.atShop(w, r, "New customer", func(x shop) (func(), error) {
		v := customerPage{shell: x.sh, Form: x.customerForm(record.Customer{})}
		return func() { customerTemplate.show(w, http.StatusOK, v) }, nil
	})
}

func (s *server) showCustomer(w http.ResponseWriter, r *http.Request) {
	s.showCustomerWith(w, r, http.StatusOK, func(*customerPage) {})
}

func (s *server) showCustomerWith(w http.ResponseWriter, r *http.Request, status int, change func(*customerPage)) {
	id := r.PathValue("id")
	s.atShop(w, r, "Customer", func(x shop) (func(), error) {
		c := x.Customer(id)
		v, err := s.customerPage(x, c)
		if !c.Known && len(v.Orders)+len(v.Past) == 0 && id != "" {
			status = http.StatusNotFound
		}
		change(&v)
		return func() { customerTemplate.show(w, status, v) }, err
	})
}

// customerPage is the page of a customer; one of whom nobody told anything has only the form.
func (s *server) customerPage(x shop, c orders.Customer) (customerPage, error) {
	id := c.Customer.Customer
	v := customerPage{shell: x.sh, ID: id, Name: c.Name, Facts: customerFacts(c.Customer), Form: x.customerForm(c.Customer)}
	if id == "" {
		return v, nil
	}
	v.Title, v.NewOrder = c.Name, newOrderURL(id)
	for i := len(c.Before) - 1; i >= 0; i-- {
		var says []string
		for _, f := range customerFacts(c.Before[i].Customer) {
			says = append(says, f.Name+": "+strings.ReplaceAll(f.Value, "\n", ", "))
		}
		v.Before = append(v.Before, versionRow{s.clockText(c.Before[i].Since) + ", " + c.Before[i].Who, strings.Join(append([]string{c.Before[i].Name}, says...), "; ")})
	}
	a, err := x.allot("")
	if err != nil {
		return v, err
	}
	all := x.OfCustomer(id, x.Today, a.Until)
	for i, o := range all {
		if o.Live() && len(v.Orders) < mostPast {
			c := x.card(o, a)
			c.Customer, c.Due = capital(c.Due), "" // whose it is stands at the top
			v.Orders = append(v.Orders, c)
		}
		if last := all[len(all)-1-i]; !last.Live() && len(v.Past) < mostPast {
			v.Past = append(v.Past, x.pastRow(last))
		}
	}
	return v, nil
}

// mostPast is how many orders stand on the page of a customer, and as many that are done.
const mostPast = 30

func (x shop) pastRow(o orders.Order) pastRow {
	var what []string
	for _, l := range o.Lines {
		what = append(what, strconv.FormatInt(l.Count, 10)+" × "+x.pack(l.Pack))
	}
	return pastRow{orderURL(o.ID), o.ID, dayText(o.Due, x.Today), strings.Join(what, ", "), stateOf(o, orders.Served{}).Word}
}

func customerFacts(c record.Customer) []factRow {
	var rows []factRow
	add := func(name, value, says string) {
		if value != "" && value != "0" {
			rows = append(rows, factRow{name, value, says})
		}
	}
	add("Address", string(c.Address), "")
	add("Telephone", c.Phone, "")
	add("Mail", c.Mail, "")
	add("Price list", c.Prices, "")
	add("Days of life", strconv.FormatInt(c.LifeDays, 10), "that packs must still have on the day they are due")
	add("Lots", strconv.FormatInt(c.MostLots, 10), "at most, of each kind")
	add("Note", string(c.Note), "")
	return rows
}
