package plan

import (
	"cmp"
	"slices"
)

// By says how a shopping list is put together.
type By string

const (
	BySupplier By = "supplier"
	ByStorage  By = "storage" // where it is kept, and within that where it stands in the shop
)

// BuyItem is what a shopping list has a line for: some packs of one offer.
type BuyItem struct {
	Line BuyLine
	Pack BuyPack
}

// Items are all packs to buy, put together by supplier or storage, then by aisle, then by name.
func (b Buy) Items(by By) []BuyItem {
	var all []BuyItem
	for _, l := range b.Lines {
		for _, p := range l.Packs {
			all = append(all, BuyItem{l, p})
		}
	}
	slices.SortStableFunc(all, func(x, y BuyItem) int {
		first := cmp.Compare(x.Line.Storage, y.Line.Storage)
		if by == BySupplier {
			first = cmp.Compare(x.Pack.Supplier, y.Pack.Supplier)
		}
		return cmp.Or(first, cmp.Compare(x.Line.Aisle, y.Line.Aisle), cmp.Compare(x.Line.Name, y.Line.Name))
	})
	return all
}
