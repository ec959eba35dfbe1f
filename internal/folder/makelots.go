package folder

import (
	"cmp"
	"slices"

	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// lots are those asked for, then what went into them; pots among them.
func (m Material) lots() (all []LotRow) {
	for _, id := range m.Reach.Asked {
		l := m.lot(id)
		l.Asked = true
		all = append(all, l)
	}
	for _, id := range m.Reach.Behind {
		all = append(all, m.lot(id))
	}
	return all
}

func (m Material) lot(id record.Lot) LotRow {
	l := m.State.Lot(id)
	if l == nil {
		return LotRow{Lot: id, Sort: string(lots.Unknown)}
	}
	x := LotRow{Lot: id, Sort: string(l.Sort), What: l.What, Dish: l.Dish, Run: l.Run, Supplier: l.Supplier, SupplierLot: l.SupplierLot, Born: l.Born, Came: l.Came,
		Numbers: l.Numbers.String(), Label: l.Label, UseBy: l.UseBy, BestBefore: l.BestBefore, Reused: l.Reopened.String(), NotFound: l.Missing.String()}
	for place, a := range l.Here {
		x.Here = append(x.Here, Stay{place, a.Numbers.String(), a.Mass})
	}
	slices.SortFunc(x.Here, func(a, b Stay) int { return cmp.Compare(a.Place, b.Place) })
	for _, h := range l.Handed {
		x.Handed = append(x.Handed, Handed{h.Customer, h.Numbers.String(), h.At})
	}
	if off := l.WrittenOff; !off.Numbers.Empty() || off.Mass != 0 {
		x.Off = amount(off, m.Kitchen.Units)
	}
	return x
}

func amount(a lots.Amount, units unit.System) string {
	if a.Numbers.Empty() {
		return a.Mass.Show(units)
	}
	return "no. " + a.Numbers.String()
}
