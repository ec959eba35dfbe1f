package web

import (
	"cmp"
	"net/http"
	"net/url"
	"strconv"

	"kettlefrost/internal/orders"
	"kettlefrost/internal/record"
)

// orderPage is all that templates/order.html may show: an order from being entered to being handed over.
type orderPage struct {
	shell
	ID, Customer, CustomerURL string
	Due, Way                  string
	State                     stateView
	Facts                     []factRow
	Cancelled                 string
	Wrong                     []string
	Lines                     []lineRow
	AnyGone, AnyBack, AnyOff  bool // which columns have something in them
	AnyOver, AnyEach          bool
	Pick                      *pickForm // nil when nothing is to be picked
	Aside                     []asideRow
	Hand                      *handForm // nil when nothing can be handed over
	Handed                    []handedRow
	Return                    *returnForm // nil when nothing was handed over
	Change, Slip, Standing    string      // addresses; "" for none
	Cancel                    *cancelForm // nil when it cannot be
	Problem                   string      // what was wrong with what was just sent
}

// lineRow is a line of an order and what became of it.
type lineRow struct{ What, Count, Aside, Gone, Open, Off, Over, Back, Each string }

// asideRow is packs that were set aside.
type asideRow struct {
	Action, Entry, Pick, Back string
	What, Lot, LotURL         string
	Numbers, Count, Best, By  string
}

// handedRow is packs that left the house.
type handedRow struct{ What, Lot, LotURL, Numbers, Count, Back, When, TakenBy, Address string }

// handForm hands over what is set aside.
type handForm struct {
	Action, Entry, Count string
	TakenBy, Address     string
	Deliver              bool
	Rest                 string   // packs that would still be to come
	NoMore               bool     // and will not
	Against              []string // why it cannot be
}

// returnForm takes packs back.
type returnForm struct {
	Action, Entry       string
	Lots                []option
	Numbers, Why, Place string
	Sound               bool
	Problem             string
	Open                bool
}

// cancelForm calls an order off.
type cancelForm struct {
	Action, Entry, Does, Why string
	Problem                  string
	Open                     bool
}

var orderTemplate = parse[orderPage]("order")

func (s *server) showOrder(w http.ResponseWriter, r *http.Request) {
	s.showOrderWith(w, r, http.StatusOK, func(*orderPage) {})
}

// showOrderWith shows an order, changed by what was wrong with what was just sent.
func (s *server) showOrderWith(w http.ResponseWriter, r *http.Request, status int, change func(*orderPage)) {
	id := r.PathValue("id")
	if s.records == nil {
		s.showOrders(w, r)
		return
	}
	missing := false
	s.atShop(w, r, "Order "+id, func(x shop) (func(), error) {
		if o, ok := x.State.Standing(id, x.Today); ok {
			v, err := x.standingPage(o)
			return func() { standingTemplate.show(w, http.StatusOK, v) }, err
		}
		o, ok := x.Order(id, x.Today)
		if !ok {
			missing = true
			return func() {}, nil
		}
		a, err := x.allot(o.Due)
		if err != nil {
			return nil, err
		}
		v := s.orderPage(x, o, a)
		change(&v)
		return func() { orderTemplate.show(w, status, v) }, nil
	})
	if missing {
		s.showOrdersAsked(w, r, id)
	}
}

// orderPage is the page of an order.
func (s *server) orderPage(x shop, o orders.Order, a orders.Allotment) orderPage {
	at := orderURL(o.ID)
	c := x.Customer(o.Customer)
	got, _ := a.Of(o.ID) // nothing, when it wants nothing
	v := orderPage{shell: x.sh, ID: o.ID, Customer: c.Name, CustomerURL: customerURL(o.Customer), Due: dayText(o.Due, x.Today), Way: wayWords[o.Way], State: stateOf(o, got), Slip: at + "/slip", Wrong: append(x.wrongs(o, a.Findings), x.shorts(got)...)}
	v.Facts = s.orderFacts(x, o, c)
	if o.Cancelled != nil {
		v.Cancelled = o.Cancelled.Why + " (" + o.Cancelled.Who + ", " + s.clockText(o.Cancelled.At) + ")"
	}
	for _, l := range o.Lines {
		v.Lines = append(v.Lines, x.lineRow(l))
		v.AnyGone, v.AnyBack, v.AnyOff = v.AnyGone || l.Gone > 0, v.AnyBack || l.Back > 0, v.AnyOff || l.Off > 0
		v.AnyOver, v.AnyEach = v.AnyOver || l.Over > 0, v.AnyEach || l.Each != 0
	}
	if rows := a.PickListOf(o.ID); len(rows) > 0 {
		v.Pick = x.pickForm(at+"/pick", rows)
		for _, p := range v.Pick.Places {
			for i := range p.Rows {
				p.Rows[i].Customer = ""
			}
		}
	}
	v.Aside = s.asideRows(x, o)
	if len(o.Aside) > 0 && o.Status != orders.NotGiven {
		v.Hand = x.handForm(o)
	}
	v.Handed, v.Return = s.handed(x, o)
	if o.Standing != "" {
		v.Standing = orderURL(o.Standing)
	}
	if o.Live() && o.Status != orders.NotGiven {
		v.Change = at + "/change"
		v.Cancel = &cancelForm{Action: at + "/cancel", Entry: newEntryID(), Does: "Cancel this order"}
		if o.Standing != "" {
			v.Cancel.Does = "Leave this delivery out"
		}
	}
	return v
}

func (s *server) orderFacts(x shop, o orders.Order, c orders.Customer) []factRow {
	var rows []factRow
	add := func(name, value, says string) {
		if value != "" {
			rows = append(rows, factRow{name, value, says})
		}
	}
	if o.Way == record.Deliver {
		add("To", string(c.Address), "")
	}
	add("Telephone", c.Phone, "")
	add("Note", string(o.Note), "")
	add("About the customer", string(c.Note), "")
	if c.LifeDays > 0 {
		add("Good for", times(int(c.LifeDays), "day", "days"), "at least, on the day it is due")
	}
	if c.MostLots > 0 {
		add("Lots", strconv.FormatInt(c.MostLots, 10), "at most, of each kind")
	}
	if o.Whole {
		add("Whole", "all of it or nothing", "")
	}
	if o.Standing != "" {
		moved := ""
		if o.Rule != o.Due {
			moved = "moved from " + dayText(o.Rule, x.Today)
		}
		add("Standing order", o.Standing, moved)
	}
	if o.Came > 0 {
		add("Ordered", s.clockText(o.Came), "")
	}
	return rows
}

func (x shop) lineRow(l orders.Line) lineRow {
	n := func(v int64) string {
		if v == 0 {
			return ""
		}
		return strconv.FormatInt(v, 10)
	}
	row := lineRow{What: x.pack(l.Pack), Count: n(l.Count), Aside: n(l.Aside), Gone: n(l.Gone), Open: n(l.Open), Off: n(l.Off), Over: n(l.Over), Back: n(l.Back)}
	if l.Each != 0 {
		row.Each = x.rd.money(l.Each)
	}
	return row
}

func (s *server) asideRows(x shop, o orders.Order) []asideRow {
	var rows []asideRow
	for _, p := range o.Picks {
		bag, _ := x.Bag(p.Lot)
		rows = append(rows, asideRow{Action: orderURL(o.ID) + "/back", Entry: newEntryID(), Pick: p.Entry.String(), Back: orderURL(o.ID), What: x.pack(bag.Pack), Lot: string(p.Lot), LotURL: lotURL(lotPath, p.Lot, url.Values{}),
			Numbers: p.Numbers.String(), Count: strconv.FormatInt(p.Numbers.Count(), 10), Best: string(bag.BestBefore), By: p.Who + ", " + s.clockText(p.At)})
	}
	return rows
}

func (x shop) handForm(o orders.Order) *handForm {
	var n int64
	for _, p := range o.Aside {
		n += p.Numbers.Count()
	}
	var open int64
	for _, l := range o.Lines {
		open += l.Open
	}
	f := &handForm{Action: orderURL(o.ID) + "/hand", Entry: newEntryID(), Count: times(int(n), "pack", "packs"), Deliver: o.Way == record.Deliver}
	if open > 0 {
		f.Rest = times(int(open), "pack", "packs")
	}
	if f.Deliver {
		f.Address = string(x.Customer(o.Customer).Address)
	}
	f.Against = x.against(o)
	return f
}

// against is why what is set aside for an order must not leave the house.
func (x shop) against(o orders.Order) []string {
	var all []string
	for _, a := range x.JudgeHanding(o, x.Stock, x.Today) {
		all = append(all, capital(a.Says)+": "+a.Fix+".")
	}
	return all
}

// handed is what left the house, and the form that takes some of it back.
func (s *server) handed(x shop, o orders.Order) ([]handedRow, *returnForm) {
	var rows []handedRow
	f := &returnForm{Action: orderURL(o.ID) + "/return", Entry: newEntryID()}
	for _, h := range o.Handed {
		rows = append(rows, handedRow{What: x.pack(h.Pack), Lot: string(h.Lot), LotURL: lotURL(lotPath, h.Lot, url.Values{}), Numbers: h.Numbers.String(), Count: strconv.FormatInt(h.Numbers.Count(), 10), Back: h.Back.String(),
			When: s.clockText(h.At), TakenBy: cmp.Or(h.TakenBy, "nobody said"), Address: string(h.Address)})
		if out := h.Numbers.Minus(h.Back); !out.Empty() {
			f.Lots = append(f.Lots, option{Value: string(h.Lot), Says: string(h.Lot) + ": " + x.pack(h.Pack) + ", no. " + out.String()})
		}
	}
	if len(f.Lots) == 0 {
		return rows, nil
	}
	return rows, f
}
