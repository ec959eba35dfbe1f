package draw

import (
	"bytes"
	"encoding/xml"
	"errors"
	"flag"
	"fmt"
	"io"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

var update = flag.Bool("update", false, "write the golden file anew; look at it before you keep it")

func TestTimelineGolden(t *testing.T) {
	timetable, codes := day()
	golden(t, "testdata/timeline.svg", SVG(Stack("The day", "Who does what when.", 24, Timeline(timetable, codes, Everyone))))
	timetable, codes = dayUnderWay()
	golden(t, "testdata/under-way.svg", SVG(Stack("The day", "Who does what when.", 24, Timeline(timetable, codes, Everyone))))
	whole, ok := WholeDay(dayPlan(timetable))
	if !ok {
		t.Fatal("no picture of the whole day")
	}
	golden(t, "testdata/whole-day.svg", SVG(whole))
}

// drawing is what an SVG holds, read back by a parser that knows nothing of how it was written.
type drawing struct {
	titles, texts []string
	attrs         map[string]int
	smallest      float64 // type size
}

// read fails the test if data is not well-formed XML.
func read(t interface{ Fatalf(string, ...any) }, data []byte) drawing {
	d := drawing{attrs: map[string]int{}, smallest: 1e9}
	parser := xml.NewDecoder(bytes.NewReader(data))
	var in []string
	for {
		token, err := parser.Token()
		if errors.Is(err, io.EOF) {
			return d
		}
		if err != nil {
			t.Fatalf("not well-formed: %v in %.300s", err, data)
		}
		switch token := token.(type) {
		case xml.StartElement:
			in = append(in, token.Name.Local)
			for _, a := range token.Attr {
				d.attrs[a.Name.Local]++
				if a.Name.Local == "font-size" {
					size, err := strconv.ParseFloat(a.Value, 64)
					if err != nil {
						t.Fatalf("font-size %q", a.Value)
					}
					d.smallest = min(d.smallest, size)
				}
			}
		case xml.EndElement:
			in = in[:len(in)-1]
		case xml.CharData:
			switch {
			case len(in) == 0:
			case in[len(in)-1] == "title":
				d.titles = append(d.titles, string(token))
			case in[len(in)-1] == "text":
				d.texts = append(d.texts, string(token))
			}
		}
	}
}

func TestTimelineSaysWhatItShows(t *testing.T) {
	timetable, codes := day()
	d := read(t, SVG(Stack("The day", "", 24, Timeline(timetable, codes, Everyone))))
	for _, want := range []string{"A1", "Ada", "Bo", "07:00", "13:00"} {
		if !contains(d.texts, want) {
			t.Errorf("no %q among the texts %q", want, d.texts)
		}
	}
	for _, want := range []string{"A2, load 1 of 2, 07:45 to 08:45, critical", "Ada away 10:00 to 10:30", "B fill, 12:20 to 13:20"} {
		if !contains(d.titles, want) {
			t.Errorf("no %q among the titles %q", want, d.titles)
		}
	}
	if d.smallest < 16 {
		t.Errorf("type of %g, want 16 or more", d.smallest)
	}
}

func contains(all []string, want string) bool {
	for _, s := range all {
		if s == want {
			return true
		}
	}
	return false
}

// A strict content security policy refuses inline style, and scripts could hide in an attribute that runs.
func TestNoInlineStyle(t *testing.T) {
	timetable, codes := day()
	for _, data := range [][]byte{SVG(Timeline(timetable, codes, People)[0]), InlineSVG(Timeline(timetable, codes, People)[0], "p")} {
		for name := range read(t, data).attrs {
			if name == "style" || strings.HasPrefix(name, "on") || name == "href" {
				t.Errorf("the drawing has the attribute %s", name)
			}
		}
	}
}

func TestHostileTextIsText(t *testing.T) {
	timetable, codes := day()
	const hostile = "</text><script>alert(1)</script>\x00\x1b\ufffe & \" ' <!-- ]]>"
	timetable.Tasks[0].Label, timetable.Rows[0].Name = hostile, hostile
	data := SVG(Stack(hostile, hostile, 0, Timeline(timetable, NewCodes(nil), Everyone)))
	if bytes.Contains(data, []byte("<script")) {
		t.Error("the drawing has a script element")
	}
	d := read(t, data)
	if len(d.titles) == 0 || !strings.HasPrefix(d.titles[0], "</text><script>alert(1)</script>") {
		t.Errorf("the title reads %q, want the text as it was given", d.titles[:1])
	}
	read(t, InlineSVG(Timeline(timetable, codes, Everyone)[0], "p"))
}

func TestEmptyTimetableIsNoPicture(t *testing.T) {
	if got := Timeline(plan.Timetable{}, NewCodes(nil), Everyone); len(got) != 0 {
		t.Errorf("%d pictures of an empty timetable", len(got))
	}
	read(t, SVG(Stack("nothing", "", 10, nil)))
}

// A timetable of any size and any nonsense gives pictures that can be read, in the same way each time, and shows every bar that
// has a length.
func TestAnyTimetable(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		timetable, shown := anyTimetable(t)
		codes := NewCodes(anyDishes)
		data := SVG(Stack("day", "", 8, Timeline(timetable, codes, Everyone)))
		if again := SVG(Stack("day", "", 8, Timeline(timetable, codes, Everyone))); !bytes.Equal(data, again) {
			t.Fatalf("two drawings of one timetable differ")
		}
		whole, ok := WholeDay(plan.Plan{Dishes: anyDishes, Timetable: timetable})
		if d := read(t, SVG(whole)); ok && d.smallest < 16 {
			t.Fatalf("type of %g in the whole day", d.smallest)
		}
		titles := read(t, data).titles
		for _, want := range shown {
			if !contains(titles, want) {
				t.Fatalf("no bar %q among %q", want, titles)
			}
		}
	})
}

var anyDishes = []plan.Dish{{ID: "d0", Steps: []plan.Step{{ID: "s"}}}, {ID: "d1"}}

// anyTimetable also tells how its bars should be spoken.
func anyTimetable(t *rapid.T) (plan.Timetable, []string) {
	var timetable plan.Timetable
	var shown []string
	for i := range rapid.IntRange(0, 40).Draw(t, "tasks") {
		start := unit.Moment(rapid.IntRange(-600, 4000).Draw(t, "start"))
		end := start + unit.Moment(rapid.IntRange(1, 700).Draw(t, "minutes"))
		timetable.Tasks = append(timetable.Tasks, plan.Task{Dish: fmt.Sprintf("d%d", i%3), Step: "s", Label: rapid.String().Draw(t, "label"), Load: 1, Loads: 1,
			Kind: plan.Cook, Start: start, End: end, Slack: unit.Span(rapid.IntRange(-9, 700).Draw(t, "slack")) * unit.Minute, State: rapid.SampledFrom([]plan.TaskState{"", plan.Begun, plan.Done}).Draw(t, "state")})
		timetable.Moves = append(timetable.Moves, plan.Move{Task: rapid.IntRange(-1, 41).Draw(t, "moved"), Was: unit.Moment(rapid.IntRange(-600, 4000).Draw(t, "was"))})
		row := plan.Row{Name: rapid.String().Draw(t, "row"), Person: i%2 == 0, Bars: []plan.Bar{{Task: i, From: start, To: end}, {Task: 999, From: start, To: end}}}
		timetable.Rows = append(timetable.Rows, row)
		if i%3 < 2 {
			shown = append(shown, Spoken(timetable.Tasks[i], NewCodes(anyDishes), plan.Bar{Task: i, From: start, To: end}))
		}
	}
	return timetable, shown
}

// Bars that overlap are put below each other as long as there are lines.
func TestStagger(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var bars []plan.Bar
		for range rapid.IntRange(1, mostLines).Draw(t, "bars") {
			from := unit.Moment(rapid.IntRange(-60, 60).Draw(t, "from"))
			bars = append(bars, plan.Bar{From: from, To: from + unit.Moment(rapid.IntRange(1, 60).Draw(t, "long"))})
		}
		line, lines := stagger(bars)
		for i, a := range bars {
			if line[i] < 0 || line[i] >= lines {
				t.Fatalf("bar %d is on line %d of %d", i, line[i], lines)
			}
			for j, b := range bars[:i] {
				if line[i] == line[j] && a.From < b.To && b.From < a.To {
					t.Fatalf("bars %v and %v overlap on line %d", a, b, line[i])
				}
			}
		}
	})
}

func TestDishesDifferWithoutColour(t *testing.T) {
	seen := map[string]Pattern{}
	for _, p := range DishPatterns {
		shape := fmt.Sprint(tiles[p])
		if other, ok := seen[shape]; ok {
			t.Errorf("patterns %d and %d look alike", p, other)
		}
		seen[shape] = p
	}
}

func BenchmarkTimeline(b *testing.B) {
	timetable, codes := day()
	for range 200 {
		timetable.Rows[0].Bars = append(timetable.Rows[0].Bars, plan.Bar{Task: 0, From: 430, To: 440})
	}
	for b.Loop() {
		SVG(Stack("day", "", 8, Timeline(timetable, codes, Everyone)))
	}
}
