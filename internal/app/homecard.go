package app

import (
	"context"
	"reflect"
	"sync"

	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/homecard"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/language"
)

// HomeCard writes the dish of a pack for a home, in a language. Errors are *homecard.AskError and *homecard.DishError.
func HomeCard(ctx context.Context, book kitchen.Book, foods *foodtable.Table, pack kitchen.PackID, people int, in language.Language) (homecard.Card, error) {
	return homecard.Make(ctx, homecard.Ask{Book: book, Foods: foods, Pack: pack, People: people, In: in})
}

// HomeCards keeps the last cards, so that the page, its paper and the same page again are one computation. Its zero value is ready.
type HomeCards struct {
	mu   sync.Mutex
	made []homeCardMade // the oldest first
}

type homeCardMade struct {
	ask  homecard.Ask
	card homecard.Card
}

// Make is HomeCard, of which the last are remembered. The card is shared: it is not to be changed.
func (c *HomeCards) Make(ctx context.Context, book kitchen.Book, foods *foodtable.Table, pack kitchen.PackID, people int, in language.Language) (homecard.Card, error) {
	ask := homecard.Ask{Book: book, Foods: foods, Pack: pack, People: people, In: in}
	if card, ok := c.kept(ask); ok {
		return card, nil
	}
	card, err := homecard.Make(ctx, ask)
	if err != nil {
		return card, err
	}
	c.mu.Lock()
	defer c.mu.Unlock()
	if len(c.made) == remembered {
		c.made = c.made[1:]
	}
	c.made = append(c.made, homeCardMade{ask, card})
	return card, nil
}

func (c *HomeCards) kept(ask homecard.Ask) (homecard.Card, bool) {
	c.mu.Lock()
	defer c.mu.Unlock()
	for _, x := range c.made {
		if x.ask.Pack == ask.Pack && x.ask.People == ask.People && x.ask.In == ask.In && x.ask.Foods == ask.Foods && reflect.DeepEqual(x.ask.Book, ask.Book) {
			return x.card, true
		}
	}
	return homecard.Card{}, false
}
