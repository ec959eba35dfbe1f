package folder

import (
	"fmt"
	"testing"
	"time"

	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/coldwatch"
	"kettlefrost/internal/critical"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/thermometers"
	"kettlefrost/internal/unit"
)

// chain is entries as they are told and sealed.
type chain struct {
	t   testing.TB
	all []record.Entry
	ids int
}

var morning = time.Date(2026, 12, 1, 12, 0, 0, 0, time.UTC)

func clock(h, m int) record.Instant {
	return record.Instant(morning.Add(time.Duration(h)*time.Hour + time.Duration(m)*time.Minute).UnixMilli())
}

// say seals an entry by somebody; corrects is the entry that was wrong.
func (c *chain) say(at record.Instant, who string, body record.Body, corrects ...record.ID) record.ID {
	c.t.Helper()
	c.ids++
	e, err := record.Say(record.ID{15: byte(c.ids), 14: byte(c.ids >> 8)}, at, who, "tablet 1", body)
	if err != nil {
		c.t.Fatal(err)
	}
	e.Entered = at + 1000
	if len(corrects) > 0 {
		e.Corrects = corrects[0]
	}
	var head record.Head
	if n := len(c.all); n > 0 {
		head = c.all[n-1].Head()
	}
	if e, err = record.Seal(head, e); err != nil {
		c.t.Fatal(err)
	}
	c.all = append(c.all, e)
	return e.ID
}

func numbers(t testing.TB, text string) record.Numbers {
	t.Helper()
	n, err := record.ParseNumbers(text)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

func tempF(f float64) unit.Temp { return unit.TempF(f) }

// tuesday is one run: a stew of two lots of goods, packed in two lots; another dish of the same run; what is left of the goods went elsewhere.
func tuesday(t testing.TB) *chain {
	c := &chain{t: t}
	c.say(clock(-24, 0), "Ann", record.Calibrated{Instrument: "T-1", Method: record.IcePoint, Read: tempF(32.5), True: tempF(32), Kept: record.InUse})
	c.say(clock(-23, 0), "Ann", record.Calibrated{Instrument: "T-9", Method: record.IcePoint, Read: tempF(32), True: tempF(32), Kept: record.InUse})
	c.say(clock(-22, 0), "Ann", record.Received{Lot: "R-1", Ingredient: "beef", Supplier: "farm", SupplierLot: "77", Mass: 20 * unit.Kilogram, Place: "walk-in"})
	c.say(clock(-22, 1), "Ann", record.Received{Lot: "R-2", Ingredient: "carrot", Supplier: "farm", Mass: 9 * unit.Kilogram, Place: "walk-in"})
	c.say(clock(-22, 2), "Ann", record.Received{Lot: "R-3", Ingredient: "oats", Supplier: "mill", Mass: 9 * unit.Kilogram})
	c.say(clock(0, 0), "Ann", record.Opened{Run: "tue", Request: "tue", Day: "2026-12-01", Plan: record.Hash{1}})
	c.say(clock(0, 5), "Ann", record.Used{Run: "tue", Dish: "stew", Lot: "R-1", Mass: 10 * unit.Kilogram})
	wrong := c.say(clock(0, 6), "Bea", record.Used{Run: "tue", Dish: "stew", Lot: "R-2", Mass: 50 * unit.Kilogram})
	c.say(clock(0, 7), "Bea", record.Used{Run: "tue", Dish: "porridge", Lot: "R-3", Mass: 2 * unit.Kilogram})
	c.say(clock(0, 20), "Bea", record.Used{Run: "tue", Dish: "stew", Lot: "R-2", Mass: 5 * unit.Kilogram}, wrong)
	c.say(clock(1, 0), "Ann", record.Measured{Run: "tue", Dish: "stew", Task: "stew/simmer/1", Temp: tempF(201), Instrument: "T-1"})
	c.say(clock(1, 5), "Ann", record.Measured{Run: "tue", Dish: "porridge", Task: "porridge/boil/1", Temp: tempF(211), Instrument: "T-9"})
	c.say(clock(1, 10), "Ann", record.Made{Run: "tue", Dish: "stew", Output: "stew", Lot: "B-1", Mass: 14 * unit.Kilogram})
	c.say(clock(1, 11), "Ann", record.Made{Run: "tue", Dish: "porridge", Output: "porridge", Lot: "B-2", Mass: 3 * unit.Kilogram})
	slip := c.say(clock(2, 30), "Bea", record.Acted{Run: "tue", Task: "stew/stew-chill/1", Did: record.Discarded, Text: "wrong button"})
	c.say(clock(2, 32), "Bea", record.Acted{Run: "tue", Task: "stew/stew-chill/1", Code: "cooling-late", Did: record.MoreIce})
	c.say(clock(2, 33), "Bea", record.Voided{Why: "it was stirred, not thrown away"}, slip)
	c.say(clock(7, 0), "Ann", record.Packed{Run: "tue", Pack: "stew-2lb", Lot: "P-1", Numbers: numbers(t, "1-10"), Label: 900 * unit.Gram, Mass: 9 * unit.Kilogram, From: []record.Part{{Lot: "B-1", Mass: 9 * unit.Kilogram}}, BestBefore: "2027-06-01", Place: "chest-1/shelf 2"})
	c.say(clock(7, 1), "Ann", record.Packed{Run: "tue", Pack: "porridge-1lb", Lot: "P-2", Numbers: numbers(t, "1-6"), Label: 450 * unit.Gram, Mass: 2700 * unit.Gram, From: []record.Part{{Lot: "B-2", Mass: 2700 * unit.Gram}}, BestBefore: "2027-06-01", Place: "chest-2"})
	c.say(clock(8, 0), "Cy", record.Signed{About: "tue/P-1/label", As: record.AsVerifier, Text: "labels read"})
	c.say(clock(9, 0), "Ann", record.Held{Lot: "P-1", Numbers: numbers(t, "3"), Why: "a torn bag"})
	c.say(clock(10, 0), "Ann", record.Customer{Customer: "inn", Name: "The Inn"})
	c.say(clock(11, 0), "Ann", record.HandedOver{Lot: "P-1", Numbers: numbers(t, "1-2"), Customer: "inn"})
	c.say(clock(12, 0), "Ann", record.Measured{Place: "chest-1", Temp: tempF(-2), Instrument: "T-1"})
	return c
}

// cooled is the cooling of the stew, read each ten minutes: as package critical would judge it.
func cooled() critical.Verdict {
	var readings []critical.Reading
	for i := range 37 {
		readings = append(readings, critical.Reading{At: clock(1, 10+10*i), TempC: 3 + 60/(1+float64(i)/6), Instrument: "P-7"})
	}
	readings[5].Flags = "after-gap"
	margin := 600.0
	temp := readings[30].TempC
	stage := critical.StageVerdict{Name: "135 to 41 °F within 6 h in all", ToC: 5, WithinS: 6 * 3600, Outcome: critical.Fail, Why: "still-warm", Says: "still 46.6 °F at 18:10", Start: clock(1, 10), Deadline: clock(7, 10), At: readings[36].At, TempC: &readings[36].TempC}
	first := critical.StageVerdict{Name: "135 to 70 °F within 2 h", ToC: 21.1, WithinS: 7200, Outcome: critical.Pass, Why: "in-time", Says: "69 °F at 15:00: 10 min to spare", Start: clock(1, 10), Deadline: clock(3, 10), At: clock(3, 0), TempC: &temp, MarginS: &margin}
	return critical.Verdict{Point: "tue/stew/stew-chill/1/cooling", What: critical.Cooling, Run: "tue", Dish: "stew", Output: "stew", Task: "stew/stew-chill/1", Load: 1, Loads: 1, Packs: []string{"stew-2lb"}, Title: "Chill the stew",
		Limit: "135 to 70 °F within 2 h, and to 41 °F within 6 h in all", Source: "FDA Food Code 3-501.14(A)", Gates: true, Outcome: critical.Fail, Why: "still-warm", Says: "still 46.6 °F at 18:10; it had to be 41 °F by 19:10", Fix: "a named person decides",
		Rules:    []critical.RuleVerdict{{Rule: "fda-3-501.14-a", Title: "Food Code", Source: "FDA Food Code 3-501.14(A)", Decides: true, Outcome: critical.Fail, Stages: []critical.StageVerdict{first, stage}}},
		Logs:     []critical.Log{{Where: "middle of the deepest pan", Readings: readings}},
		Accuracy: &critical.Accuracy{C: 1.1, Says: "P-7 counts as right to 2 °F"}}
}

func cooked() critical.Verdict {
	return critical.Verdict{Point: "tue/stew/simmer/1/cooking.simmer", What: critical.Cooking, Run: "tue", Dish: "stew", Packs: []string{"stew-2lb"}, Title: "Simmer", Limit: "165 °F, at once", Gates: true, Outcome: critical.Pass, Why: critical.WhyReached, Says: "201 °F at 13:00",
		Logs: []critical.Log{{Readings: []critical.Reading{{At: clock(1, 0), TempC: 94, Instrument: "T-1", Entry: "x", Who: "=Ann"}}}}}
}

func other() critical.Verdict {
	return critical.Verdict{Point: "tue/porridge/boil/1/cooking.boil", What: critical.Cooking, Run: "tue", Dish: "porridge", Packs: []string{"porridge-1lb"}, Title: "Boil", Gates: true, Outcome: critical.Missing}
}

func wall(at record.Instant) time.Time { return time.UnixMilli(int64(at)).UTC() }

var wallClock = Clock{Time: func(at record.Instant) string { return wall(at).Format("2 Jan 2006 15:04") }, Hour: func(at record.Instant) string { return wall(at).Format("15:04") }, Wall: wall}

// material is a folder of some lots of a chain.
func material(t testing.TB, c *chain, asked ...record.Lot) Material {
	t.Helper()
	return materialOf(t, c, asked, nil)
}

// materialOf is a folder of some lots, and of some runs as a whole.
func materialOf(t testing.TB, c *chain, asked []record.Lot, runs []string) Material {
	t.Helper()
	var standing record.Standing
	for _, e := range c.all {
		standing.Add(e)
	}
	state, found := lots.Of(standing.All())
	var checks thermometers.State
	for e := range standing.All() {
		checks.Take(e)
	}
	asOf := c.all[len(c.all)-1].Entered
	reach := Of(c.all, state, asked, runs, asOf)
	bench := thermometers.Look([]thermometers.Instrument{{ID: "T-1", Name: "pen", AccuracyC: 1}}, &checks)
	w := coldwatch.Watch{Probe: "F-1", Name: "freezer probe", Place: "chest-1", PlaceName: "chest 1", Kind: coldstore.Frozen, LimitC: -17.8, LimitSource: "trade", Trust: func(at record.Instant) thermometers.Trust { return bench.Trust("F-1", at) }}
	var readings []coldwatch.Reading
	for i := range 60 {
		temp := -20.0
		if i > 20 && i < 40 {
			temp = 2
		}
		readings = append(readings, coldwatch.Reading{At: clock(7, 5*i), TempC: temp, Valued: true})
	}
	seen, err := w.Look(readings, clock(7, 0), asOf)
	if err != nil {
		t.Fatal(err)
	}
	return Material{Asked: fmt.Sprint("lots ", asked), About: "folder/" + fmt.Sprint(asked), AsOf: asOf, Kitchen: Kitchen{Name: "Small Kitchen", Place: "Burlington VT", Jurisdiction: "US-VT", Units: unit.US},
		Reach: reach, State: state, Fits: lots.About(found, asked...), Judged: []critical.Verdict{other(), cooled(), cooked()}, Bench: bench, Cold: []ColdLog{{Seen: seen, Days: ColdDays(readings, func(at record.Instant) record.Day { return record.Day(wall(at).Format("2006-01-02")) })}}, Watched: func(p record.Place) bool { return p == "chest-1" },
		Says: func(b record.Body) string { return "says " + string(b.Kind()) }, Clock: wallClock.Time}
}

func made(t testing.TB, m Material) Contents {
	t.Helper()
	c, err := Make(m)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func sealed(t testing.TB, c *chain, m Material, whole bool) Bundle {
	t.Helper()
	head := c.all[len(c.all)-1]
	b, err := made(t, m).Sealed(c.all, Chain{Head: head.Head(), Verified: true, Entered: head.Entered}, whole)
	if err != nil {
		t.Fatal(err)
	}
	return b
}
