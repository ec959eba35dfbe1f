// Package sourced reads the tables of published figures that are part of the program. Every row of one names its source.
package sourced

import (
	"encoding/csv"
	"errors"
	"fmt"
	"strings"
)

// Row is a line of a table by the names of its columns.
type Row map[string]string

// MustRead reads an embedded table of comma-separated values (RFC 4180) with a head. What it holds was written with the program: a mistake in it,
// or a row without a source, stops the program as it starts.
func MustRead[T any](text string, read func(Row) (T, error)) []T {
	all, err := readAll(text, read)
	if err != nil {
		panic("sourced: " + err.Error())
	}
	return all
}

func readAll[T any](text string, read func(Row) (T, error)) (all []T, err error) {
	lines, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		return nil, err
	}
	if len(lines) == 0 {
		return nil, errors.New("a table is empty")
	}
	for i, line := range lines[1:] {
		row := Row{}
		for k, name := range lines[0] {
			row[name] = line[k]
		}
		x, err := read(row)
		if err == nil && row["source"] == "" {
			err = errors.New("it names no source")
		}
		if err != nil {
			return nil, fmt.Errorf("line %d under %q: %w", i+2, strings.Join(lines[0], ","), err)
		}
		all = append(all, x)
	}
	return all, nil
}
