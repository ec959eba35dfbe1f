package nextrun

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
)

const today = "2026-12-07"

// weekly sells so many of a pack in each week before today, the oldest first.
func weekly(pack kitchen.PackID, counts ...int64) []Sale {
	var all []Sale
	for i, n := range counts {
		ago := 7*(len(counts)-i) - 3
		if n > 0 {
			all = append(all, Sale{pack, kitchen.DaysBefore(today, ago), n})
		}
	}
	return all
}

func bookOf(packs map[kitchen.PackID]kitchen.Pack) kitchen.Book { return kitchen.Book{Packs: packs} }

func plan(t *testing.T, book kitchen.Book, ask Ask) Proposal {
	t.Helper()
	ask.Today = today
	p, err := Plan(book, ask)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func codes(p Proposal) []string {
	var all []string
	for _, f := range p.Findings {
		all = append(all, f.Code)
	}
	return all
}

// By hand: ten weeks of 10 are forecast as 10 a week, never off. In two weeks 20, of which 6 are ordered: 14 more are expected. 5 are to remain, 8
// are there: 6 + 14 + 5 - 8 = 17, in batches of 12 that is 24.
func TestWhatToMakeByHand(t *testing.T) {
	book := bookOf(map[kitchen.PackID]kitchen.Pack{"dal": {Name: "Dal", Dish: "dal", Keep: 5, Frozen: 8, Batch: 12}})
	p := plan(t, book, Ask{Sold: weekly("dal", 10, 10, 10, 10, 10, 10, 10, 10, 10, 10), Open: []Wanted{{"dal", "O-1", "2026-12-10", 4}, {"dal", "O-2", "2026-12-21", 2}, {"dal", "O-3", "2026-12-22", 50}}})
	r := p.Rows[0]
	if r.Expected != 20 || r.Ordered != 6 || r.Later != 50 || r.Need != 17 || r.Make != 24 || r.First != "2026-12-10" || p.Until != "2026-12-21" || p.Day != "2026-12-14" {
		t.Errorf("%+v", r)
	}
	if want := "20 expected to be sold, 6 of it ordered; 5 to remain; 8 on hand; 0 planned: 17 needed, 24 in batches of 12"; r.Sum() != want {
		t.Errorf("%q, want %q", r.Sum(), want)
	}
	if want := "The last count, held against the last 6 weeks: off by 0.0 packs a week on average, where 10 a week were sold."; r.Error() != want {
		t.Errorf("%q, want %q", r.Error(), want)
	}
	req := p.Request
	if len(req.Want) != 1 || req.Want[0].Pack != "dal" || req.Want[0].Count != 24 || req.Day != p.Day || len(req.Orders) != 0 {
		t.Errorf("the request: %+v", req) // the 8 on hand cover the 6 ordered
	}
}

// Orders beyond what is expected are made, not added to it: 30 ordered of 20 expected are 30.
func TestOrdersArePartOfWhatIsExpected(t *testing.T) {
	book := bookOf(map[kitchen.PackID]kitchen.Pack{"dal": {Frozen: 4}})
	sold := weekly("dal", 10, 10, 10, 10, 10, 10, 10, 10)
	for ordered, want := range map[int64]int64{0: 16, 15: 16, 20: 16, 30: 26} {
		p := plan(t, book, Ask{Sold: sold, Open: []Wanted{{"dal", "O-1", "2026-12-16", ordered}}})
		if p.Rows[0].Make != want || p.Request.Orders["dal"] != int(max(0, ordered-4)) {
			t.Errorf("%d ordered: make %d, promised %v; want %d", ordered, p.Rows[0].Make, p.Request.Orders, want)
		}
	}
}

func TestTooShortAHistory(t *testing.T) {
	book := bookOf(map[kitchen.PackID]kitchen.Pack{"dal": {Keep: 6, Frozen: 2}, "pea": {}})
	p := plan(t, book, Ask{Sold: weekly("dal", 30, 30, 30, 30, 30, 30, 30), Open: []Wanted{{"dal", "O-1", "2026-12-16", 5}}})
	if r := p.Rows[0]; r.Pack != "dal" || r.Forecast != nil || r.Expected != 0 || r.Make != 9 || r.Sum() != "5 ordered; 6 to remain; 2 on hand; 0 planned: 9 needed" || r.Error() != "" || r.Range() != "" {
		t.Errorf("%+v %q", r, r.Sum())
	}
	if r := p.Rows[1]; r.Pack != "pea" || r.Make != 0 {
		t.Errorf("%+v", r)
	}
	if got := codes(p); !slices.Equal(got, []string{"history-short"}) {
		t.Errorf("found %v", p.Findings)
	}
	if f := p.Findings[0]; f.Where != "dal, pea" || len(f.Figures) != 2 || f.Figures[0].Text != "7 weeks" || f.Figures[1].Text != "0 weeks" {
		t.Errorf("found %v", f)
	}
}

// What sold today is off the stock and not yet in a week; what was sold yesterday is in the last one; what came back comes off.
func TestWeeks(t *testing.T) {
	day := func(ago int) string { return kitchen.DaysBefore(today, ago) }
	sold := []Sale{{"dal", day(0), 99}, {"dal", day(1), 1}, {"dal", day(7), 2}, {"dal", day(8), 4}, {"dal", day(14), 8}, {"dal", day(9), -3}, {"dal", day(30), -50}, {"dal", day(22), 5}, {"pea", day(1), 7}}
	if got, want := byWeek(sold, "dal", today), []float64{5, 0, 9, 3}; !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
}

func TestRunsThatArePlanned(t *testing.T) {
	book := bookOf(map[kitchen.PackID]kitchen.Pack{"dal": {Keep: 100, Frozen: 10}})
	book.Runs = map[string]kitchen.Request{
		"past":     {Day: "2026-12-06", Want: []kitchen.Want{{Pack: "dal", Count: 1000}}},
		"today":    {Day: today, Want: []kitchen.Want{{Pack: "dal", Count: 500}}},
		"tomorrow": {Day: "2026-12-08", Want: []kitchen.Want{{Pack: "dal", Count: 20}}},
		"kettle":   {Day: "2026-12-09", Want: []kitchen.Want{{Dish: "dal", Most: true}}},
		"off":      {Day: "2026-12-09", Want: []kitchen.Want{{Pack: "dal", Count: 7}}},
		"later":    {Day: "2026-12-15", Want: []kitchen.Want{{Pack: "dal", Count: 70}}},
		"undated":  {Want: []kitchen.Want{{Pack: "dal", Count: 70}}},
	}
	p := plan(t, book, Ask{Leave: []string{"off"}})
	if r := p.Rows[0]; r.Planned != 20 || r.Make != 70 {
		t.Errorf("%+v", r)
	}
	var told []string
	for _, c := range p.Runs {
		told = append(told, c.Run+": "+c.Not)
	}
	if got := strings.Join(told, "; "); got != "today: it is today: what comes of it counts once it is packed; tomorrow: ; kettle: what it makes of dal only its plan tells; off: left out" {
		t.Errorf("%s", got)
	}
}

func TestAsksThatMakeNoSense(t *testing.T) {
	for _, a := range []Ask{{Today: "soon"}, {Today: today, Day: "soon"}, {Today: today, Day: "2026-12-06"}, {Today: today, Weeks: -1}, {Today: today, Weeks: 27}, {Today: today, Weeks: 1, Day: "2026-12-15"}} {
		var wrong *AskError
		if _, err := Plan(kitchen.Book{}, a); !errors.As(err, &wrong) || wrong.Fix == "" {
			t.Errorf("%+v: %v", a, err)
		}
	}
}

func TestFindings(t *testing.T) {
	book := bookOf(map[kitchen.PackID]kitchen.Pack{"dal": {}})
	p := plan(t, book, Ask{Open: []Wanted{{"dal", "O-1", "2026-12-08", 5}, {"stew", "O-2", "2026-12-08", 5}, {"stew", "O-3", "2026-12-08", 5}}})
	if got := codes(p); !slices.Equal(got, []string{"pack-unknown", "order-before-run", "history-short"}) || p.Findings.Worst() != finding.Caution {
		t.Errorf("%v", p.Findings)
	}
	if p := plan(t, bookOf(nil), Ask{}); !slices.Equal(codes(p), []string{"nothing-to-make"}) || len(p.Request.Want) != 0 {
		t.Errorf("an empty book: %v", p.Findings)
	}
}

// Whatever is sold and ordered: what is made with what is there and planned covers orders and the stock that is to remain, in whole batches, and one
// batch less would not cover what is asked for.
func TestWhatIsMadeCoversWhatIsAsked(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.Int64Range(0, 50)
		pack := kitchen.Pack{Keep: int(n.Draw(t, "keep")), Frozen: int(n.Draw(t, "on hand")), Batch: int(rapid.IntRange(0, 30).Draw(t, "batch"))}
		ask := Ask{Today: today, Weeks: rapid.IntRange(1, 6).Draw(t, "weeks"), Sure: rapid.Bool().Draw(t, "sure"), Sold: weekly("dal", rapid.SliceOfN(n, 0, 30).Draw(t, "sold")...)}
		for range rapid.IntRange(0, 4).Draw(t, "orders") {
			ask.Open = append(ask.Open, Wanted{"dal", "O", kitchen.DaysBefore(today, rapid.IntRange(-60, 10).Draw(t, "due")), n.Draw(t, "ordered")})
		}
		if ask.Weeks == 1 {
			ask.Day = today
		}
		p, err := Plan(bookOf(map[kitchen.PackID]kitchen.Pack{"dal": pack}), ask)
		if err != nil {
			t.Fatal(err)
		}
		r := p.Rows[0]
		after := r.OnHand + r.Planned + r.Make - max(r.Expected, r.Ordered)
		if after < r.Keep || r.Make%r.Batch != 0 || r.Make >= r.Batch && after-r.Batch >= r.Keep {
			t.Errorf("%+v leaves %d", r, after)
		}
		if (r.Forecast == nil) != (len(r.Sold) < ShortestHistory) {
			t.Errorf("%d weeks, forecast %v", len(r.Sold), r.Forecast)
		}
		if len(p.Request.Want) > 0 {
			book := kitchen.Book{Packs: map[kitchen.PackID]kitchen.Pack{"dal": pack}}
			if found := kitchen.CheckRequest(book, p.Request); len(found) > 0 {
				t.Errorf("the request is not sound: %v", found)
			}
		}
	})
}
