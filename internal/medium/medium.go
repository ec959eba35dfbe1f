package medium

import "slices"

// Film is a surface coefficient with its range, W/(m²·K), radiation included. Low ≤ Usual ≤ High.
type Film struct{ LowWM2K, UsualWM2K, HighWM2K float64 }

// Medium is one kind of surroundings.
type Medium struct {
	ID     string // stable, for books and programs
	Name   string
	Film   Film
	TempC  float64 // usual temperature, to start from
	Wet    bool    // a liquid: the wall or film between it and the food counts
	Note   string  // what makes it better or worse
	Source string  // where the range comes from; which part is judgement says so
}

// The media that a small kitchen has. Sources were read as excerpts; "judgement" is ours.
var all = []Medium{
	{ID: "still-air", Name: "still cold air", Film: Film{5, 8, 10}, TempC: 3,
		Note:   "a refrigerator or walk-in away from the fan; crowded shelves are at the low end",
		Source: "4.6-9.3 W/m2K for still air (table of a food-cooling course); 5.8-6.7 measured on small foods, convection only; 11.4 for a bare tank wall with radiation (Engineering Toolbox)"},
	{ID: "room-air", Name: "room air", Film: Film{5, 8, 11.4}, TempC: 21,
		Note:   "never a way to chill",
		Source: "4.6-9.3 W/m2K for still air (table of a food-cooling course); 11.4 for a bare tank wall with radiation (Engineering Toolbox)"},
	{ID: "walk-in-fan", Name: "walk-in, in the stream of the fan", Film: Film{13.4, 20, 29}, TempC: 3,
		Note:   "only where the air really moves: a tray above or a lid ends it",
		Source: "13.4-29 W/m2K for moving air (table of a food-cooling course); the middle is judgement"},
	{ID: "blast-chiller", Name: "blast chiller", Film: Film{20, 35, 50}, TempC: -10,
		Note:   "full racks are at the low end; its machine must be able to carry the heat away",
		Source: "below 50 W/m2K is typical of batch air-blast rooms (passage on blast freezers for meat); the rest is judgement"},
	{ID: "freezer-air", Name: "freezer, air at rest", Film: Film{5, 8, 10}, TempC: -18,
		Note:   "chest or upright; 5 when crowded, bags apart on a rack are at the high end",
		Source: "4.6-9.3 W/m2K for still air (table of a food-cooling course)"},
	{ID: "freezer-fan", Name: "freezer with a fan", Film: Film{10, 15, 25}, TempC: -20,
		Note:   "bags apart on racks, the air must pass between them",
		Source: "13.4-29 W/m2K for moving air (table of a food-cooling course); widened downwards by judgement"},
	{ID: "blast-freezer", Name: "blast freezer", Film: Film{20, 30, 50}, TempC: -30,
		Note:   "bags apart on racks",
		Source: "below 50 W/m2K is typical of batch air-blast rooms (passage on blast freezers for meat)"},
	{ID: "ice-bath-still", Name: "ice water, at rest", Film: Film{100, 300, 500}, TempC: 1, Wet: true,
		Note:   "ice up to the level of the food; stir the bath and it is twice as good",
		Source: "100-500 W/m2K for crushed ice around a product, 232-582 for still liquid (table of a food-cooling course)"},
	{ID: "ice-bath-stirred", Name: "ice water, kept moving", Film: Film{300, 500, 1000}, TempC: 0.5, Wet: true,
		Note:   "the wall and the food inside decide, not the bath",
		Source: "above the 232-582 W/m2K of still liquid, below the 2000-4000 of a circulating one (table of a food-cooling course); judgement"},
	{ID: "running-water", Name: "cold running water", Film: Film{200, 300, 600}, TempC: 15, Wet: true,
		Note:   "its temperature is the floor",
		Source: "232-582 W/m2K for still liquid (table of a food-cooling course); judgement"},
	{ID: "cold-plate", Name: "freezer shelf of cold metal or a plate", Film: Film{30, 60, 200}, TempC: -18,
		Note:   "counts only where the bag lies on it flat; a plate freezer that presses has several hundred",
		Source: "600 W/m2K in a plate freezer (Earle, from memory), limited by contact; the range for a shelf is judgement"},
	{ID: "simmering-water", Name: "simmering water", Film: Film{200, 435, 1000}, TempC: 95, Wet: true,
		Note:   "bags free and under water; a bag against the bottom or another bag has less",
		Source: "no published value found; 300 W/m2K reproduces quoted times of pouches (derived); 435 is 500 through 0.1 mm of film"},
	{ID: "stirred-broth", Name: "inside of a pot of thin soup, stirred", Film: Film{400, 800, 1200}, Wet: true, TempC: 60,
		Note:   "stirring all the time",
		Source: "judgement"},
	{ID: "stirred-thick", Name: "inside of a pot of thick food, stirred and scraped", Film: Film{75, 150, 250}, Wet: true, TempC: 60,
		Note:   "scraping the wall all the time; now and then is a third of it",
		Source: "judgement"},
}

// All is every medium, in the order of a list to choose from.
func All() []Medium { return slices.Clone(all) }

// Find is the medium with this ID.
func Find(id string) (Medium, bool) {
	i := slices.IndexFunc(all, func(m Medium) bool { return m.ID == id })
	if i < 0 {
		return Medium{}, false
	}
	return all[i], true
}

// Spread is a film of one known value with the doubt that a measurement leaves: 30 % either way (ASHRAE research project 1123,
// abstract).
func Spread(usualWM2K float64) Film {
	return Film{LowWM2K: 0.7 * usualWM2K, UsualWM2K: usualWM2K, HighWM2K: 1.3 * usualWM2K}
}

// Through is the film as it acts through layers of a resistance in series, m²·K/W: 1/(1/h + r).
func (f Film) Through(resistanceM2KW float64) Film {
	in := func(h float64) float64 {
		if h <= 0 {
			return 0
		}
		return 1 / (1/h + resistanceM2KW)
	}
	return Film{in(f.LowWM2K), in(f.UsualWM2K), in(f.HighWM2K)}
}

// Resistances of packages, m²·K/W, from a table of materials (film: conductivity from memory).
const (
	BagFilmM2KW = 3e-4  // 0.1 mm of plastic film at 0.33 W/(m·K)
	AirGapM2KW  = 0.02  // half a millimetre of air between bags that lie on each other
	AirMmM2KW   = 0.042 // one millimetre of trapped air at 0.024 W/(m·K)
	CartonM2KW  = 0.017 // 1 mm of cardboard at 0.06 W/(m·K)
)
