package web

import (
	"html/template"
	"strconv"
	"strings"

	"kettlefrost/internal/draw"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// costShares draws what each pack costs, by what it is spent on, beside its price; nothing when there are no packs. The table has the same figures.
func costShares(p plan.Plan, r reader) template.HTML {
	chart := draw.Shares{Title: "Cost of one pack", Desc: "What each pack costs, by what it is spent on."}
	for _, c := range p.Cost {
		row := draw.SharesRow{Name: c.Name, Total: r.money(c.Total)}
		if len(c.Missing) > 0 {
			row.Total = "at least " + row.Total
		}
		for _, part := range []struct {
			name string
			is   unit.Money
		}{{"food", c.Food}, {"packaging", c.Packaging}, {"labour", c.Labour}, {"energy", c.Energy}, {"other", c.Cleaning + c.Overhead + c.Waste}} {
			row.Parts = append(row.Parts, draw.SharesPart{Name: part.name, Amount: float64(part.is), Text: least(part.is, r)})
		}
		if c.Price > 0 {
			row.Marks = []draw.SharesMark{{Name: "price", At: float64(c.Price), Text: r.money(c.Price)}}
		}
		chart.Rows = append(chart.Rows, row)
	}
	if len(chart.Rows) == 0 {
		return ""
	}
	return template.HTML(draw.InlineSVG(chart.Picture(), "cost"))
}

// freezerShares draws what goes into each kind of freezer on each day, beside what such freezers take in a day.
func freezerShares(p plan.Plan, r reader) template.HTML {
	chart := draw.Shares{Title: "What goes into the freezers", Desc: "The mass that goes into each kind of freezer on each day, by packs."}
	net := map[string]unit.Mass{}
	for _, f := range p.Fill {
		net[f.Pack] = f.Net + f.Over
	}
	for day := 1; day <= p.Freeze.Schedule.Days; day++ {
		for _, z := range p.Freeze.Freezers {
			row := draw.SharesRow{Name: z.Name + ", day " + strconv.Itoa(day)}
			total := unit.Mass(0)
			for _, e := range p.Freeze.Schedule.Entries {
				if e.Day == day && (e.Freezer == z.Name || strings.HasPrefix(e.Freezer, z.Name+", no. ")) {
					m := net[e.Pack] * unit.Mass(e.Count)
					total += m
					row.Parts = append(row.Parts, draw.SharesPart{Name: e.Name, Amount: m.Kg(), Text: r.fig(m).First})
				}
			}
			if total == 0 {
				continue
			}
			row.Total = r.fig(total).First
			row.Marks = []draw.SharesMark{{Name: "a day by the household rule, at most", At: z.RuleHigh.Kg(), Text: r.fig(z.RuleHigh).First}, {Name: "a day by heat alone", At: z.ByHeat.Kg(), Text: r.fig(z.ByHeat).First}}
			chart.Rows = append(chart.Rows, row)
		}
	}
	if len(chart.Rows) == 0 {
		return ""
	}
	return template.HTML(draw.InlineSVG(chart.Picture(), "load"))
}

func cabinetPicture(p plan.Plan, of []int, r reader) (draw.Curves, bool) {
	if of[0] >= len(p.Freeze.Schedule.Cabinets) {
		return draw.Curves{}, false
	}
	return draw.Cabinet(p.Freeze.Schedule.Cabinets[of[0]], r.units), true
}
