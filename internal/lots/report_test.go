package lots_test

import (
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// mockRecall is the case of 240 packs: made 240, on hand 100, delivered 132, samples and waste 6. By NC State Extension's recall checklist,
// effectiveness = (on hand + delivered + accounted losses) / made, and a shortfall is over 2 h or under 100 %: 238 of 240 is 99.17 %, two
// packs are unexplained, and the recall has failed (worked by hand).
func mockRecall(t testing.TB, more ...record.Body) []record.Body {
	return append([]record.Body{
		record.Customer{Customer: "hall", Name: "Town Hall Canteen", Address: "2 High St\nTown", Phone: "555-0102", Mail: "eat@hall.example"},
		record.Received{Lot: "R-beef", Ingredient: "beef", Supplier: "Green Valley Farm", SupplierLot: "GV 77/3", Mass: 60 * kg, Place: "walk-in"},
		record.Used{Run: "tue", Dish: "stew", Lot: "R-beef", Mass: 60 * kg},
		record.Made{Run: "tue", Dish: "stew", Output: "stew", Lot: "M-stew", Mass: 120 * kg},
		record.Packed{Run: "tue", Pack: "stew-500", Lot: "P-stew", Numbers: packs(t, "1001-1240"), Label: kg / 2, Mass: 120 * kg, From: []record.Part{{Lot: "M-stew", Mass: 120 * kg}}, BestBefore: "2027-06-01", Place: "chest-1"},
		record.HandedOver{Order: "O-2", Customer: "cafe", Lot: "P-stew", Numbers: packs(t, "1201-1232"), Address: "the pier", TakenBy: "Kim"},
		record.HandedOver{Order: "O-1", Customer: "hall", Lot: "P-stew", Numbers: packs(t, "1101-1200")},
		record.WrittenOff{Lot: "P-stew", Numbers: packs(t, "1233-1238"), Why: "samples, and one torn"},
		record.Counted{Lot: "P-stew", Place: "chest-1", Numbers: packs(t, "1001-1100")},
	}, more...)
}

func report(t testing.TB, a lots.Ask, bodies ...record.Body) lots.Report {
	t.Helper()
	s, _ := state(t, bodies...)
	r, err := s.Report(a, day(500))
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func TestTheMockRecall(t *testing.T) {
	beef := lots.Ask{Supplier: "green valley", SupplierLot: "gv77-3"}
	r := report(t, beef, mockRecall(t)...)
	a := r.Account
	if a.Made != 240 || a.Found != 238 || a.Told != 238 || math.Abs(a.Ratio-0.9917) > 5e-5 || a.Share != a.Ratio || a.PacksComplete || a.Packs[0].Missing != "1239-1240" {
		t.Errorf("%+v", a)
	}
	var calls []string
	for _, c := range r.Calls {
		calls = append(calls, fmt.Sprintf("%s %s %q %d %s", c.Name, c.Phone, c.Address, c.Packs, c.Mass))
	}
	// the café's packs left the house first
	want := []string{`cafe  "" 32 16 kg`, `Town Hall Canteen 555-0102 "2 High St\nTown" 100 50 kg`}
	if !slices.Equal(calls, want) || r.Calls[0].Items[0].Address != "the pier" || r.Calls[0].Items[0].TakenBy != "Kim" {
		t.Errorf("to be told: %q", calls)
	}
	if len(r.OnHand) != 1 || r.OnHand[0].Numbers != "1001-1100" || !r.OnHand[0].Free || fmt.Sprint(r.ToHold()) != "[P-stew]" {
		t.Errorf("to be held: %+v", r.OnHand)
	}
	if len(r.Gone) != 2 || r.Gone[0].State != "written off" || r.Gone[0].Packs != 6 || r.Gone[1].State != "unknown" || r.Gone[1].Numbers != "1239-1240" {
		t.Errorf("gone: %+v", r.Gone)
	}
	if got := r.Troubles(unit.Metric); len(got) != 1 || got[0] != "Lot P-stew: no place is known of no. 1239-1240." {
		t.Errorf("%q", got)
	}
	for _, c := range []struct {
		hours              float64
		more               []record.Body
		whole, inTime, in4 bool
	}{
		{1.5, nil, false, true, true},
		{1.5, []record.Body{record.Counted{Lot: "P-stew", Place: "chest-1", Numbers: packs(t, "1001-1100, 1239-1240")}}, true, true, true},
		{3, []record.Body{record.Counted{Lot: "P-stew", Place: "chest-1", Numbers: packs(t, "1001-1100, 1239-1240")}}, true, false, true},
		{4.5, nil, false, false, false},
		// told of twice: 240 of 240 and one of them with two customers is above 100 %, which fails too
		{1, []record.Body{record.Counted{Lot: "P-stew", Place: "chest-1", Numbers: packs(t, "1001-1100, 1239-1240")}, record.HandedOver{Customer: "bar", Lot: "P-stew", Numbers: packs(t, "1150")}}, false, true, true},
		// and one lost for it is 100 % again by the ratio alone, and fails
		{1, []record.Body{record.Counted{Lot: "P-stew", Place: "chest-1", Numbers: packs(t, "1001-1100, 1239")}, record.HandedOver{Customer: "bar", Lot: "P-stew", Numbers: packs(t, "1150")}}, false, true, true},
	} {
		r := report(t, beef, mockRecall(t, c.more...)...)
		began := day(600)
		done := r.Outcome(record.Drilled{Practice: true, Began: began}, began+record.Instant(c.hours*3_600_000))
		v := lots.Drill{Drilled: done}.Verdict(0)
		if v.Whole != c.whole || v.InTime != c.inTime || v.InFour != c.in4 || v.Pass != (c.whole && c.inTime) || v.Ratio != r.Account.Ratio {
			t.Errorf("%g h, %v: %+v of %+v", c.hours, c.more, v, done)
		}
		if _, err := record.Encode(done); err != nil {
			t.Error(err)
		}
	}
}

// A drill that was begun and is not ended is judged by the clock and has not passed; its end is a correction of its beginning.
func TestDrillsAreKept(t *testing.T) {
	entries := diary(t, mockRecall(t, record.Drilled{Lots: []record.Lot{"R-beef"}, Practice: true, Began: day(9), Asked: "their lot 77"}, record.Drilled{Lots: []record.Lot{"R-beef"}, Began: day(10)})...)
	s, _ := lots.Of(slices.Values(entries))
	var all []lots.Drill
	for d := range s.Drills() {
		all = append(all, d)
	}
	if len(all) != 2 || all[0].Practice || !all[1].Practice || !all[1].Running() {
		t.Fatalf("%+v", all)
	}
	if v := all[1].Verdict(day(9 + 130)); v.Pass || v.InTime || !v.InFour {
		t.Errorf("after 130 minutes: %+v", v)
	}
	if d, ok := s.Drill(entries[len(entries)-1].ID); !ok || d.Minutes(day(40)) != 30 {
		t.Errorf("%+v %v", d, ok)
	}
}

func TestWhichLotsAreMeant(t *testing.T) {
	bodies := mockRecall(t,
		record.Received{Lot: "R-beef-2", Ingredient: "beef", Supplier: "Green Valley Farm", Mass: kg},
		record.Received{Lot: "R-leek", Ingredient: "leek", Supplier: "Market", SupplierLot: "GV-77-3", Mass: kg},
		record.Received{Lot: "salt, fine", Ingredient: "salt", Supplier: "Sea", SupplierLot: "1", Mass: kg})
	s, _ := state(t, bodies...)
	for _, c := range []struct {
		name   string
		ask    lots.Ask
		want   string
		unsure string
	}{
		{"by its name", lots.Ask{Codes: []string{"R-beef"}}, "R-beef", ""},
		{"by its name, as it is read out", lots.Ask{Codes: []string{"r beef 2"}}, "R-beef-2", ""},
		{"by a pack", lots.Ask{Codes: []string{"P-stew/1120"}}, "P-stew", ""},
		{"by a pack, as it is read out", lots.Ask{Codes: []string{" p stew no. 1120 "}}, "P-stew", ""},
		{"by a name with a comma", lots.Ask{Codes: []string{"salt, fine"}}, "salt, fine", ""},
		{"by two", lots.Ask{Codes: []string{"P-stew#1120", "R-beef"}}, "P-stew R-beef", ""},
		{"by the supplier's lot", lots.Ask{Supplier: "GREEN VALLEY", SupplierLot: "GV77 3"}, "R-beef", "R-beef-2"},
		{"by the supplier's lot alone", lots.Ask{SupplierLot: "gv773"}, "R-beef R-leek", "R-beef-2"},
		{"by the supplier", lots.Ask{Supplier: "green"}, "R-beef R-beef-2", ""},
		{"by what it is", lots.Ask{What: "beef"}, "R-beef R-beef-2", ""},
		{"by the run", lots.Ask{Run: "tue"}, "M-stew P-stew", ""},
		{"what was packed in a run", lots.Ask{Run: "tue", Sort: lots.Packs}, "P-stew", ""},
		{"received from a minute on", lots.Ask{Sort: lots.Goods, From: day(9)}, "R-beef-2 R-leek salt, fine", ""},
		{"received before a minute", lots.Ask{Sort: lots.Goods, Before: day(9)}, "R-beef", ""},
		{"all within a minute", lots.Ask{From: day(3), Before: day(5)}, "M-stew P-stew", ""},
		{"nothing", lots.Ask{}, "", ""},
		{"nobody's", lots.Ask{Supplier: "elsewhere"}, "", ""},
		{"only strokes", lots.Ask{Supplier: "--"}, "", ""},
	} {
		f, err := s.Find(c.ask)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
		}
		if got, unsure := names(f.Lots), names(f.Unsure); got != c.want || unsure != c.unsure {
			t.Errorf("%s (%s): %q and perhaps %q, want %q and %q", c.name, c.ask.Words(), got, unsure, c.want, c.unsure)
		}
	}
	if f, _ := s.Find(lots.Ask{Codes: []string{"P-stew/1120", "P-stew#1122"}}); f.Packs["P-stew"].String() != "1120, 1122" {
		t.Errorf("the packs are %v", f.Packs)
	}
	if f, err := s.Find(lots.Ask{Codes: []string{"P-stew/1120, R-beef,"}}); err != nil || names(f.Lots) != "P-stew R-beef" {
		t.Errorf("with commas: %v (%v)", f.Lots, err)
	}
	if r, err := s.Report(lots.Ask{Codes: []string{"P-stew/1120"}}, 0); err != nil || len(r.Named) != 1 || r.Named[0].Where != "Town Hall Canteen" || r.Named[0].Numbers != "1120" || r.Named[0].State != "handed over" {
		t.Errorf("where pack 1120 is: %+v (%v)", r.Named, err)
	}
	if _, err := s.Find(lots.Ask{Codes: []string{"P-stew/1300"}}); err == nil {
		t.Error("a pack that was never made is found")
	}
}

func names(ids []record.Lot) string {
	var all []string
	for _, id := range ids {
		all = append(all, string(id))
	}
	return strings.Join(all, " ")
}

// What is handed over and was never packed, packed elsewhere, or is a lot in bulk, is in a recall, and the recall is not complete.
func TestPacksNobodyPacked(t *testing.T) {
	r := report(t, lots.Ask{Codes: []string{"P-stew"}}, mockRecall(t, record.HandedOver{Customer: "bar", Lot: "P-stew", Numbers: packs(t, "1241-1242")})...)
	if p := r.Account.Packs[0]; p.Beyond != "1241-1242" || p.Told != 240 || p.Missing != "1239-1240" || r.Account.Ratio != 1 || r.Account.PacksComplete || !r.Calls[2].Items[0].Doubted {
		t.Errorf("%+v, %+v", p, r.Calls)
	}
	r = report(t, lots.Ask{Codes: []string{"P-lost"}}, record.HandedOver{Customer: "bar", Lot: "P-lost", Numbers: packs(t, "1-3")})
	if a := r.Account; a.Made != 0 || a.Told != 3 || a.Packs[0].Beyond != "1-3" || a.Complete || len(r.Calls) != 1 {
		t.Errorf("%+v", a)
	}
}

// All that a recall tells of a lot fits in one JSON text, and all that is told of a lot in another.
func TestReportsAreData(t *testing.T) {
	s, _ := state(t, mockRecall(t)...)
	r, err := s.Report(lots.Ask{Codes: []string{"R-beef"}}, day(1))
	text, err2 := json.Marshal(r)
	var again lots.Report
	if err != nil || err2 != nil || json.Unmarshal(text, &again) != nil || again.Schema != lots.RecallSchema || again.Account.Ratio != r.Account.Ratio || !strings.Contains(string(text), `"made_g":120000`) {
		t.Errorf("%s (%v, %v)", text, err, err2)
	}
	y, err := s.Story("P-stew")
	text, err2 = json.Marshal(y)
	if err != nil || err2 != nil || len(y.Events) != 5 || y.Events[1].Who != "Ada" || !strings.Contains(string(text), `"body":{"order":"O-2","customer":"cafe"`) {
		t.Errorf("%s (%v, %v)", text, err, err2)
	}
	if len(y.Back) != 3 || len(y.Forward) != 0 || len(y.Flows) != 3 {
		t.Errorf("back %v, forward %v, flows %v", y.Back, y.Forward, y.Flows)
	}
	if b := y.Balance; b.Came != b.Used+b.OnHand+b.Waste+b.Dispatched+b.Unaccounted || b.Unaccounted != kg {
		t.Errorf("%+v", b)
	}
}

// A left-over that goes into the next pot is shown as cooked again.
func TestReworkIsShown(t *testing.T) {
	r := report(t, lots.Ask{Codes: []string{"R-beef"}}, mockRecall(t, record.Used{Run: "wed", Dish: "soup", Lot: "P-stew", Numbers: packs(t, "1001-1002"), Mass: kg})...)
	var again []string
	for _, f := range r.Flows {
		if f.Rework {
			again = append(again, fmt.Sprintf("%s > %s %s", f.From, f.To, f.Mass))
		}
	}
	if fmt.Sprint(again) != "[P-stew > pot of soup in wed 1 kg]" {
		t.Errorf("%q", again)
	}
}
