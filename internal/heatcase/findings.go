package heatcase

import (
	"fmt"
	"math"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/heat"
	"kettlefrost/internal/unit"
	"kettlefrost/internal/vessel"
)

// findings is what to know of an answer, gravest first.
func (q question) findings(a Answer) finding.List {
	n := notes{q: q, a: a}
	n.limits()
	n.reached()
	n.shape()
	n.opened()
	n.process()
	n.food()
	n.numbers()
	n.add(CodeHolds, finding.Note, "what it stands in is taken to keep its temperature, whatever is put in", "log it during the first batch; a full freezer, a small pot of water or a melted bath does not keep it", "")
	n.add(CodeThermometer, finding.Note, "this is a prediction: a thermometer in the core of the slowest piece decides, and the local code says which limits hold", "log one batch", "")
	n.list.Sort()
	return n.list
}

type notes struct {
	q    question
	a    Answer
	list finding.List
}

func (n *notes) add(code string, s finding.Severity, message, fix, source string, figures ...finding.Figure) {
	n.list = append(n.list, finding.Finding{Code: code, Severity: s, Where: "the " + string(n.q.Process) + " case", Message: message, Fix: fix, Source: source, Figures: figures})
}

// show is a temperature as the reader has it.
func (n *notes) show(c float64) string { return unit.TempC(c).Show(n.q.Units) }

func span(s float64) string { return CookTime(s).Show(unit.Metric) }

// limits is how a cooling stands to the published limit.
func (n *notes) limits() {
	v := n.a.Verdict
	if v == nil {
		return
	}
	var figures []finding.Figure
	for _, s := range v.Stages {
		for _, x := range []struct {
			name string
			Reach
		}{{"usual", s.Usual}, {"low coefficients", s.Slow}} {
			f := finding.Figure{Name: s.Name + ", " + x.name, Value: x.TimeS, Unit: "s", Text: span(x.TimeS) + " of " + span(s.LimitS)}
			if !x.Reached {
				f.Text = "more than " + span(x.TimeS) + " of " + span(s.LimitS)
			}
			figures = append(figures, f)
		}
	}
	fix := "shallower, stirred, in an ice bath, or in moving air; then log it"
	switch v.Words {
	case wordsTooSlow, wordsPerhaps:
		n.add(CodeTooSlow, finding.Stop, v.Words+": do not cool it like this", fix, v.Source, figures...)
	case wordsTight:
		n.add(CodeTight, finding.Caution, v.Words, fix, v.Source, figures...)
	case wordsNotShown:
		n.add(CodeNotShown, finding.Caution, "the limit goes down to 41 °F, and the target ends before", "ask for 41 °F", v.Source, figures...)
	}
}

func (n *notes) reached() {
	for _, r := range n.a.Runs {
		if !r.Reached {
			n.add(CodeNever, finding.Caution, fmt.Sprintf("with the %s coefficients the core does not get to %s: after %s it is at %s", r.Film, n.show(n.q.to), span(r.TimeS), n.show(r.EndCoreC)),
				"give a target farther from the medium, or another medium", "")
		}
	}
	if q := n.q; q.Process == Freeze && q.asked.To == nil && q.to > unit.TempF(usuals[Freeze].toF).C()+sameC {
		n.add(CodeAirTarget, finding.Note, fmt.Sprintf("a core never gets to the temperature of its air, so the usual 0 °F is out of reach: it was followed to %s", n.show(q.to)), "set the freezer colder", "")
	}
}

// thickM is from where on an unstirred body is called out: 4 in, the depth of a full hotel pan.
const thickM = 0.1

func (n *notes) shape() {
	s := n.q.Shape
	thick := max(s.Thickness.M()*float64(max(1, s.Stack)), min(s.Diameter.M(), s.Depth.M()), min(s.Length.M(), s.Width.M(), s.Height.M()))
	switch {
	case n.q.Stir != Unstirred:
		n.add(CodeStirring, finding.Caution, "this holds only while it is stirred all the time, the wall scraped if it is thick; left alone it takes many times as long", "", "")
		if n.q.Open {
			n.add(CodeOpen, finding.Note, "what evaporates from the open pot is left out: hot food cools somewhat faster", "", "")
		}
	case thick >= thickM:
		n.add(CodeUnstirred, finding.Caution, fmt.Sprintf("nothing moves inside %s of it, so the middle waits: no medium outside hastens it much", unit.LengthM(thick).Show(n.q.Units)),
			"divide it into shallow layers, or stir it; food that pours mixes by itself and is faster than this", "")
	}
	if s.Stack > 1 {
		n.add(CodeUnstirred, finding.Caution, fmt.Sprintf("%d bags on each other act like one thick one, here with nothing lost at their edges", s.Stack), "lay them apart until they are through", "")
	}
}

func (n *notes) opened() {
	if n.q.Open && n.q.Stir == Unstirred {
		n.add(CodeOpen, finding.Note, fmt.Sprintf("without a lid much heat leaves by evaporation, known to %.0f %% at best and less where the surface is thick or fat; the slow end of the band has so much less", 100*vessel.EvaporationSpread),
			"nothing may drip into it, and it loses water", "The Engineering Toolbox, heat loss from open water tanks")
	}
}

const (
	thawSource   = "FDA Food Code 3-501.13"
	reheatSource = "FDA Food Code 3-403.11"
	reheatLimitS = 2 * 3600
)

func (n *notes) process() {
	q := n.q
	around, _, _ := q.sides()
	switch q.Process {
	case Cool:
		if low, ok := q.coldest(); ok && low < q.r.freezesC && n.surfaceFroze() {
			n.add(CodeSkin, finding.Note, "its surface freezes while the core still cools", "take it out in time, or use a milder medium", "")
		}
	case Thaw:
		if c := q.warmestC(); c > unit.TempF(41).C() {
			n.add(CodeThawWarm, finding.Caution, "thawing at "+n.show(c)+": the code has it at 41 °F or less, or under running water of 70 °F or less with no part above 41 °F for long", "thaw in the refrigerator, and see what the code asks of vacuum packs, fish first of all", thawSource)
		}
	case Reheat:
		n.reheat()
	}
	if q.Process == Reheat && around.medium.ID == "simmering-water" {
		n.add(CodeReheat, finding.Note, "folds, corners and bags that float or lie on each other are slower", "keep the bags free and under water, and turn them", "")
	}
}

func (n *notes) reheat() {
	q := n.q
	target := unit.TempF(165).C()
	if q.to < target-sameC {
		n.add(CodeReheat, finding.Caution, "food that is reheated to be held hot is to reach 165 °F throughout for 15 s", "ask for 165 °F", reheatSource)
	}
	begin := 0.0
	for _, m := range n.a.Marks {
		if math.Abs(m.TempC-unit.TempF(41).C()) < sameC && m.Slow.Reached {
			begin = m.Slow.TimeS
		}
	}
	if t := n.a.Time.Slow; !t.Reached || t.TimeS-begin > reheatLimitS {
		n.add(CodeSlowReheat, finding.Caution, "the core may be longer than 2 h on its way from 41 °F", "make it thinner, or put it in hotter or better moved water", reheatSource,
			finding.Figure{Name: "from 41 °F, with the low coefficients", Value: t.TimeS - begin, Unit: "s", Text: span(t.TimeS-begin) + " of 2 h"})
	}
}

func (n *notes) surfaceFroze() bool {
	for _, r := range n.a.Runs {
		for _, p := range r.Curve {
			if p.SurfaceC < n.q.r.freezesC {
				return true
			}
		}
	}
	return false
}

func (n *notes) food() {
	r := n.q.r
	if freezes := min(n.q.from, n.q.to) < r.freezesC; r.assumed && freezes {
		n.add(CodeFreezesAt, finding.Note, fmt.Sprintf("where it begins to freeze is assumed: %.2g °C, %s", r.freezesC, r.freezesFrom), "measure it, or give it", "")
	}
	for _, f := range r.told() {
		n.add(f.Code, f.Severity, f.Message, f.Fix, "")
	}
}

// told is what to know of how the food was found.
func (r resolved) told() finding.List {
	list := finding.List{}
	if math.Abs(r.sum-1) > 0.0005 {
		list = append(list, finding.Finding{Code: CodeSum, Severity: finding.Note, Where: "the food", Message: fmt.Sprintf("its composition adds up to %.4g %% and was scaled to 100 %%", 100*r.sum)})
	}
	if len(r.others) > 0 {
		list = append(list, finding.Finding{Code: CodeOtherFoods, Severity: finding.Note, Where: "the food", Message: "other foods have these words too: " + strings.Join(r.others, "; "),
			Fix: "give the number of the one you mean"})
	}
	return list
}

// roughClosure is what of the energy may be unaccounted for before it is said.
const roughClosure = 1e-3

func (n *notes) numbers() {
	for _, r := range n.a.Runs {
		if r.Closure > roughClosure {
			n.add(CodeEnergyOpen, finding.Caution, fmt.Sprintf("%.2g %% of the energy is unaccounted for with the %s coefficients", 100*r.Closure, r.Film), "take the times as rough", "")
		}
	}
	if low, ok := n.q.coldest(); ok && low < heat.LowestPropertyC {
		n.add(CodeBeyondFit, finding.Note, fmt.Sprintf("properties were fitted down to %d °C; the medium is colder", heat.LowestPropertyC), "", "")
	}
}
