package invoice

import (
	"testing"

	"kettlefrost/internal/unit"
)

func TestWhereHalfACentGoes(t *testing.T) {
	for _, x := range []struct {
		rule Rounding
		v    unit.Money // millionths
		want int64      // cents
	}{
		{HalfUp, 5_000, 1}, {HalfUp, 4_999, 0}, {HalfUp, 15_000, 2}, {HalfUp, -5_000, -1}, {HalfUp, -4_999, 0}, {HalfUp, -15_000, -2}, {HalfUp, -5_001, -1}, {HalfUp, -20_000, -2},
		{HalfEven, 5_000, 0}, {HalfEven, 5_001, 1}, {HalfEven, 15_000, 2}, {HalfEven, 25_000, 2}, {HalfEven, -5_000, 0}, {HalfEven, -15_000, -2}, {HalfEven, -25_000, -2}, {HalfEven, -25_001, -3},
	} {
		if got := x.rule.cents(x.v, 1, 1); got != c(x.want) {
			t.Errorf("rule %d: %s is %s, want %s", x.rule, x.v, got, c(x.want))
		}
	}
}
