package kitchen_test

import (
	"testing"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
)

// wanting is where a run of the sound book can be told more.
const wanting = "runs:\n  tuesday: {day: 2026-12-01,"

func TestSlipsInTheDay(t *testing.T) {
	testSlips(t, finding.Stop, []slipCase{
		{slip{"wage: $19.50/h}", "wage: $19.50/h, can: [knife, knife]}"}, []found{{kitchen.SkillTwice, "people.ann.can[1]", "knife stands here twice", "one of them"}}},
		{slip{"wage: $19.50/h}", "wage: $19.50/h, can: ['']}"}, []found{{kitchen.EmptyText, "people.ann.can[0]", "a skill is empty", "write a word"}}},
		{slip{"pace: 6 min/kg, gives", "pace: 6 min/kg, skill: knife, gives"}, []found{{kitchen.NobodyCan, "dishes.dal.steps[0].skill", "nobody can do knife", "none yet"}}},
		{slip{"pace: 40 s, crew: 2", "pace: 40 s, skill: sealing, crew: 2"}, []found{{kitchen.NobodyCan, "packs.dal-lb.skill", "nobody can do sealing", "none yet"}}},
		{slip{"diameter: 16 in, needs", "diameter: 16 in, wash: 20 min, wash-down: 10 min, needs"}, []found{{kitchen.WashShorter, "equipment.pot.wash-down", "less time than the usual wash", "correct"}}},
		{slip{"diameter: 16 in, needs", "diameter: 16 in, wash: 20 h, needs"}, []found{{kitchen.OutOfRange, "equipment.pot.wash", "wash is 20 h", "check"}}},
		{slip{"heat-to: 100 °C, time: 1 h", "heat-to: 100 °C, within: 5 min, at-once: true, time: 1 h"}, []found{{kitchen.WithinAndAtOnce, "dishes.dal.steps[1].at-once", "says that it may wait", "take"}}},
		{slip{wanting, wanting + " days: 9,"}, []found{{kitchen.OutOfRange, "runs.tuesday.days", "days is 9, but should be at most 7", "check"}}},
		{slip{wanting, wanting + " aims: [finish, late-start, finish],"}, []found{{kitchen.AimTwice, "runs.tuesday.aims[2]", "finish stands here twice", "one of them"}}},
		{slip{wanting, wanting + " appointments: [{what: '', at: 09:00}],"}, []found{{kitchen.EmptyText, "runs.tuesday.appointments[0].what", "what is empty", "what:"}}},
		{slip{wanting, wanting + " appointments: [{what: the butcher, at: 09:00+1}],"}, []found{{kitchen.OutOfRange, "runs.tuesday.appointments[0].at", "33 h after the first midnight, but should be at most 24 h", "check"}}},
		{slip{wanting, wanting + " appointments: [{what: the butcher, at: 10:05, for: 15 min}],"}, []found{{kitchen.TooFewPeople, "runs.tuesday.appointments[0].at", "it takes 1, but 0 work at 10:05", "enough people"}}},
		{slip{wanting, wanting + " appointments: [{what: the butcher, at: 09:00, brings: [pork]}],"}, []found{{kitchen.UnknownReference, "runs.tuesday.appointments[0].brings[0]", "no ingredient pork", "name one"}}},
	})
	testSlips(t, finding.Caution, []slipCase{
		{slip{"power: 30000 Btu/h, efficiency: 40 %", "power: 30000 Btu/h, efficiency: 40 %, wash: 5 min"}, []found{{kitchen.WashMeansNothing, "equipment.burner", "no food goes onto a burner", "what the food is in"}}},
		{slip{wanting, wanting + " aims: [least-change],"}, []found{{kitchen.AimUnderWay, "runs.tuesday.aims[0]", "only when the rest of a day", "leave it"}}},
	})
}

// TestNothingIsWrongWithAFullDay: everything that a day can be told, at once.
func TestNothingIsWrongWithAFullDay(t *testing.T) {
	testSlips(t, finding.Caution, []slipCase{
		{slip{wanting, wanting + " days: 2, aims: [finish, late-start, short-day, least-waiting], appointments: [{what: the butcher, at: 09:00, for: 15 min, people: 1, brings: [lentil]}, {what: the van, at: 14:30+1, takes: [dal-lb]}],"}, nil},
	})
}
