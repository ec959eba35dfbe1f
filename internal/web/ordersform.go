package web

import (
	"cmp"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/orders"
	"kettlefrost/internal/record"
)

// orderFormPage is all that templates/orderform.html may show: an order that is entered or changed.
type orderFormPage struct {
	shell
	Heading  string
	Says     string   // what a change of it does
	Asks     []string // what has to be answered before it is entered
	Problems []string // that stand beside no field
	Entry    string
	Action   string
	Back     string
	Does     string // what stands on the button
	Nobody   bool   // no customer is known yet
	Customer field
	Lines    []formLine
	LinesBad string // what is wrong with all of them
	Due, Way field
	Weeks    field
	Until    field
	Whole    bool
	Note     string
	OneOff   bool // it is one delivery: it cannot stand
	HasSure  bool // the questions may be answered with yes
}

// formLine is a kind of packs and how many of it.
type formLine struct {
	N                 string // its place, for the ids
	Pack, Name, Free  string
	Count, Each       string // as typed
	CountBad, EachBad string
	Hint              string
}

var orderFormTemplate = parse[orderFormPage]("orderform")

// showOrderForm shows the form of a new order, or of one that is changed.
func (s *server) showOrderForm(w http.ResponseWriter, r *http.Request) {
	missing := false
	s.atShop(w, r, "New order", func(x shop) (func(), error) {
		t := typedOrder{customer: tidy(r.URL.Query().Get("customer")), due: tidy(r.URL.Query().Get("due"))}
		if id := r.PathValue("id"); id != "" {
			o, ok := x.asOrdered(id)
			if !ok {
				missing = true
				return func() {}, nil
			}
			t = typedOf(o)
		}
		v, err := x.orderForm(t, nil, false)
		return func() { orderFormTemplate.show(w, http.StatusOK, v) }, err
	})
	if missing {
		s.showOrdersAsked(w, r, r.PathValue("id"))
	}
}

// asOrdered is an order as a form about it begins: of a standing order with the next day on which it is due, so that what was delivered stays.
func (x shop) asOrdered(id string) (record.Ordered, bool) {
	if o, ok := x.State.Standing(id, x.Today); ok {
		return record.Ordered{Order: id, Customer: o.Customer, Lines: o.Lines, Due: cmp.Or(o.Next, o.First), Way: o.Way, Weeks: o.Weeks, Until: o.Until, Note: o.Note, Whole: o.Whole}, o.Cancelled == nil
	}
	o, ok := x.Order(id, x.Today)
	b := record.Ordered{Order: id, Customer: o.Customer, Due: o.Due, Way: o.Way, Note: o.Note, Whole: o.Whole}
	for _, l := range o.Lines {
		b.Lines = append(b.Lines, record.OrderLine{Pack: l.Pack, Count: l.Count, Each: l.Each})
	}
	return b, ok && o.Live() && o.Status != orders.NotGiven
}

// enterOrder takes an order in, or shows the form again with what is wrong or has to be asked.
func (s *server) enterOrder(w http.ResponseWriter, r *http.Request) {
	if err := r.ParseForm(); err != nil {
		s.refuse(w, r, http.StatusBadRequest, sentence(err))
		return
	}
	said, ok := s.sender(w, r)
	if !ok {
		return
	}
	book, _ := s.house.Book()
	t := typed(r)
	d := t.draft()
	sure := r.PostFormValue("sure") != ""
	if len(t.problems) == 0 {
		number, against, err := s.records.Order(r.Context(), said, d, app.PacksOf(book), sure)
		if err != nil {
			status, text := trouble(err)
			s.refuse(w, r, status, text)
			return
		}
		if len(against) == 0 {
			http.Redirect(w, r, withDid(orderURL(number), said.ID.String()+"-1"), http.StatusSeeOther)
			return
		}
		t.problems = against
	}
	s.atShop(w, r, "New order", func(x shop) (func(), error) {
		v, err := x.orderForm(t, t.rows(), !orders.Refused(t.problems))
		return func() { orderFormTemplate.show(w, http.StatusUnprocessableEntity, v) }, err
	})
}

// orderForm is the form with what was typed, and what is wrong beside its field. Rows are those that the lines of the problems count.
func (x shop) orderForm(t typedOrder, rows []int, sure bool) (orderFormPage, error) {
	v := orderFormPage{shell: x.sh, Heading: "New order", Does: "Enter the order", Action: ordersPath + "/new", Back: ordersPath, Entry: newEntryID(), Whole: t.whole, Note: t.note, HasSure: sure}
	if t.changes != "" {
		v.Title, v.Heading, v.Does, v.Action, v.Back = "Change "+t.changes, "Change order "+t.changes, "Change it", orderURL(t.changes)+"/change", orderURL(t.changes)
		_, standing := x.State.Standing(t.changes, x.Today)
		o, _ := x.Order(t.changes, x.Today)
		switch {
		case standing:
			v.Says = "This changes every delivery from the day below on. What was delivered before stays as it was."
		case o.Standing != "":
			v.OneOff, v.Says = true, "This changes this one delivery. The standing order "+o.Standing+" stays as it is."
		}
	}
	a, err := x.allot("")
	if err != nil {
		return v, err
	}
	v.fields(x, t)
	v.lines(x, t, a.Free)
	v.problems(t.problems, rows)
	return v, nil
}

func (v *orderFormPage) fields(x shop, t typedOrder) {
	v.Customer = field{Key: "customer", Label: "Customer", Value: t.customer, Options: []option{{Says: "choose"}}}
	for _, c := range x.Customers() {
		v.Customer.Options = append(v.Customer.Options, option{Value: c.Customer.Customer, Says: c.Name, Here: c.Customer.Customer == t.customer})
	}
	v.Nobody = len(v.Customer.Options) == 1
	v.Due = field{Key: "due", Label: "For which day", Value: t.due, Date: true}
	v.Way = field{Key: "way", Label: "How it gets there", Options: []option{{Value: string(record.Deliver), Says: "we deliver it", Here: t.way != string(record.Collect)}, {Value: string(record.Collect), Says: "it is collected", Here: t.way == string(record.Collect)}}}
	v.Weeks = field{Key: "weeks", Label: "Again after so many weeks", Hint: "1 for every week; empty: only once", Value: t.weeks, Number: true}
	v.Until = field{Key: "until", Label: "Its last day", Hint: "empty: until it is cancelled", Value: t.until, Date: true}
}

// lines are those of the order, then every other pack of the book.
func (v *orderFormPage) lines(x shop, t typedOrder, free map[string]int64) {
	add := func(pack, count, each string) {
		hint := ""
		if p := x.book.Packs; p != nil && x.pack(pack) == pack {
			hint = "not in the book"
		}
		v.Lines = append(v.Lines, formLine{N: strconv.Itoa(len(v.Lines)), Pack: pack, Name: x.pack(pack), Free: strconv.FormatInt(free[pack], 10) + " free", Count: count, Each: each, Hint: hint})
	}
	for i, pack := range t.packs {
		add(pack, nth(t.counts, i), nth(t.prices, i))
	}
	for _, pack := range app.PacksOf(x.book) {
		if !slices.Contains(t.packs, pack) {
			add(pack, "", "")
		}
	}
}

// orderFields are the fields of the page by what a problem calls them.
func (v *orderFormPage) orderFields() map[string]*field {
	return map[string]*field{"customer": &v.Customer, "due": &v.Due, "way": &v.Way, "every_weeks": &v.Weeks, "until": &v.Until}
}

// problems puts what is wrong beside its field, and what is asked at the top.
func (v *orderFormPage) problems(all []orders.Problem, rows []int) {
	for _, p := range all {
		says := capital(p.Problem) + ": " + p.Fix + "."
		switch f := v.orderFields()[p.Field]; {
		case p.Ask:
			v.Asks = append(v.Asks, askText(p))
		case f != nil:
			f.Problem = says
		case p.Field == "lines":
			v.LinesBad = capital(p.Fix) + "."
		case !v.lineProblem(p.Field, says, rows):
			v.Problems = append(v.Problems, says)
		}
	}
}

// askText is a question in words: the day is 2026-11-30, which is past. Is that the day?
func askText(p orders.Problem) string {
	what := cmp.Or(map[string]string{"due": "The day", "way": "The order", "order": "This order"}[p.Field], "A line")
	return strings.TrimSuffix(what+" "+p.Problem+". "+capital(p.Fix)+".", "?.") + map[bool]string{true: "?"}[strings.HasSuffix(p.Fix, "?")]
}

// lineProblem puts what is wrong beside its line; false when it is of no line.
func (v *orderFormPage) lineProblem(name, says string, rows []int) bool {
	rest, ok := strings.CutPrefix(name, "lines[")
	number, part, ok2 := strings.Cut(rest, "].")
	i, err := strconv.Atoi(number)
	if !ok || !ok2 || err != nil {
		return false
	}
	if rows != nil && i < len(rows) {
		i = rows[i]
	}
	if i >= len(v.Lines) {
		return false
	}
	if part == "each" {
		v.Lines[i].EachBad = says
	} else {
		v.Lines[i].CountBad = says
	}
	return true
}

// newOrderURL is the form of a new order for a customer.
func newOrderURL(customer string) string {
	return ordersPath + "/new?" + url.Values{"customer": {customer}}.Encode()
}
