package record

import (
	"fmt"

	"kettlefrost/internal/unit"
)

// Lot names what was received, made or packed together, as written on the tub or the bag: R-1201-3.
type Lot string

// Place is where something is kept, from the large to the small: chest-1/shelf 2/box B.
type Place string

// Received is goods that came through the door: a lot is born.
type Received struct {
	Lot         Lot        `json:"lot"`
	Ingredient  string     `json:"ingredient"`
	Supplier    string     `json:"supplier"`
	SupplierLot string     `json:"supplier_lot,omitzero"`
	Invoice     string     `json:"invoice,omitzero"`
	Pack        string     `json:"pack,omitzero"` // as it came: 25 lb sack
	Count       int64      `json:"count,omitzero"`
	Mass        unit.Mass  `json:"mass_g"`        // as weighed at the door
	Paid        unit.Money `json:"paid,omitzero"` // for all of it
	UseBy       Day        `json:"use_by,omitzero"`
	BestBefore  Day        `json:"best_before,omitzero"`
	MadeOn      Day        `json:"made_on,omitzero"`
	FrozenOn    Day        `json:"frozen_on,omitzero"`
	Door        *unit.Temp `json:"door_c,omitzero"` // measured at the door
	Place       Place      `json:"place,omitzero"`
	Note        Text       `json:"note,omitzero"`
}

// Part is so much of a lot.
type Part struct {
	Lot  Lot       `json:"lot"`
	Mass unit.Mass `json:"mass_g"`
}

// Used is so much of a lot that went into a dish: raw goods, left-over of an earlier run, or packs that were opened again.
type Used struct {
	Run     string    `json:"run"`
	Dish    string    `json:"dish"`
	Step    string    `json:"step,omitzero"`
	Lot     Lot       `json:"lot"`
	Mass    unit.Mass `json:"mass_g"`
	Numbers Numbers   `json:"numbers,omitzero"` // of the packs, when the lot is of packs
}

// Made is what came of a step and was weighed: a lot is born. What went into it is what was Used for the dish, unless From says it.
type Made struct {
	Run    string    `json:"run"`
	Dish   string    `json:"dish"`
	Output string    `json:"output"`
	Lot    Lot       `json:"lot"`
	Mass   unit.Mass `json:"mass_g"`
	From   []Part    `json:"from,omitzero"`
	UseBy  Day       `json:"use_by,omitzero"`
	Place  Place     `json:"place,omitzero"`
}

// Packed is packs that were filled and sealed together: a lot of numbered packs is born.
type Packed struct {
	Run        string    `json:"run"`
	Pack       string    `json:"pack"`
	Lot        Lot       `json:"lot"`
	Numbers    Numbers   `json:"numbers"`
	Label      unit.Mass `json:"label_g"` // net, of each
	Mass       unit.Mass `json:"mass_g"`  // net, of all of them
	From       []Part    `json:"from"`
	BagLot     string    `json:"bag_lot,omitzero"`
	BestBefore Day       `json:"best_before"`
	Place      Place     `json:"place,omitzero"`
}

// Moved is something that was taken to another place.
type Moved struct {
	Lot     Lot       `json:"lot"`
	Numbers Numbers   `json:"numbers,omitzero"`
	Mass    unit.Mass `json:"mass_g,omitzero"`
	To      Place     `json:"to"`
}

// Counted is what somebody found of a lot at a place when taking stock: all that is there of it, or nothing.
type Counted struct {
	Lot     Lot       `json:"lot"`
	Place   Place     `json:"place"`
	Numbers Numbers   `json:"numbers,omitzero"`
	Mass    unit.Mass `json:"mass_g,omitzero"`
	Nothing bool      `json:"nothing,omitzero"`
}

// WrittenOff is something that will never be used or sold: burnt, torn, out of date.
type WrittenOff struct {
	Lot     Lot       `json:"lot"`
	Numbers Numbers   `json:"numbers,omitzero"`
	Mass    unit.Mass `json:"mass_g,omitzero"`
	Why     string    `json:"why"`
}

// Held keeps a lot, or some packs of it, from being used, sold or labelled.
type Held struct {
	Lot     Lot     `json:"lot"`
	Numbers Numbers `json:"numbers,omitzero"` // none: all of it
	Why     string  `json:"why"`
}

// Released ends a hold, by a named person's decision and with a reason. Disposition is what becomes of it.
type Released struct {
	Lot         Lot         `json:"lot"`
	Numbers     Numbers     `json:"numbers,omitzero"` // none: all of it
	Disposition Disposition `json:"disposition"`
	Why         string      `json:"why"`
	Points      []string    `json:"points,omitzero"` // the critical records that this decides on; none: what was held by hand
}

// Disposition is what becomes of something that was held.
type Disposition string

const (
	ReleaseForUse Disposition = "release"
	Rework        Disposition = "rework"
	Destroy       Disposition = "destroy"
)

func (Disposition) choices() []string {
	return []string{string(ReleaseForUse), string(Rework), string(Destroy)}
}

func (Received) Kind() Kind   { return "received" }
func (Used) Kind() Kind       { return "used" }
func (Made) Kind() Kind       { return "made" }
func (Packed) Kind() Kind     { return "packed" }
func (Moved) Kind() Kind      { return "moved" }
func (Counted) Kind() Kind    { return "counted" }
func (WrittenOff) Kind() Kind { return "written-off" }
func (Held) Kind() Kind       { return "held" }
func (Released) Kind() Kind   { return "released" }

func (m Moved) agree(c *checker) {
	c.exactlyOne(given{"numbers", !m.Numbers.Empty()}, given{"mass_g", m.Mass != 0})
}

func (x Counted) agree(c *checker) {
	c.exactlyOne(given{"numbers", !x.Numbers.Empty()}, given{"mass_g", x.Mass != 0}, given{"nothing", x.Nothing})
}

func (w WrittenOff) agree(c *checker) {
	c.exactlyOne(given{"numbers", !w.Numbers.Empty()}, given{"mass_g", w.Mass != 0})
}

// agree refuses what can only be a slip of the unit, or the mass of one pack for that of all: less than half of what the labels say, or more
// than twice that.
func (p Packed) agree(c *checker) {
	labels := p.Label.Kg() * float64(p.Numbers.Count())
	if p.Mass > 0 && p.Label > 0 && !p.Numbers.Empty() && (p.Mass.Kg() < labels/2 || p.Mass.Kg() > labels*2) {
		c.at("mass_g", fmt.Sprintf("is %s for %d packs of %s", p.Mass, p.Numbers.Count(), p.Label), "weigh again, and check the unit")
	}
}
