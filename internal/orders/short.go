package orders

import (
	"fmt"
	"strings"

	"kettlefrost/internal/allocation"
	"kettlefrost/internal/record"
)

// Short is packs that a line does not get, why, and what would help.
type Short struct {
	Packs int64  `json:"packs"`
	Code  string `json:"code"` // for programs: none-left, on-hold, too-short, too-many-lots, not-whole
	Why   string `json:"why"`
	Fix   string `json:"fix"`
}

var shortCodes = map[allocation.Why]string{allocation.NoneLeft: "none-left", allocation.OnHold: "on-hold", allocation.TooShort: "too-short", allocation.TooManyLots: "too-many-lots", allocation.NotWhole: "not-whole"}

// short says why packs are missing, with the lots that it is about.
func (w *allotting) short(o Order, g Got, x allocation.Short) Short {
	n := int64(x.Packs)
	v := Short{Packs: n, Code: shortCodes[x.Why]}
	customer := w.s.Customer(o.Customer)
	switch x.Why {
	case allocation.OnHold:
		v.Why = "there are packs on hold: " + strings.Join(w.heldLots(g.Pack), "; ")
		v.Fix = "have a named person decide what is to become of them"
	case allocation.TooShort:
		v.Why = fmt.Sprintf("what is left is not good for long enough: %s", strings.Join(w.oldLots(o, g.Pack), ", "))
		v.Fix = fmt.Sprintf("pack %d fresh ones %s", n, w.by(o.Due))
		if customer.LifeDays > 0 {
			v.Why += fmt.Sprintf("; %s wants %d days after %s", customer.Name, customer.LifeDays, o.Due)
			v.Fix += ", or agree with the customer on fewer days"
		}
	case allocation.TooManyLots:
		v.Why = fmt.Sprintf("there are packs in more lots than %s takes, which is %d", customer.Name, customer.MostLots)
		v.Fix = "agree with the customer on more lots"
	case allocation.NotWhole:
		v.Why = "the order is to be met whole or not at all, and cannot be met whole"
		v.Fix = "put right what else is short, or agree on a part of it"
	default:
		v.Why = "no pack is left that an earlier order does not get"
		if kept := w.keptPacks(g.Pack); kept > 0 {
			v.Why += fmt.Sprintf("; %d are kept to be opened and tasted", kept)
		}
		v.Fix = fmt.Sprintf("pack %d more %s, or agree on %d of %d", n, w.by(o.Due), g.Packs, g.Wanted)
	}
	return v
}

// by is until when something has to be done for a day.
func (w *allotting) by(due record.Day) string {
	if due < w.a.Today {
		return "now: it was due on " + string(due)
	}
	return "by " + string(due)
}

// heldLots are the lots of a kind of which packs are held, each with the reason.
func (w *allotting) heldLots(pack string) []string {
	var all []string
	for _, l := range w.lots {
		if l.What == pack && !l.held.Empty() {
			all = append(all, fmt.Sprintf("lot %s, packs %s (%s)", l.ID, l.held, l.Holds[len(l.Holds)-1].Why))
		}
	}
	return all
}

// keptPacks is how many packs of a kind are on hand and kept to be tasted.
func (w *allotting) keptPacks(pack string) (n int64) {
	for _, l := range w.lots {
		if l.What == pack {
			n += l.kept.Count()
		}
	}
	return n
}

// oldLots are the lots of a kind that are not good for as long as an order wants.
func (w *allotting) oldLots(o Order, pack string) []string {
	least := max(number(o.Due), number(w.a.Today)) + int(w.s.Customer(o.Customer).LifeDays)
	var all []string
	for _, l := range w.lots {
		if l.What == pack && !l.free.Empty() && lastDay(l.Lot) < least {
			all = append(all, fmt.Sprintf("lot %s until %s", l.ID, l.Last()))
		}
	}
	return all
}
