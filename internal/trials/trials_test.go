package trials

import (
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
	"kettlefrost/internal/tastetrial"
	"kettlefrost/internal/unit"
)

func codes(found finding.List) []string {
	var all []string
	for _, f := range found {
		all = append(all, f.Code)
	}
	return all
}

// The codes of a trial are printed on packs that lie in a freezer for months, and its entries hold nothing but them: a layout that came out
// otherwise one day would give every score to another variant. These were written down when trials were first laid out.
func TestALayoutStaysAsItWas(t *testing.T) {
	x := newDiary(t).enter(gum()).trial("ale-cheddar-gum")
	var got []string
	for _, w := range x.Laid.Body.Weeks {
		got = append(got, x.CodeOf(0, w), x.CodeOf(1, w))
	}
	for taster := range x.Laid.Body.Tasters {
		got = append(got, strings.Join(x.Served(taster, 4), " "))
	}
	want := []string{"781", "325", "146", "165", "184", "915", "146 165", "146 165", "165 146"}
	if !slices.Equal(got, want) {
		t.Errorf("%q", got)
	}
}

func TestOpeningsOfATrial(t *testing.T) {
	d := newDiary(t).enter(gum())
	stands := func(day string) (all []Stands) {
		for _, o := range d.trial("ale-cheddar-gum").Openings(record.Day(day)) {
			all = append(all, o.Stands)
		}
		return all
	}
	wants := func(day string, want ...Stands) {
		t.Helper()
		if got := stands(day); !slices.Equal(got, want) {
			t.Errorf("on %s: %v, want %v", day, got, want)
		}
	}
	d.on("2026-09-02").enter(batch("ale-cheddar-gum", "as it is", "2026-09-02", 6))
	wants("2026-12-01", NotFrozen, NotFrozen, NotFrozen) // a batch is missing
	d.enter(batch("ale-cheddar-gum", "gum", "2026-09-02", 6))
	wants("2026-09-08", Ahead, Ahead, Ahead)
	wants("2026-09-09", DueToday, Ahead, Ahead) // a week later, by the calendar
	wants("2026-09-10", Overdue, Ahead, Ahead)
	wants("2026-10-28", Overdue, Overdue, DueToday) // 8 weeks later
	d.on("2026-09-09")
	for _, v := range []string{"as it is", "gum"} {
		d.enter(pack("ale-cheddar-gum", v, 1, 1, 2), pack("ale-cheddar-gum", v, 1, 2, 3))
	}
	x := d.trial("ale-cheddar-gum")
	if o := x.Openings("2026-09-09")[0]; o.Stands != DueToday || len(o.Left) != 0 || o.Measured != 4 || !slices.Equal(o.Tasters, []string{"Nora", "Sam", "Ben"}) {
		t.Errorf("measured, and not tasted: %+v", o)
	}
	for _, taster := range x.Laid.Body.Tasters {
		d.enter(score(x, taster, 1, 0, "texture", 7), score(x, taster, 1, 1, "texture", 8))
	}
	wants("2026-09-10", Done, Ahead, Ahead)
	if due := Due([]Trial{d.trial("ale-cheddar-gum")}, "2026-12-01"); len(due) != 2 || due[0].Week != 4 || due[1].Due != "2026-10-28" {
		t.Errorf("due: %+v", due)
	}
	d.enter(record.TrialClosed{Trial: "ale-cheddar-gum", Adopted: "gum", Why: "less drip"})
	wants("2026-12-01", Done, Ended, Ended)
	if due := Due([]Trial{d.trial("ale-cheddar-gum")}, "2026-12-01"); len(due) != 0 {
		t.Errorf("of a trial that was closed is due: %+v", due)
	}
}

func TestWhatDoesNotFitIsTold(t *testing.T) {
	laid := gum()
	x := newDiary(t).enter(laid).trial("ale-cheddar-gum")
	good := score(x, "Nora", 1, 0, "texture", 7)
	wrongWeek, stranger := good, good
	wrongWeek.Week = 4
	stranger.Taster = "Zoe"
	for _, c := range []struct {
		name   string
		bodies []record.Body
		codes  []string
	}{
		{"nothing is wrong", []record.Body{batch("ale-cheddar-gum", "gum", "2026-09-01", 6), good}, nil},
		{"a variant that there is not", []record.Body{batch("ale-cheddar-gum", "gumm", "2026-09-01", 6), pack("ale-cheddar-gum", "gumm", 1, 1, 2)}, []string{CodeUnknown, CodeUnknown}},
		{"a week in which none is opened", []record.Body{pack("ale-cheddar-gum", "gum", 2, 1, 2)}, []string{CodeUnknown}},
		{"a code of another week, and a taster who is none", []record.Body{wrongWeek, stranger}, []string{CodeUnknown, CodeUnknown}},
		{"the same twice", []record.Body{laid, batch("ale-cheddar-gum", "gum", "2026-09-01", 6), batch("ale-cheddar-gum", "gum", "2026-09-01", 6), pack("ale-cheddar-gum", "gum", 1, 1, 2), pack("ale-cheddar-gum", "gum", 1, 1, 9), good, good},
			[]string{CodeTwice, CodeTwice, CodeTwice, CodeTwice}},
		{"too few packs, frozen apart", []record.Body{batch("ale-cheddar-gum", "as it is", "2026-09-01", 5), batch("ale-cheddar-gum", "gum", "2026-09-03", 6)}, []string{CodeFewPacks, CodeApart}},
	} {
		d := newDiary(t).enter(laid)
		d.enter(c.bodies...)
		if got := codes(d.trial("ale-cheddar-gum").Found); !slices.Equal(got, c.codes) {
			t.Errorf("%s: %v, want %v", c.name, got, c.codes)
		}
	}
	d := newDiary(t).enter(laid, batch("ale-cheddar-gum", "as it is", "2026-09-01", 6), batch("ale-cheddar-gum", "gum", "2026-09-01", 6)).on("2026-09-20").enter(pack("ale-cheddar-gum", "gum", 1, 1, 2))
	if x := d.trial("ale-cheddar-gum"); !slices.Equal(codes(x.Found), []string{CodeOffDay}) || !strings.Contains(x.Found[0].Message, "+12 days") || len(x.Opened) != 1 {
		t.Errorf("a pack that was opened twelve days late: %v", x.Found)
	}
	s, _ := Of(newDiary(t).enter(pack("nobody-knows", "gum", 1, 1, 2), record.TrialClosed{Trial: "nobody-knows", Why: "x"}).all...)
	if _, found := s.All(); !slices.Equal(codes(found), []string{CodeNotLaid, CodeNotLaid}) {
		t.Errorf("of a trial that nobody laid out: %v", found)
	}
}

// Entries come late from tablets that were away: in whatever order they are taken, the trial is the same.
func TestTheOrderOfEntriesMakesNoDifference(t *testing.T) {
	d := newDiary(t).enter(gum())
	x := d.trial("ale-cheddar-gum")
	d.enter(batch("ale-cheddar-gum", "gum", "2026-09-01", 6), batch("ale-cheddar-gum", "as it is", "2026-09-01", 6), pack("ale-cheddar-gum", "gum", 1, 1, 2), pack("ale-cheddar-gum", "gum", 1, 1, 9),
		score(x, "Nora", 1, 0, "texture", 7), score(x, "Nora", 1, 0, "texture", 2), record.Pictured{About: About("ale-cheddar-gum", "gum", 1), File: "a.jpg", Type: record.JPEG, Bytes: 3, Hash: record.Hash{1}})
	want := d.trial("ale-cheddar-gum")
	for seed := range uint64(20) {
		mixed := slices.Clone(d.all)
		rand.New(rand.NewPCG(seed, 0)).Shuffle(len(mixed), func(a, b int) { mixed[a], mixed[b] = mixed[b], mixed[a] })
		s, _ := Of(mixed...)
		if got, _ := s.Copy().Trial("ale-cheddar-gum"); !reflect.DeepEqual(got, want) {
			t.Fatalf("seed %d: %+v", seed, got)
		}
	}
	if n := len(want.Opened); n != 1 || *want.Opened[0].Body.Drip != 2000 {
		t.Errorf("the first counts: %+v", want.Opened)
	}
	if p := want.Pictures; len(p) != 1 || p[0].Variant != "gum" || p[0].Week != 1 || !p[0].HasWeek {
		t.Errorf("%+v", p)
	}
}

func TestWhatIsMeasured(t *testing.T) {
	three := 3 * unit.PerCent
	o := record.TrialOpened{Whole: 400 * unit.Gram, Drip: decimal(12), Separation: &three}
	for _, c := range []struct {
		figure, unit string
		want         float64
		ok           bool
	}{{Drip, Grams, 12, true}, {Drip, Share, 0.03, true}, {Separation, Share, 0.03, true}, {Separation, Grams, 0, false}, {"colour", Share, 0, false}} {
		if v, ok := measured(record.Figured{Figure: c.figure, Unit: c.unit}, o); ok != c.ok || v < c.want-1e-12 || v > c.want+1e-12 {
			t.Errorf("%s in %s: %g, %v", c.figure, c.unit, v, ok)
		}
	}
	if _, ok := measured(record.Figured{Figure: Drip, Unit: Grams}, record.TrialOpened{Whole: unit.Pound}); ok {
		t.Error("drip that nobody weighed is a value")
	}
}

func TestBestBeforeOfATrial(t *testing.T) {
	d := newDiary(t).enter(gum())
	x := d.trial("ale-cheddar-gum")
	s, _ := Of(d.all...)
	if got := x.Supports(nil)[0]; got.Known || !strings.Contains(got.Why, "drip") {
		t.Errorf("nothing was opened: %+v", got)
	}
	for _, week := range []record.Week{1, 4, 8} {
		for n := int64(1); n <= 2; n++ {
			d.enter(pack("ale-cheddar-gum", "as it is", week, n, 2+float64(week)+float64(n)/10), pack("ale-cheddar-gum", "gum", week, n, 1+float64(n)/10))
		}
		for _, taster := range x.Laid.Body.Tasters {
			d.enter(score(x, taster, week, 0, "texture", 7), score(x, taster, week, 1, "texture", 8))
		}
	}
	s, _ = Of(d.all...)
	all, _ := s.All()
	both := all[0].Supports(nil)
	// As it is: 3.15, 6.15 and 10.15 g in weeks 1, 4 and 8, straight within weeks: week 8 is beyond 10 g, so week 4. With gum to the last week opened.
	if b := both[0]; !b.Known || b.Weeks != 4 || b.Ending != tastetrial.ByQuality || b.By != Drip {
		t.Errorf("as it is: %+v", b)
	}
	if b := both[1]; !b.Known || b.Weeks != 8 || b.Ending != tastetrial.ByLastOpened || b.Last != 8 {
		t.Errorf("with gum: %+v", b)
	}
	if b := all[0].Supports(&tastetrial.Published{Weeks: 6, Source: "a table"})[1]; b.Weeks != 6 || b.Ending != tastetrial.ByPublished || !strings.Contains(b.Why, "a table") {
		t.Errorf("with gum, and a table that ends at week 6: %+v", b)
	}
	of := func() []Support {
		s, _ := Of(d.all...)
		all, _ := s.All()
		return Supports(all, "ale-cheddar", "", nil)
	}
	if got := of(); len(got) != 1 || !got[0].Base || got[0].Past {
		t.Errorf("the dish is as it was: %+v", got)
	}
	d.on("2026-11-20").enter(record.TrialClosed{Trial: "ale-cheddar-gum", Adopted: "gum", Why: "less drip"})
	if got := of(); len(got) != 1 || got[0].Variant != "gum" || !got[0].Adopted {
		t.Errorf("the dish has gum: %+v", got)
	}
}

func TestSeveralTrialsOfADish(t *testing.T) {
	seen := func(weeks float64, ending tastetrial.Ending) Support {
		return Support{Known: true, Weeks: weeks, Ending: ending, Beyond: ending == tastetrial.ByQuality || ending == tastetrial.NotSupported}
	}
	past, unknown := seen(2, tastetrial.ByQuality), Support{Why: "nothing was opened"}
	past.Past = true
	for _, c := range []struct {
		name  string
		all   []Support
		weeks float64
		known bool
	}{
		{"nothing", nil, 0, false},
		{"nothing known", []Support{unknown, past}, 0, false},
		{"who looked longest", []Support{seen(8, tastetrial.ByLastOpened), seen(16, tastetrial.ByLastOpened)}, 16, true},
		{"one saw it end", []Support{seen(16, tastetrial.ByLastOpened), seen(6, tastetrial.ByQuality), unknown}, 6, true},
		{"one saw it end later than another looked", []Support{seen(12, tastetrial.ByQuality), seen(8, tastetrial.ByLastOpened)}, 12, true},
		{"bad at once", []Support{seen(12, tastetrial.ByQuality), seen(0, tastetrial.NotSupported)}, 0, true},
	} {
		if got, known := Together(c.all); known != c.known || got.Weeks != c.weeks {
			t.Errorf("%s: %g, %v", c.name, got.Weeks, known)
		}
	}
}

// Three tasters who do not agree tell nothing, neither for nor against; three who agree that it is bad do.
func TestTooLittleIsNotBad(t *testing.T) {
	for _, c := range []struct {
		points []float64
		known  bool
		why    string
	}{{[]float64{4, 9, 8}, false, "too little was seen to tell"}, {[]float64{2, 3, 2}, true, "already in the first week opened texture was beyond 5 points"}, {[]float64{8, 8, 9}, true, "the last opened"}, {[]float64{8}, false, "two tasters or more"}} {
		laid := gum()
		laid.Figures = laid.Figures[2:]
		d := newDiary(t).enter(laid)
		x := d.trial(laid.Trial)
		for i, points := range c.points {
			d.enter(score(x, laid.Tasters[i], 1, 0, "texture", points))
		}
		if s := d.trial(laid.Trial).Supports(nil)[0]; s.Known != c.known || !strings.Contains(s.Why, c.why) || s.Ends() != (c.points[0] == 2) {
			t.Errorf("%v: %+v", c.points, s)
		}
	}
}

// Two variants, one scored figure: at 95 % ranks need 2/2^n at or below 0.05, which is 6 tasters. With three variants and four figures it is
// 1-0.05/12, which is 9 (2/512 = 0.0039).
func TestTooFewTastersAreToldBefore(t *testing.T) {
	if n := FewestRanked(0.95); n != 6 {
		t.Errorf("%d tasters", n)
	}
	if n := FewestRanked(1 - 0.05/12); n != 9 {
		t.Errorf("%d tasters", n)
	}
	all, err := Chances(gum(), func(f record.Figured) Scatter { return ScatterOf(f, nil) })
	if err != nil || len(all) != 3 {
		t.Fatal(err)
	}
	if c := all[2]; c.Power != 0 || c.Least != 7 || !strings.Contains(c.Text(), "with 3 tasters nothing can be told") || !strings.Contains(c.Text(), "assumed, nobody has seen it here") {
		t.Errorf("%s (%+v)", c.Text(), c)
	}
	// 6 pairs of packs, 3 g of 4 g scatter, at 1 - 0.05/3
	if c, want := all[0], tastetrial.PowerPaired(6, 3, 4, 1-0.05/3); c.Blocks != 6 || c.Power != want || want <= 0 || want >= 0.5 {
		t.Errorf("%s (%g)", c.Text(), want)
	}
}

func TestWords(t *testing.T) {
	share, points := record.Figured{Unit: Share}, record.Figured{Unit: Points}
	for got, want := range map[string]string{
		Amount(share, 0.0251): "2.5 %", Amount(points, 1): "1 point", Amount(points, 10): "10 points", Amount(record.Figured{Unit: Grams}, 12): "12 g", Amount(share, -0.0001): "0 %",
		Range(share, 0.005, 0.0213): "0.5 to 2.1 %", between(points, -0.001, 1.83): "no difference to 1.83 points better", between(points, -2, 0.001): "2 points worse to no difference",
		Difference(share, 0.0195): "1.95 percentage points", Difference(points, 0.25): "0.25 points", between(points, -0.5, 1.2): "0.5 points worse to 1.2 points better", between(points, 1, 2): "1 to 2 points", between(points, -2, -1): "1 to 2 points",
	} {
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
