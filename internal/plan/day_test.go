package plan_test

import (
	"maps"
	"strings"
	"testing"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// creamSoup adds a second soup, with milk in it, from the same pot.
func creamSoup(b *kitchen.Book) kitchen.Request {
	b.Ingredients["cream"] = kitchen.Ingredient{Name: "cream", Analysis: &kitchen.Analysis{Water: 60, Fat: 40, Source: "invented"}, Free: true, Allergens: kitchen.Allergens{Answered: true, Names: []string{"milk"}}}
	d := b.Dishes["soup"]
	s := d.Steps[0]
	s.Use = append([]kitchen.Use{{Of: "cream", Amount: unit.Amount{Kind: unit.AmountMass, Mass: unit.Kilogram}}}, s.Use...)
	b.Dishes["cream-soup"] = kitchen.Dish{Name: "a cream soup", Steps: []kitchen.Step{s}} // before the other by name
	p := b.Packs["soup-650"]
	p.Dish = "cream-soup"
	b.Packs["cream-650"] = p
	return kitchen.Request{Name: "test", Want: []kitchen.Want{{Pack: "cream-650", Count: 15}, {Pack: "soup-650", Count: 15}}}
}

func find(t *testing.T, p plan.Plan, prefix string) plan.Task {
	t.Helper()
	for _, task := range p.Timetable.Tasks {
		if strings.HasPrefix(task.Key, prefix) {
			return task
		}
	}
	t.Fatalf("no task %s among %v: %v", prefix, p.Timetable.Tasks, p.Findings)
	return plan.Task{}
}

// TestAllergensLast: the soup without milk goes first, as the pot then needs a rinse only, and somebody does it.
func TestAllergensLast(t *testing.T) {
	book := soupKitchen(t)
	req := creamSoup(&book)
	edit(book.Equipment, "pot", func(e *kitchen.Equipment) { e.Wash, e.WashDown = 10*unit.Minute, 40*unit.Minute })
	p := makePlan(t, book, req)
	plain, cream, wash := find(t, p, "soup/simmer/1"), find(t, p, "cream-soup/simmer/1"), find(t, p, "wash/pot/")
	if plain.Start >= cream.Start {
		t.Errorf("the soup without milk starts at %s, that with milk at %s", plain.Start, cream.Start)
	}
	if got := wash.End - wash.Start; got != 10 || wash.Start < plain.End || wash.End > cream.Start || len(wash.People) != 1 {
		t.Errorf("washed from %s to %s by %v, between %s and %s; want 10 min", wash.Start, wash.End, wash.People, plain.End, cream.Start)
	}
}

// TestPotsAreWashed: of several pots each is washed when it changes from one dish to another, in the time that this pair needs, and as
// seldom as can be: somebody who is free does it.
func TestPotsAreWashed(t *testing.T) {
	book := soupKitchen(t)
	req := creamSoup(&book)
	third := book.Packs["soup-650"]
	third.Dish = "third"
	book.Packs["third-650"], book.Dishes["third"] = third, book.Dishes["soup"]
	req.Want = append(req.Want, kitchen.Want{Pack: "third-650", Count: 15})
	edit(book.Equipment, "pot", func(e *kitchen.Equipment) { e.Count, e.Wash, e.WashDown = 2, 10*unit.Minute, 40*unit.Minute })
	p := makePlan(t, book, req)
	var washes []plan.Task
	for _, task := range p.Timetable.Tasks {
		if task.Kind == plan.Washing {
			washes = append(washes, task)
		}
	}
	if len(washes) != 1 || len(washes[0].People) != 1 || p.Timetable.Status == "infeasible" {
		t.Fatalf("washes: %v; want one for three dishes in two pots: %v", washes, p.Findings)
	}
	switches := 0
	for _, row := range p.Timetable.Rows {
		for k := 1; k < len(row.Bars) && strings.HasPrefix(row.Name, "pot no."); k++ {
			before, after := p.Timetable.Tasks[row.Bars[k-1].Task], p.Timetable.Tasks[row.Bars[k].Task]
			if before.Dish == after.Dish {
				continue
			}
			switches++
			want := unit.Moment(10)
			if before.Dish == "cream-soup" {
				want = 40
			}
			if w := washes[0]; w.Label != "Wash "+row.Name || w.Start < row.Bars[k-1].To || w.End > row.Bars[k].From || w.End-w.Start != want {
				t.Errorf("%s goes from %s at %s to %s at %s; washed: %q from %s to %s, want %d min", row.Name, before.Dish, row.Bars[k-1].To, after.Dish, row.Bars[k].From, w.Label, w.Start, w.End, want)
			}
		}
	}
	if switches != 1 {
		t.Errorf("%d changes from one dish to another, want 1", switches)
	}
}

// TestPotIsHeld: the one pot holds its soup through the ice bath, and the next is cooked after.
func TestPotIsHeld(t *testing.T) {
	book := soupKitchen(t)
	p := makePlan(t, book, creamSoup(&book))
	for _, pair := range [][2]string{{"soup/", "cream-soup/"}, {"cream-soup/", "soup/"}} {
		chill, other := find(t, p, pair[0]+"soup-chill/1"), find(t, p, pair[1]+"simmer/1")
		if chill.Start > other.Start && chill.Start < other.End || other.Start > find(t, p, pair[0]+"simmer/1").Start && other.Start < chill.End {
			t.Errorf("%s cools from %s to %s in the pot in which %s cooks from %s to %s", pair[0], chill.Start, chill.End, pair[1], other.Start, other.End)
		}
	}
}

// TestTubs: two things that must be ready together and one pot: one of them waits in a tub, and that is said.
func TestTubs(t *testing.T) {
	book := soupKitchen(t)
	take := kitchen.Take{Given: true, Share: unit.Whole}
	hot := unit.TempC(90)
	d := book.Dishes["soup"]
	d.Steps[0].Gives = nil
	d.Steps = append(d.Steps, kitchen.Step{ID: "broth", Do: "Heat the broth.", In: []kitchen.EquipmentID{"pot"}, HeatTo: &hot, Use: []kitchen.Use{{Of: "water", Amount: unit.Amount{Kind: unit.AmountMass, Mass: unit.Kilogram}}}},
		kitchen.Step{ID: "join", Do: "Pour them together.", Time: 5 * unit.Minute, Use: []kitchen.Use{{From: "simmer", Take: take}, {From: "broth", Take: take}}, Gives: []kitchen.Output{{ID: "soup"}}})
	book.Dishes["soup"] = d
	p := makePlan(t, book, soups(20))
	if f := has(p.Findings, plan.CodeTubs); f == nil || p.Timetable.Status != "optimal" {
		t.Errorf("%s: %v", p.Timetable.Status, p.Findings)
	}
	edit(book.Equipment, "pot", func(e *kitchen.Equipment) { e.Count = 2 })
	if f := has(makePlan(t, book, soups(20)).Findings, plan.CodeTubs); f != nil {
		t.Errorf("with two pots: %s", f)
	}
}

// TestSkills: only who can do it puts hands to it, though the other is free.
func TestSkills(t *testing.T) {
	book := soupKitchen(t)
	shift := book.People["ada"].Shift
	book.People = map[kitchen.PersonID]kitchen.Person{"ada": {Name: "Ada", Shift: shift}, "bo": {Name: "Bo", Shift: shift, Can: []kitchen.Skill{"sealing"}}}
	edit(book.Packs, "soup-650", func(x *kitchen.Pack) { x.Skill = "sealing" })
	p := makePlan(t, book, soups(40))
	for _, task := range p.Timetable.Tasks {
		if task.Kind == plan.Filling && (len(task.People) != 1 || task.People[0] != "Bo") {
			t.Errorf("%s is filled by %v", task.Key, task.People)
		}
	}
}

// TestAppointments: carrots that come at nine are not cooked before, and packs that are fetched at two are sealed by then.
func TestAppointments(t *testing.T) {
	book := soupKitchen(t)
	req := soups(20)
	req.Visits = []kitchen.Visit{{What: "the farm's van", At: 9 * 60, For: 10 * unit.Minute, Brings: []kitchen.IngredientID{"carrot"}}, {What: "collection", At: 14 * 60, Takes: []kitchen.PackID{"soup-650"}}}
	p := makePlan(t, book, req)
	if at := find(t, p, "soup/simmer/1").Start; at < 9*60+10 {
		t.Errorf("cooked from %s, before the carrots are there", at)
	}
	if van := find(t, p, "appointment/1"); van.Start != 9*60 || len(van.People) != 1 {
		t.Errorf("the van at %s, met by %v", van.Start, van.People)
	}
	for _, task := range p.Timetable.Tasks {
		if task.Kind == plan.Filling && task.End > 14*60 {
			t.Errorf("%s ends at %s", task.Key, task.End)
		}
	}
	req.Visits[1].At = 9*60 + 30
	late := makePlan(t, book, req)
	if f := has(late.Findings, plan.CodeNoTimetable); f == nil {
		t.Errorf("sealed twenty minutes after the carrots came: %s", late.Timetable.Status)
	}
}

// TestSecondDay: what does not fit into one short shift goes on in the next day's, never at night.
func TestSecondDay(t *testing.T) {
	book := soupKitchen(t)
	edit(book.People, "ada", func(x *kitchen.Person) { x.Shift.To = 10 * 60 })
	req := soups(60)
	if f := has(makePlan(t, book, req).Findings, plan.CodeDayTooLong); f == nil {
		t.Fatal("it fits into one day")
	}
	req.Days = 2
	p := makePlan(t, book, req)
	if f := has(p.Findings, plan.CodeDayTooLong); f != nil {
		t.Fatal(f)
	}
	for _, row := range p.Timetable.Rows {
		for _, b := range row.Bars {
			if from := b.From % 1440; row.Person && (from < 6*60 || b.To%1440 > 10*60) {
				t.Errorf("%s works from %s to %s", row.Name, b.From, b.To)
			}
		}
	}
}

// TestAims: told to start late, the crew comes later and is done no later than it must be.
func TestAims(t *testing.T) {
	book := soupKitchen(t)
	req := soups(20)
	req.Finish = 18 * 60
	early := makePlan(t, book, req)
	req.Aims = []kitchen.Aim{kitchen.LateStart, kitchen.Finish}
	late := makePlan(t, book, req)
	if late.Timetable.Start <= early.Timetable.Start || late.Timetable.End > 18*60 {
		t.Errorf("from %s to %s; told to finish early, from %s to %s", late.Timetable.Start, late.Timetable.End, early.Timetable.Start, early.Timetable.End)
	}
	if a := late.Timetable.Aims; len(a) != 2 || a[0].Status != "optimal" || a[0].Value != unit.Span(late.Timetable.Start-6*60)*unit.Minute {
		t.Errorf("aims %v; starts at %s", a, late.Timetable.Start)
	}
}

// TestRemedy: a sauce that cannot wait, and one cook who is away when it is ready: how much longer it would have to wait is said.
func TestRemedy(t *testing.T) {
	book := soupKitchen(t)
	d := book.Dishes["soup"]
	d.Steps[0].Gives = nil
	d.Steps = append(d.Steps, kitchen.Step{ID: "season", Do: "Season it.", AtOnce: true, Time: 5 * unit.Minute, Gives: []kitchen.Output{{ID: "soup"}},
		Use: []kitchen.Use{{From: "simmer", Take: kitchen.Take{Given: true, Share: unit.Whole}}}})
	book.Dishes["soup"] = d
	if find(t, makePlan(t, book, soups(20)), "soup/season/1").Start != find(t, makePlan(t, book, soups(20)), "soup/simmer/1").End {
		t.Error("it waits, though it must not")
	}
	edit(book.People, "ada", func(x *kitchen.Person) {
		x.Shift = kitchen.Shift{From: 6 * 60, To: 20 * 60, Breaks: []kitchen.Break{{From: 6*60 + 10, To: 9 * 60}}}
	})
	req := soups(20)
	req.Visits = []kitchen.Visit{{What: "the van", At: 10*60 + 30, Takes: []kitchen.PackID{"soup-650"}}}
	p := makePlan(t, book, req)
	f := has(p.Findings, plan.CodeNoTimetable)
	if f == nil {
		t.Fatalf("it can be done: %v", p.Findings)
	}
	waits := "“Season it. (carrot soup)” may begin"
	if len(p.Timetable.Remedies) == 0 || !strings.HasPrefix(p.Timetable.Remedies[0], waits) || !strings.Contains(f.Fix, waits) {
		t.Errorf("remedies %v, fix %q", p.Timetable.Remedies, f.Fix)
	}
}

// TestChillingIsNeverPutOff: no remedy lets hot food wait longer for its chilling.
func TestChillingIsNeverPutOff(t *testing.T) {
	book := soupKitchen(t)
	edit(book.People, "ada", func(x *kitchen.Person) {
		x.Shift = kitchen.Shift{From: 6 * 60, To: 20 * 60, Breaks: []kitchen.Break{{From: 6*60 + 10, To: 9 * 60}}}
	})
	req := soups(20)
	req.Visits = []kitchen.Visit{{What: "the van", At: 10*60 + 30, Takes: []kitchen.PackID{"soup-650"}}}
	p := makePlan(t, book, req)
	if has(p.Findings, plan.CodeNoTimetable) == nil {
		t.Fatalf("it can be done: %v", p.Findings)
	}
	for _, r := range p.Timetable.Remedies {
		if strings.Contains(r, "Chill") {
			t.Error(r)
		}
	}
}

// TestDeliveryBeforeTheShift: what is left at the door before anybody comes keeps nobody from working.
func TestDeliveryBeforeTheShift(t *testing.T) {
	book := soupKitchen(t)
	req := soups(20)
	req.Visits = []kitchen.Visit{{What: "the farm's van", At: 5 * 60, Brings: []kitchen.IngredientID{"carrot"}}}
	p := makePlan(t, book, req)
	if p.Timetable.Status != "optimal" || find(t, p, "soup/simmer/1").Start != 6*60 {
		t.Errorf("%s: %v", p.Timetable.Status, p.Findings)
	}
}

// TestKeysAreNames: no two tasks of a plan have the same key.
func TestKeysAreNames(t *testing.T) {
	book := soupKitchen(t)
	seen := map[string]bool{}
	for _, task := range makePlan(t, book, creamSoup(&book)).Timetable.Tasks {
		if seen[task.Key] || task.Key == "" {
			t.Errorf("two tasks are called %q: %v", task.Key, maps.Keys(seen))
		}
		seen[task.Key] = true
	}
}
