package costing

import (
	"errors"
	"fmt"
	"math"
	"math/big"

	"kettlefrost/internal/unit"
)

// RangeError says which figure of a sum makes no sense or leaves the range of the quantity, and what puts it right.
type RangeError struct{ What, Reason, Fix string }

func (e *RangeError) Error() string { return fmt.Sprintf("%s: %s: %s", e.What, e.Reason, e.Fix) }

// at is err with the place in front of what it names.
func at(place string, err error) error {
	var bad *RangeError
	if place == "" || !errors.As(err, &bad) {
		return err
	}
	return &RangeError{place + ", " + bad.What, bad.Reason, bad.Fix}
}

// rounding is what happens to the part of a millionth that a division leaves.
type rounding int

const (
	halfUp rounding = iota // to the nearest, a half goes up
	up                     // never less than the exact figure
)

// fraction is the product of nums over the product of dens, exact until it is rounded once at the end. Package unit multiplies and
// divides once and holds what is too large at the end of its range; a cost sheet needs longer products, and must say when a
// figure is out of range rather than show the largest there is.
type fraction struct{ num, den *big.Int }

func over(nums, dens []int64) fraction { return fraction{product(nums), product(dens)} }

func product(factors []int64) *big.Int {
	p := big.NewInt(1)
	for _, f := range factors {
		p.Mul(p, big.NewInt(f))
	}
	return p
}

// whole rounds the fraction; what names it in an error.
func (f fraction) whole(what string, r rounding) (int64, error) {
	if f.den.Sign() <= 0 {
		return 0, &RangeError{what, "would divide by nothing", "give a figure above 0 to divide by"}
	}
	num := new(big.Int).Set(f.num)
	den := new(big.Int).Set(f.den)
	switch r {
	case halfUp: // floor(x + 1/2) = floor((2 num + den) / (2 den))
		num.Add(num.Lsh(num, 1), den)
		den.Lsh(den, 1)
	case up: // ceil(x) = floor((num + den - 1) / den)
		num.Add(num, den).Sub(num, big.NewInt(1))
	}
	num.Div(num, den) // rounds down for den > 0
	if !num.IsInt64() {
		return 0, &RangeError{what, "is too large", "check the amounts and their units"}
	}
	return num.Int64(), nil
}

// RoundedUp is m up to the next whole step, such as unit.Cent, for a total that must not lose part of a cent. A step of 0 or less
// leaves m as it is; out of range it is held at the end.
func RoundedUp(m, step unit.Money) unit.Money {
	if step <= 0 || m%step == 0 {
		return m
	}
	if m < 0 {
		return m - m%step
	}
	if below := m - m%step; below <= math.MaxInt64-step {
		return below + step
	}
	return math.MaxInt64
}

// Sum adds up amounts of money; the error says that they leave the range.
func Sum(amounts ...unit.Money) (unit.Money, error) {
	total := new(big.Int)
	for _, m := range amounts {
		total.Add(total, big.NewInt(int64(m)))
	}
	sum, err := fraction{total, big.NewInt(1)}.whole("sum", halfUp)
	return unit.Money(sum), err
}
