package homecard

import (
	"maps"
	"strings"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

const (
	homePack    kitchen.PackID       = "at-home"
	homeBag     kitchen.BagID        = "freezer-bag"
	homeBurner  kitchen.EquipmentID  = "burner"
	tapWater    kitchen.IngredientID = "water-from-the-tap"
	waterInFood                      = "14429" // water from the tap, in the composition table
)

// home is a book of what a home has, for one dish.
func (a Ask) home(dish kitchen.Dish, portion kitchen.Pack) kitchen.Book {
	from := a.Book
	book := kitchen.Book{Kitchen: kitchen.Kitchen{Name: from.Kitchen.Name, Units: from.Kitchen.Units, Currency: from.Kitchen.Currency, Air: from.Kitchen.Air, Altitude: from.Kitchen.Altitude},
		People:      map[kitchen.PersonID]kitchen.Person{"cook": {Name: "you", Shift: kitchen.Shift{From: 0, To: 24 * 60}}},
		Ingredients: tapped(from.Ingredients), Equipment: homeEquipment("usual"), Media: from.Media,
		Chilling: homeChilling(), Freezers: homeFreezers(), Bags: map[kitchen.BagID]kitchen.Bag{homeBag: homeBagOf(portion)},
		Dishes: map[kitchen.DishID]kitchen.Dish{portion.Dish: dish}, Packs: map[kitchen.PackID]kitchen.Pack{homePack: portion}}
	return book
}

// tapped is the ingredients as if all came from the tap: what they cost and who brings them is nothing to a home card.
func tapped(all map[kitchen.IngredientID]kitchen.Ingredient) map[kitchen.IngredientID]kitchen.Ingredient {
	out := maps.Clone(all)
	for id, ing := range out {
		ing.Free, ing.Buy, ing.Stock, ing.Lots, ing.Trim = true, nil, unit.Amount{}, nil, 0
		out[id] = ing
	}
	if out == nil {
		out = map[kitchen.IngredientID]kitchen.Ingredient{}
	}
	none := kitchen.Allergens{Answered: true}
	out[tapWater] = kitchen.Ingredient{Name: "water", Food: waterInFood, Density: 1, Free: true, Class: "water", Role: "liquid", Allergens: none}
	return out
}

// homeEquipment is the kit on a burner that is low, usual or high.
func homeEquipment(burner string) map[kitchen.EquipmentID]kitchen.Equipment {
	power, efficiency := of("burner"), of("efficiency")
	watts := map[string]float64{"low": power.low, "usual": power.usual, "high": power.high}[burner]
	heat, err := unit.ParsePower(power.text(watts))
	if err != nil {
		panic("homecard: " + err.Error())
	}
	all := map[kitchen.EquipmentID]kitchen.Equipment{homeBurner: {Name: "burner", Kind: kitchen.Burner, Count: 4, Power: heat, Efficiency: unit.ShareOf(efficiency.usual / 100)}}
	for _, t := range kit {
		e := kitchen.Equipment{Name: t.Name, Kind: kinds[t.Family], Count: 2, Volume: t.Volume, Working: t.Working, Diameter: t.Across, Places: t.Trays}
		if e.Kind == kitchen.Vessel {
			e.Needs = []kitchen.EquipmentID{homeBurner}
		}
		all[t.ID] = e
	}
	return all
}

// homeChilling is what a home can do with hot food: boxes in the refrigerator.
func homeChilling() map[kitchen.ChillingID]kitchen.Chilling {
	return map[kitchen.ChillingID]kitchen.Chilling{
		"boxes": {Name: "shallow containers in the refrigerator", Method: kitchen.ShallowPans, In: "still-air", Medium: of("refrigerator").temp(), Count: 8,
			Length: 9 * unit.Inch, Width: 6 * unit.Inch, Depth: of("box-depth").length()},
	}
}

func homeFreezers() map[kitchen.FreezerID]kitchen.Freezer {
	return map[kitchen.FreezerID]kitchen.Freezer{
		"home": {Name: "home freezer", Count: 1, Volume: unit.VolumeL(of("freezer-volume").usual * cubicFootL), Air: *of("freezer-air").temp(), Cooling: 40 * unit.Watt, In: "freezer-air", Room: 100 * unit.Pound},
	}
}

const (
	cubicFootL = 28.316846592 // exact
)

// homeBagOf is a bag that a portion lies flat in, thin enough to freeze in some hours; the larger one when the smaller would be too thick.
func homeBagOf(portion kitchen.Pack) kitchen.Bag {
	small := kitchen.Bag{Name: "1 qt freezer bag", Length: of("bag-length").length(), Width: of("bag-width").length()}
	var m unit.Mass
	for _, f := range portion.Fill {
		m += f.Mass
	}
	if m.Kg()/1000/(small.Length.M()*small.Width.M()) <= of("thickest-bag").length().M() && portion.Thickness == 0 {
		return small
	}
	return kitchen.Bag{Name: "1 gal freezer bag", Length: of("big-bag-length").length(), Width: of("big-bag-width").length()}
}

// familyOf is what a home takes for what a step of the book is done in: a pan where the kitchen takes something low and wide, a pot for all
// other vessels.
func familyOf(book kitchen.Book, in []kitchen.EquipmentID) string {
	pan := false
	for _, id := range in {
		switch e := book.Equipment[id]; e.Kind {
		case kitchen.Vessel:
			if !lowAndWide(e) {
				return "pot"
			}
			pan = true
		case kitchen.Blender:
			return "blender"
		case kitchen.Oven:
			return "oven"
		case kitchen.Table:
			return "table"
		}
	}
	if pan {
		return "pan"
	}
	return ""
}

// lowAndWide says that a vessel is less than half as high as it is wide.
func lowAndWide(e kitchen.Equipment) bool {
	base := circle(e.Diameter)
	return base > 0 && e.Volume.L()/1000/base < e.Diameter.M()/2
}

func toolsOf(family string) []kitchen.EquipmentID {
	var ids []kitchen.EquipmentID
	for _, t := range kit {
		if t.Family == family {
			ids = append(ids, t.ID)
		}
	}
	return ids
}

// smallDish is a dish as it is done in a home: in what a home has, slower by hand, without what only a crew needs. What it loses to vessels is set
// afterwards (settle).
func (a Ask) smallDish(dish kitchen.Dish) kitchen.Dish {
	dish.HoldBack = 0
	steps := make([]kitchen.Step, len(dish.Steps))
	for i, s := range dish.Steps {
		family := familyOf(a.Book, s.In)
		s.Use = append([]kitchen.Use(nil), s.Use...)
		s.In, s.MakeUp, s.Within, s.AtOnce, s.Skill = toolsOf(family), "", 0, false, ""
		if family != "oven" {
			s.Load.AtMost = 0
		}
		s.Pace = unit.Pace(float64(s.Pace) * of("slower").usual)
		steps[i] = s
	}
	dish.Steps = steps
	return dish
}

// toolNamed is a tool by the name that the plan shows.
func toolNamed(name string) (Tool, bool) {
	for _, t := range kit {
		if strings.EqualFold(t.Name, name) {
			return t, true
		}
	}
	return Tool{}, false
}
