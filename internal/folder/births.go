package folder

import "kettlefrost/internal/record"

// births is where lots come from.
type births struct {
	made   map[record.Lot][]record.Made
	packed map[record.Lot][]record.Packed
	used   map[string][]usedIn // by run/dish
	entry  map[record.Lot]record.ID
}

type usedIn struct {
	record.Used
	entry record.ID
}

func birthsOf(groups []Group) births {
	b := births{map[record.Lot][]record.Made{}, map[record.Lot][]record.Packed{}, map[string][]usedIn{}, map[record.Lot]record.ID{}}
	for _, g := range groups {
		if g.Holds == nil {
			continue
		}
		switch x := g.Says.(type) {
		case record.Made:
			b.made[x.Lot] = append(b.made[x.Lot], x)
			b.entry[x.Lot] = g.First.ID
		case record.Packed:
			b.packed[x.Lot] = append(b.packed[x.Lot], x)
			b.entry[x.Lot] = g.First.ID
		case record.Used:
			b.used[potKey(x.Run, x.Dish)] = append(b.used[potKey(x.Run, x.Dish)], usedIn{x, g.First.ID})
		}
	}
	return b
}
