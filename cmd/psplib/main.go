// Psplib runs the timetable engine alone on a folder of single-mode PSPLIB files (.sm) and prints one CSV row for each, so that it
// can be measured beside other solvers.
//
//	go run ./cmd/psplib -seconds 10 DIR
package main

import (
	"context"
	"encoding/csv"
	"errors"
	"flag"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"kettlefrost/internal/timetable"
	"kettlefrost/internal/timetable/check"
	"kettlefrost/internal/timetable/psplib"
)

func main() {
	seconds := flag.Float64("seconds", 10, "the most `seconds` for each instance")
	flag.Usage = func() {
		fmt.Fprintln(flag.CommandLine.Output(), "usage: psplib [-seconds N] DIR")
		flag.PrintDefaults()
	}
	flag.Parse()
	if flag.NArg() != 1 || *seconds <= 0 {
		flag.Usage()
		os.Exit(2)
	}
	if err := run(os.Stdout, flag.Arg(0), time.Duration(*seconds*float64(time.Second))); err != nil {
		fmt.Fprintln(os.Stderr, "psplib:", err)
		os.Exit(1)
	}
}

// run writes a row for each instance in dir, in the order of their names.
func run(to io.Writer, dir string, most time.Duration) error {
	paths, err := filepath.Glob(filepath.Join(dir, "*.sm"))
	if err != nil {
		return err
	}
	if len(paths) == 0 {
		return fmt.Errorf("%s: no files that end in .sm", dir)
	}
	rows := csv.NewWriter(to)
	rows.Write([]string{"instance", "makespan", "bound", "status", "seconds"})
	for _, path := range paths {
		row, err := solve(path, most)
		if err != nil {
			return fmt.Errorf("%s: %w", path, err)
		}
		rows.Write(row)
		if rows.Flush(); rows.Error() != nil {
			return rows.Error()
		}
	}
	return nil
}

// solve is the row of one instance. What the engine answers is checked before it is printed.
func solve(path string, most time.Duration) ([]string, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	p, err := psplib.Read(f)
	if err != nil {
		return nil, err
	}
	ctx, cancel := context.WithTimeout(context.Background(), most)
	defer cancel()
	begun := time.Now()
	r, err := timetable.Solve(ctx, p, timetable.Options{Turns: math.MaxInt})
	taken := time.Since(begun)
	if err != nil && !errors.Is(err, context.DeadlineExceeded) {
		return nil, err
	}
	if r.Start == nil {
		return nil, fmt.Errorf("no schedule found: %s", r.Status)
	}
	if err := check.Check(p, r.Start, r.Ways); err != nil {
		return nil, err
	}
	return []string{strings.TrimSuffix(filepath.Base(path), ".sm"), strconv.Itoa(r.End), strconv.Itoa(r.Bound), r.Status.String(),
		strconv.FormatFloat(taken.Seconds(), 'f', 3, 64)}, nil
}
