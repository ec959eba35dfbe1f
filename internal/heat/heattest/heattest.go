// Package heattest is what the tests of the heat packages share. It knows none of them, so that all of them can use it.
package heattest

import (
	"encoding/csv"
	"errors"
	"io/fs"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"
)

// Near fails unless got is within tol of want; tol is a share of want.
func Near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol*math.Abs(want)) {
		t.Errorf("%s = %.7g, want %.7g (within %.3g %%)", what, got, want, tol*100)
	}
}

// Within fails unless got is within tol of want, in the unit of want.
func Within(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.7g, want %.7g (within %.3g)", what, got, want, tol)
	}
}

// Must gives the value, and ends the test if there is an error: Must(f())(t).
func Must[T any](v T, err error) func(*testing.T) T {
	return func(t *testing.T) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

// Second is the error of a call that gives a value and an error.
func Second[T any](_ T, err error) error { return err }

// Sane fails on an error that is not typed, as the caller knows, or says nothing; and without an error on a number that is not finite.
func Sane(t *testing.T, what string, err error, typed bool, got ...float64) {
	t.Helper()
	if err != nil {
		if !typed {
			t.Errorf("%s: untyped error %v", what, err)
		}
		if err.Error() == "" {
			t.Errorf("%s: silent error", what)
		}
		return
	}
	for _, x := range got {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			t.Errorf("%s = %g", what, x)
		}
	}
}

// checkFile is the file of derived check values that tables of the tests were typed from, from a package's folder.
const checkFile = "../../../shared/reference/thermal_checks.csv"

// CheckRows are the rows (body, quantity, value, unit, tolerance) of the check file. Without the file the test is skipped and says so.
func CheckRows(t *testing.T) [][]string {
	t.Helper()
	file, err := os.Open(checkFile)
	if errors.Is(err, fs.ErrNotExist) {
		t.Skip("the file of derived check values is not at hand")
	}
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows[1:]
}

// CheckFile holds the rows of the check file against what value works out for them, and says how many of them value knows.
func CheckFile(t *testing.T, value func(body, quantity string) (float64, bool)) int {
	t.Helper()
	known := 0
	for _, row := range CheckRows(t) {
		want := number(t, row[2])
		got, ok := value(row[0], row[1])
		if !ok {
			continue
		}
		known++
		if share, isShare := strings.CutSuffix(row[4], "%"); isShare {
			Near(t, row[0]+": "+row[1], got, want, number(t, share)/100)
		} else {
			Within(t, row[0]+": "+row[1], got, want, number(t, strings.TrimSuffix(row[4], " abs")))
		}
	}
	return known
}

func number(t *testing.T, s string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}
