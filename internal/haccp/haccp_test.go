package haccp_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/haccp"
)

func c(tempF float64) *float64 {
	x := (tempF - 32) * 5 / 9
	return &x
}

// stew is invented: beef and beans braised, cheese stirred in at the end, sealed under vacuum and frozen.
func stew() haccp.Product {
	return haccp.Product{ID: "stew", Name: "Beef and bean stew", Vacuum: true, Frozen: true, Approval: "V-1",
		Ingredients: []haccp.Ingredient{
			{ID: "beef", Name: "beef chuck", Class: haccp.IntactMeat, Storage: "chilled", AllergensKnown: true},
			{ID: "beans", Name: "kidney beans", Class: haccp.Beans, Storage: "dry", AllergensKnown: true},
			{ID: "cheese", Name: "cheddar", Class: haccp.Dairy, Storage: "chilled", Allergens: []string{"milk"}, AllergensKnown: true},
		},
		Steps: []haccp.Step{
			{ID: "cut", Do: "Cut the beef.", Uses: []string{"beef"}, Cut: true},
			{ID: "boil", Do: "Boil the beans.", Uses: []string{"beans"}, HeatToC: c(212), HoldS: 1800},
			{ID: "braise", Do: "Braise.", From: []string{"cut", "boil"}, HeatToC: c(200), HoldS: 7200},
			{ID: "finish", Do: "Stir in the cheese.", Uses: []string{"cheese"}, From: []string{"braise"}},
		}}
}

func codes(p haccp.Plan) string {
	var all []string
	for _, o := range p.Open {
		all = append(all, o.Code)
	}
	return strings.Join(all, " ")
}

func points(p haccp.Plan) string {
	var all []string
	for _, x := range p.Points {
		all = append(all, x.Number+" "+x.Step)
	}
	return strings.Join(all, ", ")
}

// A plan drafted by hand for the same stew: cooked in the braise, beans undone by boiling, cooled, labelled, kept frozen.
func TestTheStewByHand(t *testing.T) {
	p, err := haccp.Draft(stew())
	if err != nil {
		t.Fatal(err)
	}
	if got, want := points(p), "CCP 1 boil, CCP 2 braise, CCP 3 cooling, CCP 4 labelling, CCP 5 storing and selling"; got != want {
		t.Errorf("points %s, want %s", got, want)
	}
	if got := codes(p); got != haccp.AddedAfterHeat+" "+haccp.TeamNotNamed+" "+haccp.FlowNotWalked+" "+haccp.LifeNotSaid {
		t.Errorf("open: %s", got)
	}
	var flow []string
	for _, f := range p.Flow {
		flow = append(flow, f.ID+"("+strings.Join(f.From, " ")+")")
	}
	if got, want := strings.Join(flow, " "), "receiving() storing(receiving) cut(storing) boil(storing) braise(cut boil) finish(braise storing) cooling(finish) packing(cooling) labelling(packing) freezing(labelling) storing and selling(freezing)"; got != want {
		t.Errorf("flow\n%s\nwant\n%s", got, want)
	}
	braise := p.Points[1]
	if braise.Limit.Text != "145 °F for 15 s" || braise.Limit.Source != "FDA Food Code 3-401.11(A)(1)" || len(braise.Hazards) != 2 {
		t.Errorf("braise: %+v", braise)
	}
	if p.Points[0].Limit.Confirm == "" {
		t.Error("the time of the beans is from memory, and the point does not say so")
	}
	if !strings.HasPrefix(p.Draft, "DRAFT") || !slices.ContainsFunc(p.Cautions, func(s string) bool { return strings.Contains(s, "botulinum") }) {
		t.Errorf("%q %q", p.Draft, p.Cautions)
	}
}

// Raw meat is handled raw until it is cooked, and what handles it may spread it; beans and cheese do not. One hazard stands for a class.
func TestRawIsNotSpread(t *testing.T) {
	p := stew()
	p.Ingredients = append(p.Ingredients, haccp.Ingredient{ID: "pork", Name: "pork shoulder", Class: haccp.IntactMeat, AllergensKnown: true})
	p.Steps[0].Uses, p.Steps[3].Cut = []string{"beef", "pork"}, true
	var at []string
	for _, h := range mustDraft(t, p).Hazards {
		if strings.HasSuffix(h.Key, "/spread") || h.Key == "receiving/intact meat/pathogens" {
			at = append(at, h.Step+": "+h.Why+" ["+h.Point+h.Programme+"]")
		}
	}
	if got, want := strings.Join(at, "; "), "receiving: beef chuck, pork shoulder: raw meat [CCP 2]; cut: raw is worked by hand: beef chuck, pork shoulder [Cleaning]"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}

// The seven principles (Codex CXC 1-1969), and what a plan must hold by FDA Food Code 8-201.14: categories, flow with points, limits, watching
// and how often, verification, actions, records. Every point has all of it.
func TestEveryPrincipleIsThere(t *testing.T) {
	p, err := haccp.Draft(stew())
	if err != nil {
		t.Fatal(err)
	}
	if len(p.Hazards) == 0 || len(p.Flow) == 0 || len(p.Programmes) == 0 || len(p.Training) == 0 || len(p.Science) == 0 || p.Category == "" || p.Intended == "" || p.Principles[6].Name != "Records" {
		t.Errorf("%+v", p)
	}
	for _, x := range p.Points {
		w := x.Watch
		if len(x.Hazards) == 0 || x.Limit.Text == "" || x.Limit.Source == "" || x.Key == "" || x.Why == "" || w.What == "" || w.How == "" || w.Often == "" || w.Who == "" || len(x.Corrective) == 0 || len(x.Verify) == 0 || len(x.Records) == 0 {
			t.Errorf("%s: %+v", x.Number, x)
		}
	}
}

func TestWhatIsOpen(t *testing.T) {
	for _, x := range []struct {
		name   string
		change func(*haccp.Product)
		want   string
		stop   bool
	}{
		{"the braise is not hot enough for beef", func(p *haccp.Product) { p.Steps[2].HeatToC = c(140) }, haccp.RawNotCooked, true},
		{"hot enough for beef and not for chicken", func(p *haccp.Product) {
			p.Ingredients[0].Class, p.Steps[2].HeatToC, p.Steps[2].HoldS = haccp.Poultry, c(160), 7200
		}, haccp.RawNotCooked, true},
		{"beans in a slow cooker: how long is from memory, which stops nothing", func(p *haccp.Product) { p.Steps[1].HeatToC = c(180) }, haccp.BeansNotBoiled, false},
		{"a class that was guessed, of an animal", func(p *haccp.Product) { p.Ingredients[0].Guess = "the food table has it under beef" }, haccp.ClassGuessed, true},
		{"and of a plant", func(p *haccp.Product) { p.Ingredients[1].Guess = "the food table has it under legumes" }, haccp.ClassGuessed, false},
		{"some of the beef goes in raw at the end", func(p *haccp.Product) { p.Steps[3].Uses = append(p.Steps[3].Uses, "beef") }, haccp.RawNotCooked, true},
		{"nobody said what it is", func(p *haccp.Product) { p.Ingredients[2].Class = haccp.Unknown }, haccp.ClassUnknown, true},
		{"nobody said what allergens", func(p *haccp.Product) { p.Ingredients[0].AllergensKnown = false }, haccp.AllergensOpen, true},
		{"no approval", func(p *haccp.Product) { p.Approval = "" }, haccp.NoApproval, false},
		{"sold chilled", func(p *haccp.Product) { p.Frozen = false }, haccp.NotFrozen, true},
		{"fish", func(p *haccp.Product) { p.Ingredients[0].Class = haccp.Fish }, haccp.FishInVacuum, false},
	} {
		product := stew()
		x.change(&product)
		p, err := haccp.Draft(product)
		if err != nil {
			t.Fatal(err)
		}
		i := slices.IndexFunc(p.Open, func(o haccp.Open) bool { return o.Code == x.want })
		if i < 0 || p.Open[i].Stop != x.stop || p.Open[i].Fix == "" {
			t.Errorf("%s: %s", x.name, codes(p))
		}
		if p.Basis == mustDraft(t, stew()).Basis && x.want != haccp.NoApproval && x.want != haccp.ClassGuessed {
			t.Errorf("%s: the plan was not opened again", x.name)
		}
	}
	named := stew()
	named.Name, named.Steps[0].Do = "Stew", "Cube the beef."
	if mustDraft(t, named).Basis != mustDraft(t, stew()).Basis {
		t.Error("other words opened the plan again")
	}
}

func mustDraft(t testing.TB, p haccp.Product) haccp.Plan {
	t.Helper()
	plan, err := haccp.Draft(p)
	if err != nil {
		t.Fatal(err)
	}
	return plan
}

func TestProductsThatMakeNoSense(t *testing.T) {
	for name, change := range map[string]func(*haccp.Product){
		"no steps": func(p *haccp.Product) { p.Steps = nil }, "out of order": func(p *haccp.Product) { p.Steps[0].From = []string{"braise"} },
		"nothing of that name": func(p *haccp.Product) { p.Steps[0].Uses = []string{"ham"} }, "two of a name": func(p *haccp.Product) { p.Ingredients[1].ID = "beef" }, "two steps": func(p *haccp.Product) { p.Steps[1].ID = "cut" },
	} {
		p := stew()
		change(&p)
		_, err := haccp.Draft(p)
		if bad := (*haccp.ProductError)(nil); !errors.As(err, &bad) || bad.Fix == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// Whatever the dish: every raw ingredient is either cooked at a point or open as a stop; every point stands in the flow; every significant
// biological hazard of a raw ingredient leads to a point or to a stop.
func TestNothingRawIsForgotten(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := product(t)
		plan, err := haccp.Draft(p)
		if err != nil {
			t.Fatal(err)
		}
		for _, g := range p.Ingredients {
			if g.Class == haccp.Produce || g.Class == haccp.Dry || g.Class == haccp.Dairy {
				continue
			}
			stop := slices.ContainsFunc(plan.Open, func(o haccp.Open) bool { return o.Code == haccp.RawNotCooked && o.Stop })
			cooked := slices.ContainsFunc(plan.Points, func(x haccp.Point) bool { return x.Watch.What == "the temperature at the coldest point" })
			used := slices.ContainsFunc(p.Steps, func(s haccp.Step) bool { return slices.Contains(s.Uses, g.ID) })
			if used && !stop && !cooked {
				t.Errorf("%s (%s) is neither cooked nor open", g.ID, g.Class)
			}
		}
		for _, x := range plan.Points {
			if !slices.ContainsFunc(plan.Flow, func(f haccp.FlowStep) bool { return f.ID == x.Step && f.Point == x.Number }) {
				t.Errorf("%s stands nowhere in the flow", x.Number)
			}
		}
	})
}

// product is any product.
func product(t *rapid.T) haccp.Product {
	classes := []haccp.Class{haccp.IntactMeat, haccp.GroundMeat, haccp.Poultry, haccp.Fish, haccp.Eggs, haccp.Produce, haccp.Dry, haccp.Dairy}
	p := haccp.Product{ID: "x", Name: "x", Vacuum: rapid.Bool().Draw(t, "vacuum"), Frozen: true}
	for i := range rapid.IntRange(1, 5).Draw(t, "ingredients") {
		p.Ingredients = append(p.Ingredients, haccp.Ingredient{ID: string(rune('a' + i)), Name: "n", Class: rapid.SampledFrom(classes).Draw(t, "class"), AllergensKnown: true})
	}
	for i := range rapid.IntRange(1, 6).Draw(t, "steps") {
		s := haccp.Step{ID: string(rune('A' + i)), Do: "do"}
		for _, g := range p.Ingredients {
			if rapid.Bool().Draw(t, "uses") {
				s.Uses = append(s.Uses, g.ID)
			}
		}
		for _, e := range p.Steps {
			if rapid.Bool().Draw(t, "from") {
				s.From = append(s.From, e.ID)
			}
		}
		if rapid.Bool().Draw(t, "heated") {
			s.HeatToC, s.HoldS = c(rapid.Float64Range(100, 212).Draw(t, "to")), rapid.Float64Range(0, 60).Draw(t, "hold")
		}
		p.Steps = append(p.Steps, s)
	}
	return p
}
