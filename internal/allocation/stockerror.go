package allocation

import "fmt"

// StockError says what of a stock cannot be, and what to write instead.
type StockError struct{ Where, Reason, Fix string }

func (e *StockError) Error() string { return "allocation: " + e.Where + ": " + e.Reason + "; " + e.Fix }

// limit bounds counts and days, so that no sum of them leaves the range of an int.
const limit = 1 << 40

func checkStock(s Stock) error {
	if bad(s.Today, -limit) || s.Steps < 0 || s.Keep != KeepLots && s.Keep != KeepCounts {
		return &StockError{"stock", "today, the steps or what to keep is out of range", "give a day number, steps of 0 or more, and KeepLots or KeepCounts"}
	}
	for i, l := range s.Lots {
		where := fmt.Sprintf("lot %d", i+1)
		if l.Product < 0 || bad(l.Packs, 0) || bad(l.BestBefore, -limit) {
			return &StockError{where, "its product, packs or best-before day is out of range", "give a product and packs of 0 or more"}
		}
		if err := checkRanges(where, l.Free, l.Packs); err != nil {
			return err
		}
	}
	for i, o := range s.Orders {
		where := fmt.Sprintf("order %d", i+1)
		if bad(o.Due, -limit) || bad(o.LeastLife, 0) || o.MostLots < 0 {
			return &StockError{where, "its due day, least life or number of lots is out of range", "give days and lots of 0 or more"}
		}
		for k, l := range o.Lines {
			if l.Product < 0 || bad(l.Packs, 0) {
				return &StockError{fmt.Sprintf("%s, line %d", where, k+1), "its product or packs are below zero or too many", "give a product and packs of 0 or more"}
			}
		}
	}
	for i, n := range s.Sells {
		if bad(n, 0) {
			return &StockError{fmt.Sprintf("product %d", i+1), "its sales in seven days are below zero or too many", "give packs of 0 or more"}
		}
	}
	return checkPromises(s)
}

func checkPromises(s Stock) error {
	for i, p := range s.Promises {
		where := fmt.Sprintf("promise %d", i+1)
		if p.Order < 0 || p.Order >= len(s.Orders) || p.Line < 0 || p.Line >= len(s.Orders[p.Order].Lines) || p.Lot < 0 || p.Lot >= len(s.Lots) {
			return &StockError{where, "it is for an order, a line or of a lot that is not there", "leave out promises to orders that were cancelled"}
		}
		if bad(p.Packs, 0) {
			return &StockError{where, "its packs are below zero or too many", "give packs of 0 or more"}
		}
		if s.Lots[p.Lot].Product != s.Orders[p.Order].Lines[p.Line].Product {
			return &StockError{where, "the lot is of another product than the line", "name a lot of the product that is ordered"}
		}
		if err := checkRanges(where, p.Numbers, p.Packs); err != nil {
			return err
		}
	}
	return nil
}

func checkRanges(where string, ranges []Range, packs int) error {
	n := 0
	for i, r := range ranges {
		if bad(r.First, 0) || r.Last < r.First || bad(r.Last, 0) || i > 0 && r.First <= ranges[i-1].Last {
			return &StockError{where, fmt.Sprintf("its numbers %d to %d overlap, fall or are out of range", r.First, r.Last), "give disjoint ranges, the lowest first"}
		}
		n += r.Last - r.First + 1
	}
	if len(ranges) > 0 && packs != 0 && packs != n {
		return &StockError{where, fmt.Sprintf("its numbers are %d packs, not %d", n, packs), "leave the packs at 0, or count again"}
	}
	return nil
}

func bad(n, least int) bool { return n < least || n > limit }
