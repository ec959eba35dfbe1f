package web

import (
	"net/http"

	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
)

// tubLabelsPage is all that templates/tublabels.html may show: labels to print and stick on tubs.
type tubLabelsPage struct {
	shell
	Labels               []tubLabel
	ReceiveURL, StockURL string
}

// tubLabel is what stands on a tub.
type tubLabel struct {
	Code string
	What string
	Rows []labelRow
	Held string
}

var tubLabelsTemplate = parse[tubLabelsPage]("tublabels")

// labelRow is one line of a label.
type labelRow struct{ Name, Value string }

// mostLabels is how many labels one page prints.
const mostLabels = 100

func (s *server) showTubLabels(w http.ResponseWriter, r *http.Request) {
	s.ofCold(w, r, func(c cold) func() {
		v := tubLabelsPage{shell: s.inShell(r, c.book.Kitchen, "Labels for tubs", "stock"), ReceiveURL: coldURL(receivePath, c.query), StockURL: coldURL(stockPath, c.query)}
		for _, id := range c.query["lot"][:min(len(c.query["lot"]), mostLabels)] {
			l := c.state.Lot(record.Lot(id))
			if l == nil {
				continue
			}
			label := tubLabel{Code: lots.Code{Lot: l.ID}.String(), What: c.whatIs(l)}
			for _, x := range []labelRow{{"Came", s.whenText(l.Born)}, {"From", l.Supplier}, {"Their lot", l.SupplierLot}, {"Run", l.Run}, {"Mass", c.rd.fig(l.Came).First}, {"Use by", string(l.UseBy)}, {"Best before", string(l.BestBefore)}} {
				if x.Value != "" {
					label.Rows = append(label.Rows, x)
				}
			}
			if l.Held() {
				last := l.Holds[len(l.Holds)-1]
				if label.Held = last.Why; !last.Numbers.Empty() {
					label.Held = theirNumbers(last.Numbers.String()) + ": " + last.Why
				}
			}
			v.Labels = append(v.Labels, label)
		}
		if len(v.Labels) == 0 {
			return func() { s.missing(w, r, c.book, "There is no such lot to print a label of.") }
		}
		return func() { tubLabelsTemplate.show(w, http.StatusOK, v) }
	})
}
