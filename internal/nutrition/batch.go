package nutrition

import (
	"fmt"

	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/unit"
)

// Part is one ingredient of a batch, its edible part alone.
type Part struct {
	Name    string
	Mass    unit.Mass // as put in
	Per100g Composition
	Kept    string // code of what cooking leaves of minerals and alcohol (Retained); "": all of it
	// FatLeft and AlcoholLeft are grams that are left of the part, where a mass flow says so. They go before Skimmed and Kept.
	FatLeft, AlcoholLeft foodtable.Value
}

// Skimmed is fat that was rendered and taken off.
type Skimmed struct {
	Part string // whose fat it is; "": that of all parts, in proportion
	Mass unit.Mass
}

// Batch is what went in and what it weighed at the end.
type Batch struct {
	Parts   []Part
	Skimmed []Skimmed
	// Finished is what the parts weigh when water has evaporated and fat was taken off. What sticks to pots is not to be taken off here, or off
	// the parts as well: it is as the rest is.
	Finished unit.Mass
}

// Food is a finished food and what is in all of it.
type Food struct {
	Mass    unit.Mass
	Amounts Amounts
}

// In are the amounts in some of the food.
func (f Food) In(m unit.Mass) Amounts { return f.Amounts.Times(m.Kg() / f.Mass.Kg()) }

// Per100g are the amounts in 100 g.
func (f Food) Per100g() Amounts { return f.In(100 * unit.Gram) }

// Together is foods in one pack: what each holds, and all gaps.
func Together(foods ...Food) Food {
	var all Food
	for n := range all.Amounts {
		all.Amounts[n] = exactly(0)
	}
	for _, f := range foods {
		all.Mass += f.Mass
		for n := range all.Amounts {
			all.Amounts[n] = all.Amounts[n].plus(1, f.Amounts[n])
		}
	}
	return all
}

// kcal per gram by the general factors: protein, carbohydrate and fat of 21 CFR 101.9(c)(1)(i)(B); alcohol of Regulation (EU) 1169/2011,
// annex XIV, which the text of 101.9 that was read does not name.
const (
	kcalPerProtein, kcalPerCarbohydrate, kcalPerFat = 4, 4, 9
	kcalPerAlcohol                                  = 7
)

// Of is a batch cooked and weighed. Water that leaves takes nothing along, and alcohol leaves by its retention alone. Skimmed fat takes its
// fatty acids in proportion and its energy at 9 kcal/g; cholesterol and vitamin D stay, which puts them too high. Protein and carbohydrate
// are kept. Errors are *InputError.
func Of(b Batch) (Food, error) {
	fats, err := b.skimmed()
	if err != nil {
		return Food{}, err
	}
	f := Food{Mass: b.Finished}
	for n := range f.Amounts {
		f.Amounts[n] = exactly(0)
	}
	var in unit.Mass
	fat, alcohol := 0.0, 0.0 // grams that left
	for i, p := range b.Parts {
		of, left, err := p.cooked(fats[i])
		if err != nil {
			return Food{}, err
		}
		for n := range f.Amounts {
			f.Amounts[n] = f.Amounts[n].plus(1, of[n])
		}
		in += p.Mass
		fat += left.fat
		alcohol += left.alcohol
	}
	if err := f.dry((in-b.Finished).Kg()*1000-fat, alcohol); err != nil {
		return Food{}, err
	}
	return f, nil
}

// dry takes off what water is gone of so many grams that evaporated, of which some were alcohol. Whoever weighed may not have counted that.
func (f *Food) dry(g, alcohol float64) error {
	const weighing = 1e-3 // grams: what rounding leaves
	water := &f.Amounts[Water]
	most := water.Most.Or(0)
	switch {
	case f.Mass <= 0:
		return &InputError{"the finished food", "weighs nothing", "give its mass"}
	case g < -weighing:
		return &InputError{"the finished food", fmt.Sprintf("weighs %.1f g more than its parts", -g), "add the water that went in as a part, or correct its mass"}
	case g-alcohol > most+weighing:
		return &InputError{"the finished food", fmt.Sprintf("has lost %.1f g of water, and there were %.1f g in it", g-alcohol, most), "correct its mass or its parts"}
	}
	g = max(0, g-alcohol)
	water.Least = max(0, water.Least-g)
	water.Most = foodtable.Given(max(0, most-g))
	return nil
}

// gone is grams of fat and alcohol that left a part.
type gone struct{ fat, alcohol float64 }

// cooked is what is left of a part with some of its fat taken off, and what left it.
func (p Part) cooked(skimmed unit.Mass) (of Amounts, off gone, err error) {
	kept, ok := RetainedBy(p.Kept)
	switch {
	case p.Kept != "" && !ok:
		return of, off, &InputError{p.Name, fmt.Sprintf("has %q for what cooking leaves", p.Kept), "use a code of the table of retention factors, or none"}
	case p.Mass <= 0:
		return of, off, &InputError{p.Name, "weighs nothing", "give its mass, or leave it out"}
	}
	if err := p.Per100g.check(p.Name); err != nil {
		return of, off, err
	}
	for n := range of {
		of[n] = p.raw(Nutrient(n)).times(kept.of(Nutrient(n)))
	}
	if left, said := p.AlcoholLeft.Get(); said {
		of[Alcohol] = exactly(left)
	}
	alcohol := p.raw(Alcohol).Least - of[Alcohol].Least
	fat := skimmed.Kg() * 1000
	whole := of[Fat].Least
	if left, said := p.FatLeft.Get(); said {
		fat = whole - left
	}
	if fat != 0 && whole <= 0 {
		return of, off, &InputError{p.Name, fmt.Sprintf("has %.1f g of fat left, and none is known of that went in", -fat), "give the fat of the part"}
	}
	if fat != 0 {
		for _, n := range []Nutrient{Fat, SaturatedFat, TransFat, PolyunsaturatedFat, MonounsaturatedFat} {
			of[n] = of[n].times(1 - fat/whole)
		}
	}
	of[Energy] = of[Energy].less(alcohol*kcalPerAlcohol + fat*kcalPerFat)
	return of, gone{fat, alcohol}, nil
}

// raw is how much of a nutrient was put in.
func (p Part) raw(n Nutrient) Amount {
	hundreds := p.Mass.Kg() * 10
	a := Amount{Most: p.Per100g.most(n)}
	x, given := p.Per100g.of(n).Get()
	if a.Least = x; given {
		a.Most = foodtable.Given(x)
	} else {
		a.Missing = []Gap{{p.Name, p.Mass}}
	}
	return a.times(hundreds)
}

// less takes off so much, and never more than there is.
func (a Amount) less(x float64) Amount {
	a.Least = max(0, a.Least-x)
	if most, given := a.Most.Get(); given {
		a.Most = foodtable.Given(max(0, most-x))
	}
	return a
}

// skimmed is how much fat is taken off each part.
func (b Batch) skimmed() ([]unit.Mass, error) {
	off := make([]unit.Mass, len(b.Parts))
	for _, s := range b.Skimmed {
		if s.Mass <= 0 {
			return nil, &InputError{"fat taken off", "is " + s.Mass.String(), "give its mass, or leave it out"}
		}
		shares := make([]int64, len(b.Parts))
		there := false
		for i, p := range b.Parts {
			if s.Part == "" || s.Part == p.Name {
				shares[i] = int64(unit.MassKg(p.raw(Fat).Least / 1000))
				there = there || shares[i] > 0
			}
		}
		if !there {
			return nil, &InputError{"fat taken off", "is of " + quoted(s.Part) + ", of which no fat is known", "name a part with fat, and give how much it has"}
		}
		each, err := s.Mass.Split(shares...)
		if err != nil {
			return nil, &InputError{"fat taken off", err.Error(), "give its mass"}
		}
		for i := range off {
			if off[i] += each[i]; off[i] > unit.MassKg(b.Parts[i].raw(Fat).Least/1000) {
				return nil, &InputError{"fat taken off", "is more than " + b.Parts[i].Name + " has", "correct its mass, or the fat of the part"}
			}
		}
	}
	return off, nil
}

func quoted(part string) string {
	if part == "" {
		return "all parts"
	}
	return fmt.Sprintf("%q", part)
}
