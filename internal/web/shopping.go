package web

import (
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/sheet"
)

// shoppingPage is all that templates/shopping.html may show: what to buy and why, as a list to take along.
type shoppingPage struct {
	runHead
	CSV     string
	Ways    []choiceLink // by supplier, by storage
	Grave   []reminder
	Today   *todayForm // nil of a run without a day
	Total   string
	Kept    string // what is left over and keeps is worth
	Proof   string
	Others  []string // the best lists on other conditions
	Groups  []shoppingGroup
	Instead []string
	Lacks   []lackLine
	Have    []haveLine // needed, and nothing to buy
	Stock   []haveLine
}

type shoppingGroup struct {
	Name  string
	Order *orderView // of a supplier
	Lines []shoppingLine
}

type shoppingLine struct {
	Tick  string // names the line for a browser that remembers what is ticked
	Count string
	Pack  string
	Name  string
	Where string
	Price string
	Why   *buyWhy // where an ingredient stands the first time
}

// buyWhy is what leads to a purchase.
type buyWhy struct {
	Need, Trim, Stock, ToBuy, Over figure
	Worth                          string // of what is left over, to a later run
}

// lackLine is something that cannot be bought.
type lackLine struct {
	haveLine
	LastDay string // on which it could have been ordered
}

// todayForm asks when the orders go out.
type todayForm struct {
	Action string
	Reset  string // address with the book's day
	Kept   []kept
	Field  field
}

// listKey is how a query wants a list put together. Its addresses go along to the other parts of a run, where "by" is by how much a task is late.
const listKey = "list"

// by is how a query wants a list put together.
func by(r *http.Request) plan.By {
	if r.URL.Query().Get(listKey) == string(plan.ByStorage) {
		return plan.ByStorage
	}
	return plan.BySupplier
}

func (s *server) showShopping(w http.ResponseWriter, r *http.Request, d runDay, head runHead) {
	shoppingTemplate.show(w, http.StatusOK, viewShopping(r, d, head))
}

// showShoppingCSV answers with the list for a spreadsheet.
func (s *server) showShoppingCSV(w http.ResponseWriter, r *http.Request) {
	p, _, ok := s.planFor(w, r)
	if !ok {
		return
	}
	w.Header().Set("Content-Type", "text/csv; charset=utf-8; header=present")
	w.Header().Set("Content-Disposition", `attachment; filename="shopping.csv"`)
	w.Header().Set("Cache-Control", "no-store")
	w.Write(sheet.ShoppingCSV(p, by(r)))
}

func viewShopping(r *http.Request, d runDay, head runHead) shoppingPage {
	query, p := r.URL.Query(), d.plan
	rd := readerOf(d.book.Kitchen, r)
	path := runPath(d.name)
	v := shoppingPage{runHead: head, CSV: path + "/buy.csv" + queryOf(query), Grave: graveFor(p, atBuy), Today: askToday(d.asked, query), Total: rd.money(p.Buy.Total), Proof: "the list is " + p.Buy.Proof}
	if p.Buy.LeftOver > 0 {
		v.Kept = rd.money(p.Buy.LeftOver)
	}
	for _, a := range p.Buy.Alternatives {
		v.Others = append(v.Others, fmt.Sprintf("%s: %s, %s more", a.Is, rd.money(a.Total), rd.money(a.Extra)))
	}
	for _, way := range []struct{ by, name string }{{"", "By supplier"}, {string(plan.ByStorage), "By storage"}} {
		v.Ways = append(v.Ways, choiceLink{Name: way.name, URL: path + "/buy" + with(query, listKey, way.by), Here: query.Get(listKey) == way.by})
	}
	told := map[string]bool{}
	for _, x := range p.Buy.Items(by(r)) {
		v.add(p, x, by(r), rd, !told[x.Line.ID])
		told[x.Line.ID] = true
	}
	for _, l := range p.Buy.Lines {
		v.beside(l, p.Day, rd)
	}
	return v
}

// askToday is the form that asks when the orders go out.
func askToday(a asked, query url.Values) *todayForm {
	i := slices.IndexFunc(a.fields, func(f field) bool { return f.Key == todayKey })
	if i < 0 {
		return nil
	}
	path := runPath(a.name) + "/buy"
	return &todayForm{Action: path, Reset: path + with(query, todayKey, ""), Kept: keep(query, todayKey), Field: a.fields[i]}
}

// beside is what stands beside the list about an ingredient.
func (v *shoppingPage) beside(l plan.BuyLine, day string, rd reader) {
	if len(l.Instead) > 0 && l.ToBuy > 0 {
		v.Instead = append(v.Instead, l.Name+": "+strings.Join(l.Instead, ", or "))
	}
	switch {
	case l.Missing != "":
		lack := lackLine{haveLine: haveLine{Name: l.Name, Need: rd.fig(max(l.ToBuy, l.AP)), Why: l.Missing}}
		if l.Late != nil {
			lack.LastDay = kitchen.DaysBefore(day, l.Late.Lead)
		}
		v.Lacks = append(v.Lacks, lack)
	case len(l.Packs) == 0 && l.Free:
		v.Have = append(v.Have, haveLine{Name: l.Name, Need: rd.fig(l.AP), Why: "from the tap"})
	case len(l.Packs) == 0 && len(l.FromStock) == 0:
		v.Have = append(v.Have, haveLine{Name: l.Name, Need: rd.fig(l.AP), Why: "in stock"})
	}
	for _, lot := range l.FromStock {
		v.Stock = append(v.Stock, haveLine{Name: l.Name, Need: rd.fig(lot.Mass), Why: lotOf(lot)})
	}
}

// add puts a line under the last group, or under a new one.
func (v *shoppingPage) add(p plan.Plan, x plan.BuyItem, by plan.By, rd reader, first bool) {
	name, where := x.Pack.Supplier, storageName(x.Line.Storage)
	if by == plan.ByStorage {
		name, where = where, name
	}
	if x.Line.Aisle != "" {
		where += ", " + x.Line.Aisle
	}
	if n := len(v.Groups); n == 0 || v.Groups[n-1].Name != name {
		g := shoppingGroup{Name: name}
		for _, o := range p.Buy.Orders {
			if by == plan.BySupplier && o.Supplier == x.Pack.SupplierID {
				order := viewOrder(o, rd)
				g.Order = &order
			}
		}
		v.Groups = append(v.Groups, g)
	}
	l := shoppingLine{Count: times(x.Pack.Count, "×", "×"), Pack: x.Pack.Name, Name: x.Line.Name, Where: where, Price: rd.money(x.Pack.Price.Times(int64(x.Pack.Count), 1))}
	l.Tick = x.Line.ID + "/" + l.Count + " " + l.Pack
	if first {
		l.Why = whyOf(x.Line, rd)
	}
	g := &v.Groups[len(v.Groups)-1]
	g.Lines = append(g.Lines, l)
}

func whyOf(l plan.BuyLine, rd reader) *buyWhy {
	w := &buyWhy{Need: rd.mass(l.Need), Trim: rd.mass(l.Trim), Stock: rd.mass(l.Stock), ToBuy: rd.mass(l.ToBuy), Over: rd.mass(l.Over)}
	if l.OverWorth > 0 {
		w.Worth = rd.money(l.OverWorth)
	}
	return w
}

// lotOf says which lot is taken, and how long it keeps.
func lotOf(l plan.BuyLot) string {
	words := "from the shelf"
	if l.Lot != "" {
		words += ", lot " + l.Lot
	}
	if l.Until != "" {
		words += ", to be used until " + l.Until
	}
	return words
}
