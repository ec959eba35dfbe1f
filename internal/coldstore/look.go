package coldstore

import (
	"cmp"
	"maps"
	"slices"

	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// Goods is so much of a lot at one place.
type Goods struct {
	Lot   *lots.Lot
	Place record.Place
	lots.Amount
	Net    unit.Mass      // of it: packs count as their mean
	Held   record.Numbers // of the packs
	Taste  record.Numbers // of the packs: those that are kept to be tasted, and not sold
	Kept   bool           // all of it is held
	Past   bool           // its last day is over
	Oldest bool           // nothing of its kind is older that is neither held nor past nor kept to be tasted: it goes first
}

// allTaste says that all of it is kept to be tasted.
func (g Goods) allTaste() bool { return !g.Taste.Empty() && g.Taste.Equal(g.Numbers) }

// Rest is how much still fits. What is over is told, and then nothing is left.
type Rest struct {
	MassKnown, VolumeKnown bool // that anybody said how much there is
	Mass                   unit.Mass
	Volume                 unit.Volume
	OverMass               unit.Mass
	OverVolume             unit.Volume
}

// Spot is one place as it is: what is in it and how much still fits.
type Spot struct {
	Place
	Whole    int     // the spot that it is a part of, or -1
	Depth    int     // how many it is within
	Goods    []Goods // right in it, not in its parts; the oldest first
	Net, All unit.Mass
	Packs    int64 // right in it
	AllPacks int64 // with its parts
	Lots     int
	AllLots  int
	Litres   float64 // that All takes, as things lie there
	Rest     Rest
	Parts    bool // it has parts
}

// Store is all places as they are on a day. It lends from the state that it was looked up in, and is to be used as that may be.
type Store struct {
	Layout Layout
	Today  record.Day
	Spots  []Spot // each before its parts
	state  *lots.State
	keep   func(*lots.Lot) Kind
}

// Look looks up what lies where. Keep says how cold a lot must be kept; nil takes packs for frozen, and of others that nobody said.
func Look(layout Layout, state *lots.State, today record.Day, keep func(*lots.Lot) Kind) Store {
	if keep == nil {
		keep = func(l *lots.Lot) Kind { return map[lots.Sort]Kind{lots.Packs: Frozen}[l.Sort] }
	}
	stock := state.Stock()
	named := map[record.Place]bool{}
	for _, x := range stock {
		named[x.Place] = true
	}
	s := Store{Layout: layout.With(slices.Sorted(maps.Keys(named))), Today: today, state: state, keep: keep}
	for i, p := range s.Layout.places {
		spot := Spot{Place: p, Whole: s.Layout.in[i]}
		if spot.Whole >= 0 {
			spot.Depth = s.Spots[spot.Whole].Depth + 1
			s.Spots[spot.Whole].Parts = true
		}
		s.Spots = append(s.Spots, spot)
	}
	first := map[string]bool{} // kinds of which the oldest was met: stock comes the oldest first
	for _, x := range stock {
		g := Goods{Lot: x.Lot, Place: x.Place, Amount: x.Amount, Held: x.Held, Taste: x.Lot.Kept(x.Numbers), Net: x.Mass + state.MassOf(x.Lot, x.Numbers)}
		g.Kept = x.Lot.Held() && x.Held.Equal(x.Numbers)
		g.Past = x.Lot.Last() != "" && x.Lot.Last() < today
		kind := string(x.Lot.Sort) + " " + x.Lot.What
		g.Oldest = !g.Kept && !g.Past && !g.allTaste() && !first[kind]
		first[kind] = first[kind] || g.Oldest
		spot := &s.Spots[s.Layout.index[x.Place]]
		spot.Goods = append(spot.Goods, g)
		spot.Net, spot.Packs, spot.Lots = spot.Net+g.Net, spot.Packs+g.Numbers.Count(), spot.Lots+1
	}
	s.addUp()
	return s
}

// addUp adds the parts to their wholes, and says what is left.
func (s *Store) addUp() {
	for i := range s.Spots {
		p := &s.Spots[i]
		p.All, p.AllPacks, p.AllLots = p.Net, p.Packs, p.Lots
	}
	for i, p := range slices.Backward(s.Spots) {
		if p.Whole >= 0 {
			up := &s.Spots[p.Whole]
			up.All, up.AllPacks, up.AllLots = up.All+s.Spots[i].All, up.AllPacks+s.Spots[i].AllPacks, up.AllLots+s.Spots[i].AllLots
		}
	}
	for i := range s.Spots {
		p := &s.Spots[i]
		p.Litres = p.All.Kg() / float64(p.stow())
		p.Rest = restOf(p.Place, p.All)
	}
}

func restOf(p Place, holds unit.Mass) Rest {
	takes := unit.VolumeL(holds.Kg() / float64(p.stow()))
	return Rest{MassKnown: p.Room > 0, VolumeKnown: p.Volume > 0,
		Mass: max(0, p.Room-holds), OverMass: over(p.Room, holds), Volume: max(0, p.Volume-takes), OverVolume: over(p.Volume, takes)}
}

// over is how much more than the room there is, where the room is known.
func over[T ~int64](room, holds T) T {
	if room == 0 {
		return 0
	}
	return max(0, holds-room)
}

// Fits is the mass that still fits at a place, by mass and by volume, there and in what it is a part of; false when nobody said how much any
// of them holds.
func (s Store) Fits(at record.Place) (unit.Mass, bool) {
	i, there := s.Layout.index[at]
	if !there {
		return 0, false
	}
	return s.fitsWith(i, nil)
}

// Spot is a place by its ID.
func (s Store) Spot(id record.Place) (Spot, bool) {
	i, ok := s.Layout.index[id]
	if !ok {
		return Spot{}, false
	}
	return s.Spots[i], true
}

// OldestFirst is everything on hand: by the last day it is good, then by when it came.
func (s Store) OldestFirst() []Goods {
	var all []Goods
	for _, p := range s.Spots {
		all = append(all, p.Goods...)
	}
	slices.SortStableFunc(all, func(a, b Goods) int {
		return cmp.Or(cmp.Compare(cmp.Or(a.Lot.Last(), never), cmp.Or(b.Lot.Last(), never)), cmp.Compare(a.Lot.Born, b.Lot.Born), cmp.Compare(a.Lot.ID, b.Lot.ID))
	})
	return all
}

// never is after every day, for what nobody told a last day of.
const never record.Day = "9999"
