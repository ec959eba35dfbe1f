package foodtable

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"

	"kettlefrost/internal/finding"
)

// ParseError is a cell, line or file that cannot be taken.
type ParseError struct {
	At    finding.Position // file, line, and column counted in bytes
	Field string           // the name of the column, "" when the whole line is meant
	Err   error
}

// Error is "foods.csv:3:17: fat_g: ...".
func (e *ParseError) Error() string {
	if e.Field == "" {
		return fmt.Sprintf("%s: %v", e.At, e.Err)
	}
	return fmt.Sprintf("%s: %s: %v", e.At, e.Field, e.Err)
}

// Unwrap is the cause.
func (e *ParseError) Unwrap() error { return e.Err }

// maxErrors is how many mistakes of one file are worth reading.
const maxErrors = 20

// sheet reads one CSV file and collects what is wrong with it.
type sheet struct {
	file    string
	columns []string
	csv     *csv.Reader
	cells   []string // of the line being read
	errs    []error
}

// read gives every line after the header to take, and returns all that was wrong, joined.
func (s *sheet) read(r io.Reader, take func(*sheet)) error {
	if r == nil {
		return &ParseError{At: finding.Position{File: s.file}, Err: errors.New("no file given")}
	}
	s.csv = csv.NewReader(r)
	s.csv.FieldsPerRecord = len(s.columns)
	s.csv.ReuseRecord = true
	if !s.next() {
		if len(s.errs) == 0 {
			s.errs = append(s.errs, &ParseError{At: finding.Position{File: s.file, Line: 1}, Err: errors.New("empty, want a header line")})
		}
		return errors.Join(s.errs...)
	}
	for i, want := range s.columns {
		if s.cells[i] != want {
			s.fail(i, fmt.Errorf("the header says %q", s.cells[i]))
		}
	}
	if len(s.errs) > 0 {
		return errors.Join(s.errs...)
	}
	for len(s.errs) < maxErrors && s.next() {
		take(s)
	}
	return errors.Join(s.errs...)
}

// next reads one line; a line that is no CSV ends the file.
func (s *sheet) next() bool {
	cells, err := s.csv.Read()
	if err == nil {
		s.cells = cells
		return true
	}
	if errors.Is(err, io.EOF) {
		return false
	}
	at := finding.Position{File: s.file}
	var bad *csv.ParseError
	if errors.As(err, &bad) {
		at.Line, at.Column, err = bad.Line, bad.Column, bad.Err
	}
	s.errs = append(s.errs, &ParseError{At: at, Err: err})
	return false
}

func (s *sheet) fail(column int, err error) {
	line, col := s.csv.FieldPos(column)
	s.errs = append(s.errs, &ParseError{
		At:    finding.Position{File: s.file, Line: line, Column: col},
		Field: s.columns[column],
		Err:   err,
	})
}

// text is a cell that must not be empty.
func (s *sheet) text(column int) string {
	cell := s.cells[column]
	if strings.TrimSpace(cell) == "" {
		s.fail(column, errors.New("is empty"))
	}
	return cell
}

// ndb is a cell that holds a number of USDA's: five digits.
func (s *sheet) ndb(column int) string {
	cell := s.cells[column]
	if len(cell) != 5 || strings.Trim(cell, "0123456789") != "" {
		s.fail(column, fmt.Errorf("%q is not a five-digit NDB number", cell))
	}
	return cell
}

// number is a cell that must hold a plain decimal from low to high.
func (s *sheet) number(column int, low, high float64) float64 {
	cell := s.cells[column]
	x, err := strconv.ParseFloat(cell, 64)
	switch {
	case err != nil, strings.Trim(cell, "-.0123456789") != "":
		s.fail(column, fmt.Errorf("%q is not a number", cell))
	case x < low || x > high:
		s.fail(column, fmt.Errorf("%s is not from %g to %g", cell, low, high))
	}
	return x
}

// value is a cell that may be empty, which means that the source does not give the figure.
func (s *sheet) value(column int, low, high float64) Value {
	if s.cells[column] == "" {
		return Value{}
	}
	return Given(s.number(column, low, high))
}
