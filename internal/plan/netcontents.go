package plan

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/netcontents"
	"kettlefrost/internal/unit"
)

// NetContents is a filling held against the law of averages, and how full to fill the next one. It is a check of one's own.
type NetContents struct {
	Rules     string    `json:"rules"`
	Sample    int       `json:"sample"`      // packs that the plan takes
	Shortfall unit.Mass `json:"shortfall_g"` // a pack short by more than this counts
	Verdict   string    `json:"verdict,omitempty"`
	Why       []string  `json:"why"`               // a lot fails
	Short     []int     `json:"short"`             // packs short by more than the shortfall, counted from 1
	WhyNot    string    `json:"why_not,omitempty"` // there is no verdict
	Next      *FillAt   `json:"next,omitempty"`
}

// FillAt is how full to fill a lot of the same size, for it to pass with a confidence.
type FillAt struct {
	Weighed    int        `json:"learned_from"` // packs weighed so far, of all fillings
	Believed   unit.Share `json:"believed"`     // before that: a standard deviation, of the label, worth a few packs
	Belief     string     `json:"belief"`       // where that is from
	Scatter    unit.Mass  `json:"scatter_g"`    // standard deviation, the careful figure that the mean rests on
	Likely     unit.Mass  `json:"likely_g"`     // the best estimate of it
	Mean       unit.Mass  `json:"mean_g"`       // net, on average
	Bind       string     `json:"bind"`         // what asks for it
	Confidence unit.Share `json:"confidence"`
	Under      unit.Share `json:"under_label"` // share of packs that will lie under the label all the same
	Over       unit.Mass  `json:"over_g"`      // given away in each pack, on average
	Given      unit.Mass  `json:"given_g"`     // in the whole lot
	Lost       unit.Money `json:"lost"`        // of that
	LostAt     string     `json:"lost_at"`     // at what: the food's cost, or the pack's price where that is not known
	Weigh      []int      `json:"weigh"`       // which packs, counted in the order of filling
	Every      unit.Span  `json:"every_s"`     // one of them so often, at the pack's own pace
	Parts      []FillPart `json:"parts"`       // in the order of filling
}

// FillPart is how much of one component to fill.
type FillPart struct {
	Output string    `json:"output"`
	Label  unit.Mass `json:"label_g"`
	Target unit.Mass `json:"target_g"` // on average
	Pieces int       `json:"pieces,omitempty"`
}

const (
	confident = 95 * unit.PerCent // of passing, and that the scatter is no larger than reckoned: common practice
	scaleStep = unit.Gram         // what a table scale shows
)

// netContents judges a filling of a dish's pack and says how to fill the next.
func (p *planner) netContents(d *cooked, id kitchen.PackID, w kitchen.Weighing) NetContents {
	terms := termsOf(p.book, cmp.Or(w.Lot, p.lotOf(id)), p.labelMass(d, id))
	n := NetContents{Rules: terms.Rules.String(), Why: []string{}, Short: []int{}}
	if w.Lot == 0 && len(w.Gross) > 0 {
		n.WhyNot = "it is not said how many packs were filled: write lot: at the check-weights, or give --lot"
		return n
	}
	sampling, err := terms.Plan()
	if err != nil {
		n.WhyNot = plain(err)
		return n
	}
	n.Sample, n.Shortfall = sampling.Sample(), sampling.Shortfall
	if len(w.Gross) == 0 {
		n.WhyNot = "nobody has weighed any pack of it"
	} else {
		n.judge(netcontents.Lot{Terms: terms, Gross: w.Gross, Tares: w.Tare})
	}
	next, err := p.fillNext(d, id, terms.Lot, w)
	if err != nil {
		n.WhyNot = strings.TrimPrefix(n.WhyNot+"; "+plain(err), "; ")
		return n
	}
	n.Next = &next
	return n
}

// rules are the sets of rules by the book's words for them.
var rules = map[kitchen.NetRules]netcontents.Rules{kitchen.Handbook133: netcontents.Handbook133, kitchen.OwnCheck: netcontents.OwnCheck, kitchen.Directive76211: netcontents.Directive76211}

// termsOf are what a lot is judged by: as the book says, or else where pounds are sold the Handbook without the inspector's benefit of the
// doubt, elsewhere the Directive.
func termsOf(book kitchen.Book, lot int, label unit.Mass) netcontents.Terms {
	t := netcontents.Terms{Rules: netcontents.Directive76211, Lot: lot, Label: label, LabelIn: book.Kitchen.Units}
	if book.Kitchen.Units == unit.US {
		t.Rules = netcontents.OwnCheck
	}
	t.Rules = cmp.Or(rules[book.Kitchen.NetContents.Rules], t.Rules)
	return t
}

func (n *NetContents) judge(lot netcontents.Lot) {
	v, err := netcontents.Evaluate(lot)
	if size := (*netcontents.SampleError)(nil); errors.As(err, &size) {
		n.WhyNot = fmt.Sprintf("%d packs were weighed, the plan takes %s, chosen before anybody sees a weight", size.Have, numbers(size.Want))
		return
	}
	if err != nil {
		n.WhyNot = plain(err)
		return
	}
	n.Verdict = v.Ending.String()
	for _, r := range v.Reasons {
		n.Why = append(n.Why, r.String())
	}
	for _, i := range v.Short {
		n.Short = append(n.Short, i+1)
	}
}

// fillNext is how full to fill the next lot as large, learned from every filling of the pack that was weighed.
func (p *planner) fillNext(d *cooked, id kitchen.PackID, lot int, w kitchen.Weighing) (FillAt, error) {
	pack := p.book.Packs[id]
	fillings := checked(pack)
	if len(w.Gross) > 0 && !slices.ContainsFunc(fillings, func(f []unit.Mass) bool { return slices.Equal(f, w.Gross) }) {
		fillings = append(fillings, w.Gross)
	}
	a, err := p.aimFill(d, id, lot, fillings)
	if err != nil {
		return FillAt{}, err
	}
	t := a.target
	next := FillAt{Weighed: a.spread.Weighed, Believed: a.spread.Prior.Share, Belief: a.spread.Prior.Source, Scatter: unit.MassKg(a.spread.UpperG / 1000), Likely: unit.MassKg(a.spread.DeviationG / 1000),
		Mean: t.Mean, Bind: t.Bind.String(), Confidence: a.spread.Confidence, Under: unit.ShareOf(t.UnderLabel), Over: t.Over, Given: t.Over * unit.Mass(lot), Lost: t.Lot, LostAt: "what the food costs", Parts: []FillPart{}}
	if a.atPrice {
		next.LostAt = "the pack's price"
	}
	for i, f := range pack.Fill {
		next.Parts = append(next.Parts, FillPart{Output: p.outLine(d, f.Of, 0).Name, Label: p.fillMass(d, f), Target: t.Parts[i].Mean, Pieces: f.Pieces})
	}
	next.weighNext(netcontents.Filling{Packs: lot, Lasts: pack.Pace * unit.Span(lot) / unit.Span(max(1, pack.Crew)), Sample: t.Plan.Sample(), Group: 1})
	return next, nil
}

// weighNext is which packs of a lot to weigh, one at a time over the whole filling, so that a drift shows.
func (a *FillAt) weighNext(f netcontents.Filling) {
	a.Weigh = []int{}
	scheme, err := netcontents.Weighings(f)
	if err != nil {
		return
	}
	a.Every = scheme.Every
	for _, g := range scheme.Groups {
		a.Weigh = append(a.Weigh, g.Packs...)
	}
}

// plain is an error without the name of the package that it comes from.
func plain(err error) string { return strings.TrimPrefix(err.Error(), "netcontents: ") }

func numbers(of []int) string {
	var words []string
	for _, n := range of {
		words = append(words, fmt.Sprint(n))
	}
	return strings.Join(words, " or ")
}
