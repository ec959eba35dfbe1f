package lots

import (
	"kettlefrost/internal/record"
	"kettlefrost/internal/trace"
)

// numbering is how the packs of a lot are counted from 1 without a gap, as package trace counts them: those that were made, then those that
// were never made and are told of all the same.
type numbering []record.Range

func numberingOf(made, told record.Numbers) numbering {
	var n numbering
	for r := range made.Ranges() {
		n = append(n, r)
	}
	for r := range told.Minus(made).Ranges() {
		n = append(n, r)
	}
	return n
}

// ranks is where packs stand in the numbering.
func (n numbering) ranks(of record.Numbers) []trace.Numbers {
	var ranks []trace.Numbers
	before := int64(0)
	for _, block := range n {
		for r := range of.Intersect(only(block)).Ranges() {
			ranks = append(ranks, trace.Numbers{First: before + r.First - block.First + 1, Last: before + r.Last - block.First + 1})
		}
		before += block.Count()
	}
	return ranks
}

// numbers is the way back.
func (n numbering) numbers(ranks []trace.Numbers) record.Numbers {
	var all []record.Range
	before := int64(0)
	for _, block := range n {
		for _, r := range ranks {
			if first, last := max(r.First-before, 1), min(r.Last-before, block.Count()); first <= last {
				all = append(all, record.Range{First: block.First + first - 1, Last: block.First + last - 1})
			}
		}
		before += block.Count()
	}
	return only(all...)
}

// only is the numbers of ranges that come from numbers, so that they can be.
func only(ranges ...record.Range) record.Numbers {
	n, err := record.NumbersOf(ranges...)
	if err != nil {
		panic(err)
	}
	return n
}
