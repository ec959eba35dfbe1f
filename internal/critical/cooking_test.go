package critical_test

import (
	"math"
	"strings"
	"testing"

	"kettlefrost/internal/critical"
	"kettlefrost/internal/haccp"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// Limits of FDA Food Code 3-401.11: poultry 165 °F at once, intact meat 145 °F for 15 s.
func TestCooked(t *testing.T) {
	sec := 1.0 / 3600
	for _, c := range []struct {
		name  string
		class haccp.Class
		log   []point
		over  bool
		want  critical.Outcome
		why   string
	}{
		{"poultry at 165 °F", haccp.Poultry, []point{{0, 165}}, true, critical.Pass, critical.WhyReached},
		{"poultry at 164 °F", haccp.Poultry, []point{{0, 164}}, true, critical.Fail, critical.WhyTooCold},
		{"and it goes on", haccp.Poultry, []point{{0, 164}}, false, critical.Incomplete, critical.WhyTooCold},
		{"heated on until it was reached", haccp.Poultry, []point{{0, 150}, {0.2, 158}, {0.3, 166}}, true, critical.Pass, critical.WhyReached},
		{"meat at 145 °F, once", haccp.IntactMeat, []point{{0, 145}}, true, critical.Incomplete, critical.WhyTooShort},
		{"meat at 145 °F for 15 s", haccp.IntactMeat, []point{{0, 145}, {15 * sec, 145}}, true, critical.Pass, critical.WhyReached},
		{"colder between", haccp.IntactMeat, []point{{0, 146}, {10 * sec, 144}, {20 * sec, 146}}, true, critical.Incomplete, critical.WhyTooShort},
		{"so much hotter that the time is as good as none", haccp.IntactMeat, []point{{0, 190}}, true, critical.Pass, critical.WhyReached},
		{"nothing, and it is done", haccp.Poultry, nil, true, critical.Missing, critical.WhyNothing},
		{"nothing yet", haccp.Poultry, nil, false, critical.Missing, critical.WhyNotYet},
	} {
		k := open(t, c.class)
		k.say(hours(-1), record.Started{Run: "tuesday", Task: simmer})
		k.typed(simmer, c.log...)
		if c.over {
			k.say(hours(1), record.Finished{Run: "tuesday", Task: simmer})
		}
		v := k.verdict(critical.Cooking)
		if v.Outcome != c.want || v.Why != c.why || v.Point != "tuesday/soup/simmer/1/cooking.simmer" || !v.Gates {
			t.Errorf("%s: %s (%s), want %s (%s): %s; %+v", c.name, v.Outcome, v.Why, c.want, c.why, v.Says, v.Point)
		}
	}
}

// What is from memory holds nothing: the time that beans boil.
func TestFromMemoryHoldsNothing(t *testing.T) {
	k := open(t, haccp.Beans)
	k.say(hours(-1), record.Finished{Run: "tuesday", Task: simmer})
	for _, v := range k.judge() {
		if v.What == critical.Cooking && (v.Gates || v.Troubles() || v.Confirm == "") {
			t.Errorf("%+v", v)
		}
	}
}

// A minute's readings from 60 to 70 °C and back, with z of 7.5 °C at 70 °C: by hand 2.367 min at the colder end of each interval, 3.104 min along
// straight lines; the target of 2 min is met.
func TestLethalityOfALoad(t *testing.T) {
	k := open(t, haccp.Poultry)
	var log []point
	for i, c := range []float64{60, 64, 67, 69, 70, 69, 66} {
		log = append(log, point{float64(i) / 60, c*9/5 + 32})
	}
	k.probe(simmer, record.StageCooking, log...)
	l := k.verdict(critical.Cooking).Lethality
	if l == nil || math.Abs(l.Targets[0].SafeS-2.367*60) > 0.1 || math.Abs(l.Targets[0].ExactS-3.104*60) > 0.1 || !l.Targets[0].Reached || l.Targets[1].Reached {
		t.Fatalf("%+v", l)
	}
	for _, table := range l.Tables {
		if table.Class == "meat" {
			t.Error("poultry judged by the table of meat")
		}
	}
	if len(l.Tables) != 2 || len(l.Assumes) == 0 {
		t.Errorf("%+v", l)
	}
}

// FSIS Appendix A (1999): meat at 140 °F for 12 min, chicken of 12 % fat for 35 min. One table is never used for the other.
func TestTablesByClass(t *testing.T) {
	for _, c := range []struct {
		class   haccp.Class
		minutes float64
		met     map[string]bool
	}{
		{haccp.IntactMeat, 12, map[string]bool{"meat": true}},
		{haccp.IntactMeat, 11, map[string]bool{"meat": false}},
		{haccp.Poultry, 12, map[string]bool{"chicken": false, "turkey": false}},
		{haccp.Poultry, 34, map[string]bool{"chicken": false, "turkey": true}},
		{haccp.Poultry, 35, map[string]bool{"chicken": true, "turkey": true}},
		{haccp.Fish, 60, map[string]bool{}},
	} {
		k := open(t, c.class)
		k.probe(simmer, record.StageCooking, point{0, 140}, point{c.minutes / 60, 140})
		l := k.verdict(critical.Cooking).Lethality
		if len(l.Tables) != len(c.met) || len(c.met) == 0 && len(l.Without) == 0 {
			t.Errorf("%s for %g min: %+v", c.class, c.minutes, l)
		}
		for _, table := range l.Tables {
			if met, there := c.met[table.Class]; !there || table.Met != met {
				t.Errorf("%s for %g min by the table of %s: %v", c.class, c.minutes, table.Class, table.Met)
			}
		}
	}
}

func TestLabelsAreSigned(t *testing.T) {
	k := open(t, haccp.Produce)
	k.say(hours(0), record.Packed{Run: "tuesday", Pack: "soup-lb", Lot: "L1", Numbers: numbers(t, "1-10"), Label: unit.Pound, Mass: 10 * unit.Pound, From: []record.Part{{Lot: "B1", Mass: 10 * unit.Pound}}, BestBefore: "2027-03-01"})
	v := k.verdict(critical.Label)
	if v.Outcome != critical.Missing || !v.Troubles() || v.Point != "tuesday/L1/label" || !strings.Contains(v.Title, "milk") {
		t.Errorf("%+v", v)
	}
	k.say(hours(1), record.Signed{About: "tuesday/L1/label", As: record.AsVerifier})
	if v := k.verdict(critical.Label); v.Outcome != critical.Pass || v.Signed[0].Who != "Nora" {
		t.Errorf("%+v", v)
	}
	k.state.Drop(k.all[len(k.all)-1].ID)
	if v := k.verdict(critical.Label); v.Outcome != critical.Missing {
		t.Errorf("taken back, and still %s", v.Outcome)
	}
}

func TestDoor(t *testing.T) {
	temp := func(f float64) *unit.Temp { x := unit.TempF(f); return &x }
	for _, c := range []struct {
		keep string
		door *unit.Temp
		want critical.Outcome
	}{{"chilled", temp(41), critical.Pass}, {"chilled", temp(42), critical.Fail}, {"chilled", nil, critical.Missing}, {"frozen", temp(5), critical.Pass}, {"frozen", temp(33), critical.Fail}, {"dry", nil, ""}, {"", nil, ""}} {
		k := open(t, haccp.Produce)
		k.say(noon, record.Received{Lot: "R1", Ingredient: "cream", Supplier: "dairy", Mass: unit.Kilogram, Door: c.door})
		set := k.setting()
		set.Keep = func(string) string { return c.keep }
		for d := range k.state.Goods() {
			if v, needed := d.Door(set); needed != (c.want != "") || v.Outcome != c.want {
				t.Errorf("%s, %v: %s %v", c.keep, c.door, v.Outcome, needed)
			}
		}
	}
}

// Fewer loads than planned: what was skipped from beginning to end needs no record; what was cooked is cooled.
func TestFewerLoads(t *testing.T) {
	k := open(t, haccp.Poultry)
	k.work[0].Loads = append(k.work[0].Loads, "soup/simmer/2")
	k.work[1].Loads, k.work[1].From = append(k.work[1].Loads, "soup/soup-chill/2"), append(k.work[1].From, "soup/simmer/2")
	count := func() (n int) {
		for range k.judge() {
			n++
		}
		return n
	}
	k.say(noon, record.Finished{Run: "tuesday", Task: simmer})
	if got := count(); got != 4 {
		t.Errorf("%d records of two loads", got)
	}
	k.say(noon, record.Skipped{Run: "tuesday", Task: "soup/soup-chill/2", Why: "it fitted into one"})
	if got := count(); got != 4 {
		t.Errorf("%d records: a cooling was skipped, and the load was cooked", got)
	}
	k.say(noon, record.Skipped{Run: "tuesday", Task: "soup/simmer/2", Why: "it fitted into one"})
	if got := count(); got != 2 {
		t.Errorf("%d records of one load", got)
	}
	k.typed("soup/soup-chill/3", point{1, 100})
	if got := count(); got != 3 {
		t.Errorf("%d records: somebody measured a third load", got)
	}
}

func numbers(t testing.TB, text string) record.Numbers {
	t.Helper()
	n, err := record.ParseNumbers(text)
	if err != nil {
		t.Fatal(err)
	}
	return n
}
