package web

import (
	"net/http"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/orders"
	"kettlefrost/internal/record"
)

// ordersPage is all that templates/orders.html may show: what is due, how far it is, and the one thing to do next.
type ordersPage struct {
	shell
	None      bool   // no records are kept
	Problem   string // why they cannot be read
	Asked     string // an order that was looked for and is not there
	Findings  findingsView
	MoreFound string // findings that are not shown
	Today     string
	Pick      string // address of today's picking list
	Route     string // of today's deliveries
	Groups    []orderGroup
	Standing  []standingRow
}

// orderGroup is the orders of today, of tomorrow, of the week.
type orderGroup struct {
	Name   string
	More   string // that are not shown
	Orders []orderCard
}

// orderCard is an order in short.
type orderCard struct {
	URL, ID, Customer, Due, Way string
	What                        []string
	State                       stateView
	Wrong                       []string // what speaks against it, or is short
	Next, Do                    string   // where the one thing to do next is done, and what it is
}

// stateView is how far an order is: a sign, a word, and how many packs of how many.
type stateView struct{ Sign, Word, Count string }

// standingRow is a standing order in short.
type standingRow struct{ URL, ID, Customer, What, Every, Next string }

var ordersTemplate = parse[ordersPage]("orders")

func (s *server) showOrders(w http.ResponseWriter, r *http.Request) { s.showOrdersAsked(w, r, "") }

// showOrdersAsked shows the orders, after one was looked for in vain if it says so.
func (s *server) showOrdersAsked(w http.ResponseWriter, r *http.Request, asked string) {
	s.atShop(w, r, "Orders", func(x shop) (func(), error) {
		v, err := x.orders()
		v.Asked = asked
		status := http.StatusOK
		if asked != "" {
			status = http.StatusNotFound
		}
		return func() { ordersTemplate.show(w, status, v) }, err
	})
}

func (s *server) showOrdersJSON(w http.ResponseWriter, r *http.Request) {
	if s.records == nil {
		writeJSON(w, http.StatusConflict, refusal{Error: "no records are kept here"})
		return
	}
	s.atShop(w, r, "Orders", func(x shop) (func(), error) {
		a, err := x.allot("")
		sheet := x.Sheet(a)
		return func() { writeJSON(w, http.StatusOK, sheet) }, err
	})
}

// orders is the page of what is due.
func (x shop) orders() (ordersPage, error) {
	a, err := x.allot("")
	v := ordersPage{shell: x.sh, Today: dayText(x.Today, x.Today), Pick: pickPath + string(x.Today), Route: routePath + string(x.Today)}
	if err != nil {
		return v, err
	}
	shown := x.Live(x.Today, a.Until)
	for _, o := range x.On(x.Today, x.Today) { // what is done today is seen to be done
		if o.Status == orders.Gone {
			shown = append(shown, o)
		}
	}
	for _, g := range []struct {
		name     string
		from, to int // days from today
	}{{"Late", -1 << 30, -1}, {"Today", 0, 0}, {"Tomorrow", 1, 1}, {"The next seven days", 2, 7}, {"Later", 8, 1 << 30}} {
		group, more := orderGroup{Name: g.name}, 0
		for _, o := range shown {
			days := orders.Days(x.Today, o.Due)
			if o.Due == "" {
				days = -1
			}
			switch {
			case days < g.from || g.to < days:
			case len(group.Orders) == mostCards:
				more++
			default:
				group.Orders = append(group.Orders, x.card(o, a))
			}
		}
		if more > 0 {
			group.More = "and " + times(more, "more", "more")
		}
		if len(group.Orders) > 0 {
			v.Groups = append(v.Groups, group)
		}
	}
	found := append(x.Found[:len(x.Found):len(x.Found)], untold(a.Findings, v.Groups)...)
	found.Sort()
	v.Findings = viewFindings(found[:min(len(found), mostFindings)])
	if n := len(found) - mostFindings; n > 0 {
		v.MoreFound = "and " + strconv.Itoa(n) + " more, the gravest first"
	}
	v.Standing = x.standing()
	return v, nil
}

// mostCards is how many orders a group shows, so that the page stays small; mostFindings how many findings.
const (
	mostCards    = 30
	mostFindings = 30
)

// untold are the findings about orders that stand in no group: those in a group tell their own.
func untold(found finding.List, groups []orderGroup) finding.List {
	told := map[string]bool{}
	for _, g := range groups {
		for _, c := range g.Orders {
			told["orders."+c.ID] = true
		}
	}
	return slices.DeleteFunc(slices.Clone(found), func(f finding.Finding) bool { return told[f.Path] })
}

func (x shop) standing() []standingRow {
	var rows []standingRow
	for _, id := range x.StandingIDs() {
		o, _ := x.State.Standing(id, x.Today)
		if o.Cancelled != nil || o.Next == "" {
			continue
		}
		var what []string
		for _, l := range o.Lines {
			what = append(what, strconv.FormatInt(l.Count, 10)+" × "+x.pack(l.Pack))
		}
		rows = append(rows, standingRow{orderURL(id), id, x.name(o.Customer), strings.Join(what, ", "), everyText(o.Weeks), dayText(o.Next, x.Today)})
	}
	return rows
}

func everyText(weeks int64) string {
	if weeks == 1 {
		return "every week"
	}
	return "every " + strconv.FormatInt(weeks, 10) + " weeks"
}

var wayWords = map[record.Way]string{record.Collect: "to be collected", record.Deliver: "to be delivered"}

// card is an order in short, with what it gets.
func (x shop) card(o orders.Order, a orders.Allotment) orderCard {
	c := orderCard{URL: orderURL(o.ID), ID: o.ID, Customer: x.name(o.Customer), Due: dayText(o.Due, x.Today), Way: wayWords[o.Way]}
	for _, l := range o.Lines {
		c.What = append(c.What, strconv.FormatInt(l.Count, 10)+" × "+x.pack(l.Pack))
	}
	v, _ := a.Of(o.ID)
	c.State = stateOf(o, v)
	c.Wrong = append(x.wrongs(o, a.Findings), x.shorts(v)...)
	c.Next, c.Do = x.next(o, v)
	return c
}

// wrongs is what was found about an order, in words.
func (x shop) wrongs(o orders.Order, found finding.List) []string {
	var all []string
	for _, f := range found {
		if f.Path == "orders."+o.ID {
			all = append(all, capital(f.Message)+": "+f.Fix+".")
		}
	}
	return all
}

// shorts is what an order does not get, why, and what would help.
func (x shop) shorts(v orders.Served) []string {
	var all []string
	for _, g := range v.Gets {
		for _, s := range g.Short {
			all = append(all, times(int(s.Packs), "pack", "packs")+" of "+x.pack(g.Pack)+" short: "+s.Why+". "+capital(s.Fix)+".")
		}
	}
	return all
}

// next is where the one thing to do next is done, and what it is.
func (x shop) next(o orders.Order, v orders.Served) (address, do string) {
	at := orderURL(o.ID)
	switch {
	case o.Status == orders.NotGiven:
		return at, "Look at it"
	case o.Status == orders.Gone:
		return "", ""
	case len(v.ToPick()) > 0:
		return at + "#pick", "Pick " + times(int(packsOf(v.ToPick())), "pack", "packs")
	case v.Spoilt() > 0:
		return at, "See what is wrong"
	case o.Status == orders.Ready && o.Way == record.Collect:
		return at + "#hand", "Hand over when it is fetched"
	case o.Status == orders.Ready:
		return at + "#hand", "Deliver and hand over"
	}
	return at, "See what would help"
}

func packsOf(pieces []orders.Piece) int64 {
	var n int64
	for _, p := range pieces {
		n += p.Numbers.Count()
	}
	return n
}

// stateOf is how far an order is, in words and by count: never by colour alone. What is set aside and will not do does not count.
func stateOf(o orders.Order, got orders.Served) stateView {
	var aside, gone, all int64
	for _, l := range o.Lines {
		aside, gone, all = aside+l.Aside, gone+l.Gone, all+l.Count-l.Off
	}
	spoilt := min(got.Spoilt(), aside)
	done := aside + gone - spoilt
	v := map[orders.Status]stateView{
		orders.Open: {Sign: "○", Word: "open"}, orders.Picking: {Sign: "◐", Word: "being picked"}, orders.Ready: {Sign: "●", Word: "all set aside"}, orders.PartGone: {Sign: "◐", Word: "partly handed over"},
		orders.Gone: {Sign: "✓", Word: "handed over"}, orders.Off: {Sign: "✕", Word: "cancelled"}, orders.Lapsed: {Sign: "✕", Word: "not made: the next one is due"}, orders.NotGiven: {Sign: "?", Word: "nobody ordered it"},
	}[o.Status]
	if spoilt > 0 {
		v.Sign, v.Word = "▲", "not all that is set aside will do"
	}
	if all > 0 && o.Status != orders.Off && o.Status != orders.Lapsed {
		v.Count = strconv.FormatInt(done, 10) + " of " + times(int(all), "pack", "packs")
	}
	return v
}
