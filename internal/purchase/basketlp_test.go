package purchase

import (
	"fmt"
	"strings"

	"kettlefrost/internal/unit"
)

// lpText is a basket as a mixed-integer program in CPLEX LP format, in whole cents and steps of 100 g:
//
//	x_i_k_t  packs of offer k of need i at price tier t, whole; z_i_k_t whether the tier is used (at most one tier of an offer)
//	v_i      surplus of need i that is worth something
//	y_j      whether supplier j is ordered from; d_j whether its delivery is paid for
//
// minimise prices + handling*y + delivery*d - worth of v, so that each need is covered, an order reaches its lowest value, and
// reaches free delivery unless delivery is paid for. It shares no code with the search.
func lpText(b Basket) string {
	var goal, rows, bounds, whole, binary strings.Builder
	goods := make([]strings.Builder, len(b.Suppliers))
	suppliers := make([]string, 0, len(b.Suppliers))
	for i, n := range b.Needs {
		var cover, keep strings.Builder
		for k, o := range n.Offers {
			used := lpOffer(b, i, k, &goal, &cover, &goods[o.Supplier], &rows, &bounds, &whole, &binary)
			if used != "" {
				fmt.Fprintf(&rows, " %s - y_%d <= 0\n", used, o.Supplier)
			}
		}
		if n.Keep.PerKg > 0 {
			fmt.Fprintf(&goal, " - %d v_%d\n", n.Keep.PerKg/unit.Cent/10, i)
			fmt.Fprintf(&bounds, " v_%d <= %d\n", i, steps(n.Keep.UpTo))
			fmt.Fprintf(&keep, " - v_%d", i)
		}
		fmt.Fprintf(&rows, "%s%s >= %d\n", cover.String(), keep.String(), steps(n.Mass))
	}
	for j, s := range b.Suppliers {
		fmt.Fprintf(&goal, " + %d y_%d\n", s.Handling/unit.Cent, j)
		fmt.Fprintf(&binary, " y_%d\n", j)
		suppliers = append(suppliers, fmt.Sprintf("y_%d", j))
		if goods[j].Len() == 0 {
			continue
		}
		if s.MinOrder > 0 {
			fmt.Fprintf(&rows, "%s - %d y_%d >= 0\n", goods[j].String(), s.MinOrder/unit.Cent, j)
		}
		if s.Delivery > 0 {
			fmt.Fprintf(&goal, " + %d d_%d\n", s.Delivery/unit.Cent, j)
			fmt.Fprintf(&binary, " d_%d\n", j)
			if s.FreeFrom > 0 {
				fmt.Fprintf(&rows, "%s + %d d_%d - %d y_%d >= 0\n", goods[j].String(), s.FreeFrom/unit.Cent, j, s.FreeFrom/unit.Cent, j)
			} else {
				fmt.Fprintf(&rows, " d_%d - y_%d >= 0\n", j, j)
			}
		}
	}
	if b.AtMost > 0 {
		fmt.Fprintf(&rows, " %s <= %d\n", strings.Join(suppliers, " + "), b.AtMost)
	}
	return "Minimize\n obj:" + goal.String() + "Subject To\n" + rows.String() + "Bounds\n" + bounds.String() + "General\n" + whole.String() + "Binary\n" + binary.String() + "End\n"
}

func steps(m unit.Mass) int64 { return int64(m / (100 * unit.Gram)) }

// lpOffer writes an offer, and returns the sum of what says that it is used.
func lpOffer(b Basket, i, k int, goal, cover, goods, rows, bounds, whole, binary *strings.Builder) string {
	n, o := b.Needs[i], b.Needs[i].Offers[k]
	s := b.Suppliers[o.Supplier]
	type step struct {
		from, to int64
		cents    int64
	}
	tiers := []step{{from: int64(max(1, o.Min)), cents: int64(o.Price / unit.Cent)}}
	for _, t := range o.Breaks {
		tiers[len(tiers)-1].to = int64(t.From) - 1
		tiers = append(tiers, step{from: int64(max(o.Min, t.From)), cents: int64(t.Price / unit.Cent)})
	}
	last := &tiers[len(tiers)-1]
	// More is never of use: it covers the need and what keeps alone, and reaches either order value alone.
	last.to = int64((n.Mass+n.Keep.UpTo)/o.Pack) + int64(max(s.MinOrder, s.FreeFrom)/unit.Cent)/last.cents + last.from + 2
	var used []string
	for t, p := range tiers {
		if o.Max >= 0 {
			p.to = min(p.to, int64(o.Max))
		}
		if p.from > p.to {
			continue
		}
		at := fmt.Sprintf("%d_%d_%d", i, k, t)
		fmt.Fprintf(goal, " + %d x_%s\n", p.cents, at)
		fmt.Fprintf(cover, " + %d x_%s", steps(o.Pack), at)
		fmt.Fprintf(goods, " + %d x_%s", p.cents, at)
		fmt.Fprintf(rows, " x_%s - %d z_%s <= 0\n", at, p.to, at)
		fmt.Fprintf(rows, " x_%s - %d z_%s >= 0\n", at, p.from, at)
		fmt.Fprintf(bounds, " x_%s <= %d\n", at, p.to)
		fmt.Fprintf(whole, " x_%s\n", at)
		fmt.Fprintf(binary, " z_%s\n", at)
		used = append(used, "z_"+at)
	}
	return strings.Join(used, " + ")
}
