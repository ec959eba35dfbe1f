package dosing

import (
	"cmp"
	"fmt"
	"slices"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/unit"
)

// Salted is a cheese sauce with so much citrate in it.
type Salted struct {
	Dose                                unit.Mass
	OfCheese, OfLiquid, OfBoth, OfTotal float64 // the same dose by each basis; OfTotal with the salt itself
	SodiumMg                            float64 // that the dose adds: count it in the sodium of the dish
	Total                               unit.Mass
	Whole                               Makeup // with the dose; the salt counted as solids
	Found                               finding.List
}

// With is the sauce with a dose, whatever it is. More than the ceiling is told. Errors: *InputError.
func (c CitrateDoses) With(dose unit.Mass) (Salted, error) {
	s := c.sauce
	cheese, liquid := s.cheese(), sum(s.Liquids)
	if dose < 0 || dose > cheese+liquid {
		return Salted{}, &InputError{"the dose", "weighs " + Grams(dose), "give 0 to the mass of cheese and liquid"}
	}
	out := Salted{Dose: dose, OfCheese: ratio(dose, cheese), OfLiquid: ratio(dose, liquid), OfBoth: ratio(dose, cheese+liquid),
		SodiumMg: dose.Kg() * 1e6 * CitrateSodium, Total: cheese + liquid + sum(s.Others) + dose}
	out.OfTotal = ratio(dose, out.Total)
	out.Whole = s.makeup(out)
	if dose > s.mostSalt() {
		out.Found = finding.List{{Code: "emulsifier-over-ceiling", Severity: finding.Caution, Where: "trisodium citrate",
			Message: fmt.Sprintf("%.2f %% of the whole is over 3 %%: more than smooths it makes it set firmer and melt less", 100*out.OfTotal),
			Figures: []finding.Figure{percent("of the whole", out.OfTotal), percent("ceiling", ceiling.F())},
			Source:  ceilingIs + "; less melt with more citrate: Shirashoji et al. 2006, abstract read", Fix: "use " + Grams(s.mostSalt()) + " at most"}}
	}
	return out, nil
}

// makeup is what the whole is made of.
func (s CheeseSauce) makeup(with Salted) Makeup {
	parts := append(append([]Part{}, s.Liquids...), s.Others...)
	for _, c := range s.Cheeses {
		parts = append(parts, c.Part)
	}
	whole := Makeup{SodiumMgKg: with.SodiumMg / with.Total.Kg()}
	for _, p := range parts {
		share := ratio(p.Mass, with.Total)
		whole.Water += share * p.Water
		whole.Fat += share * p.Fat
		whole.Protein += share * p.Protein
		whole.SodiumMgKg += share * p.SodiumMgKg
	}
	return whole
}

func sortDoses(all []Dose) {
	order := []Basis{OfCheese, OfLiquid, OfBoth}
	slices.SortFunc(all, func(a, b Dose) int {
		return cmp.Compare(slices.Index(order, a.Basis), slices.Index(order, b.Basis))
	})
}

func (c CitrateDoses) findings() finding.List {
	var all finding.List
	add := func(code string, severity finding.Severity, message, source, fix string, figures ...finding.Figure) {
		all = append(all, finding.Finding{Code: code, Severity: severity, Where: "cheese sauce", Message: message, Source: source, Fix: fix, Figures: figures})
	}
	ofCheese, _ := c.By(OfCheese)
	ofLiquid, _ := c.By(OfLiquid)
	if c.NeedsSalt > 0 && c.LiquidOfCheese < divergesBelow {
		add("emulsifier-bases-diverge", finding.Caution,
			fmt.Sprintf("with little liquid the customs part: %s by the liquid, %s to %s by the cheese", Grams(ofLiquid.Target), Grams(ofCheese.Low), Grams(ofCheese.High)),
			"derived: both take 2 to 4 %, of things that differ by more than half", "decide by a trial of a hundred grams, and write down the basis with the number",
			percent("liquid of cheese", c.LiquidOfCheese), massFigure("by the liquid", ofLiquid.Target), massFigure("by the cheese", ofCheese.Target))
	}
	if c.NeedsSalt > 0 && c.LiquidOfCheese > mostLiquid {
		add("emulsifier-much-liquid", finding.Caution, fmt.Sprintf("%.1f times as much liquid as cheese: the customs that go by the liquid were read for up to 1.2 times", c.LiquidOfCheese),
			"two secondary reports, read", "go by the cheese, and thicken with starch", plain("liquid of cheese", c.LiquidOfCheese), plain("limit", mostLiquid))
	}
	if c.NeedsSalt < 1 {
		add("emulsifier-not-for-all", finding.Note, fmt.Sprintf("%.0f %% of the cheese takes no salt: process cheese brings its own, fresh curd needs none", 100*(1-c.NeedsSalt)),
			"common practice; what process cheese brings is not known and counts in its sodium alone", "", percent("needs salt", c.NeedsSalt))
	}
	if c.NeedsSalt > 0 && c.Factor != c.FactorFree {
		add("calcium-factor-held", finding.Note, fmt.Sprintf("by calcium the dose would be %.2f times that of cheddar; %.2f is taken", c.FactorFree, c.Factor),
			"our own model, unproven; its ends are judgement", "", plain("factor", c.FactorFree), plain("taken", c.Factor))
	}
	c.acidity(add)
	return all
}

// divergesBelow is the liquid as a share of the cheese under which the customs of dosing say different things, mostLiquid where their formulas end.
const divergesBelow, mostLiquid = 0.5, 1.2

// What the acid in a sauce may be, and where the pH of process cheese lies.
const (
	sourAbove       = 0.10
	lowPH, fracture = 5.6, 5.3
	highPH          = 5.9
	phSource        = "process cheese is made at pH 5.4 to 6.0, and at 5.3 samples fractured (table after Fox 1996; Lu et al. 2008, abstract read)"
)

func (c CitrateDoses) acidity(add func(string, finding.Severity, string, string, string, ...finding.Figure)) {
	s := c.sauce
	sour := ratio(s.Acid, s.cheese()+sum(s.Liquids)+sum(s.Others))
	switch {
	case s.PH > 0 && s.PH <= fracture:
		add("cheese-sauce-sour", finding.Caution, fmt.Sprintf("pH %.1f: the sauce breaks", s.PH), phSource, "less acid, or more citrate up to its ceiling, to pH 5.6 to 5.9", plain("pH", s.PH))
	case s.PH > 0 && (s.PH < lowPH || s.PH > highPH):
		add("cheese-sauce-ph", finding.Note, fmt.Sprintf("pH %.1f is outside 5.6 to 5.9, where it melts best", s.PH), phSource, "", plain("pH", s.PH))
	case s.PH == 0 && sour > sourAbove:
		add("cheese-sauce-sour", finding.Caution, fmt.Sprintf("%.0f %% of the sauce is sour: its pH may be under 5.6", 100*sour), "10 % as the level of warning is common practice; "+phSource,
			"measure the pH", percent("sour part", sour), percent("limit", sourAbove))
	}
}
