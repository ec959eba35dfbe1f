package sheet

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// The list is what one takes along: a box to tick, what is written on the packs, whom they come from and what it comes to.
func TestShoppingList(t *testing.T) {
	p := barleyPlan()
	p.Buy.Lines[2].Stock = 2 * unit.Pound // of 6 lb, so 4 lb are to buy, from two suppliers
	p.Buy.Lines[2].ToBuy, p.Buy.Lines[2].Total, p.Buy.Lines[2].Over = 4*unit.Pound, 9_500_000, unit.Pound
	p.Buy.Lines[2].Packs = []plan.BuyPack{{Supplier: "Pantry", Name: "1 lb bag", Count: 3, Price: 2_000_000}, {Supplier: "Market stall", Name: "2 lb bag", Count: 1, Price: 3_500_000}}
	p.Buy.Orders[0].Goods = 24_500_000 // 21.00 + 3.50
	p.Buy.Orders = append(p.Buy.Orders, plan.BuyOrder{Supplier: "pantry", Name: "Pantry", Goods: 6_000_000})
	text := Text(p, unit.US, Buy)
	flat := strings.Join(strings.Fields(text), " ")
	for _, want := range []string{
		"A Market stall 2026-11-30 $24.50 $4.50 $13.75 more, and it is brought for nothing B Pantry $6.00",
		"[ ] carrot 12 lb A: 1 × 25 lb sack $21.00 2 lb of it is trim; 13 lb left over",
		"[ ] bay leaf 4 g MISSING: nobody offers it",
		"[ ] pearl barley 6 lb A: 1 × 2 lb bag; B: 3 × 1 lb bag $9.50 2 lb in stock, so 4 lb to buy; 1 lb left over",
		"BUY at least $65.75: 1 ingredient is missing",
		"not bought: water 30 lb",
	} {
		if !strings.Contains(flat, want) {
			t.Errorf("%q is missing in:\n%s", want, text)
		}
	}
	if strings.Index(text, "\nchilled\n") > strings.Index(text, "carrot") || strings.Index(text, "\ndry\n") > strings.Index(text, "bay leaf") {
		t.Errorf("what is kept together does not stand together:\n%s", text)
	}
	if text := Text(barleyPlan(), unit.US, Buy); !strings.Contains(text, "none: 9 lb in stock") {
		t.Errorf("it is not said that stock will do:\n%s", text)
	}
}

func TestLetter(t *testing.T) {
	for i, want := range map[int]string{0: "A", 1: "B", 25: "Z", 26: "AA", 51: "ZZ", 52: "AAA"} {
		if got := letter(i); got != want {
			t.Errorf("supplier %d: %s, want %s", i, got, want)
		}
	}
}

// However much stands on a line of the shopping list, a word that a column can hold is not broken.
func TestWordsStayWhole(t *testing.T) {
	short := rapid.SliceOfN(rapid.StringMatching(`[a-z]{1,30}`), 4, 12)
	long := rapid.SliceOfN(rapid.OneOf(rapid.StringMatching(`[a-z]{1,12}`), rapid.StringMatching(`[a-z]{36,38}`)), 1, 12) // more than half of what both columns have
	rapid.Check(t, func(t *rapid.T) {
		p := barleyPlan()
		name, pack := long.Draw(t, "name"), short.Draw(t, "pack")
		p.Buy.Lines[0].Name, p.Buy.Lines[0].Packs[0].Name = strings.Join(name, " "), strings.Join(pack, " ")
		printed := map[string]bool{}
		for word := range strings.FieldsSeq(Text(p, unit.US, Buy)) {
			printed[word] = true
		}
		for _, word := range append(name, pack...) {
			if !printed[word] {
				t.Fatalf("%q is broken", word)
			}
		}
	})
}

// Who comes back to a step is told its name; who goes from load to load is told which; breaks stand where they are taken.
func TestOnePersonsDay(t *testing.T) {
	p := barleyPlan()
	p.Timetable.Rows[0].Bars = append(p.Timetable.Rows[0].Bars, plan.Bar{Task: 1, From: 640, To: 650})
	p.Timetable.Rows[0].Away = append(p.Timetable.Rows[0].Away, plan.Bar{Task: -1, From: 650, To: 930}) // after the shift
	text := Text(p, unit.US, Day)
	_, ada, _ := strings.Cut(text, "\nAda, 06:00 to 10:50\n")
	ada, _, _ = strings.Cut(ada, "\nBen, 06:30 to 15:30\n")
	var lines []string
	for line := range strings.Lines(ada) {
		lines = append(lines, strings.Join(strings.Fields(line), " "))
	}
	want := []string{
		"06:00 06:25 barley: dice the carrots; cutting table 5 min",
		"! 06:30 06:36 barley: simmer; 60 qt pot 1, burner 1; with Ben 1 of 2 none",
		"10:00 10:30 (away)",
		"! 10:40 10:50 barley: simmer 1 of 2 none",
	}
	if got := strings.TrimSpace(strings.Join(lines[2:], "\n")); got != strings.Join(want, "\n") {
		t.Errorf("got\n%s\nwant\n%s", got, strings.Join(want, "\n"))
	}
}

// A step in loads shows what goes into each of them; a step in one does not show the same figure twice.
func TestLoadsOfAStep(t *testing.T) {
	flat := strings.Join(strings.Fields(Text(barleyPlan(), unit.US, Steps)), " ")
	for _, want := range []string{
		"in carrot 10 lb out diced carrot 10 lb",
		"in water 15 lb 30 lb", // 2 loads
		"in diced carrot 5 lb 10 lb from step 1",
		"10 oz from an earlier step; 6 oz short, rapeseed oil stands in",
		"2 loads of 24 lb (3 gal), 60 qt pot, 25 % full by volume; scale × 4.4",
		"each load heat to 200 °F in 22 min, then 40 min; hands on 8 min; starts 06:30, 08:00",
		"25 min hands on; starts 06:00",
	} {
		if !strings.Contains(flat, want) {
			t.Errorf("%q is missing in %q", want, flat)
		}
	}
}

// Money below what can be paid is not shown as nothing.
func TestSmallMoney(t *testing.T) {
	w := &writer{plan: plan.Plan{Currency: "$"}}
	for m, want := range map[unit.Money]string{0: "$0.00", 1: "under $0.01", 9_999: "under $0.01", unit.Cent: "$0.01", 1_234_567: "$1.23"} {
		if got := w.small(m); got != want {
			t.Errorf("%d millionths: %s, want %s", m, got, want)
		}
	}
}
