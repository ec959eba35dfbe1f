package draftdish

import (
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/unit"
)

// connect says which step takes what earlier ones give. Food stays in one stream, from pot to pot; what a sentence does beside it waits until a
// later one speaks of it.
func (d *drafter) connect() {
	var main *Step
	var waiting []*Step
	var kept []*Step
	for _, x := range d.steps {
		beside := x.sentence.branch || x.Does == string(cuts) && len(x.uses) > 0 && !d.speaksOf(x, main)
		if beside && main == nil && !x.sentence.branch && x.Does != string(cuts) {
			beside = false
		}
		called, rest := d.called(x, waiting, main == nil && !beside)
		if main != nil && !beside {
			x.after = append(x.after, main)
		}
		if !beside || len(called) > 0 && x.Does != string(cuts) {
			x.after, waiting = append(x.after, called...), rest
		}
		if len(x.uses) == 0 && len(x.after) == 0 || len(x.uses) == 0 && len(x.after) == 1 && x.after[0] == main && idleStep(x) {
			if main != nil { // "Stir now and then": how the step before is done
				main.How = strings.TrimSpace(main.How + " " + x.Text)
			} else {
				d.left = append(d.left, x.Text)
			}
			continue
		}
		kept = append(kept, x)
		switch {
		case beside, x.sentence.aside:
			waiting = append(waiting, x)
			if !beside {
				main = nil
			}
		default:
			main = x
		}
	}
	d.steps = kept
	d.joinEnds(main, waiting)
	for i, x := range d.steps {
		x.Number = i + 1
	}
}

func idleStep(x *Step) bool { return x.Does == string(mixes) && x.sentence.time == 0 }

// speaksOf says whether a step works on what the pot holds, rather than on something beside it.
func (d *drafter) speaksOf(x *Step, main *Step) bool {
	if main == nil {
		return false
	}
	words := singulars(x.sentence.words)
	spoken := d.spokenOf(words)
	for _, m := range main.uses {
		if _, is := spoken[m.line]; is {
			return true
		}
	}
	return slices.ContainsFunc(words, func(w string) bool { return w == "it" || w == "them" || w == "mixture" || w == "soup" || w == "sauce" })
}

func singulars(words []string) []string {
	out := make([]string, len(words))
	for i, w := range words {
		out[i] = singular(w)
	}
	return out
}

// called are the steps that wait and that a sentence speaks of; all of them when nothing else is there to go on with.
func (d *drafter) called(x *Step, waiting []*Step, all bool) (called, rest []*Step) {
	words := singulars(x.sentence.words)
	spoken := d.spokenOf(words)
	general := slices.ContainsFunc(words, func(w string) bool { return slices.Contains([]string{"mixture", "slurry", "roux", "everything"}, w) }) || x.sentence.back
	for _, w := range waiting {
		named := general || slices.ContainsFunc(d.allUses(w), func(m mention) bool { _, is := spoken[m.line]; return is || d.inGroup(m.line, words) })
		if named {
			called = append(called, w)
		} else {
			rest = append(rest, w)
		}
	}
	if all && len(called) == 0 && len(x.uses) == 0 && len(rest) > 0 {
		return rest, nil
	}
	return called, rest
}

// inGroup says whether a word for several foods means a line.
func (d *drafter) inGroup(l *Line, words []string) bool {
	return slices.ContainsFunc(words, func(w string) bool { is := groups[w]; return is != nil && is(d, l) })
}

// boilsDown says that so much water goes off in it that it counts.
func boilsDown(v does) bool { return v == simmers || v == boils || v == reduces }

// allUses are the lines that went into a step and into those before it.
func (d *drafter) allUses(x *Step) []mention {
	all := slices.Clone(x.uses)
	for _, before := range x.after {
		all = append(all, d.allUses(before)...)
	}
	return all
}

// joinEnds puts what waits to the end into the last step, or makes one that takes all of it.
func (d *drafter) joinEnds(main *Step, waiting []*Step) {
	if len(waiting) == 0 {
		return
	}
	if main == nil && len(waiting) == 1 {
		return
	}
	if main != nil {
		for _, w := range waiting {
			if !d.leadsTo(main, w) && w.Number < main.Number {
				main.after = append(main.after, w)
				main.Assumed = append(main.Assumed, fmt.Sprintf("takes what %q gives: no sentence says where it goes", clipped(w.Text)))
				waiting = slices.DeleteFunc(slices.Clone(waiting), func(o *Step) bool { return o == w })
			}
		}
		waiting = append([]*Step{main}, waiting...)
	}
	if len(waiting) < 2 {
		return
	}
	s := sentence{text: "Put everything together.", verb: verb{word: "combine", does: mixes, minutes: 2, source: "common practice"}, words: []string{"combine"}}
	d.steps = append(d.steps, &Step{Text: s.text, Does: string(mixes), sentence: s, after: waiting, Lines: []int{}, From: []int{}, time: 2 * unit.Minute, Assumed: []string{"no sentence puts these together"}})
}

func (d *drafter) leadsTo(x, from *Step) bool {
	return slices.ContainsFunc(x.after, func(y *Step) bool { return y == from || d.leadsTo(y, from) })
}
