package keeping

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func opened(weeks int, found string) Opened {
	return Opened{Lot: "P-1", Weeks: weeks, Good: found == "good", Found: found}
}

// By hand. A month is 30.44 days: 2 are 8 whole weeks, 3 are 13, 4 are 17 and 6 are 26. The charts have soups and stews at 2 to 3 months, cooked
// fish at 4 to 6 (USDA and FDA charts, as copied).
func TestTheLeastOfWhatSupportsIt(t *testing.T) {
	soup, fish := []Class{"soups-stews"}, []Class{"cooked-fish"}
	cold := &Storage{Rate: 0.5, Low: 0.4, High: 0.6, ReadDays: 30}
	// A freezer at -15 °C: 3 °C too warm takes 3^0.3 = 1.39 days' life a day, 2^0.3 = 1.23 to 4^0.3 = 1.52.
	warm := &Storage{Rate: math.Pow(3, 0.3), Low: math.Pow(2, 0.3), High: math.Pow(4, 0.3), ReadDays: 30}
	trial := func(weeks int, ends bool) Trial {
		return Trial{Name: "gum", Weeks: weeks, Ends: ends, Says: "x", Source: "y"}
	}
	good := func(weeks ...int) (all []Opened) {
		for _, w := range weeks {
			all = append(all, opened(w, "good"))
		}
		return all
	}
	for _, c := range []struct {
		name    string
		food    Food
		weeks   int
		limit   Basis
		against bool // own packs are
		further bool // it may go
		alone   bool
	}{
		{"the table alone", Food{Classes: soup}, 8, ByPublished, false, true, true},
		{"the class that ends first", Food{Classes: []Class{"cooked-fish", "soups-stews"}}, 8, ByPublished, false, true, true},
		{"fish alone", Food{Classes: fish}, 17, ByPublished, false, true, true},
		{"poultry has one figure", Food{Classes: []Class{"cooked-poultry"}}, 17, ByPublished, false, false, true},
		{"opened early and good: nobody has looked further", Food{Classes: soup, Opened: good(4)}, 8, ByPublished, false, true, false},
		{"opened later than the shorter end", Food{Classes: soup, Opened: good(4, 12)}, 12, ByOpened, false, true, false},
		{"opened later than the longer end", Food{Classes: soup, Opened: good(30)}, 13, ByPublished, false, false, false},
		{"one fading, and what came later", Food{Classes: soup, Opened: append(good(4, 12), opened(8, "fading"))}, 4, ByOpened, true, true, false},
		{"good and bad in one week", Food{Classes: soup, Opened: append(good(8, 2), opened(8, "bad"))}, 2, ByOpened, true, true, false},
		{"bad in the first", Food{Classes: soup, Opened: []Opened{opened(2, "bad")}}, 0, ByOpened, true, true, false},
		{"bad on the first days", Food{Classes: soup, Opened: []Opened{opened(0, "bad")}}, 0, ByOpened, true, false, false},
		{"fading, but later than what is published", Food{Classes: soup, Opened: append(good(4), opened(12, "fading"))}, 8, ByPublished, false, true, false},
		{"fading after one that was good", Food{Classes: soup, Opened: append(good(10), opened(12, "fading"))}, 10, ByOpened, true, true, false},
		{"fading in the week after", Food{Classes: soup, Opened: append(good(11), opened(12, "fading"))}, 11, ByOpened, true, false, false},
		{"nothing published", Food{Opened: good(9)}, 9, ByOpened, false, true, false},
		{"nothing published, and fading", Food{Opened: []Opened{opened(9, "fading")}}, 0, ByOpened, true, true, false},
		{"a trial that ended", Food{Classes: fish, Trials: []Trial{trial(6, true)}, Opened: good(10)}, 6, ByTrial, true, false, false},
		{"a trial that was short", Food{Classes: fish, Trials: []Trial{trial(6, false)}, Opened: good(10)}, 17, ByPublished, false, true, false},
		{"a trial, and packs that ended", Food{Classes: fish, Trials: []Trial{trial(16, false)}, Opened: append(good(10), opened(12, "bad"))}, 10, ByOpened, true, true, false},
		{"a trial alone", Food{Trials: []Trial{trial(6, false)}}, 6, ByTrial, false, true, false},
		{"a trial of the dish as it was", Food{Classes: soup, Trials: []Trial{{Name: "old", Weeks: 2, Ends: true, Not: true, Says: "x", Source: "y"}}}, 8, ByPublished, false, true, true},
		{"packs of the dish as it was", Food{Classes: soup, Opened: []Opened{{Lot: "P-0", Weeks: 2, Found: "bad", Old: true}}}, 8, ByPublished, false, true, true},
		{"colder than 0 °F adds nothing", Food{Classes: soup, Storage: cold}, 8, ByPublished, false, true, true},
		{"warm: 8 weeks / 1.516, 13 / 1.516 at most", Food{Classes: soup, Storage: warm}, 5, ByStorage, false, true, true},
		{"warm, a good pack of 5 weeks", Food{Classes: soup, Storage: warm, Opened: good(5)}, 5, ByStorage, false, true, false},
		{"warm, own packs are in it already", Food{Classes: soup, Storage: warm, Opened: good(7)}, 7, ByOpened, false, true, false},
		{"warm, later own packs: 13 weeks / 1.516", Food{Classes: soup, Storage: warm, Opened: good(12)}, 8, ByStorage, false, false, false},
		{"warm, and fading in the sixth", Food{Classes: soup, Storage: warm, Opened: []Opened{opened(6, "fading")}}, 5, ByStorage, false, false, false},
	} {
		p := Propose(c.food)
		if !p.Known || p.Weeks != c.weeks || p.Limit != c.limit || p.Against != c.against || p.Further != c.further || p.Alone != c.alone {
			t.Errorf("%s: %d weeks by %q, against %t, further %t, alone %t; want %d by %q, %t, %t, %t", c.name, p.Weeks, p.Limit, p.Against, p.Further, p.Alone, c.weeks, c.limit, c.against, c.further, c.alone)
		}
		if by, ok := p.Limiting(); !ok || by.Source == "" || by.Says == "" {
			t.Errorf("%s: what limits it is %+v", c.name, by)
		}
	}
}

func TestNothingIsKnown(t *testing.T) {
	for name, food := range map[string]Food{"nothing": {}, "a class that is not published": {Classes: []Class{"jelly"}}, "a figure from memory": {Classes: []Class{"chicken"}}, "only how warm it was": {Storage: &Storage{Rate: 2, Low: 2, High: 2}}} {
		if p := Propose(food); p.Known || p.Weeks != 0 || p.Row != nil {
			t.Errorf("%s: %+v", name, p)
		}
	}
	if p := Propose(Food{Classes: []Class{"chicken"}}); len(p.Supports) != 1 || p.Supports[0].Counts || !strings.Contains(p.Supports[0].Says, "from memory") {
		t.Errorf("from memory: %+v", p.Supports)
	}
}

func TestTheTable(t *testing.T) {
	for _, c := range []struct {
		class     Class
		low, high int
		text      string
	}{{"soups-stews", 8, 13, "2 to 3 months"}, {"cooked-poultry", 17, 17, "4 months"}, {"stuffing", 4, 4, "1 month"}, {"poultry-gravy", 26, 26, "6 months"}, {"cooked-fish", 17, 26, "4 to 6 months"}} {
		p, ok := Of(c.class)
		if !ok || p.Weeks != c.low || p.WeeksHigh != c.high || p.MonthsText() != c.text || p.Source == "" {
			t.Errorf("%s: %+v", c.class, p)
		}
	}
	seen := map[Class]bool{}
	for _, p := range Table() {
		if seen[p.Class] {
			t.Errorf("%s is there twice", p.Class)
		}
		seen[p.Class] = true
	}
}

func TestWordsOfOpenedPacks(t *testing.T) {
	for _, c := range []struct {
		opened []Opened
		want   string
	}{
		{[]Opened{opened(1, "good")}, "1 pack was opened after 1 week: all good; nobody has opened one later than week 1; one pack is little to go by"},
		{[]Opened{opened(4, "good"), opened(8, "good"), opened(8, "good")}, "3 packs were opened after 4 and 8 weeks: all good; nobody has opened one later than week 8"},
		{[]Opened{opened(4, "good"), opened(8, "fading")}, "2 packs were opened after 4 and 8 weeks: good until week 4, and after 8 weeks one was fading"},
		{[]Opened{opened(4, "bad"), opened(8, "good")}, "2 packs were opened after 4 and 8 weeks: after 4 weeks one was bad, and none was good before that"},
	} {
		if got, _ := ofOpened(c.opened); got.Says != c.want {
			t.Errorf("%q\nwant %q", got.Says, c.want)
		}
	}
}

// Whatever was found: nothing is proposed beyond both the oldest pack found good and the shorter end of what is published, beyond its longer end, or
// beyond the first pack that was not good; another pack that is not good never makes it longer, and another good one never shorter.
func TestNeverBeyondWhatSupportsIt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var f Food
		if rapid.Bool().Draw(t, "published") {
			f.Classes = []Class{rapid.SampledFrom(published).Draw(t, "row").Class}
		}
		for range rapid.IntRange(0, 6).Draw(t, "packs") {
			f.Opened = append(f.Opened, opened(rapid.IntRange(0, 60).Draw(t, "weeks"), rapid.SampledFrom([]string{"good", "good", "fading", "bad"}).Draw(t, "found")))
		}
		if rapid.Bool().Draw(t, "read") {
			r := rapid.Float64Range(0.2, 6).Draw(t, "rate")
			f.Storage = &Storage{Rate: r, Low: r * 0.8, High: r * 1.3, ReadDays: 10}
		}
		p := Propose(f)
		oldest, first := 0, math.MaxInt
		for _, o := range f.Opened {
			if o.Good {
				oldest = max(oldest, o.Weeks)
			} else {
				first = min(first, o.Weeks)
			}
		}
		low := 0
		if len(f.Classes) > 0 {
			if row, _ := Of(f.Classes[0]); !row.Memory {
				low = row.Weeks
				if p.Weeks > row.WeeksHigh {
					t.Errorf("%d weeks, and %s is published with %d", p.Weeks, row.Name, row.WeeksHigh)
				}
			}
		}
		if p.Weeks > max(low, oldest) || first < math.MaxInt && p.Weeks >= max(1, first) {
			t.Errorf("%d weeks, the oldest good pack had %d, the first that was not %d, and %d are published", p.Weeks, oldest, first, low)
		}
		for _, s := range p.Supports {
			if s.Source == "" || s.Says == "" || s.Limits && s.Weeks < p.Weeks {
				t.Errorf("%+v of %d weeks", s, p.Weeks)
			}
		}
		worse := f
		worse.Opened = append([]Opened{opened(rapid.IntRange(0, 60).Draw(t, "bad"), "bad")}, f.Opened...)
		if q := Propose(worse); q.Weeks > p.Weeks {
			t.Errorf("%d weeks with a bad pack more, %d before", q.Weeks, p.Weeks)
		}
		better := f
		better.Opened = append([]Opened{opened(rapid.IntRange(0, 60).Draw(t, "good"), "good")}, f.Opened...)
		if q := Propose(better); q.Weeks < p.Weeks {
			t.Errorf("%d weeks with a good pack more, %d before", q.Weeks, p.Weeks)
		}
	})
}
