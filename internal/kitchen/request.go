package kitchen

import (
	"slices"

	"kettlefrost/internal/unit"
)

// Request is what a run should make.
type Request struct {
	Name     string         `yaml:"name,omitempty" desc:"for people"`
	Day      string         `yaml:"day,omitempty" desc:"the date it starts, such as 2026-12-01"`
	Today    string         `yaml:"today,omitempty" desc:"the date the orders go out, such as 2026-11-27: nothing is bought from who cannot deliver by the day it starts; any day when left out"`
	Want     []Want         `yaml:"want" desc:"targets, one or more"`
	Orders   map[PackID]int `yaml:"orders,omitempty" desc:"how many of each pack are promised to customers: filled before anything else"`
	AtLeast  map[PackID]int `yaml:"at-least,omitempty" desc:"how many of each pack should be filled at the sealing table whatever they bring"`
	AtMost   map[PackID]int `yaml:"at-most,omitempty" desc:"how many of each pack may be filled at the sealing table"`
	Finish   unit.Clock     `yaml:"finish,omitempty" desc:"everything must be sealed by then"`
	Reserve  unit.Share     `yaml:"reserve,omitempty" desc:"bought beyond the need, against a bad day"`
	Sure     unit.Share     `yaml:"sure,omitempty" desc:"in what share of runs there should be enough: the reserve follows from how far yields scatter, and is at least reserve"`
	OnlyHave bool           `yaml:"only-stock,omitempty" desc:"use what is in stock, buy nothing"`
	Days     int            `yaml:"days,omitempty" desc:"over how many days it may go, each with the same shifts; 1 when left out"`
	Visits   []Visit        `yaml:"appointments,omitempty" desc:"what comes or goes at a fixed time"`
	Aims     []Aim          `yaml:"aims,omitempty" desc:"what the day should be good at, most important first: finish, late-start, short-day, least-waiting; finish when left out" enum:"finish,late-start,short-day,least-waiting,least-change"`
}

// Visit is something at a fixed time: a delivery, a collection, an inspector.
type Visit struct {
	What   string         `yaml:"what" desc:"in a few words: delivery of the butcher"`
	At     unit.Moment    `yaml:"at" desc:"when, such as 09:00; on the second day of a run 09:00+1"`
	For    unit.Span      `yaml:"for,omitempty" desc:"how long somebody is busy with it"`
	People int            `yaml:"people,omitempty" desc:"how many that takes; 1 when left out"`
	Brings []IngredientID `yaml:"brings,omitempty" desc:"ingredients that are not there before"`
	Takes  []PackID       `yaml:"takes,omitempty" desc:"packs that must be sealed by then"`
}

// Aim is what a timetable should be good at.
type Aim string

const (
	Finish       Aim = "finish"        // everything done as early as can be
	LateStart    Aim = "late-start"    // the first hands needed as late as can be
	ShortDay     Aim = "short-day"     // the least time from the first hands to the last
	LeastWaiting Aim = "least-waiting" // the least time that cooked food stands between steps
	LeastChange  Aim = "least-change"  // the least moving of what was planned, when the rest of a day is timed again
)

// PlanningAims are the aims of a day that has not begun.
func PlanningAims() []Aim { return []Aim{Finish, LateStart, ShortDay, LeastWaiting} }

// Want is one target. Exactly one of Count, Use, Vessel and Most is given. A pack target names Pack; the others name Dish, and the
// packs share what comes out as Packs says, or by what they earn when it is left out.
type Want struct {
	Pack   PackID         `yaml:"pack,omitempty" desc:"make packs of this kind"`
	Count  int            `yaml:"count,omitempty" desc:"so many of them"`
	Dish   DishID         `yaml:"dish,omitempty" desc:"or cook this dish by another measure"`
	Use    *UseUp         `yaml:"use,omitempty" desc:"use this much of an ingredient"`
	Vessel EquipmentID    `yaml:"fill-vessel,omitempty" desc:"fill this piece of equipment once to its working volume"`
	Most   bool           `yaml:"as-many,omitempty" desc:"as many as the kitchen's limits allow"`
	Mix    map[PackID]int `yaml:"mix,omitempty" desc:"how the packs of the dish stand to each other, such as 2 to 1"`
}

// UseUp is an amount of an ingredient, as purchased, that should all go into a dish.
type UseUp struct {
	Of     IngredientID `yaml:"of" desc:"the ingredient"`
	Amount unit.Amount  `yaml:"amount" desc:"as purchased, before trim"`
}

// Dishes are the dishes that a request cooks, each once, in its order.
func (r Request) Dishes(b Book) []DishID {
	var ids []DishID
	for _, w := range r.Want {
		id := w.Dish
		if w.Pack != "" {
			id = b.Packs[w.Pack].Dish
		}
		if !slices.Contains(ids, id) {
			ids = append(ids, id)
		}
	}
	return ids
}
