// Package nextrun works out what to make next: from the orders that are open, what is to remain in the freezer, what is there, and what sold
// week by week in the past. Where too little sold to forecast from, it says so and goes by orders and minimum stocks alone.
//
// It proposes; the plan of the run says whether a day holds it.
package nextrun

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/forecast"
	"kettlefrost/internal/kitchen"
)

// ShortestHistory is the number of weeks since a pack was first sold below which nothing is forecast: half of them would go into the first
// look of every method, and fewer than four would be left to measure it on.
const ShortestHistory = 8

// UsualWeeks is how long what is made should last when nobody says it.
const UsualWeeks = 2

// yearInWeeks is after how many weeks what sells comes again, if it does.
const yearInWeeks = 52

// Sale is packs that left the house on a day; below 0 they came back.
type Sale struct {
	Pack  kitchen.PackID
	Day   string
	Count int64
}

// Wanted is packs that a customer has ordered and not had.
type Wanted struct {
	Pack  kitchen.PackID
	Order string
	Due   string
	Count int64
}

// Ask is what is asked.
type Ask struct {
	Today string // nothing that was sold today counts yet
	Day   string // on which to make it; a week from today when left out
	Weeks int    // how long it should last, from today; UsualWeeks when 0
	Sure  bool   // by the high end of what may be sold, not by what is expected
	Sold  []Sale
	Open  []Wanted
	Leave []string // runs of the book that will not be made
}

// Proposal is what to make, and why.
type Proposal struct {
	Today    string          `json:"today"`
	Day      string          `json:"day"`
	Until    string          `json:"until"` // the last day that it should last
	Weeks    int             `json:"weeks"`
	Sure     bool            `json:"sure"`
	Rows     []Row           `json:"-"`    // every pack of the book, those to be made first
	Runs     []Counted       `json:"runs"` // of the book, that bring packs before then
	Request  kitchen.Request `json:"-"`
	Findings finding.List    `json:"findings"`
}

// Row is one pack.
type Row struct {
	Pack     kitchen.PackID     `json:"pack"`
	Name     string             `json:"name"`
	Dish     kitchen.DishID     `json:"dish"`
	Sold     []float64          `json:"sold_by_week"` // since it was first sold, the oldest week first
	Forecast *forecast.Forecast `json:"-"`
	Expected int64              `json:"expected"` // to be sold until then, orders included
	Ordered  int64              `json:"ordered"`  // due until then
	Later    int64              `json:"ordered_later"`
	Keep     int64              `json:"keep"`
	OnHand   int64              `json:"on_hand"`
	Planned  int64              `json:"planned"`
	Batch    int64              `json:"batch"`
	Need     int64              `json:"need"` // below 0: more than enough
	Make     int64              `json:"make"`
	First    string             `json:"first_due,omitempty"` // the day of the first order
}

// Counted is a run of the book whose packs are counted as planned, or why they are not.
type Counted struct {
	Run   string `json:"run"`
	Day   string `json:"day"`
	Packs int64  `json:"packs"`
	Not   string `json:"not_counted,omitempty"`
}

// Plan works it out. The book's packs have in Frozen what can be sold now. Errors are *AskError.
func Plan(book kitchen.Book, ask Ask) (Proposal, error) {
	p, err := begin(ask)
	if err != nil {
		return p, err
	}
	planned := p.planned(book, ask.Leave)
	for _, id := range sortedPacks(book) {
		row, found, err := rowOf(id, book.Packs[id], ask, p, planned[id])
		if err != nil {
			return p, err
		}
		p.Rows, p.Findings = append(p.Rows, row), append(p.Findings, found...)
	}
	p.short()
	p.unknown(book, ask)
	slices.SortStableFunc(p.Rows, func(a, b Row) int {
		return cmp.Or(cmp.Compare(min(1, b.Make), min(1, a.Make)), cmp.Compare(cmp.Or(a.First, never), cmp.Or(b.First, never)))
	})
	p.Request = p.request()
	if len(p.Request.Want) == 0 {
		p.find("nothing-to-make", finding.Note, "the next run", "what is there is enough until "+p.Until, "ask for more weeks, or for the high end of what may be sold")
	}
	p.Findings.Sort()
	return p, nil
}

// short finds the packs that nothing is forecast for.
func (p *Proposal) short() {
	var names []string
	var weeks []finding.Figure
	for _, r := range p.Rows {
		if r.Forecast == nil {
			names = append(names, string(r.Pack))
			weeks = append(weeks, finding.Figure{Name: string(r.Pack), Value: float64(len(r.Sold)), Unit: "weeks", Text: fmt.Sprintf("%d weeks", len(r.Sold))})
		}
	}
	if len(names) > 0 {
		p.Findings = append(p.Findings, finding.Finding{Code: "history-short", Severity: finding.Note, Where: strings.Join(names, ", "), Figures: weeks,
			Message: fmt.Sprintf("first sold less than %d weeks ago, or never: nothing is forecast, and they go by orders and minimum stock alone", ShortestHistory), Fix: "wait for more weeks of sales, or raise keep: of the pack"})
	}
}

// never is after every day.
const never = "9999"

func (p *Proposal) find(code string, severity finding.Severity, where, message, fix string, figures ...finding.Figure) {
	p.Findings = append(p.Findings, finding.Finding{Code: code, Severity: severity, Where: where, Message: message, Fix: fix, Figures: figures})
}

// AskError says what of an ask makes no sense.
type AskError struct{ Where, Problem, Fix string }

func (e *AskError) Error() string {
	return fmt.Sprintf("next run: %s: %s; %s", e.Where, e.Problem, e.Fix)
}

// mostWeeks is longer than a freezer of a small kitchen should last.
const mostWeeks = 26

func begin(ask Ask) (Proposal, error) {
	p := Proposal{Today: ask.Today, Day: cmp.Or(ask.Day, kitchen.DaysBefore(ask.Today, -7)), Weeks: cmp.Or(ask.Weeks, UsualWeeks), Sure: ask.Sure}
	switch left, ok := kitchen.DaysUntil(p.Today, p.Day); {
	case !ok:
		return p, &AskError{"day", fmt.Sprintf("%q is no date", p.Day), "write year, month and day, such as 2026-12-01"}
	case left < 0:
		return p, &AskError{"day", p.Day + " is before today, " + p.Today, "give a day from today on"}
	case p.Weeks < 1 || p.Weeks > mostWeeks:
		return p, &AskError{"weeks", fmt.Sprintf("%d weeks cannot be planned for", p.Weeks), fmt.Sprintf("give 1 to %d", mostWeeks)}
	}
	p.Until = kitchen.DaysBefore(p.Today, -7*p.Weeks)
	if p.Day > p.Until {
		return p, &AskError{"day", fmt.Sprintf("%s is after %s, until when it should last", p.Day, p.Until), "make it earlier, or ask for more weeks"}
	}
	return p, nil
}

func sortedPacks(book kitchen.Book) []kitchen.PackID {
	var ids []kitchen.PackID
	for id := range book.Packs {
		ids = append(ids, id)
	}
	slices.Sort(ids)
	return ids
}

// planned counts what runs of the book bring from tomorrow on until the day of the one that is proposed.
func (p *Proposal) planned(book kitchen.Book, leave []string) map[kitchen.PackID]int64 {
	packs := map[kitchen.PackID]int64{}
	var names []string
	for name := range book.Runs {
		names = append(names, name)
	}
	slices.SortFunc(names, func(a, b string) int {
		return cmp.Or(cmp.Compare(book.Runs[a].Day, book.Runs[b].Day), cmp.Compare(a, b))
	})
	for _, name := range names {
		run := book.Runs[name]
		if run.Day < p.Today || run.Day > p.Day {
			continue
		}
		c := Counted{Run: name, Day: run.Day}
		switch {
		case slices.Contains(leave, name):
			c.Not = "left out"
		case run.Day == p.Today:
			c.Not = "it is today: what comes of it counts once it is packed"
		default:
			c.count(run, packs)
		}
		p.Runs = append(p.Runs, c)
	}
	return packs
}

func (c *Counted) count(run kitchen.Request, packs map[kitchen.PackID]int64) {
	for _, w := range run.Want {
		if w.Pack == "" {
			c.Not = "what it makes of " + string(w.Dish) + " only its plan tells"
			continue
		}
		packs[w.Pack] += int64(w.Count)
		c.Packs += int64(w.Count)
	}
}
