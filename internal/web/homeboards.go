package web

import (
	"cmp"
	"fmt"
	"maps"
	"net/http"
	"slices"
	"strings"

	"kettlefrost/internal/board"
	"kettlefrost/internal/draw"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
)

// boardNow is a production that is under way, in short.
type boardNow struct {
	URL, Name string
	Ends      string
	Later     string // than planned
	Jobs      []jobNow
	Problem   string
}

// jobNow is what one person is at, or should begin next.
type jobNow struct {
	Who, State string // State is a word for it: now, at it, next
	What, When string
	URL        string
	Over       bool // its time is up
}

// boardsNow are the productions under way with the next thing to do for each person.
func (s *server) boardsNow(r *http.Request, book kitchen.Book) []boardNow {
	if s.records == nil {
		return nil
	}
	runs, err := s.boards.Runs(r.Context())
	if err != nil {
		return nil // the card of the boards says it
	}
	var all []boardNow
	for _, run := range runs {
		if !run.Open() {
			continue
		}
		v := boardNow{URL: boardURL(run.Name), Name: run.Name}
		if _, opened, ok := run.Opened(); ok {
			v.Name = cmp.Or(book.Runs[opened.Request].Name, opened.Request, run.Name)
		}
		s.fillBoardNow(r, run, &v)
		all = append(all, v)
	}
	return all
}

func (s *server) fillBoardNow(r *http.Request, run *board.Run, v *boardNow) {
	p, err := s.boards.Production(r.Context(), run.Name, false)
	if err != nil {
		v.Problem = sentence(err)
		return
	}
	end, planned := p.Ends()
	v.Ends, v.Later = end.String(), later(end, planned)
	b := boardView{p: p, rd: readerOf(p.Book.Kitchen, r), codes: draw.NewCodes(p.First.Dishes), now: record.Instant(s.house.Now().UnixMilli())}
	for _, c := range p.Columns() {
		if j, some := b.firstJob(c); some {
			v.Jobs = append(v.Jobs, j)
		}
	}
}

// firstJob is what a person should look at first: what should begin now, what is under way, what is next. What nobody's hands are at is left out
// unless its time is up.
func (b boardView) firstJob(c board.Column) (jobNow, bool) {
	for _, x := range []struct {
		state string
		items []board.Item
	}{{"at it", c.UnderWay}, {"now", c.Now}, {"next", c.Next}} {
		if len(x.items) == 0 {
			continue
		}
		card := b.card(x.items[0])
		j := jobNow{Who: cmp.Or(c.Person, "Anybody"), State: x.state, What: strings.TrimSpace(card.Code + " " + card.Label), When: card.From + "–" + card.To, URL: card.URL, Over: card.Over}
		if card.Left != "" {
			j.When = card.Left
		}
		if c.Person == "" && !card.Over {
			continue
		}
		return j, true
	}
	return jobNow{}, false
}

// lowCard is what there is too little of, and the way to make more of it.
func lowCard(book kitchen.Book) todayCard {
	c := todayCard{URL: nextRunPath}
	for _, id := range slices.Sorted(maps.Keys(book.Packs)) {
		if p := book.Packs[id]; p.Keep > 0 && p.Frozen < p.Keep {
			c.Name = "Running low"
			c.Says = append(c.Says, fmt.Sprintf("%s: %d, %d should be", cmp.Or(p.Name, string(id)), p.Frozen, p.Keep))
		}
	}
	return c
}
