package app_test

import (
	"math"
	"strings"
	"testing"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/keeping"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// diary enters what happened at its time.
func diary(t *testing.T, r *app.Records, at string, bodies ...record.Body) {
	t.Helper()
	when, err := time.Parse(time.RFC3339, at+"T12:00:00Z")
	if err != nil {
		t.Fatal(err)
	}
	for _, b := range bodies {
		if _, err := r.Enter(t.Context(), app.Said{Who: "Ada", Device: "test", At: when, Body: b}); err != nil {
			t.Fatal(err)
		}
	}
}

const sauce = "ale-cheddar-lb"

func saucePacks(t *testing.T, lot record.Lot, best record.Day) record.Packed {
	return record.Packed{Run: "tue", Pack: sauce, Lot: lot, Numbers: numbers(t, "1-20"), Label: unit.Pound, Mass: 20 * unit.Pound, From: []record.Part{{Lot: "B-1", Mass: 20 * unit.Pound}}, BestBefore: best, Place: "chest-2"}
}

func keepingOf(t *testing.T, r *app.Records, ask app.KeepingAsk) app.PackKeeping {
	t.Helper()
	ask.Pack = sauce
	v, err := r.Keeping(t.Context(), demoBook(t), record.Instant(frozenNoon.UnixMilli()), ask)
	if err != nil || len(v.Packs) != 1 {
		t.Fatal(v.Packs, err)
	}
	return v.Packs[0]
}

// By hand, on 2 December: a sauce of the demo kitchen packed on 4 November, good until 1 June by its bags, 2 of 20 kept. Soups and the like keep 2
// to 3 months (USDA and FDA chart): 8 weeks are until 30 December.
func TestHowLongPacksKeep(t *testing.T) {
	keep := record.SetAside{Pack: sauce, Lot: "P-1", Numbers: numbers(t, "19-20"), Open: []record.Day{"2026-12-02", "2027-01-06"}}
	order := record.Ordered{Order: "O-1", Customer: "joe", Lines: []record.OrderLine{{Pack: sauce, Count: 5}}, Due: "2026-12-04", Way: record.Collect}
	taste := func(v record.Verdict) record.Tasted {
		return record.Tasted{Lot: "P-1", Pack: sauce, Numbers: numbers(t, "19"), Verdict: v}
	}
	for _, c := range []struct {
		name   string
		tasted []record.Body
		weeks  int
		limit  keeping.Basis
		until  record.Day
		beyond int
		past   bool
		worst  finding.Severity
	}{
		{"the table alone", nil, 8, keeping.ByPublished, "2026-12-30", 153, false, finding.Note},
		{"opened and good after four weeks: nobody has looked further", []record.Body{taste(record.StillGood)}, 8, keeping.ByPublished, "2026-12-30", 153, false, finding.Note},
		{"opened and fading", []record.Body{taste(record.Fading)}, 0, keeping.ByOpened, "2026-11-04", 209, true, finding.Caution},
	} {
		r := readFreezer(t, "chest-2-air", 1, steady(-18), "")
		diary(t, r, "2026-11-04", saucePacks(t, "P-1", "2027-06-01"), keep, record.Customer{Customer: "joe", Name: "Joe's Café"}, order)
		diary(t, r, "2026-12-02", c.tasted...)
		p := keepingOf(t, r, app.KeepingAsk{})
		if p.Weeks != 13 || p.Proposal.Weeks != c.weeks || p.Proposal.Limit != c.limit || !p.Longer() || len(p.Fits) == 0 || p.Fits[0].Class != "soups-stews" {
			t.Errorf("%s: %+v fits %v", c.name, p.Proposal, p.Fits)
		}
		kept := int64(2 - len(c.tasted))
		l := p.Lots[0]
		if l.Until != c.until || l.Beyond != c.beyond || l.Past != c.past || l.Packs != 18 || l.Kept != kept || len(l.Promised) != 1 || l.Promised[0].Name != "Joe's Café" || l.Promised[0].Numbers.Count() != 5 {
			t.Errorf("%s: %+v", c.name, l)
		}
		found, err := r.KeepingFindings(t.Context(), demoBook(t), record.Instant(frozenNoon.UnixMilli()), "P-1")
		if err != nil || len(found) != 1 || found.Worst() != c.worst || found[0].Code != app.CodeLotsBeyond || !strings.Contains(found[0].Message, "5 packs to Joe's Café for 2026-12-04") || !strings.Contains(found[0].Fix, "not safety") || found[0].Source == "" {
			t.Errorf("%s: %v %v", c.name, found, err)
		}
		if none, err := r.KeepingFindings(t.Context(), demoBook(t), record.Instant(frozenNoon.UnixMilli()), "P-2"); err != nil || len(none) > 0 {
			t.Errorf("of another lot: %v %v", none, err)
		}
	}
}

// Packs that are good for no longer than is supported are not told of, and neither is what nobody has in stock.
func TestNothingIsToldOfPacksThatKeep(t *testing.T) {
	r := readFreezer(t, "chest-2-air", 1, steady(-18), "")
	diary(t, r, "2026-11-04", saucePacks(t, "P-1", "2026-12-30"))
	if found, err := r.KeepingFindings(t.Context(), demoBook(t), record.Instant(frozenNoon.UnixMilli()), ""); err != nil || len(found) > 0 {
		t.Error(found, err)
	}
}

// Ten days at -15 °C: 3 °C too warm takes 3^0.3 = 1.390 days' life a day, 4^0.3 = 1.516 at the bad end, which leaves 5 of 8 weeks.
func TestHowWarmTheFreezerWasShortensWhatIsPublished(t *testing.T) {
	r := readFreezer(t, "chest-2-air", 240, steady(-15), "")
	diary(t, r, "2026-11-20", saucePacks(t, "P-1", "2027-06-01"))
	p := keepingOf(t, r, app.KeepingAsk{Storage: true})
	if p.Proposal.Weeks != 5 || p.Proposal.Limit != keeping.ByStorage || p.Proposal.Most != 8 {
		t.Errorf("%+v", p.Proposal)
	}
	s := p.Lots[0].Storage
	if s == nil || math.Abs(s.ReadDays-10) > 0.01 || math.Abs(s.Days-10*math.Pow(3, 0.3)) > 0.05 || math.Abs(s.High-10*math.Pow(4, 0.3)) > 0.05 || s.UnreadDays < 1.9 || s.UnreadDays > 2.1 {
		t.Errorf("%+v", s)
	}
	if p := keepingOf(t, r, app.KeepingAsk{}); p.Proposal.Weeks != 8 {
		t.Errorf("without it %d weeks", p.Proposal.Weeks)
	}
}

func TestWhichFoodAPackIs(t *testing.T) {
	r := readFreezer(t, "chest-2-air", 1, steady(-18), "")
	book := demoBook(t)
	v, err := r.Keeping(t.Context(), book, record.Instant(frozenNoon.UnixMilli()), app.KeepingAsk{})
	if err != nil || len(v.Packs) != len(book.Packs) || v.Says != app.KeepingNotSafety {
		t.Fatal(len(v.Packs), err)
	}
	fits := map[string]string{}
	for _, p := range v.Packs {
		var all []string
		for _, c := range p.Fits {
			all = append(all, string(c.Class))
		}
		fits[p.Pack] = strings.Join(all, " ")
	}
	for pack, want := range map[string]string{sauce: "soups-stews", "meatballs-six": "soups-stews poultry-gravy"} {
		if fits[pack] != want {
			t.Errorf("%s is %q, want %q", pack, fits[pack], want)
		}
	}
	if p := keepingOf(t, r, app.KeepingAsk{As: "cooked-fish"}); p.Proposal.Weeks != 17 || p.Fits[0].Why != "it was chosen" {
		t.Errorf("as fish: %+v", p)
	}
	raw := book
	raw.Dishes = map[kitchen.DishID]kitchen.Dish{"salad": {Name: "salad", Steps: []kitchen.Step{{ID: "mix", Use: []kitchen.Use{{Of: "leek"}}}}}}
	raw.Packs = map[kitchen.PackID]kitchen.Pack{"salad": {Name: "salad", Dish: "salad", BestBefore: kitchen.Keeping{Weeks: 9, Source: "a guess"}}}
	v, err = r.Keeping(t.Context(), raw, record.Instant(frozenNoon.UnixMilli()), app.KeepingAsk{})
	if err != nil || v.Packs[0].Proposal.Known || len(v.Findings) != 1 || v.Findings[0].Code != app.CodeNoneKnown {
		t.Errorf("%+v %v", v, err)
	}
}

// What is due is told once for everybody; what was opened is no longer due.
func TestOpeningsOfKeptPacks(t *testing.T) {
	r := readFreezer(t, "chest-2-air", 1, steady(-18), "")
	diary(t, r, "2026-11-04", saucePacks(t, "P-1", "2027-06-01"), record.SetAside{Pack: sauce, Lot: "P-1", Numbers: numbers(t, "19-20"), Open: []record.Day{"2026-11-30", "2027-01-06"}})
	due, err := r.Openings(t.Context(), demoBook(t), "2026-12-02")
	if err != nil || len(due) != 1 || due[0].Late != 2 || due[0].Name != "P-1" || due[0].Places[0] != "chest-2" || !strings.HasPrefix(due[0].Says, "pack 19 of ") {
		t.Fatalf("%+v %v", due, err)
	}
	diary(t, r, "2026-12-02", record.Tasted{Lot: "P-1", Pack: sauce, Numbers: numbers(t, "20"), Verdict: record.StillGood})
	if due, err := r.Openings(t.Context(), demoBook(t), "2026-12-02"); err != nil || len(due) > 0 {
		t.Errorf("%+v %v", due, err)
	}
	v, err := r.Retained(t.Context(), "2026-12-02", "")
	if err != nil || len(v.Due) != 0 || len(v.Ahead) != 1 || v.Ahead[0].Which.String() != "19" || len(v.Tasted) != 1 || v.Tasted[0].Weeks != 4 {
		t.Errorf("%+v %v", v, err)
	}
}

// Whole days are reckoned by tenths of a degree, each to the warmer: never less than minute by minute (as the page of a lot does), and not 1 % more.
func TestStorageByTenthsOfADegree(t *testing.T) {
	r := readFreezer(t, "chest-2-air", 240, func(ago float64) float64 { return -17.3 + 2*math.Sin(ago) }, "")
	diary(t, r, "2026-11-24", saucePacks(t, "P-1", "2027-06-01"))
	now := record.Instant(frozenNoon.UnixMilli())
	exact, err := r.Spent(t.Context(), demoBook(t), "P-1", now)
	if err != nil || len(exact.Spent) != 1 {
		t.Fatal(exact, err)
	}
	s, want := keepingOf(t, r, app.KeepingAsk{Storage: true}).Lots[0].Storage, exact.Spent[0].Used.Share*exact.Life.Days
	if s == nil || s.Days < want || s.Days > 1.01*want || math.Abs(s.ReadDays-8) > 0.01 {
		t.Errorf("%+v, want %g days", s, want)
	}
}

// A trial of the sauce as the book has it, opened after 0, 4 and 10 weeks with 2 g of drip each time, of at most 10 g: it carries the 8 published weeks
// on to 10. Closed with the other variant, that one is what it tells of.
func TestATrialCarriesFurther(t *testing.T) {
	r := readFreezer(t, "chest-2-air", 1, steady(-18), "")
	trial := gumTrial()
	trial.Weeks = []record.Week{0, 4, 10}
	laid := layTrial(t, r, 1, trial)
	for _, v := range trial.Variants {
		diary(t, r, "2026-09-01", record.TrialMade{Trial: laid.Trial, Variant: v.Name, Mass: 4 * unit.Kilogram, Packs: 3, Each: 450 * unit.Gram, Frozen: "2026-09-01"})
		for i, w := range trial.Weeks {
			drip := decimals([]float64{2, 2.1, 2}[i])
			diary(t, r, "2026-12-01", record.TrialOpened{Trial: laid.Trial, Variant: v.Name, Week: w, Number: 1, Whole: 450 * unit.Gram, Drip: &drip})
		}
	}
	p := keepingOf(t, r, app.KeepingAsk{})
	by, _ := p.Proposal.Limiting()
	if p.Proposal.Weeks != 10 || p.Proposal.Limit != keeping.ByTrial || !p.Proposal.Further || !strings.Contains(by.Source, laid.Trial) || !strings.Contains(by.Says, "nobody has looked later") {
		t.Errorf("%+v", p.Proposal)
	}
	diary(t, r, "2026-12-02", record.TrialClosed{Trial: laid.Trial, Adopted: "gum", Why: "smoother"})
	if p := keepingOf(t, r, app.KeepingAsk{}); p.Proposal.Weeks != 10 || !strings.Contains(p.Proposal.Supports[0].Source, "gum") {
		t.Errorf("of the variant that was adopted: %+v", p.Proposal)
	}
}
