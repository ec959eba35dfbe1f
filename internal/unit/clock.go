package unit

import (
	"fmt"
	"strings"
)

const dayMinutes Clock = 24 * 60

// ParseClock reads a time of day on the 24-hour clock: 06:30, 14:05. 24:00 is the end of the day. Errors are *ParseError.
func ParseClock(text string) (Clock, error) {
	hours, minutes, found := strings.Cut(strings.TrimSpace(text), ":")
	switch {
	case hours == "" && !found:
		return 0, fail(clockKind, text, "is empty")
	case !found || !digits(hours, 1, 2) || !digits(minutes, 2, 2):
		return 0, fail(clockKind, text, "is not hours:minutes on the 24-hour clock")
	}
	h, m := twoDigits(hours), twoDigits(minutes)
	if m > 59 || h*60+m > dayMinutes {
		return 0, fail(clockKind, text, "is not in a day")
	}
	return h*60 + m, nil
}

func digits(text string, least, most int) bool {
	return len(text) >= least && len(text) <= most && strings.Trim(text, "0123456789") == ""
}

func twoDigits(text string) (n Clock) {
	for i := range len(text) {
		n = 10*n + Clock(text[i]-'0')
	}
	return n
}

// String is 06:30. A time before or after its day is shown as the time on the day it falls on.
func (c Clock) String() string {
	if c != dayMinutes {
		c = c.inDay()
	}
	return fmt.Sprintf("%02d:%02d", c/60, c%60)
}

func (c Clock) inDay() Clock { return (c%dayMinutes + dayMinutes) % dayMinutes }

// Add is the time of day d later, of the next day if need be: 22:00 and 3 h is 01:00. Seconds short of a minute are dropped.
func (c Clock) Add(d Span) Clock {
	day := int64(Day)
	s := (int64(c.inDay())*60 + int64(d)%day + day) % day
	return Clock(s / 60)
}

// MarshalText writes 06:30. JSON has it as a string. A time outside 00:00 to 24:00 is an error.
func (c Clock) MarshalText() ([]byte, error) {
	if c < 0 || c > dayMinutes {
		return nil, fmt.Errorf("%d minutes after midnight is not a time of day", int32(c))
	}
	return []byte(c.String()), nil
}

// UnmarshalText reads what ParseClock reads.
func (c *Clock) UnmarshalText(text []byte) error { return readInto(c, ParseClock, text) }
