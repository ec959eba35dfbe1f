package orders

import (
	"reflect"
	"slices"
	"testing"

	"kettlefrost/internal/record"

	"pgregory.net/rapid"
)

// An entry that comes late and commutes makes the state that it would have made in time.
func TestWhatCommutesMayComeLate(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s := tell(t, draw(rt)...)
		want, _ := s.fold()
		late := rapid.IntRange(0, len(s.entries)-1).Draw(rt, "late")
		e := s.entries[late]
		without := slices.Delete(slices.Clone(s.entries), late, late+1)
		got, _ := Of(slices.Values(without))
		got.begin()
		if !got.Commutes(e) {
			return
		}
		got.Take(e)
		for _, look := range []func(*State) any{
			func(s *State) any { return s.Dated("2026-12-01", "2026-12-20") }, func(s *State) any { return s.Customers() }, func(s *State) any { return s.Route("2026-12-04", "2026-12-01") },
			func(s *State) any { return s.StandingIDs() }, func(s *State) any { return s.bags },
		} {
			if a, b := look(want), look(got); !reflect.DeepEqual(a, b) {
				rt.Errorf("%s late:\n%+v\nin time:\n%+v", e.Kind, b, a)
			}
		}
	})
}

// A day of two tablets: what has nothing to do with one another commutes, what has does not.
func TestWhatCommutes(t *testing.T) {
	s := tell(t, lotOf("S-1", "soup", 9, "2027-06-01", ""), lotOf("S-2", "soup", 9, "2027-06-01", ""), order("O-1", "cafe", "2026-12-04", line("soup", 2)), order("O-2", "bar", "2026-12-04", line("soup", 2)), fortnightly(),
		record.Customer{Customer: "cafe", Name: "Cafe"}, record.Picked{Order: "O-1", Lot: "S-1", Numbers: nos("1")}, record.Picked{Order: "O-7/2026-12-04", Lot: "S-1", Numbers: nos("2")})
	state, _ := s.fold()
	for _, c := range []struct {
		body record.Body
		want bool
	}{
		{record.Picked{Order: "O-2", Lot: "S-2", Numbers: nos("1")}, true}, {record.Picked{Order: "O-2", Lot: "S-1", Numbers: nos("9")}, false}, {record.Picked{Order: "O-1", Lot: "S-2", Numbers: nos("9")}, false},
		{record.Cancelled{Order: "O-2", Why: "x"}, true}, {record.Cancelled{Order: "O-1", Why: "x"}, false}, {record.Cancelled{Order: "O-7", Why: "x"}, false},
		{record.Customer{Customer: "cafe", Name: "C"}, false}, {record.Customer{Customer: "bar", Name: "C"}, true}, {order("O-3", "cafe", "2026-12-04", line("soup", 1)), true},
		{record.Routed{Day: "2026-12-04", Orders: []string{"O-1"}}, true}, {record.Returned{Customer: "x", Lot: "S-2", Numbers: nos("1"), Why: "x"}, true},
	} {
		e, err := record.Say(record.ID{9}, noon+5*60_000+1, "ada", "tablet", c.body)
		if err != nil {
			t.Fatal(err)
		}
		if got := state.Commutes(e); got != c.want {
			t.Errorf("%s %+v: %v", c.body.Kind(), c.body, got)
		}
	}
}

// What is live is what of all orders is not done, whatever happened and whenever it is looked at; and the orders of a day and of a customer
// are those of all that are.
func TestLiveOrdersAreThoseNotDone(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		bodies := draw(rt)
		if rapid.Bool().Draw(rt, "packed late") { // what the lots are is told last
			bodies = append(bodies[3:], bodies[:3]...)
		}
		s, _ := tell(t, bodies...).fold()
		today := rapid.SampledFrom([]record.Day{"2026-11-20", "2026-12-01", "2026-12-11", "2026-12-20", "2027-03-01"}).Draw(rt, "today")
		until := Plus(today, 10)
		all := s.Dated(today, until)
		same := func(what string, got []Order, want func(Order) bool) {
			wanted := slices.DeleteFunc(slices.Clone(all), func(o Order) bool { return !want(o) })
			if len(got) == 0 && len(wanted) == 0 {
				return
			}
			if !reflect.DeepEqual(got, wanted) {
				rt.Errorf("%s on %s:\n%+v\nwant\n%+v", what, today, got, wanted)
			}
		}
		same("live", s.Live(today, until), func(o Order) bool { return o.Live() || len(o.Aside) > 0 })
		for _, day := range []record.Day{"2026-11-28", "2026-12-04", "2026-12-11"} {
			if day <= until {
				same("due on "+string(day), s.On(day, today), func(o Order) bool { return o.Due == day && o.Status != NotGiven })
			}
		}
		same("of the café", s.OfCustomer("cafe", today, until), func(o Order) bool {
			return o.Customer == "cafe" && o.Status != NotGiven && (o.Due <= until || o.Entry != record.ID{})
		})
	})
}
