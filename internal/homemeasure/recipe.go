package homemeasure

import (
	"errors"
	"fmt"
	"strings"
)

// Numbered is a line with its number in the text, counted from 1.
type Numbered struct {
	Number int
	Line   Line
}

// NumberedError is a line of a text that cannot be taken.
type NumberedError struct {
	Number int
	Err    error
}

// Error is one line.
func (e *NumberedError) Error() string { return fmt.Sprintf("line %d: %v", e.Number, e.Err) }

// Unwrap is the cause.
func (e *NumberedError) Unwrap() error { return e.Err }

// mostLines of one recipe; more is not a recipe.
const mostLines = 500

// ParseLines reads the ingredients of a home recipe, one on a line; empty lines are passed over. What can be read is returned beside the errors
// of what cannot: each a *NumberedError, joined.
func ParseLines(text string) ([]Numbered, error) {
	var lines []Numbered
	var errs []error
	number := 0
	for row := range strings.Lines(text) {
		number++
		if strings.TrimSpace(row) == "" {
			continue
		}
		if number > mostLines {
			return lines, errors.Join(append(errs, &NumberedError{number, &LineError{short(strings.TrimSpace(row)), "is too far down", fmt.Sprintf("give a recipe of up to %d lines", mostLines)}})...)
		}
		l, err := ParseLine(strings.TrimRight(row, "\r\n"))
		if err != nil {
			errs = append(errs, &NumberedError{number, err})
			continue
		}
		lines = append(lines, Numbered{number, l})
	}
	return lines, errors.Join(errs...)
}
