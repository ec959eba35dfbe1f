package web

import (
	"cmp"
	"net/http"

	"kettlefrost/internal/app"
	"kettlefrost/internal/orders"
	"kettlefrost/internal/record"
)

// anOrder reads an order of the address for a form that was sent about it; false when it is not there, and then it was answered.
func (s *server) anOrder(w http.ResponseWriter, r *http.Request, read func(app.Desk, orders.Order)) bool {
	there := false
	err := s.records.Desk(r.Context(), app.Today(s.house.Now()), func(d app.Desk) error {
		o, ok := d.Order(r.PathValue("id"), d.Today)
		if there = ok; ok {
			read(d, o)
		}
		return nil
	})
	switch {
	case err != nil:
		status, text := trouble(err)
		s.refuse(w, r, status, text)
	case !there:
		s.showOrdersAsked(w, r, r.PathValue("id"))
	}
	return err == nil && there
}

// cancelOrder calls an order off, one delivery of a standing one, or all that is to come of it.
func (s *server) cancelOrder(w http.ResponseWriter, r *http.Request) {
	id, why := r.PathValue("id"), tidy(r.PostFormValue("why"))
	if s.sentBefore(w, r, orderURL(id)) {
		return
	}
	if why == "" {
		s.showOrderWith(w, r, http.StatusUnprocessableEntity, func(p *orderPage) {
			if p.Cancel != nil {
				p.Cancel.Problem, p.Cancel.Open = "Say why: whoever looks at it later wants to know.", true
			}
		})
		return
	}
	known := false
	err := s.records.Desk(r.Context(), app.Today(s.house.Now()), func(d app.Desk) error {
		o, ok := d.Order(id, d.Today)
		_, standing := d.State.Standing(id, d.Today)
		known = standing || ok && o.Live()
		return nil
	})
	switch {
	case err != nil:
		status, text := trouble(err)
		s.refuse(w, r, status, text)
	case !known:
		s.refuse(w, r, http.StatusConflict, "Order "+id+" is not open, so that it cannot be cancelled.")
	default:
		s.enter(w, r, orderURL(id), record.Cancelled{Order: id, Why: why})
	}
}

// handOver has everything that is set aside for an order leave the house.
func (s *server) handOver(w http.ResponseWriter, r *http.Request) {
	if s.sentBefore(w, r, orderURL(r.PathValue("id"))) {
		return
	}
	takenBy, address := tidy(r.PostFormValue("taken_by")), tidyLines(r.PostFormValue("address"))
	noMore := r.PostFormValue("nomore") != ""
	var bodies []record.Body
	var against []orders.Objection
	ok := s.anOrder(w, r, func(d app.Desk, o orders.Order) {
		against = d.JudgeHanding(o, d.Stock, d.Today)
		for _, h := range o.HandOver(takenBy, record.Text(address)) {
			bodies = append(bodies, h)
		}
		if noMore && o.Status == orders.Picking {
			bodies = append(bodies, record.Cancelled{Order: o.ID, Why: "nothing more will come"})
		}
	})
	switch {
	case !ok:
	case takenBy == "":
		s.showOrderWith(w, r, http.StatusUnprocessableEntity, func(p *orderPage) {
			p.Problem = "Say who took the packs: whoever asks for them later wants to know."
			if p.Hand != nil {
				p.Hand.Address, p.Hand.NoMore = address, noMore
			}
		})
	case len(against) > 0: // the page says what
		s.showOrderWith(w, r, http.StatusConflict, func(p *orderPage) {
			p.Problem = "Nothing was handed over."
			if p.Hand != nil {
				p.Hand.TakenBy, p.Hand.Address, p.Hand.NoMore = takenBy, address, noMore
			}
		})
	default:
		s.enter(w, r, orderURL(r.PathValue("id")), bodies...)
	}
}

// putBack takes packs that were set aside back to the stock: all of a pick, or some.
func (s *server) putBack(w http.ResponseWriter, r *http.Request) {
	back := orderURL(r.PathValue("id"))
	if s.sentBefore(w, r, back) {
		return
	}
	said, err := record.ParseNumbers(r.PostFormValue("numbers"))
	wrong := func(text string) {
		s.showOrderWith(w, r, http.StatusUnprocessableEntity, func(p *orderPage) { p.Problem = text })
	}
	var pick *orders.Pick
	ok := s.anOrder(w, r, func(_ app.Desk, o orders.Order) {
		for _, p := range o.Picks {
			if p.Entry.String() == r.PostFormValue("pick") {
				pick = &p
			}
		}
	})
	switch {
	case !ok:
	case err != nil:
		wrong(sentence(err))
	case pick == nil:
		wrong("Those packs are not set aside any more.")
	case said.Empty() || said.Equal(pick.Numbers):
		s.enterSaid(w, r, back, app.Said{Corrects: pick.Entry, Body: record.Voided{Why: cmp.Or(tidy(r.PostFormValue("why")), "put back")}})
	case !pick.Numbers.Covers(said):
		wrong("Packs " + said.Minus(pick.Numbers).String() + " are not among those that were set aside, " + pick.Numbers.String() + ".")
	default:
		s.correct(w, r, back, pick.Entry, record.Picked{Order: r.PathValue("id"), Lot: pick.Lot, Numbers: pick.Numbers.Minus(said)})
	}
}

// takeReturn takes packs back that the customer brought.
func (s *server) takeReturn(w http.ResponseWriter, r *http.Request) {
	back := orderURL(r.PathValue("id"))
	if s.sentBefore(w, r, back) {
		return
	}
	b := record.Returned{Lot: record.Lot(r.PostFormValue("lot")), Why: tidy(r.PostFormValue("why")), Sound: r.PostFormValue("sound") != "", Place: record.Place(tidy(r.PostFormValue("place")))}
	numbers, err := record.ParseNumbers(r.PostFormValue("numbers"))
	b.Numbers = numbers
	var out record.Numbers
	ok := s.anOrder(w, r, func(_ app.Desk, o orders.Order) {
		b.Customer = o.Customer
		for _, h := range o.Handed {
			if h.Lot == b.Lot {
				out = out.Union(h.Numbers.Minus(h.Back))
			}
		}
	})
	problem := ""
	switch {
	case !ok:
		return
	case err != nil:
		problem = sentence(err)
	case numbers.Empty():
		problem = "Write the numbers of the packs, such as 3 or 3-5."
	case !out.Covers(numbers):
		problem = "Packs " + numbers.Minus(out).String() + " of " + string(b.Lot) + " are not with the customer: those are " + cmp.Or(out.String(), "none") + "."
	case b.Why == "":
		problem = "Say why they came back."
	default:
		s.enter(w, r, back, b)
		return
	}
	s.showOrderWith(w, r, http.StatusUnprocessableEntity, func(p *orderPage) {
		if f := p.Return; f != nil {
			f.Numbers, f.Why, f.Place, f.Sound, f.Problem, f.Open = r.PostFormValue("numbers"), b.Why, string(b.Place), b.Sound, problem, true
			for i := range f.Lots {
				f.Lots[i].Here = f.Lots[i].Value == string(b.Lot)
			}
		}
	})
}
