package plan_test

import (
	"strings"
	"testing"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// TestLeadTimes: the farm takes four days and asks $9 for 5 kg of carrots, in three packs of 2 kg; the shop takes one and asks $12 for a
// pack of 6 kg. With four days it is the farm, with three the shop, with none nobody.
func TestLeadTimes(t *testing.T) {
	for _, c := range []struct {
		today, from string
		late, never bool
	}{
		{"", "farm", false, false},
		{"2026-11-27", "farm", false, false},
		{"2026-11-28", "shop", true, false},
		{"2026-11-30", "shop", true, false},
		{"2026-12-01", "", true, true},
	} {
		book, req := soupKitchen(t), soups(20)
		book.Suppliers["farm"] = kitchen.Supplier{Name: "the farm", Lead: 4}
		book.Suppliers["shop"] = kitchen.Supplier{Name: "the shop", Lead: 1}
		edit(book.Ingredients, "carrot", func(i *kitchen.Ingredient) {
			i.Buy = append(i.Buy, kitchen.Offer{Supplier: "shop", Pack: unit.Amount{Kind: unit.AmountMass, Mass: 6 * unit.Kilogram}, Price: 12 * unit.MoneyUnit})
		})
		req.Day, req.Today = "2026-12-01", c.today
		p := makePlan(t, book, req)
		from := ""
		for _, o := range p.Buy.Orders {
			from += o.Supplier
		}
		if from != c.from {
			t.Errorf("ordered on %q: bought from %q, want %q", c.today, from, c.from)
		}
		late, never := has(p.Findings, plan.CodeTooLate), has(p.Findings, plan.CodeNotInTime)
		if (late != nil) != c.late || (never != nil) != c.never {
			t.Errorf("ordered on %q: %v", c.today, p.Findings)
			continue
		}
		if late != nil && (late.Figures[0].Value != 4 || !strings.Contains(late.Fix, "order from it by 2026-11-27")) {
			t.Errorf("ordered on %q: %+v", c.today, late)
		}
		if never != nil {
			l := p.Buy.Lines[0].Late
			if l == nil || *l != (plan.BuyLate{Lead: 1, Left: 0}) || never.Severity != finding.Stop || !strings.Contains(never.Fix, "start on 2026-12-02 or later") {
				t.Errorf("ordered on %q: %+v, %+v", c.today, l, never)
			}
		}
	}
}

// TestPartOfItIsLate: the shop brings one pack of 2 kg in time; for the other 3 kg the farm, which takes four days, is too late.
func TestPartOfItIsLate(t *testing.T) {
	book, req := soupKitchen(t), soups(20)
	book.Suppliers["farm"], book.Suppliers["shop"] = kitchen.Supplier{Name: "the farm", Lead: 4}, kitchen.Supplier{Name: "the shop"}
	edit(book.Ingredients, "carrot", func(i *kitchen.Ingredient) {
		i.Buy = append(i.Buy, kitchen.Offer{Supplier: "shop", Pack: unit.Amount{Kind: unit.AmountMass, Mass: 2 * unit.Kilogram}, Price: 2 * unit.MoneyUnit, AtMost: 1})
	})
	req.Day, req.Today = "2026-12-01", "2026-11-29"
	p := makePlan(t, book, req)
	if l := p.Buy.Lines[0]; l.Late == nil || l.Late.Left != 2 || !strings.Contains(l.Missing, "only 2 kg can be had in time") {
		t.Errorf("%+v", l)
	}
}

// TestLeftOver: 5 kg are needed, three packs of 2 kg cost $9, one of 10 kg $11 and leaves 5 kg. Left-overs that are worth nothing make it the
// small packs; at half of the lowest price, $0.55 a kilogram, they are worth $0.55 and $2.75, and the large pack is better by $0.20. What is
// left is never worth more than the lowest price of a pack, a price for many packs included.
func TestLeftOver(t *testing.T) {
	for _, c := range []struct {
		keeps        unit.Share
		edit         func(*kitchen.Ingredient)
		goods, worth unit.Money
	}{
		{0, nil, 9 * unit.MoneyUnit, 0},
		{50 * unit.PerCent, nil, 11 * unit.MoneyUnit, 275 * unit.Cent},
		// Ten large packs for $60: the lowest price is $0.60 a kilogram, and at nine tenths of it the lists come to $8.46, $8.30 and, with the
		// ten, $8.70. At nine tenths of $1.10 the ten would have brought in money.
		{90 * unit.PerCent, func(i *kitchen.Ingredient) {
			i.Buy[1].Breaks = []kitchen.PriceBreak{{From: 10, Price: 6 * unit.MoneyUnit}}
		}, 11 * unit.MoneyUnit, 270 * unit.Cent},
	} {
		book := soupKitchen(t)
		edit(book.Ingredients, "carrot", func(i *kitchen.Ingredient) {
			i.Keeps = c.keeps
			if c.edit != nil {
				c.edit(i)
			}
		})
		p := makePlan(t, book, soups(20))
		if p.Buy.Goods != c.goods || p.Buy.LeftOver != c.worth || p.Buy.Lines[0].OverWorth != c.worth || p.Buy.Total != c.goods {
			t.Errorf("keeps %v: goods %s, left over %s (%s)", c.keeps, p.Buy.Goods, p.Buy.LeftOver, p.Buy.Lines[0].OverWorth)
		}
	}
}
