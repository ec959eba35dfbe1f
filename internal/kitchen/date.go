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
