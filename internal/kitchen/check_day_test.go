package kitchen_test

import (
	"strings"
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
		{slip{wanting, wanting + " appointments: [{what: the butcher, at: 09:00+1}],"}, []found{{kitchen.OutOfRange, "runs.tuesday.appointments[0].at", "at is 09:00+1, but should be from 00:00 to 23:59", "second day"}}},
		{slip{wanting, wanting + " appointments: [{what: the butcher, at: 10:05, for: 15 min}],"}, []found{{kitchen.TooFewPeople, "runs.tuesday.appointments[0].at", "it takes 1, but 0 work at 10:05", "enough people"}}},
		{slip{wanting, wanting + " days: 2, appointments: [{what: the butcher, at: 24:00+1}],"}, []found{{kitchen.OutOfRange, "runs.tuesday.appointments[0].at", "at is 00:00+2, but should be from 00:00 to 23:59+1", "second day"}}},
		{slip{wanting, wanting + " appointments: [{what: the butcher, at: 23:00-1}],"}, []found{{kitchen.OutOfRange, "runs.tuesday.appointments[0].at", "at is 23:00-1, but should be from 00:00", "time of the run"}}},
		// Ann is at work at 09:50, but goes on her break before it is over.
		{slip{wanting, wanting + " appointments: [{what: the butcher, at: 09:50, for: 15 min}],"}, []found{{kitchen.TooFewPeople, "runs.tuesday.appointments[0].at", "it takes 1, but 0 work at 10:00", "enough people"}}},
		{slip{wanting, wanting + " appointments: [{what: the butcher, at: 09:00, for: 15 min, people: 2}],"}, []found{{kitchen.TooFewPeople, "runs.tuesday.appointments[0].at", "it takes 2, but 1 work at 09:00", "enough people"}}},
		{slip{wanting, wanting + " appointments: [{what: the butcher, at: 09:00, for: 15 min}, {what: the inspector, at: 08:50, for: 30 min}],"}, []found{
			{kitchen.TooFewPeople, "runs.tuesday.appointments[1].at", "it takes 1 and other appointments 1, but 1 work at 09:00", "enough people"},
		}},
		{slip{wanting, wanting + " appointments: [{what: the butcher, at: 09:00, people: 1}],"}, []found{{kitchen.HandsUnclear, "runs.tuesday.appointments[0].people", "it takes 1, but no time", "for:"}}},
		{slip{wanting, wanting + " appointments: [{what: the butcher, at: 09:00, for: 13 h}],"}, []found{{kitchen.OutOfRange, "runs.tuesday.appointments[0].for", "13 h, but should be at most 12 h", "check"}}},
		{slip{wanting, wanting + " appointments: [{what: the van, at: 14:00, takes: [dal-1b]}],"}, []found{{kitchen.UnknownReference, "runs.tuesday.appointments[0].takes[0]", "no pack dal-1b", "did you mean dal-lb?"}}},
		{slip{wanting, wanting + " appointments: [{what: the butcher, at: 09:00, brings: [pork]}],"}, []found{{kitchen.UnknownReference, "runs.tuesday.appointments[0].brings[0]", "no ingredient pork", "name one"}}},
	})
}

func TestSlipsInSkills(t *testing.T) {
	skilled := strings.Replace(sound, "wage: $19.50/h}\n", "can: [sealing]}\n  bob: {name: Bob, shift: {from: 08:00, to: 16:00}, can: [kettle, sealing]}\n", 1)
	testSlipsIn(t, skilled, finding.Stop, []slipCase{
		{slip{"crew: 2", "crew: 2, skill: sealin"}, []found{{kitchen.NobodyCan, "packs.dal-lb.skill", "nobody can do sealin", "did you mean sealing?"}}},
		{slip{"crew: 2", "crew: 2, skill: kettle"}, []found{{kitchen.TooFewCan, "packs.dal-lb.skill", "it takes 2 people who can do kettle, but 1 can", "let fewer"}}},
		{slip{"crew: 2", "crew: 2, skill: sealing"}, nil},
		{slip{"pace: 6 min/kg", "pace: 6 min/kg, skill: kettle"}, nil},
	})
}

// crumbs is one more pack of the dish balls.
const crumbs = "  crumbs: {name: crumbs, dish: balls, fill: [{of: crumbs, mass: 100 g}], bag: small, pace: 40 s}\n"

func TestCautionsAboutTheDay(t *testing.T) {
	testSlips(t, finding.Caution, []slipCase{
		{slip{"pace: 6 min/kg, gives", "pace: 6 min/kg, at-once: true, gives"}, []found{{kitchen.AtOnceAfterNothing, "dishes.dal.steps[0].at-once", "nothing to start after", "from:"}}},
		{slip{"heat-to: 100 °C, time: 1 h", "heat-to: 100 °C, at-once: true, time: 1 h"}, nil}, // the peel comes from the board
		{slip{", {dish: balls, use: {of: lentil, amount: 9 kg}, mix: {balls-six: 1}}, {dish: dal, fill-vessel: pot}]", "], appointments: [{what: the van, at: 14:00, takes: [dal-lb, balls-six]}]"}, []found{
			{kitchen.PackNotMade, "runs.tuesday.appointments[0].takes[1]", "does not make balls-six", "want:"},
		}},
		// The run makes balls, but only as balls-six.
		{slip{wanting, crumbs + wanting + " appointments: [{what: the van, at: 14:00, takes: [crumbs, balls-six]}],"}, []found{{kitchen.PackNotMade, "runs.tuesday.appointments[0].takes[0]", "does not make crumbs", "want:"}}},
		{slip{", mix: {balls-six: 1}}, {dish: dal, fill-vessel: pot}]", "}], appointments: [{what: the van, at: 14:00, takes: [balls-six]}]"}, nil},
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
