package learned

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/learning"
	"kettlefrost/internal/record"
)

// propose works out what a figure should be, from what was seen of it.
func (g *gathering) propose(at place, f *Figure, runs map[string]Made, told Told) error {
	f.Said, f.Scale = told.Of(f.Key), at.kind.scale()
	g.before(at, f)
	g.count(at, f, runs, told)
	for other := range maps.Keys(g.shared[at]) {
		f.With = append(f.With, other.key())
	}
	slices.Sort(f.With)
	var err error
	switch at.kind {
	case Fills:
		err = f.fillScatter()
	case Spread:
		err = f.runScatter()
	default:
		f.Prior, f.Source = g.believed(at, f, f.Said)
		err = f.update()
	}
	f.settle()
	return err
}

// before is the figure as the book has it.
func (g *gathering) before(at place, f *Figure) {
	switch at.kind {
	case Fills:
		f.Value, f.Scatter.Worth, f.Source = filledBefore(g.book.Packs[kitchen.PackID(at.part)])
		f.Before = at.kind.written(f.Value)
		return
	case Spread:
		g.spreadBefore(at, f)
		return
	case Pot:
		f.Value, f.Before = 1, at.kind.written(1)
		return
	}
	if x, ok := at.in(g.book); ok {
		f.Value, f.Before = x, at.kind.written(x)
		return
	}
	f.Value = g.rates[at]
}

// yieldsUsual is how far pots turn out otherwise than planned: what the plan takes too.
const yieldsUsual = 0.03

func (g *gathering) spreadBefore(at place, f *Figure) {
	step, _ := stepOf(g.book, at.dish, at.step)
	f.Source = fmt.Sprintf("what is usual for pots, worth %d runs", writtenWorth)
	f.Value = yieldsUsual
	if y := g.book.Kitchen.Spreads.Yields; y > 0 {
		f.Value, f.Source = y.F(), fmt.Sprintf("the kitchen's own, worth %d runs", writtenWorth)
	}
	if !slices.ContainsFunc(step.Gives, func(o kitchen.Output) bool { return string(o.ID) == at.part }) {
		f.WhyNot = "the output has no line of its own under gives, where its spread could stand"
	}
	if x, ok := at.in(g.book); ok {
		f.Value, f.Before, f.Source = x, at.kind.written(x), fmt.Sprintf("the book, worth %d runs", writtenWorth)
	}
}

// count keeps the runs that count, by the rule of the package.
func (g *gathering) count(at place, f *Figure, runs map[string]Made, told Told) {
	within, texts := inIt(f)
	var seen []Seen
	for _, x := range f.Seen {
		then := ""
		if v, ok := at.in(runs[x.Run].Book); ok {
			then = at.kind.written(v)
		}
		switch {
		case slices.Contains(within, x.Run):
			f.Excluded = append(f.Excluded, Excluded{x.Run, "it is in the figure already, which was accepted from it"})
			continue
		case at.kind != Fills && at.kind != Spread && at.kind != Pot && !slices.Contains(texts, then):
			f.Excluded = append(f.Excluded, Excluded{x.Run, fmt.Sprintf("the figure was written anew after it, from %s to %s", cmp.Or(then, "none"), cmp.Or(f.Before, "none"))})
			continue
		}
		if left, out := told.Left(f.Key, x.Run); out {
			x.LeftOut = left.Why
		}
		seen = append(seen, x)
	}
	f.Seen = seen
}

// inIt are the runs that the figure of today was learned from, one accepted proposal after another, and how the book wrote it on the way.
func inIt(f *Figure) (runs, texts []string) {
	texts = []string{f.Before}
	for _, s := range f.Said {
		if s.Body.Outcome == record.TakenOver && s.Body.After == texts[len(texts)-1] {
			runs = append(runs, s.Body.Runs...)
			texts = append(texts, noneIs(s.Body.Before))
		}
	}
	return runs, texts
}

const none = "none"

func noneIs(text string) string {
	if text == none {
		return ""
	}
	return text
}

// nearEnough is the share of their mean within which runs are never asked about, however closely the others agree.
const nearEnough = 0.02

// update learns a mean.
func (f *Figure) update() error {
	if f.Value <= 0 && f.Scale == learning.Ratio || len(f.Seen) == 0 {
		return nil
	}
	var runs []learning.Run
	for _, x := range f.Seen {
		runs = append(runs, learning.Run{ID: x.Run, Value: x.Value, LeftOut: x.LeftOut})
	}
	var err error
	if f.Proposal, err = learning.Update(f.Prior, runs, options(f.Scale)); err != nil {
		return fmt.Errorf("%s: %w", f.Key, err)
	}
	for _, q := range f.Proposal.Asked {
		if math.Abs(q.Run.Value-f.Proposal.MeanRuns) < nearEnough*math.Abs(f.Proposal.MeanRuns) {
			continue
		}
		f.ask(q.Run.ID, q.Why.String(), q.AfterWithout)
	}
	f.Rounded = f.Kind.rounded(f.Proposal.After, f.Before)
	return nil
}

func (f *Figure) ask(run, why string, without float64) {
	i := slices.IndexFunc(f.Asked, func(a Asked) bool { return a.Run == run })
	if i < 0 {
		i = len(f.Asked)
		f.Asked = append(f.Asked, Asked{Run: run, Without: without, Text: f.Kind.written(f.Kind.rounded(without, f.Before))})
	}
	f.Asked[i].Why = append(f.Asked[i].Why, why)
}

// ending is how learning ended.
func (f *Figure) ending() learning.Ending {
	if f.scatters() {
		return f.Scatter.Ending
	}
	return f.Proposal.Ending
}

// settle says how the figure stands.
func (f *Figure) settle() {
	counted := f.Counted()
	f.After = f.Kind.written(f.Rounded)
	switch {
	case f.WhyNot != "":
		f.State = NoPlace
	case counted < f.least() || f.ending() == learning.TooFew || f.ending() == 0:
		f.State = TooFew
	case !f.Kind.possible(f.Rounded):
		f.State, f.WhyNot = NoPlace, "the runs say that there is nothing of it, or more than there can be: look at the step"
	case f.Kind != Fills && (f.After == f.Before || f.ending() == learning.TooSmall):
		f.State = Unchanged
	case f.last(record.Refused):
		f.State = Declined
	case f.last(record.TakenOver) && f.Said[0].Body.Before == cmp.Or(f.Before, none) && f.Said[0].Body.After != f.Before:
		f.State = Waiting
	default:
		f.State = Ready
	}
	if counted == 0 {
		f.After = ""
	}
}

// least is how many runs a proposal needs: a filling that was weighed has many packs in it.
func (f *Figure) least() int {
	if f.Kind == Fills {
		return 1
	}
	return LeastRuns
}

// last is that the last word on the figure was this, and no run has come since.
func (f *Figure) last(word record.LearnedWord) bool {
	if len(f.Said) == 0 || f.Said[0].Body.Outcome != word {
		return false
	}
	return !slices.ContainsFunc(f.Runs(), func(run string) bool { return !slices.Contains(f.Said[0].Body.Runs, run) })
}

// Weighings are the check-weights of the runs that count, as the book keeps them.
func (f Figure) Weighings(runs []Made) []kitchen.Weighing {
	var all []kitchen.Weighing
	for _, name := range f.Runs() {
		for _, m := range runs {
			if m.Run.Name == name {
				all = append(all, m.weighings(f.Part)...)
			}
		}
	}
	return all
}
