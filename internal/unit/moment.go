package unit

import (
	"fmt"
	"strconv"
	"strings"
)

// Moment is a time in whole minutes after midnight of the day on which a run starts. Unlike a Clock it may lie on a later day.
type Moment int32

// String is 06:30; on a later day 01:10+1 with the days in between. A time before the first day has a minus.
func (m Moment) String() string {
	day := Moment(dayMinutes)
	days := m / day
	if m < 0 && m%day != 0 {
		days--
	}
	text := Clock(m - days*day).String()
	if days != 0 {
		text += fmt.Sprintf("%+d", days)
	}
	return text
}

// MarshalText writes what String shows. JSON has it as a string.
func (m Moment) MarshalText() ([]byte, error) { return []byte(m.String()), nil }

// UnmarshalText reads what String shows. Errors are *ParseError.
func (m *Moment) UnmarshalText(text []byte) error {
	clock, days := string(text), 0
	if i := strings.IndexAny(clock, "+-"); i >= 0 {
		n, err := strconv.Atoi(clock[i:])
		if err != nil || n < -1_000_000 || n > 1_000_000 {
			return fail(clockKind, string(text), "is no time with a number of days")
		}
		clock, days = clock[:i], n
	}
	c, err := ParseClock(clock)
	if err != nil {
		return err
	}
	*m = Moment(c) + Moment(days)*Moment(dayMinutes)
	return nil
}
