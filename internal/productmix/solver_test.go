package productmix

import (
	"encoding/csv"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"kettlefrost/internal/unit"
)

// instance is an invented week: two to seven products in full kettles, some also in half ones or made pack by pack, with hands and kettle
// in minutes and the freezer in decilitres. Contributions are whole cents.
func instance(seed uint64) Problem {
	r := rand.New(rand.NewPCG(seed, 41))
	n := func(low, high int64) int64 { return low + r.Int64N(high-low+1) }
	p := Problem{Resources: []Resource{{"hands", n(300, 2400), 60}, {"kettle", n(300, 1800), 60}, {"freezer", n(500, 4000), 10}}}
	for i := range n(2, 7) {
		x := Product{Name: fmt.Sprint("p", i), Demand: n(0, 300)}
		if n(0, 9) == 0 {
			x.Demand = -1
		}
		packs, each, minutes, room := n(20, 60), n(50, 450), n(1, 3), n(4, 9)
		if n(0, 2) == 0 {
			packs = 1
		}
		lot := func(name string, packs, kettle int64) Lot {
			return Lot{Name: name, Packs: packs, Contribution: unit.Cent * unit.Money(packs*each-n(0, 40)), Uses: []int64{n(0, 20) + packs*minutes, kettle, packs * room}}
		}
		kettle := n(60, 180)
		if packs == 1 {
			kettle = n(1, 5)
		}
		x.Lots = append(x.Lots, lot("full", packs, kettle))
		if packs > 1 && n(0, 1) == 0 {
			x.Lots = append(x.Lots, lot("half", packs/2, kettle*7/10))
		}
		p.Products = append(p.Products, x)
	}
	return p
}

// large is an invented week of 12 to 20 products, each in whole, half and quarter kettles that all cost the same to set up.
func large(seed uint64) Problem {
	r := rand.New(rand.NewPCG(seed, 43))
	n := func(low, high int64) int64 { return low + r.Int64N(high-low+1) }
	p := Problem{Resources: []Resource{{"hands", n(2400, 9600), 60}, {"kettle", n(2400, 4800), 60}, {"freezer", n(5000, 20_000), 10}}}
	for i := range n(12, 20) {
		x := Product{Name: fmt.Sprint("p", i), Demand: n(20, 300)}
		quarter, each, minutes, room := n(5, 15), n(50, 450), n(1, 3), n(4, 9)
		for _, quarters := range []int64{4, 2, 1} {
			packs := quarters * quarter
			x.Lots = append(x.Lots, Lot{Name: fmt.Sprint(quarters, "/4"), Packs: packs, Contribution: unit.Cent * unit.Money(packs*each-30), Uses: []int64{15 + packs*minutes, 40 + packs*2, packs * room}})
		}
		p.Products = append(p.Products, x)
	}
	return p
}

// weeks are the kinds of instances in testdata/optima.csv, and how many there are of each.
var weeks = []struct {
	name string
	draw func(seed uint64) Problem
	many uint64
}{{"small", instance, 300}, {"large", large, 100}}

// lpText is a problem as an LP file, in cents: variable x<product>_<lot> for each size of lot, a row for each resource, and one for
// each demand.
func lpText(p Problem) string {
	var b strings.Builder
	terms := func(of func(i int, l Lot) int64) {
		for i, x := range p.Products {
			for j, l := range x.Lots {
				fmt.Fprintf(&b, " %+d x%d_%d", of(i, l), i, j)
			}
		}
	}
	b.WriteString("Maximize\n earns:")
	terms(func(_ int, l Lot) int64 { return int64(l.Contribution / unit.Cent) })
	b.WriteString("\nSubject To\n")
	for k, r := range p.Resources {
		fmt.Fprintf(&b, " %s:", r.Name)
		terms(func(_ int, l Lot) int64 { return l.Uses[k] })
		fmt.Fprintf(&b, " <= %d\n", r.Have)
	}
	for i, x := range p.Products {
		if x.Demand >= 0 {
			fmt.Fprintf(&b, " demand%d:", i)
			terms(func(of int, l Lot) int64 {
				if of != i {
					return 0
				}
				return l.Packs
			})
			fmt.Fprintf(&b, " <= %d\n", x.Demand)
		}
	}
	b.WriteString("General\n")
	for i, x := range p.Products {
		for j := range x.Lots {
			fmt.Fprintf(&b, " x%d_%d", i, j)
		}
	}
	return b.String() + "\nEnd\n"
}

var lpFolder = flag.String("lp", "", "write the instances of testdata/optima.csv as LP files into this folder")

func TestWriteInstances(t *testing.T) {
	if *lpFolder == "" {
		t.Skip("no folder given with -lp")
	}
	for _, w := range weeks {
		for seed := range w.many {
			if err := os.WriteFile(filepath.Join(*lpFolder, fmt.Sprintf("%s-%d.lp", w.name, seed)), []byte(lpText(w.draw(seed))), 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
}

// Every optimum of testdata/optima.csv, which says how a general solver found it, is found and proven.
func TestAgainstAGeneralSolver(t *testing.T) {
	file, err := os.Open("testdata/optima.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows := csv.NewReader(file)
	rows.Comment = '#'
	list, err := rows.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	optimum := map[string]string{}
	for _, row := range list {
		optimum[row[0]+" "+row[1]] = row[2]
	}
	for _, w := range weeks {
		for seed := range w.many {
			p := w.draw(seed)
			cents, err := strconv.ParseInt(optimum[fmt.Sprint(w.name, " ", seed)], 10, 64)
			if err != nil {
				t.Fatalf("%s %d: %v", w.name, seed, err)
			}
			m, err := Best(p)
			if err != nil || m.Contribution != unit.Money(cents)*unit.Cent || m.Gap() != 0 || Check(p, m) != nil {
				t.Errorf("%s %d: %v, gap %v, %v, %v; want %d cents, proven", w.name, seed, m.Contribution, m.Gap(), err, Check(p, m), cents)
			}
		}
	}
}

func BenchmarkBest(b *testing.B) {
	for _, w := range weeks {
		b.Run(w.name, func(b *testing.B) {
			steps, open, runs := 0, 0, 0
			for b.Loop() {
				m, err := Best(w.draw(uint64(runs) % w.many))
				if err != nil {
					b.Fatal(err)
				}
				steps += m.Proof.Steps
				runs++
				if m.Gap() > 0 {
					open++
				}
			}
			b.ReportMetric(float64(steps)/float64(runs), "steps/op")
			b.ReportMetric(float64(open)/float64(runs), "open/op")
		})
	}
}

func BenchmarkWorths(b *testing.B) {
	p := instance(3)
	m, err := Best(p)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := Worths(p, m); err != nil {
			b.Fatal(err)
		}
	}
}
