package homepaper

import (
	"bytes"
	"maps"
	"slices"
	"strings"
	"testing"

	"kettlefrost/demo"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/homecard"
	"kettlefrost/internal/language"
	"kettlefrost/internal/pdf"
)

// A card of every pack for the fewest and the most people, in each language, is one page of either paper, and says the same in each.
func TestOnePage(t *testing.T) {
	foods, err := foodtable.Default()
	if err != nil {
		t.Fatal(err)
	}
	book := bookfile.Read(demo.Book()).Book
	for _, pack := range slices.Sorted(maps.Keys(book.Packs)) {
		for _, people := range []int{homecard.Fewest, homecard.Most} {
			ask := homecard.Ask{Book: book, Foods: foods, Pack: pack, People: people}
			english, err := homecard.Make(t.Context(), ask)
			if err != nil {
				t.Fatal(err)
			}
			onePage(t, english)
			for _, ask.In = range []language.Language{language.Spanish, language.French} {
				c, err := homecard.Make(t.Context(), ask)
				if err != nil || c.Language != ask.In {
					t.Fatalf("in %s it is in %s: %v", ask.In, c.Language, err)
				}
				onePage(t, c)
				speaks(t, english, c)
			}
		}
	}
}

func onePage(t *testing.T, c homecard.Card) {
	t.Helper()
	for _, paper := range []pdf.Paper{pdf.Letter, pdf.A4} {
		doc := Document(c, paper, 0)
		if pages := pdf.Pages(doc); len(pages) != 1 {
			t.Errorf("%s for %d in %s: %d pages", c.Pack, c.People, c.Language, len(pages))
		}
		var out bytes.Buffer
		if err := pdf.Write(&out, doc); err != nil || out.Len() == 0 {
			t.Errorf("%s: %v", c.Pack, err)
		}
	}
}

func TestWords(t *testing.T) {
	if got := Allergens(homecard.Card{Unanswered: []string{"nobody has answered for ale"}}); !strings.HasPrefix(got, "Not known") {
		t.Errorf("%q", got)
	}
	if got := Allergens(homecard.Card{Contains: "Contains: Milk."}); got != "Contains: Milk." {
		t.Errorf("%q", got)
	}
	if got := Facts(homecard.Card{Facts: []homecard.Nutrient{{Name: "calories", Amount: "120"}, {Name: "iron", Missing: []string{"ale"}}}}); got != "Calories 120, not known: iron." {
		t.Errorf("%q", got)
	}
	if got := Under(homecard.Step{With: "pot", Notes: []string{"mind"}}); got != "pot; mind" {
		t.Errorf("%q", got)
	}
}
