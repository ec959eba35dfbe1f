package learned

import (
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/kitchen"
)

// shape is what of a step must be the same for a run to say something of its figures today: what goes in (not how much of it), where it is
// done, how hot, which losses it has and what it gives. Where shares are lost,
// the time is a part of that.
func shape(s kitchen.Step, k Kind) string {
	var x strings.Builder
	uses := make([]string, 0, len(s.Use))
	for _, u := range s.Use {
		uses = append(uses, fmt.Sprintf("%s<%s", u.Of, u.From))
	}
	slices.Sort(uses)
	fmt.Fprint(&x, uses, s.In, s.Stays, s.MakeUp, s.Loses.Open)
	if s.HeatTo != nil {
		fmt.Fprint(&x, *s.HeatTo)
	}
	for _, l := range []bool{s.Loses.Water > 0, s.Loses.Fat > 0, s.Loses.Drain > 0, s.Loses.ReduceTo > 0, s.Loses.Residue > 0} {
		fmt.Fprint(&x, l)
	}
	for _, o := range s.Outputs() {
		fmt.Fprint(&x, o.ID, o.Part, o.Takes > 0)
	}
	if k != Time && k != Pace && k != Pot && (s.Loses.Water > 0 || s.Loses.Fat > 0 || s.Loses.Drain > 0) {
		fmt.Fprint(&x, s.Time)
	}
	return x.String()
}

// stepOf is a step of a dish by its id.
func stepOf(b kitchen.Book, dish kitchen.DishID, id string) (kitchen.Step, bool) {
	steps := b.Dishes[dish].Steps
	i := slices.IndexFunc(steps, func(s kitchen.Step) bool { return s.ID == id })
	if i < 0 {
		return kitchen.Step{}, false
	}
	return steps[i], true
}

// otherwise is why a run says nothing of a figure of a step as it is today; empty when it does.
func (m Made) otherwise(today kitchen.Book, dish kitchen.DishID, step string, k Kind) string {
	then, was := stepOf(m.Book, dish, step)
	now, is := stepOf(today, dish, step)
	switch {
	case !is:
		return "the step " + step + " is not in the book any more"
	case !was:
		return "the step " + step + " was not in the book then"
	case shape(then, k) != shape(now, k):
		return "the step " + step + " was another then: what goes in, where, how hot or how long has been changed since"
	}
	return ""
}
