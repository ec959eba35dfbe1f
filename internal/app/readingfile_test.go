package app

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"kettlefrost/internal/people"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// ada takes files in.
func ada(at time.Time) Author { return Author{Who: "Ada", Device: "tablet", At: at} }

// asked is the keys of the questions that have no answer, or a bad one.
func asked(x *LogReading) string {
	var keys []string
	for _, q := range x.Questions {
		if q.Answer == "" || q.Problem != "" {
			keys = append(keys, strings.TrimSpace(q.Key+" "+q.Example))
		}
	}
	return strings.Join(keys, ", ")
}

// What a file leaves open is asked, with the cell that leaves it open; a proposal is made where the book has the probe; every answer is kept.
func TestQuestionsOfALogFile(t *testing.T) {
	noon := atNoon(t)
	r := probeRecords(t, noon)
	f := LogFile{Name: "export.csv", Data: []byte("Date,Time,Tub logger temp,Other temp\n12/01/2026,2:05 PM,135,38\n12/02/2026,2:06 PM,134,ERR\n")}
	read := func(a LogAnswers) *LogReading {
		x, err := r.ReadLog(t.Context(), coolKitchen(), f, a, noon, nil)
		if err != nil || x.Problem != "" {
			t.Fatal(err, x.Problem)
		}
		return x
	}
	if got, want := asked(read(LogAnswers{})), "unit 135, order 12/02/2026 2:06 PM, zone 12/01/2026 2:05 PM, probe Other temp"; got != want {
		t.Errorf("asks %s, want %s", got, want)
	}
	a := LogAnswers{Unit: "f", Order: "mdy", Zone: "Nowhere/Land"}
	if got, want := asked(read(a)), "zone 12/01/2026 2:05 PM, probe Other temp"; got != want {
		t.Errorf("asks %s, want %s", got, want)
	}
	a.Zone = KitchenZone
	x := read(a)
	if got, want := asked(x), "probe Other temp"; got != want || x.Ready() {
		t.Errorf("asks %s, want %s", got, want)
	}
	a.Probes = map[string]string{"Other temp": "tub-logger"}
	if got := asked(read(a)); got != "probe Other temp" {
		t.Errorf("one probe for two columns: asks %q", got)
	}
	a.Probes["Other temp"] = "walk-in-1"
	x = read(a)
	if !x.Ready() || x.Channels[0].Probe != "tub-logger" || x.Channels[0].From != record.Instant(time.Date(2026, 12, 1, 19, 5, 0, 0, time.UTC).UnixMilli()) || x.Channels[1].Flags[0].Count != 1 || x.Channels[1].Flags[0].Lines[0] != 3 {
		t.Errorf("%+v", x)
	}
}

// A file is taken in as it came: the entry has its hash, a second time nothing is taken, with other answers only when that is said.
func TestALogFileIsTakenInOnce(t *testing.T) {
	noon := atNoon(t)
	r := probeRecords(t, noon)
	f := LogFile{Name: "tub-logger.csv", Data: []byte("timestamp,temp\n2026-12-01 10:00Z,38\n2026-12-01 10:01Z,ERR\nlater,37\n2026-12-01 10:02Z,100\n")}
	read := func(unit string) *LogReading {
		x, err := r.ReadLog(t.Context(), coolKitchen(), f, LogAnswers{Unit: unit}, noon, nil)
		if err != nil || !x.Ready() {
			t.Fatal(err, asked(x), x.Problem)
		}
		return x
	}
	if _, err := r.TakeLog(t.Context(), &LogReading{}, ada(noon), false); err == nil {
		t.Error("what nobody read is taken in")
	}
	e, err := r.TakeLog(t.Context(), read("f"), ada(noon), false)
	if err != nil {
		t.Fatal(err)
	}
	body, err := record.Decode(e.Kind, e.Body)
	logged, _ := body.(record.Logged)
	if err != nil || logged.Hash != f.Hash() || logged.Readings != 4 || logged.Flagged != 3 || fmt.Sprint(logged.Probes) != "[tub-logger]" || logged.File != "tub-logger.csv" {
		t.Errorf("%+v (%v)", body, err)
	}
	if got := sent(t, r, "tub-logger"); !strings.HasPrefix(got, "10:00:00 3.33") || !strings.Contains(got, `10:00:00 - "later | 37" no-time`) || !strings.Contains(got, `10:02:00 37.78 "100"`) {
		t.Errorf("%s", got)
	}
	kept := sent(t, r, "tub-logger")
	_, err = r.TakeLog(t.Context(), read("f"), ada(noon), true)
	if bad, is := errors.AsType[*LogNotReadyError](err); !is || !strings.Contains(bad.Problem, "was taken in on 2 Dec 2026 12:00") {
		t.Errorf("the same again: %v", err)
	}
	if _, err := r.TakeLog(t.Context(), read("c"), ada(noon), false); err == nil || !strings.Contains(err.Error(), "with other answers") {
		t.Errorf("with other answers: %v", err)
	}
	if sent(t, r, "tub-logger") != kept {
		t.Error("something was taken in that was refused")
	}
	if _, err := r.TakeLog(t.Context(), read("c"), ada(noon), true); err != nil {
		t.Error(err)
	}
	if got := sent(t, r, "tub-logger"); strings.Count(got, "\n") != 7 {
		t.Errorf("with other answers, once that is said: %s", got)
	}
	stranger := Acting(t.Context(), people.Actor{Person: "x", Device: "tablet"})
	f.Data = append(f.Data, "2026-12-01 10:03Z,38\n"...)
	if _, err := r.TakeLog(stranger, read("f"), Author{Who: "x", Device: "tablet", At: noon}, true); !strings.Contains(fmt.Sprint(err), "nobody who works here") {
		t.Errorf("a stranger: %v", err)
	}
	if got := sent(t, r, "tub-logger"); strings.Count(got, "\n") != 7 {
		t.Errorf("what a stranger sent is kept: %s", got)
	}
}

// Files that are none of a logger's are named as such and nothing is kept of them.
func TestFilesOfAnotherKind(t *testing.T) {
	noon := atNoon(t)
	r := probeRecords(t, noon)
	for name, data := range map[string]string{"a picture": "\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR", "prices": "item,price\nleek,3\n", "nothing": "", "a letter": "Dear Ada,\nthe walk-in hums.\n"} {
		x, err := r.ReadLog(t.Context(), coolKitchen(), LogFile{Name: name, Data: []byte(data)}, LogAnswers{}, noon, nil)
		if err != nil || x.Problem == "" || x.Ready() {
			t.Errorf("%s: %v, %+v", name, err, x)
		}
	}
}

// A day has what was read, by the clock on the wall, and what was measured by hand where the probe was; a limit that was not met has its times.
func TestADayOfReadings(t *testing.T) {
	noon := atNoon(t)
	r := probeRecords(t, noon)
	midnight := time.Date(2026, 12, 2, 0, 0, 0, 0, noon.Location())
	posted := Posted{Device: "hub"}
	for m := -10; m < 12*60; m++ {
		temp := "38"
		if m >= 300 && m < 360 {
			temp = "45"
		}
		posted.Readings = append(posted.Readings, PostedReading{Probe: "walk-in-1", At: midnight.Add(time.Duration(m) * time.Minute), Temp: temp, Unit: "F"})
	}
	if _, err := r.TakePosted(t.Context(), posted, noon); err != nil {
		t.Fatal(err)
	}
	enter := func(at time.Time, bodies ...record.Body) {
		for _, b := range bodies {
			if _, err := r.Enter(t.Context(), Said{Who: "Ada", Device: "tablet", At: at, Body: b}); err != nil {
				t.Fatal(err)
			}
		}
	}
	enter(midnight.Add(5*time.Hour), record.Measured{Place: "walk-in", Temp: unit.TempF(44)}, record.Measured{Place: "chest-1", Temp: unit.TempF(0)}, record.Measured{Run: "tue", Task: "chill#1", Temp: unit.TempF(130)},
		record.Measured{Run: "tue", Task: "boil#1", Temp: unit.TempF(200), Instrument: "walk-in-1"})
	enter(noon, record.Watched{Probe: "walk-in-1", Run: "tue", Task: "chill#1", Stage: record.StageCooling, Point: "middle", From: instantOf(midnight.Add(4 * time.Hour)), Until: instantOf(midnight.Add(6 * time.Hour))})
	d, err := r.ReadingDay(t.Context(), coolKitchen(), "walk-in-1", midnight, noon)
	if err != nil {
		t.Fatal(err)
	}
	if len(d.Readings) != 720 || d.Summary.Counting != 720 || d.Summary.High == nil || d.Summary.High.Raw != "45" || d.Previous != "2026-12-01" || d.Next != "" {
		t.Errorf("%d readings, %+v, %s, %s", len(d.Readings), d.Summary, d.Previous, d.Next)
	}
	if len(d.Typed) != 3 || len(d.Stays) != 1 || d.Stays[0].Where != "chill#1" {
		t.Errorf("typed %+v, stays %+v", d.Typed, d.Stays)
	}
	if d.Limit == nil || len(d.Limit.Stretches) != 1 {
		t.Fatalf("%+v", d.Limit)
	}
	// The first reading at 45 °F is at 05:00; a straight line to the one before would pass 41 °F between the two, and after 05:59 likewise.
	if s := d.Limit.Stretches[0]; s.From < instantOf(midnight.Add(299*time.Minute)) || s.From > instantOf(midnight.Add(300*time.Minute)) || s.Until < instantOf(midnight.Add(359*time.Minute)) || s.Until > instantOf(midnight.Add(360*time.Minute)) || !s.Ended {
		t.Errorf("%+v", s)
	}
}

// Of each probe the last reading and its age; one that has fallen silent, one that was never heard, one that the book does not have.
func TestTheListOfProbes(t *testing.T) {
	noon := atNoon(t)
	r := probeRecords(t, noon)
	post := func(probe, temp string, at ...time.Time) {
		p := Posted{Device: "hub"}
		for _, x := range at {
			p.Readings = append(p.Readings, PostedReading{Probe: probe, At: x, Temp: temp, Unit: "F"})
		}
		if _, err := r.TakePosted(t.Context(), p, noon); err != nil {
			t.Fatal(err)
		}
	}
	post("walk-in-1", "38", noon.Add(-40*time.Hour), noon.Add(-40*time.Hour+time.Minute))
	post("stray", "5", noon.Add(-2*time.Minute), noon.Add(-time.Minute), noon.Add(time.Hour))
	list, err := r.ProbeList(t.Context(), coolKitchen(), noon)
	if err != nil {
		t.Fatal(err)
	}
	var text bytes.Buffer
	for _, p := range list.Probes {
		fmt.Fprintf(&text, "%s ever=%t silent=%t age=%d day=%d future=%d\n", p.Probe, p.Ever, p.Silent, p.AgeS, p.Day, p.Future)
	}
	want := "chest ever=false silent=true age=0 day=0 future=0\npan ever=false silent=false age=0 day=0 future=0\nstray ever=true silent=false age=60 day=2 future=1\ntub-logger ever=false silent=false age=0 day=0 future=0\nwalk-in-1 ever=true silent=true age=143940 day=0 future=0\n"
	if text.String() != want {
		t.Errorf("%s\nwant\n%s", text.String(), want)
	}
	var codes []string
	for _, f := range list.Findings {
		codes = append(codes, f.Code)
	}
	if got, want := strings.Join(codes, " "), "probe-never-heard probe-clock-ahead probe-silent probe-not-listed"; got != want {
		t.Errorf("found %s, want %s", got, want)
	}
}

// logOfLines is a file of so many readings, one a minute.
func logOfLines(n int) LogFile {
	var text bytes.Buffer
	text.WriteString("timestamp,tub-logger temp C\n")
	at := time.Date(2025, 11, 1, 0, 0, 0, 0, time.UTC)
	for i := range n {
		fmt.Fprintf(&text, "%s,%.1f\n", at.Add(time.Duration(i)*time.Minute).Format("2006-01-02 15:04:05"), -18+float64(i%30)/10)
	}
	return LogFile{Name: "year.csv", Data: text.Bytes()}
}

// Half a million lines, read, flagged, kept and entered.
func BenchmarkHalfAMillionReadingsTakenIn(b *testing.B) {
	noon := atNoon(b)
	f := logOfLines(500_000)
	for b.Loop() {
		b.StopTimer()
		r := probeRecords(b, noon)
		b.StartTimer()
		x, err := r.ReadLog(b.Context(), coolKitchen(), f, LogAnswers{Zone: KitchenZone}, noon, nil)
		if err != nil {
			b.Fatal(err)
		}
		if _, err := r.TakeLog(b.Context(), x, ada(noon), false); err != nil {
			b.Fatal(err)
		}
	}
}

// A logger whose clock was left alone while the kitchen's was put forward is told by its times: nobody's clock on the wall showed 02:30 in New York
// on 8 March 2026.
func TestAClockThatNobodyPutForward(t *testing.T) {
	noon := atNoon(t)
	r := probeRecords(t, noon)
	f := LogFile{Name: "tub-logger.csv", Data: []byte("timestamp,temp C\n2026-03-08 01:30,5\n2026-03-08 02:30,5\n2026-03-08 03:30,5\n")}
	for zone, want := range map[string]string{KitchenZone: "There are times in the hour that this clock skips: 1, from line 3 on.", "-05:00": ""} {
		x, err := r.ReadLog(t.Context(), coolKitchen(), f, LogAnswers{Zone: zone}, noon, nil)
		if err != nil || len(x.Questions) != 2 || !strings.HasPrefix(x.Questions[0].Hint, want) || want == "" && x.Questions[0].Hint != "" || x.Questions[0].Example != "2026-03-08 01:30" {
			t.Errorf("%s: %+v (%v)", zone, x.Questions, err)
		}
	}
}

// Columns that are called after places are read, and asked for; one that is no probe's is left out when that is said.
func TestColumnsCalledAfterPlaces(t *testing.T) {
	noon := atNoon(t)
	r := probeRecords(t, noon)
	f := LogFile{Name: "export.csv", Data: []byte("No,Date,Time,Tub logger,Door count,Battery\n1,2026-12-01,10:00,38.1,7,3.1\n2,2026-12-01,10:01,ERR,8,3.1\n3,2026-12-01,10:02,38,9,3.1\n")}
	a := LogAnswers{Unit: "f", Zone: "UTC"}
	x, err := r.ReadLog(t.Context(), coolKitchen(), f, a, noon, nil)
	if err != nil || asked(x) != "probe Door count" {
		t.Fatalf("asks %q, %s (%v)", asked(x), x.Problem, err)
	}
	a.Probes = map[string]string{"Door count": LogNoProbe}
	if x, err = r.ReadLog(t.Context(), coolKitchen(), f, a, noon, nil); err != nil || !x.Ready() {
		t.Fatalf("asks %q (%v)", asked(x), err)
	}
	if _, err := r.TakeLog(t.Context(), x, ada(noon), false); err != nil {
		t.Fatal(err)
	}
	if got, want := sent(t, r, "tub-logger"), "10:00:00 3.39 \"38.1\"\n10:01:00 - \"ERR\" no-number\n10:02:00 3.33 \"38\""; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	if got := sent(t, r, LogNoProbe); got != "" {
		t.Errorf("the door is kept: %s", got)
	}
}

// When the power fails between keeping the readings and the entry that ties them to the chain, taking the file in again puts that right and keeps
// nothing twice.
func TestATakingThatWasCutShort(t *testing.T) {
	noon := atNoon(t)
	r := probeRecords(t, noon)
	f := LogFile{Name: "tub-logger.csv", Data: []byte("timestamp,temp C\n2026-12-01 10:00Z,5\n2026-12-01 10:01Z,6\n")}
	x, err := r.ReadLog(t.Context(), coolKitchen(), f, LogAnswers{}, noon, nil)
	if err != nil || !x.Ready() {
		t.Fatal(err, asked(x))
	}
	batch, _ := x.batch(ada(noon))
	if err := r.store.TakeReadings(t.Context(), batch); err != nil {
		t.Fatal(err)
	}
	again, err := r.ReadLog(t.Context(), coolKitchen(), f, LogAnswers{}, noon, nil)
	if err != nil || len(again.Done) > 0 {
		t.Fatalf("%+v (%v)", again.Done, err)
	}
	if _, err := r.TakeLog(t.Context(), again, ada(noon), false); err != nil {
		t.Fatal(err)
	}
	if got, want := sent(t, r, "tub-logger"), "10:00:00 5.00 \"5\"\n10:01:00 6.00 \"6\""; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}

// What a file says twice over a longer time than a day, in a wrong order and with clocks put back, is all kept: as many readings come out as went in.
func TestNothingOfAFileIsLost(t *testing.T) {
	noon := atNoon(t)
	for name, text := range map[string]string{
		"clocks put back":   "date,time,temp C\n2026-11-01,00:30,5\n2026-11-01,01:30,5\n2026-11-01,01:30,6\n2026-11-01,02:30,5\n",
		"one time, often":   "timestamp,temp C\n" + strings.Repeat("2026-11-01 10:00Z,5\n", 5000),
		"backwards":         "timestamp,temp C\n2026-11-03 10:00Z,5\n2026-11-02 10:00Z,5\n2026-11-01 10:00Z,5\n",
		"years apart":       "timestamp,temp C\n1999-11-03 10:00Z,5\n2026-11-02 10:00Z,5\n9998-11-01 10:00Z,5\n1950-01-01 10:00Z,5\n",
		"no time at all":    "timestamp,temp C\nnever,5\n,6\nsoon,7\n",
		"quotes and spaces": "timestamp,temp C\n\" 2026-11-01 10:00Z \",\" 5 \"\n",
		"semicolons":        "Datum;Zeit;Temp C\n01.12.2025;10:00;5,5\n01.12.2025;10:01;\n13.12.2025;10:01;5,25\n",
	} {
		r := probeRecords(t, noon)
		x, err := r.ReadLog(t.Context(), coolKitchen(), LogFile{Name: "tub-logger.csv", Data: []byte(text)}, LogAnswers{Zone: KitchenZone}, noon, nil)
		if err != nil || !x.Ready() {
			t.Errorf("%s: %v, asks %s, %s", name, err, asked(x), x.Problem)
			continue
		}
		if _, err := r.TakeLog(t.Context(), x, ada(noon), false); err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		got, err := r.Readings(t.Context(), "tub-logger", 0, 1<<60)
		if err != nil || len(got) != x.Channels[0].Readings || len(got) != strings.Count(text, "\n")-1 {
			t.Errorf("%s: %d of %d are kept (%v)", name, len(got), x.Channels[0].Readings, err)
		}
	}
}
