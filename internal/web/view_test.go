package web

import (
	"context"
	"net/http"
	"strings"
	"testing"

	"kettlefrost/internal/draw"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// leekBook has the steps of the made plan in the order in which its findings point at them.
var leekBook = kitchen.Book{Dishes: map[kitchen.DishID]kitchen.Dish{"leek": {Steps: []kitchen.Step{{ID: "sweat"}, {ID: "blend"}}}}}

// house is one whose plan is laid out beforehand.
type house struct {
	shelf
	plan  plan.Plan
	units unit.System
}

func (h *house) Book() (kitchen.Book, finding.List) {
	book, found := h.shelf.Book()
	book.Kitchen.Units = h.units
	return book, found
}

func (h *house) Plan(context.Context, kitchen.Book, kitchen.Request) plan.Plan { return h.plan }

func (h *house) Seal(context.Context, kitchen.Book, kitchen.Request, []kitchen.Weighed) plan.Sealing {
	var s plan.Sealing
	for _, f := range h.plan.Fill {
		x := plan.SealPack{Pack: f.Pack, Name: f.Name, Count: f.Count, Label: f.Net, Target: f.Net}
		for _, e := range f.Each {
			x.Each = append(x.Each, plan.SealPart{Name: e.Name, Pieces: e.Pieces, Label: e.Mass, Target: e.Mass})
		}
		s.Packs = append(s.Packs, x)
	}
	return s
}

// partPage is the page of a run with that plan, as a browser gets it: its key is the end of the address.
func partPage(t *testing.T, p plan.Plan, units unit.System, key string) string {
	t.Helper()
	w := get(New(&house{plan: p, units: units, shelf: shelf{now: monthBefore()}}, Options{}), strings.TrimSuffix("/run/leek/"+key, "/"))
	if w.Code != http.StatusOK {
		t.Fatalf("%s: status %d", key, w.Code)
	}
	return strings.ReplaceAll(w.Body.String(), "\u00a0", " ")
}

// everyPage is all pages of a run, one after the other.
func everyPage(t *testing.T, p plan.Plan, units unit.System) string {
	t.Helper()
	all := ""
	for _, x := range parts {
		all += partPage(t, p, units, x.key)
	}
	return all
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

func TestARunAtAGlanceIsInTheOrderACookNeeds(t *testing.T) {
	page := partPage(t, madePlan(), unit.US, "")
	inOrder(t, page, `aria-label="Parts of the run"`, `id="targets"`, `class="head tight"`, `id="findings"`, `id="made"`, "First to do", `id="parts"`)
	inOrder(t, page, "1 stop, 1 caution, 1 note", "■", "STOP", "no way of chilling", "use pans", `href="/run/leek/chill"`, "▲", "CAUTION", "hot soup climbs", `href="/run/leek/cook"`, "All of it")
	inOrder(t, page, `id="parts"`, "1 stop, 1 caution, 1 note", "1 thing, $30.00", "07:00 to 00:10&#43;1, 1 person, 2 tasks", "1 dish, 2 steps", "1 caution", "no way fast enough for 1", "1 stop", "12 packs of 1 kind", "1 text; 1 must not be printed yet", "at least $44.00")
	inOrder(t, partPage(t, madePlan(), unit.US, "findings"), "1 stop, 1 caution, 1 note", "■", "STOP", "no way of chilling", "9 h", "What to do:", "use pans", "the code", "▲", "CAUTION", "1 note")
}

// Each page of a run marks where the cook is, leads to all others in the same order, and to the ones before and after it.
func TestTheWayBetweenTheParts(t *testing.T) {
	h := New(&house{plan: madePlan(), shelf: shelf{now: monthBefore()}}, Options{})
	const query = "?units=metric&finish=18%3A30&w.leek.soup=9+lb&person=ada"
	const kept = "?finish=18%3A30&amp;units=metric&amp;w.leek.soup=9&#43;lb"
	for i, x := range parts {
		page := get(h, strings.TrimSuffix("/run/leek/"+x.key, "/")+query).Body.String()
		var links []string
		for k, other := range parts {
			at := strings.TrimSuffix("/run/leek/"+other.key, "/") + kept
			mark := ""
			if k == i {
				mark = ` aria-current="page"`
			}
			links = append(links, `<a href="`+at+`"`+mark+`>`+other.name+`</a>`)
			if beside := k == i-1 || k == i+1; i > 0 && beside != strings.Contains(page, `<a class="button" rel="prev" href="`+at) && beside != strings.Contains(page, `<a class="button after" rel="next" href="`+at) {
				t.Errorf("%s: the link to %s at its foot: want %v", x.name, other.name, beside)
			}
		}
		inOrder(t, page, links...)
	}
}

// A name with a space and a sign stays in every address of its run, the one that the switch of the units comes back to included.
func TestAddressesOfAnOddName(t *testing.T) {
	h := kitchenOf(t, "kitchen: {name: Test}\nruns:\n  'a & b/c':\n    want: []\n")
	page := get(h, "/run/a%20&%20b%2Fc/buy").Body.String()
	for _, want := range []string{`href="/run/a%20&amp;%20b%2Fc/cook"`, `name="back" value="/run/a%20&amp;%20b%2Fc/buy"`} {
		if !strings.Contains(page, want) {
			t.Errorf("no %s on the page", want)
		}
	}
}

func TestFindingsStandWhereACookActs(t *testing.T) {
	inOrder(t, partPage(t, madePlan(), unit.US, "chill"), "STOP", "no way of chilling")
	page := partPage(t, madePlan(), unit.US, "cook")
	blend := page[strings.Index(page, `id="step-A2"`):]
	inOrder(t, blend, "CAUTION", "hot soup climbs in a jar", "fill it a third", "6 loads of 2 lb each")
	if sweat := page[strings.Index(page, `id="step-A1"`):strings.Index(page, `id="step-A2"`)]; strings.Contains(sweat, "CAUTION") {
		t.Error("the caution about blending stands at another step too")
	}
}

// 12 lb is 5.44 kg and 200 °F is 93 °C (definitions: 0.45359237 kg to the pound; 5/9 of what is above 32).
func TestBothUnits(t *testing.T) {
	us, metric := everyPage(t, madePlan(), unit.US), everyPage(t, madePlan(), unit.Metric)
	for page, texts := range map[string][]string{us: {"12 lb <small>(5.44 kg)</small>", "to 200 °F (93 °C), about 25 min"}, metric: {"5.44 kg <small>(12 lb)</small>", "to 93 °C (200 °F)"}} {
		for _, want := range texts {
			if !strings.Contains(page, want) {
				t.Errorf("no %q on the page", want)
			}
		}
	}
}

func TestWhatMustNotBeMissed(t *testing.T) {
	page := everyPage(t, madePlan(), unit.US)
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
	inOrder(t, partPage(t, madePlan(), unit.US, "seal"), "6</b> dumplings", "soup")                                        // pieces first
	inOrder(t, partPage(t, madePlan(), unit.US, "chill"), "pot in the walk-in", "9 h", "a box", "never", "pans", "–", "–") // not computed is not never
}

func TestNothingFoundIsNotSafe(t *testing.T) {
	p := madePlan()
	p.Findings = nil
	page := everyPage(t, p, unit.US)
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
	turns := viewFacts(madePlan(), draw.NewCodes(madePlan().Dishes)).Lists[0].Turns
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
	page := everyPage(t, plan.Plan{}, unit.Metric)
	for _, want := range []string{"Nothing to buy.", "There is no timetable.", "Nothing is cooked.", "Nothing hot has to be chilled.", "Nothing is filled.", "No labels."} {
		if !strings.Contains(page, want) {
			t.Errorf("no %q on the page of an empty plan", want)
		}
	}
}

// Every finding of a plan is said again where a cook can do something about it.
func TestPlacesOfFindings(t *testing.T) {
	for code, want := range map[string]place{
		plan.CodeOrderShort: atSeal, plan.CodeUnderMinimum: atBuy, plan.CodeTooLate: atBuy, plan.CodeNotInTime: atBuy, plan.CodeFreezerLow: atSeal, plan.CodeFreezerFull: atFreeze,
		plan.CodeBagsShort: atSeal, plan.CodeBagNotForHeat: atCards, plan.CodeBagTooSmall: atSeal, plan.CodeNotWeighed: atSeal, plan.CodeAppointmentLate: atDay, plan.CodeTubs: atDay,
		plan.CodeJointByMass: atMoney, plan.CodeHotBlender: atFindings,
	} {
		if got := placeOf(finding.Finding{Code: code}); got != want {
			t.Errorf("%s leads to %q, want %q", code, got, want)
		}
	}
}
