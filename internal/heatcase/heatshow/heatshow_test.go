package heatshow

import (
	"flag"
	"math"
	"os"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"kettlefrost/internal/draw"
	"kettlefrost/internal/heatcase"
	"kettlefrost/internal/unit"
)

var update = flag.Bool("update", false, "write the golden files again")

func answer(t *testing.T, p heatcase.Process, keys ...string) heatcase.Answer {
	t.Helper()
	c := heatcase.Example(p)
	for i := 0; i < len(keys); i += 2 {
		if err := c.Set(keys[i], keys[i+1]); err != nil {
			t.Fatalf("%s %q: %v", keys[i], keys[i+1], err)
		}
	}
	a, err := c.Answer()
	if err != nil {
		t.Fatal(err)
	}
	return a
}

var shown = []struct {
	file    string
	process heatcase.Process
	keys    []string
}{
	{"cool-pan", heatcase.Cool, nil},
	{"freeze-bag", heatcase.Freeze, []string{"units", "metric", "freezes-at", "-0.8 °C", "below", "cold-plate"}},
}

// fineness is how finely it was computed, which may change without anybody minding.
var fineness = regexp.MustCompile(`[0-9]+ cells,\s+[0-9]+ steps`)

// The layout of the text; its figures are tested where they are computed.
func TestText(t *testing.T) {
	for _, s := range shown {
		got := fineness.ReplaceAllString(Text(answer(t, s.process, s.keys...)), "N cells, N steps")
		golden(t, s.file, got)
	}
}

func golden(t *testing.T, file, got string) {
	t.Helper()
	name := "testdata/" + file + ".txt"
	if *update {
		if err := os.WriteFile(name, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("%s is not as it was; -update writes it again:\n%s", name, got)
	}
}

// Every text fits the page, says the time at once, and promises nothing.
func TestTextKeepsToThePage(t *testing.T) {
	promise := regexp.MustCompile(`(?i)\b(safe|fine|ok|okay|guaranteed)\b`)
	for _, keys := range [][]string{nil, {"pot", "22 in x 23 in"}, {"pot", "22 in x 23 in", "stir", "thick", "in", "ice-bath-stirred"}, {"below", "closed"}, {"open", "yes"}} {
		a := answer(t, heatcase.Cool, keys...)
		text := Text(a)
		lines := strings.Split(text, "\n")
		if !strings.Contains(strings.Join(lines[:3], "\n"), Time(a.Time.Usual)) {
			t.Errorf("%v: the first lines do not say %s:\n%s", keys, Time(a.Time.Usual), text)
		}
		for _, l := range lines {
			if utf8.RuneCountInString(l) > pageWidth || strings.TrimRight(l, " ") != l {
				t.Errorf("%v: line of %d: %q", keys, utf8.RuneCountInString(l), l)
			}
		}
		if word := promise.FindString(text); word != "" {
			t.Errorf("%v: %q promises what a prediction cannot", keys, word)
		}
	}
}

func TestFigures(t *testing.T) {
	for _, r := range []struct {
		x    float64
		want string
	}{{49923, "49900"}, {1000, "1000"}, {318.258, "318"}, {5.651, "5.65"}, {0.5, "0.5"}, {0, "0"}} {
		if got := figure(r.x); got != r.want {
			t.Errorf("%g is %s, want %s", r.x, got, r.want)
		}
	}
}

func TestCurves(t *testing.T) {
	a := answer(t, heatcase.Cool)
	c := Curves(a)
	if len(c.Lines) != 4 || c.Lines[0].Kind != draw.Core || len(c.Band.Low) < 2 || len(c.Band.High) < 2 || c.Warming {
		t.Fatalf("curves %+v", c)
	}
	// The clock of the limit runs from 135 °F (FDA Food Code 3-501.14(A)): 70 °F within 2 h and 41 °F within 6 h of that.
	begins := a.Marks[0].Usual.TimeS
	if len(c.Limits) != 2 || math.Abs(c.Limits[0].ByS-begins-7200) > 1e-6 || math.Abs(c.Limits[1].ByS-begins-21600) > 1e-6 || c.Limits[0].Name != "70 °F within 2 h of 135 °F" {
		t.Errorf("limits %+v, 135 °F at %g s", c.Limits, begins)
	}
	// What the picture says of the limits is what the answer says.
	for i, v := range c.Verdicts() {
		s := a.Verdict.Stages[i]
		if in := s.Usual.Reached && s.Usual.TimeS <= s.LimitS; v.InTime != in {
			t.Errorf("%s: the picture says %t, the answer %+v", s.Name, v.InTime, s.Usual)
		}
	}
	early := Curves(answer(t, heatcase.Cool, "from", "120 °F"))
	if early.Limits[0].ByS != 7200 || early.Limits[0].Name != "70 °F within 2 h" {
		t.Errorf("food that starts colder: %+v", early.Limits)
	}
	hot := Curves(answer(t, heatcase.Reheat))
	if !hot.Warming || len(hot.Limits) != 1 || math.Abs(hot.Limits[0].TempC-unit.TempF(165).C()) > 1e-6 {
		t.Errorf("reheating: %+v", hot.Limits)
	}
	stirred := Curves(answer(t, heatcase.Cool, "pot", "22 in x 23 in", "stir", "thin", "in", "ice-bath-still"))
	if len(stirred.Lines) != 2 {
		t.Errorf("a stirred pot has one temperature: %d lines", len(stirred.Lines))
	}
	for _, c := range []draw.Curves{c, hot, stirred} {
		if svg := string(draw.SVG(c.Picture())); !strings.Contains(svg, "<svg") || strings.Contains(svg, "NaN") {
			t.Errorf("%s is no picture", c.Title)
		}
	}
}
