package kitchen

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/invoice"
	"kettlefrost/internal/unit"
)

// trade checks who sells, at what prices and with what taxes.
func (c *checker) trade() {
	c.seller(spot{path: "seller", where: "seller"}, c.book.Seller)
	for id, t := range inOrder(c.book.TaxRates) {
		at := entrySpot("tax-rates", string(id))
		c.id(at, string(id))
		c.tax(at, t)
	}
	for id, l := range inOrder(c.book.PriceLists) {
		at := entrySpot("price-lists", string(id))
		c.id(at, string(id))
		c.text(at, "name", l.Name)
		c.within(at, "off", inPerCent(l.Off), perCent)
		if l.Terms != nil {
			c.within(at, "terms-days", float64(*l.Terms), termDays)
		}
		c.listPrices(at, l.Prices)
	}
}

func (c *checker) seller(at spot, s Seller) {
	c.within(at, "terms-days", float64(s.Terms), termDays)
	for _, n := range []struct{ key, pattern string }{{"invoice-numbers", s.Invoices}, {"credit-numbers", s.Credits}} {
		if n.pattern == "" {
			continue
		}
		if _, err := invoice.ParseSeries(n.pattern); err != nil {
			c.stop(NumberPattern, at.key(n.key), strings.TrimPrefix(err.Error(), "invoice: "), "write it like R-YYYY-0000")
		}
	}
	if s.Invoices != "" && s.Invoices == s.Credits {
		c.stop(NumberPattern, at.key("credit-numbers"), "invoices and credit notes would have the same numbers", "give credit notes a beginning of their own")
	}
}

// nameMark stands between a tax and its part on an invoice.
const nameMark = ": "

func (c *checker) tax(at spot, t TaxRate) {
	c.text(at, "name", t.Name)
	c.within(at, "rate", inPerCent(t.Rate), perCent)
	if strings.Contains(t.Name, nameMark) {
		c.stop(TaxParts, at.key("name"), fmt.Sprintf("%.40q has a colon and a space, which stand before the name of a part", t.Name), "write the name without them")
	}
	if strings.TrimSpace(t.Source) == "" {
		c.caution(TaxByNobody, at.key("source"), "nobody is named who says that this rate holds", "write the authority, its notice and the date after source:")
	}
	for other, o := range inOrder(c.book.TaxRates) {
		if o.Name == t.Name && entrySpot("tax-rates", string(other)).path < at.path {
			c.stop(DuplicateID, at.key("name"), fmt.Sprintf("%s is called %q too: on an invoice they could not be told apart", other, t.Name), "give one of them another name")
		}
	}
	sum := unit.Share(0)
	for i, p := range t.Parts {
		here := at.item("parts", i, p.Name)
		c.text(here, "name", p.Name)
		c.within(here, "rate", inPerCent(p.Rate), perCent)
		sum += min(p.Rate, unit.Whole)
	}
	if len(t.Parts) > 0 && sum != t.Rate {
		c.stop(TaxParts, at.key("parts"), fmt.Sprintf("the parts come to %s, and the rate is %s", sum, t.Rate), "correct the rate or a part")
	}
}

// listPrices checks prices: each in whole cents, and one for a pack, day and number.
func (c *checker) listPrices(at spot, prices []ListPrice) {
	type when struct {
		pack  PackID
		since string
		from  int
	}
	seen := map[when]bool{}
	for i, p := range prices {
		here := at.item("prices", i, "")
		c.refers(here.key("pack"), "pack", string(p.Pack), names(c.book.Packs))
		c.within(here, "each", p.Each.Units(), money)
		c.within(here, "from", float64(p.From), number)
		if p.Since != "" {
			c.date(here.key("since"), p.Since)
		}
		if p.Each%unit.Cent != 0 {
			c.stop(CentParts, here.key("each"), fmt.Sprintf("%s is not in whole cents", p.Each), "write a price that somebody can pay")
		}
		w := when{p.Pack, p.Since, max(p.From, 1)}
		if seen[w] {
			c.stop(PriceTwice, here, fmt.Sprintf("%s has another price above for the same day and number", orNothing(string(p.Pack))), "keep one of them, or write since: and the day")
		}
		seen[w] = true
	}
}

// PricesOn are the prices of a list that hold on a day: for each pack those of the last day they were set from.
func (l PriceList) PricesOn(day string) []ListPrice {
	last := map[PackID]string{}
	for _, p := range l.Prices {
		if p.Since <= day {
			last[p.Pack] = max(last[p.Pack], p.Since)
		}
	}
	var now []ListPrice
	for _, p := range l.Prices {
		if since, any := last[p.Pack]; any && p.Since == since {
			now = append(now, p)
		}
	}
	slices.SortStableFunc(now, func(a, b ListPrice) int {
		return cmp.Or(cmp.Compare(a.Pack, b.Pack), cmp.Compare(a.From, b.From))
	})
	return now
}
