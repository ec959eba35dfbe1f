package draftdish

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

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
