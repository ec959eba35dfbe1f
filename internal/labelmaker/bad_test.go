package labelmaker

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"kettlefrost/internal/barcode"
	"kettlefrost/internal/finding"
)

// Sixty ingredients on 2 by 1 inch: a stop that says how much is short, and the sizes named in it do hold it.
func TestSixtyIngredientsOnASmallLabel(t *testing.T) {
	var names []string
	for i := range 60 {
		names = append(names, fmt.Sprintf("ingredient number %d (with its parts)", i+1))
	}
	c := Content{Identity: "Everything soup", Net: []string{"NET WT 12 OZ"}, Ingredients: Plain("Ingredients: " + strings.Join(names, ", ") + "."), Contains: Plain("Contains: Milk.")}
	l, found := Lay(c, stockOf(t, "2 x 1 in"), US(4))
	if !l.Empty() || len(found) != 1 || found[0].Code != CodeDoesNotFit || found[0].Severity != finding.Stop {
		t.Fatalf("%v", found)
	}
	figures := map[string]float64{}
	for _, f := range found[0].Figures {
		figures[f.Name] = f.Value
	}
	need := figures["height needed at this width"]
	if need < 100 || figures["area short"] < 30 {
		t.Errorf("%v", found[0].Figures)
	}
	// The height is enough, and a millimetre less is not.
	for high, want := range map[float64]bool{need: true, need - 1: false} {
		if l, _ := Lay(c, Roll(50.8, high), US(4)); l.Empty() == want {
			t.Errorf("%g mm high: %v", high, !l.Empty())
		}
	}
	if !strings.Contains(found[0].Fix, "labels of ") {
		t.Errorf("no larger label is named: %s", found[0].Fix)
	}
}

// Every way that is said to do does, and every one that is said not to does not.
func TestWaysAreTried(t *testing.T) {
	for _, name := range []string{"2 x 1 in", "4 x 5 in", "4 x 4 in", "4 x 3 in", "3 x 2 in", "letter, 6 of 4 x 3.33 in"} {
		c, s, r := soup(t), stockOf(t, name), US(20)
		ways := Ways(c, s, r)
		if len(ways) == 0 {
			t.Errorf("%s: no ways", name)
		}
		if !slices.ContainsFunc(ways, func(w Way) bool { return w.Does }) {
			t.Errorf("%s: nothing does", name)
		}
		for _, w := range ways {
			l, _ := Lay(w.Content, w.Stock, r)
			does := !l.Empty()
			if w.Second != nil {
				second, _ := Lay(*w.Second, w.Stock, r)
				does = does && !second.Empty()
			}
			if does != w.Does {
				t.Errorf("%s: %s: said %v, is %v", name, w.Says, w.Does, does)
			}
			if w.Second == nil {
				continue
			}
			for element, texts := range asked(c) { // nothing is lost between the two; what a panel says may be said in lines
				if strings.Contains(element, "panel") {
					continue
				}
				got := append(asked(w.Content)[element], asked(*w.Second)[element]...)
				if len(got) < len(texts) {
					t.Errorf("%s: %s: %s is on neither label", name, w.Says, element)
				}
			}
		}
	}
}

// Scripts that the faces lack, and what is worse than missing: signs that turn text or stand on others.
func TestOtherScripts(t *testing.T) {
	for _, c := range []struct {
		name string
		says string // "" when it can be printed
	}{
		{"Żurek z jajkiem", ""}, {"Борщ", ""}, {"Φασολάδα", ""}, {"Crème brûlée ½ °F × ≤", ""}, {"Gulaschsuppe, Straße", ""},
		{"とん汁", `'と' (U+3068)`}, {"फलाहार", "U+092B"}, {"شوربة عدس", "U+0634"}, {"מרק", "U+05DE"}, {"ต้มยำ", "U+0E15"}, {"cre\u0300me", "U+0300"}, {"soup \u202eruof", "U+202E"},
		{"⅓ cup", "write 1/3"}, {"soft\u00adhyphen", "U+00AD"}, {"🍲", "U+1F372"}, {"bell\a", "U+0007"}, {"bad \xff", "U+FFFD"},
	} {
		l, found := Lay(Content{Identity: c.name}, stockOf(t, "4 x 2 in"), Rules{})
		if c.says == "" {
			if l.Empty() {
				t.Errorf("%q: %v", c.name, found)
			}
			continue
		}
		if !l.Empty() || len(found) != 1 || found[0].Code != CodeCharacter || !strings.Contains(found[0].String(), c.says) || !strings.Contains(found[0].Where, "identity") {
			t.Errorf("%q: %v", c.name, found)
		}
	}
}

func TestNothingToPrint(t *testing.T) {
	for _, c := range []Content{{}, {Name: " \n"}, {Panel: &Panel{}}, {Panel: &Panel{Linear: true}}, {SquareSays: "scan"}} {
		l, found := Lay(c, stockOf(t, "4 x 2 in"), US(20))
		if !l.Empty() || found.Worst() != finding.Stop {
			t.Errorf("%+v: %v", c, found)
		}
	}
	for _, linear := range []bool{false, true} { // an empty panel leaves no frame
		if l := laid(t, Content{Name: "soup", Panel: &Panel{Linear: linear}}, stockOf(t, "4 x 2 in"), US(20)); len(l.Marks) != 1 {
			t.Errorf("%d marks for one word", len(l.Marks))
		}
	}
	if l, found := Lay(Content{Heating: []string{strings.Repeat("stir well. ", 5000)}}, stockOf(t, "4 x 6 in"), US(20)); !l.Empty() || !strings.Contains(found[0].Message, "55000 characters") {
		t.Errorf("%v", found)
	}
	swapped := soup(t)
	swapped.Bars, swapped.Square = swapped.Square, swapped.Bars
	if l, found := Lay(swapped, stockOf(t, "4 x 6 in"), US(20)); !l.Empty() || found[0].Code != CodeSymbol {
		t.Errorf("%v", found)
	}
}

// A bar code of another lot than the words say, or of another item than the QR code: nothing is printed.
func TestCodesThatDisagree(t *testing.T) {
	number := func(lot string) *barcode.Symbol {
		s, err := barcode.EncodeGS1(barcode.Elements{{AI: "01", Value: "09521234543213"}, {AI: "10", Value: lot}})
		if err != nil {
			t.Fatal(err)
		}
		return &s
	}
	link := func(text string) *barcode.Symbol {
		s, err := barcode.EncodeQR(text, barcode.Medium)
		if err != nil {
			t.Fatal(err)
		}
		return &s
	}
	item := func(digits string) *barcode.Symbol {
		g, err := barcode.ParseGTIN(digits)
		if err != nil {
			t.Fatal(err)
		}
		s, err := barcode.EncodeEAN(g)
		if err != nil {
			t.Fatal(err)
		}
		return &s
	}
	for _, c := range []struct {
		lot          string
		bars, square *barcode.Symbol
		says         string
	}{
		{"L-0917", number("L-0917"), nil, ""},
		{"L-0917, pot 2", number("L-0917"), nil, `bar code says lot "L-0917"`}, // "L-0917," is not it
		{"L-0917 pot 2", number("L-0917"), nil, ""},
		{"L-0918", number("L-0917"), nil, `the bar code says lot "L-0917", the words beside it "L-0918"`},
		{"", number("L-0917"), nil, ""},
		{"L/1", nil, link("https://kitchen.example/pack/01/09521234543213/10/L%2F1"), ""},
		{"L-2", nil, link("https://kitchen.example/01/09521234543213/10/L-1"), `the QR code says lot "L-1"`},
		{"L-2", nil, link("https://kitchen.example/recipes/10/L-1"), ""},
		{"L-2", nil, link("heat it well"), ""},
		{"L-1", number("L-1"), link("https://kitchen.example/01/09506000134352"), "QR code of 09506000134352"},
		{"", item("9506000134352"), link("https://kitchen.example/01/09506000134352"), ""},
		{"", item("4006381333931"), link("https://kitchen.example/01/09506000134352"), "is of item 04006381333931"},
	} {
		l, found := Lay(Content{Name: "soup", Lot: Fact{"Lot", c.lot}, Bars: c.bars, Square: c.square}, stockOf(t, "4 x 3 in"), US(20))
		if l.Empty() != (c.says != "") || c.says != "" && !strings.Contains(found[0].String(), c.says) {
			t.Errorf("%q: %v", c.lot, found)
		}
	}
}
