package main

import (
	"bytes"
	"encoding/csv"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

const instances = "../../internal/timetable/testdata/psplib"

// optima of the instances in the folder, from PSPLIB as collected by the kobe-scheduling project.
var optima = map[string]string{"j301_5": "39", "j3011_7": "36", "j3013_1": "58", "j3015_2": "47", "j3017_10": "66", "j3029_8": "80"}

// TestFolder runs the folder as from the command line. A minute is far more than any of these needs.
func TestFolder(t *testing.T) {
	var out bytes.Buffer
	if err := run(&out, instances, time.Minute); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&out).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if got := strings.Join(rows[0], ","); got != "instance,makespan,bound,status,seconds" {
		t.Errorf("header %q", got)
	}
	if len(rows)-1 != len(optima) {
		t.Errorf("%d rows, want %d", len(rows)-1, len(optima))
	}
	for _, row := range rows[1:] {
		if want := optima[row[0]]; row[1] != want || row[2] != want || row[3] != "optimal" {
			t.Errorf("%v: want %s proved", row, want)
		}
	}
}

func TestMistakes(t *testing.T) {
	empty, broken := t.TempDir(), t.TempDir()
	if err := os.WriteFile(filepath.Join(broken, "half.sm"), []byte("jobs (incl. supersource/sink ):  -4\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	for dir, want := range map[string]string{empty: "no files that end in .sm", broken: "half.sm: line 1"} {
		if err := run(&bytes.Buffer{}, dir, time.Second); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want %q", err, want)
		}
	}
}
