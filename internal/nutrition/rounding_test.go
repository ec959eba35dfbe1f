package nutrition

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// Every row of the table of rules at its ends and in between. The answers are by hand from the words of the rule; those of 21 CFR 101.9(c) were
// read in 9 CFR 317.309 and in FDA's Food Labeling Guide, appendix H. Of the answers the first is the one that is printed.
var roundingCases = []struct {
	line, source string
	want         map[float64]string
}{
	{"calories", "(c)(1): nearest 5 to 50, nearest 10 above, under 5 may be 0", map[float64]string{
		0: "0", 2.4: "0", 2.5: "0|5", 4.9: "0|5", 5: "5", 7.4: "5", 7.5: "10", 47.4: "45", 47.5: "50", 50: "50", 50.1: "50", 52: "50", 54.9: "50", 55: "60", 191.24: "190", 195: "200"}},
	{"calories_from_saturated_fat", "(c)(1)(ii)", map[float64]string{0: "0", 4.9: "0|5", 5: "5", 50: "50", 55: "60"}},
	{"calories_from_fat", "9 CFR 317.309(c)(1)(ii)", map[float64]string{0: "0", 4.9: "0|5", 5: "5", 50: "50", 55: "60", 118.8: "120"}},
	{"total_fat", "(c)(2): under 0.5 shall be 0, nearest 0.5 below 5, nearest 1 from 5", map[float64]string{
		0: "0 g", 0.49: "0 g", 0.5: "0.5 g", 0.74: "0.5 g", 0.75: "1 g", 4.74: "4.5 g", 4.76: "5 g", 4.99: "5 g", 5: "5 g", 5.4: "5 g", 5.5: "6 g"}},
	{"saturated_fat", "(c)(2)(i)", map[float64]string{0: "0 g", 0.49: "0 g", 0.5: "0.5 g", 0.68: "0.5 g", 4.74: "4.5 g", 5: "5 g", 5.5: "6 g"}},
	{"trans_fat", "(c)(2)(ii)", map[float64]string{0: "0 g", 0.49: "0 g", 0.5: "0.5 g", 4.9: "5 g", 5: "5 g", 6.5: "7 g"}},
	{"polyunsaturated_fat", "(c)(2)(iii)", map[float64]string{0.49: "0 g", 0.5: "0.5 g", 4.74: "4.5 g", 5: "5 g", 5.5: "6 g"}},
	{"monounsaturated_fat", "(c)(2)(iv)", map[float64]string{0.49: "0 g", 0.5: "0.5 g", 4.74: "4.5 g", 5: "5 g", 5.5: "6 g"}},
	{"cholesterol", "(c)(3): nearest 5, under 2 may be 0, 2 to 5 may be a text", map[float64]string{
		0: "0 mg", 1.9: "0 mg", 2: "less than 5 mg|0 mg", 3: "less than 5 mg|5 mg", 5: "less than 5 mg|5 mg", 5.1: "5 mg", 7.4: "5 mg", 7.5: "10 mg"}},
	{"sodium", "(c)(4): under 5 is 0, to 140 nearest 5, above nearest 10", map[float64]string{
		0: "0 mg", 4.9: "0 mg", 5: "5 mg", 7.5: "10 mg", 138: "140 mg", 140: "140 mg", 140.1: "140 mg", 143: "140 mg", 144.9: "140 mg", 145: "150 mg", 146: "150 mg", 705: "710 mg"}},
	{"total_carbohydrate", "(c)(6): nearest 1, under 1 may be a text, under 0.5 may be 0", map[float64]string{
		0: "0 g|less than 1 g", 0.4: "0 g|less than 1 g", 0.5: "less than 1 g|1 g", 0.7: "less than 1 g|1 g", 0.99: "less than 1 g|1 g", 1: "1 g", 1.4: "1 g", 1.5: "2 g"}},
	{"dietary_fiber", "(c)(6)(i)", map[float64]string{0.49: "0 g|less than 1 g", 0.5: "less than 1 g|1 g", 0.83: "less than 1 g|1 g", 1: "1 g", 7.6: "8 g"}},
	{"total_sugars", "(c)(6)(ii)", map[float64]string{0.49: "0 g|less than 1 g", 0.5: "less than 1 g|1 g", 1: "1 g", 4.44: "4 g"}},
	{"added_sugars", "(c)(6)(iii), from memory", map[float64]string{0.31: "0 g|less than 1 g", 0.5: "less than 1 g|1 g", 0.86: "less than 1 g|1 g", 1: "1 g"}},
	{"sugar_alcohol", "(c)(6)(iv)", map[float64]string{0.49: "0 g|less than 1 g", 0.5: "less than 1 g|1 g", 1: "1 g", 2.5: "3 g"}},
	{"protein", "(c)(7)", map[float64]string{0.49: "0 g|less than 1 g", 0.5: "less than 1 g|1 g", 1: "1 g", 1.52: "2 g", 9.74: "10 g"}},
	{"vitamin_d", "FDA guidance: tenths where the RDI is below 25 (quoted)", map[float64]string{0: "0 mcg", 0.04: "0 mcg", 0.05: "0.1 mcg", 0.1: "0.1 mcg", 2.04: "2 mcg"}},
	{"iron", "FDA guidance: tenths (quoted)", map[float64]string{0.52: "0.5 mg", 3.26: "3.3 mg", 9.048: "9 mg", 0.65: "0.7 mg"}},
	{"calcium", "FDA guidance: tens, from memory", map[float64]string{4.9: "0 mg", 5: "10 mg", 19: "20 mg", 62: "60 mg", 172.1: "170 mg"}},
	{"potassium", "FDA guidance: tens, from memory", map[float64]string{241: "240 mg", 653: "650 mg", 1812: "1810 mg"}},
	{"potassium_usda_panel", "9 CFR 317.309(c)(5)", map[float64]string{4.9: "0 mg", 5: "5 mg", 140: "140 mg", 143: "140 mg", 146: "150 mg"}},
	{"percent_dv_drv", "(d)(7)(ii): nearest whole per cent", map[float64]string{0: "0 %", 0.49: "0 %", 0.5: "1 %", 26.6: "27 %", 27.5: "28 %"}},
	{"percent_dv_vitamin_mineral", "(c)(8)(iii): nearest 2 to 10, nearest 5 to 50, nearest 10 above; under 2 may be 0", map[float64]string{
		0: "0 %", 0.9: "0 %", 1.4: "2 %|0 %", 1.99: "2 %|0 %", 2: "2 %", 4.8: "4 %", 5: "6 %", 10: "10 %", 10.1: "10 %", 11.9: "10 %", 12.4: "10 %", 12.5: "15 %", 50: "50 %", 50.1: "50 %", 52: "50 %", 54.9: "50 %", 55: "60 %"}},
	{"protein_percent_dv", "(c)(7)(i)", map[float64]string{19.4: "19 %", 19.5: "20 %"}},
	{"serving_metric_equivalent", "(b)(7)(ii): under 2 nearest 0.1, to 5 nearest 0.5, then whole", map[float64]string{1.94: "1.9", 1.96: "2", 2: "2", 2.24: "2", 2.25: "2.5", 4.9: "5", 5: "5", 244.8: "245"}},
	{"servings_per_container", "(b)(8)(i): whole, but halves from 2 to 5", map[float64]string{1.4: "1", 1.5: "2", 2: "2", 2.24: "2", 2.25: "2.5", 2.776: "3", 4.75: "5", 5: "5", 5.4: "5", 5.5: "6"}},
}

func TestRounding(t *testing.T) {
	lines := map[string]bool{}
	for _, c := range roundingCases {
		lines[c.line] = true
		for amount, want := range c.want {
			var got []string
			for _, p := range Allowed(c.line, amount) {
				got = append(got, p.Text)
			}
			if strings.Join(got, "|") != want {
				t.Errorf("%s of %g: %q, want %q (%s)", c.line, amount, strings.Join(got, "|"), want, c.source)
			}
		}
	}
	for line, rows := range roundings {
		if !lines[line] {
			t.Errorf("no case of %s", line)
		}
		for _, r := range rows { // that no row goes untried
			tried := false
			for _, c := range roundingCases {
				for amount := range c.want {
					tried = tried || c.line == line && r.from.holds(microOf(amount)) && r.to.holds(microOf(amount))
				}
			}
			if !tried {
				t.Errorf("no case of %s, %s%g", line, r.from.op, float64(r.from.at)/1e6)
			}
		}
	}
}

// A tie in decimals is one, however it was reckoned: 0.1 + 0.2 is 0.30000000000000004, and 1.005 x 100 falls short of 100.5.
func TestTiesAreDecimal(t *testing.T) {
	for _, c := range []struct {
		line   string
		amount float64
		want   string
	}{
		{"dietary_fiber", 0.1*3 + 1.2, "2 g"},
		{"sodium", 1.005 * 1000 * 0.7014925373134329, "710 mg"}, // 705
		{"total_carbohydrate", 1.005*100 - 99, "2 g"},
	} {
		if got := Allowed(c.line, c.amount); len(got) == 0 || got[0].Text != c.want {
			t.Errorf("%s of %.17g: %+v, want %s", c.line, c.amount, got, c.want)
		}
	}
}

func TestNothingIsAllowed(t *testing.T) {
	for _, c := range []struct {
		line   string
		amount float64
	}{{"sodium", -1}, {"water", 5}, {"no such line", 5}, {"sodium", 1e12}} {
		if got := Allowed(c.line, c.amount); got != nil {
			t.Errorf("%s of %g: %v", c.line, c.amount, got)
		}
	}
}

func TestEveryLineIsOfTheRules(t *testing.T) {
	for _, n := range Required() {
		if len(Allowed(kinds[n].line, 12)) == 0 {
			t.Errorf("%v has no row", n)
		}
	}
	if !slices.ContainsFunc(Allowed("added_sugars", 3), func(p Print) bool { return p.Confirm != "" }) {
		t.Error("that added sugars are from memory is not said")
	}
}

// Whatever the line, in either market: more never prints less, and what is printed as a figure is at most a step of its row off.
func TestMoreNeverPrintsLess(t *testing.T) {
	for name, table := range map[string]roundingTable{"US": roundings, "EU": euRoundings} {
		for line, rows := range table {
			rapid.Check(t, func(t *rapid.T) {
				reach := rapid.SampledFrom([]float64{1, 10, 200, 5000}).Draw(t, "reach")
				a := rapid.Float64Range(0, reach).Draw(t, "amount")
				b := a + rapid.Float64Range(0, reach/10).Draw(t, "more")
				less, more := table.allowed(line, a), table.allowed(line, b)
				if len(less) == 0 || len(more) == 0 || less[0].Amount > more[0].Amount {
					t.Errorf("%s, %s: %g prints %+v and %g prints %+v", name, line, a, less, b, more)
				}
				figure := less[len(less)-1]
				for _, r := range rows {
					if off := microOf(figure.Amount) - microOf(a); strings.HasPrefix(r.rule, "nearest") && r.from.holds(microOf(a)) && r.to.holds(microOf(a)) && max(off, -off) > r.step {
						t.Errorf("%s, %s: %g is printed as %+v", name, line, a, figure)
					}
				}
			})
		}
	}
}
