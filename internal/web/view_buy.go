package web

import "kettlefrost/internal/plan"

// orderView is one supplier's order.
type orderView struct {
	Name     string
	Note     string
	OrderBy  string
	Goods    string
	Delivery string
	ToFree   string // so much more, and it is brought for nothing
}

type haveLine struct {
	Name string
	Need figure
	Why  string
}

var storageNames = map[string]string{"dry": "Dry store", "chilled": "Chilled", "frozen": "Frozen", "": "Elsewhere"}

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
