package homecard

import (
	"fmt"
	"slices"

	"kettlefrost/internal/heat"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/language"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/reheating"
	"kettlefrost/internal/unit"
)

// Advice is one sentence about what is done with the food once it is cooked.
type Advice struct {
	Section string `json:"section"` // cool, freeze, thaw or heat
	Text    string `json:"text"`
	Source  string `json:"source"`
}

// What the advice is about.
const (
	Cooling  = "cool"
	Freezing = "freeze"
	Thawing  = "thaw"
	Heating  = "heat"
)

const (
	leftoverSource = "USDA FSIS, Leftovers and Food Safety (from memory)"
	fishSource     = "FDA Food Code 3-501.13"
)

// chilling is what a home can do with hot food in the pot it is in: a sink of ice water, or boxes in the refrigerator.
func (t settled) chilling() map[kitchen.ChillingID]kitchen.Chilling {
	ways := homeChilling()
	for _, s := range t.steps() {
		if tool, ok := toolNamed(s.Equipment); ok && tool.Family == "pot" {
			ways["sink"] = kitchen.Chilling{Name: "sink of ice water", Method: kitchen.StirredBath, Medium: of("ice-water").temp(), Count: 2, Vessel: tool.ID, In: "ice-bath-still"}
		}
	}
	return ways
}

// keep is what is said of cooling, freezing, thawing and heating, with times computed for a home.
func (a Ask) keep(t settled, p plan.Plan, items []*Item, portion kitchen.Pack) []Advice {
	in, units := a.speaker(), a.Book.Kitchen.Units
	all := coolAdvice(in, p)
	all = append(all, freezeAdvice(in, p, t.book.Bags[homeBag], units)...)
	all = append(all, a.thawAdvice(t, p, items)...)
	return append(all, heatAdvice(in, p, items, units)...)
}

func coolAdvice(in language.Speaker, p plan.Plan) []Advice {
	all := []Advice{{Cooling, in.Say("Eat it hot, or cool it at once: into the refrigerator within 2 hours, in containers no more than 2 in (5 cm) deep. Keep it there 3 to 4 days at most."), in.Say(leftoverSource)}}
	for _, c := range p.Chill {
		for _, o := range c.Options {
			if o.ID != "sink" || o.To70 == nil || o.To41 == nil || o.Slow41 == nil {
				continue
			}
			all = append(all, Advice{Cooling, in.Say("Quicker: the pot in a sink of ice water, stirred, takes the %s from 135 °F (57 °C) to 70 °F (21 °C) in about %s and to 41 °F (5 °C) in %s.",
				c.Name, clock(max(1, minutesOf(*o.To70))), fromTo(in, clock(max(1, minutesOf(*o.Fast41))), clock(minutesOf(*o.Slow41)))), in.Say("computed for a home's pot; FDA Food Code 3-501.14 asks for 2 h and 6 h")})
		}
	}
	if name, low, high := slowestBox(p); high > 2*unit.Hour {
		all = append(all, Advice{Cooling, in.Say("2 in (5 cm) deep and hot in the refrigerator, the middle of the %s takes %s to 70 °F (21 °C): use shallower dishes, or cool it in the sink first.",
			name, fromTo(in, clock(minutesOf(low)), clock(minutesOf(high)))), in.Say("computed for still air of 40 °F")})
	}
	return all
}

// slowestBox is what cools slowest in boxes in the refrigerator, and how long it takes to 70 °F at best and at worst.
func slowestBox(p plan.Plan) (name string, low, high unit.Span) {
	for _, c := range p.Chill {
		for _, o := range c.Options {
			if o.ID == "boxes" && o.Slow70 != nil && o.Fast70 != nil && *o.Slow70 > high {
				name, low, high = c.Name, *o.Fast70, *o.Slow70
			}
		}
	}
	return name, low, high
}

func freezeAdvice(in language.Speaker, p plan.Plan, bag kitchen.Bag, units unit.System) []Advice {
	all := []Advice{}
	for _, f := range p.Freeze.Packs {
		text := in.Say("Cold, a portion to a %s, air pressed out, laid flat (%s thick). In a freezer at 0 °F (−18 °C), not touching each other: %s, usually %s.",
			in.Say(bag.Name), in.Measure(eighths(f.Thickness)), fromTo(in, clock(minutesOf(f.Fast)), clock(minutesOf(f.Slow))), clock(minutesOf(f.Time)))
		all = append(all, Advice{Freezing, text, in.Say("computed for still air of 0 °F, 5 to 10 W/m²K")})
	}
	for _, f := range p.Freeze.Freezers {
		all = append(all, Advice{Freezing, in.Say("No more than 2 to 3 lb (%s) a day for each cubic foot (28 L) of freezer: %s in one of 5 cu ft.", fromTo(in, in.Measure("0.9"), in.Measure("1.4 kg")),
			fromTo(in, in.Measure(f.RuleLow.Show(units)), in.Measure(f.RuleHigh.Show(units)))), in.Say(p.Freeze.Source)})
	}
	return append(all, Advice{Freezing, in.Say("Write the day on it. Best within 2 to 3 months."), in.Say("USDA FSIS freezer chart: soups, stews, gravies and dishes of cooked meat 2 to 3 months at 0 °F; a matter of quality, not of safety")})
}

// eighths is a thickness to the next eighth of an inch.
func eighths(l unit.Length) string {
	n := max(1, (int64(l)+int64(unit.Inch)/16)/(int64(unit.Inch)/8))
	return fmt.Sprintf("%s in, %.0f mm", partText(n, 8), l.M()*1000)
}

// thawAdvice is how long the bag takes in a refrigerator.
func (a Ask) thawAdvice(t settled, p plan.Plan, items []*Item) []Advice {
	in := a.speaker()
	text := in.Say("In the refrigerator, at 40 °F (4 °C) or below, never on the counter.")
	source := in.Say(leftoverSource)
	if low, high, ok := a.thaws(t, p, items); ok {
		text += " " + in.Say("Flat in one layer it takes %s.", fromTo(in, hours(low), hours(high)))
		source = in.Say("computed for a bag with the air of a refrigerator of 40 °F all round; place and rule: USDA FSIS")
	}
	return []Advice{{Thawing, text + " " + in.Say("Heat it at once; do not freeze it again."), source}}
}

func hours(s float64) string { return fmt.Sprintf("%.0f h", max(1, s/3600)) }

// thaws is the quickest and the slowest time in a refrigerator, s.
func (a Ask) thaws(t settled, p plan.Plan, items []*Item) (low, high float64, ok bool) {
	x, known := a.composition(items, p)
	if !known || len(p.Freeze.Packs) == 0 {
		return 0, 0, false
	}
	food, err := x.FreezingFood(heat.DefaultFreezingPointC, 4)
	if err != nil {
		return 0, 0, false
	}
	bag := t.book.Bags[homeBag]
	thick := p.Freeze.Packs[0].Thickness.M()
	got, err := reheating.ThawIn(reheating.Bag{Food: food, MassKg: thick * bag.Length.M() * bag.Width.M() * food.DensityKgM3, ThicknessM: thick},
		reheating.ThawPlace{TempC: of("refrigerator").temp().C()})
	if err != nil || !got.High.Done || !got.Worst.Done {
		return 0, 0, false
	}
	return got.High.TimeS, got.Worst.TimeS, true
}

// composition is what the food is made of once it is cooked; false when that is not known of an ingredient.
func (a Ask) composition(items []*Item, p plan.Plan) (heat.Composition, bool) {
	var water, protein, fat, carb, fibre, ash, all float64
	for _, x := range items {
		ing := a.ingredient(kitchen.IngredientID(x.Of))
		kg := x.Amount.Exact.Kg()
		all += kg
		if own := ing.Analysis; own != nil {
			f := 0.0
			if own.Fibre != nil {
				f = *own.Fibre
			}
			water, protein, fat, carb, fibre, ash = water+kg*own.Water/100, protein+kg*own.Protein/100, fat+kg*own.Fat/100, carb+kg*(own.Carb-f)/100, fibre+kg*f/100, ash+kg*own.Ash/100
			continue
		}
		food, ok := a.Foods.Lookup(ing.Food)
		if !ok {
			return heat.Composition{}, false
		}
		n := food.Per100g
		f := n.FibreG.Or(0)
		water, protein, fat = water+kg*n.WaterG.Or(0)/100, protein+kg*n.ProteinG.Or(0)/100, fat+kg*n.FatG.Or(0)/100
		carb, fibre, ash = carb+kg*(n.CarbG.Or(0)-f)/100, fibre+kg*f/100, ash+kg*n.AshG.Or(0)/100
	}
	for _, s := range stepsOf(p) {
		gone := lost(s, "evaporation") + lost(s, "cooking water")
		water, all = water-gone, all-gone
	}
	if all <= 0 || water <= 0 {
		return heat.Composition{}, false
	}
	return heat.Composition{Water: water / all, Protein: protein / all, Fat: fat / all, Carb: carb / all, Fibre: fibre / all, Ash: ash / all}, true
}

// heatAdvice is what the heating card of the pack says of food that is heated out of its bag, in a home's bag.
func heatAdvice(in language.Speaker, p plan.Plan, items []*Item, units unit.System) []Advice {
	text := in.Say("Empty it into a pot and heat it, stirring, until it boils all over and the middle is 165 °F (74 °C) by a thermometer.")
	if slices.ContainsFunc(items, func(x *Item) bool { return x.kind == cheese }) {
		text = in.Say("Empty it into a pot and heat it gently, stirring, until it is 165 °F (74 °C) all through by a thermometer. With cheese in it, it turns grainy when it boils: without a thermometer, boil it all the same.")
	}
	all := []Advice{{Heating, text + " " + in.Say("Heat once only what is eaten."), in.Say("USDA FSIS: leftovers to 165 °F, soups and sauces to a rolling boil")}}
	for _, c := range p.Cards {
		if c.Frozen.Minutes > 0 {
			all = append(all, Advice{Heating, in.Say("Only in a bag that its maker allows to be boiled: %s from frozen in simmering water, then check for 165 °F (74 °C).", in.Plural(int64(c.Frozen.Minutes), "%s minute", "%s minutes")),
				in.Say("computed as for the kitchen's own heating card; USDA: food is not cooked in freezer bags unless their maker allows it")})
		}
		if i := slices.IndexFunc(c.Said, func(l reheating.Line) bool { return l.Code == "fish-open-before-thawing" }); i >= 0 {
			all = append(all, Advice{Thawing, c.Said[i].In(in, units), fishSource})
		}
	}
	return all
}

// Section is a part of the advice, with its name on an English card.
type Section struct{ ID, Name string }

// Sections are those of the advice, in their order.
func Sections() []Section {
	return []Section{{Cooling, "Cooling what is left"}, {Freezing, "Freezing"}, {Thawing, "Thawing"}, {Heating, "Heating"}}
}
