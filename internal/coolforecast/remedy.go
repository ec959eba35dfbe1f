package coolforecast

import "kettlefrost/internal/coolrule"

// Remedy is what may become of food that misses a limit, by what is published with a rule.
type Remedy string

// Remedies.
const (
	ReheatOnce   Remedy = "reheat-once" // heat all of it to ReheatC for ReheatS within ReheatWithinS, and cool it again from the beginning
	Discard      Remedy = "discard"
	AskAuthority Remedy = "ask" // nothing is published with the rule: a named person and the authority decide
)

// Reheating as cooling logs of schools have it: 165 °F for 15 s, within 2 h, once only.
var ReheatC = coolrule.FoodCodeCooked().Stages[0].FromC + 30/1.8

const (
	ReheatS       = 15
	ReheatWithinS = 2 * 3600
)

// Allowed is a remedy and what it rests on.
type Allowed struct {
	Remedy Remedy
	Source string
	Memory bool // from memory: confirm it with the authority; nothing is decided by it
}

const onceSource = "published cooling logs with FDA Food Code 3-501.14(A): heat to 165 °F for 15 s and start again once only, within 2 h, or discard"

// Remedies are what may become of food whose forecast is not to meet its limits, after it was reheated so often. The first is the one to take
// while it can be.
func Remedies(rule coolrule.Rule, f Forecast, reheats int) []Allowed {
	first, last := Limit{}, Limit{}
	if n := len(f.Limits); n > 0 {
		first, last = f.Limits[0], f.Limits[n-1]
	}
	foodCode := rule.ID == coolrule.FoodCodeCooked().ID && len(f.Limits) == 2
	switch {
	case f.Outcome != Missed && f.Outcome != Misses && f.Outcome != InDoubt:
		return nil
	case !foodCode:
		return []Allowed{{Remedy: AskAuthority}}
	case last.State == Late:
		return []Allowed{{Discard, "common with FDA Food Code 3-501.14(A): not at 41 °F in 6 h", true}}
	case first.State == Late && reheats > 0:
		return []Allowed{{Discard, onceSource, false}}
	case first.State != Late && (first.Outcome != Misses && first.Outcome != InDoubt || !first.Started || reheats > 0): // what can be done is to cool it faster
		return nil
	}
	return []Allowed{{ReheatOnce, onceSource, false}, {Discard, onceSource, false}}
}
