package foodtable

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// TestAgainstSource compares the files cell by cell with the cut of the release they were made from, where that lies beside the
// project. Columns that are ours alone (the names) and columns left out (item of densities, which repeats the description) are
// not compared.
func TestAgainstSource(t *testing.T) {
	for _, c := range []struct {
		source, text string
		keep         func(row map[string]string) bool
		compared     int // columns
	}{
		{"composition.csv", foodsCSV, nil, 21},
		{"measures.csv", measuresCSV, nil, 4},
		{"densities.csv", densitiesCSV, nil, 5},
		{"cooking_yields.csv", yieldsCSV, func(row map[string]string) bool {
			return strings.Contains(row["source"], "USDA") || strings.HasPrefix(row["source"], "derived")
		}, 8},
	} {
		path := filepath.Join("..", "..", "..", "shared", "data", c.source)
		content, err := os.ReadFile(path)
		if err != nil {
			t.Logf("extra check left out: %v", err)
			continue
		}
		source := rowsOf(t, string(content))
		if c.keep != nil {
			source = slices.DeleteFunc(source, func(row map[string]string) bool { return !c.keep(row) })
		}
		ours := rowsOf(t, c.text)
		if len(ours) != len(source) {
			t.Errorf("%s: %d rows, want %d", c.source, len(ours), len(source))
			continue
		}
		for i, want := range source {
			compared := 0
			for column, cell := range ours[i] {
				if w, there := want[column]; there {
					compared++
					if cell != w {
						t.Errorf("%s, row %d, %s: %q, want %q", c.source, i+1, column, cell, w)
					}
				}
			}
			if compared != c.compared {
				t.Fatalf("%s, row %d: %d columns compared, want %d", c.source, i+1, compared, c.compared)
			}
		}
	}
}

// rowsOf reads with the plain CSV reader, apart from the code under test.
func rowsOf(t *testing.T, text string) []map[string]string {
	t.Helper()
	lines, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var rows []map[string]string
	for _, line := range lines[1:] {
		row := map[string]string{}
		for i, cell := range line {
			row[lines[0][i]] = cell
		}
		rows = append(rows, row)
	}
	return rows
}
