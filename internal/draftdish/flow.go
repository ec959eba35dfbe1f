package draftdish

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/kitchen"
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

// cutWords are what is done to an ingredient before it is cooked.
var cutWords = []string{"chopped", "diced", "minced", "sliced", "grated", "shredded", "cut", "peeled", "crushed", "cubed", "quartered", "halved", "julienned", "trimmed", "torn", "zested", "seeded", "cored"}

// dish makes the noun.
func (d *drafter) dish() kitchen.Dish {
	out := kitchen.Dish{Name: d.title, About: "a first draft from a home recipe: what it leaves open is listed where it was made"}
	outputs := map[*Step]kitchen.OutputID{}
	ids := map[string]bool{}
	families := map[*Step]string{}
	for i, x := range d.steps {
		x.ID = unlike(slug(x.sentence.verb.word), "step", func(s string) bool { return ids[s] })
		ids[x.ID] = true
		outputs[x] = kitchen.OutputID(x.ID)
		s := kitchen.Step{ID: x.ID, Do: clipped(x.Text), How: x.How}
		if x.oven != nil && x.sentence.temp == nil {
			s.Do += fmt.Sprintf(" Oven at %s.", x.oven.Show(unit.US))
		}
		x.From = []int{}
		for _, from := range x.after {
			s.Use = append(s.Use, kitchen.Use{From: outputs[from], Take: kitchen.Take{Given: true, Share: unit.Whole}})
			x.From = append(x.From, from.Number)
		}
		if cut, id := d.cutStep(x, ids); cut != nil {
			out.Steps = append(out.Steps, *cut)
			s.Use = append(s.Use, kitchen.Use{From: id, Take: kitchen.Take{Given: true, Share: unit.Whole}})
		}
		for _, m := range x.uses {
			if u, ok := d.use(m); ok && !isCut(m.line, x) {
				s.Use = append(s.Use, u)
			}
		}
		d.where(x, &s, families)
		d.how(x, &s)
		if i == len(d.steps)-1 {
			s.Gives = []kitchen.Output{{ID: "food", Name: strings.ToLower(d.title)}}
		}
		if len(s.Use) > 0 {
			out.Steps = append(out.Steps, s)
		}
	}
	return out
}

func isCut(l *Line, x *Step) bool {
	return x.Does != string(cuts) && slices.ContainsFunc(wordsOf(l.Prep), func(w string) bool { return slices.Contains(cutWords, w) })
}

// cutStep is the cutting that the lines of a step ask for; nil when none does.
func (d *drafter) cutStep(x *Step, ids map[string]bool) (*kitchen.Step, kitchen.OutputID) {
	var uses []kitchen.Use
	var says []string
	for _, m := range x.uses {
		if u, ok := d.use(m); ok && isCut(m.line, x) {
			uses = append(uses, u)
			says = append(says, fmt.Sprintf("%s (%s)", m.line.Name, m.line.Prep))
		}
	}
	if len(uses) == 0 {
		return nil, ""
	}
	id := unlike("cut", "cut", func(s string) bool { return ids[s] })
	ids[id] = true
	return &kitchen.Step{ID: id, Do: clipped("Prepare: " + strings.Join(says, "; ") + "."), Use: uses, In: d.vessels("table"), Pace: 6 * 60}, kitchen.OutputID(id)
}

// use is a line, or its share, as something that goes into a step.
func (d *drafter) use(m mention) (kitchen.Use, bool) {
	a := m.line.Amount
	if m.line.Out || m.line.Mass <= 0 || m.share <= 0 {
		return kitchen.Use{}, false
	}
	f := m.share.F()
	switch a.Kind {
	case unit.AmountVolume:
		a.Volume = unit.VolumeL(a.Volume.L() * f)
	case unit.AmountCount:
		a.Count = unit.Count(float64(a.Count) * f)
	default:
		a.Mass = roundGrams(unit.MassKg(a.Mass.Kg() * f))
	}
	if m.share == unit.Whole {
		a = m.line.Amount
	}
	if _, err := a.MarshalText(); err != nil || a.Kind == unit.AmountCount && a.Count <= 0 {
		a = unit.Amount{Kind: unit.AmountMass, Mass: roundGrams(m.share.Of(m.line.Mass))}
	}
	return kitchen.Use{Of: m.line.Is, Amount: a}, true
}

// where says in what a step is done: on in the same vessel where it can be.
func (d *drafter) where(x *Step, s *kitchen.Step, families map[*Step]string) {
	before := ""
	if len(x.after) > 0 {
		before = families[x.after[0]]
	}
	vessel := before == "pot" || before == "pan"
	switch {
	case vessel && (x.In == "" || x.In == before) && len(x.after) > 0:
		s.Stays = true
		families[x] = before
		return
	case x.In == "" && len(x.after) == 0:
		x.In = "table"
	case x.In == "" && x.heat != nil:
		x.In = "pot"
	}
	families[x] = x.In
	s.In = d.vessels(x.In)
}

// how sets times, temperatures and losses.
func (d *drafter) how(x *Step, s *kitchen.Step) {
	v := x.sentence.verb
	x.Minutes = int((x.time + 30) / unit.Minute)
	s.Time = x.time
	heated := s.Stays || len(s.In) > 0 && x.In != "table" && x.In != "oven" && x.In != "blender"
	if x.heat != nil && heated {
		s.HeatTo = x.heat
		x.HeatF = int(x.heat.C()*9/5 + 32.5)
	}
	switch v.does {
	case cuts:
		if x.time == 0 {
			s.Pace = unit.Pace(cmp.Or(v.paced, 6) * 60)
		}
	case mixes, blends:
	default:
		s.Hands = kitchen.Hands{Start: min(2*unit.Minute, max(x.time, unit.Minute))}
		if s.Time == 0 {
			s.Time = unit.Minute
		}
	}
	if s.HeatTo != nil && s.HeatTo.C() >= 80 {
		switch {
		case x.sentence.reduce > 0 && x.sentence.reduce < unit.Whole:
			s.Loses.ReduceTo, s.Time = x.sentence.reduce, 0
			x.Minutes = 0
		case x.open && boilsDown(v.does):
			s.Loses.Water = d.homeLoss(x)
		}
	}
	if x.sentence.layers && (x.In == "pan" || x.In == "pot") && !s.Stays {
		s.Load.Surface = oneLayer
		x.Assumed = append(x.Assumed, fmt.Sprintf("%s lie in one layer", oneLayer.Show(unit.Metric)))
	}
}

// oneLayer is how much lies on a pan in one layer (a setting, as nobody publishes one).
const oneLayer unit.AreaLoad = 12
