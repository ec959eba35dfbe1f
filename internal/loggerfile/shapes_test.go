package loggerfile_test

import (
	"encoding/binary"
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"
	"unicode/utf16"

	"kettlefrost/internal/loggerfile"
)

// wide is a text in UTF-16.
func wide(text string, order binary.AppendByteOrder, mark bool) []byte {
	var out []byte
	if mark {
		text = "\ufeff" + text
	}
	for _, u := range utf16.Encode([]rune(text)) {
		out = order.AppendUint16(out, u)
	}
	return out
}

// One table however its letters are written: UTF-8 with a mark, UTF-16 in both orders with and without one, one byte a letter.
func TestTheLettersOfAFile(t *testing.T) {
	const table = "Date,Time,Walk-in (°F)\n2026-12-01,14:00,38.1\n2026-12-01,14:01,38.3\n"
	for name, data := range map[string][]byte{
		"UTF-8":                 []byte(table),
		"UTF-8 with a mark":     []byte("\ufeff" + table),
		"UTF-16, low first":     wide(table, binary.LittleEndian, true),
		"UTF-16, high first":    wide(table, binary.BigEndian, true),
		"UTF-16 without a mark": wide(table, binary.LittleEndian, false),
		"UTF-16, high, no mark": wide(table, binary.BigEndian, false),
		"one byte a letter":     []byte(strings.ReplaceAll(table, "°", "\xb0")),
		"lines of Windows":      []byte(strings.ReplaceAll(table, "\n", "\r\n")),
	} {
		f, err := loggerfile.Read(data, loggerfile.Options{Zone: time.UTC})
		if err != nil || len(f.Channels) != 1 || len(f.Channels[0].Readings) != 2 {
			t.Errorf("%s: %v, %+v", name, err, f)
			continue
		}
		if c := f.Channels[0]; c.Name != "Walk-in (°F)" || c.Unit != loggerfile.Fahrenheit || c.Readings[1].Raw != "38.3" {
			t.Errorf("%s: %+v", name, c)
		}
	}
	for name, data := range map[string][]byte{"a picture": []byte("\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR"), "a packed file": []byte("PK\x03\x04\x14\x00\x06\x00")} {
		_, err := loggerfile.Read(data, loggerfile.Options{})
		if bad := (*loggerfile.FormatError)(nil); !errors.As(err, &bad) || bad.Problem != "it is not text" {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// A battery that dies in the middle of cooling, and a clock that begins anew in 2000 when it is changed: the gap is flagged, the clock is, and
// every reading is there.
func TestABatteryThatDies(t *testing.T) {
	text := "timestamp,temp F\n"
	at := time.Date(2026, 12, 1, 14, 0, 0, 0, time.UTC)
	line := func(at time.Time, temp float64) {
		text += fmt.Sprintf("%s,%.1f\n", at.Format("2006-01-02 15:04:05"), temp)
	}
	for m := range 20 {
		line(at.Add(time.Duration(m)*time.Minute), 135-float64(m))
	}
	line(at.Add(95*time.Minute), 80)
	line(at.Add(96*time.Minute), 79.5)
	line(time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC), 79)
	line(time.Date(2000, 1, 1, 0, 1, 0, 0, time.UTC), 78)
	f, err := loggerfile.Read([]byte(text), loggerfile.Options{Zone: time.UTC})
	if err != nil {
		t.Fatal(err)
	}
	var odd []string
	for _, r := range f.Channels[0].Readings {
		if len(r.Flags) > 0 {
			odd = append(odd, fmt.Sprint(r.Line, r.Flags))
		}
	}
	if got, want := strings.Join(odd, " "), "22 [after-gap] 24 [clock-went-back] 25 [out-of-order]"; got != want || len(f.Channels[0].Readings) != 24 {
		t.Errorf("%s of %d, want %s", got, len(f.Channels[0].Readings), want)
	}
}

// A logger that was switched to the other unit half way: the step is flagged in both directions, and nothing is put right.
func TestAChangeOfUnit(t *testing.T) {
	f, err := loggerfile.Read([]byte("timestamp,temp\n2026-12-01 10:00,38\n2026-12-01 10:01,38\n2026-12-01 10:02,100\n2026-12-01 10:03,100\n2026-12-01 10:04,38\n"), loggerfile.Options{Zone: time.UTC, Unit: loggerfile.Celsius})
	if err != nil {
		t.Fatal(err)
	}
	want := "2 12-01T10:00:00 38.00\n3 12-01T10:01:00 38.00\n4 12-01T10:02:00 100.00 jump\n5 12-01T10:03:00 100.00\n6 12-01T10:04:00 38.00 jump"
	if got := show(f); got != want {
		t.Errorf("%s\nwant\n%s", got, want)
	}
}

// Readings that are posted one by one are flagged as those of a file are.
func TestNeighboursOneByOne(t *testing.T) {
	at := func(m int) time.Time { return time.Date(2026, 12, 1, 10, m, 0, 0, time.UTC) }
	n := loggerfile.Neighbours{TypicalS: 60, Received: at(30)}
	for _, c := range []struct {
		at   time.Time
		temp float64
		want string
	}{
		{at(0), 38, "[]"}, {at(1), 38, "[]"}, {at(1), 38, "[twice]"}, {at(9), 38, "[after-gap]"}, {at(5), 38, "[out-of-order]"}, {at(5), 38, "[twice out-of-order]"}, {at(10), 100, "[jump]"},
		{at(11), 999, "[impossible]"}, {at(31), 5, "[future after-gap]"},
	} {
		x := loggerfile.Reading{At: c.at, TempC: c.temp}
		n.Flag(&x)
		if got := fmt.Sprint(x.Flags); got != c.want {
			t.Errorf("%s, %g: %s, want %s", c.at.Format("15:04"), c.temp, got, c.want)
		}
	}
}

// How far it is, is told, and never beyond the end.
func TestProgress(t *testing.T) {
	text := "timestamp,temp C\n" + strings.Repeat("2026-12-01 10:00:00,5\n", 25_000)
	var told []int
	_, err := loggerfile.Read([]byte(text), loggerfile.Options{Zone: time.UTC, Progress: func(done, of int) {
		if done > of {
			t.Errorf("%d of %d", done, of)
		}
		told = append(told, done)
	}})
	if err != nil || fmt.Sprint(told) != "[0 10000 20000]" {
		t.Errorf("%v (%v)", told, err)
	}
}

func TestATemperatureAlone(t *testing.T) {
	for _, c := range []struct {
		raw  string
		unit loggerfile.Unit
		want float64
		flag loggerfile.Flag
	}{
		{"41", loggerfile.Fahrenheit, 5, ""}, {"5", loggerfile.Celsius, 5, ""}, {" 41 °F ", "", 5, ""}, {"41F", loggerfile.Celsius, 5, ""}, {"5,5 C", "", 5.5, ""}, {"−18 °C", "", -18, ""},
		{"41", "", 0, loggerfile.NoUnit}, {"-18", "", 0, loggerfile.NoUnit}, {"ERR", loggerfile.Celsius, 0, loggerfile.NoNumber}, {"", loggerfile.Celsius, 0, loggerfile.NoNumber}, {"3.6 V", loggerfile.Celsius, 0, loggerfile.NoNumber},
		{"NaN", loggerfile.Celsius, 0, loggerfile.NoNumber}, {"Inf", loggerfile.Celsius, 0, loggerfile.NoNumber}, {"1e5", loggerfile.Celsius, 0, loggerfile.NoNumber},
	} {
		got, flag := loggerfile.ReadTemp(c.raw, c.unit)
		if flag != c.flag || got-c.want > 1e-9 || c.want-got > 1e-9 {
			t.Errorf("%q in %q: %g %q, want %g %q", c.raw, c.unit, got, flag, c.want, c.flag)
		}
	}
}
