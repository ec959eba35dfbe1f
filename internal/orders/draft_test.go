package orders

import (
	"slices"
	"strings"
	"testing"

	"kettlefrost/internal/record"
)

// What people type, and what they are told; a question ends with ?.
func TestDrafts(t *testing.T) {
	state, _ := tell(t, record.Customer{Customer: "cafe", Name: "Cafe", Address: "1 Mill Lane"}, record.Customer{Customer: "bar", Name: "Bar"}, order("O-1", "cafe", "2026-12-04", line("soup", 5), line("dal", 1)), fortnightly(),
		order("O-9", "cafe", "2026-12-09", line("soup", 5)), record.Cancelled{Order: "O-9", Why: "closed"}).fold()
	good := func(change func(*Draft)) Draft {
		d := Draft{Customer: "cafe", Lines: []record.OrderLine{line("soup", 3)}, Due: "2026-12-05"}
		change(&d)
		return d
	}
	for _, c := range []struct {
		name  string
		draft Draft
		want  []string
	}{
		{"good", good(func(d *Draft) {}), nil},
		{"a standing one", good(func(d *Draft) { d.Weeks, d.Until = 2, "2027-03-01" }), nil},
		{"today", good(func(d *Draft) { d.Due = "2026-12-01" }), nil},
		{"nothing", Draft{}, []string{"customer", "lines", "due"}},
		{"a pack misspelt", good(func(d *Draft) { d.Lines[0].Pack = "suop" }), []string{"lines[0].pack"}},
		{"none of it", good(func(d *Draft) { d.Lines[0].Count = 0 }), []string{"lines[0].count"}},
		{"fewer than none", good(func(d *Draft) { d.Lines[0].Count = -1 }), []string{"lines[0].count"}},
		{"a slip of the finger", good(func(d *Draft) { d.Lines[0].Count = 1_000_000 }), []string{"lines[0].count"}},
		{"a stranger", good(func(d *Draft) { d.Customer = "caff" }), []string{"customer"}},
		{"yesterday", good(func(d *Draft) { d.Due = "2026-11-30" }), []string{"due?"}},
		{"the wrong year", good(func(d *Draft) { d.Due = "2036-12-05" }), []string{"due?"}},
		{"no day", good(func(d *Draft) { d.Due = "Friday" }), []string{"due"}},
		{"no date", good(func(d *Draft) { d.Due = "2026-02-30" }), []string{"due"}},
		{"no address", good(func(d *Draft) { d.Customer = "bar" }), []string{"way?"}},
		{"no address needed", good(func(d *Draft) { d.Customer, d.Way = "bar", record.Collect }), nil},
		{"by pigeon", good(func(d *Draft) { d.Way = "pigeon" }), []string{"way"}},
		{"an end of nothing", good(func(d *Draft) { d.Until = "2027-03-01" }), []string{"every_weeks"}},
		{"an end before the start", good(func(d *Draft) { d.Weeks, d.Until = 1, "2026-12-04" }), []string{"until"}},
		{"said twice", good(func(d *Draft) { d.Due, d.Lines = "2026-12-04", []record.OrderLine{line("dal", 1), line("soup", 5)} }), []string{"order?"}},
		{"a pack twice", good(func(d *Draft) { d.Lines = append(d.Lines, line("soup", 1)) }), []string{"lines[1].pack?"}},
		{"a number that is taken", good(func(d *Draft) { d.Order = "O-1" }), []string{"order"}},
		{"a number of a delivery", good(func(d *Draft) { d.Order = "O-7/2026-12-04" }), []string{"order"}},
		{"a number like an address", good(func(d *Draft) { d.Order = "a/b" }), []string{"order"}},
		{"dots", good(func(d *Draft) { d.Order = ".." }), []string{"order"}},
		{"a change", good(func(d *Draft) { d.Changes = "O-1" }), nil},
		{"a change of one delivery", good(func(d *Draft) { d.Changes = "O-7/2026-12-18" }), nil},
		{"a change of no delivery", good(func(d *Draft) { d.Changes = "O-7/2026-12-19" }), []string{"changes"}},
		{"a change of what is cancelled", good(func(d *Draft) { d.Changes = "O-9" }), []string{"changes"}},
		{"a single one made to stand", good(func(d *Draft) { d.Changes, d.Weeks = "O-1", 1 }), []string{"every_weeks"}},
		{"a delivery made to stand", good(func(d *Draft) { d.Changes, d.Weeks = "O-7/2026-12-18", 1 }), []string{"every_weeks"}},
	} {
		var got []string
		for _, p := range state.Check(c.draft, []string{"soup", "dal"}, "2026-12-01") {
			text := p.Field
			if p.Ask {
				text += "?"
			}
			got = append(got, text)
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
	if p := state.Check(good(func(d *Draft) { d.Lines[0].Pack = "suop" }), []string{"soup", "dal"}, "2026-12-01"); !strings.Contains(p[0].Fix, "soup") {
		t.Errorf("%v", p)
	}
}

// A draft that nothing is wrong with is a body that can be entered.
func TestAGoodDraftIsABody(t *testing.T) {
	d := Draft{Customer: "cafe", Lines: []record.OrderLine{line("soup", 3)}, Due: "2026-12-05", Weeks: 2, Until: "2027-01-01", Whole: true, Note: "back door"}
	if _, err := record.Encode(d.Body("O-3")); err != nil {
		t.Error(err)
	}
}

func TestTheNextNumber(t *testing.T) {
	for _, c := range []struct {
		ids  []string
		want string
	}{{nil, "O-1"}, {[]string{"O-1", "O-9", "O-10"}, "O-11"}, {[]string{"4711", "O-x", "O-2"}, "O-3"}, {[]string{"O-999999999999999999999"}, "O-1"}} {
		s := tell(t)
		for _, id := range c.ids {
			s.add(order(id, "cafe", "2026-12-04", line("soup", 1)))
		}
		if state, _ := s.fold(); state.NextNumber() != c.want {
			t.Errorf("%v: %s, want %s", c.ids, state.NextNumber(), c.want)
		}
	}
}

// What a draft is entered as: an order under a new number, a correction, one delivery instead of the rule's, or new terms.
func TestWhatADraftIsEnteredAs(t *testing.T) {
	s := tell(t, record.Customer{Customer: "cafe", Name: "Cafe", Address: "1 Mill Lane"}, order("O-1", "cafe", "2026-12-04", line("soup", 5)), fortnightly(), order("O-7/2027-01-01", "cafe", "2026-12-31", line("soup", 4)))
	state, _ := s.fold()
	for _, c := range []struct {
		name     string
		today    record.Day
		draft    Draft
		number   string
		corrects int // which entry of the story, from 1; 0 for none
		asks     []string
	}{
		{"a new one", "2026-12-01", Draft{Due: "2026-12-05"}, "O-8", 0, nil},
		{"a new one with a number", "2026-12-01", Draft{Order: "A-1", Due: "2026-12-05"}, "A-1", 0, nil},
		{"a change", "2026-12-01", Draft{Changes: "O-1", Due: "2026-12-05"}, "O-1", 2, nil},
		{"one delivery", "2026-12-01", Draft{Changes: "O-7/2026-12-18", Due: "2026-12-19"}, "O-7/2026-12-18", 0, nil},
		{"one delivery again", "2026-12-01", Draft{Changes: "O-7/2027-01-01", Due: "2027-01-01"}, "O-7/2027-01-01", 4, nil},
		{"a standing order that has not begun", "2026-12-01", Draft{Changes: "O-7", Weeks: 2, Due: "2026-12-11"}, "O-7", 3, nil},
		{"a standing order from its next day on", "2026-12-10", Draft{Changes: "O-7", Weeks: 1, Due: "2026-12-18"}, "O-7", 0, nil},
		{"a standing order with what is past", "2026-12-10", Draft{Changes: "O-7", Weeks: 1, Due: "2026-12-04"}, "O-7", 3, []string{"due?", "due?"}},
	} {
		c.draft.Customer, c.draft.Lines = "cafe", []record.OrderLine{line("soup", 3)}
		var asks []string
		for _, p := range state.Check(c.draft, []string{"soup"}, c.today) {
			asks = append(asks, p.Field+map[bool]string{true: "?"}[p.Ask])
		}
		body, corrects := state.Entry(c.draft, c.today)
		want := record.ID{}
		if c.corrects > 0 {
			want = s.entries[c.corrects-1].ID
		}
		if body.Order != c.number || corrects != want || !slices.Equal(asks, c.asks) {
			t.Errorf("%s: %s corrects %s, asks %v", c.name, body.Order, corrects, asks)
		}
	}
}
