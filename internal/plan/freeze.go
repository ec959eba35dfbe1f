package plan

import (
	"fmt"
	"maps"
	"math"
	"slices"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/freezing"
	"kettlefrost/internal/heat"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

const (
	// coreC is when a pack counts as frozen: 0 °F, the storage temperature of the published charts.
	coreC = -18
	// airGap is how much colder the air must be than the core that is asked for.
	airGap = 1.0
	// householdRule is the rule of thumb beside the heat balance.
	householdRule = "2-3 lb per cubic foot of freezer in 24 h (West Virginia and Michigan State extension)"
)

// freeze computes each pack's freezing time in each freezer, and what the freezers take in a day.
func (p *planner) freeze() {
	p.out.Freeze = Freeze{Packs: []PackFreeze{}, Freezers: []FreezerIntake{}, Source: householdRule}
	heatJ, kg := 0.0, 0.0
	for _, f := range p.out.Fill {
		if f.Count == 0 {
			continue
		}
		c := p.contents(p.dishOf(f.Dish), f)
		food, err := p.freezingFood(c)
		if err != nil {
			p.freezeUnknown(f, err)
			continue
		}
		if j, err := food.HeatJKg(target41.C(), coreC); err == nil {
			heatJ += j * c.kg * float64(f.Count)
			kg += c.kg * float64(f.Count)
		}
		for _, id := range slices.Sorted(maps.Keys(p.book.Freezers)) {
			p.freezePack(f, c, food, p.book.Freezers[id])
		}
	}
	p.out.Freeze.Load = mass(kg)
	if kg > 0 {
		p.intake(heatJ / kg)
		p.judgeFreeze()
	}
}

func (p *planner) freezingFood(c contents) (heat.FreezingFood, error) {
	x, err := composition(c.fractions)
	if err != nil {
		return heat.FreezingFood{}, err
	}
	return x.FreezingFood(p.freezingPointC(c), target41.C())
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
	return f.Net.Kg() / food.DensityKgM3 / face
}

func (p *planner) freezePack(f PackFill, c contents, food heat.FreezingFood, freezer kitchen.Freezer) {
	thick := p.thickness(f, food)
	to := max(coreC, freezer.Air.C()+airGap)
	body := freezing.Freeze{Food: food, Shape: heat.Slab, SizeM: thick, FilmWM2K: float64(freezer.Film), StartC: target41.C(), AirC: freezer.Air.C(), CoreC: to, Dimensionality: 1}
	seconds, err := body.TimeS()
	if err != nil {
		p.freezeUnknown(f, err)
		return
	}
	show := PackFreeze{Pack: f.Pack, Name: f.Name, Freezer: freezer.Name, Thickness: unit.LengthM(thick), From: target41, To: unit.TempC(to), Time: minutes(seconds),
		Begins: unit.TempC(food.FreezingPointC), Formula: "Pham (1986), flat bag lying free, both faces in air; 0.91 to 1.12 of a full solution for the same film, and the film is known to 30 % at best"}
	if plank, err := body.Plank(); err == nil {
		if s, err := plank.TimeS(); err == nil {
			show.Plank = minutes(s)
		}
	}
	p.out.Freeze.Packs = append(p.out.Freeze.Packs, show)
	bag := p.book.Bags[p.book.Packs[kitchen.PackID(f.Pack)].Bag]
	if w := bag.Width.M(); w > 0 && thick > 0.4*w && p.book.Packs[kitchen.PackID(f.Pack)].Thickness == 0 {
		p.find(finding.Finding{Code: CodeBagTooSmall, Severity: finding.Caution, Where: "pack " + f.Pack,
			Message: fmt.Sprintf("filled, its bag would lie %s thick and %s wide: it will not lie flat", show.Thickness.Show(p.out.Units), bag.Width.Show(p.out.Units)), Fix: "use a larger bag or fill less"})
	}
}

// intake is what the freezers take in a day, given the heat that a kilogram of this run gives off.
func (p *planner) intake(heatJKg float64) {
	fr := &p.out.Freeze
	for _, id := range slices.Sorted(maps.Keys(p.book.Freezers)) {
		f := p.book.Freezers[id]
		n := float64(f.Count)
		show := FreezerIntake{ID: string(id), Name: f.Name, Room: max(0, f.Room-f.Holds)}
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
	if least := min(fr.PerDay, fr.RuleHigh); least > 0 {
		fr.Days = math.Ceil(float64(fr.Load)/float64(least)*100) / 100
	}
}

func (p *planner) judgeFreeze() {
	fr := p.out.Freeze
	figures := []finding.Figure{p.massFigure("this run", fr.Load.Kg()), p.massFigure("a day by heat", fr.PerDay.Kg()), p.massFigure("a day by the household rule, at most", fr.RuleHigh.Kg()), p.massFigure("room", fr.Room.Kg())}
	f := finding.Finding{Where: "the freezers", Path: "freezers", Figures: figures, Source: householdRule}
	switch {
	case len(fr.Freezers) == 0:
		f.Code, f.Severity, f.Message, f.Fix, f.Figures = CodeNoFreezer, finding.Stop, "the book has no freezer", "write the freezers into the book", nil
	case fr.Load > fr.Room:
		f.Code, f.Severity, f.Message = CodeFreezerFull, finding.Stop, "the packs do not fit into the freezers"
		f.Fix = fmt.Sprintf("make room for %s more, or pack less", (fr.Load - fr.Room).Show(p.out.Units))
	case fr.Load > fr.PerDay:
		f.Code, f.Severity, f.Message = CodeFreezerSlow, finding.Stop, fmt.Sprintf("the freezers cannot take it in a day: it takes %.1f", float64(fr.Load)/float64(fr.PerDay))
		f.Fix = "chill all of it first and freeze it over several days, pack less, or use a stronger freezer"
	case fr.Load > fr.RuleHigh:
		f.Code, f.Severity, f.Message = CodeFreezerRule, finding.Caution, fmt.Sprintf("by heat the freezers manage in a day, but it is %.2f times what the household rule allows", float64(fr.Load)/float64(fr.RuleHigh))
		f.Fix = "lay the bags apart against cold surfaces, set the freezers colder a day ahead, or freeze it over two days; log the core of one bag"
	default:
		return
	}
	p.find(f)
}
