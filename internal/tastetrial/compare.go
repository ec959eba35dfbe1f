package tastetrial

import (
	"fmt"
	"slices"
)

// Observation is one figure of one serving or pack. Variant, week and block are numbers of the caller's; variants count from 0.
//
// A block is what is compared within: a taster, who is the same in every week; or a set of packs made and opened together, one of each
// variant, which is another in every week.
type Observation struct {
	Variant, Week, Block int
	Value                float64
}

// Question is what is asked of observations.
type Question struct {
	Variants int
	Matters  float64 // the smallest difference that matters, above 0
	Level    float64 // of all pairs of all figures together, such as 0.95
	Figures  int     // how many figures of the same trial are compared, each by a question of its own; 0: 1
	Ranked   bool    // the figure is a score: ranks decide, not means
	Seed     uint64  // for Friedman's p where permutations must be drawn
}

// Comparison is what can be told of every pair of variants.
type Comparison struct {
	Question
	Each       float64 // level of one interval, so that all hold together: 1 - (1-Level)/(pairs Figures) (Bonferroni)
	Pairs      []Pair
	Friedman   *Friedman // nil with two variants, or without two complete blocks
	Incomplete []int     // blocks that lack a variant: they are in the pairs they have, and not in Friedman's test
}

// Pair is one pair of variants, first less second.
type Pair struct {
	First, Second int
	Blocks        int
	T             *PairedT    // nil if there are fewer than two blocks, or all differences are alike
	Ranks         *SignedRank // nil without blocks
	Effect        Effect      // of the test that decides; PHolm is its p, adjusted
	ByRanks       bool        // the signed ranks decide
	PHolm         float64     // among the pairs, and times the figures
	Verdict       Verdict
}

// String is the effect with its interval, its p and the verdict, which are never said apart: "-0.833 (-1.6 to -0.05, 98.3 %), p 0.012, 0.036 among
// all: cannot tell".
func (p Pair) String() string {
	return fmt.Sprintf("%s, %.2g among all: %s", p.Effect, p.PHolm, p.Verdict)
}

// Compare tests every pair of variants within blocks. Values of a pair in one block in several weeks are averaged over the weeks in which it
// has both. Errors are *InputError.
func Compare(all []Observation, q Question) (Comparison, error) {
	if err := q.check(); err != nil {
		return Comparison{}, err
	}
	blocks, err := group(all, q.Variants)
	if err != nil {
		return Comparison{}, err
	}
	q.Figures = max(1, q.Figures)
	pairs := q.Variants * (q.Variants - 1) / 2 * q.Figures
	c := Comparison{Question: q, Each: 1 - (1-q.Level)/float64(pairs)}
	var p []float64
	for i := range q.Variants {
		for j := i + 1; j < q.Variants; j++ {
			pair, err := c.pair(blocks, i, j)
			if err != nil {
				return Comparison{}, err
			}
			c.Pairs, p = append(c.Pairs, pair), append(p, pair.Effect.P)
		}
	}
	for i, adjusted := range Holm(p) {
		c.Pairs[i].PHolm = min(1, adjusted*float64(q.Figures))
	}
	return c, c.rank(blocks)
}

func (q Question) check() error {
	switch {
	case q.Variants < 2 || q.Variants > mostVariants:
		return &InputError{"the variants", fmt.Sprintf("are %d", q.Variants), fmt.Sprintf("compare 2 to %d", mostVariants)}
	case !(q.Matters > 0) || !finite(q.Matters):
		return &InputError{"the smallest difference that matters", fmt.Sprintf("is %g", q.Matters), "give one above 0"}
	}
	if q.Figures < 0 || q.Figures > 100 {
		return &InputError{"the figures", fmt.Sprintf("are %d", q.Figures), "give how many are compared, 1 to 100"}
	}
	return checkLevel(q.Level)
}

// block is what was seen in one, by week, a value or none for each variant.
type block struct {
	number int
	weeks  map[int][]*float64
}

func group(all []Observation, variants int) ([]block, error) {
	at := map[int]int{}
	var blocks []block
	for i, o := range all {
		what := fmt.Sprintf("observation %d", i+1)
		if o.Variant < 0 || o.Variant >= variants {
			return nil, &InputError{what, fmt.Sprintf("is of variant %d", o.Variant), fmt.Sprintf("variants are 0 to %d", variants-1)}
		}
		if err := checkValues(what, []float64{o.Value}); err != nil {
			return nil, err
		}
		b, known := at[o.Block]
		if !known {
			b = len(blocks)
			at[o.Block] = b
			blocks = append(blocks, block{o.Block, map[int][]*float64{}})
		}
		week := blocks[b].weeks[o.Week]
		if week == nil {
			week = make([]*float64, variants)
			blocks[b].weeks[o.Week] = week
		}
		if week[o.Variant] != nil {
			return nil, &InputError{what, "is there twice: the same variant, week and block", "take one, or give the packs blocks of their own"}
		}
		week[o.Variant] = &o.Value
	}
	slices.SortFunc(blocks, func(a, b block) int { return a.number - b.number })
	return blocks, nil
}

// means of variants over the weeks that have all of them; not ok if none has.
func (b block) means(variants ...int) ([]float64, bool) {
	mean, n := make([]float64, len(variants)), 0
	for _, week := range sortedWeeks(b.weeks) {
		values := b.weeks[week]
		if slices.ContainsFunc(variants, func(v int) bool { return values[v] == nil }) {
			continue
		}
		n++
		for i, v := range variants {
			mean[i] += *values[v]
		}
	}
	for i := range mean {
		mean[i] /= float64(n)
	}
	return mean, n > 0
}

func (c *Comparison) pair(blocks []block, i, j int) (Pair, error) {
	var first, second []float64
	for _, b := range blocks {
		if m, ok := b.means(i, j); ok {
			first, second = append(first, m[0]), append(second, m[1])
		}
	}
	p := Pair{First: i, Second: j, Blocks: len(first), Effect: Effect{P: 1}, Verdict: CannotTell}
	if len(first) == 0 {
		return p, nil
	}
	ranks, err := SignedRankTest(first, second, c.Each)
	if err != nil {
		return Pair{}, err
	}
	p.Ranks, p.Effect, p.ByRanks = &ranks, ranks.Effect, true
	if t, err := PairedTest(first, second, c.Each); err == nil { // else too few, or all alike: the ranks have judged the rest of the input
		p.T = &t
		if !c.Ranked {
			p.Effect, p.ByRanks = t.Effect, false
		}
	}
	p.Verdict = Judge(p.Effect.Interval, c.Matters, c.Each)
	return p, nil
}

// rank tests all variants together, in the blocks that have them all.
func (c *Comparison) rank(blocks []block) error {
	every := make([]int, c.Variants)
	for v := range every {
		every[v] = v
	}
	var rows [][]float64
	for _, b := range blocks {
		if row, ok := b.means(every...); ok {
			rows = append(rows, row)
		} else {
			c.Incomplete = append(c.Incomplete, b.number)
		}
	}
	if c.Variants < 3 || len(rows) < 2 {
		return nil
	}
	f, err := FriedmanTest(rows, c.Seed)
	c.Friedman = &f
	return err
}
