package heatcheck

import (
	"flag"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"sync"
	"testing"
)

var update = flag.Bool("update", false, "write docs/heat-checks.md anew; read the difference before you keep it")

const pageFile = "../../docs/heat-checks.md"

func TestHeatChecks(t *testing.T) {
	all := sections()
	for _, s := range all {
		for _, l := range s.lines {
			for _, v := range l.failing() {
				t.Error(l.problem(v))
			}
		}
	}
	got := page(all)
	kept, err := os.ReadFile(pageFile)
	if err != nil && !*update {
		t.Fatal(err)
	}
	difference := firstDifference(string(kept), got)
	if difference == "" {
		return
	}
	if !*update {
		t.Errorf("%s is not what the checks say; run go test ./internal/heatcheck -update and read the difference:\n%s", pageFile, difference)
	} else if err := os.WriteFile(pageFile, []byte(got), 0o644); err != nil {
		t.Fatal(err)
	}
}

func firstDifference(kept, got string) string {
	k, g := strings.Split(kept, "\n"), strings.Split(got, "\n")
	for i := range min(len(k), len(g)) {
		if !alike(k[i], g[i]) {
			return fmt.Sprintf("line %d\nhas  %s\nwant %s", i+1, k[i], g[i])
		}
	}
	if len(k) != len(g) {
		return fmt.Sprintf("%d lines, want %d", len(k), len(g))
	}
	return ""
}

// alike says that two lines are the same but for the last digits of a figure that is marked as noise of the machine.
func alike(kept, got string) bool {
	k, g := strings.Split(kept, " | "), strings.Split(got, " | ")
	if len(k) != len(g) {
		return false
	}
	for i := range k {
		if k[i] == g[i] {
			continue
		}
		a, err := marked(k[i])
		b, err2 := marked(g[i])
		if err != nil || err2 != nil || math.Abs(a-b) > 1e-3*math.Abs(b) {
			return false
		}
	}
	return true
}

func marked(cell string) (float64, error) {
	text, ok := strings.CutPrefix(cell, noiseMark)
	if !ok {
		return 0, fmt.Errorf("%q is no noisy figure", cell)
	}
	return strconv.ParseFloat(strings.Replace(text, "−", "-", 1), 64)
}

// sections is all of it, worked out once.
var sections = sync.OnceValue(func() []section {
	l := &lab{}
	all := []section{l.properties(), l.conducted(), l.phaseChange(), l.formulas(), l.vessels(), l.cooled(), l.reheated(), l.freezers()}
	return append(all, l.numerics()) // last: it looks at the runs of the others
})

// count is what a section holds.
type count struct{ lines, figures, held, failing int }

func (s section) count() (c count) {
	for _, l := range s.lines {
		c.lines++
		c.figures += len(l.values)
		c.failing += len(l.failing())
		if l.tol.notHeld == "" {
			c.held += len(l.values)
		}
	}
	return c
}

func page(all []section) string {
	var b strings.Builder
	b.WriteString(intro)
	var sum count
	b.WriteString("| section | lines | figures | held | outside their tolerance |\n| --- | --- | --- | --- | --- |\n")
	for i, s := range all {
		c := s.count()
		sum = count{sum.lines + c.lines, sum.figures + c.figures, sum.held + c.held, sum.failing + c.failing}
		fmt.Fprintf(&b, "| %d. %s | %d | %d | %d | %s |\n", i+1, s.title, c.lines, c.figures, c.held, failures(c.failing))
	}
	fmt.Fprintf(&b, "| together | %d | %d | %d | %s |\n", sum.lines, sum.figures, sum.held, failures(sum.failing))
	for i, s := range all {
		fmt.Fprintf(&b, "\n## %d. %s\n", i+1, s.title)
		if s.intro != "" {
			fmt.Fprintf(&b, "\n%s\n", s.intro)
		}
		b.WriteString("\n| what is computed | source | outside | ours | error | held within |\n| --- | --- | --- | --- | --- | --- |\n")
		for _, l := range s.lines {
			b.WriteString(l.row())
		}
		for _, n := range s.notes {
			fmt.Fprintf(&b, "\n%s\n", n)
		}
	}
	return b.String()
}

func failures(n int) string {
	if n == 0 {
		return "none"
	}
	return fmt.Sprintf("**%d**", n)
}

func (l line) row() string {
	v := l.worst()
	what, outside, ours := l.what, l.outside(v), l.ours(v)
	switch n := len(l.values); {
	case n > 1 && l.tol.words && len(l.failing()) == 0:
		what += fmt.Sprintf(" (%d)", n)
		outside = tally(l.values)
		ours = "all alike"
	case n > 1 && l.tol.noisy && len(l.failing()) == 0:
		what += fmt.Sprintf(" (%d)", n)
		outside, ours = "as above", "all within"
	case n > 1:
		what += fmt.Sprintf(" (%d; worst: %s)", n, v.name)
	}
	if l.unit != "" {
		what += ", " + l.unit
	}
	off := l.off(v)
	if n := len(l.failing()); n > 0 {
		off += fmt.Sprintf(" **FAILS (%d of %d)**", n, len(l.values))
	}
	return fmt.Sprintf("| %s | %s – *%s* | %s | %s | %s | %s |\n", what, l.source.text, l.source.status, outside, ours, off, l.held())
}

// tally counts outside words, in the order in which they come up.
func tally(values []value) string {
	var words []string
	n := map[string]int{}
	for _, v := range values {
		if n[v.wantWord]++; n[v.wantWord] == 1 {
			words = append(words, v.wantWord)
		}
	}
	for i, w := range words {
		words[i] = fmt.Sprintf("%d %s", n[w], w)
	}
	return strings.Join(words, ", ")
}

// A failing figure is never hidden: in a line of its own, among many, and when there is no answer.
func TestFailuresAreShown(t *testing.T) {
	good := of(1)(1.001, nil).as("good")
	for name, l := range map[string]line{
		"too far":           {what: "x", tol: percent(1), values: []value{of(1)(1.02, nil)}},
		"one of many":       {what: "x", tol: percent(1), values: []value{good, of(1)(0.98, nil).as("bad"), good}},
		"too far, absolute": {what: "x", tol: absolute(0.1), values: []value{of(0)(0.2, nil)}},
		"out of the range":  {what: "x", tol: between(1, 2), values: []value{from(2.1, nil)}},
		"another word":      {what: "x", tol: sameWord, values: []value{word("within")("too slow", nil)}},
		"no answer":         {what: "x", tol: percent(1), values: []value{of(1)(1, os.ErrInvalid)}},
		"no answer, shown":  {what: "x", tol: shownOnly("why"), values: []value{of(1)(1, os.ErrInvalid)}},
		"holds nothing":     {what: "x", values: []value{good}},
	} {
		if len(l.failing()) != 1 || !strings.Contains(l.row(), "**FAILS (1 of ") {
			t.Errorf("%s: %s", name, l.row())
		}
		if text := page([]section{{title: "s", lines: []line{l}}}); !strings.Contains(text, "| **1** |") {
			t.Errorf("%s is not counted", name)
		}
	}
	fine := line{what: "x", tol: percent(1), values: []value{good}}
	if len(fine.failing()) != 0 || strings.Contains(fine.row(), "FAILS") {
		t.Errorf("within its tolerance: %s", fine.row())
	}
}

func TestPagesAlike(t *testing.T) {
	for _, c := range []struct {
		kept, got string
		want      bool
	}{
		{"| x | 27.63 | 27.63 |", "| x | 27.63 | 27.63 |", true},
		{"| x | 27.63 | 27.63 |", "| x | 27.63 | 27.64 |", false},
		{"| x | 27.63 | ≈27.63 | <1 % |", "| x | 27.63 | ≈27.64 | <1 % |", true},
		{"| x | 27.63 | ≈27.63 | <1 % |", "| x | 27.63 | ≈27.70 | <1 % |", false},
		{"| x | 27.63 | ≈27.63 | <1 % |", "| x | 27.63 | ≈27.63 | **FAILS** |", false},
		{"| x | 27.63 | ≈27.63 | <1 % |", "| x | 27.63 | 27.63 | <1 % |", false},
	} {
		if got := alike(c.kept, c.got); got != c.want {
			t.Errorf("%s and %s: %v", c.kept, c.got, got)
		}
	}
}

func TestNumbers(t *testing.T) {
	for _, c := range []struct {
		x    float64
		n    int
		want string
	}{{30927.6, 4, "30930"}, {9.99951, 4, "10"}, {0.00123456, 4, "0.001235"}, {-18, 4, "-18"}, {0.1450001, 2, "0.15"}, {100, 2, "100"}, {0, 4, "0"}} {
		if got := figures(c.x, c.n); got != c.want {
			t.Errorf("%g to %d figures: %s, want %s", c.x, c.n, got, c.want)
		}
	}
}

const intro = `# How far off is the heat arithmetic

Heating up, cooling, freezing, thawing and reheating are computed, so they can be wrong. This page lists every figure that could be
compared with somebody else's: what is computed, where the outside value comes from, the outside value, ours, the error, and the tolerance
within which a test holds it.

How to read it

- A line with a number in brackets stands for so many figures; the one that uses up most of its tolerance is shown and named.
- *read*: the source, or an abstract or copy of the table, was seen. *from memory*: the source is named, its text was not seen.
  *derived independently*: computed apart from this code, by another program or by hand, from a formula or a solver of its own.
  *exact mathematics*: the series or closed solution itself. *common practice*: a habit of the trade without a source.
- Values are rounded to four figures, errors to two. “<” is a bound: the error is below the last typed digit, or its own digits belong to
  the machine (a front that steps from cell to cell, a thermostat); ours is marked ≈ then.
- “Derived” figures with an assumed surface coefficient say that two programs solve the same problem alike. They do not say that your
  walk-in has that coefficient.

What is not checked, and what to doubt

- **Surface coefficients.** Even laboratories read them to no better than ±30 %. In still air a time goes nearly with one over the
  coefficient, so ±30 % there is up to +43 or −23 % of the time. This outweighs every error below. That is why the answers carry a band, and why
  one logged batch of your own is worth more than this page.
- **One direction.** Bags, pans and stacks are flat layers; their edges are left out, which makes them slower than they are. Folded corners,
  floating bags, bags against each other, warm corners of a cabinet and open doors are not in any of it.
- **No published freezing data.** The measured slab times on methyl-cellulose gel, the usual test substance, were located but could not be
  read. None are claimed; the gel lines below were derived with round constants.
- **Evaporation is rough**, ±35 % by its own sources, and grease or thickening lower it.
- **Thick food that is not stirred only conducts here.** Food that can be poured also mixes by itself and is faster.
- A table of handbook examples marked *from memory* may be remembered wrongly; its arithmetic was done again.

A prediction is no release: a thermometer in the food decides, and the local authority says which limits hold.

Regenerate with ` + "`go test ./internal/heatcheck -update`" + ` and read the difference. The same command without ` + "`-update`" + ` fails when a figure
leaves its tolerance, or when this page is not what the test finds.

`
