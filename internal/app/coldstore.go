package app

import (
	"context"
	"maps"
	"strings"

	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// Cold shows what lies where as of a day, and what does not fit in the records. All of it is lent: it is not to be changed, nor kept.
func (r *Records) Cold(ctx context.Context, book kitchen.Book, today record.Day, at func(coldstore.Store, *lots.State, finding.List) error) error {
	return r.Lots(ctx, func(state *lots.State, found finding.List) error {
		return at(ColdOf(book, state, today), state, found)
	})
}

// ColdOf is what lies where by a state of the lots. It lends from the state.
func ColdOf(book kitchen.Book, state *lots.State, today record.Day) coldstore.Store {
	return coldstore.Look(PlacesOf(book), state, today, howCold(book))
}

// PlacesOf are the places of a book, each before its parts.
func PlacesOf(book kitchen.Book) coldstore.Layout {
	var all []coldstore.Place
	for id, p := range book.AllPlaces() {
		of := record.Place(id)
		all = append(all, coldstore.Place{ID: of, Name: p.Name, Kind: coldstore.Kind(p.Kind), Volume: p.Volume, Room: p.Room, Stow: p.Stow})
		for id, s := range p.Shelves {
			on := of + "/" + record.Place(id)
			all = append(all, coldstore.Place{ID: on, Name: s.Name, Volume: s.Volume, Room: s.Room, Reach: s.Reach})
			for id, b := range s.Boxes {
				all = append(all, coldstore.Place{ID: on + "/" + record.Place(id), Name: b.Name, Volume: b.Volume, Room: b.Room, Reach: b.Reach})
			}
		}
	}
	return coldstore.NewLayout(all)
}

// howCold is how cold lots must be kept: packs frozen, goods as the book says of the ingredient, and of what was just made nobody can say.
func howCold(book kitchen.Book) func(*lots.Lot) coldstore.Kind {
	return func(l *lots.Lot) coldstore.Kind {
		switch l.Sort {
		case lots.Packs:
			return coldstore.Frozen
		case lots.Goods:
			return coldstore.Kind(book.Ingredients[kitchen.IngredientID(l.What)].Storage)
		}
		return ""
	}
}

// PriceOf is what a pack of a lot is sold for by the book, 0 where it does not say.
func PriceOf(book kitchen.Book) func(*lots.Lot) unit.Money {
	return func(l *lots.Lot) unit.Money {
		if l.Sort != lots.Packs {
			return 0
		}
		return book.Packs[kitchen.PackID(l.What)].Price
	}
}

// LoadsOf are the packs of a plan, to be put away.
func LoadsOf(p plan.Plan) []coldstore.Load {
	var loads []coldstore.Load
	for _, f := range p.Fill {
		if f.Count > 0 {
			loads = append(loads, coldstore.Load{What: f.Pack, Name: f.Name, Packs: int64(f.Count), Each: f.Net + f.Over, Keep: coldstore.Frozen})
		}
	}
	return loads
}

// withHolds has each kind of freezer hold what the records say is in its places, so that a plan sees the room that is really left. As long as
// no entry tells of anything in any freezer, they hold what the book says.
func withHolds(book kitchen.Book, state *lots.State) kitchen.Book {
	of := map[record.Place]kitchen.FreezerID{}
	for id, p := range book.AllPlaces() {
		of[record.Place(id)] = p.Freezer
	}
	holds, told := map[kitchen.FreezerID]unit.Mass{}, false
	for l := range state.All() {
		for place, x := range l.Here {
			whole, _, _ := strings.Cut(string(place), "/")
			if id := of[record.Place(whole)]; id != "" {
				holds[id] += x.Mass + state.MassOf(l, x.Numbers)
				told = true
			}
		}
	}
	if !told {
		return book
	}
	book.Freezers = maps.Clone(book.Freezers)
	for id, f := range book.Freezers {
		f.Holds = holds[id]
		book.Freezers[id] = f
	}
	return book
}

// NetOf is what a pack of the book weighs net, by its fills; 0 where the book does not say.
func NetOf(book kitchen.Book, id kitchen.PackID) (sum unit.Mass) {
	pack := book.Packs[id]
	for _, f := range pack.Fill {
		each := f.Mass
		if f.Pieces > 0 {
			each = unit.Mass(f.Pieces) * pieceOf(book.Dishes[pack.Dish], f.Of)
		}
		if each == 0 {
			return 0
		}
		sum += each
	}
	return sum
}

// pieceOf is what a piece of an output weighs.
func pieceOf(d kitchen.Dish, of kitchen.OutputID) unit.Mass {
	for _, step := range d.Steps {
		for _, o := range step.Gives {
			if o.ID == of {
				return o.Piece
			}
		}
	}
	return 0
}
