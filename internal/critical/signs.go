package critical

import (
	"cmp"
	"fmt"
	"strings"

	"kettlefrost/internal/haccp"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// signed are the checks of each lot of packs that somebody stands for with a name: that of its label, and what people have added to the plan.
func (p Production) signedChecks(set Setting) []Verdict {
	var all []Verdict
	for t, b := range of[record.Packed](p) {
		plan := set.Plans[b.Pack]
		for _, point := range plan.Points {
			v := Verdict{Run: p.Name, Lot: b.Lot, Dish: plan.Dish, Packs: []string{b.Pack}, Due: t.Happened, Title: "Look at the label of " + string(b.Lot), What: Label,
				Point: p.Name + "/" + string(b.Lot) + "/" + string(Label)}
			switch point.Stage {
			case haccp.LabellingStage:
				if len(plan.Allergens) > 0 {
					v.Title += ": it declares " + strings.Join(plan.Allergens, ", ")
				}
			case haccp.OwnStage:
				v.What, v.Title, v.Point = Own, "Check: "+point.Limit.Text, p.Name+"/"+string(b.Lot)+"/"+string(Own)+"."+point.Key
			default:
				continue
			}
			n := need{v: v}
			n.states(point.Limit)
			all = append(all, p.sign(n.v))
		}
	}
	return all
}

// Own is a check that people have added to the hazard plan.
const Own What = "check"

// sign is whether somebody stands for a check.
func (p Production) sign(v Verdict) Verdict {
	for _, t := range p.signed[v.Point] {
		b := t.Says.(record.Signed) // what is kept under what was signed
		v.Signed = append(v.Signed, Signature{t.Happened, t.Who, b.As, b.Text})
	}
	if len(v.Signed) == 0 {
		v.Outcome, v.Why, v.Says, v.Fix = Missing, WhyUnsigned, "nobody has signed that it was looked at", "look at the first and the last pack, and sign"
		return v
	}
	last := v.Signed[len(v.Signed)-1]
	v.Outcome, v.Why, v.At = Pass, WhySigned, last.At
	v.Says = fmt.Sprintf("signed by %s as %s", cmp.Or(last.Who, "nobody"), last.As)
	return v
}

// The temperatures of goods at the door. FDA Food Code 3-501.16(A)(2) for what is cold; ice melts at 32 °F, so that what is warmer is not frozen.
var (
	coldC = unit.TempF(41).C()
	iceC  = unit.TempF(32).C()
)

// Door judges the temperature at which goods came in, where they are kept chilled or frozen. False is that none is needed.
func (d Delivery) Door(set Setting) (Verdict, bool) {
	b := d.Told.Says.(record.Received) // goods are born by no other
	v := Verdict{Point: "received/" + string(b.Lot) + "/" + string(Door), What: Door, Lot: b.Lot, Title: "At the door: " + b.Ingredient, Gates: true, At: d.Told.Happened, Due: d.Told.Happened}
	limitC := coldC
	switch set.Keep(b.Ingredient) {
	case "chilled":
		v.Limit, v.Source = "41 °F or colder", "FDA Food Code 3-501.16(A)(2)"
	case "frozen":
		limitC, v.Limit, v.Source = iceC, "frozen: not warmer than 32 °F, where ice melts", "FDA Food Code 3-501.11, frozen food is kept frozen"
	default:
		return Verdict{}, false
	}
	v.LimitC = &limitC
	if b.Door == nil {
		v.Outcome, v.Why, v.At = Missing, WhyNothing, 0
		v.Says, v.Fix = "nobody measured it when it came", "correct the delivery if somebody did; otherwise a named person decides"
		return v, true
	}
	c := b.Door.C()
	margin := limitC - c
	v.TempC, v.MarginC = &c, &margin
	if c > limitC+slackC {
		v.Outcome, v.Why = Fail, WhyTooWarm
		v.Says, v.Fix = fmt.Sprintf("it was %s: it had to be %s", set.temp(c), v.Limit), "a named person decides: sent back, thrown away, or kept with a reason"
		return v, true
	}
	v.Outcome, v.Why, v.Says = Pass, WhyColdEnough, fmt.Sprintf("it was %s", set.temp(c))
	return v, true
}
