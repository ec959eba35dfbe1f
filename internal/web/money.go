package web

import (
	"fmt"
	"html/template"
	"net/http"
	"slices"
	"strings"

	"kettlefrost/internal/draw"
	"kettlefrost/internal/plan"
)

// moneyPage is all that templates/money.html may show: what packs cost, what they leave, and how sure that is.
type moneyPage struct {
	runHead
	Cost     costView
	Prices   []priceView
	Even     string // the break-even, in words
	Outlook  *outlookMoney
	Moves    []movesView
	Spent    string
	Rule     string
	Dishes   []dishMoney
	LeftCost string
	Left     []leftMoney
}

type priceView struct {
	Name      string
	Price     string
	Cost      string
	Leaves    string
	Margin    string
	MarkUp    string
	Food      string
	ForFood   string
	ForMargin string
	AtMost    bool
	Loses     bool
}

// outlookMoney is how the run may turn out.
type outlookMoney struct {
	Says string
	Rows []outlookRow
	Earn string
}

type outlookRow struct{ Name, Packs, Cost string }

// movesView is what moves the cost of a pack, drawn.
type movesView struct {
	Name    string
	Picture template.HTML
}

type dishMoney struct {
	Name  string
	Steps []stepMoney
	Joint []string
}

type stepMoney struct{ Name, In, Own, To string }

type leftMoney struct {
	Name string
	Mass figure
	Cost string
}

func (s *server) showMoney(w http.ResponseWriter, r *http.Request, d runDay, head runHead) {
	moneyTemplate.show(w, http.StatusOK, viewMoney(d.plan, readerOf(d.book.Kitchen, r), head))
}

func viewMoney(p plan.Plan, rd reader, head runHead) moneyPage {
	v := moneyPage{runHead: head, Cost: viewCost(p, rd), Spent: rd.money(p.Money.Spent), Rule: p.Money.Rule, LeftCost: rd.money(p.Money.LeftCost)}
	for i, x := range p.Prices {
		v.Prices = append(v.Prices, viewPrice(x, rd))
		v.Moves = append(v.Moves, movesView{x.Name, template.HTML(draw.InlineSVG(tornado(x, rd), fmt.Sprintf("mv%d", i)))})
	}
	v.Even, v.Outlook = evenWords(p.BreakEven, rd), viewOutlookMoney(p, rd)
	for _, d := range p.Dishes {
		v.Dishes = append(v.Dishes, viewDishMoney(p.Money, d, rd))
	}
	for _, l := range p.Money.Left {
		v.Left = append(v.Left, leftMoney{Name: l.Output, Mass: rd.fig(l.Mass), Cost: least(l.Cost, rd)})
	}
	return v
}

func viewPrice(x plan.PackPrice, rd reader) priceView {
	v := priceView{Name: x.Name, Cost: rd.money(x.Variable), AtMost: x.AtMost, ForFood: rd.money(x.ForFood) + " for " + together(x.FoodTarget.Show(rd.units))}
	if x.ForMargin > 0 {
		v.ForMargin = rd.money(x.ForMargin) + " for " + together(x.MarginTarget.Show(rd.units))
	}
	if x.Price > 0 {
		v.Price, v.Leaves, v.Margin, v.MarkUp, v.Food = rd.money(x.Price), rd.money(x.Contribution), together(x.Margin.Show(rd.units)), together(x.MarkUp.Show(rd.units)), together(x.FoodShare.Show(rd.units))
		v.Loses = x.Contribution < 0
	}
	return v
}

func evenWords(e *plan.BreakEven, rd reader) string {
	switch {
	case e == nil:
		return ""
	case e.Why != "":
		return "A week's fixed costs of " + rd.money(e.Fixed) + " are never paid by packs like these: " + e.Why + "."
	}
	var packs []string
	for _, x := range e.Packs {
		packs = append(packs, fmt.Sprintf("%d × %s", x.Count, x.Name))
	}
	return fmt.Sprintf("A week's fixed costs of %s are paid by sales of %s in the proportions of this run: %s.", rd.money(e.Fixed), rd.money(e.Sales), strings.Join(packs, ", "))
}

func viewOutlookMoney(p plan.Plan, rd reader) *outlookMoney {
	r := p.Ranges
	if r == nil {
		return nil
	}
	v := &outlookMoney{Says: fmt.Sprintf("Eight in ten of %d draws lie between these ends, with standard deviations of %s of yields, %s of times and %s of prices (seed %d).", r.Draws, r.Yields.Show(rd.units), r.Times.Show(rd.units), r.Prices.Show(rd.units), r.Seed),
		Earn: fmt.Sprintf("%s to %s, %s in the middle", rd.money(r.Earned.Low), rd.money(r.Earned.High), rd.money(r.Earned.Middle))}
	for i, x := range r.Packs {
		v.Rows = append(v.Rows, outlookRow{p.Fill[i].Name, fmt.Sprintf("%d to %d", x.Low, x.High), rd.money(x.Cost.Low) + " to " + rd.money(x.Cost.High)})
	}
	return v
}

// mostBars is how many inputs are drawn.
const mostBars = 7

func tornado(x plan.PackPrice, rd reader) draw.Picture {
	t := draw.Tornado{Title: "What moves the cost of " + x.Name, Desc: "Each input alone, from its low end to its high end, the one that moves the cost the most on top."}
	for _, m := range x.Moves[:min(mostBars, len(x.Moves))] {
		t.Base, t.At = rd.money(m.Base), m.Base.Units()
		t.Rows = append(t.Rows, draw.TornadoRow{Name: m.Input, Low: m.Low.Units(), High: m.High.Units(), LowText: rd.money(m.Low), HighText: rd.money(m.High)})
	}
	return t.Picture()
}

func viewDishMoney(m plan.CostSheet, d plan.Dish, rd reader) dishMoney {
	v := dishMoney{Name: d.Name}
	for _, s := range m.Steps {
		if s.Dish != d.ID {
			continue
		}
		var to []string
		for _, o := range s.Outputs {
			_, name, _ := strings.Cut(o.Output, "/") // it begins with its dish
			if len(s.Outputs) > 1 {
				name += " " + least(o.Cost, rd)
			}
			to = append(to, name)
		}
		v.Steps = append(v.Steps, stepMoney{s.Step, rd.money(s.Carried), rd.money(s.Own), strings.Join(to, "; ")})
	}
	for _, j := range m.Joint {
		if j.Dish != d.ID {
			continue
		}
		var parts []string
		for _, part := range j.Parts {
			parts = append(parts, fmt.Sprintf("%s %s (%s)", part.Output, rd.money(part.Cost), part.Share.Show(rd.units)))
		}
		used := "for comparison"
		if j.Used {
			used = "as counted here"
		}
		v.Joint = append(v.Joint, fmt.Sprintf("%s %s, %s: %s", rd.money(j.Total), j.Rule, used, strings.Join(parts, "; ")))
	}
	v.Joint = slices.Clip(v.Joint)
	return v
}
