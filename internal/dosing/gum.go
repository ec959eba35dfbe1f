package dosing

import (
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/unit"
)

// Gums that are known.
const (
	Xanthan     = "xanthan"
	Guar        = "guar"
	LocustBean  = "locust bean gum"
	Carrageenan = "iota carrageenan"
	CMC         = "carboxymethylcellulose"
)

// OtherFood is the category of food for which law sets a maximum where no other fits.
const OtherFood = "all other food categories"

// Categories are the categories for which law sets a maximum of a substance.
func Categories(substance string) []string {
	var all []string
	for _, m := range maxima {
		if m.Substance == substance {
			all = append(all, m.Category)
		}
	}
	return all
}

// Uses are the uses for which a level of a substance was found.
func Uses(substance string) []string {
	var all []string
	for _, l := range levels {
		if l.Substance == substance && !slices.Contains(all, l.Use) {
			all = append(all, l.Use)
		}
	}
	return all
}

// NoLevelError says that nobody was found who says how much. A maximum in law is no dose.
type NoLevelError struct {
	Substance, Use string
	Uses           []string // for which there is one
}

// Error is one line.
func (e *NoLevelError) Error() string {
	if len(e.Uses) == 0 {
		return fmt.Sprintf("dosing: no level of %s was found in any use: take the maker's, and check it against the maximum", e.Substance)
	}
	return fmt.Sprintf("dosing: no level of %s was found for %s: there is one for %s", e.Substance, e.Use, strings.Join(e.Uses, ", "))
}

// Gum is how much of a gum goes into so much finished food, by use. category is the category of food by which law limits it; empty, that
// which law means by all other food. Errors: *NoLevelError, *InputError.
func Gum(gum, use, category string, finished unit.Mass) (Dose, error) {
	if err := positive("the finished food", finished); err != nil {
		return Dose{}, err
	}
	l, ok := levelFor(gum, use, OfFinished)
	if !ok {
		return Dose{}, &NoLevelError{gum, use, Uses(gum)}
	}
	d := l.of(finished)
	m, err := maximumFor(gum, category)
	switch {
	case err != nil:
		return Dose{}, err
	case m.Most > 0:
		d.cap(m.Most.Of(finished), m.says())
	case l.Err > 0:
		d.cap(l.Err.Of(finished), "above it food is called slimy (dealer, read); "+m.says())
	default:
		d.MostIs = m.says()
	}
	return d, nil
}

// says is where a maximum comes from, what of it is from memory, and for what it is.
func (m Maximum) says() string {
	switch {
	case m.Source == "":
		return "no law on it was read"
	case m.Confirm != "":
		return m.Source + " (" + m.Confirm + ")"
	}
	return m.Source + ", " + m.Category
}

// maximumFor is what law says of a substance in a category; its Most is 0 where there is no number, or no law was found.
func maximumFor(substance, category string) (Maximum, error) {
	var own []Maximum
	for _, m := range maxima {
		if m.Substance == substance {
			own = append(own, m)
		}
	}
	if len(own) == 0 {
		return Maximum{}, nil
	}
	if own[0].Most == 0 {
		return own[0], nil
	}
	if category == "" {
		category = OtherFood
	}
	i := slices.IndexFunc(own, func(m Maximum) bool { return m.Category == category })
	if i < 0 {
		return Maximum{}, &InputError{"the category", fmt.Sprintf("is %q", category), "take one of " + strings.Join(Categories(substance), "; ")}
	}
	return own[i], nil
}

// Gummed is a gum in a food, to be checked.
type Gummed struct {
	Gum      string
	Category string // by which law limits it; empty: all other food
	Dose     unit.Mass
	Finished unit.Mass
	PH       float64 // of the food; 0: not known
}

// CheckGum is what is wrong with a gum in a food: more than law allows stops, where the law was read; more than is usual, and acid it does
// not stand. Errors: *InputError.
func CheckGum(g Gummed) (finding.List, error) {
	if err := positive("the finished food", g.Finished); err != nil {
		return nil, err
	}
	if g.Dose < 0 || g.Dose > g.Finished {
		return nil, &InputError{g.Gum, fmt.Sprintf("weighs %s in %s of food", Grams(g.Dose), g.Finished), "give a dose within the food"}
	}
	m, err := maximumFor(g.Gum, g.Category)
	if err != nil {
		return nil, err
	}
	return append(append(g.overLaw(m), g.overUsual()...), g.inAcid()...), nil
}

func (g Gummed) share() float64 { return ratio(g.Dose, g.Finished) }

func (g Gummed) overLaw(m Maximum) finding.List {
	if m.Most == 0 || g.Dose <= m.Most.Of(g.Finished) {
		return nil
	}
	severity := finding.Stop
	if m.Confirm != "" {
		severity = finding.Caution
	}
	return finding.List{{Code: "gum-over-law", Severity: severity, Where: g.Gum,
		Message: fmt.Sprintf("%.2f %% of the food is more than the %.2f %% that law allows in %s", 100*g.share(), 100*m.Most.F(), m.Category),
		Figures: []finding.Figure{percent("share", g.share()), percent("maximum", m.Most.F()), massFigure("maximum", m.Most.Of(g.Finished))},
		Source:  m.says(), Fix: fmt.Sprintf("use %s at most", Grams(m.Most.Of(g.Finished)))}}
}

// overUsual goes by the loosest level of warning of any use.
func (g Gummed) overUsual() finding.List {
	var at Level
	for _, l := range levels {
		if l.Substance == g.Gum && l.Warn > at.Warn {
			at = l
		}
	}
	severity, limit := finding.Caution, at.Warn
	switch {
	case at.Warn == 0 || g.Dose <= at.Warn.Of(g.Finished):
		return nil
	case g.Dose > at.Err.Of(g.Finished):
		severity, limit = finding.Stop, at.Err
	}
	return finding.List{{Code: "gum-too-much", Severity: severity, Where: g.Gum,
		Message: fmt.Sprintf("%.2f %% of the food: over %.2g %% it draws threads and feels slimy", 100*g.share(), 100*limit.F()),
		Figures: []finding.Figure{percent("share", g.share()), percent("limit", limit.F())},
		Source:  "over 1 % is called slimy (dealer, read); a warning from 0.5 % is common practice", Fix: "look at the decimal point, and weigh it again"}}
}

// inAcid goes by reports of what each gum stands: carboxymethylcellulose not below pH 4 (supplier), guar from about 4.5 (weak).
func (g Gummed) inAcid() finding.List {
	type limit struct {
		ph     float64
		source string
	}
	l, known := map[string]limit{
		CMC:  {4, "insoluble at pH 4 and below (supplier, read)"},
		Guar: {4.5, "loses solubility below about pH 4.5 (web page, weak)"},
	}[g.Gum]
	if !known || g.PH == 0 || g.PH > l.ph {
		return nil
	}
	return finding.List{{Code: "gum-in-acid", Severity: finding.Caution, Where: g.Gum,
		Message: fmt.Sprintf("pH %.1f: it does not dissolve as it should below pH %.1f", g.PH, l.ph),
		Figures: []finding.Figure{plain("pH", g.PH), plain("limit", l.ph)}, Source: l.source, Fix: "take xanthan, which stands pH 2 to 12 (dealer, read)"}}
}
