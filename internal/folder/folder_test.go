package folder

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"kettlefrost/internal/coldwatch"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// kinds of the entries that a folder rests on.
func restsOn(c Contents) (kinds []string) {
	for _, e := range c.Entries {
		kinds = append(kinds, string(e.Kind))
	}
	return kinds
}

// A folder about packs holds what went into them and the work on their dish: no other dish of the run, and not where the rest of the goods went.
func TestReach(t *testing.T) {
	c := tuesday(t)
	m := material(t, c, "P-1")
	r := m.Reach
	if !slices.Equal(r.Behind, []record.Lot{"B-1", "R-1", "R-2", "pot of stew in tue"}) || !slices.Equal(r.Runs, []string{"tue"}) || !slices.Equal(r.Packs, []string{"stew-2lb"}) {
		t.Errorf("behind %v, runs %v, packs %v", r.Behind, r.Runs, r.Packs)
	}
	if !slices.Equal(r.Places, []record.Place{"chest-1"}) || !slices.Equal(r.Instruments, []string{"T-1"}) {
		t.Errorf("places %v, instruments %v", r.Places, r.Instruments)
	}
	want := []string{"calibrated", "received", "received", "opened", "used", "used", "used", "measured", "made", "acted", "acted", "voided", "packed", "signed", "held", "handed-over", "measured"}
	if got := restsOn(made(t, m)); !slices.Equal(got, want) {
		t.Errorf("it rests on %v, want %v", got, want)
	}
	var flows []string
	for _, f := range r.Flows {
		flows = append(flows, string(f.From)+" → "+string(f.To)+" "+f.Mass.String())
	}
	if got := strings.Join(flows, ", "); got != "B-1 → P-1 9 kg, R-1 → pot of stew in tue 10 kg, R-2 → pot of stew in tue 5 kg, pot of stew in tue → B-1 14 kg" {
		t.Errorf("flows are %s", got)
	}
}

// What is missing stands first: a failed record on which nobody decided, before what is only remarkable. Nothing of another dish is in it.
func TestMissing(t *testing.T) {
	c := tuesday(t)
	got := made(t, material(t, c, "P-1")).Missing
	var codes []string
	for _, x := range got {
		grave := ""
		if x.Grave {
			grave = "!"
		}
		codes = append(codes, x.Code+grave+" "+x.Where)
	}
	want := []string{"record-failed! Chill the stew (tue/stew/stew-chill/1/cooling)", "lot-held! lot P-1", "no-plan! lot P-1", "place-too-warm! chest 1", "no-supplier-lot lot R-2"}
	if !slices.Equal(codes, want) {
		t.Errorf("missing is\n%s", strings.Join(codes, "\n"))
	}
	m := material(t, c, "P-1")
	m.Kitchen.Jurisdiction = ""
	if first := made(t, m).Missing[0]; first.Code != NothingJudged || !first.Grave {
		t.Errorf("a kitchen without rules: first stands %+v", first)
	}
}

// A decision by a named person is told with the record, which stays among what is missing; it is not grave any more.
func TestDecided(t *testing.T) {
	c := tuesday(t)
	c.say(clock(13, 0), "Cy", record.Released{Lot: "P-1", Points: []string{"tue/stew/stew-chill/1/cooling=fail"}, Disposition: record.Destroy, Why: "over 41 °F after 6 h"})
	x := made(t, material(t, c, "P-1"))
	i := slices.IndexFunc(x.Missing, func(m Missing) bool { return m.Code == RecordFailed })
	if i < 0 || x.Missing[i].Grave || !strings.Contains(x.Missing[i].Says, "Cy decided for P-1: destroy (over 41 °F after 6 h)") {
		t.Errorf("missing is %+v", x.Missing)
	}
	if h := x.Holds[len(x.Holds)-1]; h.Decided != "destroy" || h.Who != "Cy" || h.At != clock(13, 0) {
		t.Errorf("the decision is %+v", h)
	}
}

func TestCorrections(t *testing.T) {
	x := made(t, material(t, tuesday(t), "P-1")).Corrections
	if len(x) != 2 {
		t.Fatalf("corrections are %+v", x)
	}
	used, back := x[0], x[1]
	if !slices.Equal(used.Fields, []Field{{"mass_g", `"50000"`, `"5000"`}}) || used.Who != "Bea" || used.Back || used.Entered != clock(0, 20)+1000 {
		t.Errorf("the correction of what was used is %+v", used)
	}
	if !back.Back || back.Why != "it was stirred, not thrown away" || back.Was != "says acted" {
		t.Errorf("what was taken back is %+v", back)
	}
}

// A correction of a correction, and one taken back, tell what was there just before.
func TestCorrectionsInARow(t *testing.T) {
	c := tuesday(t)
	id := c.say(clock(13, 0), "Ann", record.Measured{Place: "chest-1", Temp: tempF(10), Instrument: "T-1"})
	second := c.say(clock(13, 1), "Ann", record.Measured{Place: "chest-1", Temp: tempF(1), Instrument: "T-1"}, id)
	c.say(clock(13, 2), "Ann", record.Measured{Place: "chest-1", Temp: tempF(-1), Instrument: "T-1"}, second)
	c.say(clock(13, 3), "Ann", record.Voided{Why: "it was right before"}, second)
	all := made(t, material(t, c, "P-1")).Corrections
	all = all[2:]
	if len(all) != 3 || all[0].Fields[0].Was != `"-12.222222"` || all[1].Fields[0] != (Field{"temp_c", `"-17.222222"`, `"-18.333333"`}) || !all[2].Back {
		t.Errorf("corrections are %+v", all)
	}
}

// Of a thermometer stand the last check before it was used, those while it was, and the first after.
func TestChecksInForce(t *testing.T) {
	c := &chain{t: t}
	check := func(at record.Instant) {
		c.say(at, "Ann", record.Calibrated{Instrument: "T-1", Method: record.IcePoint, Read: tempF(32), True: tempF(32), Kept: record.InUse})
	}
	check(clock(-72, 0))
	check(clock(-48, 0))
	for _, e := range tuesday(t).all {
		body, err := record.Decode(e.Kind, e.Body)
		if err != nil {
			t.Fatal(err)
		}
		if e.Corrects == (record.ID{}) && e.Kind != (record.Calibrated{}).Kind() {
			c.say(e.Happened, e.Who, body)
		}
	}
	check(clock(3, 0))
	check(clock(14, 0))
	check(clock(15, 0))
	m := material(t, c, "P-1")
	var at []record.Instant
	for _, x := range m.thermometers()[0].Checks {
		at = append(at, x.At)
	}
	if want := []record.Instant{clock(-48, 0), clock(3, 0), clock(14, 0)}; !slices.Equal(at, want) {
		t.Errorf("checks at %v, want %v", at, want)
	}
}

// A lot that nobody named gives a folder that says so, and no more.
func TestUnknownLot(t *testing.T) {
	x := made(t, material(t, tuesday(t), "P-404"))
	if len(x.Records) != 0 || len(x.Entries) != 0 || x.Missing[0].Code != LotUnknown {
		t.Errorf("%+v", x)
	}
}

// What is entered later about others changes nothing in a folder as of a time.
func TestLaterEntriesAboutOthersChangeNothing(t *testing.T) {
	c := tuesday(t)
	before := sealed(t, c, material(t, c, "P-1"), true)
	asOf := before.AsOf
	c.say(clock(20, 0), "Ann", record.Received{Lot: "R-9", Ingredient: "beef", Supplier: "farm", Mass: unit.Kilogram})
	c.say(clock(21, 0), "Cy", record.Signed{About: before.About, Hash: before.Seal.Contents, As: record.AsVerifier})
	m := material(t, c, "P-1")
	m.AsOf, m.Cold = asOf, material(t, tuesday(t), "P-1").Cold
	after := sealed(t, c, m, true)
	if after.Seal.Contents != before.Seal.Contents {
		t.Error("the contents changed")
	}
	if s := after.Seal.Signatures; len(s) != 1 || !s[0].Holds || s[0].Who != "Cy" {
		t.Errorf("signatures are %+v", s)
	}
	c.say(clock(22, 0), "Ann", record.WrittenOff{Lot: "P-1", Numbers: numbers(t, "3"), Why: "torn"})
	m = material(t, c, "P-1")
	if s := sealed(t, c, m, true).Seal.Signatures; len(s) != 1 || s[0].Holds {
		t.Errorf("after a change of the lot the signature is %+v", s)
	}
}

// Two days and the beginning of a third, worked out by hand; what is odd or has no temperature is counted, and in no figure.
func TestColdDays(t *testing.T) {
	read := func(h int, tempC float64) coldwatch.Reading {
		return coldwatch.Reading{At: clock(h, 0), TempC: tempC, Valued: true}
	}
	odd, none := read(13, 40), read(14, 0)
	odd.Odd, none.Valued = true, false
	got := ColdDays([]coldwatch.Reading{read(0, -18), read(1, -20), read(12, -10), odd, none, read(37, -30)}, func(at record.Instant) record.Day { return record.Day(wall(at).Format("2006-01-02")) })
	want := []ColdDay{{"2026-12-01", 2, 0, -20, -19, -18}, {"2026-12-02", 1, 2, -10, -10, -10}, {"2026-12-03", 1, 0, -30, -30, -30}}
	if !slices.Equal(got, want) {
		t.Errorf("days are %+v", got)
	}
	if m := months(append(got, ColdDay{"2027-01-01", 1, 0, 4, 4, 4})); len(m) != 2 || m[0] != (ColdDay{"2026-12", 4, 2, -30, -19.5, -10}) || m[1].Day != "2027-01" {
		t.Errorf("months are %+v", m)
	}
}

// The same about several lots is told once, and names each; what is about other matters is not.
func TestTogether(t *testing.T) {
	var many []Missing
	for i := range 10 {
		many = append(many, Missing{Code: NoPlan, Grave: true, Where: fmt.Sprintf("lot P-%d", i), Says: "no plan for soup"})
	}
	many = append(many, Missing{Code: NoPlan, Grave: true, Where: "lot Q-1", Says: "no plan for stew"}, Missing{Code: RecordFailed, Where: "Chill A", Says: "x"}, Missing{Code: RecordFailed, Where: "Chill B", Says: "x"})
	got := together(many)
	if len(got) != 4 || got[0].Where != "10 lots: P-0, P-1, P-2, P-3, P-4, P-5, P-6, P-7 and 2 more" || len(got[0].All) != 10 || got[0].All[9] != "P-9" || got[1].Where != "lot Q-1" || got[1].All != nil {
		t.Errorf("%+v", got)
	}
}
