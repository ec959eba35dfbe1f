package fill

import (
	"encoding/csv"
	"errors"
	"flag"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"kettlefrost/internal/unit"
)

// tradingDay is an invented day of 6 to 10 packs drawing on 6 to 10 outputs, with bags that packs share, labels of their own, lids
// of which some take two, open orders, minimum stock, maxima, and minima that on some days can't all be made. On every other day
// packs are worth 50 cents and a cent a gram, which makes many mixes nearly as good.
func tradingDay(seed uint64) Problem {
	r := rand.New(rand.NewPCG(seed, 61))
	grain := []unit.Mass{unit.Gram, 5 * unit.Gram, 10 * unit.Gram}[r.IntN(3)]
	p := Problem{Soften: true}
	m, n := 6+r.IntN(5), 6+r.IntN(5)
	minima := []int{25, 25, 25, 25, 200}[r.IntN(5)]
	byWeight := r.IntN(2) == 0
	for range m {
		p.Stock = append(p.Stock, grain*unit.Mass(int64(10*unit.Kilogram/grain)+r.Int64N(int64(160*unit.Kilogram/grain))))
	}
	bags := 2 + r.IntN(3)
	for b := range bags {
		p.Supplies = append(p.Supplies, Supply{Name: fmt.Sprint("bag ", b), Have: 40 + r.IntN(260)})
	}
	p.Supplies = append(p.Supplies, Supply{Name: "lids", Have: 100 + r.IntN(500)})
	for i := range n {
		k := Pack{Value: 10_000 * (200 + r.Int64N(700)), Max: -1, Uses: []Use{{r.IntN(bags), 1}}}
		parts := 1 + r.IntN(4)
		for _, j := range r.Perm(m)[:parts] {
			k.Needs = append(k.Needs, Need{Output: j, Mass: (unit.Mass(340+r.IntN(660)) * unit.Gram / unit.Mass(parts)) / grain * grain})
		}
		if byWeight { // a hard case: all packs are worth nearly what they weigh
			k.Value = 10_000 * int64(50)
			for _, n := range k.Needs {
				k.Value += 10_000 * int64(n.Mass/unit.Gram)
			}
		}
		if lids := r.IntN(3); lids > 0 {
			k.Uses = append(k.Uses, Use{bags, lids})
		}
		if r.IntN(3) == 0 {
			p.Supplies = append(p.Supplies, Supply{Name: fmt.Sprint("labels ", i), Have: 20 + r.IntN(150)})
			k.Uses = append(k.Uses, Use{len(p.Supplies) - 1, 1})
		}
		if r.IntN(2) == 0 {
			k.Ordered, k.Penalty, k.Keep = r.IntN(60), 1+r.Int64N(5), r.IntN(30)
		}
		if r.IntN(3) == 0 {
			k.Min = r.IntN(minima)
		}
		if r.IntN(3) == 0 {
			k.Max = k.Min + r.IntN(120)
		}
		p.Packs = append(p.Packs, k)
	}
	return p
}

const tradingDays = 240

// lpOf writes a day as LP text, masses in grams and values in cents. The goals are variables of their own, each to be as low as it
// can be one after another, each held at its lowest for those that follow: below (packs below the minima), orders (penalty), keep
// (packs short), lost (value, counted from below) and left (what is left over).
func lpOf(p Problem) string {
	soft := errors.As(second(Solve(hard(p))), new(*ShortError))
	var b strings.Builder
	row := func(name string, terms []string, end string) {
		fmt.Fprintf(&b, " %s: %s %s\n", name, strings.Join(terms, " "), end)
	}
	b.WriteString("Subject To\n")
	minimum, orders, keep, lost, left := []string{"below"}, []string{"orders"}, []string{"keep"}, []string{"lost"}, []string{"left"}
	var total unit.Mass
	for j, stock := range p.Stock {
		var uses []string
		for i, k := range p.Packs {
			for _, n := range k.Needs {
				if n.Output == j {
					uses = append(uses, fmt.Sprintf("+ %d c%d", n.Mass/unit.Gram, i))
				}
			}
		}
		if total += stock; len(uses) > 0 {
			row(fmt.Sprint("stock", j), uses, fmt.Sprintf("<= %d", stock/unit.Gram))
		}
	}
	for j, s := range p.Supplies {
		var uses []string
		for i, k := range p.Packs {
			for _, u := range k.Uses {
				if u.Supply == j {
					uses = append(uses, fmt.Sprintf("+ %d c%d", u.Pieces, i))
				}
			}
		}
		if len(uses) > 0 {
			row(fmt.Sprint("supply", j), uses, fmt.Sprintf("<= %d", s.Have))
		}
	}
	var bounds, ints strings.Builder
	for i, k := range p.Packs {
		var mass unit.Mass
		for _, n := range k.Needs {
			mass += n.Mass
		}
		row(fmt.Sprint("short_of_order", i), []string{fmt.Sprintf("c%d + o%d", i, i)}, fmt.Sprintf(">= %d", k.Ordered))
		row(fmt.Sprint("short_of_keep", i), []string{fmt.Sprintf("c%d + k%d", i, i)}, fmt.Sprintf(">= %d", k.Ordered+k.Keep))
		orders = append(orders, fmt.Sprintf("- %d o%d", max(1, k.Penalty), i))
		keep = append(keep, fmt.Sprintf("- k%d", i))
		lost = append(lost, fmt.Sprintf("+ %d c%d", k.Value/10_000, i))
		left = append(left, fmt.Sprintf("+ %d c%d", mass/unit.Gram, i))
		least := k.Min
		if soft {
			row(fmt.Sprint("short_of_minimum", i), []string{fmt.Sprintf("c%d + m%d", i, i)}, fmt.Sprintf(">= %d", k.Min))
			minimum, least = append(minimum, fmt.Sprintf("- m%d", i)), 0
		}
		if k.Max >= 0 {
			fmt.Fprintf(&bounds, " %d <= c%d <= %d\n", least, i, k.Max)
		} else {
			fmt.Fprintf(&bounds, " c%d >= %d\n", i, least)
		}
		fmt.Fprintf(&ints, " c%d", i)
	}
	row("minima", minimum, "= 0")
	row("open_orders", orders, "= 0")
	row("minimum_stock", keep, "= 0")
	row("value", lost, "= 0")
	row("left_over", left, fmt.Sprintf("= %d", total/unit.Gram))
	return b.String() + "Bounds\n lost free\n" + bounds.String() + "General\n" + ints.String() + "\nEnd\n"
}

func second[T any](_ T, err error) error { return err }

func hard(p Problem) Problem { p.Soften = false; return p }

var lpFolder = flag.String("lp", "", "write the trading days as LP text into this folder")

// Every day is held to what a general solver found, goal by goal; the table says which solver and how.
func TestTradingDaysAgainstAGeneralSolver(t *testing.T) {
	if *lpFolder != "" {
		for seed := range uint64(tradingDays) {
			if err := os.WriteFile(filepath.Join(*lpFolder, fmt.Sprintf("day%03d.lp", seed)), []byte(lpOf(tradingDay(seed))), 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
	f, err := os.Open("testdata/trading_days.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	read := csv.NewReader(f)
	read.Comment = '#'
	days, softened := 0, 0
	for {
		row, err := read.Read()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		if row[0] == "seed" {
			continue
		}
		want := make([]int64, len(row))
		for i, cell := range row {
			if want[i], err = strconv.ParseInt(cell, 10, 64); err != nil {
				t.Fatal(err)
			}
		}
		days++
		if want[1] > 0 {
			softened++
		}
		againstTheSolver(t, uint64(want[0]), want[1:])
	}
	if days != tradingDays || softened == 0 {
		t.Errorf("%d days, %d of them with minima that can't be made; want %d and some", days, softened, tradingDays)
	}
}

func againstTheSolver(t *testing.T, seed uint64, want []int64) {
	p := tradingDay(seed)
	plan, err := Solve(p)
	if err != nil {
		t.Fatalf("seed %d: %v", seed, err)
	}
	if err := Check(p, plan); err != nil {
		t.Errorf("seed %d: %v", seed, err)
	}
	if !plan.Proof.Optimal {
		t.Errorf("seed %d: not proven after %d steps: %+v", seed, plan.Proof.Steps, plan.Goals)
	}
	got := make([]int64, len(want))
	for _, r := range plan.Goals {
		switch r.Rule {
		case ByMinimum, ByOrders, ByKeep:
			got[r.Rule-ByMinimum] = r.Amount
		case ByValue:
			got[3] = r.Amount / 10_000
		case ByLeft:
			got[4] = r.Amount / int64(unit.Gram)
		}
	}
	for k := range want {
		if got[k] != want[k] {
			t.Errorf("seed %d: %v came to %d, the general solver says %d", seed, ByMinimum+Rule(k), got[k], want[k])
		}
	}
}
