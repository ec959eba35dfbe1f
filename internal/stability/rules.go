package stability

import (
	_ "embed"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/sourced"
)

//go:embed data/foods.csv
var foodData string

//go:embed data/remedies.csv
var remedyData string

//go:embed data/drift.csv
var driftData string

// Drift is how a seasoning changes in the freezer.
type Drift string

// Drifts. No published figure of how much was found: it can be told, not corrected for.
const (
	Stronger      Drift = "stronger"
	Weaker        Drift = "weaker"
	Changes       Drift = "changes"
	SourcesDiffer Drift = "sources differ"
	NoDrift       Drift = ""
)

// Drifts are the seasonings that are known to change, as published.
type Drifts struct {
	Seasoning string
	Drift     Drift
	Source    string
	Confirm   string
}

// rule is what the tables say of a role.
type rule struct {
	code      string
	role      Role
	when      string
	severity  Severity
	spread    string // dispersed, pieces or topping
	mechanism string
	remedies  []string
	source    string
	confirm   string
}

var (
	rules    = sourced.MustRead(foodData, readRule)
	remedies = sourced.MustRead(remedyData, readRemedy)
	drifts   = sourced.MustRead(driftData, func(row sourced.Row) (Drifts, error) {
		return Drifts{row["seasoning"], Drift(row["drift"]), row["source"], row["confirm"]}, nil
	})
)

// SeasoningDrifts are the seasonings that are known to change.
func SeasoningDrifts() []Drifts { return slices.Clone(drifts) }

func readRule(row sourced.Row) (rule, error) {
	r := rule{code: row["code"], role: Role(row["role"]), when: row["when"], spread: row["spread"], mechanism: row["mechanism"], source: row["source"], confirm: row["confirm"]}
	n, err := strconv.Atoi(row["severity"])
	r.severity = Severity(n)
	if row["remedies"] != "" {
		r.remedies = strings.Split(row["remedies"], ";")
	}
	_, known := states[r.when]
	switch {
	case err != nil || r.severity < Good || r.severity > LeaveOut:
		return r, fmt.Errorf("severity %q", row["severity"])
	case !roles[r.role] || !known || !slices.Contains([]string{dispersed, pieces, topping}, r.spread):
		return r, fmt.Errorf("%+v", r)
	}
	return r, nil
}

func readRemedy(row sourced.Row) (Remedy, error) {
	r := Remedy{ID: row["id"], Do: row["do"], Basis: row["basis"], Source: row["source"], Confirm: row["confirm"]}
	if row["low_pct"] == "" {
		return r, nil
	}
	low, err1 := strconv.ParseFloat(row["low_pct"], 64)
	high, err2 := strconv.ParseFloat(row["high_pct"], 64)
	if err1 != nil || err2 != nil {
		return r, fmt.Errorf("dose %q to %q", row["low_pct"], row["high_pct"])
	}
	r.Low, r.High = low/100, high/100
	return r, nil
}

// richCream is from how much fat cream counts as rich: judgement.
const richCream = 0.30

// states are what a rule may ask of a component.
var states = map[string]func(Component, Pot) bool{
	"":            func(Component, Pot) bool { return true },
	"pureed":      func(c Component, _ Pot) bool { return c.Pureed },
	"waxy-firm":   func(c Component, _ Pot) bool { return c.Waxy && c.Cooked == Undercooked },
	"undercooked": func(c Component, _ Pot) bool { return c.Cooked == Undercooked && c.Joins != Apart },
	"through":     func(c Component, _ Pot) bool { return (c.Cooked == Through || c.Cooked == CookingNotSaid) && !c.Pureed },
	"raw":         func(c Component, _ Pot) bool { return c.raw() },
	"cooked-in":   func(c Component, _ Pot) bool { return c.Joins == CookedIn },
	"apart":       func(c Component, _ Pot) bool { return c.Joins == Apart },
	"rich":        func(c Component, _ Pot) bool { return c.Facts.Fat >= richCream },
	"salted":      func(c Component, _ Pot) bool { return c.Salted && c.raw() },
	"eaten-cold":  func(_ Component, p Pot) bool { return p.EatenCold },
}

// ruleFor is the first rule that fits a component.
func (p Pot) ruleFor(c Component) (rule, bool) {
	i := slices.IndexFunc(rules, func(r rule) bool { return r.role == c.Role && states[r.when](c, p) })
	if i < 0 {
		return rule{}, false
	}
	return rules[i], true
}

// remedy is one by its ID. Tables and code name them; one that is not there is a mistake in the program.
func remedy(id string) Remedy {
	i := slices.IndexFunc(remedies, func(r Remedy) bool { return r.ID == id })
	if i < 0 {
		panic("stability: no remedy " + id)
	}
	return remedies[i]
}
