package coldwatch

import (
	"fmt"
	"math"
	"strconv"

	"kettlefrost/internal/unit"
)

// Degrees is a temperature in words, to a tenth of a degree: at limits, tenths matter.
func Degrees(c float64, units unit.System) string {
	word := " °C"
	if units == unit.US {
		c, word = c*1.8+32, " °F"
	}
	return strconv.FormatFloat(math.Round(c*10)/10+0, 'f', -1, 64) + word // +0: minus zero is zero
}

// Length is how long something took, in words: minutes below two hours, hours and minutes below two days.
func Length(ms int64) string {
	minutes := (ms + minuteMs/2) / minuteMs
	switch h := minutes / 60; {
	case minutes < 120:
		return fmt.Sprintf("%d min", minutes)
	case h < 48 && minutes%60 == 0:
		return fmt.Sprintf("%d h", h)
	case h < 48:
		return fmt.Sprintf("%d h %d min", h, minutes%60)
	case h%24 == 0:
		return fmt.Sprintf("%d days", h/24)
	default:
		return fmt.Sprintf("%d days %d h", h/24, h%24)
	}
}
