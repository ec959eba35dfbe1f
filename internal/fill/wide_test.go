package fill

import (
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

// Against the standard library's whole numbers of any size.
func TestWide(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := rapid.Int64Range(-1<<60, 1<<60).Draw(t, "a"), rapid.Int64Range(-1<<60, 1<<60).Draw(t, "b")
		c, d := rapid.Int64Range(-1<<57, 1<<57).Draw(t, "c"), rapid.Int64Range(-1<<57, 1<<57).Draw(t, "d")
		n := rapid.Int64Range(0, 60).Draw(t, "n")
		shift := rapid.IntRange(0, 63).Draw(t, "shift")
		got := product(a, b).plus(product(c, d)).minus(product(a, d)).times(n)
		mul := func(x, y int64) *big.Int { return new(big.Int).Mul(big.NewInt(x), big.NewInt(y)) }
		want := mul(a, b)
		want.Add(want, mul(c, d)).Sub(want, mul(a, d)).Mul(want, big.NewInt(n))
		if got.negative() != (want.Sign() < 0) || got.positive() != (want.Sign() > 0) {
			t.Fatalf("the sign of %v is wrong", want)
		}
		float, _ := new(big.Float).SetInt(want).Float64()
		if off := got.float() - float; off*off > 1e-24*float*float {
			t.Fatalf("%v as a float is %g", want, got.float())
		}
		if want.Rsh(want, uint(shift)); want.IsInt64() && got.over(shift) != want.Int64() {
			t.Fatalf("shifted by %d: %d, want %v", shift, got.over(shift), want)
		}
		if !want.IsInt64() && (got.over(shift) < 0) != (want.Sign() < 0) {
			t.Fatalf("shifted by %d out of range: %d, want the end towards %v", shift, got.over(shift), want)
		}
	})
}
