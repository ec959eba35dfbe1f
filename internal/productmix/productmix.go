// Package productmix decides what a week is best spent on when hours and freezer room are short: which lot earns the most for each unit
// of what limits it (Rank), how many lots of each product earn the most together (Best), and what one more unit of a resource would be
// worth (Worths).
//
// Everything is whole: lots, units of resources, millionths of money. Best hands the problem to package fill, which is branch and
// bound with bounds in whole numbers, so that a mix is proven the best or comes with what a better one could earn at most. What one
// more unit is worth is found by solving again with one more, since the multiplier of a linear relaxation holds for parts of lots
// that nobody can cook.
package productmix

import (
	"fmt"

	"kettlefrost/internal/unit"
)

// Problem is a week's choice.
type Problem struct {
	Resources []Resource
	Products  []Product
	Budget    int // search steps for a proof; 0 is the default of package fill
}

// Resource is something there is only so much of, in whole units of the caller's choice: seconds of hands, of a kettle, millilitres of
// freezer.
type Resource struct {
	Name string
	Have int64
	Step int64 // what one more is, in the same units, for Rank and Worths: 3600 for an hour counted in seconds
}

// Product is what is sold. It can be made in one or more sizes of lot.
type Product struct {
	Name   string
	Demand int64 // most packs that sell; negative is no limit
	Lots   []Lot
}

// Lot is what is made at once and whole: a kettle full, half a kettle, or one pack.
type Lot struct {
	Name         string
	Packs        int64
	Contribution unit.Money // of all its packs, less what the lot costs to make at all
	Uses         []int64    // of each resource, for the whole lot
	Least        int64      // lots that must be made, such as those already promised
	// AtMost says that a price was missing from the cost, so that the contribution is at most this.
	AtMost bool
}

// InputError says which part of a problem makes no sense, and what puts it right.
type InputError struct{ Where, Reason, Fix string }

func (e *InputError) Error() string { return fmt.Sprintf("%s: %s: %s", e.Where, e.Reason, e.Fix) }

// Shortage is a resource, or a product's demand, that the lots that must be made go beyond.
type Shortage struct {
	Resource   int // index, or -1
	Product    int // index, or -1
	Need, Have int64
}

// ShortError says that the lots that must be made can't be.
type ShortError struct {
	Name  string // of the first
	Short []Shortage
}

func (e *ShortError) Error() string {
	s := e.Short[0]
	return fmt.Sprintf("what must be made takes %d of %s, of which there are %d (%d are short): promise fewer lots or find more", s.Need, e.Name, s.Have, len(e.Short))
}

// The most lots or demand, and the most packs in a lot: more than any kitchen makes, and sums of their products stay inside the range.
const (
	most      = 1 << 36
	mostInLot = 1 << 20
)

func (p Problem) check() error {
	for _, r := range p.Resources {
		if r.Have < 0 || r.Step < 0 {
			return &InputError{"resource " + r.Name, "there is less than nothing of it, or its step is negative", "give both as 0 or more"}
		}
	}
	for _, x := range p.Products {
		if len(x.Lots) == 0 || x.Demand > most {
			return &InputError{"product " + x.Name, "has no lot, or a demand beyond counting", "give at least one size of lot, and a demand that can be"}
		}
		for _, l := range x.Lots {
			if err := l.check(x, len(p.Resources)); err != nil {
				return err
			}
		}
	}
	return nil
}

func (l Lot) check(x Product, resources int) error {
	bad := func(reason, fix string) error { return &InputError{place(x, l), reason, fix} }
	if l.Packs <= 0 || l.Packs > mostInLot {
		return bad("holds no packs, or more than can be counted", "give 1 pack or more")
	}
	if l.Least < 0 || l.Least > most {
		return bad("the lots that must be made are negative, or beyond counting", "give 0 or more")
	}
	if len(l.Uses) != resources {
		return bad(fmt.Sprintf("uses %d resources of %d", len(l.Uses), resources), "say for every resource what the lot uses, 0 for none")
	}
	limited := x.Demand >= 0
	for _, u := range l.Uses {
		if u < 0 {
			return bad("uses less than nothing of a resource", "give 0 or more")
		}
		limited = limited || u > 0
	}
	if !limited && l.Contribution > 0 {
		return bad("nothing limits how many are made", "give the product a demand, or say what a lot uses")
	}
	return nil
}

func place(x Product, l Lot) string { return fmt.Sprintf("product %s, lot %s", x.Name, l.Name) }
