package nutrition

import (
	"strings"
	"testing"

	"kettlefrost/internal/foodtable"
)

// panelCase is a serving with what must be printed. want has, line by line, what is allowed of the amount, then of its per cent, the one that is
// printed first.
type panelCase struct {
	name    string
	rules   Rules
	amounts Amounts
	want    map[Nutrient][2]string
}

func amountsOf(x map[Nutrient]float64) (a Amounts) {
	for n := range a {
		a[n] = exactly(0)
	}
	for n, v := range x {
		a[n] = exactly(v)
	}
	return a
}

var lentilSoup = amountsOf(map[Nutrient]float64{Protein: 9.74, Carbohydrate: 27.36, Fat: 4.76, SaturatedFat: 0.68, Sodium: 612, Fibre: 7.6,
	Sugars: 4.44, AddedSugars: 0.31, Calcium: 62, Iron: 3.26, Potassium: 653})

var braise = amountsOf(map[Nutrient]float64{Protein: 24.6, Carbohydrate: 11.3, Fat: 13.2, SaturatedFat: 4.74, Cholesterol: 72.4, Sodium: 703,
	Fibre: 2.6, Calcium: 33, Iron: 3.1})

// Three servings worked by hand from the rules (derived; none is the authority's own example).
var panelCases = []panelCase{
	{"lentil soup, 245 g", FDA, lentilSoup, map[Nutrient][2]string{
		Energy: {"190", ""}, Fat: {"5 g", "6 %"}, SaturatedFat: {"0.5 g", "3 %"}, TransFat: {"0 g", ""}, Cholesterol: {"0 mg", "0 %"},
		Sodium: {"610 mg", "27 %"}, Carbohydrate: {"27 g", "10 %"}, Fibre: {"8 g", "27 %|29 %"}, Sugars: {"4 g", ""},
		AddedSugars: {"0 g|less than 1 g", "0 %|1 %"}, Protein: {"10 g", ""}, VitaminD: {"0 mcg", "0 %"}, Calcium: {"60 mg", "4 %"},
		Iron: {"3.3 mg", "20 %"}, Potassium: {"650 mg", "15 %"}}},
	{"lentil soup, 680 g", FDA, lentilSoup.Times(680.0 / 245), map[Nutrient][2]string{
		Energy: {"530", ""}, Fat: {"13 g", "17 %"}, SaturatedFat: {"2 g", "9 %|10 %"}, TransFat: {"0 g", ""}, Cholesterol: {"0 mg", "0 %"},
		Sodium: {"1700 mg", "74 %"}, Carbohydrate: {"76 g", "28 %"}, Fibre: {"21 g", "75 %"}, Sugars: {"12 g", ""},
		AddedSugars: {"less than 1 g|1 g", "2 %"}, Protein: {"27 g", ""}, VitaminD: {"0 mcg", "0 %"}, Calcium: {"170 mg", "15 %"},
		Iron: {"9 mg", "50 %"}, Potassium: {"1810 mg", "40 %"}}},
	{"tomato sauce, 125 g", FDA, amountsOf(map[Nutrient]float64{Protein: 1.52, Carbohydrate: 9.52, Fat: 0.47, Cholesterol: 3.1, Sodium: 143,
		Fibre: 0.83, Sugars: 6.4, AddedSugars: 0.6, VitaminD: 0.1, Calcium: 19, Iron: 0.52, Potassium: 241}), map[Nutrient][2]string{
		Energy: {"50", ""}, Fat: {"0 g", "0 %|1 %"}, Cholesterol: {"less than 5 mg|5 mg", "1 %|2 %"}, Sodium: {"140 mg", "6 %"},
		Carbohydrate: {"10 g", "3 %|4 %"}, Fibre: {"less than 1 g|1 g", "3 %|4 %"}, Sugars: {"6 g", ""}, AddedSugars: {"less than 1 g|1 g", "1 %|2 %"},
		Protein: {"2 g", ""}, VitaminD: {"0.1 mcg", "0 %"}, Calcium: {"20 mg", "2 %|0 %"}, Iron: {"0.5 mg", "2 %"}, Potassium: {"240 mg", "6 %"}}},
	{"beef braise, daily values of 2016", FDA, braise, map[Nutrient][2]string{
		Energy: {"260", ""}, Fat: {"13 g", "17 %"}, SaturatedFat: {"4.5 g", "24 %|23 %"}, Cholesterol: {"70 mg", "24 %|23 %"},
		Sodium: {"700 mg", "31 %|30 %"}, Carbohydrate: {"11 g", "4 %"}, Fibre: {"3 g", "9 %|11 %"}, Calcium: {"30 mg", "2 %"}, Iron: {"3.1 mg", "15 %"}}},
	{"beef braise, daily values of 9 CFR 317.309", USDA, braise, map[Nutrient][2]string{
		Energy: {"260", ""}, Fat: {"13 g", "20 %"}, SaturatedFat: {"4.5 g", "24 %|23 %"}, Cholesterol: {"70 mg", "24 %|23 %"},
		Sodium: {"700 mg", "29 %"}, Carbohydrate: {"11 g", "4 %"}, Fibre: {"3 g", "10 %|12 %"}, Calcium: {"30 mg", "4 %"}, Iron: {"3.1 mg", "15 %"}}},
}

func TestPanelsByHand(t *testing.T) {
	for _, c := range panelCases {
		for _, f := range c.rules.Facts(c.amounts) {
			want, said := c.want[f.Nutrient]
			if !said {
				continue
			}
			cell := f.Cells[0]
			got := [2]string{texts(cell.Amount, cell.Or), texts(cell.Percent, cell.OrDV)}
			if got != want {
				t.Errorf("%s, %v: %q, want %q", c.name, f.Nutrient, got, want)
			}
		}
	}
}

func texts(first string, or []Print) string {
	all := []string{first}
	for _, p := range or {
		all = append(all, p.Text)
	}
	return strings.Join(all, "|")
}

// 9 x 13.2 = 118.8 kcal of fat, printed as 120 on the panel of meat and poultry.
func TestEnergyFromFat(t *testing.T) {
	x, whole := braise.EnergyFromFat().Get()
	if got := Allowed("calories_from_fat", x); !whole || got[0].Text != "120" {
		t.Errorf("%g: %v", x, got)
	}
}

// What is missing is printed only when it makes no difference.
func TestMissingIsNotPrinted(t *testing.T) {
	open := Amount{Least: 612, Most: foodtable.Given(640), Missing: []Gap{{Part: "stock"}}}
	for _, c := range []struct {
		name   string
		n      Nutrient
		amount Amount
		want   string
	}{
		{"sodium between 612 and 640", Sodium, open, ""},
		{"sodium with no upper end", Sodium, Amount{Least: 612, Missing: open.Missing}, ""},
		{"nothing known", Sodium, Amount{}, ""},
		{"trans fat between 0.1 and 0.4: zero whatever it is", TransFat, Amount{Least: 0.1, Most: foodtable.Given(0.4), Missing: open.Missing}, "0 g"},
		{"sodium between 612 and 613, by amount and per cent alike", Sodium, Amount{Least: 612, Most: foodtable.Given(613), Missing: open.Missing}, "610 mg"},
		{"calcium between 60 and 64: 60 mg, but 4 % or 4.9 % alike", Calcium, Amount{Least: 60, Most: foodtable.Given(64), Missing: open.Missing}, "60 mg"},
		{"calcium between 60 and 66", Calcium, Amount{Least: 60, Most: foodtable.Given(66), Missing: open.Missing}, ""},
	} {
		if cell := FDA.cell(c.n, c.amount); cell.Amount != c.want || cell.Open != (c.want == "") {
			t.Errorf("%s: %+v, want %q", c.name, cell, c.want)
		}
	}
}
