package homecard

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/homemeasure"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/language"
	"kettlefrost/internal/unit"
)

// Amount is how much of something goes in, as it is said at home.
type Amount struct {
	Exact unit.Mass `json:"exact_g"` // as the small pots ask for
	Need  unit.Mass `json:"need_g"`  // the same, to the rounded amount of its partner where it must keep its proportion
	Said  unit.Mass `json:"said_g"`  // what the measures hold, or the scale is to show
	Text  string    `json:"text"`    // as it stands on the card
	About string    `json:"about,omitempty"`

	Class string     `json:"class"`   // main, tight, gum, seasoning or pieces
	Bound unit.Share `json:"bound"`   // how far Said may be off Need, as a share of it
	Off   unit.Share `json:"off"`     // how far it is
	Scale unit.Mass  `json:"scale_g"` // the coarsest scale that is fine enough; 0 where none is needed
	Why   string     `json:"why,omitempty"`
}

// Classes of amounts beside those of homemeasure.
const (
	seasoningClass = "seasoning" // spices: to an eighth of a teaspoon where no measure comes within 5 %
	piecesClass    = "pieces"    // what comes in whole pieces and is taken out again, or counts as such
)

const eighth = unit.Teaspoon / 8

// coarsest is the coarsest step in which anything is weighed at home; what a scale of 10 g would do for is still weighed to 5.
const coarsest = 5 * unit.Gram

// say says how to take so much of an ingredient. weigh asks for the scale although a measure would do, and says why.
func (a Ask) say(id kitchen.IngredientID, use unit.Amount, exact, need unit.Mass, weigh string) (Amount, error) {
	k, in := a.kindOf(id), a.speaker()
	out := Amount{Exact: exact, Need: need, Class: k.class().String(), Bound: k.class().Bound(), About: a.about(id, need)}
	if one, ok := a.piece(id, use); ok {
		out.inPieces(one, use.Measure)
		return out, nil
	}
	volume, form := a.volumeOf(id, need)
	said, err := homemeasure.Advise(homemeasure.Need{Mass: need, Volume: volume, Class: k.class()}, homemeasure.Household(true))
	if err != nil {
		return out, err
	}
	if said.Weigh == homemeasure.NoMeasure && k.class() == homemeasure.Main && volume > 0 {
		if three, ok := threeOf(volume, said.Bound); ok {
			said.Measures, said.Weigh = three, homemeasure.NoNeed
		}
	}
	switch {
	case weigh == "" && said.Weigh == homemeasure.NoNeed:
		out.measured(in, said.Measures, volume, form)
	case weigh == "" && k == seasoning && volume >= eighth/4:
		out.pinched(in, volume)
	default:
		out.weighed(in, said, k)
		out.Why = cmp.Or(weigh, in.Say(said.Weigh.String()))
	}
	out.Off = unit.ShareOf(out.off())
	return out, nil
}

// threeOf are whole cups, or whole tablespoons, and two more measures, together within bound of a volume: 1 3/4 cups and 2 tbsp.
func threeOf(v unit.Volume, bound unit.Share) (homemeasure.Measures, bool) {
	for _, u := range slices.Backward(homemeasure.Household(true)) {
		one := homemeasure.Measures{{Utensil: u, Times: 1}}.Volume()
		if u.Num != u.Den || u.Unit == "qt" || one > v {
			continue
		}
		times := min(int(v/one), u.Most)
		first := homemeasure.Measures{{Utensil: u, Times: times}}
		rest := v - first.Volume()
		if two, ok := homemeasure.Choose(rest, unit.ShareOf(bound.F()*v.L()/rest.L()), homemeasure.Household(true)); ok && !slices.ContainsFunc(two, func(m homemeasure.Measure) bool { return m.Utensil == u }) {
			return append(first, two...), true
		}
	}
	return nil, false
}

func (m Amount) off() float64 {
	if m.Need == 0 {
		return 0
	}
	return (m.Said.Kg() - m.Need.Kg()) / m.Need.Kg()
}

// measured takes it in spoons and cups.
func (m *Amount) measured(in language.Speaker, with homemeasure.Measures, volume unit.Volume, form string) {
	m.Said = unit.MassKg(m.Need.Kg() * with.Volume().L() / volume.L())
	m.Text = in.Measure(with.String())
	if form != "" {
		m.Text += ", " + in.Say(form)
	}
	m.Text += " (" + grams(in, m.Said) + ")"
}

// guide is how far the published rounding of institutions is off at half a teaspoon, where it takes eighths of one.
const guide = 125 * unit.PerCent / 10

// pinched takes a spice as near as spoons come: within what the published rounding is off, or to the nearest eighth of a teaspoon, or half of one.
func (m *Amount) pinched(in language.Speaker, volume unit.Volume) {
	m.Class, m.Bound = seasoningClass, guide
	spoons, ok := homemeasure.Choose(volume, guide, homemeasure.Household(true))
	holds, name := spoons.Volume(), in.Measure(spoons.String())
	if !ok {
		sixteenths := max(1, int64(math.Round(volume.L()/(eighth/2).L())))
		if sixteenths > 1 {
			sixteenths = 2 * int64(math.Round(volume.L()/eighth.L()))
		}
		holds = unit.Volume(sixteenths) * eighth / 2
		m.Bound = unit.ShareOf(max(guide.F(), eighth.L()/2/volume.L()))
		spoons, _ = homemeasure.Choose(holds, unit.PerCent, homemeasure.Household(true)) // an eighth is no whole number of femtolitres
		name = in.Measure(spoons.String())
		if sixteenths == 1 {
			name = in.Say("a pinch, half of %s", in.Measure("1/8 tsp"))
		}
	}
	m.Said = unit.MassKg(m.Need.Kg() * holds.L() / volume.L())
	m.Text = in.Say("about %s (%s)", name, grams(in, m.Need))
}

// weighed takes it by the scale: in quarter ounces where that is true enough, else in steps of the coarsest scale that is fine enough.
func (m *Amount) weighed(in language.Speaker, said homemeasure.Advice, k kind) {
	m.Scale = min(said.ScaleStep, coarsest)
	bound := m.Bound
	if k.class() == homemeasure.Gum {
		bound = 2 * unit.PerCent
		m.Bound = bound
	}
	if ounces := homemeasure.Ounces(m.Need); k.class() == homemeasure.Main && ounces > 0 && within(ounces, m.Need, bound) {
		m.Said, m.Scale = ounces, min(m.Scale, 5*unit.Gram)
		m.Text = in.Measure(ounces.Show(unit.US)) + " (" + grams(in, ounces) + ")"
		return
	}
	m.Said = (m.Need + m.Scale/2) / m.Scale * m.Scale
	m.Text = grams(in, m.Said)
	if near, ok := homemeasure.Choose(said.Need.Volume, guide, homemeasure.Household(true)); ok && k.class() == homemeasure.Main {
		m.Text = in.Say("%s (about %s)", m.Text, in.Measure(near.String()))
	}
}

func within(said, need unit.Mass, bound unit.Share) bool {
	return math.Abs(said.Kg()-need.Kg()) <= bound.F()*need.Kg()
}

// grams is a mass in grams as far as somebody weighs it.
func grams(in language.Speaker, m unit.Mass) string {
	g, places := m.Kg()*1000, 2
	switch {
	case g >= 20:
		places = 0
	case g >= 2:
		places = 1
	}
	return in.Measure(trimZero(strconv.FormatFloat(g, 'f', places, 64)) + " g")
}

func trimZero(s string) string {
	if !strings.Contains(s, ".") {
		return s
	}
	return strings.TrimSuffix(strings.TrimRight(s, "0"), ".")
}
