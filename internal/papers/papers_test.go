package papers_test

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"
	"testing"

	"kettlefrost/demo"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/caution"
	"kettlefrost/internal/coolrule"
	"kettlefrost/internal/draw"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/language"
	"kettlefrost/internal/papers"
	"kettlefrost/internal/pdf"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// tuesday is the plan of a day of the invented kitchen: three dishes, four packs.
var tuesday = sync.OnceValues(func() (plan.Plan, error) {
	table, err := foodtable.Default()
	if err != nil {
		return plan.Plan{}, err
	}
	book := bookfile.Read(demo.Book()).Book
	return plan.Make(context.Background(), book, table, book.Runs["tuesday"]), nil
})

func planned(t testing.TB) plan.Plan {
	t.Helper()
	p, err := tuesday()
	if err != nil || len(p.Dishes) != 3 {
		t.Fatalf("%d dishes, %v", len(p.Dishes), err)
	}
	return p
}

func options(in language.Language, units unit.System, paper pdf.Paper) papers.Options {
	return papers.Options{Units: units, In: language.In(in), Paper: paper, Version: "3f2a91c0", Rule: coolrule.FoodCodeCooked()}
}

// text is a piece of text on a page, with its size in points.
type text struct {
	says string
	size float64
}

// reader is a canvas that reads.
type reader struct{ texts []text }

func (r *reader) Rect(draw.Box, draw.Style)            {}
func (r *reader) Line(_, _ draw.Point, _ draw.Style)   {}
func (r *reader) Polyline([]draw.Point, draw.Style)    {}
func (r *reader) Group(_ string, in func(draw.Canvas)) { in(r) }
func (r *reader) Text(_ draw.Point, s string, t draw.Type) {
	r.texts = append(r.texts, text{s, t.Size})
}

// pages are the texts of each page.
func pages(t testing.TB, k papers.Kind, p plan.Plan, o papers.Options) [][]text {
	t.Helper()
	doc, err := papers.Document(k, p, o)
	if err != nil {
		t.Fatal(err)
	}
	var all [][]text
	for _, page := range pdf.Pages(doc) {
		r := &reader{}
		page.Draw(r)
		all = append(all, r.texts)
	}
	return all
}

// words are all that stands on some pages, in the order in which it was set.
func words(all [][]text) string {
	var b strings.Builder
	for _, page := range all {
		for _, x := range page {
			b.WriteString(x.says + " ")
		}
	}
	return " " + strings.Join(strings.Fields(b.String()), " ") + " " // where a line was broken tells nothing
}

// Every page of every sheet says which run and which version of the plan it is of, and its number. What is to be read is 10 points at least,
// and all but heads, feet and remarks 12 (common practice for what is read at arm's length); drawings have their own sizes.
func TestEveryPage(t *testing.T) {
	p := planned(t)
	for _, in := range language.Languages() {
		for _, paper := range []pdf.Paper{pdf.Letter, pdf.A4} {
			for _, s := range papers.Sheets() {
				all := pages(t, s.Kind, p, options(in, unit.US, paper))
				for i, page := range all {
					foot := words([][]text{page})
					for _, want := range []string{"the big Tuesday", "2026-12-01", "3f2a91c0", language.In(in).Say("page %s of %s", fmt.Sprint(i+1), fmt.Sprint(len(all)))} {
						if !strings.Contains(foot, want) {
							t.Errorf("%s, %s: page %d lacks %q", s.Kind, in, i+1, want)
						}
					}
					if s.Kind == papers.Timetable {
						continue // it has drawings
					}
					for _, x := range page {
						if x.size < 10 {
							t.Errorf("%s, %s: %q is %g points", s.Kind, in, x.says, x.size)
						}
					}
				}
			}
		}
	}
}

// A form is one page for each thing, so that it can hang beside its pot.
func TestAFormIsOnePage(t *testing.T) {
	p := planned(t)
	for _, in := range language.Languages() {
		for _, paper := range []pdf.Paper{pdf.Letter, pdf.A4} {
			for kind, want := range map[papers.Kind]int{papers.Cooling: len(p.Chill), papers.CheckWeigh: len(p.Fill)} {
				if got := len(pages(t, kind, p, options(in, unit.US, paper))); got != want {
					t.Errorf("%s in %s takes %d pages for %d forms", kind, in, got, want)
				}
			}
		}
	}
}

// What is on paper is the plan's: all that is bought, all that is weighed out, every task.
func TestPaperShowsThePlan(t *testing.T) {
	p := planned(t)
	o := options(language.English, unit.US, pdf.Letter)
	buy, weigh, day, fill := words(pages(t, papers.Shopping, p, o)), words(pages(t, papers.WeighUp, p, o)), words(pages(t, papers.Timetable, p, o)), words(pages(t, papers.Filling, p, o))
	for _, l := range p.Buy.Lines {
		if len(l.Packs) > 0 && !strings.Contains(buy, l.Name) {
			t.Errorf("%s is not on the shopping list", l.Name)
		}
	}
	if total := p.Buy.Total.Show("$"); !strings.Contains(buy, total) {
		t.Errorf("the shopping list does not come to %s", total)
	}
	fresh := 0
	for _, d := range p.Dishes {
		for _, s := range d.Steps {
			for _, l := range s.In {
				if l.Kind == plan.Fresh || l.Kind == plan.MadeUp {
					fresh++
					if !strings.Contains(weigh, l.Name+" ") {
						t.Errorf("%s is not on the weigh-up sheet", l.Name)
					}
				}
			}
		}
	}
	if fresh < 30 {
		t.Errorf("only %d ingredients were looked for", fresh)
	}
	if got := strings.Count(day, " 06:00 "); got < 1 {
		t.Error("nothing begins at 06:00")
	}
	for _, k := range p.Timetable.Tasks {
		if !strings.Contains(day, " "+k.Start.String()+" "+k.End.String()+" ") {
			t.Errorf("%s from %s to %s is not in the timetable", k.Label, k.Start, k.End)
		}
	}
	for _, f := range p.Fill {
		if !strings.Contains(fill, f.Name) || !strings.Contains(fill, fmt.Sprintf("%d (likely %d to %d)", f.Count, f.Low, f.High)) {
			t.Errorf("%s, %d packs, is not on the fill sheet", f.Name, f.Count)
		}
	}
}

// The limits of the form are those of the rule, worked by hand: 135 to 70 °F in 2 h, to 41 °F in 6 h (FDA Food Code 3-501.14(A)).
func TestTheFormHasTheRule(t *testing.T) {
	form := words(pages(t, papers.Cooling, planned(t), options(language.English, unit.US, pdf.Letter))[:1])
	for _, want := range []string{"135 °F 70 °F 2 h", "135 °F 41 °F 6 h", "FDA Food Code 3-501.14(A)", "165 °F", "Your local code and a licensed professional decide."} {
		if !strings.Contains(form, want) {
			t.Errorf("the form lacks %q: %s", want, form)
		}
	}
}

// A plan that must not be cooked says so on every sheet.
func TestAStopIsOnEverySheet(t *testing.T) {
	p := planned(t)
	p.Findings = append(slices.Clone(p.Findings), finding.Finding{Code: "x", Severity: finding.Stop})
	for _, s := range papers.Sheets() {
		for in, want := range map[language.Language]string{language.English: "STOP: 1 thing must", language.Spanish: "ALTO: hay que corregir 1 cosa", language.French: "STOP : 1 point doit"} {
			if !strings.Contains(words(pages(t, s.Kind, p, options(in, unit.US, pdf.Letter))), want) {
				t.Errorf("%s in %s does not say that there is a stop", s.Kind, in)
			}
		}
	}
}

// A plan without anything gives sheets that say so, and none falls over.
func TestNothingPlanned(t *testing.T) {
	for _, s := range papers.Sheets() {
		if all := pages(t, s.Kind, plan.Plan{Run: "nothing"}, options("", unit.Metric, pdf.A4)); len(all) != 1 {
			t.Errorf("%s of nothing takes %d pages", s.Kind, len(all))
		}
	}
}

// What is said by the words of the plan is translated too: names of sheets, what is lost by its cause, cautions.
func TestWordsOfThePlanAreTranslated(t *testing.T) {
	p := planned(t)
	words := map[string]bool{"Run report": true, "How to heat it": true, "Check": true, "Take care": true}
	for _, s := range papers.Sheets() {
		words[s.Name] = true
	}
	for _, d := range p.Dishes {
		for _, s := range d.Steps {
			for _, l := range s.Losses {
				words[l.Cause] = true
			}
		}
	}
	for _, act := range []caution.Act{caution.SealingVacuum, caution.BlendingHot, caution.MovingHot, caution.RawAnimal, caution.Allergens, caution.SellingFrozen, caution.FishInVacuum} {
		words[caution.Of(act).Says] = true
	}
	if len(words) < 20 {
		t.Errorf("only %d words were looked for", len(words))
	}
	for w := range words {
		if !language.Knows(w) {
			t.Errorf("%q has no translation", w)
		}
	}
}

func TestASheetThatThereIsNot(t *testing.T) {
	_, err := papers.Document("menu", plan.Plan{}, papers.Options{})
	if bad, ok := errors.AsType[*papers.UnknownError](err); !ok || !strings.Contains(bad.Error(), "weigh-up") {
		t.Errorf("the error is %v", err)
	}
}

func BenchmarkSheets(b *testing.B) {
	p := planned(b)
	for b.Loop() {
		for _, s := range papers.Sheets() {
			doc, err := papers.Document(s.Kind, p, options(language.English, unit.US, pdf.Letter))
			if err != nil {
				b.Fatal(err)
			}
			pdf.Pages(doc)
		}
	}
}
