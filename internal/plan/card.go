package plan

import (
	"slices"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/medium"
	"kettlefrost/internal/reheating"
	"kettlefrost/internal/unit"
)

// warmC is where the constants of a food that is heated are taken: the middle of what it goes through once it has thawed.
const warmC = 40

// cards works out how long the customer heats each pack in its bag.
func (p *planner) cards() {
	p.out.Cards = []Card{}
	for _, f := range p.out.Fill {
		if f.Count == 0 {
			continue
		}
		if card, err := p.card(f); err != nil {
			p.find(finding.Finding{Code: CodeCardUnknown, Severity: finding.Caution, Where: "pack " + f.Pack, Message: "its heating card cannot be computed: " + err.Error(),
				Fix: "give its ingredients a composition, and the bag its size"})
		} else {
			p.out.Cards = append(p.out.Cards, card)
			p.judgeCard(f, card)
		}
	}
	p.judgeBagsForHeat()
}

func (p *planner) card(f PackFill) (Card, error) {
	c := p.contents(p.dishOf(f.Dish), f)
	x, err := composition(c.fractions)
	if err != nil {
		return Card{}, err
	}
	food, err := x.FreezingFood(p.freezingPointC(c), warmC)
	if err != nil {
		return Card{}, err
	}
	water, err := reheating.SimmerC(p.book.Kitchen.Altitude.M())
	if err != nil {
		return Card{}, err
	}
	pack := p.book.Packs[kitchen.PackID(f.Pack)]
	measured := p.measured(f)
	made, err := reheating.Make(reheating.Bag{Food: food, MassKg: f.filled().Kg(), ThicknessM: p.thickness(f, food), ThinM: pack.Thinnest.M(), ThickM: pack.Thickest.M(), Fish: p.hasFish(c)},
		reheating.Water{TempC: water, Film: p.film("simmering-water")}, reheating.Options{Measured: measured})
	if err != nil {
		return Card{}, err
	}
	card := p.showCard(f, made)
	for _, e := range measured {
		card.Measured = append(card.Measured, p.showMeasured(e))
	}
	return card, nil
}

func (p *planner) showCard(f PackFill, made reheating.Card) Card {
	bag := p.book.Bags[p.book.Packs[kitchen.PackID(f.Pack)].Bag]
	card := Card{Pack: f.Pack, Name: f.Name, Net: f.Net, Bag: bag.Name, Thickness: unit.LengthM(made.Bag.ThicknessM), Thinnest: unit.LengthM(made.Bag.ThinM), Thickest: unit.LengthM(made.Bag.ThickM),
		Water: tenth(made.Water.TempC), Frozen: cardTime(made.Frozen, made.FrozenMinutes()), Thawed: cardTime(made.Thawed, made.ThawedMinutes()), Measured: []MeasuredTime{}, Lines: []CardLine{}}
	card.Said = made.Lines()
	for _, l := range card.Said {
		card.Lines = append(card.Lines, CardLine{Code: string(l.Code), Section: string(l.Section), Text: l.English(p.out.Units)})
	}
	if bag.Reheat == "" {
		card.Missing = append(card.Missing, "nothing in the book says that "+bag.Name+" is meant for heating food in it")
	}
	return card
}

func cardTime(h reheating.Heating, minutes int) CardTime {
	t := CardTime{Verdict: h.Verdict.String(), Minutes: minutes, Curve: curveOf(h.Nominal.Points).band(h.Worst.Points, nil)}
	if h.Worst.Reached {
		t.Worst = seconds(h.Worst.TimeS)
	}
	if h.Nominal.Reached {
		t.Nominal = seconds(h.Nominal.TimeS)
	}
	return t
}

// hasFish says whether something in a pack is fish.
func (p *planner) hasFish(c contents) bool {
	for id := range c.putIn {
		if Fish(p.book.Ingredients[id]) {
			return true
		}
	}
	return false
}

// Fish says whether an ingredient is fish, or it or a part of it is declared as such. The word counts, whether its species is named or not.
func Fish(ing kitchen.Ingredient) bool {
	declared := func(a kitchen.Allergens) bool {
		return slices.ContainsFunc(a.Names, func(name string) bool { return strings.HasPrefix(strings.ToLower(strings.TrimSpace(name)), "fish") })
	}
	return ing.Class == "fish" || declared(ing.Allergens) || slices.ContainsFunc(ing.Contains, func(s kitchen.SubIngredient) bool { return declared(s.Allergens) })
}

// judgeBagsForHeat finds each bag that nobody has said may be heated in.
func (p *planner) judgeBagsForHeat() {
	var seen []kitchen.BagID
	for _, c := range p.out.Cards {
		id := p.book.Packs[kitchen.PackID(c.Pack)].Bag
		if len(c.Missing) == 0 || slices.Contains(seen, id) {
			continue
		}
		seen = append(seen, id)
		p.find(finding.Finding{Code: CodeBagNotForHeat, Severity: finding.Caution, Where: "bag " + string(id), Path: "bags." + string(id),
			Message: "no heating card may be printed for it yet: " + c.Missing[0], Source: "21 CFR 176.170(c), table 2: conditions of use G and H",
			Fix: "ask the bag's maker in writing whether food may be frozen and heated in it, and write the letter's reference at reheat:"})
	}
}

func (p *planner) judgeCard(f PackFill, c Card) {
	p.judgeMeasured(f, c.Measured)
	if c.Frozen.Minutes > 0 {
		return
	}
	p.find(finding.Finding{Code: CodeNoMinutes, Severity: finding.Note, Where: "pack " + f.Pack, Message: "from frozen it is not done well in simmering water: " + c.Frozen.Verdict,
		Figures: []finding.Figure{{Name: "thickest place", Value: c.Thickest.M() * 1000, Unit: "mm", Text: c.Thickest.Show(p.out.Units)}},
		Source:  reheating.TargetSource, Fix: "freeze it flatter, in a larger bag, or let the card say to thaw it first or to heat it in a pot"})
}

// film is a medium's surface coefficient: what this kitchen has measured, or else the published range.
func (p *planner) film(id kitchen.MediumID) medium.Film {
	if own, ok := p.book.Media[id]; ok {
		return medium.Film{LowWM2K: float64(own.Low), UsualWM2K: float64(own.Usual), HighWM2K: float64(own.High)}
	}
	m, _ := medium.Find(string(id))
	return m.Film
}
