package web

import (
	"strconv"

	"kettlefrost/internal/orders"
)

// standingPage is all that templates/orderstanding.html may show: a standing order and its deliveries.
type standingPage struct {
	shell
	ID, Customer, CustomerURL string
	Every                     string
	Lines                     []string
	Facts                     []factRow
	Cancelled                 string
	Coming                    []orderCard
	Change                    string // address; "" when it cannot be
	Cancel                    *cancelForm
}

var standingTemplate = parse[standingPage]("orderstanding")

// standingPage is the page of a standing order, with its deliveries over the usual horizon and those of the last two months.
func (x shop) standingPage(o orders.Standing) (standingPage, error) {
	v := standingPage{shell: x.sh, ID: o.ID, Customer: x.name(o.Customer), CustomerURL: customerURL(o.Customer), Every: everyText(o.Weeks)}
	v.Title = "Standing order " + o.ID
	for _, l := range o.Lines {
		v.Lines = append(v.Lines, strconv.FormatInt(l.Count, 10)+" × "+x.pack(l.Pack))
	}
	v.Facts = append(v.Facts, factRow{"First", dayText(o.First, x.Today), ""})
	if o.Until != "" {
		v.Facts = append(v.Facts, factRow{"Last", dayText(o.Until, x.Today), "at the latest"})
	}
	if o.Note != "" {
		v.Facts = append(v.Facts, factRow{"Note", string(o.Note), ""})
	}
	if o.Cancelled != nil {
		v.Cancelled = o.Cancelled.Why + " (" + o.Cancelled.Who + ")"
	} else {
		v.Change = orderURL(o.ID) + "/change"
		v.Cancel = &cancelForm{Action: orderURL(o.ID) + "/cancel", Entry: newEntryID(), Does: "End this standing order"}
	}
	a, err := x.allot("")
	for _, d := range x.OfCustomer(o.Customer, x.Today, orders.Plus(x.Today, 2*lookBack)) {
		if d.Standing == o.ID && orders.Days(d.Due, x.Today) <= lookBack {
			c := x.card(d, a)
			c.Customer, c.Due, c.Next, c.Do = capital(c.Due), "", "", "" // whose it is stands at the top
			if d.Live() {
				c.Next, c.Do = c.URL+"/change", "Change this one"
			}
			v.Coming = append(v.Coming, c)
		}
	}
	return v, err
}

// lookBack is how many days back the deliveries of a standing order are listed.
const lookBack = 60
