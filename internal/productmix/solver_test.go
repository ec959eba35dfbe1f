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
	"pgregory.net/rapid"
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

const instances = 300

func TestWriteInstances(t *testing.T) {
	if *lpFolder == "" {
		t.Skip("no folder given with -lp")
	}
	for seed := range uint64(instances) {
		if err := os.WriteFile(filepath.Join(*lpFolder, fmt.Sprint(seed, ".lp")), []byte(lpText(instance(seed))), 0o644); err != nil {
			t.Fatal(err)
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
	if err != nil || len(list) != instances+1 {
		t.Fatalf("%d lines, %v", len(list), err)
	}
	for _, row := range list[1:] {
		seed, err := strconv.ParseUint(row[0], 10, 64)
		if err != nil {
			t.Fatal(err)
		}
		cents, err := strconv.ParseInt(row[1], 10, 64)
		if err != nil {
			t.Fatal(err)
		}
		p := instance(seed)
		m, err := Best(p)
		if err != nil || m.Contribution != unit.Money(cents)*unit.Cent || m.Gap() != 0 || Check(p, m) != nil {
			t.Errorf("seed %d: %v, gap %v, %v, %v; want %d cents, proven", seed, m.Contribution, m.Gap(), err, Check(p, m), cents)
		}
	}
}

// small is a problem of which every mix can be tried.
func small(t *rapid.T) Problem {
	n := func(what string, low, high int64) int64 { return rapid.Int64Range(low, high).Draw(t, what) }
	var p Problem
	for range n("resources", 1, 3) {
		p.Resources = append(p.Resources, Resource{"r", n("have", 0, 40), n("step", 1, 9)})
	}
	for range n("products", 1, 3) {
		x := Product{Demand: n("demand", 0, 12)}
		for range n("lots", 1, 2) {
			l := Lot{Packs: n("packs", 1, 4), Contribution: unit.Money(n("contribution", -2, 12)), Least: n("least", 0, 1)}
			for range p.Resources {
				l.Uses = append(l.Uses, n("use", 0, 9))
			}
			x.Lots = append(x.Lots, l)
		}
		p.Products = append(p.Products, x)
	}
	return p
}

// brute tries every mix; thrift is the least use of any of the best, in the millionths that Proof tells.
func brute(p Problem) (best, thrift int64, found bool) {
	var lots []Lot
	var of []int
	for i, x := range p.Products {
		for _, l := range x.Lots {
			lots, of = append(lots, l), append(of, i)
		}
	}
	var try func(i int, earns, uses int64, have, demand []int64)
	try = func(i int, earns, uses int64, have, demand []int64) {
		if i == len(lots) {
			if !found || earns > best || (earns == best && uses < thrift) {
				best, thrift, found = earns, uses, true
			}
			return
		}
		l := lots[i]
		for c := int64(0); c <= 12; c++ {
			ok := c*l.Packs <= demand[of[i]]
			left, room := append([]int64(nil), have...), append([]int64(nil), demand...)
			room[of[i]] -= c * l.Packs
			for k, u := range l.Uses {
				left[k] -= c * u
				ok = ok && left[k] >= 0
			}
			if !ok {
				break
			}
			if c >= l.Least {
				try(i+1, earns+c*int64(l.Contribution), uses+c*share(p, l), left, room)
			}
		}
	}
	var have, demand []int64
	for _, r := range p.Resources {
		have = append(have, r.Have)
	}
	for _, x := range p.Products {
		demand = append(demand, x.Demand)
	}
	try(0, 0, 0, have, demand)
	return best, thrift, found
}

// share is what one lot uses of all resources, in millionths of what there is of each.
func share(p Problem, l Lot) (sum int64) {
	for k, r := range p.Resources {
		if r.Have > 0 {
			sum += l.Uses[k] * 1_000_000 / r.Have
		}
	}
	return sum
}

func TestAgainstEveryMix(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := small(t)
		want, thrift, can := brute(p)
		m, err := Best(p)
		if (err == nil) != can {
			t.Fatalf("%v, but a mix exists: %v", err, can)
		}
		if !can {
			return
		}
		if m.Contribution != unit.Money(want) || m.Gap() != 0 || Check(p, m) != nil {
			t.Fatalf("earns %d, gap %d, %v; want %d", m.Contribution, m.Gap(), Check(p, m), want)
		}
		var uses int64
		for i, x := range p.Products {
			for j, l := range x.Lots {
				uses += m.Lots[i][j] * share(p, l)
			}
		}
		if !m.Proof.Thrifty || uses != thrift {
			t.Fatalf("uses %d millionths (thrifty: %v), and as good a mix uses %d", uses, m.Proof.Thrifty, thrift)
		}
		k := rapid.IntRange(0, len(p.Resources)-1).Draw(t, "resource")
		w, err := Worths(p, m)
		if err != nil {
			t.Fatal(err)
		}
		for steps := int64(1); steps <= MostSteps; steps++ {
			more := p
			more.Resources = append([]Resource(nil), p.Resources...)
			more.Resources[k].Have += steps * p.Resources[k].Step
			money, _, _ := brute(more)
			gains := unit.Money(money - want)
			switch {
			case steps == 1 && w[k].More != Range{gains, gains}:
				t.Fatalf("one more step earns %d, not %+v", gains, w[k].More)
			case steps == w[k].Pays && w[k].Earn != Range{gains, gains}:
				t.Fatalf("%d steps earn %d, not %+v", steps, gains, w[k].Earn)
			case gains > 0 && (w[k].Pays == 0 || steps < w[k].Pays):
				t.Fatalf("%d steps already earn %d: %+v", steps, gains, w[k])
			}
		}
	})
}

func BenchmarkBest(b *testing.B) {
	steps, open, runs := 0, 0, 0
	for b.Loop() {
		m, err := Best(instance(uint64(runs % instances)))
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
