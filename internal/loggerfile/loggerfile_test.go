package loggerfile_test

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"time"
	_ "time/tzdata"

	"kettlefrost/internal/loggerfile"
)

func zone(t testing.TB, name string) *time.Location {
	t.Helper()
	z, err := time.LoadLocation(name)
	if err != nil {
		t.Fatal(err)
	}
	return z
}

func yes() *bool { b := true; return &b }
func no() *bool  { b := false; return &b }

// show is each reading in a few words: its time in UTC, °C, flags.
func show(f loggerfile.File) string {
	var lines []string
	for _, c := range f.Channels {
		for _, r := range c.Readings {
			text := fmt.Sprintf("%d %s %.2f", r.Line, r.At.UTC().Format("01-02T15:04:05"), r.TempC)
			for _, flag := range r.Flags {
				text += " " + string(flag)
			}
			lines = append(lines, text)
		}
	}
	return strings.Join(lines, "\n")
}

// Files in the shape of those that loggers write. All of them are invented; instants were worked out by hand from the zones' offsets.
func TestFilesOfLoggers(t *testing.T) {
	newYork, berlin := zone(t, "America/New_York"), zone(t, "Europe/Berlin")
	received := time.Date(2026, 12, 2, 0, 0, 0, 0, time.UTC)
	for _, c := range []struct {
		name, text string
		opt        loggerfile.Options
		want       string
	}{
		{"columns in another order, °F in the head, words before the table", "\"Walk-in log\"\nSerial,A-77\nTemperature (°F),Humidity %,Date,Time\n135.0,40,2026-12-01,14:00:00\n70.0,41,2026-12-01,16:00:00\n",
			loggerfile.Options{Zone: newYork}, "4 12-01T19:00:00 57.22\n5 12-01T21:00:00 21.11"},
		{"a decimal comma, semicolons, the day first by itself", "Datum;Zeit;Temp °C\n30.11.2026;23:30;57,2\n01.12.2026;01:30;21,0\n",
			loggerfile.Options{Zone: berlin}, "2 11-30T22:30:00 57.20\n3 12-01T00:30:00 21.00"},
		{"am and pm, the unit in the cell", "Timestamp,Probe 1\n12/01/2026 12:05 AM,135 °F\n12/13/2026 12:05 PM,57.2 °C\n",
			loggerfile.Options{Zone: newYork}, "2 12-01T05:05:00 57.22\n3 12-13T17:05:00 57.20"},
		{"an offset with each time", "timestamp,temp_c\n2026-12-01T14:00:00-05:00,60\n2026-12-01T19:30:00Z,55\n", loggerfile.Options{}, "2 12-01T19:00:00 60.00\n3 12-01T19:30:00 55.00"},
		{"an offset in the head", "\"Date Time, GMT-05:00\",\"Temp, °F\"\n2026-12-01 14:00,135\n", loggerfile.Options{}, "2 12-01T19:00:00 57.22"},
		{"seconds since 1970", "unix,celsius\n1796133600,-18.5\n", loggerfile.Options{}, "2 12-01T14:00:00 -18.50"},
		{"two probes", "When,Probe A deg C,Probe B deg C\n2026-12-01 10:00Z,60,58\n2026-12-01 10:01Z,,57\n", loggerfile.Options{}, "2 12-01T10:00:00 60.00\n2 12-01T10:00:00 58.00\n3 12-01T10:01:00 57.00"},
		// New York puts its clocks back at 06:00 UTC on 2026-11-01: 01:30 is there at 05:30 and at 06:30 UTC.
		{"clocks put back", "date,time,temp C\n2026-11-01,00:30,5\n2026-11-01,01:30,5\n2026-11-01,01:30,5\n2026-11-01,02:30,5\n",
			loggerfile.Options{Zone: newYork}, "2 11-01T04:30:00 5.00\n3 11-01T05:30:00 5.00 repeated-hour\n4 11-01T06:30:00 5.00 repeated-hour\n5 11-01T07:30:00 5.00"},
		// And forward at 07:00 UTC on 2026-03-08: there is no 02:30.
		{"clocks put forward", "date,time,temp C\n2026-03-08,01:30,5\n2026-03-08,02:30,5\n2026-03-08,03:30,5\n",
			loggerfile.Options{Zone: newYork}, "2 03-08T06:30:00 5.00\n3 03-08T07:30:00 5.00 skipped-hour\n4 03-08T07:30:00 5.00 twice"},
		{"out of order, twice, in the future, text, a jump to °F, a gap", "timestamp,temp C\n2026-12-01 10:00Z,39\n2026-12-01 10:01Z,38\n2026-12-01 10:02Z,100\n2026-12-01 10:03Z,37\n2026-12-01 10:02:30Z,37\n2026-12-01 10:03Z,37\n2026-12-01 10:04Z,ERR\nlater,36\n2026-12-01 12:04Z,36\n2027-01-01 00:00Z,5\n2026-12-01 12:05Z,3000\n",
			loggerfile.Options{Received: received}, "2 12-01T10:00:00 39.00\n3 12-01T10:01:00 38.00\n4 12-01T10:02:00 100.00 jump\n5 12-01T10:03:00 37.00 jump\n6 12-01T10:02:30 37.00 out-of-order\n7 12-01T10:03:00 37.00 twice\n" +
				"8 12-01T10:04:00 0.00 no-number\n9 01-01T00:00:00 36.00 no-time\n10 12-01T12:04:00 36.00 after-gap\n11 01-01T00:00:00 5.00 future after-gap\n12 12-01T12:05:00 3000.00 impossible clock-went-back"},
		{"the day first, when somebody says so", "date,time,temp C\n03/04/2026,10:00,5\n", loggerfile.Options{Zone: time.UTC, DayFirst: yes()}, "2 04-03T10:00:00 5.00"},
		{"the month first", "date,time,temp C\n03/04/2026,10:00,5\n", loggerfile.Options{Zone: time.UTC, DayFirst: no()}, "2 03-04T10:00:00 5.00"},
		{"a day that is not", "date,time,temp C\n2026-06-31,10:00,5\n", loggerfile.Options{Zone: time.UTC}, "2 01-01T00:00:00 5.00 no-time"},
	} {
		f, err := loggerfile.Read([]byte(c.text), c.opt)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if got := show(f); got != c.want {
			t.Errorf("%s:\n%s\nwant\n%s", c.name, got, c.want)
		}
	}
}

// What a file leaves open is asked, with the cell that leaves it open, and never guessed.
func TestQuestions(t *testing.T) {
	_, err := loggerfile.Read([]byte("date,time,temperature\n03/04/2026,10:00,38\n"), loggerfile.Options{})
	ask := (*loggerfile.AskError)(nil)
	if !errors.As(err, &ask) || !slices.Equal(ask.Questions, []loggerfile.Question{loggerfile.WhichUnit, loggerfile.WhichOrder, loggerfile.WhichZone}) || ask.Example[loggerfile.WhichUnit] != "38" {
		t.Errorf("%v: %+v", err, ask)
	}
	for name, text := range map[string]string{"a list of prices": "item,price\nleek,3\n", "nothing": "", "a picture": "\x89PNG\xff\xfe", "only a head of words": "hello\nworld\n"} {
		_, err := loggerfile.Read([]byte(text), loggerfile.Options{})
		if bad := (*loggerfile.FormatError)(nil); !errors.As(err, &bad) || bad.Fix == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// Whatever a file holds: no line after the head is lost, and no reading without a number or a time counts.
func FuzzRead(f *testing.F) {
	f.Add([]byte("Date,Time,Temp C\n2026-12-01,10:00,5\n2026-12-01,x,y\n\n"))
	f.Add([]byte("Datum;Zeit;Temp °C\n30.11.2026;23:30;57,2\n"))
	f.Add([]byte("unix,celsius\n1796133600,-18.5\n9999999999999,1\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		file, err := loggerfile.Read(data, loggerfile.Options{Zone: time.UTC, Unit: loggerfile.Celsius, DayFirst: yes()})
		if err != nil {
			return
		}
		for _, c := range file.Channels {
			for _, r := range c.Readings {
				if r.Valued() && (math.IsNaN(r.TempC) || r.At.IsZero()) {
					t.Errorf("%+v counts", r)
				}
			}
		}
	})
}

func BenchmarkHalfAMillionLines(b *testing.B) {
	var text strings.Builder
	text.WriteString("timestamp,temp C\n")
	at := time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)
	for i := range 500_000 {
		fmt.Fprintf(&text, "%s,%.1f\n", at.Add(time.Duration(i)*time.Minute).Format("2006-01-02 15:04:05"), -18+float64(i%30)/10)
	}
	data := []byte(text.String())
	b.SetBytes(int64(len(data)))
	for b.Loop() {
		if _, err := loggerfile.Read(data, loggerfile.Options{Zone: time.UTC}); err != nil {
			b.Fatal(err)
		}
	}
}
