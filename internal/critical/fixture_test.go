package critical_test

import (
	"encoding/binary"
	"testing"
	"time"

	"kettlefrost/internal/critical"
	"kettlefrost/internal/haccp"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/record"
	"kettlefrost/internal/thermometers"
	"kettlefrost/internal/unit"
)

// kitchen is a kitchen that makes one soup in one load, told of by entries.
type kitchen struct {
	t     testing.TB
	state critical.State
	read  map[record.ID][]critical.Reading
	trust func(string, record.Instant) thermometers.Trust
	class []haccp.Class
	plans map[string]critical.Plan
	work  []plan.Handled
	all   []record.Entry
	count int
}

const noon = record.Instant(1_796_126_400_000) // 2026-12-01 12:00 UTC

func hours(h float64) record.Instant { return noon + record.Instant(h*3_600_000+0.5) }

// exact is a thermometer that is never wrong, as the published tables take it.
func exact(string, record.Instant) thermometers.Trust {
	return thermometers.Trust{Listed: true, Said: true}
}

// product is a soup with one raw ingredient, kept frozen under vacuum.
func product(class haccp.Class) haccp.Product {
	to := unit.TempF(200).C()
	return haccp.Product{ID: "soup-lb", Name: "Soup", Vacuum: true, Frozen: true, Approval: "A-1",
		Ingredients: []haccp.Ingredient{{ID: "meat", Name: "meat", Class: class, AllergensKnown: true}, {ID: "cream", Name: "cream", Class: haccp.Dairy, Allergens: []string{"milk"}, AllergensKnown: true}},
		Steps:       []haccp.Step{{ID: "simmer", Do: "Simmer", Uses: []string{"meat", "cream"}, HeatToC: &to, HoldS: 600}}}
}

func open(t testing.TB, class haccp.Class) *kitchen {
	t.Helper()
	drafted, err := haccp.Draft(product(class))
	if err != nil {
		t.Fatal(err)
	}
	return &kitchen{t: t, read: map[record.ID][]critical.Reading{}, trust: exact, class: []haccp.Class{class, haccp.Dairy},
		plans: map[string]critical.Plan{"soup-lb": {Dish: "soup", Outputs: []string{"soup"}, Points: drafted.Points, Allergens: []string{"milk"}}},
		work: []plan.Handled{{Kind: plan.Cook, Dish: "soup", Step: "simmer", Gives: []string{"soup"}, Label: "Simmer", Loads: []string{"soup/simmer/1"}},
			{Kind: plan.Cool, Dish: "soup", Step: "simmer", Output: "soup", Label: "Chill the soup", Loads: []string{"soup/soup-chill/1"}, From: []string{"soup/simmer/1"}}}}
}

// say enters something.
func (k *kitchen) say(at record.Instant, body record.Body) record.Entry {
	k.t.Helper()
	k.count++
	var id record.ID
	binary.BigEndian.PutUint64(id[8:], uint64(k.count))
	e, err := record.Say(id, at, "Nora", "tablet", body)
	if err != nil {
		k.t.Fatal(err)
	}
	e.Seq = uint64(k.count)
	k.all = append(k.all, e)
	k.state.Put(e)
	return e
}

func (k *kitchen) setting() critical.Setting {
	return critical.Setting{Units: unit.US, Clock: func(i record.Instant) string { return time.UnixMilli(int64(i)).UTC().Format("15:04") }, Plans: k.plans, Trust: k.trust,
		Class: func(string) []haccp.Class { return k.class }, Keep: func(string) string { return "chilled" }, Read: k.read}
}

func (k *kitchen) judge() []critical.Verdict {
	k.t.Helper()
	p, ok := k.state.Run("tuesday")
	if !ok {
		k.t.Fatal("no run")
	}
	return p.Judge(k.work, k.setting())
}

// verdict is the record of a sort; there must be one.
func (k *kitchen) verdict(what critical.What) critical.Verdict {
	k.t.Helper()
	for _, v := range k.judge() {
		if v.What == what {
			return v
		}
	}
	k.t.Fatalf("no record of %s", what)
	return critical.Verdict{}
}

// point is a temperature at a time: hours after noon, °F.
type point struct{ h, f float64 }

// typed enters a cooling log by hand.
func (k *kitchen) typed(task string, points ...point) {
	for _, p := range points {
		k.say(hours(p.h), record.Measured{Run: "tuesday", Task: task, Temp: unit.TempF(p.f), Instrument: "pen"})
	}
}

// probe enters that a probe was in the food, and what it read.
func (k *kitchen) probe(task string, stage record.Stage, points ...point) record.Entry {
	e := k.say(hours(points[0].h), record.Watched{Probe: "p1", Run: "tuesday", Task: task, Stage: stage, Point: "the middle", From: hours(points[0].h), Until: hours(points[len(points)-1].h) + 1})
	for _, p := range points {
		k.read[e.ID] = append(k.read[e.ID], critical.Reading{At: hours(p.h), TempC: unit.TempF(p.f).C(), Instrument: "p1"})
	}
	return e
}

const (
	chill  = "soup/soup-chill/1"
	simmer = "soup/simmer/1"
)
