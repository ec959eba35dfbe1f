package sheet

import "fmt"

// cards are the heating cards: what the customer is told, and why.
func (w *writer) cards() {
	w.heading("cards", "")
	if len(w.plan.Cards) == 0 {
		w.para(0, "No packs to heat.")
		return
	}
	w.para(0, "Predicted. Heat one of your own and measure its middle before you print minutes; the customer's thermometer decides.")
	for _, c := range w.plan.Cards {
		w.sub(fmt.Sprintf("%s: %s thick, %s to %s", c.Name, c.Thickness.Show(w.units), c.Thinnest.Show(w.units), c.Thickest.Show(w.units)))
		for _, m := range c.Missing {
			w.hang(2, "DO NOT PRINT YET: ", m)
		}
		n := 0
		for _, l := range c.Lines {
			switch l.Section {
			case "steps":
				n++
				w.hang(2, fmt.Sprintf("%d. ", n), l.Text)
			case "kitchen":
				w.hang(2, "(", l.Text+")")
			default:
				w.hang(2, "- ", l.Text)
			}
		}
	}
}
