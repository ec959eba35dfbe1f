package web

import (
	"cmp"
	"fmt"
	"net/http"
	"slices"

	"kettlefrost/internal/app"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
)

// todayCard is one thing that the kitchen has to look at today, and where.
type todayCard struct {
	URL, Name string
	Says      []string
	Grave     bool
}

// todayCards are what the records say has to be looked at, in the order of a day. Nothing of it is decided here.
func (s *server) todayCards(r *http.Request) []todayCard {
	if s.records == nil {
		return nil
	}
	day := app.Today(s.house.Now())
	var cards []todayCard
	for _, card := range []func(*http.Request, record.Day) (todayCard, error){s.boardsToday, s.coolingToday, s.freezersToday, s.ordersToday, s.stockToday, s.openingsToday, s.safetyToday, s.thermometersToday, s.backupsToday} {
		c, err := card(r, day)
		if err != nil {
			c = todayCard{URL: officePath, Name: "The records", Says: []string{sentence(err)}, Grave: true}
		}
		if c.Name != "" {
			cards = append(cards, c)
		}
	}
	return cards
}

// mostSaid is how many lines a card of today has: its page has all.
const mostSaid = 2

// atAGlance are the cards with what is grave first, each in few lines.
func atAGlance(cards []todayCard) []todayCard {
	for i := range cards {
		if n := len(cards[i].Says) - mostSaid; n > 0 {
			cards[i].Says = append(cards[i].Says[:mostSaid:mostSaid], fmt.Sprintf("and %d more", n))
		}
	}
	slices.SortStableFunc(cards, func(a, b todayCard) int {
		switch {
		case a.Grave == b.Grave:
			return 0
		case a.Grave:
			return -1
		}
		return 1
	})
	return cards
}

func (s *server) boardsToday(r *http.Request, _ record.Day) (todayCard, error) {
	runs, err := s.boards.Runs(r.Context())
	book, _ := s.house.Book()
	c := todayCard{URL: boardPath, Name: "Board", Says: []string{"nothing is being made: open a run"}}
	var open []string
	for _, run := range runs {
		if run.Open() {
			name := run.Name
			if _, opened, ok := run.Opened(); ok {
				name = cmp.Or(book.Runs[opened.Request].Name, opened.Request, name)
			}
			open = append(open, name)
			c.URL = boardURL(run.Name)
		}
	}
	if len(open) > 0 {
		c.Says = open
	}
	if len(open) > 1 {
		c.URL = boardPath
	}
	return c, err
}

func (s *server) ordersToday(r *http.Request, day record.Day) (todayCard, error) {
	c := todayCard{URL: ordersPath, Name: "Orders"}
	err := s.records.Desk(r.Context(), day, func(d app.Desk) error {
		due, late := 0, 0
		for _, o := range d.Live(day, day) {
			switch {
			case !o.Live():
			case o.Due < day:
				late++
			default:
				due++
			}
		}
		c.Says = []string{times(due, "order", "orders") + " for today"}
		if late > 0 {
			c.Says, c.Grave = append(c.Says, times(late, "order", "orders")+" of days before, still open"), true
		}
		return nil
	})
	return c, err
}

func (s *server) stockToday(r *http.Request, day record.Day) (todayCard, error) {
	c := todayCard{URL: stockPath, Name: "Stock"}
	err := s.records.Lots(r.Context(), func(state *lots.State, found finding.List) error {
		packs, held, past := int64(0), 0, 0
		for l := range state.All() {
			here := l.OnHand()
			if here.Numbers.Empty() && here.Mass == 0 {
				continue
			}
			packs += here.Numbers.Count()
			if l.Held() {
				held++
			}
			if last := l.Last(); last != "" && last < day {
				past++
			}
		}
		c.Says = []string{fmt.Sprintf("%s on hand", times(int(packs), "pack", "packs"))}
		if held > 0 {
			c.Says, c.Grave = append(c.Says, times(held, "lot", "lots")+" held: somebody has to decide"), true
		}
		if past > 0 {
			c.Says, c.Grave = append(c.Says, times(past, "lot", "lots")+" past the last day"), true
		}
		if n := len(found); n > 0 {
			c.Says = append(c.Says, times(n, "entry does not fit", "entries do not fit"))
		}
		return nil
	})
	return c, err
}

// backupsToday is there only when something has to be said about them.
func (s *server) backupsToday(_ *http.Request, _ record.Day) (todayCard, error) {
	_, found := s.records.BackupState(s.house.Now())
	c := todayCard{URL: officePath}
	for _, f := range found {
		if f.Severity >= finding.Caution {
			c.Name, c.Grave, c.Says = "Backups", true, append(c.Says, f.Message)
		}
	}
	return c, nil
}
