package kitchen

import (
	"errors"
	"fmt"

	"kettlefrost/internal/coolrule"
	"kettlefrost/internal/foodcode"
)

// safety checks that the rules of the kitchen are rules, and that those it holds otherwise may be held so.
func (c *checker) safety() {
	s, at := c.book.Safety, spot{path: "safety", where: "safety"}
	if s.From != "" {
		c.date(at.key("from"), s.From)
	}
	if s.Cooling != "" {
		c.refers(at.key("cooling"), "cooling rule", s.Cooling, coolingRules())
	}
	if !s.Given() {
		if len(s.Rules) > 0 || s.From != "" || s.Cooling != "" {
			c.text(at, "jurisdiction", "")
		}
		return
	}
	for i, r := range s.Rules {
		c.ruleChange(at.item("rules", i, r.Rule), s.Jurisdiction, r)
	}
}

func (c *checker) ruleChange(at spot, jurisdiction string, r RuleChange) {
	published, known := foodcode.Find(r.Rule)
	if !known {
		c.refers(at.key("rule"), "rule", r.Rule, publishedRules())
		return
	}
	_, err := foodcode.Hold(published.Topic, jurisdiction, []foodcode.Override{r.Override()})
	if bad, ok := errors.AsType[*foodcode.OverrideError](err); ok {
		c.stop(RuleNotHeld, at, fmt.Sprintf("%s %s", bad.Rule, bad.Problem), bad.Fix)
	}
}

// Override is the change in the words of the rules.
func (r RuleChange) Override() foodcode.Override {
	o := foodcode.Override{Rule: r.Rule, Days: r.Days, Reason: r.Reason, By: r.By}
	if r.Temp != nil {
		f := r.Temp.F()
		o.TempF = &f
	}
	if r.Time > 0 {
		s := r.Time.S()
		o.Seconds = &s
	}
	return o
}

func coolingRules() (ids []string) {
	for _, r := range coolrule.All() {
		ids = append(ids, r.ID)
	}
	return ids
}

func publishedRules() (ids []string) {
	for _, r := range foodcode.All() {
		ids = append(ids, r.ID)
	}
	return ids
}

func (c *checker) thermometers() {
	places := c.book.AllPlaces()
	for id, t := range inOrder(c.book.Thermometers) {
		at := entrySpot("thermometers", string(id))
		c.id(at, string(id))
		c.text(at, "name", t.Name)
		c.within(at, "accuracy", t.Accuracy.C(), misreading)
		c.within(at, "check-every", float64(t.Check), limits{high: 366, unit: "days"})
		if t.At != "" {
			c.refers(at.key("at"), "place", t.At, names(places))
		}
		if t.Warmest != nil {
			c.within(at, "warmest", t.Warmest.C(), storeAir)
		}
	}
}
