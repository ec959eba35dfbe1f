package invoice

import (
	"fmt"
	"strconv"
	"strings"
)

// Series is how invoices are numbered: Before, the year with a dash if they begin anew each year, then a number with at least so many
// digits: R-2026-0042.
type Series struct {
	Before string
	Yearly bool
	Digits int // 1 to 9
}

// SeriesError says what of a pattern or a number cannot be read.
type SeriesError struct{ Text, Reason, Fix string }

func (e *SeriesError) Error() string {
	return fmt.Sprintf("invoice: number %q: %s; %s", e.Text, e.Reason, e.Fix)
}

const yearWord = "YYYY-"

// ParseSeries reads a pattern: R-YYYY-0000 is R-2026-0001 and so on, begun anew each year; 00000 is 00001. What stands before holds no
// digits, so that a number can be read in one way only. Errors are *SeriesError.
func ParseSeries(pattern string) (Series, error) {
	before := strings.TrimRight(pattern, "0")
	s := Series{Digits: len(pattern) - len(before)}
	s.Before, s.Yearly = strings.CutSuffix(before, yearWord)
	switch {
	case s.Digits < 1 || s.Digits > 9:
		return Series{}, &SeriesError{pattern, "it does not end in one to nine zeros", "write it like R-YYYY-0000"}
	case strings.Contains(s.Before, "YYYY"):
		return Series{}, &SeriesError{pattern, "the year stands elsewhere than before the number, or has no dash", "write it like R-YYYY-0000"}
	case len(s.Before) > 20 || strings.ContainsAny(s.Before, "0123456789\x00\r\n\t"):
		return Series{}, &SeriesError{pattern, "what stands before the number is longer than 20, or holds digits or breaks", "write it like R-YYYY-0000"}
	}
	return s, nil
}

// String is the pattern.
func (s Series) String() string {
	if s.Yearly {
		return s.Before + yearWord + strings.Repeat("0", s.Digits)
	}
	return s.Before + strings.Repeat("0", s.Digits)
}

// Format writes a number, from 1, of a year from 0 to 9999.
func (s Series) Format(year, n int) string {
	if s.Yearly {
		return fmt.Sprintf("%s%04d-%0*d", s.Before, year, s.Digits, n)
	}
	return fmt.Sprintf("%s%0*d", s.Before, s.Digits, n)
}

// Parse reads a number as Format writes it, and in no other way. The year is 0 if the series has none. Errors are *SeriesError.
func (s Series) Parse(text string) (year, n int, err error) {
	bad := &SeriesError{text, "it is not of the series " + s.String(), "write it like " + s.Format(2026, 1)}
	rest, ok := strings.CutPrefix(text, s.Before)
	if !ok {
		return 0, 0, bad
	}
	if s.Yearly {
		word, number, found := strings.Cut(rest, "-")
		y, err := strconv.ParseUint(word, 10, 31)
		if !found || err != nil {
			return 0, 0, bad
		}
		year, rest = int(y), number
	}
	v, err := strconv.ParseUint(rest, 10, 31)
	if err != nil || v < 1 || s.Format(year, int(v)) != text {
		return 0, 0, bad
	}
	return year, int(v), nil
}
