package pdf

import (
	"slices"
	"strings"
	"testing"

	"kettlefrost/internal/draw"
	"kettlefrost/internal/language"
)

// form is a table that people write into.
func form(large float64, in language.Language) Document {
	rows := make([]Row, 30)
	for i := range rows {
		rows[i].Cells = []string{"", "", ""}
	}
	return Document{Title: "form", Head: "kitchen", Foot: "run", Large: large, In: language.In(in), Blocks: []Block{
		Title{Text: "Cooling"}, Table{Name: "readings", Columns: []Column{{Name: "time"}, {Name: "temperature", Wide: 90}, {Name: "who"}}, Rows: rows, Ruled: true, Tall: 28},
		Signatures{{As: "read by"}}}}
}

// What is set larger is larger by just that, stays on the page, and takes more pages.
func TestLarger(t *testing.T) {
	plain, large := form(0, ""), form(1.5, "")
	few, many := look(plain), look(large)
	if len(many) <= len(few) {
		t.Errorf("one and a half times as large it takes %d pages, else %d", len(many), len(few))
	}
	size := func(pages []*seen, text string) float64 {
		i := slices.IndexFunc(pages[0].texts, func(x said) bool { return x.text == text })
		return pages[0].texts[i].Size
	}
	if was, is := size(few, "temperature"), size(many, "temperature"); is != 1.5*was {
		t.Errorf("type of %g became %g", was, is)
	}
	for i, p := range Pages(large) {
		if w, h := p.Width, p.Height; w != 612 || h != 792 {
			t.Errorf("page %d is %g by %g", i+1, w, h)
		}
		for _, at := range many[i].out {
			if at.X < sideMargin-1 || at.X > 612-sideMargin+1 || at.Y < 20 || at.Y > 792-footMargin+4 {
				t.Errorf("page %d: something is at %v", i+1, at)
			}
		}
	}
}

func TestOnItsSide(t *testing.T) {
	doc := form(1.2, "")
	doc.Wide = true
	for i, p := range Pages(doc) {
		if p.Width != 792 || p.Height != 612 {
			t.Errorf("page %d is %g by %g", i+1, p.Width, p.Height)
		}
	}
	upright := form(1.2, "")
	if wide, tall := len(Pages(doc)), len(Pages(upright)); wide <= tall {
		t.Errorf("30 rows take %d pages on their side and %d upright", wide, tall)
	}
}

// There is room to write by hand: 28 points a row are a centimetre.
func TestRoomToWrite(t *testing.T) {
	lines := &verticals{}
	for _, p := range Pages(form(0, "")) {
		p.Draw(lines)
	}
	if len(lines.tall) < 2*30 {
		t.Fatalf("%d lines stand between the columns of 30 rows", len(lines.tall))
	}
	for _, tall := range lines.tall[2:] { // after the head
		if tall < 28 && tall > 20 {
			t.Errorf("a row is %g points tall", tall)
		}
	}
}

// verticals are the lines that stand upright.
type verticals struct{ tall []float64 }

func (v *verticals) Line(a, b draw.Point, _ draw.Style) {
	if a.X == b.X {
		v.tall = append(v.tall, b.Y-a.Y)
	}
}
func (v *verticals) Rect(draw.Box, draw.Style)            {}
func (v *verticals) Polyline([]draw.Point, draw.Style)    {}
func (v *verticals) Group(_ string, in func(draw.Canvas)) { in(v) }
func (v *verticals) Text(draw.Point, string, draw.Type)   {}

func TestPagesAreNumberedInTheLanguage(t *testing.T) {
	for in, want := range map[language.Language]string{"": "page 1 of ", language.Spanish: "página 1 de ", language.French: "page 1 sur "} {
		if !slices.ContainsFunc(look(form(0, in))[0].texts, func(x said) bool { return strings.HasPrefix(x.text, want) }) {
			t.Errorf("%q: no page says %q", in, want)
		}
	}
}
