package web

import (
	"strings"

	"kettlefrost/internal/plan"
)

// buyView is the shopping list by where things are kept.
type buyView struct {
	Grave  []reminder
	Groups []buyGroup
	Orders []orderView
	Total  string
	List   string     // address of the list to take along
	Have   []haveLine // needed, and nothing to buy
}

// orderView is one supplier's order.
type orderView struct {
	Name     string
	Note     string
	OrderBy  string
	Goods    string
	Delivery string
	ToFree   string // so much more, and it is brought for nothing
}

type buyGroup struct {
	Storage string
	Lines   []buyLine
}

type buyLine struct {
	ID      string
	Name    string
	Packs   []string // "2 × 25 lb sack, Hillside, $18.00 each"
	ToBuy   figure
	Need    figure
	Trim    figure
	Stock   figure
	Over    figure
	Total   string
	Missing string
}

type haveLine struct {
	Name string
	Need figure
	Why  string
}

var storageNames = map[string]string{"dry": "Dry store", "chilled": "Chilled", "frozen": "Frozen", "": "Elsewhere"}

func viewBuy(p plan.Plan, r reader) buyView {
	v := buyView{Grave: graveFor(p, atBuy), Total: r.money(p.Buy.Total)}
	for _, o := range p.Buy.Orders {
		v.Orders = append(v.Orders, viewOrder(o, r))
	}
	for _, l := range p.Buy.Lines {
		if l.Missing == "" && len(l.Packs) == 0 {
			v.Have = append(v.Have, haveLine{Name: l.Name, Need: r.fig(l.AP), Why: whyNot(l)})
			continue
		}
		if n := len(v.Groups); n == 0 || v.Groups[n-1].Storage != storageName(l.Storage) {
			v.Groups = append(v.Groups, buyGroup{Storage: storageName(l.Storage)})
		}
		g := &v.Groups[len(v.Groups)-1]
		g.Lines = append(g.Lines, viewBuyLine(l, r))
	}
	return v
}

func viewOrder(o plan.BuyOrder, r reader) orderView {
	v := orderView{Name: o.Name, Note: o.Note, OrderBy: o.OrderBy, Goods: r.money(o.Goods)}
	if o.Delivery > 0 {
		v.Delivery = r.money(o.Delivery)
	}
	if o.ToFree > 0 && o.Delivery > 0 {
		v.ToFree = r.money(o.ToFree)
	}
	return v
}

func storageName(s string) string {
	if n, ok := storageNames[s]; ok {
		return n
	}
	return s
}

func whyNot(l plan.BuyLine) string {
	if l.Free {
		return "from the tap"
	}
	return "in stock"
}

func viewBuyLine(l plan.BuyLine, r reader) buyLine {
	v := buyLine{ID: l.ID, Name: l.Name, ToBuy: r.mass(l.ToBuy), Need: r.mass(l.Need), Trim: r.mass(l.Trim), Stock: r.mass(l.Stock), Over: r.mass(l.Over),
		Missing: l.Missing}
	for _, b := range l.Packs {
		parts := []string{times(b.Count, "×", "×") + " " + b.Name}
		if b.Supplier != "" {
			parts = append(parts, b.Supplier)
		}
		parts = append(parts, r.money(b.Price)+" each")
		v.Packs = append(v.Packs, strings.Join(parts, ", "))
	}
	if len(l.Packs) > 0 {
		v.Total = r.money(l.Total)
	}
	return v
}
