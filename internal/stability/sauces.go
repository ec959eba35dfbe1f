package stability

import (
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/finding"
)

// testedWeeks is how long flour-thickened sauces are said to keep well when quickly frozen: 2 to 3 months (USDA Home and Garden Bulletin 40).
const testedWeeks = 13

// starch judges the sauce by its thickening.
func (r *Review) starch(p Pot, s sums) {
	paste := s.ofSauce()
	figures := append(given("freezing front", p.FrontMMH, "mm/h"), plain("limit of the front", fastFront, "mm/h"), plain("score", r.WeepScore, ""))
	figures = append(figures, r.Protection.figures()...)
	if paste.Guar > 0 {
		figures = append(figures, percent("guar, which has no credit", paste.Guar))
	}
	// By itself is the same sauce frozen slowly, without gum and sugar.
	alone := Paste{Flour: paste.Flour, Waxy: paste.Waxy, Modified: paste.Modified, Native: paste.Native}
	f := Finding{Code: "starch-weeps", Components: p.names(Flour, NativeStarch, WaxyStarch, ModifiedStarch), Severity: weepSeverity(r.WeepScore),
		ByItself:  weepSeverity(WeepScore(alone)),
		Mechanism: "amylose sets again, a sponge forms and water drains: the sauce separates or sets, and thins when it is stirred",
		Figures:   figures, Source: "On Food and Cooking; Ferrero et al. 1993; Sanz et al. 2009; Muadklay and Charoenrein 2008; USDA Home and Garden Bulletin 40",
		Confirm: "the score and its limits are judgement that keeps to the order of those trials"}
	if f.Severity < f.ByItself {
		f.Because = "held back by " + strings.Join(held(paste), ", ")
	}
	r.add(f, "xanthan", "waxy", "faster", "thin-later", "whisk")
	if p.Weeks > testedWeeks && f.ByItself > Good {
		r.add(Finding{Code: "starch-kept-long", Components: f.Components, Severity: Note, ByItself: Note, Mechanism: "sauces thickened with starch are known to hold for 2 to 3 months",
			Figures: []finding.Figure{plain("kept", p.Weeks, "weeks"), plain("known", testedWeeks, "weeks")}, Source: "USDA Home and Garden Bulletin 40"})
	}
}

// held is what keeps a paste from weeping.
func held(p Paste) []string {
	var by []string
	if p.FrontMMH >= fastFront {
		by = append(by, fmt.Sprintf("freezing at %.2g mm/h", p.FrontMMH))
	}
	if p.Xanthan > 0 {
		by = append(by, fmt.Sprintf("%.2g %% xanthan", 100*p.Xanthan))
	}
	if p.LocustBean > 0 {
		by = append(by, fmt.Sprintf("%.2g %% locust bean gum", 100*p.LocustBean))
	}
	if p.Sugars > 0 {
		by = append(by, fmt.Sprintf("%.2g %% sugar", 100*p.Sugars))
	}
	return by
}

// cheeseFrom is the share of cheese in the sauce from which it is a cheese sauce: judgement.
const cheeseFrom = 0.10

// cheeseSauce judges melted cheese: what keeps its fat in the sauce.
func (r *Review) cheeseSauce(p Pot, s sums) {
	prot := r.Protection
	if prot.CheeseShare < cheeseFrom || s.needyCheese == 0 {
		return
	}
	f := Finding{Code: "cheese-sauce-breaks", Components: p.names(HardCheese, SoftCheese, ProcessCheese, Acid), Severity: Change, ByItself: Change,
		Mechanism: "casein that is still held by calcium draws together, and the sauce turns grainy and lets its fat go",
		Figures:   append([]finding.Figure{percent("cheese of the sauce", prot.CheeseShare), percent("emulsifying salt of the cheese", prot.CitrateShare)}, prot.figures()...),
		Source:    "that citrate binds the calcium: Shirashoji et al. 2006; samples at pH 5.3 fractured: Lu et al. 2008", Confirm: "that it breaks in the freezer too, and the limits, are common practice"}
	sour := p.PH > 0 && p.PH <= 5.3
	switch {
	case prot.CitrateShare >= enoughCitrate && !sour:
		f.Severity, f.Because = Good, fmt.Sprintf("emulsifying salt is %.2g %% of the cheese", 100*prot.CitrateShare)
	case prot.Starch >= enoughStarch && !sour:
		f.Severity, f.Because = Good, prot.why()
	case sour:
		f.Figures = append(f.Figures, plain("pH", p.PH, ""))
	}
	r.add(f, "citrate", "xanthan", "acid-later")
}

// sourFrom is the share of sour liquid in the sauce from which it may curdle dairy (common practice for cheese sauces), curdlesAt the pH.
const sourFrom, curdlesAt = 0.10, 5.3

// acid judges dairy in a sour pot.
func (r *Review) acid(p Pot, s sums) {
	sour, dairy := share(p.kg(Acid), s.sauce), share(p.casein().kg(Milk, Cream, HardCheese, SoftCheese), s.sauce)
	if dairy < cheeseFrom || !(p.PH > 0 && p.PH < curdlesAt || p.PH == 0 && sour > sourFrom) {
		return
	}
	f := Finding{Code: "acid-curdles-dairy", Components: append(p.names(Acid), p.casein().names(Milk, Cream, HardCheese, SoftCheese)...), Severity: Change, ByItself: Change,
		Mechanism: "casein curdles in acid, and freezing makes it worse",
		Figures:   append([]finding.Figure{percent("sour part of the sauce", sour), percent("dairy of the sauce", dairy)}, append(given("pH", p.PH, ""), r.Protection.figures()...)...),
		Source:    "common practice", Confirm: "from memory: casein curdles towards pH 4.6, and sooner when it is hot; 10 % of sour liquid is common practice"}
	if r.Protection.Holds() || p.PH == 0 {
		f.Severity = Note
		f.Because = r.Protection.why()
	}
	if p.PH == 0 {
		f.Because = "the pH is not known; " + f.Because
	}
	r.add(f, "acid-later", "xanthan")
}

// casein is the pot without what only looks like dairy.
func (p Pot) casein() Pot {
	p.Components = slices.DeleteFunc(slices.Clone(p.Components), func(c Component) bool { return c.Plant })
	return p
}

// creamed is cooked cream vegetables, which lose flavor fast.
func (r *Review) creamed(p Pot, s sums) {
	const vegetables, dairy, fewWeeks = 0.30, 0.15, 4 // judgement
	if share(p.kg(Vegetable, WateryVegetable), s.pot) < vegetables || share(p.kg(Milk, Cream), s.pot) < dairy || p.Weeks != 0 && p.Weeks <= fewWeeks {
		return
	}
	f := Finding{Code: "creamed-vegetables", Components: p.names(Vegetable, WateryVegetable, Milk, Cream), Severity: Change, ByItself: Change, Mechanism: "cooked cream vegetables lose flavor fast",
		Figures: append(given("kept", p.Weeks, "weeks"), plain("limit", fewWeeks, "weeks")), Source: "Oregon State SP 50-766", Confirm: "4 weeks as a few, and the shares, are judgement"}
	if p.Weeks == 0 {
		f.Severity, f.Because = Note, "how long it is kept is not known"
	}
	r.add(f, "few-weeks")
}

// gelFrom is the gum in all from which xanthan and locust bean set to a gel (maker FAQ, CAG).
const gelFrom = 0.0003

func (r *Review) gums(s sums) {
	paste := s.ofSauce()
	if paste.Xanthan == 0 || paste.LocustBean == 0 || paste.Xanthan+paste.LocustBean < gelFrom {
		return
	}
	r.add(Finding{Code: "gums-gel", Severity: Note, ByItself: Note, Mechanism: "xanthan and locust bean gum that were heated over 54 °C together set to an elastic gel; it melts again",
		Figures: []finding.Figure{percent("gum in all", paste.Xanthan+paste.LocustBean), percent("gels from", gelFrom)}, Source: "maker FAQ (CAG); web page"}, "one-gum")
}

// seasoning is one note for all that drifts.
func (r *Review) seasoning(p Pot) {
	var names []string
	for _, c := range p.frozen() {
		if c.Role == Seasoning && c.Drift != NoDrift {
			if name := fmt.Sprintf("%s (%s)", c.Name, c.Drift); !slices.Contains(names, name) {
				names = append(names, name)
			}
		}
	}
	if len(names) == 0 {
		return
	}
	r.add(Finding{Code: "seasoning-drifts", Components: names, Severity: Note, ByItself: Note,
		Mechanism: "some seasonings grow stronger or bitter in the freezer, others weaken; by how much was not found published",
		Source:    "foodsafetysite.com consumer question 605; Lancaster Farming"}, "season-later")
}

func (r *Review) pack(p Pot) {
	if !p.AirInPack {
		return
	}
	r.add(Finding{Code: "freezer-burn", Severity: Note, ByItself: Note, Mechanism: "water leaves the surface through film, seal or a gap of air, and it dries",
		Source: "CRC chapter abstract on freezer burn"}, "no-air")
}
