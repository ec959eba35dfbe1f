package draw

import (
	"math"
	"strconv"
	"time"

	"kettlefrost/internal/unit"
)

// clocked tells whether the chart shows the clock on a wall.
func (t TempChart) clocked() bool { return !t.Zero.IsZero() }

// at is the instant of a time, in the zone of the chart.
func (t TempChart) at(timeS float64) time.Time {
	return t.Zero.Add(time.Duration(math.Round(timeS*1000)) * time.Millisecond)
}

// clock is a time in words: 14:05, 27 Nov 14:05 where the chart spans days, with the zone's name where the clock was put forward or back.
func (t TempChart) clock(timeS float64) string {
	if !t.clocked() {
		return lasting(timeS)
	}
	at := t.at(timeS)
	text := at.Format("15:04")
	if at.Second() != 0 && t.Until-t.From < 2*hourS {
		text = at.Format("15:04:05")
	}
	if t.manyDays() {
		text = at.Format("2 Jan 15:04")
	}
	if !t.oneClock() {
		text += " " + at.Format("MST")
	}
	return text
}

// manyDays tells whether the chart shows more than one day.
func (t TempChart) manyDays() bool {
	from, last := t.at(t.From), t.at(math.Max(t.From, t.Until-1))
	return from.YearDay() != last.YearDay() || from.Year() != last.Year()
}

// oneClock tells whether the clock on the wall is not put forward or back.
func (t TempChart) oneClock() bool { return t.at(t.From).Format("MST") == t.at(t.Until).Format("MST") }

// clockSteps are those by which a clock is read, in seconds.
var clockSteps = [...]int{60, 120, 300, 600, 900, 1800, 3600, 7200, 3 * 3600, 4 * 3600, 6 * 3600, 12 * 3600, 86400, 2 * 86400, 5 * 86400, 10 * 86400, 30 * 86400, 90 * 86400, 365 * 86400}

// clockTicks divides what the chart spans into at most most parts, at round times by the clock on the wall, also where it is put forward or back.
func (t TempChart) clockTicks(most int) []tick {
	step := clockSteps[len(clockSteps)-1]
	for _, s := range clockSteps {
		if t.Until-t.From <= float64(s*max(1, most)) {
			step = s
			break
		}
	}
	stride := min(step, 900) // every zone's clock is put by whole quarters of an hour
	if step >= 86400 {
		stride = 3600
	}
	from := t.at(t.From)
	_, offset := from.Zone()
	late := (int(from.Unix()) + offset) % stride
	first := from.Add(-time.Duration(late)*time.Second - time.Duration(from.Nanosecond()))
	var ticks []tick
	for at := first; ; at = at.Add(time.Duration(stride) * time.Second) {
		timeS := at.Sub(t.Zero).Seconds()
		if timeS > t.Until+1e-6 || len(ticks) > 100 {
			return ticks
		}
		_, offset := at.Zone()
		if wall := int(at.Unix()) + offset; timeS >= t.From-1e-6 && wall%step == 0 {
			ticks = append(ticks, tick{at: timeS, text: t.tickWord(at, step)})
		}
	}
}

func (t TempChart) tickWord(at time.Time, step int) string {
	switch {
	case step >= 90*86400:
		return at.Format("Jan 2006")
	case step >= 86400 || t.manyDays() && at.Hour() == 0 && at.Minute() == 0:
		return at.Format("2 Jan")
	}
	return at.Format("15:04")
}

// tenthDegrees is a temperature to a tenth: a whole degree would hide on which side of a limit it is.
func tenthDegrees(tempC float64, units unit.System) string {
	word := " °C"
	if units == unit.US {
		word = " °F"
	}
	return minus(strconv.FormatFloat(math.Round(degree(tempC, units)*10)/10+0, 'f', 1, 64)) + word
}

// bothTenths is a temperature in the reader's scale, and in the other.
func bothTenths(tempC float64, units unit.System) string {
	return tenthDegrees(tempC, units) + " (" + tenthDegrees(tempC, otherScale(units)) + ")"
}

// bothDegrees is bothTenths in whole degrees, for limits.
func bothDegrees(tempC float64, units unit.System) string {
	return degrees(tempC, units) + " (" + degrees(tempC, otherScale(units)) + ")"
}

func otherScale(units unit.System) unit.System {
	if units == unit.US {
		return unit.Metric
	}
	return unit.US
}
