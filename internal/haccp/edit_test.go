package haccp_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/foodcode"
	"kettlefrost/internal/haccp"
)

func by(e haccp.Edit) haccp.Edit {
	e.By, e.AtMs = "Nora", 1_790_000_000_000
	return e
}

func limit(at string, tempF, seconds float64, reason string) haccp.Edit {
	return by(haccp.Edit{Do: haccp.SetLimit, At: at, Figures: []haccp.Figure{{TempC: *c(tempF), Seconds: seconds}}, Reason: reason})
}

// What a person may change, and what is asked of them. Stricter is free; laxer takes a reason; nothing is taken without a name.
func TestEdits(t *testing.T) {
	watch := &haccp.Watch{What: "the core", How: "a probe", Often: "each pot", Who: "Sam"}
	cooling := func(first, last float64) haccp.Edit {
		return by(haccp.Edit{Do: haccp.SetLimit, At: "cooling/cooling", Figures: []haccp.Figure{{TempC: *c(70), Seconds: first}, {TempC: *c(41), Seconds: last}}})
	}
	for _, x := range []struct {
		name string
		edit haccp.Edit
		bad  string
	}{
		{"hotter", limit("braise/cooking", 165, 15, ""), ""},
		{"colder without a reason", limit("braise/cooking", 140, 15, ""), "laxer"},
		{"shorter without a reason", limit("braise/cooking", 145, 5, ""), "laxer"},
		{"hotter and shorter is laxer too", limit("braise/cooking", 165, 0, ""), "laxer"},
		{"colder with a reason", limit("braise/cooking", 140, 720, "approved as 12-B"), ""},
		{"no figure that food can have", limit("braise/cooking", 9000, 15, ""), "none that food can have"},
		{"a point that is not there", limit("fry/cooking", 165, 15, ""), "no such control point"},
		{"cooling faster", cooling(3600, 4*3600), ""},
		{"cooling slower", cooling(3*3600, 6*3600), "laxer"},
		{"cooling with one figure missing", by(haccp.Edit{Do: haccp.SetLimit, At: "cooling/cooling", Figures: []haccp.Figure{{TempC: 5}}}), "2 figures"},
		{"a hazard that counts less without a reason", by(haccp.Edit{Do: haccp.Weigh, At: "receiving/intact meat/bone"}), "no reason"},
		{"with one", by(haccp.Edit{Do: haccp.Weigh, At: "receiving/intact meat/bone", Significant: true, Reason: "splinters were found twice"}), ""},
		{"a hazard of no kind", by(haccp.Edit{Do: haccp.AddHazard, At: "cut", What: "glass", Control: "no glass in the room"}), "of what kind"},
		{"a hazard", by(haccp.Edit{Do: haccp.AddHazard, At: "cut", Kind: haccp.Physical, What: "glass", Control: "no glass in the room", Programme: "House"}), ""},
		{"a hazard by a programme that is not there", by(haccp.Edit{Do: haccp.AddHazard, At: "cut", Kind: haccp.Physical, What: "glass", Control: "x", Programme: "Windows"}), "no such programme"},
		{"watched otherwise", by(haccp.Edit{Do: haccp.SetWatch, At: "braise/cooking", Watch: watch}), ""},
		{"watched by nobody", by(haccp.Edit{Do: haccp.SetWatch, At: "braise/cooking", Watch: &haccp.Watch{What: "the core", How: "a probe", Often: "each pot"}}), "by whom"},
		{"nothing is done when it is missed", by(haccp.Edit{Do: haccp.SetCorrective, At: "braise/cooking"}), "empty"},
		{"a point is dropped without a reason", by(haccp.Edit{Do: haccp.DropPoint, At: "boil/cooking"}), "no reason"},
		{"a point without a source", by(haccp.Edit{Do: haccp.AddPoint, At: "cut", What: "metal", Text: "nothing over 2 mm", Watch: watch, Lines: []string{"stop"}}), "where the limit is from"},
		{"by nobody", haccp.Edit{Do: haccp.SetTeam, Lines: []string{"Nora"}}, "nobody stands for it"},
		{"of no kind", by(haccp.Edit{Do: "approve"}), "no such change"},
	} {
		err := haccp.Try(stew(), nil, x.edit)
		bad := (*haccp.EditError)(nil)
		switch {
		case x.bad == "" && err != nil:
			t.Errorf("%s: %v", x.name, err)
		case x.bad != "" && (!errors.As(err, &bad) || bad.Fix == "" || !strings.Contains(err.Error(), x.bad)):
			t.Errorf("%s: %v, want %q", x.name, err, x.bad)
		}
	}
}

// Edits are put to the draft of a dish that has changed; what has no place any more is told, with why, and never lost in silence.
func TestEditsOfADishThatChanged(t *testing.T) {
	edits := haccp.Add(nil, limit("braise/cooking", 160, 15, ""), limit("boil/cooking", 212, 2400, ""), by(haccp.Edit{Do: haccp.SetTeam, Lines: []string{"Nora", "Sam"}}))
	edits = haccp.Add(edits, limit("braise/cooking", 170, 15, "")) // in the place of the first
	doc, err := haccp.Write(stew(), edits)
	if err != nil || len(doc.Misfits) != 0 || len(doc.Edits) != 3 {
		t.Fatal(doc.Misfits, err)
	}
	l := doc.Plan.Points[1].Limit
	if l.Text != "170 °F for 15 s" || l.Was != "145 °F for 15 s" || l.Laxer {
		t.Errorf("%+v", l)
	}
	noBeans := stew()
	noBeans.Ingredients, noBeans.Steps = slices.Delete(noBeans.Ingredients, 1, 2), slices.Delete(noBeans.Steps, 1, 2)
	noBeans.Steps[1].From = []string{"cut"}
	now, err := haccp.Write(noBeans, doc.Edits)
	if err != nil || len(now.Misfits) != 1 || now.Misfits[0].Edit.At != "boil/cooking" || now.Misfits[0].Why == "" || len(now.Edits) != 2 {
		t.Fatalf("%+v %v", now.Misfits, err)
	}
	if back := haccp.Without(doc.Edits, haccp.SetLimit, "braise/cooking", ""); len(back) != 2 {
		t.Errorf("%+v", back)
	}
}

// A rule that became stricter than what a person had written makes that laxer: it falls out and is told.
func TestAnEditThatBecameLaxer(t *testing.T) {
	p := stew()
	hot, rules := 175.0, []foodcode.Held(nil)
	rules, err := foodcode.Hold(foodcode.Cooking, "US", []foodcode.Override{{Rule: "fda-3-401.11-a-1", TempF: &hot}})
	if err != nil {
		t.Fatal(err)
	}
	p.Rules = rules
	_, misfits, err := haccp.With(p, []haccp.Edit{limit("braise/cooking", 170, 15, "")})
	if err != nil || len(misfits) != 1 || !strings.Contains(misfits[0].Why, "laxer") {
		t.Errorf("%+v %v", misfits, err)
	}
}

// A significant hazard that nothing keeps down stops the plan, however it came to be.
func TestNothingKeepsItDown(t *testing.T) {
	for name, e := range map[string]haccp.Edit{
		"a point is dropped":                             by(haccp.Edit{Do: haccp.DropPoint, At: "labelling/labelling", Reason: "labels are printed right"}),
		"the only point where beef is cooked is dropped": by(haccp.Edit{Do: haccp.DropPoint, At: "braise/cooking", Reason: "it always boils"}),
		"a hazard with nothing against":                  by(haccp.Edit{Do: haccp.AddHazard, At: "cut", Kind: haccp.Physical, What: "glass", Control: "care", Significant: true}),
	} {
		plan, _, err := haccp.With(stew(), []haccp.Edit{e})
		if err != nil || !slices.ContainsFunc(plan.Open, func(o haccp.Open) bool { return o.Code == haccp.HazardNoPoint && o.Stop }) {
			t.Errorf("%s: %s %v", name, codes(plan), err)
		}
	}
	e := by(haccp.Edit{Do: haccp.AddPoint, At: "cut", Kind: haccp.Physical, What: "metal", Text: "nothing over 2 mm", Source: "the maker of the grinder", Watch: &haccp.Watch{What: "the plate", How: "by eye", Often: "each batch", Who: "Sam"}, Lines: []string{"stop, hold the batch"}})
	plan, misfits, err := haccp.With(stew(), []haccp.Edit{e})
	if err != nil || len(misfits) > 0 || plan.Points[0].Stage != haccp.OwnStage || plan.Points[0].Limit.Gate() || !slices.Equal(plan.Points[0].Hazards, []string{"metal"}) {
		t.Errorf("%+v %v %v", plan.Points[0], misfits, err)
	}
}

// Of two points where the same is cooked one may be taken out, as long as all of it still comes through the other: bacon whose fat is heated in the
// sweating, and with the rest in the pot. Not where some of it goes in later.
func TestOneOfTwoPointsIsTakenOut(t *testing.T) {
	drop := []haccp.Edit{by(haccp.Edit{Do: haccp.DropPoint, At: "sweat/cooking", Reason: "all of it is measured in the pot"})}
	for _, x := range []struct {
		name    string
		potFrom []string
		stop    bool
	}{{"all of it in the pot", []string{"sweat", "render"}, false}, {"the fat goes elsewhere", []string{"render"}, true}} {
		p := haccp.Product{ID: "pot", Name: "Pot", Frozen: true, Ingredients: []haccp.Ingredient{{ID: "bacon", Name: "bacon", Class: haccp.IntactMeat, AllergensKnown: true}},
			Steps: []haccp.Step{{ID: "render", Do: "Render.", Uses: []string{"bacon"}}, {ID: "sweat", Do: "Sweat.", From: []string{"render"}, HeatToC: c(200), HoldS: 600}, {ID: "pot", Do: "Simmer.", From: x.potFrom, HeatToC: c(200), HoldS: 600}}}
		if x.stop {
			p.Steps = append(p.Steps, haccp.Step{ID: "serve", Do: "Spoon the fat over.", From: []string{"pot", "sweat"}})
		}
		plan, misfits, err := haccp.With(p, drop)
		if err != nil || len(misfits) > 0 || len(plan.Dropped) != 1 {
			t.Fatal(misfits, err)
		}
		if got := slices.ContainsFunc(plan.Open, func(o haccp.Open) bool { return o.Code == haccp.HazardNoPoint && o.Stop }); got != x.stop {
			t.Errorf("%s: stopped %v: %s", x.name, got, codes(plan))
		}
	}
}

// What changed between versions is said in the kitchen's words, and whether a point may rest on it.
func TestChangesInWords(t *testing.T) {
	for _, x := range []struct {
		name   string
		change func(*haccp.Product)
		want   string
		basis  bool
	}{
		{"cooler braise", func(p *haccp.Product) { p.Steps[2].HeatToC = c(190) }, "step braise: is heated to 190 °F, was 200 °F", true},
		{"chicken for beef", func(p *haccp.Product) { p.Ingredients[0].Class = haccp.Poultry }, "ingredient beef chuck: is poultry, was intact meat", true},
		{"a new allergen", func(p *haccp.Product) { p.Ingredients[2].Allergens = []string{"milk", "soy"} }, "ingredient cheddar: allergens: milk, soy, was milk", true},
		{"shorter boil", func(p *haccp.Product) { p.Steps[1].HoldS = 1200 }, "step boil: is kept so hot for 20 min, was 30 min", true},
		{"beef later", func(p *haccp.Product) { p.Steps[3].Uses = []string{"cheese", "beef"} }, "step finish: takes in beef as well", true},
		{"no vacuum", func(p *haccp.Product) { p.Vacuum = false }, "pack: is no longer sealed under reduced oxygen", true},
		{"other words", func(p *haccp.Product) { p.Steps[0].Do = "Cube it." }, "step cut: is described in other words", false},
	} {
		was, err := haccp.Write(stew(), nil)
		if err != nil {
			t.Fatal(err)
		}
		p := stew()
		x.change(&p)
		now, err := haccp.Write(p, nil)
		if err != nil {
			t.Fatal(err)
		}
		changes := haccp.Changes(was, now)
		if len(changes) == 0 || changes[0].Where+": "+changes[0].Says != x.want || changes[0].Basis != x.basis || (was.Plan.Basis != now.Plan.Basis) != x.basis {
			t.Errorf("%s: %+v", x.name, changes)
		}
	}
}

// Whatever is changed in the product: if the basis differs, some change says so in words, and a document comes through its text whole.
func TestWhatOpensAPlanIsSaid(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		was, now := product(t), product(t)
		a, err := haccp.Write(was, nil)
		if err != nil {
			t.Fatal(err)
		}
		b, err := haccp.Write(now, []haccp.Edit{by(haccp.Edit{Do: haccp.SetTeam, Lines: []string{"Ada"}})})
		if err != nil {
			t.Fatal(err)
		}
		changes := haccp.Changes(a, b)
		said := slices.ContainsFunc(changes, func(x haccp.Change) bool { return x.Basis })
		if said != (a.Plan.Basis != b.Plan.Basis) {
			t.Errorf("the basis differs: %v, and changes say %+v", a.Plan.Basis != b.Plan.Basis, changes)
		}
		read, err := haccp.Read(b.Text())
		if err != nil || read.Text() != b.Text() {
			t.Errorf("%v", err)
		}
		if again := haccp.Changes(b, read); len(again) != 0 {
			t.Errorf("read again it differs: %+v", again)
		}
	})
}

func FuzzRead(f *testing.F) {
	doc, err := haccp.Write(stew(), nil)
	if err != nil {
		f.Fatal(err)
	}
	f.Add(doc.Text())
	f.Add(`{"schema":"kettlefrost.hazard-plan/1"}`)
	f.Add("[]")
	f.Fuzz(func(t *testing.T, text string) {
		d, err := haccp.Read(text)
		if bad := (*haccp.DocumentError)(nil); err != nil && !errors.As(err, &bad) {
			t.Fatalf("%T", err)
		}
		if err == nil {
			haccp.Changes(d, doc)
		}
	})
}
