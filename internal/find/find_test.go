package find_test

import (
	"slices"
	"strings"
	"testing"

	"kettlefrost/internal/find"
)

// A small kitchen.
const (
	kitchenArea find.Area = iota
	moneyArea
)

var small = find.NewIndex([]find.Entry{
	{Kind: find.Dish, ID: "ale-cheddar", Name: "Ale and cheddar soup", About: "thick, with bacon on top"},
	{Kind: find.Dish, ID: "creme-brulee", Name: "Crème brûlée"},
	{Kind: find.Pack, ID: "ale-cheddar-2lb", Name: "Ale and cheddar soup, 2 lb"},
	{Kind: find.Ingredient, ID: "cheddar", Name: "Cheddar, sharp", About: "Hill Dairy"},
	{Kind: find.Ingredient, ID: "rice", Name: "Rice, long grain"},
	{Kind: find.Ingredient, ID: "spice", Name: "Spice mix"},
	{Kind: find.Ingredient, ID: "tomato", Name: "Tomatoes, tinned"},
	{Kind: find.Ingredient, ID: "berry", Name: "Juniper berry"},
	{Kind: find.Supplier, ID: "hill-dairy", Name: "Hill Dairy"},
	{Kind: find.Lot, ID: "P-1201-3", Name: "Ale and cheddar soup, 2 lb", About: "packs, best before 2027-06-01", Day: "2026-12-01", Packs: []find.Span{{1, 40}}},
	{Kind: find.Lot, ID: "P-1201-4", Name: "Bean pot", Day: "2026-12-01", Packs: []find.Span{{1, 12}, {20, 22}}},
	{Kind: find.Lot, ID: "P-11-2", Name: "Bean pot", Day: "2026-11-02"},
	{Kind: find.Lot, ID: "P-1-12", Name: "Bean pot", Day: "2026-01-12"},
	{Kind: find.Lot, ID: "R-1126-2", Name: "Cheddar, sharp", About: "goods, from Hill Dairy, their lot HD/2211-B", Day: "2026-11-26"},
	{Kind: find.Order, ID: "O-17", Name: "Joe's Café", About: "open", Day: "2026-12-04"},
	{Kind: find.Order, ID: "O-170", Name: "Harbour House", About: "open", Day: "2026-12-05"},
	{Kind: find.Customer, ID: "joes-cafe", Name: "Joe's Café", About: "12 Quay Street"},
	{Kind: find.Invoice, ID: "2026-0017", Name: "Joe's Café", About: "$240.00", Day: "2026-12-04", Area: moneyArea},
	{Kind: find.Customer, ID: "dont-pay", Name: "Smørrebrød & Søn"},
})

// found are the codes, the best first within each kind, the kinds as they stand.
func found(q string, see find.Areas) string {
	var all []string
	for _, g := range find.Search(q, see, "", small).Groups {
		for _, r := range g.Results {
			all = append(all, r.ID)
		}
	}
	return strings.Join(all, " ")
}

func TestWhatACookFinds(t *testing.T) {
	for _, c := range []struct{ asked, want string }{
		{"cheddar", "cheddar ale-cheddar ale-cheddar-2lb R-1126-2 P-1201-3"},
		{"chedar", "ale-cheddar ale-cheddar-2lb cheddar R-1126-2 P-1201-3"}, // a slip of the pen
		{"CHEDDAR SOUP", "ale-cheddar ale-cheddar-2lb P-1201-3"},
		{"soup of cheddar", "ale-cheddar ale-cheddar-2lb P-1201-3"}, // "of" tells nothing
		{"creme brulee", "creme-brulee"},
		{"Crème Brûlée", "creme-brulee"},
		{"CRE\u0300ME", "creme-brulee"}, // the accent typed behind the letter
		{"smorrebrod", "dont-pay"},
		{"joes cafe", "joes-cafe O-17 2026-0017"},
		{"joe’s café", "joes-cafe O-17 2026-0017"},
		{"rice", "rice"}, // is a word as it stands, and no slip of spice
		{"rcie", "rice"},
		{"spcie", "spice"},
		{"tomato", "tomato"},
		{"tomatos", "tomato"}, // a plural as people write it
		{"berries", "berry"},
		{"sharp hill", "cheddar R-1126-2"}, // one in the name, one elsewhere
		{"bacon", "ale-cheddar"},
		{"P-1201-3", "P-1201-3"},
		{"p1201-3", "P-1201-3"},
		{"p 1201", "P-1201-3 P-1201-4"},
		{"P-1201", "P-1201-3 P-1201-4"},
		{"1201-3", "P-1201-3"},
		{"P-11-2", "P-11-2"},
		{"p112", ""}, // two numbers are not one: it is read neither as P-11-2 nor as P-1-12
		{"P-1201-3#17", ""},
		{"hd/2211-b", "R-1126-2"}, // the supplier's lot
		{"2211", "R-1126-2"},
		{"2026-12-01", "P-1201-3 P-1201-4"},
		{"2026/12/1", "P-1201-3 P-1201-4"},
		{"12/1/2026", "P-1201-3 P-1201-4 P-1-12"}, // the first of December, or the twelfth of January
		{"2026-12", "P-1201-3 P-1201-4 O-170 O-17 2026-0017"},
		{"12-04", "O-17 2026-0017"},
		{"#17", "O-17 2026-0017 P-1201-3"}, // an order and an invoice of the number, and packs that have it on them
		{"#21", "P-1201-3 P-1201-4"},
		{"#170", "O-170"},
		{"joe #17", "O-17 2026-0017"},
		{"2 lb", "ale-cheddar-2lb P-1201-3 "},
		{"240", "2026-0017"},
		{"quay", "joes-cafe"},
		{"cheddar tomato", ""},
		{"zebra", ""},
		{"", ""},
		{"?!", ""},
		{"the", "R-1126-2"}, // when nothing else is asked: it begins "their",
	} {
		if got := found(c.asked, find.All); got != strings.TrimSpace(c.want) {
			t.Errorf("%q finds %q, not %q", c.asked, got, c.want)
		}
	}
}

// Who may not see money finds none, and nothing of what is looked for tells that there is some.
func TestWhatMayNotBeSeenIsNotFound(t *testing.T) {
	kitchenOnly := find.Areas(0).With(kitchenArea)
	if got := found("joe", kitchenOnly); got != "joes-cafe O-17" {
		t.Error(got)
	}
	if f := find.Search("240", kitchenOnly, "", small); f.Total != 0 || len(f.Groups) != 0 {
		t.Errorf("%+v", f)
	}
	x := find.NewIndex([]find.Entry{{Kind: find.Invoice, ID: "1", Name: "Chedar", Area: moneyArea}, {Kind: find.Ingredient, ID: "2", Name: "Cheddar"}})
	for see, want := range map[find.Areas]string{kitchenOnly: "2", find.All: "1"} {
		f := find.Search("chedar", see, "", x)
		if f.Total != 1 || f.Groups[0].Results[0].ID != want {
			t.Errorf("%+v", f) // to the one who may not see it, the other word is as if it were not there
		}
	}
}

func TestNearIsTold(t *testing.T) {
	for asked, want := range map[string]bool{"chedar": true, "cheddar": false} {
		if got := find.Search(asked, find.All, "", small).Groups[0].Results[0].Near; got != want {
			t.Errorf("%s: %v", asked, got)
		}
	}
}

// More than can be shown are counted, and one kind can be asked for alone.
func TestManyAreCounted(t *testing.T) {
	var all []find.Entry
	for range 700 {
		all = append(all, find.Entry{Kind: find.Lot, ID: "L", Name: "bean"})
	}
	all = append(all, find.Entry{Kind: find.Dish, ID: "D", Name: "bean pot with much else in it"})
	f := find.Search("bean", find.All, "", find.NewIndex(all))
	if f.Total != 701 || len(f.Groups) != 1 || f.Groups[0].Total != 700 || len(f.Groups[0].Results) != find.Most {
		t.Errorf("%d, %d groups", f.Total, len(f.Groups))
	}
	if f = find.Search("bean", find.All, find.Dish, find.NewIndex(all)); f.Total != 1 || f.Groups[0].Kind != find.Dish {
		t.Errorf("%d", f.Total)
	}
}

func TestLongQuestions(t *testing.T) {
	f := find.Search(strings.Repeat("cheddar ale soup ", 200), find.All, "", small)
	if !f.Left || !slices.Equal(f.Words[:3], []string{"cheddar", "ale", "soup"}) {
		t.Errorf("%v %v", f.Left, f.Words)
	}
}
