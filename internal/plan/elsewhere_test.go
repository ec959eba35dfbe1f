package plan_test

import (
	"context"
	"slices"
	"testing"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// twoPots is the soup kitchen with the lid on, a steam kettle beside the pot, as large and twice as strong, and tubs for the ice bath.
func twoPots(t *testing.T) kitchen.Book {
	book := soupKitchen(t)
	edit(book.Dishes, "soup", func(d *kitchen.Dish) {
		d.Steps[0].In, d.Steps[0].Loses = []kitchen.EquipmentID{"pot", "kettle"}, kitchen.Losses{}
	})
	kettle := book.Equipment["pot"]
	kettle.Name, kettle.Power = "kettle", 2*kettle.Power
	book.Equipment["kettle"] = kettle
	tub := book.Equipment["pot"]
	tub.Name, tub.Power, tub.Count = "tub", 0, 2
	book.Equipment["tub"] = tub
	edit(book.Chilling, "bath", func(c *kitchen.Chilling) { c.Vessel, c.Count = "tub", 2 })
	return book
}

// twoLoads plans two loads of soup and returns them by their start.
func twoLoads(t *testing.T, book kitchen.Book) (plan.Plan, []plan.Task) {
	t.Helper()
	p := makePlan(t, book, soups(40))
	var loads []plan.Task
	for _, task := range p.Timetable.Tasks {
		if task.Dish == "soup" && task.Step == "simmer" && task.Kind == plan.Cook {
			loads = append(loads, task)
		}
	}
	if len(loads) != 2 {
		t.Fatalf("%d loads, want 2: %v", len(loads), p.Findings)
	}
	return p, loads
}

// TestALoadGoesWhereThereIsRoom: of two loads one goes into the kettle. There it heats up in half the minutes, as that has twice the power.
func TestALoadGoesWhereThereIsRoom(t *testing.T) {
	p, loads := twoLoads(t, twoPots(t))
	if p.Timetable.Status != "optimal" || loads[1].Start >= loads[0].End {
		t.Errorf("%s; the loads go from %s to %s and from %s to %s; want both at the same time", p.Timetable.Status, loads[0].Start, loads[0].End, loads[1].Start, loads[1].End)
	}
	on := []string{loads[0].On[0], loads[1].On[0]}
	slices.Sort(on)
	if !slices.Equal(on, []string{"kettle", "pot"}) {
		t.Errorf("on %v, want one in the kettle and one in the pot", on)
	}
	alone, _ := twoLoads(t, only(twoPots(t), "pot"))
	strong, _ := twoLoads(t, only(twoPots(t), "kettle"))
	for _, load := range loads {
		want := alone.Dishes[0].Steps[0]
		if load.On[0] == "kettle" {
			want = strong.Dishes[0].Steps[0]
		}
		if got := load.End - load.Start; unit.Span(got)*unit.Minute != want.HeatUp+want.Time {
			t.Errorf("in the %s it takes %d min, alone there %s", load.On[0], got, (want.HeatUp + want.Time).Show(unit.Metric))
		}
	}
	step, slow, fast := p.Dishes[0].Steps[0], alone.Dishes[0].Steps[0], strong.Dishes[0].Steps[0]
	if ratio := float64(slow.HeatUp) / float64(fast.HeatUp); ratio < 1.8 || ratio > 2.3 {
		t.Errorf("heats up in %v and, with twice the power, in %v", slow.HeatUp, fast.HeatUp)
	}
	near(t, "energy, kWh", step.EnergyKWh, (slow.EnergyKWh+fast.EnergyKWh)/2, 0.011)
	if step.Equipment != "pot and kettle" || step.HeatUp != slow.HeatUp {
		t.Errorf("the step is in %q and heats up in %v", step.Equipment, step.HeatUp)
	}
	if got, want := p.Dishes[0].Steps[0].Out[0].Mass, alone.Dishes[0].Steps[0].Out[0].Mass; got != want {
		t.Errorf("%v comes of it, in the pot alone %v", got, want)
	}
}

// only lets the soup be cooked in one thing.
func only(book kitchen.Book, id kitchen.EquipmentID) kitchen.Book {
	edit(book.Dishes, "soup", func(d *kitchen.Dish) { d.Steps[0].In = []kitchen.EquipmentID{id} })
	return book
}

// TestALoadStaysWhere elsewhere it would come out different, or not at all.
func TestALoadStaysWhere(t *testing.T) {
	for _, c := range []struct {
		name string
		edit func(b *kitchen.Book)
	}{
		{"more boils off the wider kettle", func(b *kitchen.Book) {
			edit(b.Dishes, "soup", func(d *kitchen.Dish) { d.Steps[0].Loses = kitchen.Losses{Evaporation: 5} })
			edit(b.Equipment, "kettle", func(e *kitchen.Equipment) { e.Diameter *= 2 })
		}},
		{"the load does not fit", func(b *kitchen.Book) {
			edit(b.Equipment, "kettle", func(e *kitchen.Equipment) { e.Working = 60 * unit.PerCent })
		}},
		{"a kettle so large that it is hardly covered", func(b *kitchen.Book) {
			edit(b.Dishes, "soup", func(d *kitchen.Dish) { d.Steps[0].Load.AtMost = 15 * unit.Kilogram })
			edit(b.Equipment, "kettle", func(e *kitchen.Equipment) { e.Volume *= 10 })
		}},
		{"nobody knows how strong the kettle is", func(b *kitchen.Book) { edit(b.Equipment, "kettle", func(e *kitchen.Equipment) { e.Power = 0 }) }},
		{"it cools in the pot", func(b *kitchen.Book) { edit(b.Chilling, "bath", func(c *kitchen.Chilling) { c.Vessel = "pot" }) }},
	} {
		t.Run(c.name, func(t *testing.T) {
			book := twoPots(t)
			c.edit(&book)
			if _, loads := twoLoads(t, book); loads[0].On[0] != "pot" || loads[1].On[0] != "pot" {
				t.Errorf("on %v and %v, want the pot", loads[0].On, loads[1].On)
			}
		})
	}
}

// TestTheKettleFails: what was to go into it goes into the pot, and what the pot was to have stays there.
func TestTheKettleFails(t *testing.T) {
	book := twoPots(t)
	run := plan.Open(context.Background(), book, table(t), soups(80))
	four := func(p plan.Plan) (on []string) {
		for _, task := range p.Timetable.Tasks {
			if task.Step == "simmer" && task.Kind == plan.Cook {
				on = append(on, task.On[0])
			}
		}
		return on
	}
	if on := four(run.Plan()); !slices.Contains(on[2:], "kettle") {
		t.Fatalf("planned on %v; want the kettle among the last two", on)
	}
	now := run.Plan().Timetable.Tasks[0].Start + 30
	again := run.Retime(context.Background(), kitchen.Changes{Now: now, Out: []kitchen.Outage{{Equipment: "kettle", From: now}}})
	if on := four(again); again.Timetable.Status == "infeasible" || slices.Contains(on[2:], "kettle") || len(on) != 4 {
		t.Errorf("%s, on %v; want the last two in the pot: %v", again.Timetable.Status, on, again.Findings)
	}
}
