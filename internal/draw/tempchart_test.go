package draw

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"time"
	_ "time/tzdata"

	"pgregory.net/rapid"

	"kettlefrost/internal/unit"
)

func inZone(t testing.TB, name string) *time.Location {
	t.Helper()
	z, err := time.LoadLocation(name)
	if err != nil {
		t.Fatal(err)
	}
	return z
}

// walkInDay is a day of a walk-in read every minute: a door left open at 14:00, a battery that died from 03:00 to 05:30, one reading of another
// unit, one of text, one that no cooler can show. Invented.
func walkInDay(t testing.TB) TempChart {
	var points []Read
	for m := range 24 * 60 {
		if m >= 180 && m < 330 {
			continue
		}
		p := Read{TimeS: float64(m) * 60, TempC: 3 + math.Sin(float64(m)/12)/2}
		if since := float64(m - 840); since > 0 {
			p.TempC += 6 * since / 20 * math.Exp(1-since/20)
		}
		switch m {
		case 330:
			p.Flags = []string{"after a gap"}
		case 600:
			p.TempC, p.Flags = 37.4, []string{"a jump"}
			p.Apart = true
		case 700:
			p.Blank, p.Flags = true, []string{"no number"}
		case 1200:
			p.TempC, p.Flags, p.Apart = 3000, []string{"impossible"}, true
		}
		points = append(points, p)
	}
	return TempChart{Title: "Walk-in on 26 November", Desc: "One probe.", Units: unit.US, Until: 24 * hourS,
		Zero:   time.Date(2026, 11, 26, 0, 0, 0, 0, inZone(t, "America/New_York")),
		Traces: []Trace{{Name: "walk-in", Points: points}},
		Limits: []TempLimit{{TempC: unit.TempF(41).C()}}}
}

// panCooling is a pan read every ten minutes by hand and by a probe until now, with the two limits of FDA Food Code 3-501.14, and a forecast.
func panCooling(t testing.TB) TempChart {
	var probe, hand []Read
	var low, high []At
	temp := func(at, slower float64) float64 { return 3 + 54.2*math.Exp(-at/hourS/slower) }
	for at := 0.0; at <= 2.5*hourS; at += minuteS {
		probe = append(probe, Read{TimeS: at, TempC: temp(at, 2.2)})
	}
	for at := 0.0; at <= 2.5*hourS; at += 1800 {
		hand = append(hand, Read{TimeS: at, TempC: temp(at, 2.2) + 1})
	}
	for at := 2.5 * hourS; at <= 7*hourS; at += 600 {
		low, high = append(low, At{at, temp(at, 2)}), append(high, At{at, temp(at, 2.4)})
	}
	now := 2.5 * hourS
	return TempChart{Title: "Cooling a pan", Units: unit.US, Zero: time.Date(2026, 11, 26, 13, 20, 0, 0, inZone(t, "America/New_York")), Now: &now,
		Traces:  []Trace{{Name: "probe, middle", Points: probe}, {Name: "by hand", Points: hand}},
		Bands:   []Band{{Name: "if nothing is done", Low: low, High: high}},
		Limits:  []TempLimit{{TempC: unit.TempF(70).C(), UntilS: 2 * hourS, Gate: true}, {TempC: unit.TempF(41).C(), UntilS: 6 * hourS, Gate: true}},
		Stages:  []TempStage{{"first stage", 0, 2 * hourS}, {"second stage", 2 * hourS, 6 * hourS}},
		Marks:   []TempMark{{TimeS: 2 * hourS, TempC: temp(2*hourS, 2.2), Text: "still over 70 °F", Sign: Missed}},
		Moments: []TempMoment{{TimeS: 2.1 * hourS, Text: "stirred"}}}
}

func TestTempChartGolden(t *testing.T) {
	golden(t, "testdata/tempday.svg", SVG(walkInDay(t).Picture()))
	golden(t, "testdata/tempcooling.svg", SVG(panCooling(t).Picture()))
}

// What is in the picture is said: flags with their number, what was not read, limits, and where the extremes are. The highest is worked out by
// hand: 6 °C over its mean at 14:20, when the wave stands at sin(860/12) (radians) = 0.533 halved.
func TestTempChartSaysWhatItShows(t *testing.T) {
	p := walkInDay(t).Picture()
	d := read(t, SVG(p))
	for _, want := range []string{"4 flagged:", "a jump 1", "after a gap 1", "impossible 1", "no number 1", "2 readings beyond this scale: up to 5432.0 °F (3000.0 °C)", "1 reading without a temperature", "nothing read for 2 h 31 min, from 02:59 to 05:30",
		"41 °F (5 °C) or colder", "°F", "°C", "41", "5", "12:00", "walk-in"} {
		if !slices.ContainsFunc(d.texts, func(s string) bool { return strings.Contains(s, want) }) {
			t.Errorf("no %q among the texts %q", want, d.texts)
		}
	}
	if d.smallest < 16 {
		t.Errorf("type of %g, want 16 or more", d.smallest)
	}
	for _, want := range []string{"walk-in: 1290 readings from 00:00 to 23:59, lowest 36.5 °F", "highest 5432.0 °F (3000.0 °C) at 20:00", "1 without a temperature"} {
		if !strings.Contains(p.Desc, want) {
			t.Errorf("no %q in %q", want, p.Desc)
		}
	}
	if !contains(d.titles, "nothing read from 02:59 to 05:30") || !contains(d.titles, "flagged: 5432.0 °F (3000.0 °C) at 20:00") {
		t.Errorf("titles %q", d.titles)
	}
}

// A day of a reading a minute stays small, and a year does too.
func TestTempChartsStaySmall(t *testing.T) {
	day := walkInDay(t)
	year := day
	year.Until = 365 * dayS
	var points []Read
	for m := range 365 * 24 * 60 {
		points = append(points, Read{TimeS: float64(m) * 60, TempC: -18 + 3*math.Sin(float64(m)/30)})
	}
	year.Traces = []Trace{{Name: "freezer", Points: points}}
	for name, c := range map[string]TempChart{"day": day, "year": year} {
		if n := len(SVG(c.Picture())); n > 40_000 {
			t.Errorf("%s: %d bytes", name, n)
		}
	}
}

// drawnTemps are the temperatures of all lines' points, as far as a tenth of a drawing unit shows them.
func drawnTemps(h tempLayout) reach {
	r := noReach()
	for _, pieces := range h.lines {
		for _, piece := range pieces {
			for _, p := range piece {
				r.add(h.highC - (p.Y-h.plot.Y)/h.plot.H*(h.highC-h.lowC))
			}
		}
	}
	return r
}

// Whatever is read: the highest and the lowest stay, nothing is drawn outside the picture, no line runs over a gap.
func TestTempChartProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := TempChart{Title: "t", Units: rapid.SampledFrom([]unit.System{unit.US, unit.Metric}).Draw(t, "units")}
		if rapid.Bool().Draw(t, "clocked") {
			c.Zero = time.Date(2026, 10, 31, 7, 3, 9, 0, time.FixedZone("x", rapid.IntRange(-12*4, 14*4).Draw(t, "zone")*900))
		}
		real := noReach()
		for i := range rapid.IntRange(1, 3).Draw(t, "traces") {
			trace := Trace{Name: fmt.Sprint("probe ", i), GapS: 600}
			at := 0.0
			for range rapid.IntRange(0, 100).Draw(t, "readings") {
				at += rapid.SampledFrom([]float64{0, 1, 60, 60, 60, 599, 601, 90_000}).Draw(t, "step")
				p := Read{TimeS: at, TempC: rapid.Float64Range(-60, 130).Draw(t, "temp")}
				switch rapid.IntRange(0, 20).Draw(t, "odd") {
				case 0:
					p.Blank = true
				case 1:
					p.Apart, p.Flags, p.TempC = true, []string{"impossible"}, rapid.SampledFrom([]float64{-9000, 3000, 20}).Draw(t, "apart")
				case 2:
					p.Flags = []string{"twice"}
				}
				trace.Points = append(trace.Points, p)
				if !p.Blank && !p.Apart {
					real.add(p.TempC)
				}
			}
			c.Traces = append(c.Traces, trace)
		}
		inBox(t, c.Picture())
		finite(t, SVG(c.Picture()))
		h := newTempLayout(c.cleaned())
		if real.empty() {
			return
		}
		if got := drawnTemps(h); math.Abs(got.low-real.low) > 1e-6 || math.Abs(got.high-real.high) > 1e-6 {
			t.Fatalf("drawn from %g to %g, read from %g to %g", got.low, got.high, real.low, real.high)
		}
		for i, trace := range h.traces {
			for _, piece := range trace.pieces {
				for n := 1; n < len(piece); n++ {
					if piece[n].TimeS-piece[n-1].TimeS > 600 {
						t.Fatalf("trace %d has a line over %g s", i, piece[n].TimeS-piece[n-1].TimeS)
					}
				}
			}
		}
	})
}

// New York puts its clocks back at 02:00 on 1 November 2026 and forward at 02:00 on 8 March: those days have 25 and 23 hours, and ticks stand at
// round hours of the clock on the wall.
func TestTicksFollowTheClockOnTheWall(t *testing.T) {
	newYork := inZone(t, "America/New_York")
	for _, test := range []struct {
		month       time.Month
		day         int
		hours       float64
		want, clock string // of 6 hours after midnight
	}{
		{11, 1, 25, "00:00@0 06:00@7 12:00@13 18:00@19 00:00@25", "05:00 EST"},
		{3, 8, 23, "00:00@0 06:00@5 12:00@11 18:00@17 00:00@23", "07:00 EDT"},
		{11, 26, 24, "00:00@0 06:00@6 12:00@12 18:00@18 00:00@24", "06:00"},
	} {
		c := TempChart{Zero: time.Date(2026, test.month, test.day, 0, 0, 0, 0, newYork), Until: test.hours * hourS}
		var got []string
		for _, k := range c.clockTicks(5) {
			got = append(got, fmt.Sprintf("%s@%g", k.text, k.at/hourS))
		}
		if text := strings.Join(got, " "); text != test.want {
			t.Errorf("%v %d: %s, want %s", test.month, test.day, text, test.want)
		}
		if got := c.clock(6 * hourS); got != test.clock {
			t.Errorf("%v %d: six hours after midnight is %s, want %s", test.month, test.day, got, test.clock)
		}
	}
}

// Flagged readings that lie on each other are one sign; those apart are each one; beyond the scale the sign stands at the edge.
func TestSignsOfFlags(t *testing.T) {
	c := TempChart{Until: hourS, Traces: []Trace{{Name: "p", Points: []Read{{TimeS: 0, TempC: 4}, {TimeS: 60, TempC: 4, Flags: []string{"twice"}}, {TimeS: 61, TempC: 4, Flags: []string{"twice"}},
		{TimeS: 1800, TempC: 5, Flags: []string{"future"}}, {TimeS: 2400, TempC: 900, Apart: true}, {TimeS: 3000, TempC: math.NaN(), Blank: true}}}}}
	h := newTempLayout(c.cleaned())
	var ways []float64
	for _, s := range h.signs {
		ways = append(ways, s.way)
	}
	if !slices.Equal(ways, []float64{0, 0, -1, 0}) || !h.signs[3].blank || h.highC > 10 {
		t.Errorf("%+v, scale up to %g", h.signs, h.highC)
	}
	if got := h.traces[0].flagWords(); got != "4 flagged: future 1, odd 1, twice 2" {
		t.Errorf("%q", got)
	}
}

// After now nothing is missing; before it is.
func TestNothingIsMissingLater(t *testing.T) {
	now := 3 * hourS
	c := TempChart{Until: 24 * hourS, Now: &now, Traces: []Trace{{GapS: 600, Points: []Read{{TimeS: hourS, TempC: 4}, {TimeS: hourS + 60, TempC: 4}}}}}
	if got := c.cleaned().absent(); !slices.Equal(got, []reach{{0, hourS}, {hourS + 60, now}}) {
		t.Errorf("%v", got)
	}
	c.Traces[0].Points = append(c.Traces[0].Points, Read{TimeS: 5 * hourS, TempC: 4, Apart: true}) // the clock of the probe is ahead
	if got := c.cleaned().absent(); !slices.Equal(got, []reach{{0, hourS}, {hourS + 60, now}}) {
		t.Errorf("with one from later: %v", got)
	}
}

func TestATempChartOfNothing(t *testing.T) {
	p := TempChart{Title: "t", Traces: []Trace{{Name: "walk-in", Points: []Read{{Blank: true}, {TempC: math.Inf(1)}}}}, Limits: []TempLimit{{TempC: 5}}}.Picture()
	if d := read(t, SVG(p)); !slices.Equal(d.texts, []string{"No readings to show."}) || !strings.Contains(p.Desc, "walk-in: 2 readings, none with a temperature.") {
		t.Errorf("texts %q, %q", d.texts, p.Desc)
	}
}

// The table has what was read and nothing between: 2 h 31 min without a reading are rows of none.
func TestTheTableOfATempChart(t *testing.T) {
	table := walkInDay(t).Table()
	if want := []string{"from", "walk-in, lowest", "walk-in, highest", "walk-in, readings", "note"}; !slices.Equal(table.Head, want) || len(table.Rows) != 24 {
		t.Fatalf("%q, %d rows", table.Head, len(table.Rows))
	}
	for hour, want := range map[int][]string{4: {"04:00", none, none, "0", ""}, 20: {"20:00", "36.5 °F", "5432.0 °F", "60", "1 marked as odd"}} {
		if !slices.Equal(table.Rows[hour], want) {
			t.Errorf("%q, want %q", table.Rows[hour], want)
		}
	}
}

func BenchmarkDayOfReadings(b *testing.B) {
	c := walkInDay(b)
	for b.Loop() {
		SVG(c.Picture())
	}
}
