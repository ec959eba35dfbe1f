package orders

import (
	"time"

	"kettlefrost/internal/record"
)

// Plus is the day so many days after another, or before it. What is no date stays as it is.
func Plus(day record.Day, days int) record.Day {
	t, err := time.Parse(time.DateOnly, string(day))
	if err != nil {
		return day
	}
	return record.Day(t.AddDate(0, 0, days).Format(time.DateOnly))
}

// Days is how many days there are from one day to another, negative when the other is before; 0 when one is no date.
func Days(from, to record.Day) int { return number(to) - number(from) }

// number is a day as days since 1970-01-01; 0 for what is no date.
func number(day record.Day) int {
	t, err := time.Parse(time.DateOnly, string(day))
	if err != nil {
		return 0
	}
	return int(t.Unix() / (24 * 60 * 60))
}

// isDay says whether a text is a date.
func isDay(text string) bool {
	_, err := time.Parse(time.DateOnly, text)
	return err == nil
}
