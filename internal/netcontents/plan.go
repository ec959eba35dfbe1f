package netcontents

import (
	"math"

	"kettlefrost/internal/unit"
)

// Stage is a sample, or a first and a second one, by which the packs that are short by more than the limit are judged.
type Stage struct {
	Packs  int // weighed in this stage
	Accept int // as many short packs, of all stages so far, or fewer pass
	Reject int // as many or more fail; between the two a further stage decides
}

// Plan is how a lot is checked.
type Plan struct {
	Terms     Terms
	Stages    []Stage
	Average   int       // the first so many packs weighed are averaged; 0: the average is not judged
	Factor    float64   // sample correction factor: the average may be short by so many standard deviations of the sample
	Tares     int       // empty packagings weighed at first
	Shortfall unit.Mass // MAV or TNE: a pack short by more than this counts
	Twice     bool      // no pack may be short by more than twice the shortfall
}

// Sample is how many packs are weighed at first.
func (p Plan) Sample() int { return p.Stages[0].Packs }

// handbookFactors are those for lots of 2 to 11, where all packs are weighed: NIST Handbook 133, appendix A, table 2-1 (from memory; the
// test holds them to Student's t at 0.975 over the square root of n).
var handbookFactors = [...]float64{2: 8.984, 2.484, 1.591, 1.241, 1.050, 0.925, 0.836, 0.769, 0.715, 0.672}

// Plan is the sampling plan and the limit of shortfall. Errors are *InputError and *TableError.
func (t Terms) Plan() (Plan, error) {
	if t.Lot < 1 {
		return Plan{}, noLot(t.Lot)
	}
	p := Plan{Terms: t}
	var err error
	switch t.Rules {
	case Handbook133, OwnCheck:
		p.handbook()
		p.Shortfall, err = MAV(t.Label, t.LabelIn)
	case Directive76211:
		p.directive()
		p.Shortfall, err = TNE(t.Label)
	default:
		return Plan{}, &InputError{"Rules", "are " + t.Rules.String(), "choose one of the sets of rules"}
	}
	return p, err
}

const (
	leastTested = 100 // packs in a lot for the Directive's reference test
	oneInForty  = 40
)

// handbook fills in table 2-1 (from memory). Tare: two packagings to begin with, for packs other than glass and aerosols; when more are
// needed is not worked out here.
func (p *Plan) handbook() {
	lot := p.Terms.Lot
	p.Tares = min(2, lot)
	stage := Stage{Packs: min(lot, 12), Reject: 1}
	switch {
	case lot < len(handbookFactors):
		p.Factor = handbookFactors[lot]
	case lot <= 250:
		p.Factor = 0.635
	case lot <= 3200:
		stage.Packs, p.Factor = 24, 0.422
	default:
		stage, p.Factor = Stage{Packs: 48, Accept: 1, Reject: 2}, 0.291
	}
	p.Stages = []Stage{stage}
	if lot > 1 {
		p.Average = stage.Packs
	}
	if p.Terms.Rules == OwnCheck {
		p.Factor = 0
	}
}

// directive fills in annex II: 2.2 the count (from memory) and 2.3 the mean (sizes read; the factors are Student's t at 0.995 over the
// square root of n). Under 100 packs there is no reference test: all are weighed (annex II, 2, from memory), their mean is the lot's and may
// not be short at all, and as many may be short of the tolerable error as the packer's duty allows, one in forty (annex I, from memory).
func (p *Plan) directive() {
	p.Tares, p.Twice = 1, true
	lot := p.Terms.Lot
	if lot < leastTested {
		p.Stages = []Stage{{lot, lot / oneInForty, lot/oneInForty + 1}}
		p.Average = lot
		return
	}
	switch {
	case p.Terms.Destructive:
		p.Stages = []Stage{{20, 1, 2}}
	case lot <= 500:
		p.Stages = []Stage{{30, 1, 3}, {30, 4, 5}}
	case lot <= 3200:
		p.Stages = []Stage{{50, 2, 5}, {50, 6, 7}}
	default:
		p.Stages = []Stage{{80, 3, 7}, {80, 8, 9}}
	}
	switch {
	case p.Terms.Destructive:
		p.Average, p.Factor = 20, 0.640
	case lot <= 500:
		p.Average, p.Factor = 30, 0.503
	default:
		p.Average, p.Factor = 50, 0.379
	}
}

// sizes are the numbers of packs by which a lot may be judged: one stage, or one and a second.
func (p Plan) sizes() []int {
	var sizes []int
	sum := 0
	for _, s := range p.Stages {
		sum += s.Packs
		sizes = append(sizes, sum)
	}
	return sizes
}

// grams is m in grams, as near as a float64 comes.
func grams(m unit.Mass) float64 { return float64(m) / float64(unit.Gram) }

// massUp is the least mass of at least g grams.
func massUp(g float64) unit.Mass { return unit.Mass(math.Ceil(g * float64(unit.Gram))) }
