package productmix

import (
	"errors"
	"fmt"
	"math/big"

	"kettlefrost/internal/fill"
	"kettlefrost/internal/unit"
)

// Mix is how many lots to make.
type Mix struct {
	Lots         [][]int64 // of each product, of each of its sizes
	Packs        []int64   // of each product
	Contribution unit.Money
	Uses         []int64 // of each resource
	Stops        [][]Stop
	Proof        Proof
	// AtMost says that the contribution of some lot was an upper bound: if it is made, so is the mix's, and another mix may be better
	// whether it is made or not.
	AtMost bool
}

// Proof says how sure a mix is.
type Proof struct {
	Bound unit.Money // no mix earns more
	Steps int        // search steps used
	// Thrifty says that of all mixes that earn the same this one uses the least, each resource as a share, in millionths, of what there is.
	Thrifty bool
}

// Gap is how much more a better mix could earn at most; 0 means that this one is proven the best.
func (m Mix) Gap() unit.Money { return m.Proof.Bound - m.Contribution }

// Stop is what stops one more of a lot: a resource or the demand, or neither, when one more would fit but earns nothing.
type Stop struct {
	Resources []int // all of which there is not enough left
	Demand    bool
}

// Best finds the mix that earns the most. It returns *InputError for a problem that makes no sense and *ShortError when the lots that must
// be made can't be.
func Best(p Problem) (Mix, error) { return best(p, true) }

func best(p Problem, thrift bool) (Mix, error) {
	if err := p.check(); err != nil {
		return Mix{}, err
	}
	t := newTable(p)
	if err := t.short(); err != nil {
		return Mix{}, err
	}
	f, thrifty := t.problem(thrift)
	plan, err := fill.Solve(f)
	var bad *fill.InputError
	if errors.As(err, &bad) {
		where := "the problem"
		if bad.Pack >= 0 {
			where = f.Packs[bad.Pack].Name
		}
		return Mix{}, &InputError{where, bad.Reason, "check the amounts, or count in larger units"}
	}
	if err != nil {
		return Mix{}, err
	}
	m := t.mix(plan.Count)
	m.Proof = Proof{Bound: unit.Money(plan.Proof.Bound), Steps: plan.Proof.Steps, Thrifty: thrifty && plan.Proof.Optimal}
	return m, nil
}

// mix adds a plan up.
func (t *table) mix(count []int) Mix {
	m := Mix{Packs: make([]int64, len(t.p.Products)), Uses: make([]int64, len(t.p.Resources))}
	for _, x := range t.p.Products {
		m.Lots = append(m.Lots, make([]int64, len(x.Lots)))
		m.Stops = append(m.Stops, make([]Stop, len(x.Lots)))
	}
	for i, at := range t.lots {
		l, n := t.lot(at), int64(count[i])
		m.Lots[at.product][at.lot] = n
		m.Packs[at.product] += n * l.Packs
		m.Contribution += unit.Money(n) * l.Contribution
		m.AtMost = m.AtMost || l.AtMost
		for k, u := range l.Uses {
			m.Uses[k] += n * u
		}
	}
	for _, at := range t.lots {
		m.Stops[at.product][at.lot] = t.stop(at, m)
	}
	return m
}

// stop is what one more lot would go beyond.
func (t *table) stop(at lotAt, m Mix) Stop {
	l, demand := t.lot(at), t.p.Products[at.product].Demand
	s := Stop{Demand: demand >= 0 && l.Packs > demand-m.Packs[at.product]}
	for k, u := range l.Uses {
		if u > t.p.Resources[k].Have-m.Uses[k] {
			s.Resources = append(s.Resources, k)
		}
	}
	return s
}

// Check adds a mix up with none of the code that found it: lots within what must be made and what sells, nothing used that is not
// there, and the money as stated. It does not say that the mix is the best.
func Check(p Problem, m Mix) error {
	if len(m.Lots) != len(p.Products) {
		return &InputError{"the mix", "is for another problem", "solve again"}
	}
	money := new(big.Int)
	used := make([]*big.Int, len(p.Resources))
	for k := range used {
		used[k] = new(big.Int)
	}
	for i, x := range p.Products {
		if len(m.Lots[i]) != len(x.Lots) {
			return &InputError{"product " + x.Name, "has other lots", "solve again"}
		}
		packs := new(big.Int)
		for j, l := range x.Lots {
			n := big.NewInt(m.Lots[i][j])
			if m.Lots[i][j] < l.Least {
				return &InputError{place(x, l), fmt.Sprintf("%v made, fewer than %d", n, l.Least), "solve again"}
			}
			packs.Add(packs, new(big.Int).Mul(n, big.NewInt(l.Packs)))
			money.Add(money, new(big.Int).Mul(n, big.NewInt(int64(l.Contribution))))
			for k, u := range l.Uses {
				used[k].Add(used[k], new(big.Int).Mul(n, big.NewInt(u)))
			}
		}
		if x.Demand >= 0 && packs.Cmp(big.NewInt(x.Demand)) > 0 {
			return &InputError{"product " + x.Name, fmt.Sprintf("%v packs, of which %d sell", packs, x.Demand), "solve again"}
		}
	}
	for k, r := range p.Resources {
		if used[k].Cmp(big.NewInt(r.Have)) > 0 {
			return &InputError{"resource " + r.Name, fmt.Sprintf("uses %v of %d", used[k], r.Have), "solve again"}
		}
	}
	if money.Cmp(big.NewInt(int64(m.Contribution))) != 0 {
		return &InputError{"the mix", fmt.Sprintf("earns %v millionths, not %d", money, int64(m.Contribution)), "solve again"}
	}
	return nil
}
