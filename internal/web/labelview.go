package web

import (
	"fmt"
	"net/url"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/packlabel"
	"kettlefrost/internal/unit"
)

// labelShown is a label and all that it rests on, in words.
type labelShown struct {
	Draft      bool
	Sides      []labelSideView
	None       string // why there is no picture
	Ways       []labelWayView
	Asks       []labelAskView
	Held       []heldRow
	LotURL     string
	Facts      []labelFact
	Allergens  []labelAllergenView
	Unanswered []string
	Further    string // how many more
	Statement  string
	Contains   string
	Ties       []string
	Serving    string
	Nutrition  []labelNutrientView
	Energy     []labelFact
	EnergySays string
	Net        []labelFact
	Agency     labelAgencyView
	Exemptions []labelExemptView
	Contact    findingsView // who worked where before
	Advice     findingsView
	Printed    []labelPrintRow
	Run        string
}

type labelFact struct{ Name, Value string }

type labelWayView struct {
	Sign, Word, Says string
}

type labelAllergenView struct{ Name, From string }

type labelNutrientView struct {
	Name, Serving, Hundred, Printed, Percent string
	Missing                                  string
	Open                                     bool
}

type labelAgencyView struct {
	Sign, Asks, Answer string
	Why                []string
	Source             string
}

type labelExemptView struct {
	Sign, Word, Why, Notice, Source string
}

type labelPrintRow struct {
	At, Who, Count, Kind, Why, On string
	Differs                       bool
}

// mostUnanswered is how many open questions about allergens are said again beside the list.
const mostUnanswered = 4

func (s *server) labelShown(a *labelAsked, form url.Values) *labelShown {
	x := a.sheet
	v := &labelShown{Draft: x.Draft, Sides: labelSides(a, form), Statement: x.Statement, Contains: x.Contains, Unanswered: x.Unanswered[:min(len(x.Unanswered), mostUnanswered)], Serving: x.Serving, EnergySays: x.Energy.Says, Run: x.Run}
	if more := len(x.Unanswered) - len(v.Unanswered); more > 0 {
		v.Further = times(more, "more is above", "more are above")
	}
	if len(v.Sides) == 0 {
		v.None = "There is no picture: what stops the label must be answered first."
	}
	for _, way := range x.Ways {
		y := labelWayView{signs[finding.Stop], "does not do", way.Says}
		if way.Does {
			y.Sign, y.Word = signs[finding.Note], "would do"
		}
		v.Ways = append(v.Ways, y)
	}
	for _, f := range x.Open {
		v.Asks = append(v.Asks, s.labelAsk(f))
	}
	if !x.Draft {
		v.LotURL = lotURL(lotPath, a.made.Ask.Lot, form)
	}
	for _, h := range x.Held {
		row := heldRow{Of: "all of it", Why: h.Why, Since: s.recallTime(h.Since), Who: h.Who, Decided: h.Decides}
		if h.Numbers != "" {
			row.Of = theirNumbers(h.Numbers)
		}
		v.Held = append(v.Held, row)
	}
	v.Facts, v.Net = s.labelFacts(a), netFacts(x.Net)
	v.Energy = []labelFact{{"By the factors 4, 4 and 9", x.Energy.Factors}, {"By the food table", x.Energy.Table}}
	for _, y := range x.Allergens {
		v.Allergens = append(v.Allergens, labelAllergenView{y.Name, strings.Join(y.From, ", ")})
	}
	for _, t := range x.Ties {
		v.Ties = append(v.Ties, fmt.Sprintf("%s and %s are only %s apart in a pack: how they were weighed decides which stands first", t.First, t.Second, apartWords(t.Apart)))
	}
	for _, n := range x.Nutrition {
		y := labelNutrientView{Name: n.Name, Serving: n.Serving, Hundred: n.Hundred, Printed: n.Printed, Percent: n.Percent, Open: !n.Known}
		if len(n.Missing) > 0 {
			y.Missing = "nothing says how much is in " + strings.Join(n.Missing, ", ")
		}
		v.Nutrition = append(v.Nutrition, y)
	}
	v.Agency, v.Exemptions = labelAgencyOf(x.Agency), labelExempts(x.Exemptions)
	v.Contact, v.Advice = labelAdvice(x.Advice)
	for i := len(x.Printed) - 1; i >= 0; i-- {
		v.Printed = append(v.Printed, s.printRow(x.Printed[i]))
	}
	return v
}

// apartWords is a difference on a scale that shows tenths of a gram.
func apartWords(m unit.Mass) string {
	if m < unit.Gram/10 {
		return "less than 0.1 g"
	}
	return m.Fine()
}

// labelFacts are what the label is of.
func (s *server) labelFacts(a *labelAsked) []labelFact {
	x := a.sheet
	facts := []labelFact{{"Says it is", x.Name}, {"Rules", map[string]string{"us": "United States, 21 CFR 101", "eu": "European Union, Regulation 1169/2011"}[x.Regime]}, {"Language", x.Language},
		{"Labels", fmt.Sprintf("%s, %.4g × %.4g mm, %s", x.Stock.Name, x.Stock.WideMm, x.Stock.HighMm, map[bool]string{true: fmt.Sprintf("%d to a sheet", x.Stock.Per), false: "on a roll"}[x.Stock.Sheet])}}
	if x.Run != "" {
		facts = append(facts, labelFact{"Reckoned for", "the run " + x.Run})
	} else {
		facts = append(facts, labelFact{"Reckoned for", "the dish as it is written, by no run"})
	}
	if x.Sides > 1 {
		facts = append(facts, labelFact{"Each pack gets", fmt.Sprintf("%d labels: a front and a back", x.Sides)})
	}
	return facts
}

func netFacts(n app.LabelNet) []labelFact {
	return []labelFact{{"On the label", n.Says}, {"For the United States", n.US}, {"For the European Union", n.EU}, {"What the average must reach", n.Declared.Fine()}, {"Filled on average", n.Filled.Fine()}}
}

func labelAgencyOf(a app.LabelAgency) labelAgencyView {
	v := labelAgencyView{Sign: signs[finding.Note], Asks: a.Asks, Answer: a.Answer, Why: a.Why, Source: a.Source}
	if a.Agriculture && a.Answer == "" {
		v.Sign = signs[finding.Caution]
	}
	if a.Confirm != "" {
		v.Source += "; " + a.Confirm
	}
	return v
}

func labelExempts(all []app.LabelExemption) (out []labelExemptView) {
	for _, e := range all {
		v := labelExemptView{Sign: "–", Word: "does not hold", Why: e.Why, Source: e.Source}
		if e.May {
			v.Sign, v.Word = signs[finding.Caution], "may hold"
		}
		if e.Notice {
			v.Notice = "a notice to the Food and Drug Administration is due each year"
		}
		out = append(out, v)
	}
	return out
}

// labelAdvice is advice with that about who worked where before apart.
func labelAdvice(all finding.List) (contact, other findingsView) {
	var of, rest finding.List
	for _, f := range all {
		if f.Code == packlabel.CodeCrossContact {
			of = append(of, f)
		} else {
			rest = append(rest, f)
		}
	}
	return viewFindings(of), viewFindings(rest)
}

func (s *server) printRow(p app.LabelPrint) labelPrintRow {
	v := labelPrintRow{At: s.recallTime(p.At), Who: p.Who, Count: times(int(p.Count), "label", "labels"), Kind: "first print", Why: p.Why, On: p.Stock + ", " + p.Language, Differs: p.Differs}
	if p.Reprint {
		v.Kind = "reprint"
	}
	return v
}
