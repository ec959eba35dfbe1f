package kitchen_test

import (
	"testing"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
)

func TestSlipsInMoney(t *testing.T) {
	const mill, offer, lb = "{name: the mill}", "pack: 25 lb, price: $31}", "pace: 40 s, crew: 2, price: $6.50,"
	testSlips(t, finding.Stop, []slipCase{
		{slip{"ice: 80 lb,", "ice: 80 lb, overhead: {per-hour: $6, of-prime: 10 %},"}, []found{{kitchen.OverheadTwice, "kitchen.overhead", "more than one base", "keep one"}}},
		{slip{"ice: 80 lb,", "ice: 80 lb, cleaning: -$2,"}, []found{{kitchen.OutOfRange, "kitchen.cleaning", "-2", "check"}}},
		{slip{mill, "{name: the mill, lead-days: 90}"}, []found{{kitchen.OutOfRange, "suppliers.mill.lead-days", "90 days, but should be at most 60 days", "check"}}},
		{slip{mill, "{name: the mill, minimum: -$20}"}, []found{{kitchen.OutOfRange, "suppliers.mill.minimum", "-20", "check"}}},
		{slip{offer, "pack: 25 lb, price: $31, at-least: 4, at-most: 3}"}, []found{{kitchen.RangeBackwards, "ingredients.lentil.buy[0].at-most", "at least 4 are sold, but at most 3", "correct"}}},
		{slip{offer, "pack: 25 lb, price: $31, breaks: [{from: 5, price: $29}, {from: 5, price: $28}]}"}, []found{{kitchen.RangeBackwards, "ingredients.lentil.buy[0].breaks[1].from", "from 5 packs on, the one before from 5", "rising"}}},
		{slip{"trim: 10 %", "trim: 10 %, lots: [{amount: 0 kg}]"}, []found{{kitchen.OutOfRange, "ingredients.onion.lots[0].amount", "nothing", "how much"}}},
		{slip{"trim: 10 %", "trim: 10 %, lots: [{amount: 2 kg, until: soon}]"}, []found{{kitchen.BadDate, "ingredients.onion.lots[0].until", `"soon" is no date`, "year, month and day"}}},
		{slip{"{of: lentil, amount: 4 kg}", "{of: lentil, amount: 4 kg, instead: [lentil]}"}, []found{{kitchen.InsteadOfItself, "dishes.dal.steps[2].use[0].instead[0]", "lentil cannot take the place", "another"}}},
		{slip{"{of: lentil, amount: 4 kg}", "{of: lentil, amount: 4 kg, instead: [lentils]}"}, []found{{kitchen.UnknownReference, "dishes.dal.steps[2].use[0].instead[0]", "no ingredient lentils", "did you mean lentil?"}}},
		{slip{lb, lb + " sauce: {least: 1, most: 2},"}, []found{{kitchen.SauceWithoutSolids, "packs.dal-lb.sauce", "only one thing goes into this pack", "take sauce: out"}}},
		{slip{lb, lb + " waste: 100 %,"}, []found{{kitchen.OutOfRange, "packs.dal-lb.waste", "below 100 %", "check"}}},
		{slip{lb, lb + " checks: [{date: 2026-11-20, tare: [20 g, 21 g], gross: [475 g, 15 g]}],"}, []found{{kitchen.GrossIsTare, "packs.dal-lb.checks[0].gross[1]", "15 g is no heavier than an empty bag of 21 g", "unit"}}},
		{slip{lb, lb + " checks: [{date: 2026-11-20, tare: [20 g], gross: []}],"}, []found{
			{kitchen.CountTooSmall, "packs.dal-lb.checks[0].tare", "1 empty bags were weighed, but at least 2", "weigh empty bags"},
			{kitchen.CountTooSmall, "packs.dal-lb.checks[0].gross", "no filled pack", "filled pack weighs"},
		}},
	})
	testSlips(t, finding.Caution, []slipCase{
		{slip{offer, "pack: 25 lb, price: $31, breaks: [{from: 5, price: $310}]}"}, []found{{kitchen.BreakDearer, "ingredients.lentil.buy[0].breaks[0].price", "from 5 packs on each costs more", "one pack"}}},
		{slip{"{of: lentil, amount: 4 kg}", "{of: lentil, amount: 4 kg, instead: [sauce]}"}, []found{{kitchen.InsteadAddsAllergen, "dishes.dal.steps[2].use[0].instead[0]", "fish: anchovy", "label"}}},
	})
}
