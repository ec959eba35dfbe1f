package web

import (
	"cmp"
	"net/http"
	"strconv"
	"strings"

	"kettlefrost/internal/orders"
	"kettlefrost/internal/record"
)

// slipPage is all that templates/orderslip.html may show: what lies in the box, to be printed.
type slipPage struct {
	shell
	ID, From, Order   string
	Customer, Address string
	Phone             string
	Due, Way, Note    string
	Lines             []slipRow
	Total             string
	Nothing           bool     // nothing is set aside yet
	Against           []string // why what is set aside must not leave
}

// slipRow is a kind of packs on a slip.
type slipRow struct {
	What, Goes, Ordered, Open string
	Parcels                   []parcelRow
}

// parcelRow is packs of one lot.
type parcelRow struct{ Count, Lot, Numbers, Best string }

var slipTemplate = parse[slipPage]("orderslip")

func (s *server) showSlip(w http.ResponseWriter, r *http.Request) {
	id := r.PathValue("id")
	if s.records == nil {
		s.showOrders(w, r)
		return
	}
	missing := false
	s.atShop(w, r, "Packing slip "+id, func(x shop) (func(), error) {
		o, ok := x.Order(id, x.Today)
		if missing = !ok; missing {
			return func() {}, nil
		}
		v := x.slip(o)
		return func() { slipTemplate.show(w, http.StatusOK, v) }, nil
	})
	if missing {
		s.showOrdersAsked(w, r, id)
	}
}

func (x shop) slip(o orders.Order) slipPage {
	c := x.Customer(o.Customer)
	v := slipPage{shell: x.sh, ID: o.ID, Order: orderURL(o.ID), From: x.sh.Kitchen, Customer: c.Name, Address: string(c.Address), Phone: c.Phone, Due: dayText(o.Due, o.Due), Way: wayWords[o.Way], Note: string(o.Note)}
	v.Due = strings.TrimPrefix(v.Due, "today, ")
	var total int64
	for _, l := range o.Slip() {
		row := slipRow{What: x.pack(l.Pack), Goes: strconv.FormatInt(l.Goes(), 10), Ordered: strconv.FormatInt(l.Count, 10)}
		if l.Open > 0 {
			row.Open = strconv.FormatInt(l.Open, 10)
		}
		for _, p := range l.Parcels {
			row.Parcels = append(row.Parcels, parcelRow{strconv.FormatInt(p.Numbers.Count(), 10), string(p.Lot), p.Numbers.String(), cmp.Or(string(p.BestBefore), "not told")})
		}
		total += l.Goes()
		v.Lines = append(v.Lines, row)
	}
	if len(o.Aside) > 0 {
		v.Against = x.against(o)
	}
	v.Total, v.Nothing = times(int(total), "pack", "packs"), total == 0
	for _, h := range o.Handed {
		if h.Address != "" && o.Way == record.Deliver {
			v.Address = string(h.Address) // where it went, whatever is known of the customer by now
		}
	}
	return v
}
