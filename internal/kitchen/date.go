package kitchen

import "time"

// DaysBefore is the date so many days before another; "" when that is no date.
func DaysBefore(day string, n int) string {
	t, err := time.Parse(time.DateOnly, day)
	if err != nil {
		return ""
	}
	return t.AddDate(0, 0, -n).Format(time.DateOnly)
}

// DaysUntil is how many days there are from one date to another, negative when the other is before; false when one is no date.
func DaysUntil(from, to string) (int, bool) {
	a, errA := time.Parse(time.DateOnly, from)
	b, errB := time.Parse(time.DateOnly, to)
	if errA != nil || errB != nil {
		return 0, false
	}
	return int(b.Sub(a) / (24 * time.Hour)), true
}
