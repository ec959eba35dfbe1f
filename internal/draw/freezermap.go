package draw

import (
	"cmp"
	"fmt"
	"strings"

	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/unit"
)

// FreezerMap is places with the lots in them: a bar for each place, as long as its room, filled from the left with the oldest first.
type FreezerMap struct {
	Title, Desc string
	Width       float64 // 600 when left out
	Places      []MapPlace
}

// MapPlace is one place of the map.
type MapPlace struct {
	Name   string
	Holds  string // how much is in it
	Fits   string // how much still fits; empty when nobody knows
	Part   bool   // of the place above it
	NoBar  bool   // only its parts hold anything
	RoomKg float64
	Lots   []MapLot // the oldest first
}

// MapLot is so much of a lot at a place.
type MapLot struct {
	Name               string
	Says               string // for those who cannot see it or point at it
	Kg                 float64
	Oldest, Held, Past bool
}

// MapOf is the map of some places with their parts; of all when none are named.
func MapOf(s coldstore.Store, units unit.System, only ...string) FreezerMap {
	m := FreezerMap{Title: "What is where"}
	lots := 0
	for _, spot := range s.Spots {
		if len(only) > 0 && !isPartOf(string(spot.ID), only) || !spot.Listed && spot.AllLots == 0 {
			continue
		}
		p := MapPlace{Name: cmp.Or(spot.Name, "nobody said where"), Part: spot.Depth > 0, NoBar: spot.Parts && len(spot.Goods) == 0, RoomKg: spot.Room.Kg()}
		p.Holds, p.Fits = roomWords(spot, units)
		if spot.Parts && spot.Rest.MassKnown {
			p.RoomKg = (spot.Net + spot.Rest.Mass).Kg() // what is in its parts takes some of it
		}
		for _, g := range spot.Goods {
			p.Lots = append(p.Lots, lotOn(g, units))
		}
		lots += len(p.Lots)
		m.Places = append(m.Places, p)
	}
	m.Desc = fmt.Sprintf("%d places and %d lots in them; the table beside it says the same.", len(m.Places), lots)
	return m
}

func isPartOf(id string, only []string) bool {
	for _, p := range only {
		if id == p || strings.HasPrefix(id, p+"/") {
			return true
		}
	}
	return false
}

func lotOn(g coldstore.Goods, units unit.System) MapLot {
	l := MapLot{Name: string(g.Lot.ID), Kg: g.Net.Kg(), Oldest: g.Oldest, Held: g.Kept || !g.Held.Empty(), Past: g.Past}
	says := []string{string(g.Lot.ID), g.Lot.What}
	if n := g.Numbers.Count(); n > 0 {
		says = append(says, fmt.Sprintf("%d packs", n))
	}
	says = append(says, g.Net.Show(units))
	if d := g.Lot.Last(); d != "" {
		says = append(says, "good until "+string(d))
	}
	for _, w := range []struct {
		is   bool
		says string
	}{{g.Oldest, "goes first"}, {l.Held, "held"}, {g.Past, "past its day"}} {
		if w.is {
			says = append(says, w.says)
		}
	}
	l.Says = strings.Join(says, ", ")
	return l
}

// roomWords are how much is at a place and how much still fits.
func roomWords(p coldstore.Spot, units unit.System) (holds, fits string) {
	holds = p.All.Show(units)
	if p.All == 0 {
		holds = "empty"
	}
	if p.AllPacks > 0 {
		holds += fmt.Sprintf(", %d packs", p.AllPacks)
	}
	var words []string
	switch {
	case p.Rest.OverMass > 0:
		words = append(words, p.Rest.OverMass.Show(units)+" too much")
	case p.Rest.MassKnown:
		words = append(words, "room for "+p.Rest.Mass.Show(units))
	}
	switch {
	case p.Rest.OverVolume > 0:
		words = append(words, p.Rest.OverVolume.Show(units)+" too much")
	case p.Rest.VolumeKnown:
		words = append(words, p.Rest.Volume.Show(units)+" free")
	}
	return holds, strings.Join(words, ", ")
}
