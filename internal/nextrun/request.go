package nextrun

import (
	"fmt"
	"slices"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
)

// request is the proposal as a run: what to make, and how many of each pack are promised already and come from it.
func (p *Proposal) request() kitchen.Request {
	r := kitchen.Request{Name: "what to make on " + p.Day, Day: p.Day}
	for _, row := range p.Rows {
		if row.Make <= 0 {
			continue
		}
		r.Want = append(r.Want, kitchen.Want{Pack: row.Pack, Count: int(row.Make)})
		if promised := min(row.Make, row.Ordered-row.OnHand-row.Planned); promised > 0 {
			if r.Orders == nil {
				r.Orders = map[kitchen.PackID]int{}
			}
			r.Orders[row.Pack] = int(promised)
		}
		if row.First != "" && row.First < p.Day && row.Ordered > row.OnHand {
			p.find("order-before-run", finding.Caution, "pack "+string(row.Pack), fmt.Sprintf("%d are ordered, the first for %s, which is before the run, and %d are there", row.Ordered, row.First, row.OnHand), "make it earlier, or tell the customers")
		}
	}
	return r
}

// unknown finds orders of packs that the book has not.
func (p *Proposal) unknown(book kitchen.Book, ask Ask) {
	var said []kitchen.PackID
	for _, w := range ask.Open {
		if _, known := book.Packs[w.Pack]; known || w.Count <= 0 || slices.Contains(said, w.Pack) {
			continue
		}
		said = append(said, w.Pack)
		p.find("pack-unknown", finding.Caution, "order "+w.Order, fmt.Sprintf("it is for %q, which the book has not: it is not counted", w.Pack), "add the pack to the book, or correct the order")
	}
}
