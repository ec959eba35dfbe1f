package foodcode

import "fmt"

// Override is a figure of a rule that a kitchen uses instead. Left out, the rule's stays.
type Override struct {
	Rule    string
	TempF   *float64
	Seconds *float64
	Days    int // 0: the rule's
	Reason  string
	By      string // who decided it
}

// Held is a rule as a kitchen holds it.
type Held struct {
	Rule
	Was    *Rule  // the published one, where the kitchen's differs
	Reason string // why it differs
	By     string // who decided it
	Laxer  bool   // in any figure
}

// OverrideError says why a rule cannot be held so.
type OverrideError struct{ Rule, Problem, Fix string }

func (e *OverrideError) Error() string {
	return fmt.Sprintf("foodcode: rule %s: %s: %s", e.Rule, e.Problem, e.Fix)
}

// Hold puts overrides to the rules of a topic in a jurisdiction. Errors are *OverrideError.
func Hold(topic Topic, jurisdiction string, overrides []Override) ([]Held, error) {
	var held []Held
	for _, r := range Of(topic, jurisdiction) {
		held = append(held, Held{Rule: r})
	}
	for _, o := range overrides {
		r, ok := Find(o.Rule)
		if !ok {
			return nil, &OverrideError{o.Rule, "there is no rule of that name", "take one of the table"}
		}
		if r.Topic != topic {
			continue
		}
		h, err := o.apply(r)
		if err != nil {
			return nil, err
		}
		for i := range held {
			if held[i].ID == r.ID {
				held[i] = h
			}
		}
	}
	return held, nil
}

// apply changes a rule's figures. What it has none of cannot be changed.
func (o Override) apply(r Rule) (Held, error) {
	was := r
	h := Held{Rule: r, Was: &was, Reason: o.Reason, By: o.By}
	if r.Sense == State {
		return h, &OverrideError{r.ID, "it has no figure to change", "leave it as it is"}
	}
	change := func(figure **float64, to *float64, laxer func(new, old float64) bool) error {
		switch {
		case to == nil:
			return nil
		case *figure == nil:
			return &OverrideError{r.ID, "it has no such figure to change", "leave it out"}
		case !(*to > -200 && *to < 1e7):
			return &OverrideError{r.ID, fmt.Sprintf("%g is no figure", *to), "write it again"}
		}
		h.Laxer = h.Laxer || laxer(*to, **figure)
		*figure = to
		return nil
	}
	less, more := func(a, b float64) bool { return a < b }, func(a, b float64) bool { return a > b }
	temp, time := less, less // hotter and longer is stricter
	if r.Sense == AtMost {
		temp, time = more, more
	}
	if err := change(&h.TempF, o.TempF, temp); err != nil {
		return h, err
	}
	if err := change(&h.Seconds, o.Seconds, time); err != nil {
		return h, err
	}
	if o.Days > 0 {
		if r.Days == 0 {
			return h, &OverrideError{r.ID, "it has no days to change", "leave them out"}
		}
		h.Laxer = h.Laxer || o.Days > r.Days
		h.Days = o.Days
	}
	if h.Laxer && (o.Reason == "" || o.By == "") {
		return h, &OverrideError{r.ID, "it would be laxer than published", "give the reason and who decided it, such as the authority's approval; or make it stricter"}
	}
	return h, nil
}
