package plan

import (
	"cmp"
	"fmt"
	"maps"
	"slices"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/freezing"
	"kettlefrost/internal/heat"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/medium"
	"kettlefrost/internal/unit"
)

const (
	// coreC is when a pack counts as frozen: 0 °F, the storage temperature of the published charts.
	coreC = -18
	// airGap is how much colder the air must be than the core that is asked for.
	airGap = 1.0
	// householdRule is the rule of thumb beside the simulation.
	householdRule = "2-3 lb per cubic foot of freezer in 24 h (West Virginia and Michigan State extension)"
)

// frozenPack is one kind of pack as the engine knows it.
type frozenPack struct {
	fill PackFill
	pack freezing.Pack
}

// freeze computes each pack's freezing time in each freezer, what the freezers take, and which packs go where when.
func (p *planner) freeze() {
	p.out.Freeze = Freeze{Packs: []PackFreeze{}, Freezers: []FreezerIntake{}, Source: householdRule, Schedule: emptySchedule()}
	var packs []frozenPack
	heatJ, kg := 0.0, 0.0
	for _, f := range p.out.Fill {
		if f.Count == 0 {
			continue
		}
		pack, err := p.frozenPack(f)
		if err != nil {
			p.freezeUnknown(f, err)
			continue
		}
		packs = append(packs, frozenPack{f, pack})
		p.judgeBagSize(f, pack)
		if j, err := pack.HeatJ(coreC); err == nil {
			heatJ += j * float64(f.Count)
			kg += pack.MassKg * float64(f.Count)
		}
	}
	p.out.Freeze.Load = mass(kg)
	if kg <= 0 {
		return
	}
	if !p.trial {
		p.packTimes(packs)
	}
	p.intake(heatJ / kg)
	p.judgeFreeze(p.scheduleFreezing(packs))
}

// frozenPack is a filled bag for the engine: of what is in it, as thick as it lies.
func (p *planner) frozenPack(f PackFill) (freezing.Pack, error) {
	c := p.contents(p.dishOf(f.Dish), f)
	x, err := composition(c.fractions)
	if err != nil {
		return freezing.Pack{}, err
	}
	food, err := x.FreezingFood(p.freezingPointC(c), target41.C())
	if err != nil {
		return freezing.Pack{}, err
	}
	bag := p.book.Bags[p.book.Packs[kitchen.PackID(f.Pack)].Bag]
	return freezing.Pack{Food: food, ThicknessM: p.thickness(f, food), LengthM: bag.Length.M(), WidthM: bag.Width.M(), MassKg: c.kg, StartC: target41.C(), PackageM2KW: medium.BagFilmM2KW}, nil
}

func (p *planner) freezeUnknown(f PackFill, err error) {
	p.find(finding.Finding{Code: CodeFreezeUnknown, Severity: finding.Caution, Where: "pack " + f.Pack, Message: "its freezing time cannot be computed: " + err.Error(),
		Fix: "give its ingredients a composition, and the bag its size"})
}

// thickness is that of the filled bag lying flat: as the book says, or its volume over the bag's face.
func (p *planner) thickness(f PackFill, food heat.FreezingFood) float64 {
	pack := p.book.Packs[kitchen.PackID(f.Pack)]
	if pack.Thickness > 0 {
		return pack.Thickness.M()
	}
	bag := p.book.Bags[pack.Bag]
	face := bag.Length.M() * bag.Width.M()
	if face <= 0 {
		return 0
	}
	return f.filled().Kg() / food.DensityKgM3 / face
}

func (p *planner) judgeBagSize(f PackFill, pack freezing.Pack) {
	if pack.WidthM > 0 && pack.ThicknessM > 0.4*pack.WidthM && p.book.Packs[kitchen.PackID(f.Pack)].Thickness == 0 {
		p.find(finding.Finding{Code: CodeBagTooSmall, Severity: finding.Caution, Where: "pack " + f.Pack,
			Message: fmt.Sprintf("filled, its bag would lie %s thick and %s wide: it will not lie flat", unit.LengthM(pack.ThicknessM).Show(p.out.Units), unit.LengthM(pack.WidthM).Show(p.out.Units)), Fix: "use a larger bag or fill less"})
	}
}

// packTimes is each pack by itself in each freezer, as packs lie there and otherwise.
func (p *planner) packTimes(packs []frozenPack) {
	for _, x := range packs {
		for _, id := range slices.Sorted(maps.Keys(p.book.Freezers)) {
			show, err := p.packTime(x, p.book.Freezers[id])
			if err != nil {
				p.freezeUnknown(x.fill, err)
				continue
			}
			p.out.Freeze.Packs = append(p.out.Freeze.Packs, show)
		}
	}
}

func (p *planner) packTime(x frozenPack, f kitchen.Freezer) (PackFreeze, error) {
	show, err := p.asItLies(x, f)
	if err != nil {
		return show, err
	}
	for _, other := range p.otherPlacings() {
		if lies(other) == show.Lies {
			continue
		}
		if t, err := freezing.Times(x.pack, other, onlyUsual(p.freezerFilm(f)), f.Air.C(), show.To.C()); err == nil {
			show.Otherwise = append(show.Otherwise, Lying{Lies: lies(other), Time: minutes(t.Usual.TimeS)})
		}
	}
	return show, nil
}

// asItLies is a pack by itself in a freezer, as packs lie there.
func (p *planner) asItLies(x frozenPack, f kitchen.Freezer) (PackFreeze, error) {
	toC := frozenAt(f)
	lie := p.placing(f)
	times, err := freezing.Times(x.pack, lie, p.freezerFilm(f), f.Air.C(), toC)
	if err != nil {
		return PackFreeze{}, err
	}
	show := PackFreeze{Pack: x.fill.Pack, Name: x.fill.Name, Freezer: f.Name, Lies: lies(lie), Thickness: unit.LengthM(x.pack.ThicknessM), From: target41, To: unit.TempC(toC),
		Time: minutes(times.Usual.TimeS), Slow: minutes(times.Low.TimeS), Fast: minutes(times.High.TimeS), Begins: unit.TempC(x.pack.Food.FreezingPointC), Otherwise: []Lying{},
		Curve: curveOf(times.Usual.Points).band(times.Low.Points, times.High.Points)}
	for _, formula := range times.Formulas {
		switch {
		case formula.Err != nil:
		case formula.Name == freezing.Pham1986:
			show.Pham = minutes(formula.TimeS)
		case formula.Name == freezing.PlankTimes:
			show.Plank = minutes(formula.TimeS)
		}
	}
	return show, nil
}

// onlyUsual is a film without its doubt: one simulation instead of three.
func onlyUsual(f medium.Film) medium.Film {
	return medium.Film{LowWM2K: f.UsualWM2K, UsualWM2K: f.UsualWM2K, HighWM2K: f.UsualWM2K}
}

// frozenAt is the core that is asked for in a freezer: 0 °F, or as cold as its air allows.
func frozenAt(f kitchen.Freezer) float64 { return max(coreC, f.Air.C()+airGap) }

// usualStack is how high packs are stacked in the comparison (common practice).
const usualStack = 4

func (p *planner) otherPlacings() []freezing.Placing {
	return []freezing.Placing{{Lie: freezing.Apart}, freezing.OnShelf(onlyUsual(p.film("cold-plate"))), freezing.StackOf(usualStack)}
}

// placing is how fresh packs lie in a freezer of the book.
func (p *planner) placing(f kitchen.Freezer) freezing.Placing {
	switch f.Lay {
	case kitchen.OnPlate:
		return freezing.OnShelf(p.film("cold-plate"))
	case kitchen.Stacked:
		return freezing.StackOf(max(2, f.High))
	}
	return freezing.Placing{Lie: freezing.Apart}
}

func lies(at freezing.Placing) string {
	if at.Lie == freezing.Stacked {
		return fmt.Sprintf("stacked %d high, among others", at.High)
	}
	return at.Lie.String()
}

// freezerFilm is the surface coefficient in a freezer: its own, or that of its air as a medium.
func (p *planner) freezerFilm(f kitchen.Freezer) medium.Film {
	return p.side(f.Film, cmp.Or(f.In, "freezer-air"))
}

// intake is what the freezers take in a day, given the heat that a kilogram of this run gives off.
func (p *planner) intake(heatJKg float64) {
	fr := &p.out.Freeze
	for _, id := range slices.Sorted(maps.Keys(p.book.Freezers)) {
		f := p.book.Freezers[id]
		n := float64(f.Count)
		show := FreezerIntake{ID: string(id), Name: f.Name, Room: max(0, f.Room-f.Holds), Alone: []PackCount{}}
		if kg, err := freezing.DailyIntakeKg(f.Cooling.W()*n, heatJKg); err == nil {
			show.ByHeat = mass(kg)
		}
		if rule, err := freezing.HouseholdIntakeKg(f.Volume.L() / 1000 * n); err == nil {
			show.RuleLow, show.RuleHigh = mass(rule.LowKg), mass(rule.HighKg)
		}
		fr.PerDay += show.ByHeat
		fr.RuleLow += show.RuleLow
		fr.RuleHigh += show.RuleHigh
		fr.Room += show.Room
		fr.Freezers = append(fr.Freezers, show)
	}
}
