package app

import (
	"time"

	"kettlefrost/internal/unit"
)

// longestRun is more days than a run goes on.
const longestRun = 7

// MomentOn is a time of the clock as a moment of a run that starts on a day: minutes after the midnight before it, by the clock on the
// wall. It is false when the day is no date, or when the run is not on that day or the few after it.
func MomentOn(day string, now time.Time) (unit.Moment, bool) {
	start, err := time.Parse(time.DateOnly, day)
	if err != nil {
		return 0, false
	}
	today := time.Date(now.Year(), now.Month(), now.Day(), 0, 0, 0, 0, time.UTC)
	days := int(today.Sub(start).Hours() / 24)
	if today.Before(start) || days >= longestRun {
		return 0, false
	}
	return unit.Moment(days*24*60 + now.Hour()*60 + now.Minute()), true
}
