package dispersal

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// portioned is how much of a line is taken for the powder, as a cook measures it.
type portioned struct {
	source
	take, left unit.Amount // together exactly what the line had
	mass       unit.Mass   // of take
	all        bool        // nothing is left
}

// portion takes at least a mass of a line: rounded up to what is measured easily, in the line's own kind of amount, so that what is taken and
// what is left are what there was, exactly.
func (w *work) portion(s source, need unit.Mass) portioned {
	had := w.steps[s.step].Use[s.line].Amount
	p := portioned{source: s, take: had, left: had}
	if had.Kind == unit.AmountVolume {
		exact := float64(had.Volume) * float64(need) / float64(s.has)
		v := unit.Volume(up(exact, int64(volumeStep(had.Volume))))
		if float64(v) > float64(had.Volume)*float64(s.mass)/float64(s.has)+1 { // so much may not go: as much as is needed, finely
			v = unit.Volume(up(exact, int64(unit.Millilitre)))
		}
		p.take.Volume = min(v, had.Volume)
		p.left.Volume = had.Volume - p.take.Volume
		p.mass = unit.MassKg(s.has.Kg() * p.take.Volume.L() / had.Volume.L())
		p.all = p.left.Volume == 0
		return p
	}
	m := unit.Mass(up(float64(need), int64(massStep(had.Mass))))
	if m > s.mass {
		m = unit.Mass(up(float64(need), int64(unit.Gram/10)))
	}
	p.take.Mass = min(m, had.Mass)
	p.left.Mass = had.Mass - p.take.Mass
	p.mass, p.all = p.take.Mass, p.left.Mass == 0
	return p
}

// up is the next whole number of steps, a hair more being the same.
func up(x float64, step int64) int64 {
	n := int64(x/float64(step) + 1 - 1e-6)
	return max(n, 1) * step
}

// volumeStep is what is measured easily of so much: metric where the amount is metric.
func volumeStep(v unit.Volume) unit.Volume {
	switch metric := v%(10*unit.Millilitre) == 0; {
	case metric && v >= 4*unit.Litre:
		return unit.Litre / 2
	case metric && v >= unit.Litre:
		return 50 * unit.Millilitre
	case metric:
		return 10 * unit.Millilitre
	case v >= 2*unit.Quart:
		return unit.Pint
	case v >= unit.Quart:
		return unit.Cup
	case v >= unit.Cup:
		return unit.Cup / 4
	default:
		return unit.Tablespoon
	}
}

func massStep(m unit.Mass) unit.Mass {
	switch metric := m%unit.Gram == 0; {
	case metric && m >= unit.Kilogram:
		return 10 * unit.Gram
	case metric:
		return unit.Gram
	default:
		return unit.Ounce
	}
}

// addStep puts a step with the powder and what was taken for it before the vessel is begun that takes the mix, and has the pot take the mix.
func (w *work) addStep(s kitchen.Step, from []portioned) {
	s.ID = w.freeID(s.ID)
	s.Use = []kitchen.Use{{Of: w.out.Of, Amount: w.powderAmount()}}
	for _, p := range from {
		u := w.steps[p.step].Use[p.line]
		was := w.steps[p.step].ID
		s.Use = append(s.Use, kitchen.Use{Of: u.Of, Amount: p.take, Instead: u.Instead})
		w.out.Held = append(w.out.Held, Held{Of: u.Of, Name: w.nameOf(p.source), From: was, Amount: p.take, Left: p.left, Mass: p.mass})
	}
	mix := kitchen.Use{From: kitchen.OutputID(s.ID), Take: kitchen.Take{Given: true, Share: unit.Whole}}
	target := &w.steps[w.step]
	if w.line >= 0 {
		target.Use[w.line] = mix
	} else {
		target.Use = append(target.Use, mix)
	}
	w.takeOut(from)
	w.out.Step = s.ID
	w.steps = slices.Insert(w.steps, w.begun(w.step), s)
}

// takeOut takes what was held back out of the lines that had it.
func (w *work) takeOut(from []portioned) {
	for _, p := range from {
		w.steps[p.step].Use[p.line].Amount = p.left
	}
	gone := slices.DeleteFunc(slices.Clone(from), func(p portioned) bool { return !p.all })
	slices.SortFunc(gone, func(a, b portioned) int { return cmp.Compare(b.line, a.line) })
	for _, p := range gone {
		w.steps[p.step].Use = slices.Delete(w.steps[p.step].Use, p.line, p.line+1)
	}
}

// begun is the place in the dish of the step in whose vessel another goes on.
func (w *work) begun(step int) int {
	for range w.steps {
		s := w.steps[step]
		next := slices.IndexFunc(s.Use, func(u kitchen.Use) bool { _, ok := w.gives[u.From]; return ok && u.From != "" })
		if !s.Stays || next < 0 {
			break
		}
		step = w.gives[s.Use[next].From]
	}
	return step
}

// powderAmount is the powder as the dish writes it, or by mass where it is new or otherwise.
func (w *work) powderAmount() unit.Amount {
	if w.line >= 0 {
		return w.steps[w.step].Use[w.line].Amount
	}
	return unit.Amount{Kind: unit.AmountMass, Mass: w.out.Mass}
}

func (w *work) freeID(id string) string {
	for n := 1; ; n++ {
		name := id
		if n > 1 {
			name = fmt.Sprintf("%s-%d", id, n)
		}
		taken := slices.ContainsFunc(w.steps, func(s kitchen.Step) bool {
			return s.ID == name || slices.ContainsFunc(s.Outputs(), func(o kitchen.Output) bool { return string(o.ID) == name })
		})
		if !taken {
			return name
		}
	}
}

func (w *work) names(from []portioned) string {
	var all []string
	for _, p := range from {
		if name, _, _ := strings.Cut(w.nameOf(p.source), ","); !slices.Contains(all, name) {
			all = append(all, name)
		}
	}
	return strings.Join(all, " and ")
}

// cold is how cold a mix is: 41 °F (5 °C) where any of it comes from the refrigerator, else nothing is said.
func (w *work) cold(from []portioned) *unit.Temp {
	for _, p := range from {
		if w.book.Ingredients[w.steps[p.step].Use[p.line].Of].Storage == "chilled" {
			t := unit.TempF(41)
			return &t
		}
	}
	return nil
}
