package sheet

import (
	"cmp"
	"fmt"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// Clock writes a time as it is read where the kitchen is.
type Clock func(record.Instant) string

// RecallText is whom to tell, what to hold, and how much is accounted for.
func RecallText(r lots.Report, found finding.List, units unit.System, clock Clock) string {
	w := listWriter("Recall of everything that contains "+r.Asked, found, units)
	w.para(0, "Meant: "+namesOf(r.Of))
	if len(r.Unsure) > 0 {
		w.para(0, "Cannot be ruled out, as nobody wrote down the supplier's lot number: "+namesOf(r.Unsure)+".")
	}
	w.accountOf(r)
	w.callsOf(r, clock)
	w.staysOf(r)
	w.goneOf(r)
	w.bulkOf("in bulk", r.Bulk)
	w.bulkOf("pots, with what boiled away or nobody wrote down", r.Pots)
	w.para(0, "A trace is as good as the entries: it cannot find what nobody wrote down. Your authority decides what has to be fetched back.")
	return w.String()
}

func namesOf(ids []record.Lot) string {
	var names []string
	for _, id := range ids {
		names = append(names, string(id))
	}
	return cmp.Or(strings.Join(names, ", "), "no lot fits.")
}

func (w *writer) accountOf(r lots.Report) {
	a := r.Account
	w.heading("accounted for", fmt.Sprintf("%d of %d packs, %.2f %%", a.Found, a.Made, 100*a.Share))
	if a.Told != a.Found {
		w.para(2, fmt.Sprintf("The records tell of %d packs in known places, %.2f %%: more than 100 %%, or some of them twice, is a failure too.", a.Told, 100*a.Ratio))
	}
	if a.BulkMass > 0 {
		w.para(2, fmt.Sprintf("In bulk %s of %s are unaccounted for.", a.BulkOpen.Show(w.units), a.BulkMass.Show(w.units)))
	}
	for _, text := range r.Troubles(w.units) {
		w.para(2, text)
	}
}

func (w *writer) callsOf(r lots.Report, clock Clock) {
	w.heading("whom to tell", "who got the first of it first")
	t := table{columns: []column{{head: "who", wraps: true}, {head: "packs of"}, {head: "count", right: true}, {head: "mass", right: true}, {head: "left"}, {wraps: true}}}
	for _, c := range r.Calls {
		who := list(", ", c.Name, c.Phone, c.Mail, strings.ReplaceAll(c.Address, "\n", ", "))
		for _, x := range c.Items {
			doubt := ""
			if x.Doubted {
				doubt = "DOUBTED: the records tell of them otherwise as well"
			}
			t.add(who, string(x.Lot), fmt.Sprint(x.Packs), x.Mass.Show(w.units), clock(x.At), list("; ", "no. "+x.Numbers, orderText(x.Order), toText(x.Address), takenText(x.TakenBy), doubt))
			who = ""
		}
	}
	w.table(t)
	if len(r.Calls) == 0 {
		w.para(0, "Nobody has got any of it, by the records.")
	}
}

func orderText(order string) string { return lead("order ", order) }
func toText(address string) string {
	return lead("taken to ", strings.ReplaceAll(address, "\n", ", "))
}
func takenText(by string) string { return lead("taken by ", by) }

// lead puts words before a text, if there is one.
func lead(words, text string) string {
	if text == "" {
		return ""
	}
	return words + text
}

func (w *writer) staysOf(r lots.Report) {
	w.heading("what has to be held", "")
	t := table{columns: []column{{head: "lot"}, {head: "what", wraps: true}, {head: "where", wraps: true}, {head: "count", right: true}, {head: "mass", right: true}, {wraps: true}}}
	for _, y := range r.OnHand {
		count, says := "", "NOT HELD"
		if y.Packs > 0 {
			count = fmt.Sprint(y.Packs)
		}
		switch {
		case !y.Free:
			says = "held: " + y.Why
		case y.Held != "":
			says = "NOT ALL HELD, only no. " + y.Held
		}
		t.add(string(y.Lot), y.What, cmp.Or(string(y.Place), "nobody said"), count, y.Mass.Show(w.units), list("; ", lead("no. ", y.Numbers), says))
	}
	w.table(t)
	if len(r.OnHand) == 0 {
		w.para(0, "Nothing of it is on hand, by the records.")
	}
}

func (w *writer) goneOf(r lots.Report) {
	if len(r.Gone) == 0 {
		return
	}
	w.heading("gone", "")
	t := table{columns: []column{{head: "packs of"}, {head: "numbers", wraps: true}, {head: "count", right: true}, {head: "mass", right: true}, {head: "are"}}}
	for _, g := range r.Gone {
		state := g.State
		if g.NotFound() {
			state = "NOT FOUND"
		}
		t.add(string(g.Lot), g.Numbers, fmt.Sprint(g.Packs), g.Mass.Show(w.units), state)
	}
	w.table(t)
}

func (w *writer) bulkOf(title string, rows []lots.BulkRow) {
	if len(rows) == 0 {
		return
	}
	w.heading(title, "")
	t := table{columns: []column{{head: "lot"}, {head: "what", wraps: true}, {head: "came", right: true}, {head: "on hand", right: true}, {head: "used", right: true}, {head: "written off", right: true}, {head: "unaccounted", right: true}}}
	for _, b := range rows {
		t.add(string(b.Lot), b.What, b.Came.Show(w.units), b.OnHand.Show(w.units), b.Used.Show(w.units), b.Waste.Show(w.units), b.Unaccounted.Show(w.units))
	}
	w.table(t)
}
