package draw

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/unit"
)

// tick is a place on an axis with its words; a bold one is a limit, and no other comes near it.
type tick struct {
	at   float64 // in the unit of the axis of the frame: seconds, metres or °C
	text string
	bold bool
}

// even are the multiples of step from low to high.
func even(low, high, step float64) []float64 {
	var all []float64
	for n := math.Ceil(low/step - 1e-9); n*step <= high+step*1e-9 && len(all) < 100; n++ {
		all = append(all, n*step+0) // +0: minus zero is zero
	}
	return all
}

// roundStep is the least of 1, 2, 5, 10, 20, 50 ... that divides a range into at most most parts.
func roundStep(wide float64, most int) float64 {
	for step := 1.0; ; step *= 10 {
		for _, m := range [...]float64{1, 2, 5} {
			if wide <= step*m*float64(most) {
				return step * m
			}
		}
	}
}

const (
	minuteS = 60.0
	hourS   = 3600.0
	dayS    = 24 * hourS
)

// timeSteps are those that people count time by.
var timeSteps = [...]float64{5, 10, 15, 30, minuteS, 2 * minuteS, 5 * minuteS, 10 * minuteS, 15 * minuteS, 30 * minuteS, hourS, 2 * hourS, 3 * hourS, 4 * hourS,
	6 * hourS, 12 * hourS, dayS, 2 * dayS, 5 * dayS, 10 * dayS, 20 * dayS, 50 * dayS, 100 * dayS, 200 * dayS, 500 * dayS, 1000 * dayS, 2000 * dayS}

// timeTicks divides a time into at most most parts, each with its unit, so that the axis needs no name.
func timeTicks(fromS, toS float64, most int) []tick {
	step := timeSteps[len(timeSteps)-1]
	for _, s := range timeSteps {
		if toS-fromS <= s*float64(max(1, most)) {
			step = s
			break
		}
	}
	var ticks []tick
	for _, t := range even(fromS, toS, step) {
		ticks = append(ticks, tick{at: t, text: timeWord(t, step)})
	}
	return ticks
}

// timeWord is a multiple of a step of timeSteps: 0, 10 min, 1½ h, 2 days.
func timeWord(t, step float64) string {
	whole := func(per float64, word string) string { return minus(fmt.Sprintf("%.0f %s", t/per, word)) }
	switch {
	case t == 0:
		return "0"
	case step < minuteS:
		return whole(1, "s")
	case step < 30*minuteS:
		return whole(minuteS, "min")
	case math.Mod(t, hourS) != 0:
		hours := strings.TrimPrefix(fmt.Sprintf("%.0f", math.Trunc(math.Abs(t)/hourS)), "0") + "½ h"
		if t < 0 {
			hours = "−" + hours
		}
		return hours
	case step < dayS:
		return whole(hourS, "h")
	case math.Abs(t) == dayS:
		return whole(dayS, "day")
	}
	return whole(dayS, "days")
}

// minus sets a true minus sign, which is seen at arm's length; a hyphen is not.
func minus(text string) string {
	if rest, ok := strings.CutPrefix(text, "-"); ok {
		return "−" + rest
	}
	return text
}

// degrees is a temperature in whole degrees with its unit.
func degrees(tempC float64, units unit.System) string { return minus(unit.TempC(tempC).Show(units)) }

// lasting is a span of time in words, with seconds only where they matter.
func lasting(timeS float64) string {
	if timeS == 0 {
		return "0"
	}
	return minus(unit.SpanS(timeS).Show(unit.Metric))
}

// degree is a temperature on one of the two scales, and fromDegree the way back.
func degree(tempC float64, units unit.System) float64 {
	if units == unit.US {
		return tempC*9/5 + 32
	}
	return tempC
}

func fromDegree(t float64, units unit.System) float64 {
	if units == unit.US {
		return (t - 32) * 5 / 9
	}
	return t
}

// tempTicks are round degrees of one scale at least apart °C from each other, and the limits, each in whole degrees. A round one
// that comes too near to a limit is left out: of 135 and 140 only the limit is worth reading.
func tempTicks(lowC, highC, apartC float64, units unit.System, limitsC []float64) []tick {
	low, high := degree(lowC, units), degree(highC, units)
	most := int(math.Floor((highC - lowC) / (apartC * 1.9)))
	var ticks []tick
	for _, t := range even(low, high, roundStep(high-low, max(1, most))) {
		at := fromDegree(t, units)
		if !slices.ContainsFunc(limitsC, func(l float64) bool { return math.Abs(l-at) < apartC }) {
			ticks = append(ticks, tick{at: at, text: minus(strconv.FormatFloat(t, 'f', 0, 64))})
		}
	}
	for _, l := range limitsC {
		text, _, _ := strings.Cut(degrees(l, units), " ")
		ticks = append(ticks, tick{at: l, text: text, bold: true})
	}
	return ticks
}

// inchSteps are those that a ruler has.
var inchSteps = [...]float64{1.0 / 16, 1.0 / 8, 1.0 / 4, 1.0 / 2, 1, 2, 3, 6, 12, 24, 60, 120, 240}

const inchM = 0.0254

// depthTicks divides a depth, in metres, into at most most parts of inches or millimetres.
func depthTicks(fromM, toM float64, most int, units unit.System) []tick {
	var ticks []tick
	if units == unit.US {
		step := inchSteps[len(inchSteps)-1]
		for _, s := range inchSteps {
			if (toM-fromM)/inchM <= s*float64(most) {
				step = s
				break
			}
		}
		for _, inches := range even(fromM/inchM, toM/inchM, step) {
			ticks = append(ticks, tick{at: inches * inchM, text: inchWord(inches)})
		}
		return ticks
	}
	for _, mm := range even(fromM*1000, toM*1000, roundStep((toM-fromM)*1000, most)) {
		ticks = append(ticks, tick{at: mm / 1000, text: minus(fmt.Sprintf("%.0f mm", mm))})
	}
	return ticks
}

// inchWord is inches in whole ones and sixteenths: 0 in, 3/4 in, 1 1/2 in.
func inchWord(inches float64) string {
	sixteenths, of := int(math.Round(math.Abs(inches)*16)), 16
	whole, part := sixteenths/16, sixteenths%16
	for part > 0 && part%2 == 0 {
		part, of = part/2, of/2
	}
	text := strconv.Itoa(whole)
	switch {
	case part > 0 && whole > 0:
		text += fmt.Sprintf(" %d/%d", part, of)
	case part > 0:
		text = fmt.Sprintf("%d/%d", part, of)
	}
	if inches < 0 {
		text = "−" + text
	}
	return text + " in"
}
