package orders

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
)

// allot works out who gets what on December 1, 2026, and has it checked.
func allot(t testing.TB, bodies ...record.Body) Allotment {
	t.Helper()
	s := tell(t, bodies...)
	state, _ := s.fold()
	stock, _ := lots.Of(slices.Values(s.entries))
	a, err := state.Allot(stock, "2026-12-01", "2026-12-31")
	if err != nil {
		t.Fatal(err)
	}
	if err := a.Check(); err != nil {
		t.Error(err)
	}
	return a
}

// gets is who gets what, in short: the pieces with a * for what is set aside, then what is short.
func gets(a Allotment) []string {
	var all []string
	for _, v := range a.Orders {
		var parts []string
		for _, g := range v.Gets {
			for _, p := range g.Pieces {
				mark := ""
				if p.IsAside {
					mark = "*"
				}
				parts = append(parts, fmt.Sprintf("%s%s %s", mark, p.Lot, p.Numbers))
			}
			for _, x := range g.Short {
				parts = append(parts, fmt.Sprintf("%d %s", x.Packs, x.Code))
			}
		}
		all = append(all, v.ID+": "+strings.Join(parts, ", "))
	}
	return all
}

// Days by hand. S-1 is older than S-2; the customers are as their names say.
func TestWhoGetsWhat(t *testing.T) {
	kitchen := []record.Body{lotOf("S-2", "soup", 10, "2027-06-01", "chest-1"), lotOf("S-1", "soup", 10, "2026-12-20", "chest-2"), record.Customer{Customer: "month", Name: "A month", LifeDays: 30},
		record.Customer{Customer: "onelot", Name: "One lot", MostLots: 1}}
	whole := order("O-1", "cafe", "2026-12-04", line("soup", 25))
	whole.Whole = true
	weekly := order("R-1", "cafe", "2026-12-04", line("soup", 6))
	weekly.Weeks = 1
	for _, c := range []struct {
		name string
		then []record.Body
		want []string
		free int64
	}{
		{"the oldest first", []record.Body{order("O-1", "cafe", "2026-12-04", line("soup", 12))}, []string{"O-1: S-2 1-2, S-1 1-10"}, 8},
		{"who is due first", []record.Body{order("O-1", "cafe", "2026-12-05", line("soup", 12)), order("O-2", "bar", "2026-12-04", line("soup", 12))}, []string{"O-2: S-2 1-2, S-1 1-10", "O-1: S-2 3-10, 4 none-left"}, 0},
		{"who ordered first, on one day", []record.Body{order("O-1", "cafe", "2026-12-04", line("soup", 15)), order("O-2", "bar", "2026-12-04", line("soup", 15))}, []string{"O-1: S-2 1-5, S-1 1-10", "O-2: S-2 6-10, 10 none-left"}, 0},
		{"a month of life", []record.Body{order("O-1", "month", "2026-12-04", line("soup", 12))}, []string{"O-1: S-2 1-10, 2 too-short"}, 10},
		{"who can take old ones leaves fresh ones to who cannot", []record.Body{order("O-1", "cafe", "2026-12-04", line("soup", 10)), order("O-2", "month", "2026-12-05", line("soup", 10))}, []string{"O-1: S-1 1-10", "O-2: S-2 1-10"}, 0},
		{"held", []record.Body{record.Held{Lot: "S-1", Numbers: nos("3-10"), Why: "burst bag"}, order("O-1", "cafe", "2026-12-04", line("soup", 15))}, []string{"O-1: S-2 1-10, S-1 1-2, 3 on-hold"}, 0},
		{"one lot", []record.Body{order("O-1", "onelot", "2026-12-04", line("soup", 12))}, []string{"O-1: S-1 1-10, 2 too-many-lots"}, 10},
		{"whole or not at all", []record.Body{whole, order("O-2", "bar", "2026-12-05", line("soup", 12))}, []string{"O-1: 20 not-whole, 5 none-left", "O-2: S-2 1-2, S-1 1-10"}, 8},
		{"what is set aside stays", []record.Body{order("O-1", "cafe", "2026-12-05", line("soup", 6)), record.Picked{Order: "O-1", Lot: "S-1", Numbers: nos("1-4")}, order("O-2", "bar", "2026-12-04", line("soup", 18))},
			[]string{"O-2: S-2 1-10, S-1 5-10, 2 none-left", "O-1: *S-1 1-4, 2 none-left"}, 0},
		{"two places", []record.Body{record.Moved{Lot: "S-1", Numbers: nos("1-5"), To: "chest-1"}, order("O-1", "cafe", "2026-12-04", line("soup", 10))}, []string{"O-1: S-1 1-5, S-1 6-10"}, 10},
		{"a standing order", []record.Body{weekly}, []string{"R-1/2026-12-04: S-1 1-6", "R-1/2026-12-11: S-2 1-2, S-1 7-10", "R-1/2026-12-18: S-2 3-8", "R-1/2026-12-25: S-2 9-10, 4 none-left"}, 0},
		{"past its day", []record.Body{lotOf("S-0", "soup", 10, "2026-11-30", "chest-1"), order("O-1", "cafe", "2026-11-29", line("soup", 5))}, []string{"O-1: S-1 1-5"}, 15},
		{"gone is gone", []record.Body{order("O-1", "cafe", "2026-12-04", line("soup", 6)), record.HandedOver{Order: "O-1", Customer: "cafe", Lot: "S-1", Numbers: nos("1-4")}}, []string{"O-1: S-1 5-6"}, 14},
		{"all of it gone", []record.Body{order("O-1", "cafe", "2026-12-04", line("soup", 4)), record.HandedOver{Order: "O-1", Customer: "cafe", Lot: "S-1", Numbers: nos("1-4")}}, nil, 16},
	} {
		a := allot(t, append(kitchen[:len(kitchen):len(kitchen)], c.then...)...)
		if got := gets(a); !slices.Equal(got, c.want) || a.Free["soup"] != c.free || len(a.Findings) > 0 {
			t.Errorf("%s: %q, %d free, %v\nwant %q, %d free", c.name, got, a.Free["soup"], a.Findings, c.want, c.free)
		}
	}
}

// What was set aside and will not do any more is told, kept from others, and replaced.
func TestWhatWasSetAsideAndWillNotDo(t *testing.T) {
	kitchen := []record.Body{lotOf("S-1", "soup", 10, "2026-12-20", "chest-1"), lotOf("S-2", "soup", 10, "2027-06-01", "chest-1"), record.Customer{Customer: "month", Name: "A month", LifeDays: 30},
		order("O-1", "cafe", "2026-12-04", line("soup", 4)), record.Picked{Order: "O-1", Lot: "S-1", Numbers: nos("1-4")}}
	late := order("O-1", "cafe", "2026-12-24", line("soup", 4))
	less := order("O-1", "cafe", "2026-12-04", line("soup", 3))
	other := order("O-1", "cafe", "2026-12-04", line("dal", 3))
	for _, c := range []struct {
		name    string
		then    record.Body
		correct bool
		codes   []string
		want    string
	}{
		{"held", record.Held{Lot: "S-1", Numbers: nos("2"), Why: "burst"}, false, []string{CodePickedHeld}, "O-1: *S-1 1, 3-4, S-1 5"},
		{"written off", record.WrittenOff{Lot: "S-1", Numbers: nos("2"), Why: "burst"}, false, []string{CodePickedMissing}, "O-1: *S-1 1, 3-4, S-1 5"},
		{"the day moved", late, true, []string{CodePickedOld}, "O-1: S-2 1-4"},
		{"fewer", less, true, []string{CodePickedOver}, "O-1: *S-1 1-3"},
		{"another kind", other, true, []string{CodePickedOver}, "O-1: 3 none-left"},
	} {
		s := tell(t, kitchen...)
		e := s.add(c.then)
		if c.correct {
			s.entries = s.entries[:len(s.entries)-1]
			s.entries[3].Body = e.Body
		}
		state, _ := s.fold()
		stock, _ := lots.Of(slices.Values(s.entries))
		a, err := state.Allot(stock, "2026-12-01", "2026-12-31")
		if err != nil || a.Check() != nil {
			t.Fatal(err, a.Check())
		}
		if got := gets(a); got[0] != c.want || !slices.Equal(codes(a.Findings), c.codes) || a.Findings.Worst() == 0 {
			t.Errorf("%s: %q, %v\nwant %q", c.name, got, a.Findings, c.want)
		}
	}
}

// Whoever is short is told why, and what would help.
func TestShortOnesAreToldWhatWouldHelp(t *testing.T) {
	a := allot(t, lotOf("S-1", "soup", 10, "2026-12-20", "chest-1"), record.Customer{Customer: "month", Name: "A month", LifeDays: 30}, record.Held{Lot: "S-1", Numbers: nos("9-10"), Why: "burst bag"},
		order("O-1", "cafe", "2026-12-04", line("soup", 10)), order("O-2", "month", "2026-12-04", line("soup", 1)), order("O-3", "bar", "2026-12-05", line("dal", 3)))
	for i, c := range []struct{ why, fix string }{
		{"lot S-1, packs 9-10 (burst bag)", "decide"},
		{"no pack is left", "pack 1 more"},
		{"no pack is left", "pack 3 more by 2026-12-05, or agree on 0 of 3"},
	} {
		x := a.Orders[i].Gets[0].Short[0]
		if !strings.Contains(x.Why, c.why) || !strings.Contains(x.Fix, c.fix) {
			t.Errorf("%s: %+v", a.Orders[i].ID, x)
		}
	}
}

// Places are walked from the large to the small, and shelf 2 comes before shelf 10.
func TestPlacesInTheOrderOfAWalk(t *testing.T) {
	places := []record.Place{"chest-2", "chest-1/shelf 10/box A", "chest-1/shelf 2", "", "chest-10", "chest-1", "Chest-1/shelf 2/box b"}
	slices.SortFunc(places, ComparePlaces)
	if want := []record.Place{"", "chest-1", "chest-1/shelf 2", "Chest-1/shelf 2/box b", "chest-1/shelf 10/box A", "chest-2", "chest-10"}; !slices.Equal(places, want) {
		t.Errorf("%q", places)
	}
}
