package labelrule

import (
	_ "embed"
	"slices"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/sourced"
	"kettlefrost/internal/unit"
)

// Market is where a label is for.
type Market string

const (
	US Market = "US"
	EU Market = "EU"
)

// Element is something that stands on a label.
type Element string

const (
	Identity     Element = "identity" // the name of the food
	Net          Element = "net quantity"
	Ingredients  Element = "ingredients"
	Contains     Element = "contains"
	Nutrition    Element = "nutrition"
	Operator     Element = "operator" // name and place of business
	KeepFrozen   Element = "keep frozen"
	SafeHandling Element = "safe handling"
	Date         Element = "date"
	Storage      Element = "storage"
	Lot          Element = "lot"
)

// Rule is one rule about labels.
type Rule struct {
	Code    string // "us-contains-type"
	Market  Market
	Element Element // "": of all
	Says    string
	Least   unit.Length // of type; 0: the rule is not about that
	Source  string
	Confirm string // what of it is from memory
}

//go:embed data/rules.csv
var ruleData string

var rules = sourced.MustRead(ruleData, func(row sourced.Row) (r Rule, err error) {
	r = Rule{Code: row["code"], Market: Market(row["market"]), Element: Element(row["element"]), Says: row["says"], Source: row["source"], Confirm: row["confirm"]}
	if row["least"] != "" {
		r.Least, err = unit.ParseLength(row["least"])
	}
	return r, err
})

// Rules are those of a market, in the order in which they are checked.
func Rules(m Market) []Rule {
	return slices.DeleteFunc(slices.Clone(rules), func(r Rule) bool { return r.Market != m })
}

// RuleOf is the rule of a code.
func RuleOf(code string) (Rule, bool) {
	i := slices.IndexFunc(rules, func(r Rule) bool { return r.Code == code })
	if i < 0 {
		return Rule{}, false
	}
	return rules[i], true
}

// broken is a rule that a label breaks: it stops a label if it was read, and is a caution if any of it is from memory.
func broken(code, message, fix string, figures ...finding.Figure) finding.Finding {
	r, _ := RuleOf(code)
	f := finding.Finding{Code: code, Severity: finding.Stop, Where: "label", Message: message, Figures: figures, Source: r.Source, Fix: fix}
	if r.Element != "" {
		f.Where = "label, " + string(r.Element)
	}
	if r.Confirm != "" {
		f.Severity = finding.Caution
		f.Source += " (to be confirmed: " + r.Confirm + ")"
	}
	return f
}
