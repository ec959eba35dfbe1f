package web

import (
	"cmp"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/board"
	"kettlefrost/internal/draw"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// boardPage is all that templates/board.html may show: a production as it happens.
type boardPage struct {
	shell
	Run      string
	What     string // the run of the book
	URL      string
	Events   string // address of the news since this page was made
	Clock    string // now
	ClockMs  string
	Ends     string
	Later    string // than planned
	Stale    string // the times are being worked out anew
	Closed   bool
	Who      string // acts on this device
	Tabs     []navLink
	Columns  []boardColumn
	One      bool          // they are of one person
	Way      []boardCard   // under way
	Cools    []coolingCard // that somebody must look at
	Open     []openingRow  // packs that are to be opened and tasted
	Over     []overRow
	Moves    []moveView
	Findings findingsView
	List     string // address of all productions
	Report   string // address of what it came to, for paper
	Close    boardForm
}

// boardColumn is one person's part of the board.
type boardColumn struct {
	Name    string
	Nothing string // what is said when nothing is to be done
	Now     []boardCard
	Next    []boardCard
	Waiting []boardCard
	Only    bool // nothing can be done but wait
}

// boardCard is one task on the board.
type boardCard struct {
	Key, URL string
	Action   string // where its form goes
	Entry    string // the number of what its form enters
	What     string // start or finish
	Button   string
	Code     string
	Label    string
	Load     string
	Place    string
	Who      string // who is at it
	With     string // who else is meant for it
	From, To string
	Left     string // of what is under way
	DueMs    string
	Over     bool   // its time is up
	Behind   string // by so much later than planned
	Waits    string
	Cool     *coolingLine // how its cooling stands; nil when it does not cool
}

// overRow is a task that is done or skipped.
type overRow struct {
	URL             string
	From, To, Label string
	By              string
	Skipped         string // why
	Planned         string
	Entry           string // its last entry, to be taken back
}

var boardTemplate = parse[boardPage]("board")

// Cards that are shown of each sort; the others are counted by the page of everybody.
const (
	mostNextCards = 4
	mostWaiting   = 6
	mostOver      = 12
)

func (s *server) showBoard(w http.ResponseWriter, r *http.Request) {
	p, ok := s.boardOf(w, r)
	if !ok {
		return
	}
	query := r.URL.Query()
	rd := readerOf(p.Book.Kitchen, r)
	who := s.actsHere(r)
	cools := s.coolOnBoard(r, p)
	v := boardPage{shell: s.inShell(r, p.Book.Kitchen, "Board: "+p.Run.Name, "board"), Run: p.Run.Name, What: cmp.Or(p.First.Run, p.Opened.Request), URL: boardURL(p.Run.Name), List: boardPath, Report: boardURL(p.Run.Name) + "/report.pdf",
		Clock: s.house.Now().Format("15:04"), ClockMs: strconv.FormatInt(s.house.Now().UnixMilli(), 10), Closed: !p.Open, Who: who, Findings: viewFindings(slices.Concat(cools.found, s.coldOnBoard(r), p.AllFound())), Cools: cools.look(p, s.instant())}
	v.Open = s.openings(r, p.Book, s.stockDay())
	v.Refresh = refreshS
	v.Events = "/events?" + url.Values{"after": {strconv.FormatUint(p.Seq, 10)}}.Encode()
	end, planned := p.Ends()
	v.Ends, v.Later = end.String(), later(end, planned)
	if !p.Fresh {
		v.Stale = "being timed again"
	}
	b := boardView{p: p, rd: rd, codes: draw.NewCodes(p.First.Dishes), now: record.Instant(s.house.Now().UnixMilli()), cools: cools}
	v.tabs(b, query, who)
	v.Over, v.Moves = b.over(), viewMoves(p.Timed, rd)
	if p.Open {
		v.Close = boardForm{ID: "close", Title: "Close this production", Action: v.URL, Button: "Close it", Kept: []kept{{"what", "close"}, {entryField, newEntryID()}}, Fields: []field{{Key: "note", Label: "Note", Hint: "what the next cook should know; may be empty"}}}
	}
	boardTemplate.show(w, http.StatusOK, v)
}

// actsHere is who acts on this device, as far as it is known.
func (s *server) actsHere(r *http.Request) string {
	if v := visitorOf(r); v != nil {
		return cmp.Or(v.person.Name, v.actor.Person)
	}
	return cookie(r, whoCookie)
}

// tabs are the people, and the columns of whoever is asked for: of who acts here if the board has a column for them.
func (v *boardPage) tabs(b boardView, query url.Values, who string) {
	columns := b.p.Columns()
	asked, chosen := query.Get("person"), query.Has("person")
	if !chosen && slices.ContainsFunc(columns, func(c board.Column) bool { return c.Person == who }) {
		asked = who
	}
	var way []board.Item
	v.Tabs = append(v.Tabs, navLink{"Everybody", v.URL + "?person=", asked == ""})
	for _, c := range columns {
		if c.Person != "" {
			v.Tabs = append(v.Tabs, navLink{c.Person, v.URL + "?" + url.Values{"person": {c.Person}}.Encode(), c.Person == asked})
		}
		if asked != "" && c.Person != asked && c.Person != "" {
			continue
		}
		if col := b.column(c); c.Person != "" || len(col.Now)+len(col.Next)+len(col.Waiting) > 0 {
			v.Columns = append(v.Columns, col)
		}
		way = append(way, c.UnderWay...)
	}
	slices.SortStableFunc(way, func(x, y board.Item) int {
		return cmp.Or(cmp.Compare(x.Due, y.Due), cmp.Compare(x.Task.Key, y.Task.Key))
	})
	way = slices.CompactFunc(way, func(x, y board.Item) bool { return x.Task.Key == y.Task.Key }) // two people may be at it
	v.Way, v.One = b.cards(way, len(way)), asked != ""
}

// boardView puts a production into words.
type boardView struct {
	p     *app.Production
	rd    reader
	codes draw.Codes
	now   record.Instant
	cools boardCools
}

func (b boardView) column(c board.Column) boardColumn {
	v := boardColumn{Name: cmp.Or(c.Person, "Anybody"), Now: b.cards(c.Now, len(c.Now)), Next: b.cards(c.Next, mostNextCards), Waiting: b.cards(c.Waiting, mostWaiting)}
	v.Only = len(c.Now)+len(c.Next) == 0
	switch {
	case len(c.Now) > 0:
	case len(c.Next) > 0:
		v.Nothing = "Nothing until " + c.Next[0].Task.Start.String() + "."
	case len(c.Waiting) > 0:
		v.Nothing = "Nothing can begin yet."
	default:
		v.Nothing = "Nothing more to do."
	}
	return v
}

func (b boardView) cards(items []board.Item, most int) []boardCard {
	var cards []boardCard
	for _, x := range items[:min(most, len(items))] {
		cards = append(cards, b.card(x))
	}
	return cards
}

func (b boardView) card(x board.Item) boardCard {
	t := x.Task
	v := boardCard{Key: t.Key, URL: taskURL(b.p.Run.Name, t.Key), Action: boardURL(b.p.Run.Name), Entry: newEntryID(), What: "start", Button: "Start", Code: b.codes.Task(t), Label: draw.Brief(t), Load: loadOf(t),
		Place: strings.Join(t.On, ", "), With: strings.Join(t.People, ", "), From: t.Start.String(), To: t.End.String(), Waits: counted(x.Waits)}
	v.Cool = b.cools.line(b.p, t.Key, b.now)
	if x.Behind >= 5*unit.Minute {
		v.Behind = x.Behind.String() + " late"
	}
	if x.Went.Is == board.Begun {
		v.What, v.Button, v.Who, v.With = "finish", "Finish", strings.Join(x.Went.Who, ", "), ""
		v.From, v.To, v.DueMs = clockText(b.p.Clock, x.Went.Began), clockText(b.p.Clock, x.Due), strconv.FormatInt(int64(x.Due), 10)
		left := (x.Due - b.now + 30_000) / 60_000
		v.Left, v.Over = (unit.Span(left)*unit.Minute).String()+" left", x.Due <= b.now
		if v.Over {
			v.Left = "time is up"
			if left < 0 {
				v.Left = "time is up for " + (unit.Span(-left) * unit.Minute).String()
			}
		}
	}
	return v
}

func taskURL(run, key string) string {
	return boardURL(run) + "/task?" + url.Values{"task": {key}}.Encode()
}

// over are the tasks that were done last.
func (b boardView) over() []overRow {
	first := map[string]plan.Task{}
	for _, t := range b.p.First.Timetable.Tasks {
		first[t.Key] = t
	}
	var rows []overRow
	all := b.p.Board.Over()
	for _, t := range all[:min(mostOver, len(all))] {
		k, planned := first[t.Key]
		row := overRow{URL: taskURL(b.p.Run.Name, t.Key), From: clockText(b.p.Clock, t.Began), To: clockText(b.p.Clock, t.Ended), Label: t.Key, By: strings.Join(append(slices.Clone(t.Who), without(t.EndedBy, t.Who)...), ", ")}
		if planned {
			row.Label = strings.TrimSpace(b.codes.Task(k) + " " + draw.Brief(k))
			if l := loadOf(k); l != "" {
				row.Label += ", " + l
			}
			row.Planned = k.Start.String() + "–" + k.End.String()
		}
		if t.Is == board.Skipped {
			row.Skipped = t.Why
		}
		if last, ok := t.Last(); ok {
			row.Entry = last.ID.String()
		}
		rows = append(rows, row)
	}
	return rows
}

func without(name string, names []string) []string {
	if name == "" || slices.Contains(names, name) {
		return nil
	}
	return []string{name}
}

// counted is a list in words, what is in it several times with how often.
func counted(names []string) string {
	var words []string
	for i, name := range names {
		if slices.Index(names, name) < i {
			continue
		}
		n := 0
		for _, other := range names {
			if other == name {
				n++
			}
		}
		if n > 1 {
			name = strconv.Itoa(n) + " × " + name
		}
		words = append(words, name)
	}
	return strings.Join(words, "; ")
}
