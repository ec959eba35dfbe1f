package firstdish

import (
	"slices"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// make is the book with everything that was answered; false while it cannot be made.
func (r *reading) make() (kitchen.Book, bool) {
	b := r.book
	pot := r.pot(&b)
	hot, time := quantity(r, Hot, "Brought to", unit.ParseTemp), quantity(r, Time, "Cooks for", unit.ParseSpan)
	r.cooling(&b, pot)
	fill := quantity(r, Fill, "In each pack", unit.ParseMass)
	bag := r.bag(&b)
	price := r.price()
	r.person(&b)
	count := r.count()
	if len(r.Missing) > 0 || r.Draft == nil {
		return b, false
	}
	for id, ing := range r.Draft.Ingredients {
		b.Ingredients = add(b.Ingredients, id, ing)
	}
	dish := r.Draft.Dish
	dish.Steps = r.steps(dish.Steps, pot, hot, time)
	r.Dish = r.Draft.ID
	b.Dishes = add(b.Dishes, r.Dish, dish)
	name := r.answers.Value(Name)
	r.Pack = free(name+" "+fill.Show(b.Kitchen.Units), "pack", b.Packs)
	last := dish.Steps[len(dish.Steps)-1]
	b.Packs = add(b.Packs, r.Pack, kitchen.Pack{Name: name + ", " + fill.Show(b.Kitchen.Units), Dish: r.Dish, Fill: []kitchen.Fill{{Of: last.Outputs()[0].ID, Mass: fill}}, Bag: bag, Pace: 40 * unit.Second, Price: price})
	r.Run = free("first "+name, "first-run", b.Runs)
	b.Runs = add(b.Runs, r.Run, kitchen.Request{Name: "the first " + name, Want: []kitchen.Want{{Pack: r.Pack, Count: count}}})
	return b, true
}

// steps are those of the draft, done in the pot as it was answered.
func (r *reading) steps(steps []kitchen.Step, pot kitchen.EquipmentID, hot unit.Temp, time unit.Span) []kitchen.Step {
	steps = slices.Clone(steps)
	for i := range steps {
		s := &steps[i]
		if !s.Stays {
			s.In = []kitchen.EquipmentID{pot}
		}
		s.HeatTo, s.Time = nil, 0
		s.Loses = kitchen.Losses{}
	}
	last := &steps[len(steps)-1]
	last.HeatTo, last.Time, last.Loses.Open = &hot, time, r.answers.Value(Lid) == "off"
	last.Hands = kitchen.Hands{Start: 5 * unit.Minute, End: 2 * unit.Minute}
	return steps
}

func (r *reading) pot(b *kitchen.Book) kitchen.EquipmentID {
	name := r.answers.Value(PotName)
	e := kitchen.Equipment{Name: name, Kind: kitchen.Vessel, Count: 1, Working: 85 * unit.PerCent, Efficiency: 40 * unit.PerCent, Fuel: kitchen.Gas}
	e.Volume, e.Diameter, e.Power = quantity(r, Holds, "The pot holds", unit.ParseVolume), quantity(r, Across, "It is across", unit.ParseLength), quantity(r, Power, "It is given", unit.ParsePower)
	id := free(name, "pot", b.Equipment)
	b.Equipment = add(b.Equipment, id, e)
	return id
}

func (r *reading) cooling(b *kitchen.Book, pot kitchen.EquipmentID) {
	way := kitchen.Chilling{Name: "ice water, stirred", Method: kitchen.StirredBath, In: "ice-bath-stirred", Vessel: pot, Count: 1, Set: 10 * unit.Minute, Tend: 50 * unit.PerCent}
	if r.answers.Value(Cooling) == Pans {
		way = kitchen.Chilling{Name: "shallow pans in the walk-in", Method: kitchen.ShallowPans, In: "walk-in-fan", Count: 12, Length: 500 * unit.Millimetre, Width: 300 * unit.Millimetre, Set: 2 * unit.Minute, Open: true}
		way.Depth = quantity(r, Deep, "In pans, deep", unit.ParseLength)
	}
	r.Facts = append(r.Facts, Fact{"Cooled", way.Name})
	b.Chilling = add(b.Chilling, free(way.Name, "cooling", b.Chilling), way)
}

func (r *reading) bag(b *kitchen.Book) kitchen.BagID {
	x := kitchen.Bag{Name: "the bag", Length: quantity(r, BagLong, "", unit.ParseLength), Width: quantity(r, BagWide, "", unit.ParseLength)}
	id := free("bag", "bag", b.Bags)
	b.Bags = add(b.Bags, id, x)
	return id
}

func (r *reading) price() unit.Money {
	text := r.answers.Value(Price)
	if text == "" {
		return 0
	}
	m, err := unit.ParseMoney(text)
	if err != nil {
		r.wrong(Price, err)
	}
	return m
}

func (r *reading) person(b *kitchen.Book) {
	name := r.answers.Value(Who)
	from, err := unit.ParseClock(r.answers.Value(From))
	if err != nil {
		r.wrong(From, err)
	}
	to, err := unit.ParseClock(r.answers.Value(To))
	if err != nil {
		r.wrong(To, err)
	}
	if name == "" || len(b.People) > 0 {
		return
	}
	r.Facts = append(r.Facts, Fact{"Cooks", name + ", " + from.String() + " to " + to.String()})
	b.People = add(b.People, free(name, "cook", b.People), kitchen.Person{Name: name, Shift: kitchen.Shift{From: from, To: to}})
}
