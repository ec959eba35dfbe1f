package draw

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"kettlefrost/internal/unit"
)

// stirredPot cools by Newton's law from 135 °F in a bath at 0 °C: 600.4 kJ/K and 1.318 m² are those of the reference pot of 40 US gal
// (0.57 m wide, filled 0.593 m deep, 1030 kg/m³, 3850 J/kg·K).
func stirredPot(u, untilS float64) []At {
	var points []At
	for t := 0.0; t <= untilS; t += 60 {
		points = append(points, At{t, 57.2 * math.Exp(-u*1.318/600400*t)})
	}
	return points
}

// foodCode is the two limits of 135 °F to 70 °F within 2 h and to 41 °F within 6 h in all (FDA Food Code 3-501.14).
func foodCode() []Limit {
	return []Limit{{TempC: unit.TempF(70).C(), ByS: 2 * hourS}, {TempC: unit.TempF(41).C(), ByS: 6 * hourS}}
}

func potInIce() Curves {
	return Curves{Title: "A pot in ice", Desc: "A stirred pot of 40 gal.", Units: unit.US, Limits: foodCode(),
		Lines: []Line{{Name: "core", Points: stirredPot(100, 4*hourS)}, {Name: "ice water", Points: []At{{0, 0}, {4 * hourS, 0}}, Kind: Medium}},
		Band:  Band{Name: "if the film is 30 % better or worse", Low: stirredPot(130, 4*hourS), High: stirredPot(70, 4*hourS)},
		Marks: []Mark{{TimeS: hourS, TempC: 57.2 * math.Exp(-100*1.318/600400*hourS), Text: "after 1 h"}}}
}

// golden compares a drawing with a file that somebody has looked at.
func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	if *update {
		if err := os.WriteFile(name, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("the drawing differs from %s; run with -update, look at it and keep it if it is right", name)
	}
}

func TestCurvesGolden(t *testing.T) { golden(t, "testdata/curves.svg", SVG(potInIce().Picture())) }

// 57.2 to 21.1 °C takes 75.7 min and to 5 °C 185 min: the table of pots in ice baths at 100 W/m²K in the project's reference on heat
// (derived there by hand from Newton's law).
func TestCurvesSayWhatTheyShow(t *testing.T) {
	p := potInIce().Picture()
	d := read(t, SVG(p))
	for _, want := range []string{"°F", "°C", "70", "41", "21", "5", "1 h", "4 h", "core", "ice water", "after 1 h", "70 °F by 2 h", "41 °F by 6 h",
		"70 °F by 2 h: reached at 1 h 16 min", "41 °F by 6 h: reached at 3 h 5 min", "if the film is 30 % better or worse"} {
		if !contains(d.texts, want) {
			t.Errorf("no %q among the texts %q", want, d.texts)
		}
	}
	if d.smallest < 16 {
		t.Errorf("type of %g, want 16 or more", d.smallest)
	}
	const want = "A stirred pot of 40 gal. core: 135 °F at 0, 36 °F at 4 h."
	if !strings.HasPrefix(p.Desc, want) || !strings.HasSuffix(p.Desc, "41 °F by 6 h: reached at 3 h 5 min.") {
		t.Errorf("the description is %q", p.Desc)
	}
}

func TestTheReadersScaleIsAtTheLeft(t *testing.T) {
	for units, want := range map[unit.System][2]string{unit.US: {"70", "21"}, unit.Metric: {"21", "70"}} {
		c := potInIce()
		c.Units = units
		p := c.Picture()
		where := map[string]float64{}
		p.Draw(seen{text: func(at Point, text string, _ Type) { where[text] = at.X }})
		if !(where[want[0]] < p.Width/4 && where[want[1]] > p.Width*3/4) || where[want[0]] == 0 {
			t.Errorf("%v: %s stands at %g and %s at %g of %g", units, want[0], where[want[0]], want[1], where[want[1]], p.Width)
		}
	}
}

func TestVerdicts(t *testing.T) {
	line := func(points ...At) []At { return points }
	cooling := line(At{0, 60}, At{2 * hourS, 20}, At{4 * hourS, 0}) // 20 °C an hour, then 10 °C an hour
	for _, test := range []struct {
		name    string
		points  []At
		limit   Limit
		warming bool
		in      bool
		words   string
		at      At
	}{
		{"in time", cooling, Limit{TempC: 40, ByS: 2 * hourS}, false, true, "reached at 1 h", At{hourS, 40}},
		{"on the minute", cooling, Limit{TempC: 20, ByS: 2 * hourS}, false, true, "reached at 2 h", At{2 * hourS, 20}},
		{"late", cooling, Limit{TempC: 10, ByS: 2 * hourS}, false, false, "reached at 3 h, 1 h late", At{2 * hourS, 20}},
		{"not at all", cooling, Limit{TempC: -5, ByS: 3 * hourS}, false, false, "not reached in the 4 h shown", At{3 * hourS, 10}},
		{"not as far as it is shown", cooling, Limit{TempC: -5, ByS: 9 * hourS}, false, false, "not reached in the 4 h shown", At{4 * hourS, 0}},
		{"at some time", cooling, Limit{TempC: 10}, false, true, "reached at 3 h", At{3 * hourS, 10}},
		{"before it began", cooling, Limit{TempC: 80, ByS: hourS}, false, true, "reached from the start", At{0, 60}},
		{"begun too late", line(At{3 * hourS, 60}, At{4 * hourS, 0}), Limit{TempC: 30, ByS: hourS}, false, false, "reached at 3 h 30 min, late", At{3 * hourS, 60}},
		{"warming", line(At{0, -18}, At{20 * minuteS, 82}), Limit{TempC: 74}, true, true, "reached at 18 min", At{18.4 * minuteS, 74}},
		{"not warm enough", line(At{0, -18}, At{20 * minuteS, 72}), Limit{TempC: 74}, true, false, "not reached in the 20 min shown", At{20 * minuteS, 72}},
		{"points in no order", line(At{2 * hourS, 20}, At{0, 60}), Limit{TempC: 40, ByS: 2 * hourS}, false, true, "reached at 1 h", At{hourS, 40}},
	} {
		all := Curves{Lines: []Line{{Name: "core", Points: test.points}, {Points: cooling, Kind: Mean}}, Limits: []Limit{test.limit}, Warming: test.warming}.Verdicts()
		if len(all) != 1 {
			t.Fatalf("%s: %d verdicts, want one, of the core", test.name, len(all))
		}
		v := all[0]
		if v.InTime != test.in || v.Words != test.words || math.Abs(v.TimeS-test.at.TimeS) > 1e-6 || math.Abs(v.TempC-test.at.TempC) > 1e-9 {
			t.Errorf("%s: %+v, want %v, %q at %v", test.name, v, test.in, test.words, test.at)
		}
	}
}

// A limit that is met has a ring, one that is not a cross: two strokes and no ring.
func TestVerdictsDifferInShape(t *testing.T) {
	count := func(u float64) (rings, crosses int) {
		c := Curves{Lines: []Line{{Name: "core", Points: stirredPot(u, 6*hourS)}}, Limits: foodCode()[:1]}
		c.Picture().Draw(seen{
			rect: func(b Box, s Style) {
				if s.Round > 0 && s.Stroke == Ink {
					rings++
				}
			},
			line: func(from, to Point, s Style) {
				if from.X != to.X && from.Y != to.Y {
					crosses++
				}
			},
		})
		return rings, crosses
	}
	if rings, crosses := count(100); rings != 2 || crosses != 0 { // in the chart and beneath
		t.Errorf("in time: %d rings and %d strokes, want 2 and none", rings, crosses)
	}
	if rings, crosses := count(20); rings != 0 || crosses != 4 {
		t.Errorf("late: %d rings and %d strokes, want none and 4", rings, crosses)
	}
}

// Three ways in one chart are told apart by shapes on the lines, since they are all drawn as cores.
func TestLinesOfOneKindHaveShapes(t *testing.T) {
	lines := []Line{{Kind: Core}, {Kind: Medium}, {Kind: Core}, {Kind: Core}}
	if got := shapesOf(lines); !slices.Equal(got, []int{0, -1, 1, 2}) {
		t.Errorf("shapes %v", got)
	}
	seen := map[string]bool{}
	for _, s := range shapes {
		if look := fmt.Sprint(s); seen[look] {
			t.Errorf("two shapes are %v", s)
		} else {
			seen[look] = true
		}
	}
	for i, a := range lineStyles {
		for _, b := range lineStyles[:i] {
			if a.Dash == b.Dash {
				t.Errorf("two kinds of line have the dash %d", a.Dash)
			}
		}
	}
}

// Beside each other on the axis stand 135, 70 and 41 °F, and no round figure so near that they could be mixed up.
func TestLimitsAreOnTheAxis(t *testing.T) {
	c := potInIce()
	c.Limits = append(c.Limits, Limit{TempC: unit.TempF(135).C()})
	var words []string
	for _, k := range newCurveChart(c.cleaned()).first {
		words = append(words, k.text)
	}
	for _, want := range []string{"135", "70", "41", "100"} {
		if !contains(words, want) {
			t.Errorf("no %s on the axis %q", want, words)
		}
	}
	if contains(words, "140") || contains(words, "40") {
		t.Errorf("140 or 40 stands beside a limit: %q", words)
	}
}

func TestEveryPointIsDropped(t *testing.T) {
	nan := math.NaN()
	for _, c := range []Curves{{Title: "t"}, {Limits: foodCode()}, {Lines: []Line{{Name: "core", Points: []At{{nan, 1}, {1, nan}, {math.Inf(1), 1}, {1, 1e300}}}}}} {
		p := c.Picture()
		if d := read(t, SVG(p)); !slices.Equal(d.texts, []string{"No temperatures to show."}) {
			t.Errorf("texts %q", d.texts)
		}
		if table := c.Table(); len(table.Rows) != 0 {
			t.Errorf("rows of nothing: %q", table.Rows)
		}
	}
}

func TestHostileNamesAreText(t *testing.T) {
	const hostile = "</text><script>alert(1)</script>\x00 & \" '"
	c := potInIce()
	c.Title, c.Desc, c.Band.Name, c.Lines[0].Name, c.Limits[0].Name, c.Marks[0].Text = hostile, hostile, hostile, hostile, hostile, hostile
	for _, data := range [][]byte{SVG(c.Picture()), InlineSVG(c.Picture(), "p")} {
		if bytes.Contains(data, []byte("<script")) {
			t.Error("the drawing has a script element")
		}
		for name := range read(t, data).attrs {
			if name == "style" || strings.HasPrefix(name, "on") || name == "href" {
				t.Errorf("the drawing has the attribute %s", name)
			}
		}
	}
}

// What finds no room in the chart is named beneath: nothing is left out.
func TestACrowdOfLinesIsNamed(t *testing.T) {
	var c Curves
	for i := range 14 {
		c.Lines = append(c.Lines, Line{Name: fmt.Sprintf("pan %d on the lowest rack", i), Points: stirredPot(100+float64(i)/4, 3*hourS)})
	}
	texts := read(t, SVG(c.Picture())).texts
	for _, l := range c.Lines {
		if !contains(texts, l.Name) {
			t.Errorf("no %q among %q", l.Name, texts)
		}
	}
	if h := newCurveChart(c.cleaned()); len(h.labels) == 14 || h.beneath.rows == 0 {
		t.Error("this chart has room for all names; it is no test")
	}
}

// A chart goes over a small kitchen's network many times a day; a simulation or a logger gives thousands of points.
func TestChartsAreSmall(t *testing.T) {
	c := potInIce()
	for i := range c.Lines {
		c.Lines[i].Points = nil
		for s := range 4 * 3600 * 4 {
			tremble := 0.3 * math.Sin(float64(s*s%977))
			c.Lines[i].Points = append(c.Lines[i].Points, At{float64(s) / 4, 57.2*math.Exp(-float64(i+1)*float64(s)/18000) + tremble})
		}
	}
	for name, c := range map[string]Curves{"smooth": potInIce(), "a trembling sensor": c} {
		if n := len(SVG(c.Picture())); n > 8<<10 {
			t.Errorf("%s: %d bytes, want 8 kB at most", name, n)
		}
	}
}

func TestTableOfCurves(t *testing.T) {
	table := potInIce().Table()
	if want := []string{"time", "core", "ice water", "if the film is 30 % better or worse, low", "if the film is 30 % better or worse, high", "note"}; !slices.Equal(table.Head, want) {
		t.Errorf("head %q", table.Head)
	}
	// 57.2·exp(−100·1.318/600400·3600) = 25.95 °C = 78.7 °F; with 130 and 70 W/m²K 68.9 and 91.2 °F. By hand.
	for _, want := range [][]string{{"0", "135 °F", "32 °F", "135 °F", "135 °F", ""}, {"1 h", "79 °F", "32 °F", "69 °F", "91 °F", "after 1 h"},
		{"1 h 16 min", "70 °F", "32 °F", "60 °F", "83 °F", "70 °F by 2 h: reached at 1 h 16 min"}, {"6 h", none, none, none, none, "limit: 41 °F by 6 h"}} {
		if !slices.ContainsFunc(table.Rows, func(row []string) bool { return slices.Equal(row, want) }) {
			t.Errorf("no row %q in %q", want, table.Rows)
		}
	}
}

// Each dash is written in its own way, and a line without one as before.
func TestDashesAreWritten(t *testing.T) {
	written := map[string]Dash{}
	for dash := Unbroken; dash < dashCount; dash++ {
		data := SVG(Picture{Draw: func(c Canvas) { c.Line(Point{}, Point{9, 0}, Style{Stroke: Ink, Width: 2, Dash: dash}) }})
		if got, want := read(t, data).attrs["stroke-dasharray"] > 0, dash != Unbroken; got != want {
			t.Errorf("dash %d: is written %v, want %v", dash, got, want)
		}
		if other, ok := written[string(data)]; ok {
			t.Errorf("dashes %d and %d look alike", dash, other)
		}
		written[string(data)] = dash
	}
}
