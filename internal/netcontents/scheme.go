package netcontents

import (
	"fmt"

	"kettlefrost/internal/unit"
)

// Filling is a run of packs to be check-weighed.
type Filling struct {
	Packs  int
	Lasts  unit.Span // from the first pack to the last; 0: times are left out
	Sample int       // packs that the plan asks for: Plan.Sample
	Group  int       // packs weighed one after another, one point on a chart
	Groups int       // at least so many groups; 0: as many as the sample takes
}

// Scheme is which packs to weigh.
type Scheme struct {
	Groups  []Group
	Weighed int       // packs
	Packs   int       // from the start of one group to the start of the next, on average and rounded down
	Every   unit.Span // the same in time
}

// Group is packs that are weighed one after another.
type Group struct {
	Packs  []int     // counted from 1
	Sample []int     // those of them that make up the plan's sample
	At     unit.Span // after the start, when the last of them is filled; 0 where the filling's time is not known
}

// Weighings spreads groups over a filling, one in the middle of each of as many equal stretches, so that a drift shows and the plan's sample
// comes from everywhere. What is weighed more than the plan asks for is for the chart alone; which packs those are is settled here, before
// anybody sees a weight. When nearly every pack is weighed, all are, and the last group may be smaller. The Handbook asks for a random
// sample: packs spread evenly stand for one only if the filling has no rhythm of the same length. Errors are *InputError.
func Weighings(f Filling) (Scheme, error) {
	if err := f.check(); err != nil {
		return Scheme{}, err
	}
	count := max((f.Sample+f.Group-1)/f.Group, f.Groups, 1)
	var s Scheme
	if count*f.Group >= f.Packs {
		s.all(f)
	} else {
		s.spread(f, count)
	}
	s.choose(f.Sample)
	s.Packs = f.Packs / len(s.Groups)
	s.Every = f.Lasts / unit.Span(len(s.Groups))
	for i := range s.Groups {
		last := s.Groups[i].Packs[len(s.Groups[i].Packs)-1]
		s.Groups[i].At = unit.SpanS(f.Lasts.S() * float64(last) / float64(f.Packs))
	}
	return s, nil
}

func (f Filling) check() error {
	switch {
	case f.Packs < 1 || f.Packs > mostPacks:
		return &InputError{"Packs", fmt.Sprintf("is %d", f.Packs), fmt.Sprintf("give 1 to %d", mostPacks)}
	case f.Sample < 0 || f.Sample > f.Packs:
		return &InputError{"Sample", fmt.Sprintf("is %d of %d packs", f.Sample, f.Packs), "take it from the plan for this lot"}
	case f.Group < 1 || f.Group > f.Packs:
		return &InputError{"Group", fmt.Sprintf("is %d of %d packs", f.Group, f.Packs), "weigh 1 or more at a time, 4 or 5 for a chart"}
	case f.Groups < 0 || f.Groups > f.Packs:
		return &InputError{"Groups", fmt.Sprintf("is %d", f.Groups), "give 0 or more, and no more than there are packs"}
	case f.Lasts < 0:
		return &InputError{"Lasts", "is below 0", "give 0 if it is not known"}
	}
	return nil
}

// mostPacks keeps products of two counts of packs within an int.
const mostPacks = 10_000_000

// all weighs every pack.
func (s *Scheme) all(f Filling) {
	for first := 1; first <= f.Packs; first += f.Group {
		s.add(first, min(f.Group, f.Packs-first+1))
	}
}

// spread puts each group in the middle of its stretch.
func (s *Scheme) spread(f Filling, count int) {
	for i := range count {
		start, end := i*f.Packs/count, (i+1)*f.Packs/count
		s.add(start+(end-start-f.Group)/2+1, f.Group)
	}
}

func (s *Scheme) add(first, packs int) {
	g := Group{Packs: make([]int, packs)}
	for i := range g.Packs {
		g.Packs[i] = first + i
	}
	s.Groups = append(s.Groups, g)
	s.Weighed += packs
}

// choose shares the sample out over the groups, by their packs.
func (s *Scheme) choose(sample int) {
	before := 0
	for i := range s.Groups {
		g := &s.Groups[i]
		after := before + len(g.Packs)
		g.Sample = g.Packs[:after*sample/s.Weighed-before*sample/s.Weighed]
		before = after
	}
}
