package plan

import (
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
	Scatter    unit.Mass  `json:"scatter_g"`    // standard deviation, the careful figure that the mean rests on
	Likely     unit.Mass  `json:"likely_g"`     // the best estimate of it
	Mean       unit.Mass  `json:"mean_g"`       // net, on average
	Bind       string     `json:"bind"`         // what asks for it
	Confidence unit.Share `json:"confidence"`
	Under      unit.Share `json:"under_label"` // share of packs that will lie under the label all the same
	Over       unit.Mass  `json:"over_g"`      // given away in each pack, on average
	Lost       unit.Money `json:"lost"`        // of that in the lot, at the pack's price
	Weigh      []int      `json:"weigh"`       // which packs, counted in the order of filling
}

const (
	confident = 95 * unit.PerCent // of passing, and that the scatter is no larger than reckoned: common practice
	scaleStep = unit.Gram         // what a table scale shows
)

// netContents judges a filling and says how to fill the next.
func netContents(book kitchen.Book, pack kitchen.Pack, w kitchen.Weighing, label unit.Mass) NetContents {
	terms := termsOf(book, w.Lot, label)
	n := NetContents{Rules: terms.Rules.String(), Why: []string{}, Short: []int{}}
	if w.Lot == 0 {
		n.WhyNot = "it is not said how many packs were filled: write lot: at the check-weights, or give --lot"
		return n
	}
	sampling, err := terms.Plan()
	if err != nil {
		n.WhyNot = plain(err)
		return n
	}
	n.Sample, n.Shortfall = sampling.Sample(), sampling.Shortfall
	n.judge(netcontents.Lot{Terms: terms, Gross: w.Gross, Tares: w.Tare})
	next, err := fillAt(terms, pack, w)
	if err != nil {
		n.WhyNot = strings.TrimPrefix(n.WhyNot+"; "+plain(err), "; ")
		return n
	}
	next.Weigh = weighNext(w.Lot, n.Sample)
	n.Next = &next
	return n
}

// termsOf are what a lot is judged by: where pounds are sold the Handbook without the inspector's benefit of the doubt, elsewhere the
// Directive.
func termsOf(book kitchen.Book, lot int, label unit.Mass) netcontents.Terms {
	t := netcontents.Terms{Rules: netcontents.Directive76211, Lot: lot, Label: label, LabelIn: book.Kitchen.Units}
	if book.Kitchen.Units == unit.US {
		t.Rules = netcontents.OwnCheck
	}
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

// fillAt is learned from every filling of the pack that was weighed.
func fillAt(terms netcontents.Terms, pack kitchen.Pack, w kitchen.Weighing) (FillAt, error) {
	fillings := [][]unit.Mass{w.Gross}
	for _, earlier := range pack.Checks {
		if !slices.Equal(earlier.Gross, w.Gross) {
			fillings = append(fillings, earlier.Gross)
		}
	}
	spread, err := netcontents.Learn(terms.Label, netcontents.ByHand, fillings, confident)
	if err != nil {
		return FillAt{}, err
	}
	whole := netcontents.Part{Name: pack.Name, Mass: terms.Label, SpreadG: spread.UpperG, Free: true, PricePerKg: pack.Price.Times(int64(unit.Kilogram), int64(terms.Label))}
	t, err := netcontents.TargetOf(netcontents.Aim{Terms: terms, Confidence: confident, Step: scaleStep, Parts: []netcontents.Part{whole}})
	if err != nil {
		return FillAt{}, err
	}
	return FillAt{Weighed: spread.Weighed, Scatter: unit.MassKg(spread.UpperG / 1000), Likely: unit.MassKg(spread.DeviationG / 1000), Mean: t.Mean, Bind: t.Bind.String(), Confidence: confident,
		Under: unit.ShareOf(t.UnderLabel), Over: t.Over, Lost: t.Lot}, nil
}

// overfills is how far beyond its label each pack is filled that was ever weighed. A pack that nobody has weighed is filled to its label:
// its scatter would be a guess.
func overfills(book kitchen.Book) map[kitchen.PackID]unit.Mass {
	over := map[kitchen.PackID]unit.Mass{}
	for id, pack := range book.Packs {
		if len(pack.Checks) == 0 || !slices.ContainsFunc(pack.Fill, func(f kitchen.Fill) bool { return f.Pieces == 0 }) {
			continue
		}
		last := pack.Checks[len(pack.Checks)-1]
		next, err := fillAt(termsOf(book, last.Lot, labelMass(book, pack)), pack, last)
		if err == nil { // a lot that the rules do not reach, or of no known size, asks for nothing
			over[id] = next.Over
		}
	}
	return over
}

// weighNext is which packs of a lot to weigh, one at a time over the whole filling, so that a drift shows.
func weighNext(lot, sample int) []int {
	scheme, err := netcontents.Weighings(netcontents.Filling{Packs: lot, Sample: sample, Group: 1})
	if err != nil {
		return []int{}
	}
	var packs []int
	for _, g := range scheme.Groups {
		packs = append(packs, g.Packs...)
	}
	return packs
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
