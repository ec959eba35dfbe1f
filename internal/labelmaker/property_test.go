package labelmaker

import (
	"slices"
	"strings"
	"testing"
	"unicode"

	"pgregory.net/rapid"

	"kettlefrost/internal/barcode"
	"kettlefrost/internal/finding"
)

// letters are all characters that matter of some texts, sorted: where lines are broken and how runs are split is left out.
func letters(texts []string) string {
	var all []rune
	for _, text := range texts {
		for _, r := range text {
			if !unicode.IsSpace(r) {
				all = append(all, r)
			}
		}
	}
	slices.Sort(all)
	return string(all)
}

// drawnOn are the texts of each element, extracted from the drawing.
func drawnOn(l Label) map[string][]string {
	r := newRecorder()
	l.Picture().Draw(r)
	all := map[string][]string{}
	for _, x := range r.seen {
		if x.text != "" {
			all[x.name] = append(all[x.name], x.text)
		}
	}
	return all
}

// asked are the texts of each element that a content has.
func asked(c Content) map[string][]string {
	all := map[string][]string{}
	for s := range c.texts() {
		all[s.element.String()] = append(all[s.element.String()], s.text)
	}
	return all
}

// drawContent draws what a label might be asked to say.
func drawContent(t *rapid.T) Content {
	word := rapid.StringMatching(`[A-Za-zäéñøżЖπ0-9(),.%½°-]{1,14}`)
	words := func(most int, name string) string {
		return strings.Join(rapid.SliceOfN(word, 0, most).Draw(t, name), rapid.SampledFrom([]string{" ", "  ", "\n", " \t"}).Draw(t, "between"))
	}
	c := Content{Name: words(4, "name"), Identity: words(6, "identity"), Keep: words(3, "keep"), Lot: Fact{words(1, "lot"), words(1, "number")}}
	for range rapid.IntRange(0, 2).Draw(t, "net lines") {
		c.Net = append(c.Net, words(6, "net"))
	}
	for range rapid.IntRange(0, 12).Draw(t, "runs") {
		c.Ingredients = append(c.Ingredients, Run{words(6, "run"), rapid.Bool().Draw(t, "strong")})
	}
	c.Contains = Plain(words(5, "contains"))
	c.Firm, c.Heating, c.Cautions = []string{words(5, "firm")}, []string{words(20, "heating"), words(10, "more")}, []string{words(9, "caution")}
	for range rapid.IntRange(0, 3).Draw(t, "dates") {
		c.Dates = append(c.Dates, Fact{words(2, "date"), words(1, "day")})
	}
	if rapid.Bool().Draw(t, "panel") {
		c.Panel = drawPanel(t, words)
	}
	if rapid.Bool().Draw(t, "bars") {
		symbol, err := barcode.EncodeCode128(rapid.StringMatching(`[A-Z0-9 -]{1,20}`).Draw(t, "code"))
		if err != nil {
			t.Fatal(err)
		}
		c.Bars = &symbol
	}
	if rapid.Bool().Draw(t, "square") {
		symbol, err := barcode.EncodeQR(rapid.StringMatching(`[ -~]{1,60}`).Draw(t, "link"), barcode.Medium)
		if err != nil {
			t.Fatal(err)
		}
		c.Square, c.SquareSays = &symbol, words(8, "says")
	}
	return c
}

func drawPanel(t *rapid.T, words func(int, string) string) *Panel {
	p := facts()
	if rapid.Bool().Draw(t, "one column") {
		p = oneColumn()
	}
	p.Linear = rapid.Bool().Draw(t, "linear")
	p.Lines = p.Lines[:rapid.IntRange(0, len(p.Lines)).Draw(t, "lines")]
	p.Title, p.Servings, p.Footnote = words(2, "title"), words(4, "servings"), words(20, "footnote")
	return p
}

// Whatever is drawn: all of its text is on the label, nothing overlaps or is too small, or there is a stop and no label.
func TestAllOfItOrNothing(t *testing.T) {
	var made, stopped int
	rapid.Check(t, func(t *rapid.T) {
		c := drawContent(t)
		s := Roll(rapid.Float64Range(20, 220).Draw(t, "wide"), rapid.Float64Range(20, 300).Draw(t, "high"))
		s.MarginMm = rapid.Float64Range(0, 4).Draw(t, "margin")
		s.DPI = rapid.SampledFrom([]int{203, 300, 600}).Draw(t, "dpi")
		rules := rapid.SampledFrom([]Rules{US(4), US(20), EU(60, 680), EU(200, 400), {}}).Draw(t, "rules")
		l, found := Lay(c, s, rules)
		if found.Worst() == finding.Stop {
			stopped++
			if !l.Empty() {
				t.Fatalf("a label with a stop: %v", found)
			}
			for _, f := range found {
				if f.Fix == "" || f.Message == "" {
					t.Fatalf("a stop without a way out: %v", f)
				}
			}
			return
		}
		made++
		for _, f := range Check(l) {
			t.Errorf("%v %v", f, f.Figures)
		}
		got, want := drawnOn(l), asked(c)
		for name := range want {
			if g, w := letters(got[name]), letters(want[name]); g != w {
				t.Errorf("%s:\n got %q\nwant %q", name, got[name], want[name])
			}
		}
		for name := range got {
			if want[name] == nil {
				t.Errorf("%s: %q was not asked for", name, got[name])
			}
		}
	})
	t.Logf("%d labels made, %d stopped", made, stopped)
	if made == 0 || stopped == 0 {
		t.Errorf("%d labels made, %d stopped", made, stopped)
	}
}

// The order of words in a text is the order in which they are read, on as many lines as it takes.
func TestWordsStayInOrder(t *testing.T) {
	c := soup(t)
	l, found := Lay(c, stockOf(t, "letter, 2 of 8 x 5 in"), US(20))
	if l.Empty() {
		t.Fatal(found)
	}
	got := drawnOn(l)
	for name, want := range map[string]string{Ingredients.String(): joined(c.Ingredients), Contains.String(): joined(c.Contains), Heating.String(): c.Heating[0], Identity.String(): c.Identity} {
		if text := strings.Join(got[name], " "); text != want {
			t.Errorf("%s: %q", name, text)
		}
	}
}

// What fits at a size fits on a larger one of the same width, with type no smaller.
func TestMoreHeightNeverHurts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, wide, high := drawContent(t), rapid.Float64Range(30, 150).Draw(t, "wide"), rapid.Float64Range(30, 250).Draw(t, "high")
		l, _ := Lay(c, Roll(wide, high), EU(100, 500))
		if l.Empty() {
			return
		}
		if taller, found := Lay(c, Roll(wide, high+rapid.Float64Range(0, 100).Draw(t, "more")), EU(100, 500)); taller.Empty() {
			t.Fatalf("it fits %g mm, and no more: %v", high, found)
		}
	})
}

// What fits with the least type is what fits: a way that is said not to do does not.
func TestTheLeastTypeDecides(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawContent(t)
		s := Roll(rapid.Float64Range(20, 150).Draw(t, "wide"), rapid.Float64Range(20, 200).Draw(t, "high"))
		if len(refuse(c, s)) > 0 {
			return
		}
		r := rapid.SampledFrom([]Rules{US(4), US(20), EU(60, 680), {}}).Draw(t, "rules")
		if l, _ := Lay(c, s, r); l.Empty() == fits(c, s, r) {
			t.Fatalf("laid out: %v, said to fit: %v", !l.Empty(), fits(c, s, r))
		}
	})
}
