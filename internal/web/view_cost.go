package web

import (
	"fmt"
	"html/template"
	"slices"

	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// costView is what the packs cost.
type costView struct {
	Grave   []reminder
	Packs   []costPack
	Base    string // of overhead
	Picture template.HTML
	Joint   []string // by what rule the packs of a dish share its pots, as counted
}

type costPack struct {
	Name        string
	Food        string
	Packaging   string
	Labour      string
	Energy      string
	Other       string
	Total       string
	Price       string
	Share       string // food over price
	Lower       bool
	Missing     []string
	Ingredients []costLine
}

type costLine struct {
	Name string
	Mass figure
	Cost string
}

func viewCost(p plan.Plan, r reader) costView {
	v := costView{Grave: graveFor(p, atMoney), Picture: costShares(p, r)}
	for _, j := range p.Money.Joint {
		if j.Used {
			v.Joint = append(v.Joint, fmt.Sprintf("The packs of %s share the cost of its pots %s.", dishName(p, j.Dish), j.Rule))
		}
	}
	for _, c := range p.Cost {
		v.Base = c.OverheadBase
		cv := costPack{Name: c.Name, Food: r.money(c.Food), Packaging: r.money(c.Packaging), Labour: r.money(c.Labour), Energy: least(c.Energy, r), Other: least(c.Cleaning+c.Overhead+c.Waste, r), Total: r.money(c.Total),
			Lower: len(c.Missing) > 0, Missing: c.Missing}
		if c.Price != 0 {
			cv.Price, cv.Share = r.money(c.Price), c.FoodShare.Show(r.units)
		}
		for _, l := range c.Ingredients {
			cv.Ingredients = append(cv.Ingredients, costLine{Name: l.Name, Mass: r.fig(l.Mass), Cost: least(l.Cost, r)})
		}
		v.Packs = append(v.Packs, cv)
	}
	return v
}

func dishName(p plan.Plan, id string) string {
	i := slices.IndexFunc(p.Dishes, func(d plan.Dish) bool { return d.ID == id })
	if i < 0 {
		return id
	}
	return p.Dishes[i].Name
}

// least is an amount that is never shown as nothing when it is something.
func least(m unit.Money, r reader) string {
	if m > 0 && m.RoundCents() == 0 {
		return "under " + r.money(unit.Cent)
	}
	return r.money(m)
}
