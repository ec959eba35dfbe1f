package app

import (
	"reflect"
	"testing"
	"time"

	"kettlefrost/demo"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/language"
)

// A card is made once for the same question of the same book, and anew when either changes.
func TestHomeCardsAreRemembered(t *testing.T) {
	house, err := New(demo.Book(), time.Now)
	if err != nil {
		t.Fatal(err)
	}
	book, _ := house.Book()
	other := book
	other.Kitchen.Name = "another"
	var cards HomeCards
	for _, c := range []struct {
		book   kitchen.Book
		people int
		made   int // so far
	}{{book, 5, 1}, {book, 5, 1}, {book, 6, 2}, {other, 5, 3}, {other, 5, 3}, {book, 6, 3}} {
		card, err := cards.Make(t.Context(), c.book, house.Foods(), "meatballs-six", c.people, language.English)
		if err != nil {
			t.Fatal(err)
		}
		if len(cards.made) != c.made {
			t.Errorf("%d people, %s: %d cards were made, want %d", c.people, c.book.Kitchen.Name, len(cards.made), c.made)
		}
		want, err := HomeCard(t.Context(), c.book, house.Foods(), "meatballs-six", c.people, language.English)
		if err != nil || !reflect.DeepEqual(card, want) {
			t.Errorf("%d people, %s: the card is not the one that is made anew (%v)", c.people, c.book.Kitchen.Name, err)
		}
	}
}
