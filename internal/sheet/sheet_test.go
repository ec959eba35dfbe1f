package sheet

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode"

	"pgregory.net/rapid"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

var update = flag.Bool("update", false, "write the golden files anew")

// golden compares text with a file that somebody has read.
func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		if err := os.MkdirAll("testdata", 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("the sheet is not what %s holds; read the difference, then run with -update:\n%s", path, difference(string(want), got))
	}
}

// difference is the first line that differs.
func difference(want, got string) string {
	w, g := strings.Split(want, "\n"), strings.Split(got, "\n")
	for i := range min(len(w), len(g)) {
		if w[i] != g[i] {
			return "want " + w[i] + "\ngot  " + g[i]
		}
	}
	return "one is longer than the other"
}

func TestBarleySheet(t *testing.T) {
	golden(t, "barley-us.txt", Text(barleyPlan(), unit.US))
	golden(t, "barley-metric.txt", Text(barleyPlan(), unit.Metric))
}

func TestEmptyPlan(t *testing.T) {
	text := Text(plan.Plan{Kitchen: "Nobody's", Run: "nothing", Timetable: plan.Timetable{Status: "empty"}}, unit.Metric)
	for _, s := range Sections() {
		if !strings.Contains(text, "\n"+strings.ToUpper(string(s))) {
			t.Errorf("no section %s in:\n%s", s, text)
		}
	}
}

// A part of the sheet has that section alone, but never hides that there is a stop.
func TestOnlyOneSection(t *testing.T) {
	for _, s := range Sections() {
		text := Text(barleyPlan(), unit.US, s)
		for _, other := range Sections() {
			if got := strings.Contains(text, "\n"+strings.ToUpper(string(other))); got != (other == s) {
				t.Errorf("only %s: section %s is there: %v", s, other, got)
			}
		}
		if !strings.Contains(text, "DO NOT START LIKE THIS: 1 stop, 1 caution, 1 note.") {
			t.Errorf("only %s: the stop is not announced", s)
		}
	}
}

// Every word of a finding is on the sheet, whatever its severity.
func TestFindingsAreComplete(t *testing.T) {
	flat := strings.Join(strings.Fields(Text(barleyPlan(), unit.US, Findings)), " ")
	for _, f := range barleyPlan().Findings {
		parts := []string{strings.ToUpper(f.Severity.String()), f.Code, f.Where, f.Message, f.Source, f.Fix}
		for _, g := range f.Figures {
			parts = append(parts, g.Name+" "+g.Text)
		}
		for _, p := range parts {
			if !strings.Contains(flat, p) {
				t.Errorf("%q is missing in %q", p, flat)
			}
		}
	}
}

// How a timetable ended is said in words that do not promise more.
func TestProofOfTheDay(t *testing.T) {
	for _, c := range []struct {
		status string
		want   string
	}{
		{"optimal", "Proved: no timetable of these tasks is shorter."},
		{"feasible", "at most 30 min longer than the best"},
		{"infeasible", "contradict"},
		{"unknown", "No timetable was found."},
		{"a status to come", "No timetable was found."},
	} {
		p := barleyPlan()
		p.Timetable.Status = c.status
		flat := strings.Join(strings.Fields(Text(p, unit.US, Day)), " ")
		if !strings.Contains(flat, c.want) {
			t.Errorf("%s: %q is missing", c.status, c.want)
		}
		if strings.Contains(flat, "Proved") != (c.status == "optimal") {
			t.Errorf("%s: claims a proof it does not have, or hides it", c.status)
		}
	}
}

// Whatever a book calls its things, no line is wider than the page, none ends in a space, and no character commands the terminal.
func TestEveryLineFits(t *testing.T) {
	name := rapid.OneOf(rapid.StringN(0, 40, -1), rapid.StringMatching(`[a-z]{1,150}`), rapid.StringMatching(`([a-z]{1,9} ){1,30}`), rapid.Just("\x1b[31mred\a\u202e"))
	rapid.Check(t, func(t *rapid.T) {
		p := barleyPlan()
		for _, s := range []*string{
			&p.Kitchen, &p.Note, &p.Run, &p.Day, &p.Findings[0].Where, &p.Findings[0].Message, &p.Findings[1].Code, &p.Dishes[0].Name, &p.Dishes[0].Steps[1].Do,
			&p.Dishes[0].Steps[1].In[0].Name, &p.Dishes[0].Steps[1].In[2].StandIn, &p.Dishes[0].Steps[1].Equipment, &p.Timetable.Tasks[1].Label, &p.Timetable.Tasks[1].Dish,
			&p.Timetable.Tasks[1].On[0], &p.Timetable.Tasks[1].People[1], &p.Timetable.Rows[0].Name, &p.Chill[0].Name, &p.Chill[0].Options[0].Name,
			&p.Chill[0].Options[0].Why, &p.Chill[0].Options[0].Notes[0], &p.Chill[0].Options[0].Fits[0], &p.Fill[0].Name, &p.Fill[0].Bag, &p.Fill[0].Proof, &p.Freeze.Packs[0].Name, &p.Freeze.Packs[0].Lies, &p.Freeze.Schedule.Remedies[0], &p.Freeze.Schedule.Entries[0].Freezer, &p.Cards[0].Name, &p.Cards[0].Lines[0].Text, &p.Cards[0].Missing[0], &p.Freeze.Freezers[0].Name,
			&p.Buy.Lines[0].Name, &p.Buy.Lines[0].Storage, &p.Buy.Lines[0].Packs[0].Name, &p.Buy.Lines[1].Missing, &p.Cost[0].Name, &p.Cost[0].Missing[0],
			&p.Cost[0].Ingredients[0].Name, &p.Labels[0].Name, &p.Labels[0].Statement, &p.Labels[0].Missing[0], &p.Labels[0].Cautions[0],
		} {
			*s = name.Draw(t, "name")
		}
		for line := range strings.Lines(Text(p, unit.System(rapid.IntRange(0, 1).Draw(t, "units")))) {
			line = strings.TrimSuffix(line, "\n")
			if columns(line) > pageWidth {
				t.Fatalf("%d columns: %q", columns(line), line)
			}
			if strings.HasSuffix(line, " ") {
				t.Fatalf("ends in a space: %q", line)
			}
			if i := strings.IndexFunc(line, unicode.IsControl); i >= 0 {
				t.Fatalf("control character at %d: %q", i, line)
			}
		}
	})
}

// Wrapping loses no letter and keeps to its width.
func TestWrapLosesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text, most := rapid.String().Draw(t, "text"), rapid.IntRange(1, 60).Draw(t, "most")
		lines := wrap(text, most)
		for _, l := range lines {
			if columns(l) > most {
				t.Fatalf("%q is wider than %d", l, most)
			}
		}
		bare := func(s string) string { return strings.Join(strings.Fields(s), "") }
		if got, want := bare(strings.Join(lines, " ")), bare(clean(text)); got != want {
			t.Fatalf("got %q, want %q", got, want)
		}
	})
}

func TestTally(t *testing.T) {
	for _, c := range []struct {
		found finding.List
		want  string
	}{
		{nil, "Findings: 0 stops, 0 cautions, 0 notes."},
		{finding.List{{Severity: finding.Caution}}, "Findings: 0 stops, 1 caution, 0 notes."},
		{finding.List{{Severity: finding.Stop}, {Severity: finding.Stop}}, "DO NOT START LIKE THIS: 2 stops, 0 cautions, 0 notes."},
	} {
		if got := tally(c.found); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}

// Without a timetable nobody's hours are known, and the sheet must not call the rest the cost.
func TestCostWithoutTimetableSaysSo(t *testing.T) {
	p := barleyPlan()
	p.Timetable = plan.Timetable{Status: "unknown"}
	for _, s := range []Section{Summary, Cost} {
		if !strings.Contains(Text(p, unit.US, s), "without labour as there is no timetable") {
			t.Errorf("%s: labour seems to be counted", s)
		}
		if strings.Contains(Text(barleyPlan(), unit.US, s), "without labour") {
			t.Errorf("%s: labour is counted and seems not to be", s)
		}
	}
}
