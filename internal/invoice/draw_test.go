package invoice

import (
	"math/big"
	"testing"

	"kettlefrost/internal/unit"
	"pgregory.net/rapid"
)

// drawDraft draws an invoice of any kind that can be.
func drawDraft(t *rapid.T) Draft {
	n := func(least, most int, name string) int { return rapid.IntRange(least, most).Draw(t, name) }
	d := Draft{Prices: Prices(n(0, 1, "prices")), Rounding: Rounding(n(0, 1, "rounding")), Taxed: Taxed(n(0, 1, "taxed")), Rates: []Rate{vat19, vat7, newYork, {Name: "none"}}}
	for range n(0, 8, "lines") {
		l := Line{Kind: Kind(n(0, 2, "kind")), Count: int64(n(-3, 40, "count")), Each: unit.Money(n(0, 20_000_000, "each")), Rate: n(-1, 3, "rate")}
		if n(0, 2, "off") == 0 {
			l.Off = []Off{{Share: unit.Share(n(0, 1000, "share")) * unit.PerCent / 10}}
		}
		d.Lines = append(d.Lines, l)
	}
	if n(0, 1, "discount") == 0 {
		d.Off = []Off{{Share: unit.Share(n(0, 500, "share")) * unit.PerCent / 10}, {Share: unit.Share(n(0, 400, "share")) * unit.PerCent / 10}}
	}
	return d
}

func totalled(t *rapid.T, d Draft) Invoice {
	inv, err := Total(d)
	if err != nil {
		t.Fatalf("%v\n%+v", err, d)
	}
	return inv
}

// Every cent is in a line, in a rate and in the totals; each tax is right by fractions of any size.
func TestEveryCentIsAccountedFor(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawDraft(t)
		inv := totalled(t, d)
		var lines, rates LineSum
		var shared unit.Money
		for _, s := range inv.Lines {
			shared += s.Shared
			lines.Net, lines.Tax, lines.Gross = lines.Net+s.Net, lines.Tax+s.Tax, lines.Gross+s.Gross
			if s.Net+s.Tax != s.Gross || s.Full-s.Off != s.Amount || s.Shared < 0 || s.Shared > max(0, s.Amount) || !wholeCents(s.Net) || !wholeCents(s.Tax) {
				t.Errorf("a line does not add up: %+v", s)
			}
		}
		for _, s := range inv.Taxes {
			rates.Net, rates.Tax, rates.Gross = rates.Net+s.Net, rates.Tax+s.Tax, rates.Gross+s.Gross
			if s.Parts != nil && sum(s.Parts) != s.Tax {
				t.Errorf("the parts of a tax do not add up: %+v", s)
			}
			if d.Taxed == PerDocument && s.Rate != NoTax {
				checkTax(t, d, s)
			}
		}
		want := LineSum{Net: inv.Net, Tax: inv.Tax, Gross: inv.Gross}
		sums := inv.Goods - inv.Off + inv.Charges + inv.Deposits
		if d.Prices == Exclusive && sums != inv.Net || d.Prices == Inclusive && sums != inv.Gross {
			t.Errorf("what is on the lines comes to %s: %+v", sums, inv.Totals)
		}
		if lines != want || rates != want || shared != inv.Off || sum(inv.Offs) != inv.Off || inv.Net+inv.Tax != inv.Gross || inv.Gross-inv.Prepaid != inv.Due {
			t.Errorf("lines %+v, rates %+v, totals %+v", lines, rates, inv.Totals)
		}
	})
}

// checkTax works a tax out in fractions: it is within half a cent, and half a cent went where the rule says.
func checkTax(t *rapid.T, d Draft, s TaxSum) {
	share := big.NewRat(int64(d.Rates[s.Rate].Share), int64(unit.Whole))
	exact := new(big.Rat).Mul(big.NewRat(int64(s.Net), int64(unit.Cent)), share)
	if d.Prices == Inclusive {
		exact.Mul(big.NewRat(int64(s.Gross), int64(unit.Cent)), new(big.Rat).Quo(share, new(big.Rat).Add(share, big.NewRat(1, 1))))
	}
	cents := int64(s.Tax / unit.Cent)
	off := new(big.Rat).Sub(big.NewRat(cents, 1), exact)
	half := off.Abs(off).Cmp(big.NewRat(1, 2))
	magnitude := new(big.Rat).Abs(exact).Cmp(new(big.Rat).Abs(big.NewRat(cents, 1)))
	if half > 0 || half == 0 && d.Rounding == HalfEven && cents%2 != 0 || half == 0 && d.Rounding == HalfUp && magnitude > 0 {
		t.Errorf("tax %s on %s at %s: exactly %s cents", s.Tax, s.Net, d.Rates[s.Rate].Share, exact.FloatString(6))
	}
}

// The sum with tax, taken as a price with the tax in it, gives the price without back, to a cent.
func TestInclusiveAndExclusiveAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rate := Rate{Share: unit.Share(rapid.Int64Range(0, int64(unit.Whole)).Draw(t, "rate"))}
		rounding := Rounding(rapid.IntRange(0, 1).Draw(t, "rounding"))
		net := c(rapid.Int64Range(0, 1_000_000_00).Draw(t, "net"))
		without := totalled(t, Draft{Rounding: rounding, Rates: []Rate{rate}, Lines: []Line{{Count: 1, Each: net}}})
		with := totalled(t, Draft{Rounding: rounding, Prices: Inclusive, Rates: []Rate{rate}, Lines: []Line{{Count: 1, Each: without.Gross}}})
		if diff := with.Net - net; diff > unit.Cent || diff < -unit.Cent || with.Gross != without.Gross {
			t.Errorf("%s without tax is %s with it, and %s back", net, without.Gross, with.Net)
		}
	})
}

// Whatever is credited first, the last note takes what is left and no cent remains; no note takes more than there is.
func TestCreditsNeverExceedTheInvoice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		inv := totalled(t, drawDraft(t))
		var credits []Credit
		for range rapid.IntRange(0, 6).Draw(t, "notes") {
			if note, err := inv.Credit(credits, drawParts(t, inv, credits)); err != nil {
				t.Error(err)
			} else {
				checkNote(t, note)
				credits = append(credits, note)
			}
			for i, r := range inv.Rest(credits) {
				s, n := inv.Lines[i], inv.Draft.Lines[i].Count
				if !between(r.Net, s.Net) || !between(r.Tax, s.Tax) || !between(r.Gross, s.Gross) || !between(unit.Money(r.Count), unit.Money(n)) {
					t.Errorf("%+v is left of %+v", r, s)
				}
			}
		}
		last := inv.CreditAll(credits)
		checkNote(t, last)
		credits = append(credits, last)
		byRate := map[int]TaxSum{}
		for _, note := range credits {
			for _, s := range note.Taxes {
				b := byRate[s.Rate]
				b.add(s.Net, s.Tax)
				if b.Parts == nil {
					b.Parts = make([]unit.Money, len(s.Parts))
				}
				for i, p := range s.Parts {
					b.Parts[i] += p
				}
				byRate[s.Rate] = b
			}
		}
		for _, s := range inv.Taxes {
			b := byRate[s.Rate]
			if b.Net != s.Net || b.Tax != s.Tax || s.Tax != 0 && sum(b.Parts) != sum(s.Parts) {
				t.Errorf("rate %d: credited %+v of %+v", s.Rate, b, s)
			}
			for i, p := range s.Parts {
				if s.Tax != 0 && b.Parts[i] != p {
					t.Errorf("rate %d, part %d: credited %s of %s", s.Rate, i, b.Parts[i], p)
				}
			}
		}
		for _, r := range inv.Rest(credits) {
			if r != (CreditLine{Line: r.Line}) {
				t.Errorf("left when all is credited: %+v", r)
			}
		}
	})
}

func between(n, whole unit.Money) bool { return n >= min(0, whole) && n <= max(0, whole) }

func checkNote(t *rapid.T, note Credit) {
	var lines, rates LineSum
	for _, l := range note.Lines {
		lines.Net, lines.Tax, lines.Gross = lines.Net+l.Net, lines.Tax+l.Tax, lines.Gross+l.Gross
	}
	for _, s := range note.Taxes {
		rates.Net, rates.Tax, rates.Gross = rates.Net+s.Net, rates.Tax+s.Tax, rates.Gross+s.Gross
	}
	if want := (LineSum{Net: note.Net, Tax: note.Tax, Gross: note.Gross}); lines != want || rates != want || note.Net+note.Tax != note.Gross {
		t.Errorf("a credit note does not add up: lines %+v, rates %+v, %+v", lines, rates, want)
	}
}

// drawParts draws packs and amounts that are left.
func drawParts(t *rapid.T, inv Invoice, credits []Credit) []Part {
	var parts []Part
	for i, r := range inv.Rest(credits) {
		n := rapid.IntRange(0, 100).Draw(t, "how much")
		amount := r.Gross / unit.Cent * unit.Money(n) / 100 * unit.Cent
		switch rapid.IntRange(0, 2).Draw(t, "what") {
		case 0:
			if count := r.Count * int64(n) / 100; count != 0 {
				parts = append(parts, Part{Line: i, Count: count})
			}
		case 1:
			if amount != 0 {
				parts = append(parts, Part{Line: i, Amount: amount})
			}
		}
	}
	return parts
}
