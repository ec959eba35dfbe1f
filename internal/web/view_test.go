package web

import (
	"bytes"
	"strings"
	"testing"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// leekBook has the steps of the made plan in the order in which its findings point at them.
var leekBook = kitchen.Book{Dishes: map[kitchen.DishID]kitchen.Dish{"leek": {Steps: []kitchen.Step{{ID: "sweat"}, {ID: "blend"}}}}}

func planPage(t *testing.T, p plan.Plan, units unit.System) string {
	t.Helper()
	var out bytes.Buffer
	if err := runTemplate.t.ExecuteTemplate(&out, "page", runPage{Name: p.Run, Plan: viewPlan(p, leekBook, reader{units: units, currency: "$"}, pictures{path: "/run/x"})}); err != nil {
		t.Fatal(err)
	}
	return strings.ReplaceAll(out.String(), "\u00a0", " ")
}

// inOrder fails if the texts do not stand on the page one after the other.
func inOrder(t *testing.T, page string, texts ...string) {
	t.Helper()
	at := 0
	for _, text := range texts {
		i := strings.Index(page[at:], text)
		if i < 0 {
			t.Errorf("%q does not follow; the page has it: %v", text, strings.Contains(page, text))
			return
		}
		at += i + len(text)
	}
}

func TestPlanPageIsInTheOrderACookNeeds(t *testing.T) {
	page := planPage(t, madePlan(), unit.US)
	inOrder(t, page, `id="findings"`, `class="head"`, `id="buy"`, `id="day"`, "By person", `id="underway"`, `id="dishes"`, `id="chill"`, `id="fill"`, `id="freeze"`, `id="cost"`, `id="labels"`)
	inOrder(t, page, "1 stop, 1 caution, 1 note", "■", "STOP", "no way of chilling", "9 h", "What to do:", "use pans", "the code", "▲", "CAUTION", "1 note")
}

func TestFindingsStandWhereACookActs(t *testing.T) {
	page := planPage(t, madePlan(), unit.US)
	chill := page[strings.Index(page, `id="chill"`):strings.Index(page, `id="fill"`)]
	inOrder(t, chill, "STOP", "no way of chilling")
	blend := page[strings.Index(page, `id="step-A2"`):strings.Index(page, `id="chill"`)]
	inOrder(t, blend, "CAUTION", "hot soup climbs in a jar", "fill it a third", "6 loads of 2 lb each")
	if sweat := page[strings.Index(page, `id="step-A1"`):strings.Index(page, `id="step-A2"`)]; strings.Contains(sweat, "CAUTION") {
		t.Error("the caution about blending stands at another step too")
	}
}

// 12 lb is 5.44 kg and 200 °F is 93 °C (definitions: 0.45359237 kg to the pound; 5/9 of what is above 32).
func TestBothUnits(t *testing.T) {
	us, metric := planPage(t, madePlan(), unit.US), planPage(t, madePlan(), unit.Metric)
	for page, texts := range map[string][]string{us: {"12 lb <small>(5.44 kg)</small>", "to 200 °F (93 °C), about 25 min"}, metric: {"5.44 kg <small>(12 lb)</small>", "to 93 °C (200 °F)"}} {
		for _, want := range texts {
			if !strings.Contains(page, want) {
				t.Errorf("no %q on the page", want)
			}
		}
	}
}

func TestWhatMustNotBeMissed(t *testing.T) {
	page := planPage(t, madePlan(), unit.US)
	for _, want := range []string{
		"at least $44.00", "some prices are not known", // a cost that is a lower bound
		"None of the kitchen's ways is predicted to be fast enough",
		"FDA Food Code 3-501.14", "Your local code decides",
		"DO NOT PRINT", "allergens of mace",
		"nobody sells it",
		"14 were asked for", "11 to 13, by how the yields turn out",
		"A shorter day may exist, but none under 10 h",
		"under $0.01", // never nothing for something
		"A time followed by +1 is on the next day", // the day ends at 00:10
		"Clostridium botulinum",
		"too few",
	} {
		if !strings.Contains(page, want) {
			t.Errorf("no %q on the page", want)
		}
	}
	if strings.Contains(page, "Do this:") {
		t.Error("the page tells to do something where no way of chilling is safe")
	}
	inOrder(t, page[strings.Index(page, `id="fill"`):], "6 pieces", "dumplings", "soup")                                     // pieces first
	inOrder(t, page[strings.Index(page, "Ways to chill"):], "pot in the walk-in", "9 h", "a box", "never", "pans", "–", "–") // not computed is not never
}

func TestNothingFoundIsNotSafe(t *testing.T) {
	p := madePlan()
	p.Findings = nil
	page := planPage(t, p, unit.US)
	if !strings.Contains(page, "The checks found nothing to report. They check what the book says; they do not see the kitchen.") {
		t.Error("the page does not say what no finding means")
	}
	for _, word := range []string{" safe ", "guaranteed", "all good"} {
		if strings.Contains(page, word) {
			t.Errorf("the page says %q, which no figure carries", word)
		}
	}
}

// Ada starts to sweat, has a break, blends one jar, looks after the leeks in one go of 4 minutes; her time off at the end of the
// day is no break.
func TestNextByPerson(t *testing.T) {
	turns := viewPlan(madePlan(), leekBook, reader{}, pictures{path: "/run/x"}).Day.Lists[0].Turns
	var got []string
	for _, turn := range turns {
		got = append(got, strings.TrimSpace(strings.Join([]string{turn.From, turn.For, turn.Code, turn.Label, turn.Load, turn.With}, "|")))
	}
	want := []string{"07:00|5 min|A1|Sweat the leeks until they are soft||", "07:10|15 min||away||", "08:00|10 min|A2|Blend|load 2 of 6|Bo", "08:20|4 min|A1|Sweat the leeks …||"}
	if strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

func TestEmptyPlan(t *testing.T) {
	page := planPage(t, plan.Plan{}, unit.Metric)
	for _, want := range []string{"Nothing to buy.", "There is no timetable.", "Nothing is cooked.", "Nothing hot has to be chilled.", "Nothing is filled.", "No labels."} {
		if !strings.Contains(page, want) {
			t.Errorf("no %q on the page of an empty plan", want)
		}
	}
}
