package kitchen_test

import (
	"testing"

	"kettlefrost/internal/kitchen"
)

// TestDaysBefore knows leap years and the ends of months and years.
func TestDaysBefore(t *testing.T) {
	for _, c := range []struct {
		day  string
		n    int
		want string
	}{{"2026-12-01", 1, "2026-11-30"}, {"2026-01-01", 1, "2025-12-31"}, {"2028-03-01", 1, "2028-02-29"}, {"2026-03-01", 7, "2026-02-22"}, {"2026-12-01", 0, "2026-12-01"}, {"soon", 1, ""}, {"", 3, ""}} {
		if got := kitchen.DaysBefore(c.day, c.n); got != c.want {
			t.Errorf("%d days before %q is %q, want %q", c.n, c.day, got, c.want)
		}
	}
}
