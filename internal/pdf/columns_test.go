package pdf

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func items(n, words int) []Item {
	var all []Item
	for range n {
		all = append(all, Item{Mark: "1", Text: strings.TrimSpace(strings.Repeat("word ", words)), Small: "small print"})
	}
	return all
}

func TestColumnsEndOnThePageWhereTheyCan(t *testing.T) {
	for _, c := range []struct {
		name  string
		items int
		pages int
		least float64 // the type is this at least
		most  float64
	}{
		{"a few lines", 5, 1, plainSize, plainSize},
		{"what fits in smaller type", 24, 1, 8, plainSize - sizeStep},
		{"what fits in none", 90, 2, 8, 8},
	} {
		doc := Document{Blocks: []Block{Title{Text: "a sheet"}, Columns{Left: []Part{{Name: "left", Items: items(3, 4)}}, Right: []Part{{Name: "right", Items: items(c.items, 12)}}, Share: 0.4}}}
		pages := look(doc)
		if len(pages) < c.pages || c.pages == 1 && len(pages) > 1 {
			t.Errorf("%s: %d pages", c.name, len(pages))
		}
		size := 0.0
		for _, x := range pages[0].texts {
			if strings.HasPrefix(x.text, "word") {
				size = x.Size
			}
		}
		if size < c.least || size > c.most {
			t.Errorf("%s: in %v points", c.name, size)
		}
	}
}

// Nothing is lost, nothing leaves the page, and the columns do not run into each other.
func TestColumnsKeepApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		word := rapid.StringMatching(`[a-z]{1,40}( [a-z]{1,9}){0,30}`)
		part := rapid.Custom(func(t *rapid.T) Part {
			return Part{Name: word.Draw(t, "name"), Items: rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Item {
				return Item{Mark: rapid.SampledFrom([]string{"", "•", "12"}).Draw(t, "mark"), Text: word.Draw(t, "text"), Small: word.Draw(t, "small")}
			}), 0, 6).Draw(t, "items")}
		})
		x := Columns{Left: rapid.SliceOfN(part, 0, 2).Draw(t, "left"), Right: rapid.SliceOfN(part, 0, 2).Draw(t, "right"), Share: rapid.Float64Range(0.25, 0.75).Draw(t, "share")}
		doc := Document{Blocks: []Block{Paragraph{Text: "before"}, x, Paragraph{Text: "after"}}}
		var out strings.Builder
		for _, p := range look(doc) {
			for _, s := range p.texts {
				out.WriteString(s.text)
			}
			for _, at := range p.out {
				if at.X < sideMargin-0.01 || at.X > 612-sideMargin+0.01 || at.Y > 792-footMargin+0.01 {
					t.Fatalf("something is at %v", at)
				}
			}
			for i, a := range p.texts {
				for _, b := range p.texts[i+1:] {
					if a.y == b.y && a.x < b.x+b.wide-0.01 && b.x < a.x+a.wide-0.01 && a.text != "" && b.text != "" {
						t.Fatalf("%q and %q are on each other", a.text, b.text)
					}
				}
			}
		}
		all := strings.ReplaceAll(out.String(), " ", "")
		for _, parts := range [][]Part{x.Left, x.Right} {
			for _, p := range parts {
				for _, i := range p.Items {
					if !strings.Contains(all, strings.ReplaceAll(i.Text, " ", "")) {
						t.Fatalf("%q is not on the pages", i.Text)
					}
				}
			}
		}
	})
}
