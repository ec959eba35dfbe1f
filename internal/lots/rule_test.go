package lots_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
)

// The elements are those listed for 21 CFR 1.1345(a), 1.1340 and (from memory) 1.1350: every one is a column, and what nobody wrote down is
// named, row by row.
func TestTheRuleTables(t *testing.T) {
	s, _ := state(t, mockRecall(t)...)
	house := lots.House{Name: "Kitchen", Address: "1 Mill Lane", Date: func(at record.Instant) string { return fmt.Sprint("minute ", (at-day(0))/60_000) }}
	tables, err := s.Rule([]record.Lot{"M-stew"}, house)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, table := range tables {
		for _, row := range table.Rows {
			var values []string
			for _, x := range table.Head {
				values = append(values, row.Values[x.Key])
			}
			got = append(got, fmt.Sprintf("%s: %s; missing %s", table.Event, strings.Join(values, "|"), strings.Join(row.Missing, " ")))
		}
	}
	want := []string{
		"receiving: GV 77/3|60 kg|beef|Green Valley Farm|Kitchen, 1 Mill Lane|minute 1||; missing from code_source document",
		"transformation: GV 77/3|beef|60 kg|M-stew|Kitchen, 1 Mill Lane|minute 3|stew|120 kg|run tue; missing ",
		"transformation: M-stew|stew|120 kg|P-stew|Kitchen, 1 Mill Lane|minute 4|stew-500|120 kg|run tue; missing ",
		"shipping: P-stew|16 kg|stew-500|cafe, the pier|Kitchen, 1 Mill Lane|minute 5|Kitchen, 1 Mill Lane|order O-2; missing ",
		"shipping: P-stew|50 kg|stew-500|Town Hall Canteen, 2 High St, Town|Kitchen, 1 Mill Lane|minute 6|Kitchen, 1 Mill Lane|order O-1; missing ",
	}
	if strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	// a name alone is no location
	house.Address = ""
	bare, err := s.Rule([]record.Lot{"M-stew"}, house)
	for _, table := range bare {
		if !slices.Contains(table.Rows[0].Missing, "at") {
			t.Errorf("%s: %+v (%v)", table.Event, table.Rows, err)
		}
	}
	house.Address = "1 Mill Lane"
	all, err := s.Rule(nil, house)
	if err != nil || fmt.Sprint(all) != fmt.Sprint(tables) { // everything hangs together here
		t.Errorf("%v, %v", all, err)
	}
}
