package sheet

import (
	"cmp"
	"fmt"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/orders"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// OrdersText is the orders that are open, the first to be due first: how far each is, and what is short. Names are of the packs.
func OrdersText(s *orders.State, a orders.Allotment, found finding.List, names map[string]string) string {
	w := listWriter("Orders, the first to be due first", append(found[:len(found):len(found)], a.Findings...), unit.Metric)
	t := table{columns: []column{{head: "due"}, {head: "order"}, {head: "customer", wraps: true}, {head: "way"}, {head: "how far"}, {head: "packs", right: true}, {head: "what", wraps: true}}}
	for _, o := range s.Live(a.Today, a.Until) {
		t.add(dueText(o.Due, a.Today), o.ID, s.Customer(o.Customer).Name, string(o.Way), string(o.Status), fmt.Sprint(o.Packs()), linesText(o, names))
		if v, ok := a.Of(o.ID); ok {
			for _, g := range v.Gets {
				for _, x := range g.Short {
					t.under(2, fmt.Sprintf("short of %s %s: %s (%s)", times(x.Packs, "pack"), cmp.Or(names[g.Pack], g.Pack), x.Why, x.Fix))
				}
			}
		}
	}
	w.table(t)
	if len(t.rows) == 0 {
		w.para(0, "No order is open.")
	}
	return w.String()
}

func dueText(due, today record.Day) string {
	switch {
	case due == "":
		return "?"
	case due < today:
		return string(due) + " late"
	case due == today:
		return string(due) + " today"
	}
	return string(due)
}

// linesText is what is ordered: 12 leek soup, 4 dal.
func linesText(o orders.Order, names map[string]string) string {
	var all []string
	for _, l := range o.Lines {
		all = append(all, fmt.Sprintf("%d %s", l.Count, cmp.Or(names[l.Pack], l.Pack)))
	}
	return strings.Join(all, ", ")
}

// PickText is what is to be fetched for the orders of a day, to tick off, in the order of a walk.
func PickText(s *orders.State, rows []orders.Row, title string, names map[string]string) string {
	w := listWriter(title, nil, unit.Metric)
	t := table{columns: []column{{}, {head: "packs", right: true}, {head: "lot"}, {head: "numbers", wraps: true}, {head: "what", wraps: true}, {head: "for", wraps: true}}}
	place := record.Place("\x00")
	for _, r := range rows {
		if r.Place != place {
			place = r.Place
			t.title(cmp.Or(string(place), "nobody said where"))
		}
		t.add("[ ]", fmt.Sprint(r.Numbers.Count()), string(r.Lot), r.Numbers.String(), cmp.Or(names[r.Pack], r.Pack), r.Order+", "+s.Customer(r.Customer).Name)
	}
	w.table(t)
	if len(rows) == 0 {
		w.para(0, "Nothing is to be fetched.")
	}
	return w.String()
}

// SlipText is the packing slip of an order: what goes, of which lots, until when it is good.
func SlipText(o orders.Order, c orders.Customer, names map[string]string) string {
	w := listWriter("Packing slip "+o.ID, nil, unit.Metric)
	w.para(0, strings.Join(strings.Fields(list(", ", c.Name, string(c.Address), c.Phone)), " "))
	w.para(0, list(", ", "for "+string(o.Due), map[record.Way]string{record.Collect: "to be collected", record.Deliver: "to be delivered"}[o.Way]))
	w.gap()
	t := table{columns: []column{{head: "packs", right: true}, {head: "lot"}, {head: "numbers", wraps: true}, {head: "best before"}}}
	for _, l := range o.Slip() {
		t.title(fmt.Sprintf("%s: %d ordered, %d go", cmp.Or(names[l.Pack], l.Pack, "of a kind that nobody knows"), l.Count, l.Goes()))
		for _, p := range l.Parcels {
			t.add(fmt.Sprint(p.Numbers.Count()), string(p.Lot), p.Numbers.String(), string(p.BestBefore))
		}
		if l.Open > 0 {
			t.under(2, fmt.Sprintf("%s still to come", times(l.Open, "pack")))
		}
	}
	w.table(t)
	if len(o.Aside)+len(o.Handed) == 0 {
		w.para(0, "Nothing of it is set aside yet: "+linesText(o, names)+".")
	}
	w.gap()
	w.para(0, "Keep frozen at −18 °C (0 °F) or below.")
	if o.Note != "" {
		w.para(0, string(o.Note))
	}
	return w.String()
}
