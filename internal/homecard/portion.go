package homecard

import (
	"math"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// portion is a pack of the book made as large as one person eats: its parts in the same proportion, pieces in whole ones. assumed says that the
// book does not say how much that is.
func (a Ask) portion() (p kitchen.Pack, assumed bool) {
	pack := a.Book.Packs[a.Pack]
	net := a.net(pack)
	serving := pack.Serving
	if serving == 0 {
		serving, assumed = min(a.usualServing(), net), true
	}
	share := float64(serving) / float64(max(net, 1))
	p = kitchen.Pack{Name: pack.Name, Dish: pack.Dish, Bag: homeBag, Pace: 30 * unit.Second, Serving: serving, Thickness: pack.Thickness, Identity: pack.Identity}
	for _, f := range pack.Fill {
		if f.Pieces > 0 {
			f.Pieces = max(1, int(math.Round(float64(f.Pieces)*share)))
		} else {
			f.Mass = unit.MassKg(f.Mass.Kg() * share)
		}
		p.Fill = append(p.Fill, f)
	}
	return p, assumed
}

func (a Ask) usualServing() unit.Mass {
	f := of("serving")
	m, err := unit.ParseMass(f.text(f.usual))
	if err != nil {
		panic("homecard: " + err.Error())
	}
	return m
}

// net is what a pack holds, pieces by their mass.
func (a Ask) net(pack kitchen.Pack) unit.Mass {
	var net unit.Mass
	for _, f := range pack.Fill {
		net += a.fillMass(pack.Dish, f)
	}
	return net
}

func (a Ask) fillMass(dish kitchen.DishID, f kitchen.Fill) unit.Mass {
	if f.Pieces == 0 {
		return f.Mass
	}
	for _, s := range a.Book.Dishes[dish].Steps {
		for _, o := range s.Outputs() {
			if o.ID == f.Of {
				return o.Piece * unit.Mass(f.Pieces)
			}
		}
	}
	return 0
}
