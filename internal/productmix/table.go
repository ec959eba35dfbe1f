package productmix

import (
	"math"
	"math/big"

	"kettlefrost/internal/fill"
	"kettlefrost/internal/unit"
)

// table is a problem in the words of package fill: a lot is a pack, and each resource, and each demand that several sizes of lot share,
// is a stock. Amounts are divided by the greatest common divisor of what lots use, which changes nothing, since lots are whole.
type table struct {
	p    Problem
	lots []lotAt
	rows []row
}

type lotAt struct{ product, lot int }

// row is a stock.
type row struct {
	resource, product int // which it is; the other is -1
	have              int64
	uses              []int64 // of each lot in the table
}

func newTable(p Problem) *table {
	t := &table{p: p}
	for i, x := range p.Products {
		for j := range x.Lots {
			t.lots = append(t.lots, lotAt{i, j})
		}
	}
	for k, r := range p.Resources {
		t.addRow(row{resource: k, product: -1, have: r.Have}, func(_ int, l Lot) int64 { return l.Uses[k] })
	}
	for i, x := range p.Products {
		if x.Demand >= 0 && len(x.Lots) > 1 {
			t.addRow(row{resource: -1, product: i, have: x.Demand}, func(product int, l Lot) int64 {
				if product != i {
					return 0
				}
				return l.Packs
			})
		}
	}
	return t
}

// addRow leaves out what no lot uses.
func (t *table) addRow(r row, use func(product int, l Lot) int64) {
	var unit int64
	for _, at := range t.lots {
		u := use(at.product, t.lot(at))
		r.uses = append(r.uses, u)
		unit = gcd(u, unit)
	}
	if unit == 0 {
		return
	}
	r.have /= unit
	for i := range r.uses {
		r.uses[i] /= unit
	}
	t.rows = append(t.rows, r)
}

// gcd is the greatest common divisor of two numbers that are 0 or more.
func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

func (t *table) lot(at lotAt) Lot { return t.p.Products[at.product].Lots[at.lot] }

// limit is the most lots that demand and resources allow of one alone, and that other sizes leave a reason to make. What earns nothing is
// made no more than it must be.
func (t *table) limit(i int) int64 {
	at := t.lots[i]
	l := t.lot(at)
	if l.Contribution <= 0 {
		return l.Least
	}
	limit := t.enough(i)
	if d := t.p.Products[at.product].Demand; d >= 0 {
		limit = min(limit, d/l.Packs)
	}
	for _, r := range t.rows {
		if r.uses[i] > 0 {
			limit = min(limit, r.have/r.uses[i])
		}
	}
	return limit
}

// short is what the lots that must be made go beyond.
func (t *table) short() error {
	var e ShortError
	add := func(s Shortage, need *big.Int, name string) {
		if need.Cmp(big.NewInt(s.Have)) <= 0 {
			return
		}
		s.Need = math.MaxInt64 // held at the end of the range
		if need.IsInt64() {
			s.Need = need.Int64()
		}
		if len(e.Short) == 0 {
			e.Name = name
		}
		e.Short = append(e.Short, s)
	}
	for k, r := range t.p.Resources {
		add(Shortage{Resource: k, Product: -1, Have: r.Have}, t.must(func(_ int, l Lot) int64 { return l.Uses[k] }), r.Name)
	}
	for i, x := range t.p.Products {
		if x.Demand < 0 {
			continue
		}
		add(Shortage{Resource: -1, Product: i, Have: x.Demand}, t.must(func(product int, l Lot) int64 {
			if product != i {
				return 0
			}
			return l.Packs
		}), "the demand for "+x.Name)
	}
	if len(e.Short) > 0 {
		return &e
	}
	return nil
}

// must adds up what the lots that must be made use.
func (t *table) must(use func(product int, l Lot) int64) *big.Int {
	sum := new(big.Int)
	for _, at := range t.lots {
		l := t.lot(at)
		sum.Add(sum, new(big.Int).Mul(big.NewInt(l.Least), big.NewInt(use(at.product, l))))
	}
	return sum
}

// problem is the table for package fill. With thrift, of mixes that earn the same the one that uses least is preferred, if the figures are
// small enough for it.
func (t *table) problem(thrift bool) (fill.Problem, bool) {
	f := fill.Problem{Budget: t.p.Budget}
	for _, r := range t.rows {
		f.Stock = append(f.Stock, unit.Mass(r.have))
	}
	for i, at := range t.lots {
		l := t.lot(at)
		k := fill.Pack{Name: place(t.p.Products[at.product], l), Value: int64(l.Contribution), Min: int(l.Least), Max: int(t.limit(i))}
		for j, r := range t.rows {
			if r.uses[i] > 0 {
				k.Needs = append(k.Needs, fill.Need{Output: j, Mass: unit.Mass(r.uses[i])})
			}
		}
		f.Packs = append(f.Packs, k)
	}
	return f, thrift && t.beThrifty(&f)
}
