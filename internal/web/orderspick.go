package web

import (
	"cmp"
	"net/http"
	"net/url"
	"strconv"

	"kettlefrost/internal/app"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/orders"
	"kettlefrost/internal/record"
)

// pickPage is all that templates/pick.html may show: what is to be fetched for the orders of a day, and what of it was.
type pickPage struct {
	shell
	Day     string
	Again   string // address of this page
	Problem string // the day cannot be read
	Done    string // 12 of 40 packs are set aside
	All     bool   // everything is set aside
	Pick    pickForm
	Orders  []pickOrder
	Before  string // address of the day before
	After   string
}

// pickForm is the list for a walk to the freezers, each row to tick off, and a field for a scanner.
type pickForm struct {
	Action, Entry string
	Scan          string // as typed
	Problem       *pickProblem
	Places        []pickPlace
}

// pickPlace is what is fetched from one place.
type pickPlace struct {
	Name string
	Rows []pickRow
}

// pickRow is packs of one lot for one order.
type pickRow struct {
	Action, Entry, Order, OrderURL, Customer string
	Lot, Numbers, Count, What, Best          string
}

// pickProblem is why packs were not set aside, and how they can be all the same when that may be meant.
type pickProblem struct {
	Says []string
	Sure *sureForm
}

// sureForm sets packs aside although they are not on the list.
type sureForm struct{ Action, Entry, Order, Lot, Numbers, Does string }

// pickOrder is how far an order of the day is.
type pickOrder struct {
	URL, ID, Customer string
	State             stateView
	Wrong             []string
}

var pickTemplate = parse[pickPage]("pick")

// pickForm puts rows in the order of the walk under their places. On the page of an order nobody has to be told for whom they are.
func (x shop) pickForm(action string, rows []orders.Row) *pickForm {
	f := &pickForm{Action: action, Entry: newEntryID()}
	for _, r := range rows {
		place := cmp.Or(string(r.Place), "nobody said where")
		if n := len(f.Places); n == 0 || f.Places[n-1].Name != place {
			f.Places = append(f.Places, pickPlace{Name: place})
		}
		p := &f.Places[len(f.Places)-1]
		p.Rows = append(p.Rows, pickRow{Action: action, Entry: newEntryID(), Order: r.Order, OrderURL: orderURL(r.Order), Customer: x.name(r.Customer), Lot: string(r.Lot), Numbers: r.Numbers.String(),
			Count: strconv.FormatInt(r.Numbers.Count(), 10), What: x.pack(r.Pack), Best: string(r.BestBefore)})
	}
	return f
}

func (s *server) showPick(w http.ResponseWriter, r *http.Request) {
	s.showPickWith(w, r, http.StatusOK, func(*pickPage) {})
}

func (s *server) showPickWith(w http.ResponseWriter, r *http.Request, status int, change func(*pickPage)) {
	day, ok := s.readDay(r)
	if !ok {
		book, _ := s.house.Book()
		s.missing(w, r, book, "That is no day: write it as in /pick/2026-12-04, or /pick/today.")
		return
	}
	s.atShop(w, r, "Picking", func(x shop) (func(), error) {
		v, err := x.pickPage(day)
		change(&v)
		return func() { pickTemplate.show(w, status, v) }, err
	})
}

// pickPage is the picking list of a day.
func (x shop) pickPage(day record.Day) (pickPage, error) {
	at := pickPath + string(day)
	v := pickPage{shell: x.sh, Day: dayText(day, x.Today), Again: at, Before: pickPath + string(orders.Plus(day, -1)), After: pickPath + string(orders.Plus(day, 1))}
	a, err := x.allot(day)
	if err != nil {
		return v, err
	}
	v.Pick = *x.pickForm(at, a.PickList(day))
	var aside, all int64
	for _, o := range a.DueOn(day) {
		v.Orders = append(v.Orders, pickOrder{orderURL(o.ID), o.ID, x.name(o.Customer), stateOf(o.Order, o), append(x.wrongs(o.Order, a.Findings), x.shorts(o)...)})
		for _, l := range o.Lines {
			aside, all = aside+l.Aside+l.Gone, all+l.Count-l.Off
		}
		aside -= o.Spoilt()
	}
	v.All = len(v.Orders) > 0 && aside == all
	v.Done = strconv.FormatInt(aside, 10) + " of " + times(int(all), "pack", "packs")
	return v, nil
}

// pickForDay sets packs aside from the list of a day; a scanned pack goes to the first order whose list has it.
func (s *server) pickForDay(w http.ResponseWriter, r *http.Request) {
	day, ok := s.readDay(r)
	if !ok {
		s.showPick(w, r)
		return
	}
	s.pick(w, r, pickPath+string(day), func(a orders.Allotment, lot record.Lot, n record.Numbers, pack string) string {
		rows := a.PickList(day)
		for _, row := range rows {
			if row.Lot == lot && row.Numbers.Covers(n) {
				return row.Order
			}
		}
		for _, same := range []func(orders.Row) bool{func(row orders.Row) bool { return row.Lot == lot }, func(row orders.Row) bool { return row.Pack == pack }} {
			for _, row := range rows {
				if same(row) {
					return row.Order
				}
			}
		}
		return ""
	}, func(status int, p *pickProblem) {
		s.showPickWith(w, r, status, func(v *pickPage) { v.Pick.Problem, v.Pick.Scan = p, tidy(r.PostFormValue("scan")) })
	})
}

// pickForOrder sets packs aside for one order.
func (s *server) pickForOrder(w http.ResponseWriter, r *http.Request) {
	id := r.PathValue("id")
	s.pick(w, r, orderURL(id), func(orders.Allotment, record.Lot, record.Numbers, string) string { return id }, func(status int, p *pickProblem) {
		s.showOrderWith(w, r, status, func(v *orderPage) {
			if v.Pick == nil {
				v.Pick = &pickForm{Action: orderURL(id) + "/pick", Entry: newEntryID()}
			}
			v.Pick.Problem, v.Pick.Scan = p, tidy(r.PostFormValue("scan"))
		})
	})
}

// pick sets the packs aside that a form names, by a row of the list or by what was scanned, if nothing speaks against it. Whose says for which
// order a scanned pack is; show shows the list again with why not.
func (s *server) pick(w http.ResponseWriter, r *http.Request, back string, whose func(orders.Allotment, record.Lot, record.Numbers, string) string, show func(int, *pickProblem)) {
	if s.sentBefore(w, r, back) {
		return
	}
	order, lot, n := r.PostFormValue("order"), record.Lot(r.PostFormValue("lot")), record.Numbers{}
	var problem *pickProblem
	err := s.records.Desk(r.Context(), app.Today(s.house.Now()), func(d app.Desk) (err error) {
		var says string
		if lot, n, says = readPack(r.PostForm, d.Stock); says != "" {
			problem = &pickProblem{Says: []string{says}}
			return nil
		}
		a, err := d.Allot(orders.Plus(d.Today, app.Horizon))
		if err != nil {
			return err
		}
		if order == "" {
			order = whose(a, lot, n, d.Stock.Lot(lot).What)
		}
		problem = objected(d, a, order, lot, n)
		return nil
	})
	switch {
	case err != nil:
		status, text := trouble(err)
		s.refuse(w, r, status, text)
	case problem == nil || problem.Sure != nil && r.PostFormValue("sure") != "":
		s.enter(w, r, back, record.Picked{Order: order, Lot: lot, Numbers: n})
	default:
		if problem.Sure != nil {
			*problem.Sure = sureForm{r.URL.EscapedPath(), newEntryID(), order, string(lot), n.String(), "Take it for " + order + " all the same"}
		}
		show(http.StatusConflict, problem)
	}
}

// readPack is the packs that a form names; says is what is wrong with it.
func readPack(form url.Values, stock *lots.State) (lot record.Lot, n record.Numbers, says string) {
	if scan := tidy(form.Get("scan")); scan != "" {
		code, _, err := stock.ReadCode(scan)
		switch {
		case misread(err):
			return lot, n, sentence(err)
		case err != nil:
			return lot, n, "“" + scan + "” is no pack that is known: scan the label again, or type the lot, # and the number, such as P-1201-3#17."
		case code.Numbers.Empty():
			return code.Lot, n, "That is lot " + string(code.Lot) + ". Which pack of it? Type # and the number behind it, such as " + string(code.Lot) + "#17."
		}
		return code.Lot, code.Numbers, ""
	}
	lot = record.Lot(form.Get("lot"))
	n, err := record.ParseNumbers(form.Get("numbers"))
	switch {
	case err != nil:
		return lot, n, sentence(err)
	case lot == "" || n.Empty():
		return lot, n, "Scan a pack, or type the lot, # and the number, such as P-1201-3#17."
	case stock.Lot(lot) == nil:
		return lot, n, "No lot is called " + string(lot) + ": read the label again."
	}
	return lot, n, ""
}

// objected is what speaks against setting packs aside, in words; nil when nothing does.
func objected(d app.Desk, a orders.Allotment, order string, lot record.Lot, n record.Numbers) *pickProblem {
	if order == "" {
		return &pickProblem{Says: []string{"No order on this list wants a pack of lot " + string(lot) + ": put it back."}}
	}
	found := d.JudgePick(a, d.Stock, order, lot, n)
	if len(found) == 0 {
		return nil
	}
	p := &pickProblem{Sure: &sureForm{}}
	for _, x := range found {
		p.Says = append(p.Says, capital(x.Says)+": "+x.Fix+".")
		if !x.Ask {
			p.Sure = nil
		}
	}
	return p
}
