package web

import (
	"strconv"

	"kettlefrost/internal/plan"
)

// cardsView is how customers heat the packs.
type cardsView struct {
	Grave []reminder
	Cards []cardView
}

type cardView struct {
	Name      string
	Missing   []string // why it must not be printed yet
	Frozen    string   // minutes, or why there are none
	Thawed    string
	Steps     []string
	Check     []string
	Cautions  []string
	Kitchen   []string // not for the customer
	Thickness figure
	Thinnest  figure
	Thickest  figure
	Water     figure
	Nominal   string
	Worst     string
	Curve     pictureView
	Measured  []measuredView
	Forms     []formLinkView // to measure what is never computed
}

// measuredView is what a pack's own trials say of one way of heating.
type measuredView struct {
	Method, Minutes string
	Lacks           []string
}

type formLinkView struct{ Name, URL string }

func viewCards(p plan.Plan, r reader, at pictures) cardsView {
	v := cardsView{Grave: graveFor(p, atCards)}
	for i, c := range p.Cards {
		card := cardView{Name: c.Name, Missing: c.Missing, Frozen: cardMinutes(c.Frozen), Thawed: cardMinutes(c.Thawed), Thickness: r.fig(c.Thickness), Thinnest: r.fig(c.Thinnest),
			Thickest: r.fig(c.Thickest), Water: r.fig(c.Water), Nominal: r.span(c.Frozen.Nominal), Worst: r.span(c.Frozen.Worst), Curve: at.heating(i)}
		for _, l := range c.Lines {
			switch l.Section {
			case "steps":
				card.Steps = append(card.Steps, l.Text)
			case "check":
				card.Check = append(card.Check, l.Text)
			case "caution":
				card.Cautions = append(card.Cautions, l.Text)
			default:
				card.Kitchen = append(card.Kitchen, l.Text)
			}
		}
		for _, m := range c.Measured {
			mv := measuredView{Method: m.Method, Minutes: "no minutes yet", Lacks: m.Lacks}
			if m.Minutes > 0 {
				mv.Minutes = strconv.Itoa(m.Minutes) + " min"
			}
			card.Measured = append(card.Measured, mv)
		}
		for _, method := range []string{"microwave", "oven"} {
			card.Forms = append(card.Forms, formLinkView{"Form to measure: " + method, formLink(method, c.Name, c.Net)})
		}
		v.Cards = append(v.Cards, card)
	}
	return v
}

// verdictWords are why a card has no minutes.
var verdictWords = map[string]string{
	"uneven": "no minutes: too uneven", "too-thick": "no minutes: too thick", "water-dips": "no minutes: the water gets too cold", "never-hot": "no minutes: the water is not hot enough",
}

func cardMinutes(t plan.CardTime) string {
	switch words, none := verdictWords[t.Verdict]; {
	case t.Minutes > 0:
		return strconv.Itoa(t.Minutes) + " min"
	case none:
		return words
	}
	return "no minutes"
}
