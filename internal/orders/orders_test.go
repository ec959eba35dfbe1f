package orders

import (
	"slices"
	"testing"

	"kettlefrost/internal/record"
)

// One order on its way, by hand: 12 soups and 4 dals, picked in two goes, handed over in two, two came back, the rest called off.
func TestAnOrderOnItsWay(t *testing.T) {
	s := tell(t, lotOf("S-1", "soup", 40, "2027-06-01", "chest-1"), lotOf("D-1", "dal", 10, "2027-06-01", "chest-1"),
		order("O-1", "cafe", "2026-12-04", line("soup", 12), line("dal", 4)))
	for _, step := range []struct {
		happens     record.Body
		status      Status
		soup, dal   Line
		asideOfSoup string
	}{
		{record.Picked{Order: "O-1", Lot: "S-1", Numbers: nos("1-8")}, Picking, Line{Aside: 8, Open: 4}, Line{Open: 4}, "1-8"},
		{record.Picked{Order: "O-1", Lot: "S-1", Numbers: nos("9-12")}, Picking, Line{Aside: 12}, Line{Open: 4}, "1-12"},
		{record.Picked{Order: "O-1", Lot: "D-1", Numbers: nos("1-4")}, Ready, Line{Aside: 12}, Line{Aside: 4}, "1-12"},
		{record.HandedOver{Order: "O-1", Customer: "cafe", Lot: "S-1", Numbers: nos("1-10")}, Ready, Line{Gone: 10, Aside: 2}, Line{Aside: 4}, "11-12"},
		{record.HandedOver{Order: "O-1", Customer: "cafe", Lot: "D-1", Numbers: nos("1-4")}, Ready, Line{Gone: 10, Aside: 2}, Line{Gone: 4}, "11-12"},
		{record.Returned{Customer: "cafe", Lot: "S-1", Numbers: nos("1-2"), Why: "too many", Sound: true}, Ready, Line{Gone: 10, Aside: 2, Back: 2}, Line{Gone: 4}, "11-12"},
		{record.Cancelled{Order: "O-1", Why: "enough"}, Gone, Line{Gone: 10, Off: 2, Back: 2}, Line{Gone: 4}, ""},
	} {
		s.add(step.happens)
		state, found := s.fold()
		if len(found) > 0 {
			t.Fatalf("after %s: %v", step.happens.Kind(), found)
		}
		step.soup.Pack, step.soup.Count, step.dal.Pack, step.dal.Count = "soup", 12, "dal", 4
		o := the(t, state, "O-1")
		aside := record.Numbers{}
		for _, p := range o.Aside {
			if p.Lot == "S-1" {
				aside = p.Numbers
			}
		}
		if o.Status != step.status || o.Lines[0] != step.soup || o.Lines[1] != step.dal || aside.String() != step.asideOfSoup {
			t.Errorf("after %s: %s %+v, aside %s", step.happens.Kind(), o.Status, o.Lines, aside)
		}
	}
}

// A pack that came back sound can be set aside again, for anybody.
func TestAPackThatCameBackGoesOutAgain(t *testing.T) {
	state, found := tell(t, lotOf("S-1", "soup", 9, "2027-06-01", ""), order("O-1", "cafe", "2026-12-04", line("soup", 2)), order("O-2", "bar", "2026-12-04", line("soup", 2)),
		record.HandedOver{Order: "O-1", Customer: "cafe", Lot: "S-1", Numbers: nos("1-2")}, record.Returned{Customer: "cafe", Lot: "S-1", Numbers: nos("2"), Why: "one too many", Sound: true},
		record.Picked{Order: "O-2", Lot: "S-1", Numbers: nos("2-3")}).fold()
	if o := the(t, state, "O-2"); len(found) > 0 || o.Status != Ready || the(t, state, "O-1").Lines[0].Back != 1 {
		t.Errorf("%v %+v", found, o)
	}
}

// What does not fit is found, and no pack is set aside twice.
func TestWhatDoesNotFitIsFound(t *testing.T) {
	begin := []record.Body{lotOf("S-1", "soup", 20, "2027-06-01", ""), lotOf("D-1", "dal", 20, "2027-06-01", ""), order("O-1", "cafe", "2026-12-04", line("soup", 5)), order("O-2", "bar", "2026-12-05", line("soup", 5))}
	pick := func(o, n string) record.Body { return record.Picked{Order: o, Lot: "S-1", Numbers: nos(n)} }
	hand := func(o, who, n string) record.Body {
		return record.HandedOver{Order: o, Customer: who, Lot: "S-1", Numbers: nos(n)}
	}
	for _, c := range []struct {
		name   string
		then   []record.Body
		codes  []string
		o1, o2 Line
	}{
		{"a pack for two orders", []record.Body{pick("O-1", "1-5"), pick("O-2", "5-9")}, []string{CodePickedTwice}, Line{Aside: 5}, Line{Aside: 4, Open: 1}},
		{"a pack twice for one order", []record.Body{pick("O-1", "1-3"), pick("O-1", "3-4")}, []string{CodePickedAgain}, Line{Aside: 4, Open: 1}, Line{Open: 5}},
		{"a pack that left", []record.Body{hand("O-1", "cafe", "1-5"), pick("O-2", "5-6")}, []string{CodePickedGone}, Line{Gone: 5}, Line{Aside: 1, Open: 4}},
		{"a pack that left twice", []record.Body{hand("O-1", "cafe", "1-5"), hand("O-2", "bar", "5-6")}, []string{CodeGoneTwice}, Line{Gone: 5}, Line{Gone: 1, Open: 4}},
		{"packs of another order", []record.Body{pick("O-1", "1-5"), hand("O-2", "bar", "4-8")}, []string{CodeTakenFrom}, Line{Aside: 3, Open: 2}, Line{Gone: 5}},
		{"to somebody else", []record.Body{hand("O-1", "bar", "1-5")}, []string{CodeWrongCustomer}, Line{Gone: 5}, Line{Open: 5}},
		{"for a cancelled order", []record.Body{record.Cancelled{Order: "O-1", Why: "closed"}, pick("O-1", "1-5")}, []string{CodeOrderOff}, Line{Off: 5}, Line{Open: 5}},
		{"more than was ordered", []record.Body{pick("O-1", "1-7")}, nil, Line{Aside: 5, Over: 2}, Line{Open: 5}},
		{"for nobody", []record.Body{pick("O-9", "1-7")}, []string{CodeOrderUnknown}, Line{Open: 5}, Line{Open: 5}},
		{"a number twice", []record.Body{order("O-1", "inn", "2026-12-07", line("soup", 1))}, []string{CodeOrderTwice}, Line{Open: 5}, Line{Open: 5}},
		{"a kind nobody ordered", []record.Body{record.Picked{Order: "O-1", Lot: "D-1", Numbers: nos("1")}}, nil, Line{Open: 5}, Line{Open: 5}},
	} {
		state, found := tell(t, append(begin[:len(begin):len(begin)], c.then...)...).fold()
		c.o1.Pack, c.o1.Count, c.o2.Pack, c.o2.Count = "soup", 5, "soup", 5
		if got := codes(found); !slices.Equal(got, c.codes) {
			t.Errorf("%s: %v", c.name, found)
		}
		if a, b := the(t, state, "O-1").Lines[0], the(t, state, "O-2").Lines[0]; a != c.o1 || b != c.o2 {
			t.Errorf("%s: %+v, %+v", c.name, a, b)
		}
	}
}

// Packs for a number that nobody gave are on the list, so that they do not lie in a box for ever.
func TestPacksForNobodyAreShown(t *testing.T) {
	state, _ := tell(t, lotOf("S-1", "soup", 20, "2027-06-01", ""), record.Picked{Order: "O-9", Lot: "S-1", Numbers: nos("1-7")}).fold()
	all := state.Dated("2026-12-01", "2026-12-31")
	if len(all) != 1 || all[0].Status != NotGiven || all[0].Extra[0].Numbers.String() != "1-7" {
		t.Errorf("%+v", all)
	}
}

// Whoever cancels frees what was set aside for it.
func TestCancellingFreesPacks(t *testing.T) {
	state, found := tell(t, lotOf("S-1", "soup", 20, "2027-06-01", ""), order("O-1", "cafe", "2026-12-04", line("soup", 5)), order("O-2", "bar", "2026-12-05", line("soup", 5)),
		record.Picked{Order: "O-1", Lot: "S-1", Numbers: nos("1-5")}, record.Cancelled{Order: "O-1", Why: "closed"}, record.Picked{Order: "O-2", Lot: "S-1", Numbers: nos("1-5")}).fold()
	if a, b := the(t, state, "O-1"), the(t, state, "O-2"); len(found) > 0 || a.Status != Off || a.Lines[0].Off != 5 || b.Status != Ready {
		t.Errorf("%v %+v %+v", found, a, b)
	}
}

// What is known of a customer changes, and what was known is kept.
func TestCustomersKeepTheirHistory(t *testing.T) {
	state, _ := tell(t, record.Customer{Customer: "cafe", Name: "Cafe", Address: "1 Mill Lane", Prices: "trade"}, record.Customer{Customer: "bar", Name: "Bar 10"}, record.Customer{Customer: "bar2", Name: "bar 9"},
		record.Customer{Customer: "cafe", Name: "Café Örtlich", Address: "2 Mill Lane", Prices: "trade"}).fold()
	c := state.Customer("cafe")
	if c.Address != "2 Mill Lane" || len(c.Before) != 1 || c.Before[0].Address != "1 Mill Lane" || c.Before[0].Since >= c.Since {
		t.Errorf("%+v", c)
	}
	var names []string
	for _, c := range state.Customers() {
		names = append(names, c.Name)
	}
	if !slices.Equal(names, []string{"bar 9", "Bar 10", "Café Örtlich"}) {
		t.Errorf("%v", names)
	}
	if x := state.Customer("inn"); x.Known || x.Name != "inn" {
		t.Errorf("%+v", x)
	}
}

// The deliveries of a day go as somebody set them; those that nobody set come last.
func TestTheDaysRoute(t *testing.T) {
	collect := order("O-4", "inn", "2026-12-04", line("soup", 1))
	collect.Way = record.Collect
	state, _ := tell(t, order("O-1", "cafe", "2026-12-04", line("soup", 1)), order("O-2", "bar", "2026-12-04", line("soup", 1)), order("O-3", "inn", "2026-12-04", line("soup", 1)), collect,
		order("O-5", "inn", "2026-12-05", line("soup", 1)), record.Routed{Day: "2026-12-04", Orders: []string{"O-1", "O-3"}}, record.Routed{Day: "2026-12-04", Orders: []string{"O-3", "O-9", "O-2"}}).fold()
	var ids []string
	for _, o := range state.Route("2026-12-04", "2026-12-01") {
		ids = append(ids, o.ID)
	}
	if !slices.Equal(ids, []string{"O-3", "O-2", "O-1"}) {
		t.Errorf("%v", ids)
	}
}
