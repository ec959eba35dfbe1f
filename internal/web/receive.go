package web

import (
	"cmp"
	"fmt"
	"maps"
	"net/http"
	"net/url"
	"slices"
	"strconv"

	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
)

// receivePage is all that templates/receive.html may show: a delivery of several goods.
type receivePage struct {
	shell
	Entry     string
	Count     int // lines
	Supplier  typedField
	Suppliers []string
	Invoice   field
	Lines     []receiveLine
	Limits    []limitView
	Problem   string
	StockURL  string
}

// receiveLine is one of the goods of a delivery.
type receiveLine struct {
	Name    string
	Fields  []field
	Against string // why it may not simply come in
	Decide  *field // what becomes of it then
}

// limitView is a limit at the door.
type limitView struct {
	Kind   string
	AtMost figure
	Says   string
	Source string
}

var receiveTemplate = parse[receivePage]("receive")

const (
	usualLines = 2
	mostLines  = 40
)

func (s *server) showReceive(w http.ResponseWriter, r *http.Request) {
	s.ofCold(w, r, func(c cold) func() {
		d := readDelivery(c, url.Values{}, linesOf(c.query))
		d.forgive()
		v := s.receiveForm(r, c, c.query, d)
		return func() { receiveTemplate.show(w, http.StatusOK, v) }
	})
}

// linesOf is how many lines a form has.
func linesOf(form url.Values) int {
	n, err := strconv.Atoi(form.Get("lines"))
	if err != nil || n < 1 {
		return usualLines
	}
	return min(n, mostLines)
}

// receive enters a delivery: all of it, or nothing as long as anything is wrong with it.
func (s *server) receive(w http.ResponseWriter, r *http.Request) {
	if err := r.ParseForm(); err != nil {
		s.refuse(w, r, http.StatusBadRequest, "This form cannot be read.")
		return
	}
	s.ofCold(w, r, func(c cold) func() {
		form := r.PostForm
		more := form.Get("more") != ""
		n := linesOf(form)
		if more {
			n = min(n+1, mostLines)
		}
		d := readDelivery(c, form, n)
		if more {
			d.forgive()
		}
		if more || d.wrong() {
			v := s.receiveForm(r, c, form, d)
			status := http.StatusUnprocessableEntity
			if more {
				status = http.StatusOK
			}
			return func() { receiveTemplate.show(w, status, v) }
		}
		bodies, lots := d.bodies(c)
		back := coldURL(stockPath, c.query)
		if len(lots) > 0 {
			back = coldURL(labelPath, c.query, lots...)
		}
		return func() { s.enter(w, r, back, bodies...) }
	})
}

func (s *server) receiveForm(r *http.Request, c cold, form url.Values, d delivery) receivePage {
	v := receivePage{shell: s.inShell(r, c.book.Kitchen, "Receive goods", "receive"), Entry: cmp.Or(form.Get(entryField), newEntryID()), Count: len(d.lines), Supplier: d.supplier, Invoice: d.invoice, Problem: d.problem, StockURL: coldURL(stockPath, c.query)}
	for _, id := range slices.Sorted(maps.Keys(c.book.Suppliers)) {
		v.Suppliers = append(v.Suppliers, c.book.Suppliers[id].Name)
	}
	for i, l := range d.lines {
		v.Lines = append(v.Lines, receiveLine{Name: fmt.Sprintf("Goods %d", i+1), Fields: l.fields, Against: capital(l.against), Decide: l.decide})
	}
	for _, k := range []coldstore.Kind{coldstore.Chilled, coldstore.Frozen} {
		if limit, ok := coldstore.DoorLimitOf(k); ok {
			v.Limits = append(v.Limits, limitView{capital(string(k)), c.rd.fig(limit.AtMost), capital(limit.Says), limit.Source})
		}
	}
	return v
}

// bodies are what to enter of a delivery, and the new lots as pairs of an address.
func (d delivery) bodies(c cold) (bodies []record.Body, lots []string) {
	for _, l := range d.lines {
		switch {
		case l.blank:
		case l.decision == refuseIt:
			bodies = append(bodies, record.Noted{About: l.got.Supplier, Text: record.Text(fmt.Sprintf("Refused at the door: %s of %s%s. %s.", c.rd.fig(l.got.Mass).First, l.name, theirLot(l.got), capital(l.against)))})
		default:
			bodies = append(bodies, l.got)
			lots = append(lots, "lot", string(l.got.Lot))
		}
	}
	for _, l := range d.lines {
		if !l.blank && l.decision == holdIt {
			bodies = append(bodies, record.Held{Lot: l.got.Lot, Why: l.against})
		}
	}
	return bodies, lots
}

func theirLot(r record.Received) string {
	if r.SupplierLot == "" {
		return ""
	}
	return ", their lot " + r.SupplierLot
}

// supplierOf is the supplier that was typed: by name or short name of the book, or else as it was typed.
func supplierOf(book kitchen.Book, typed string) string {
	for id, s := range book.Suppliers {
		if sameWords(typed, s.Name) || sameWords(typed, string(id)) {
			return string(id)
		}
	}
	return typed
}
