package learned

import (
	"fmt"
	"math"
	"slices"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/learning"
	"kettlefrost/internal/netcontents"
	"kettlefrost/internal/record"
	"kettlefrost/internal/vessel"
)

// What figures of the book are worth, in runs, and how far single runs scatter about them, as a share of the figure: conventions of this
// program. Who has weighed or timed knows better after a few runs.
const (
	writtenWorth   = 4 // a figure that somebody has written
	publishedWorth = 2 // one from a published table, which no kitchen is
)

var scatters = map[Kind]float64{Water: 0.15, Fat: 0.2, Drain: 0.2, ReduceTo: 0.05, Evaporation: 0.25, Residue: 0.3, Takes: 0.1, Trim: 0.15}

// believed is what the book says of a figure, from its own words or from an accepted proposal, and in words why it is worth so much.
func (g *gathering) believed(at place, f *Figure, said []Said) (learning.Prior, string) {
	p := learning.Prior{Value: f.Value, Runs: writtenWorth, SDRuns: writtenWorth, SD: g.scatter(at, f.Value)}
	words := fmt.Sprintf("the book, worth %d runs", writtenWorth)
	if f.Before == "" {
		p.Runs, p.SDRuns = publishedWorth, publishedWorth
		p.SD = max(p.SD, f.Value*vessel.EvaporationSpread)
		words = fmt.Sprintf("the published table or the burner, worth %d runs", publishedWorth)
	}
	if s, ok := accepted(f, said); ok {
		if grounds, ok := groundsOf(s.Body); ok && grounds.Worth+float64(grounds.Runs) > 0 {
			p.Runs = min(MostWorth, grounds.Worth+float64(grounds.Runs))
			if grounds.SD > 0 && grounds.SDRuns > 0 {
				p.SD, p.SDRuns = grounds.SD, min(MostWorth, grounds.SDRuns)
			}
			words = fmt.Sprintf("the book, which learned it from %d runs and is worth %.3g", grounds.Runs, p.Runs)
		}
	}
	return p, words
}

// scatter is how far single runs lie from a figure: as is usual, and no closer than a weighing shows it. Of times it is a share.
func (g *gathering) scatter(at place, value float64) float64 {
	switch at.kind {
	case Pace, Time, PackPace, Pot:
		if g.book.Kitchen.Spreads.Times > 0 {
			return g.book.Kitchen.Spreads.Times.F()
		}
		return 0.1
	}
	floor := 0.0
	for _, x := range g.floors[at] {
		floor += x / float64(len(g.floors[at]))
	}
	return max(scatters[at.kind]*value, floor)
}

// accepted is the entry by which the figure has its value today, if runs gave it.
func accepted(f *Figure, said []Said) (Said, bool) {
	i := slices.IndexFunc(said, func(s Said) bool { return s.Body.Outcome == record.TakenOver })
	if i < 0 || said[i].Body.After != f.Before {
		return Said{}, false
	}
	return said[i], true
}

// scale is how a figure scatters.
func (k Kind) scale() learning.Scale {
	if k == Pace || k == Time || k == PackPace || k == Pot {
		return learning.Ratio
	}
	return learning.Plain
}

// filledBefore is how packs scatter by the book: the check-weights in it, or what is usual when packs are filled by hand.
func filledBefore(pack kitchen.Pack) (sd, worth float64, words string) {
	squares, free, n := 0.0, 0.0, 0
	for _, w := range pack.Checks {
		if len(w.Gross) > 1 {
			sd := deviation(w.Gross)
			squares, free, n = squares+sd*sd*float64(len(w.Gross)-1), free+float64(len(w.Gross)-1), n+len(w.Gross)
		}
	}
	if free > 0 {
		return math.Sqrt(squares / free), free, fmt.Sprintf("%d packs that the book has weighed", n)
	}
	label := 0.0
	for _, f := range pack.Fill {
		label += f.Mass.Kg() * 1000
	}
	prior := netcontents.ByHand
	return prior.Share.F() * label, float64(prior.Packs), prior.Source + fmt.Sprintf(", worth %d packs", int(prior.Packs))
}
