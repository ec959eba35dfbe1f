package orders

import (
	"slices"
	"strings"
	"testing"

	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
)

// freezer is a kitchen on December 1, 2026 with three lots of soup and one of dal, and orders that are under way.
func freezer(t testing.TB) (*State, *lots.State, Allotment) {
	s := tell(t, lotOf("S-0", "soup", 5, "2026-11-30", "chest-1"), lotOf("S-1", "soup", 20, "2026-12-20", "chest-2/shelf 10"), lotOf("S-2", "soup", 20, "2027-06-01", "chest-2/shelf 2"), lotOf("D-1", "dal", 20, "2026-12-03", "chest-1"),
		record.Customer{Customer: "month", Name: "A month", LifeDays: 30},
		order("O-1", "cafe", "2026-12-04", line("soup", 8)), order("O-2", "bar", "2026-12-04", line("soup", 4)), order("O-3", "month", "2026-12-05", line("soup", 2)), order("O-4", "cafe", "2026-12-06", line("soup", 1)),
		order("O-5", "cafe", "2026-11-28", line("soup", 1)), order("O-6", "cafe", "2026-12-06", line("dal", 1)), order("O-7", "cafe", "2026-12-03", line("dal", 1)),
		record.Cancelled{Order: "O-4", Why: "closed"}, record.Picked{Order: "O-1", Lot: "S-1", Numbers: nos("1-3")}, record.Picked{Order: "O-2", Lot: "S-1", Numbers: nos("4-7")},
		record.Held{Lot: "S-1", Numbers: nos("20"), Why: "burst bag"}, record.WrittenOff{Lot: "S-1", Numbers: nos("19"), Why: "fell"}, record.HandedOver{Customer: "bar", Lot: "S-1", Numbers: nos("18")})
	state, _ := s.fold()
	stock, _ := lots.Of(slices.Values(s.entries))
	a, err := state.Allot(stock, "2026-12-01", "2026-12-31")
	if err != nil {
		t.Fatal(err)
	}
	return state, stock, a
}

// What somebody holds in his hands, and what he is told.
func TestWhoeverPicksIsTold(t *testing.T) {
	state, stock, a := freezer(t)
	for _, c := range []struct {
		name, order string
		lot         record.Lot
		numbers     string
		codes       []string
		says        string
	}{
		{"the right one", "O-1", "S-1", "8-12", nil, ""},
		{"one of them", "O-1", "S-1", "12", nil, ""},
		{"another number of the lot", "O-1", "S-1", "17", nil, ""},
		{"another lot", "O-1", "S-2", "1", []string{OtherLot}, "this is lot S-2"},
		{"scanned twice", "O-1", "S-1", "3", []string{ScannedTwice}, "pack 3 of S-1 is set aside for this order already"},
		{"from another box", "O-1", "S-1", "4", []string{ForAnother}, "for order O-2"},
		{"held", "O-1", "S-1", "20", []string{IsHeld}, "burst bag"},
		{"written off", "O-1", "S-1", "19", []string{NotHere}, "written off"},
		{"with a customer", "O-1", "S-1", "18", []string{NotHere}, "went to bar"},
		{"past its date", "O-1", "S-0", "1", []string{PastDate}, "past its date"},
		{"past its date on the day", "O-6", "D-1", "1", []string{PastDate}, "will be past its date on 2026-12-06"},
		{"good on its last day", "O-7", "D-1", "1", nil, ""},
		{"not for a month", "O-3", "S-1", "8", []string{TooOld}, "wants 30"},
		{"fresh enough", "O-3", "S-2", "1-2", nil, ""},
		{"not ordered", "O-1", "D-1", "1", []string{PastDate, NotOrdered}, ""},
		{"too many", "O-1", "S-1", "8-13", []string{Enough}, "wants 5 more of soup, and this is 6"},
		{"all there", "O-2", "S-1", "8", []string{Enough}, "wants 0 more"},
		{"cancelled", "O-4", "S-1", "8", []string{OrderDone}, "is cancelled"},
		{"due before today", "O-5", "S-1", "8", nil, ""},
		{"no such pack", "O-1", "S-1", "21", []string{NoSuchPack}, "lot S-1 has no 21"},
		{"no such lot", "O-1", "S-9", "1", []string{NoSuchLot}, "S-9"},
		{"no such order", "O-9", "S-1", "8", []string{NoSuchOrder}, "O-9"},
	} {
		var got []string
		found := state.JudgePick(a, stock, c.order, c.lot, nos(c.numbers))
		for _, o := range found {
			got = append(got, o.Code)
			if o.Fix == "" || o.Ask != (o.Code == OtherLot) {
				t.Errorf("%s: %+v", c.name, o)
			}
		}
		if !slices.Equal(got, c.codes) || len(found) > 0 && !strings.Contains(found[0].Says, c.says) {
			t.Errorf("%s: %+v, want %v %q", c.name, found, c.codes, c.says)
		}
	}
}

// What the records would take although it is wrong is objected to before, and what nobody objects to fits: no finding, and it counts.
func TestWhatIsNotObjectedToFits(t *testing.T) {
	state, stock, a := freezer(t)
	for _, r := range a.PickList("2026-12-04") {
		if found := state.JudgePick(a, stock, r.Order, r.Lot, r.Numbers); len(found) > 0 {
			t.Errorf("the list has %+v, and picking it is objected to: %+v", r, found)
		}
	}
}

// The list of a day is a walk: chest by chest, shelf by shelf. What was due before is on today's.
func TestThePickingList(t *testing.T) {
	_, _, a := freezer(t)
	walk := func(rows []Row) string {
		var all []string
		for _, r := range rows {
			all = append(all, string(r.Place)+": "+string(r.Lot)+" "+r.Numbers.String()+" for "+r.Order)
		}
		return strings.Join(all, "; ")
	}
	for _, c := range []struct{ got, want string }{
		{walk(a.PickList("2026-12-04")), "chest-2/shelf 10: S-1 9-13 for O-1"},
		{walk(a.PickList("2026-12-05")), "chest-2/shelf 2: S-2 1-2 for O-3"},
		{walk(a.PickList("2026-12-01")), "chest-2/shelf 10: S-1 8 for O-5"},
		{walk(a.PickListOf("O-7")), "chest-1: D-1 1 for O-7"},
		{walk(a.PickList("2026-12-24")), ""},
	} {
		if c.got != c.want {
			t.Errorf("%s, want %s", c.got, c.want)
		}
	}
}

// What is set aside leaves the house lot by lot; nothing that is held, away or past its date does.
func TestHandingOver(t *testing.T) {
	state, stock, _ := freezer(t)
	o := the(t, state, "O-1")
	all := o.HandOver("Jo", "1 Mill Lane")
	if len(all) != 1 || all[0].Numbers.String() != "1-3" || all[0].Customer != "cafe" || all[0].TakenBy != "Jo" || all[0].Address != "1 Mill Lane" {
		t.Errorf("%+v", all)
	}
	if found := state.JudgeHanding(o, stock, "2026-12-04"); len(found) > 0 {
		t.Errorf("%+v", found)
	}
	if found := state.JudgeHanding(o, stock, "2026-12-21"); len(found) != 1 || found[0].Code != PastDate {
		t.Errorf("%+v", found)
	}
	if found := state.JudgeHanding(the(t, state, "O-7"), stock, "2026-12-21"); len(found) != 1 || found[0].Code != NotHere {
		t.Errorf("%+v", found)
	}
	s := tell(t, lotOf("S-1", "soup", 20, "2027-06-01", ""), order("O-1", "cafe", "2026-12-04", line("soup", 8)), record.Picked{Order: "O-1", Lot: "S-1", Numbers: nos("1-8")}, record.Held{Lot: "S-1", Why: "recall"},
		record.WrittenOff{Lot: "S-1", Numbers: nos("2"), Why: "fell"})
	state, _ = s.fold()
	stock, _ = lots.Of(slices.Values(s.entries))
	var codes []string
	for _, x := range state.JudgeHanding(the(t, state, "O-1"), stock, "2026-12-04") {
		codes = append(codes, x.Code)
	}
	if !slices.Equal(codes, []string{NotHere, IsHeld}) {
		t.Errorf("%v", codes)
	}
}

// A slip says what goes, of which lots, and what is still to come; packs of a kind that was written in two lines stand together.
func TestASlip(t *testing.T) {
	state, _ := tell(t, lotOf("S-1", "soup", 20, "2027-06-01", ""), lotOf("D-1", "dal", 20, "2027-05-01", ""), order("O-1", "cafe", "2026-12-04", line("soup", 8), line("dal", 2), line("soup", 1)),
		record.Picked{Order: "O-1", Lot: "S-1", Numbers: nos("1-7")}, record.HandedOver{Order: "O-1", Customer: "cafe", Lot: "S-1", Numbers: nos("1-3")}, record.HandedOver{Order: "O-1", Customer: "cafe", Lot: "D-1", Numbers: nos("2")}).fold()
	slip := the(t, state, "O-1").Slip()
	if len(slip) != 2 || slip[0].Count != 9 || slip[0].Goes() != 7 || slip[0].Open != 2 || slip[0].Parcels[0].Numbers.String() != "1-7" || slip[1].Goes() != 1 || slip[1].Open != 1 || slip[1].Parcels[0].BestBefore != "2027-05-01" {
		t.Errorf("%+v", slip)
	}
}
