package hazardplan_test

import (
	"strings"
	"testing"

	"kettlefrost/internal/haccp"
	"kettlefrost/internal/hazardplan"
	"kettlefrost/internal/record"
)

func id(n byte) record.ID { return record.ID{15: n} }

func soup(heatC float64) haccp.Product {
	return haccp.Product{ID: "soup", Name: "Chicken soup", Vacuum: true, Frozen: true,
		Ingredients: []haccp.Ingredient{{ID: "hen", Name: "hen", Class: haccp.Poultry, AllergensKnown: true}},
		Steps:       []haccp.Step{{ID: "boil", Do: "Boil.", Uses: []string{"hen"}, HeatToC: &heatC, HoldS: 3600}}}
}

// day is an instant of a day of December.
func day(d int64) record.Instant { return record.Instant(1_796_000_000_000 + d*86_400_000) }

// told are entries in order.
type told struct {
	t    *testing.T
	s    hazardplan.State
	seq  uint64
	want []string // codes of what does not fit
}

func (x *told) say(n byte, d int64, who string, body record.Body) {
	x.t.Helper()
	e, err := record.Say(id(n), day(d), who, "tablet", body)
	if err != nil {
		x.t.Fatal(err)
	}
	x.seq++
	e.Seq = x.seq
	for _, f := range x.s.Take(e) {
		x.want = append(x.want, f.Code)
	}
}

func (x *told) version(n byte, d int64, p haccp.Product, edits ...haccp.Edit) {
	x.t.Helper()
	doc, err := haccp.Write(p, edits)
	if err != nil {
		x.t.Fatal(err)
	}
	x.say(n, d, "Nora", record.HazardPlan{Pack: p.ID, Basis: doc.Plan.Basis, Text: record.Text(doc.Text())})
}

func (x *told) review(n byte, d int64, of byte, outcome record.ReviewWord) {
	x.t.Helper()
	x.say(n, d, "Nora", record.PlanReviewed{Pack: "soup", Plan: id(of), Reviewer: "R. Vance", Qualified: "HACCP course of 2025", Outcome: outcome, Why: "read"})
}

func (x *told) stands(p haccp.Product, d int64) hazardplan.Standing {
	x.t.Helper()
	s, err := x.s.Stand(p, day(d))
	if err != nil {
		x.t.Fatal(err)
	}
	return s
}

// One plan through its life: drafted, entered, sent back, edited, accepted; the dish is changed, which opens it again; what changed is said in
// words; a new version is accepted. What was in force on each day stays what it was.
func TestALife(t *testing.T) {
	x := told{t: t}
	if s := x.stands(soup(98), 0); s.Word != hazardplan.Draft || s.Latest != nil || len(s.Today.Plan.Points) == 0 {
		t.Errorf("%+v", s.Word)
	}
	x.version(1, 1, soup(98))
	if s := x.stands(soup(98), 1); s.Word != hazardplan.InReview || !s.Waiting {
		t.Errorf("%s", s.Word)
	}
	x.review(2, 2, 1, record.SentBack)
	if s := x.stands(soup(98), 2); s.Word != hazardplan.Returned || s.Waiting {
		t.Errorf("%s", s.Word)
	}
	team := haccp.Edit{Do: haccp.SetTeam, Lines: []string{"Nora"}, By: "Nora"}
	x.version(3, 3, soup(98), team)
	x.review(4, 4, 3, record.Accepted)
	if s := x.stands(soup(98), 4); s.Word != hazardplan.Accepted || s.InForce.Number != 2 || s.By.Reviewer != "R. Vance" || len(s.Changed) != 0 || len(s.Today.Plan.Team) != 1 {
		t.Errorf("%s %+v", s.Word, s.Changed)
	}
	s := x.stands(soup(95), 5)
	if s.Word != hazardplan.Reopened || len(s.Changed) != 1 || s.Changed[0].Where+" "+s.Changed[0].Says != "step boil is heated to 203 °F, was 208.4 °F" {
		t.Errorf("%s %+v", s.Word, s.Changed)
	}
	x.version(5, 6, soup(95), team)
	if s := x.stands(soup(95), 6); s.Word != hazardplan.Reopened || !s.Waiting || s.Latest.Number != 3 {
		t.Errorf("%s", s.Word)
	}
	x.review(6, 7, 5, record.Accepted)
	if s := x.stands(soup(95), 7); s.Word != hazardplan.Accepted || s.InForce.Number != 3 {
		t.Errorf("%s", s.Word)
	}
	for d, want := range map[int64]int{3: 0, 4: 2, 6: 2, 7: 3, 99: 3} {
		if v, _, ok := x.s.InForce("soup", day(d)); ok != (want > 0) || v.Number != want {
			t.Errorf("on day %d version %d was in force, want %d", d, v.Number, want)
		}
	}
	x.review(7, 8, 5, record.SentBack) // the authority takes its word back: the one before it is in force again, and does not fit the dish
	if s := x.stands(soup(95), 9); s.InForce.Number != 2 || s.Word != hazardplan.Reopened {
		t.Errorf("%s %d", s.Word, s.InForce.Number)
	}
	if len(x.want) > 0 {
		t.Errorf("misfits: %v", x.want)
	}
}

// Lots are judged by what was in force when they were made: before a plan is accepted by the draft, then by the limit that people made stricter,
// also when the dish has changed since.
func TestPointsByWhichLotsAreJudged(t *testing.T) {
	x := told{t: t}
	hotter := haccp.Edit{Do: haccp.SetLimit, At: "boil/cooking", Figures: []haccp.Figure{{TempC: 80}}, By: "Nora"}
	x.version(1, 1, soup(98), hotter)
	x.review(2, 2, 1, record.Accepted)
	x.version(3, 3, soup(98)) // as drafted again, and not reviewed
	for _, c := range []struct {
		day     int64
		heatC   float64
		limitC  float64
		version int
	}{{1, 98, (165 - 32) / 1.8, 0}, {2, 98, 80, 1}, {5, 95, 80, 1}} {
		points, version, err := x.s.Points(soup(c.heatC), day(c.day))
		if err != nil || version != c.version || len(points) == 0 {
			t.Fatalf("day %d: version %d, %v", c.day, version, err)
		}
		if got, _, ok := points[0].Limit.Hot(); !ok || got < c.limitC-1e-6 || got > c.limitC+1e-6 {
			t.Errorf("day %d: limit %g, want %g", c.day, got, c.limitC)
		}
	}
}

func TestWhatDoesNotFit(t *testing.T) {
	x := told{t: t}
	x.review(1, 1, 9, record.Accepted)
	x.say(2, 2, "Nora", record.HazardPlan{Pack: "soup", Basis: "00", Text: "a plan on paper"})
	doc, err := haccp.Write(soup(98), nil)
	if err != nil {
		t.Fatal(err)
	}
	x.say(3, 3, "Nora", record.HazardPlan{Pack: "stew", Basis: doc.Plan.Basis, Text: record.Text(doc.Text())})
	if got, want := strings.Join(x.want, " "), hazardplan.CodeNoVersion+" "+hazardplan.CodeUnreadable+" "+hazardplan.CodeUnreadable; got != want {
		t.Errorf("misfits %s, want %s", got, want)
	}
	if s := x.stands(soup(98), 4); s.Word != hazardplan.InReview || s.Latest.Bad == "" {
		t.Errorf("%+v", s.Word)
	}
	if _, err := x.s.Stand(haccp.Product{ID: "soup"}, day(4)); err == nil {
		t.Error("a dish without steps has a plan")
	}
}
