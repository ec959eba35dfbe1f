package trials

import (
	"cmp"
	"fmt"

	"kettlefrost/internal/record"
	"kettlefrost/internal/tastetrial"
)

// Scatter is how much differences between two variants scatter from one taster, or pair of packs, to the next: their standard deviation.
type Scatter struct {
	Figure string
	SD     float64
	From   string // the trial in which it was seen; "" when it is assumed
}

// assumed are standard deviations of differences that nobody has seen in this kitchen: this program's guess, from no source, good for a first
// trial and to be replaced by what that shows. Wherever they are used it is said that they are assumed.
func assumed(f record.Figured) float64 {
	switch f.Unit {
	case Points:
		return 1.5
	case Share:
		return 0.02
	}
	return 4 // grams
}

// ScatterOf is the scatter of a figure as it was last seen in a trial, or else assumed.
func ScatterOf(f record.Figured, earlier []Trial) Scatter {
	for _, t := range earlier {
		for _, old := range t.Laid.Body.Figures {
			if old.Figure != f.Figure || old.Unit != f.Unit {
				continue
			}
			if c := t.result(old).Compared; c != nil {
				if sd := widest(*c); sd > 0 {
					return Scatter{f.Figure, sd, t.Name}
				}
			}
		}
	}
	return Scatter{Figure: f.Figure, SD: assumed(f)}
}

// widest is the largest standard deviation of differences of any pair; 0 when none scatter.
func widest(c tastetrial.Comparison) (sd float64) {
	for _, p := range c.Pairs {
		if p.T != nil {
			sd = max(sd, p.T.SD)
		}
	}
	return sd
}

// Chance is what a trial can find out of a figure before it is made.
type Chance struct {
	Figure record.Figured
	Scatter
	Blocks int     // tasters, or pairs of packs of all weeks together
	Power  float64 // the chance that a difference that matters is found where there is one
	Error  float64 // standard error of a power that was simulated; 0 when it was worked out
	Least  int     // tasters of whom ranks can tell anything at all; 0 for what is measured
	Needed int     // blocks for a power of Aimed; 0 when even very many are too few
	Each   float64 // level of one comparison, so that all hold together
}

// Aimed is the power that trials aim at: four chances in five (common practice).
const Aimed = 0.8

// draws of a simulated power; its standard error is then at most 0.016.
const draws = 1000

// Chances are what a trial as it is laid out can find out, each figure by its scatter, in the order of its figures. Errors are of a trial
// that cannot be laid out.
func Chances(b record.TrialLaid, scatter func(record.Figured) Scatter) ([]Chance, error) {
	if _, err := tastetrial.Lay(DesignOf(b)); err != nil {
		return nil, err
	}
	pairs := len(b.Variants) * (len(b.Variants) - 1) / 2 * len(b.Figures)
	var all []Chance
	for _, f := range b.Figures {
		c := Chance{Figure: f, Scatter: scatter(f), Blocks: len(b.Weeks) * int(b.Packs), Each: 1 - (1-Level)/float64(pairs)}
		matters := number(f.Matters)
		if needed, err := tastetrial.PairsNeeded(tastetrial.Aim{Matters: matters, Power: Aimed, Level: c.Each}, c.SD); err == nil {
			c.Needed = needed
		}
		if !isScored(f) {
			c.Power = tastetrial.PowerPaired(c.Blocks, matters, c.SD, c.Each)
			all = append(all, c)
			continue
		}
		c.Blocks, c.Least = len(b.Tasters), FewestRanked(c.Each)
		c.Needed = max(c.Needed, c.Least)
		if c.Blocks >= c.Least {
			s, err := tastetrial.SimulateSignedRank(c.Blocks, matters, c.SD, 0, c.Each, draws, uint64(b.Seed))
			if err != nil {
				return nil, err
			}
			c.Power, c.Error = s.Power, s.Error
		}
		all = append(all, c)
	}
	return all, nil
}

// Text is what a chance means, in a sentence.
func (c Chance) Text() string {
	who := counted(c.Blocks, "pair of packs", "pairs of packs")
	if isScored(c.Figure) {
		who = counted(c.Blocks, "taster", "tasters")
	}
	from := "assumed, nobody has seen it here"
	if c.From != "" {
		from = "as seen in " + c.From
	}
	scatter := fmt.Sprintf("differences scatter by %s (%s)", Difference(c.Figure, c.SD), from)
	needed := "more than can be had are needed"
	if c.Needed > 0 {
		needed = fmt.Sprintf("%d would find it in four trials of five", c.Needed)
	}
	if c.Blocks < c.Least {
		return fmt.Sprintf("with %s nothing can be told, however they score: it takes %d at least; %s, if %s", who, c.Least, needed, scatter)
	}
	return fmt.Sprintf("with %s, a difference of %s is found in %.0f trials of 100, if %s; %s", who, Difference(c.Figure, number(c.Figure.Matters)), 100*c.Power, scatter, needed)
}

// Next is the next trial of the same variants, as small as can be.
type Next struct {
	Power   float64
	Figures []NextFigure
	Tasters int // fewest, for every scored figure
	Packs   int // fewest of each variant in each week, for every measured figure
	// By the scatter that is not above what it may be in one trial of five: few blocks often show too little of it.
	SaferTasters, SaferPacks int
	Weeks                    []record.Week
	InAll, SaferInAll        int // packs to be frozen of all variants
}

// NextFigure is how large the next trial must be for one figure.
type NextFigure struct {
	Figure record.Figured
	Sizes  *tastetrial.Next
	Not    string // why it cannot be said
}

// PlanNext sizes the next trial in the same weeks by what this one has shown.
func (r Results) PlanNext(power float64) Next {
	n := Next{Power: power, Weeks: r.Trial.Laid.Body.Weeks, Tasters: 1, SaferTasters: 1, Packs: 1, SaferPacks: 1}
	weeks := max(1, len(n.Weeks))
	for _, f := range r.Figures {
		x := NextFigure{Figure: f.Figure, Not: f.Not}
		if f.Compared != nil {
			sizes, err := f.Compared.PlanNext(power, stepOf(f.Figure, f.Seen), uint64(r.Trial.Laid.Body.Seed))
			if err != nil {
				x.Not = err.Error()
			} else {
				x.Sizes = &sizes
				if f.Scored {
					n.Tasters, n.SaferTasters = max(n.Tasters, sizes.Blocks), max(n.SaferTasters, sizes.Plenty)
				} else {
					n.Packs, n.SaferPacks = max(n.Packs, perWeek(sizes.Blocks, weeks)), max(n.SaferPacks, perWeek(sizes.Plenty, weeks))
				}
			}
		}
		n.Figures = append(n.Figures, x)
	}
	variants := len(r.Trial.Laid.Body.Variants)
	n.InAll, n.SaferInAll = n.Packs*variants*weeks, n.SaferPacks*variants*weeks
	return n
}

func perWeek(blocks, weeks int) int { return (blocks + weeks - 1) / weeks }

// Text is a size in a sentence, with what it rests on.
func (n NextFigure) Text() string {
	if n.Sizes == nil {
		return cmp.Or(n.Not, "nothing was seen yet")
	}
	s := n.Sizes
	who := counted(s.Blocks, "pair of packs in all", "pairs of packs in all")
	how := "worked out for values that scatter normally"
	if s.ByRanks {
		who = counted(s.Blocks, "taster", "tasters")
		if len(s.Seen) > 0 {
			how = fmt.Sprintf("simulated, %d draws with seed %d", s.Seen[0].Draws, s.Seen[0].Seed)
		}
	}
	return fmt.Sprintf("%s, %d to be safer: finds a true difference of %s in %.0f trials of 100, if differences scatter by %s as they did (%s to be safer; %s)",
		who, s.Plenty, Difference(n.Figure, s.Aim.Matters), 100*s.Aim.Power, Difference(n.Figure, s.SD), Difference(n.Figure, s.SDHigh), how)
}
