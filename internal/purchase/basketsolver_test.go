package purchase

import (
	"encoding/csv"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"kettlefrost/internal/unit"
)

// kinds are the baskets in testdata/baskets.csv, and how many there are of each.
var kinds = []struct {
	drawn
	many uint64
}{
	{drawn{"corner", 5, 3, 0.7, 0.3, 0.3, 1.2, 0}, 60},
	{drawn{"market", 12, 4, 0.6, 0.3, 0.3, 1, 0}, 60},
	{drawn{"market from two", 12, 4, 0.9, 0.3, 0.3, 1, 2}, 40},
	{drawn{"week", 25, 5, 0.7, 0.2, 0.2, 1, 0}, 60},
	{drawn{"week, nothing keeps", 25, 5, 1, 0, 0, 0.7, 0}, 40},
	{drawn{"month", 60, 5, 0.6, 0.2, 0.2, 0.8, 0}, 12},
}

var lpFolder = flag.String("lp", "", "write the baskets of testdata/baskets.csv as LP files into this folder")

func TestWriteBaskets(t *testing.T) {
	if *lpFolder == "" {
		t.Skip("no folder given with -lp")
	}
	for k, d := range kinds {
		for seed := range d.many {
			if err := os.WriteFile(filepath.Join(*lpFolder, fmt.Sprintf("%d-%d.lp", k, seed)), []byte(lpText(d.basket(seed))), 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
}

// patient are the baskets of the file that take more steps to be proved than the search has by default: seconds, not one.
var patient = map[string]int64{"week 4": 120_000_000, "week 12": 50_000_000, "week, nothing keeps 8": 70_000_000}

// unfinished are those that it does not finish in 200 million steps: it misses the least cost by less than 0.1 % and proves none. There the
// solver's has to lie between bound and cost.
var unfinished = []string{"week 8", "month 8"}

// TestAgainstSolver: the same least cost as a general solver, to the cent, and proven. The header of the file says which solver.
func TestAgainstSolver(t *testing.T) {
	f, err := os.Open("testdata/baskets.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	read := 0
	for _, row := range rows[1:] {
		seed, err1 := strconv.ParseUint(row[1], 10, 64)
		cents, err2 := strconv.ParseInt(row[2], 10, 64)
		if err1 != nil || err2 != nil {
			t.Fatalf("%v: %v %v", row, err1, err2)
		}
		for _, d := range kinds {
			if d.name != row[0] || testing.Short() && d.needs > 25 {
				continue
			}
			read++
			solves(t, fmt.Sprint(row[0], " ", seed), d.basket(seed), unit.Money(cents)*unit.Cent)
		}
	}
	if read < 200 {
		t.Errorf("only %d baskets in the file", read)
	}
}

func solves(t *testing.T, name string, b Basket, want unit.Money) {
	t.Helper()
	got, err := Best(b, Options{Steps: patient[name]})
	if err != nil {
		t.Errorf("%s: %v", name, err)
		return
	}
	if err := CheckBasket(b, got); err != nil {
		t.Errorf("%s: %v", name, err)
	}
	if !got.Proof.Optimal && slices.Contains(unfinished, name) {
		if got.Proof.AtLeast > want || got.Total < want || got.Gap()*200 > got.Total {
			t.Errorf("%s: costs %s, at least %s; a general solver says %s", name, got.Total, got.Proof.AtLeast, want)
		}
		return
	}
	if got.Total != want || !got.Proof.Optimal {
		t.Errorf("%s: costs %s, at least %s; a general solver says %s", name, got.Total, got.Proof.AtLeast, want)
	}
}

// TestAgainstLiveSolver solves a few other baskets with CBC, where it is installed.
func TestAgainstLiveSolver(t *testing.T) {
	cbc, err := exec.LookPath("cbc")
	if err != nil {
		t.Skip("cbc is not installed")
	}
	if testing.Short() {
		t.Skip("it takes some seconds")
	}
	d := drawn{"corner", 6, 3, 0.7, 0.3, 0.3, 1.2, 0}
	for seed := uint64(1000); seed < 1006; seed++ {
		b := d.basket(seed)
		folder := t.TempDir()
		in, out := filepath.Join(folder, "basket.lp"), filepath.Join(folder, "basket.txt")
		if err := os.WriteFile(in, []byte(lpText(b)), 0o644); err != nil {
			t.Fatal(err)
		}
		if text, err := exec.Command(cbc, in, "ratio", "0", "allow", "0.5", "sec", "20", "solve", "solu", out).CombinedOutput(); err != nil {
			t.Fatalf("%v: %s", err, text)
		}
		text, err := os.ReadFile(out)
		if err != nil {
			t.Fatal(err)
		}
		line, _, _ := strings.Cut(string(text), "\n")
		status, value, found := strings.Cut(line, " - objective value ")
		cents, err := strconv.ParseFloat(strings.TrimSpace(value), 64)
		if !found || err != nil || status != "Optimal" {
			t.Logf("seed %d: %s", seed, line)
			continue
		}
		solves(t, fmt.Sprint("live ", seed), b, unit.MoneyOf(cents/100).RoundCents())
	}
}
