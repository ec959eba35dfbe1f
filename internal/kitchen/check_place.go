package kitchen

import (
	"fmt"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/unit"
)

func (c *checker) places() {
	freezers := map[FreezerID]int{}
	for id, p := range inOrder(c.book.Places) {
		at := entrySpot("places", string(id))
		c.id(at, string(id))
		c.text(at, "name", p.Name)
		c.placeSize(at, p.Volume, p.Room, 0)
		c.within(at, "stow", float64(p.Stow), stowing)
		c.placeKind(at, p)
		f, there := c.book.Freezers[p.Freezer]
		if freezers[p.Freezer]++; there && freezers[p.Freezer] == f.Count+1 {
			c.caution(FreezerTwice, at.key("freezer"), fmt.Sprintf("more places are a %s than there are", p.Freezer), "correct the count of the freezer, or take a place out")
		}
		var volume unit.Volume
		var room unit.Mass
		for id, s := range inOrder(p.Shelves) {
			in := at.within("shelves", string(id))
			c.shelf(in, id, s)
			volume, room = volume+s.Volume, room+s.Room
		}
		whole := p.whole(c.book)
		c.partsFit(at, "shelves", whole.Volume, volume, whole.Room, room)
	}
}

// placeKind asks for what kind of place it is, or for the freezer that it is.
func (c *checker) placeKind(at spot, p Place) {
	switch {
	case p.Freezer != "":
		c.refers(at.key("freezer"), "freezer", string(p.Freezer), names(c.book.Freezers))
		if p.Kind != "" && p.Kind != Frozen {
			c.stop(FreezerNotFrozen, at.key("kind"), fmt.Sprintf("it is a freezer, and its kind is %s", p.Kind), "take kind out, or freezer")
		}
	case p.Kind == "":
		c.stop(EmptyText, at.key("kind"), "kind is missing: what must be cold is not put where it is not", "write dry, chilled or frozen after kind:, or name a freezer after freezer:")
	}
}

func (c *checker) shelf(at spot, id PlaceID, s Shelf) {
	c.id(at, string(id))
	c.text(at, "name", s.Name)
	c.placeSize(at, s.Volume, s.Room, s.Reach)
	var volume unit.Volume
	var room unit.Mass
	for id, b := range inOrder(s.Boxes) {
		in := at.within("boxes", string(id))
		c.id(in, string(id))
		c.text(in, "name", b.Name)
		c.placeSize(in, b.Volume, b.Room, b.Reach)
		volume, room = volume+b.Volume, room+b.Room
	}
	c.partsFit(at, "boxes", s.Volume, volume, s.Room, room)
}

func (c *checker) placeSize(at spot, volume unit.Volume, room unit.Mass, reach int) {
	c.within(at, "volume", volume.L(), freezerVolume)
	c.within(at, "room", room.Kg(), storedMass)
	c.within(at, "reach", float64(reach), reaches)
}

// partsFit finds parts that are larger than the whole.
func (c *checker) partsFit(at spot, key string, volume, volumes unit.Volume, room, rooms unit.Mass) {
	say := func(name, whole, parts string, value, of float64, unit string) {
		c.report(finding.Caution, PartsLarger, at.key(key), fmt.Sprintf("%s have %s of %s together, more than the %s of what they are in", key, parts, name, whole), "correct the sizes",
			finding.Figure{Name: "together", Value: value, Unit: unit, Text: parts}, finding.Figure{Name: "the whole", Value: of, Unit: unit, Text: whole})
	}
	if volume > 0 && volumes > volume {
		say("volume", volume.String(), volumes.String(), volumes.L(), volume.L(), "L")
	}
	if room > 0 && rooms > room {
		say("room", room.String(), rooms.String(), rooms.Kg(), room.Kg(), "kg")
	}
}

// whole is the place with what it takes from the freezer that it is.
func (p Place) whole(b Book) Place {
	f, there := b.Freezers[p.Freezer]
	if !there {
		return p
	}
	p.Kind = Frozen
	if p.Volume == 0 {
		p.Volume = f.Volume
	}
	if p.Room == 0 {
		p.Room = f.Room / unit.Mass(max(1, f.Count))
	}
	return p
}

// AllPlaces are the places of a book as they are, with their kinds and sizes: those that it names, and each freezer that none of those is.
func (b Book) AllPlaces() map[PlaceID]Place {
	all := map[PlaceID]Place{}
	named := map[FreezerID]int{}
	for id, p := range b.Places {
		all[id] = p.whole(b)
		named[p.Freezer]++
	}
	for id, f := range b.Freezers {
		for n := named[id] + 1; n <= min(f.Count, mostFreezers); n++ {
			as, name := PlaceID(id), f.Name
			if f.Count > 1 {
				as, name = PlaceID(fmt.Sprintf("%s-%d", id, n)), fmt.Sprintf("%s, no. %d", f.Name, n)
			}
			if _, taken := all[as]; !taken {
				all[as] = Place{Name: name, Freezer: id}.whole(b)
			}
		}
	}
	return all
}

// mostFreezers is more equal freezers than any kitchen has, so that a slip of the pen does not make a million places.
const mostFreezers = 100
