package orders

import (
	"slices"
	"testing"

	"kettlefrost/internal/record"
)

// The worked examples of RFC 5545, section 3.8.5.3, for weekly rules that start on Tuesday, September 2, 1997; from memory.
func TestDaysAreThoseOfRFC5545(t *testing.T) {
	for _, c := range []struct {
		rule  string
		last  record.Day
		weeks int64
		want  []record.Day
	}{
		{"FREQ=WEEKLY;COUNT=10", "1997-11-04", 1, []record.Day{"1997-09-02", "1997-09-09", "1997-09-16", "1997-09-23", "1997-09-30", "1997-10-07", "1997-10-14", "1997-10-21", "1997-10-28", "1997-11-04"}},
		{"FREQ=WEEKLY;UNTIL=19971224T000000Z", "1997-12-24", 1, []record.Day{"1997-09-02", "1997-09-09", "1997-09-16", "1997-09-23", "1997-09-30", "1997-10-07", "1997-10-14", "1997-10-21", "1997-10-28",
			"1997-11-04", "1997-11-11", "1997-11-18", "1997-11-25", "1997-12-02", "1997-12-09", "1997-12-16", "1997-12-23"}},
		{"FREQ=WEEKLY;INTERVAL=2;WKST=SU", "1998-02-17", 2, []record.Day{"1997-09-02", "1997-09-16", "1997-09-30", "1997-10-14", "1997-10-28", "1997-11-11", "1997-11-25", "1997-12-09", "1997-12-23",
			"1998-01-06", "1998-01-20", "1998-02-03", "1998-02-17"}},
	} {
		if got := slices.Collect(days("1997-09-02", c.last, c.weeks)); !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v", c.rule, got, c.want)
		}
	}
}

// fortnightly is 10 soups every second Friday, from December 4, 2026 to February 12, 2027.
func fortnightly() record.Ordered {
	o := order("O-7", "cafe", "2026-12-04", line("soup", 10))
	o.Weeks, o.Until = 2, "2027-02-12"
	return o
}

// due is the orders of a state with their days, packs and how far they are.
func due(s *State, today, until record.Day) []string {
	var all []string
	for _, o := range s.Dated(today, until) {
		text := o.ID + " " + string(o.Due) + " " + string(o.Status)
		for _, l := range o.Lines {
			text += " " + l.Pack + ":" + itoa(l.Count)
		}
		all = append(all, text)
	}
	return all
}

func itoa(n int64) string { return count("", n).Text }

// Fridays by the calendar of 2026 and 2027: December 4 and 18, January 1, 15 and 29, February 12.
func TestStandingOrders(t *testing.T) {
	moved := order("O-7/2027-01-01", "cafe", "2026-12-31", line("soup", 4))
	more := fortnightly()
	more.Due, more.Weeks, more.Until, more.Lines = "2027-01-08", 1, "2027-01-22", []record.OrderLine{line("soup", 6)}
	for _, c := range []struct {
		name         string
		then         []record.Body
		today, until record.Day
		want         []string
	}{
		{"as the rule has it", nil, "2026-12-01", "2027-03-31", []string{"O-7/2026-12-04 2026-12-04 open soup:10", "O-7/2026-12-18 2026-12-18 open soup:10", "O-7/2027-01-01 2027-01-01 open soup:10",
			"O-7/2027-01-15 2027-01-15 open soup:10", "O-7/2027-01-29 2027-01-29 open soup:10", "O-7/2027-02-12 2027-02-12 open soup:10"}},
		{"up to a day", nil, "2026-12-01", "2026-12-18", []string{"O-7/2026-12-04 2026-12-04 open soup:10", "O-7/2026-12-18 2026-12-18 open soup:10"}},
		{"one left out", []record.Body{record.Cancelled{Order: "O-7/2026-12-18", Why: "holidays"}}, "2026-12-01", "2027-01-01",
			[]string{"O-7/2026-12-04 2026-12-04 open soup:10", "O-7/2026-12-18 2026-12-18 cancelled soup:10", "O-7/2027-01-01 2027-01-01 open soup:10"}},
		{"one changed and moved", []record.Body{moved}, "2026-12-01", "2027-01-15",
			[]string{"O-7/2026-12-04 2026-12-04 open soup:10", "O-7/2026-12-18 2026-12-18 open soup:10", "O-7/2027-01-01 2026-12-31 open soup:4", "O-7/2027-01-15 2027-01-15 open soup:10"}},
		{"other terms from a day on", []record.Body{more}, "2026-12-01", "2027-03-31", []string{"O-7/2026-12-04 2026-12-04 open soup:10", "O-7/2026-12-18 2026-12-18 open soup:10", "O-7/2027-01-01 2027-01-01 open soup:10",
			"O-7/2027-01-08 2027-01-08 open soup:6", "O-7/2027-01-15 2027-01-15 open soup:6", "O-7/2027-01-22 2027-01-22 open soup:6"}},
		{"what nobody did lapses", nil, "2027-01-01", "2027-01-01", []string{"O-7/2026-12-04 2026-12-04 lapsed soup:10", "O-7/2026-12-18 2026-12-18 lapsed soup:10", "O-7/2027-01-01 2027-01-01 open soup:10"}},
		{"what was begun does not", []record.Body{lotOf("S-1", "soup", 20, "2027-06-01", ""), record.Picked{Order: "O-7/2026-12-04", Lot: "S-1", Numbers: nos("1-10")}}, "2027-01-01", "2027-01-01",
			[]string{"O-7/2026-12-04 2026-12-04 ready soup:10", "O-7/2026-12-18 2026-12-18 lapsed soup:10", "O-7/2027-01-01 2027-01-01 open soup:10"}},
		{"all of it cancelled", []record.Body{lotOf("S-1", "soup", 20, "2027-06-01", ""), record.HandedOver{Order: "O-7/2026-12-04", Customer: "cafe", Lot: "S-1", Numbers: nos("1-10")}, record.Cancelled{Order: "O-7", Why: "moved away"}},
			"2026-12-05", "2026-12-18", []string{"O-7/2026-12-04 2026-12-04 handed over soup:10", "O-7/2026-12-18 2026-12-18 cancelled soup:10"}},
	} {
		state, found := tell(t, append([]record.Body{fortnightly()}, c.then...)...).fold()
		if got := due(state, c.today, c.until); !slices.Equal(got, c.want) || len(found) > 0 {
			t.Errorf("%s: %v\n got %q\nwant %q", c.name, found, got, c.want)
		}
	}
}

// Every delivery is found by its number as it is on the list, and nothing by a number that the rule does not have.
func TestDeliveriesByTheirNumber(t *testing.T) {
	moved := order("O-7/2027-01-01", "cafe", "2026-12-31", line("soup", 4))
	state, _ := tell(t, fortnightly(), moved).fold()
	for _, o := range state.Dated("2026-12-01", "2027-03-31") {
		same, ok := state.Order(o.ID, "2026-12-01")
		if !ok || same.Due != o.Due || same.Standing != "O-7" || same.Lines[0] != o.Lines[0] || o.Rule == "" {
			t.Errorf("%+v, %+v", o, same)
		}
	}
	for _, id := range []string{"O-7", "O-7/", "O-7/2026-12-11", "O-7/2027-02-26", "O-7/2026-11-20", "O-7/tomorrow", "O-8/2026-12-04", "", "/", "/2026-12-04"} {
		if o, ok := state.Order(id, "2026-12-01"); ok {
			t.Errorf("%q is %+v", id, o)
		}
	}
}

// The next day of a standing order, and the terms that are in force.
func TestTheNextDayOfAStandingOrder(t *testing.T) {
	more := fortnightly()
	more.Due, more.Weeks, more.Until, more.Lines = "2027-01-08", 1, "2027-01-22", []record.OrderLine{line("soup", 6)}
	state, _ := tell(t, fortnightly(), more).fold()
	for _, c := range []struct {
		today, next record.Day
		packs       int64
	}{{"2026-01-01", "2026-12-04", 10}, {"2026-12-04", "2026-12-04", 10}, {"2026-12-05", "2026-12-18", 10}, {"2027-01-02", "2027-01-08", 10}, {"2027-01-08", "2027-01-08", 6}, {"2027-01-09", "2027-01-15", 6}, {"2027-01-23", "", 6}} {
		if v, ok := state.Standing("O-7", c.today); !ok || v.Next != c.next || v.Lines[0].Count != c.packs {
			t.Errorf("on %s: %+v", c.today, v)
		}
	}
}

// A standing order without an end is as long as who asks looks ahead, and one of many weeks does not run off the calendar.
func TestStandingOrdersEndWithTheQuestion(t *testing.T) {
	endless, rare := fortnightly(), fortnightly()
	endless.Until, endless.Weeks = "", 1
	rare.Order, rare.Until, rare.Weeks = "O-8", "", 1_000_000_000
	state, _ := tell(t, endless, rare).fold()
	if n := len(state.Dated("2026-12-01", "2027-12-03")); n != 53+1 {
		t.Errorf("%d deliveries in a year", n)
	}
	if v, _ := state.Standing("O-8", "2026-12-05"); v.Next > farthest {
		t.Errorf("%+v", v)
	}
}
