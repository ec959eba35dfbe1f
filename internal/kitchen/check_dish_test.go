package kitchen_test

import (
	"testing"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
)

func TestSlipsInTheFlow(t *testing.T) {
	const stock = "dishes.dal.steps[1]"
	testSlips(t, finding.Stop, []slipCase{
		{slip{"{id: finish, do", "{id: simmer, do"}, []found{
			{kitchen.DuplicateID, "dishes.dal.steps[3].id", "step 3 is called simmer too", "another id"},
			{kitchen.UnknownReference, "packs.dal-lb.fill[0].of", "the dish dal gives no finish", "chopped, peel, simmer, stock"},
		}},
		{slip{"gives: [{id: chopped}, {id: peel,", "gives: [{id: chopped}, {id: stock,"}, []found{
			{kitchen.DuplicateID, stock + ".id", "step chop gives stock too", "another id"},
			{kitchen.UnknownReference, stock + ".use[0].from", "no output peel", "chopped"},
		}},
		{slip{"{id: stock, do: Boil the peel out.,", "{id: Stock!, do: Boil the peel out., gives: [{id: stock}],"}, []found{
			{kitchen.BadID, stock + ".id", `"Stock!" cannot be an id`, "lower-case"},
		}},
		{slip{"do: Boil the peel out.", "do: ''"}, []found{{kitchen.EmptyText, stock + ".do", "do is empty", "do:"}}},
		{slip{"use: [{of: onion, amount: 10 each}]", "use: []"}, []found{{kitchen.UsesNothing, "dishes.dal.steps[0].use", "nothing goes into this step", "use:"}}},
		{slip{"{of: onion, amount: 10 each}", "{of: oniom, amount: 10 each}"}, []found{{kitchen.UnknownReference, "dishes.dal.steps[0].use[0].of", "no ingredient oniom", "did you mean onion?"}}},
		{slip{"{from: peel, take: all}", "{from: peal, take: all}"}, []found{
			{kitchen.UnknownReference, stock + ".use[0].from", "no output peal", "did you mean peel?"},
		}},
		{slip{"{from: peel, take: all}", "{from: ball, take: all}"}, []found{
			{kitchen.FromOtherDish, stock + ".use[0].from", "ball comes from the dish balls", "copy the steps"},
		}},
		{slip{"{from: peel, take: all}", "{take: all}"}, []found{
			{kitchen.UseOfOrFrom, stock + ".use[0]", "does not say what goes in", "of: and an ingredient"},
		}},
		{slip{"{from: peel, take: all}", "{from: peel, of: onion, take: all}"}, []found{
			{kitchen.UseOfOrFrom, stock + ".use[0]", "the ingredient onion and the output peel", "two lines"},
		}},
		{slip{"{from: peel, take: all}", "{from: peel}"}, []found{{kitchen.UseAmountOrTake, stock + ".use[0]", "does not say how much", "take: all"}}},
		{slip{"{from: peel, take: all}", "{from: peel, take: all, amount: 1 kg}"}, []found{{kitchen.UseAmountOrTake, stock + ".use[0]", "an amount and a share", "keep"}}},
		{slip{"{from: peel, take: all}", "{from: peel, take: 0 %}"}, []found{{kitchen.UseAmountOrTake, stock + ".use[0].take", "takes nothing", "60 %"}}},
		{slip{"{from: peel, take: all}", "{from: peel, take: 101 %}"}, []found{
			{kitchen.OutOfRange, stock + ".use[0].take", "101 %, but should be at most 100 %", "check"},
			{kitchen.OutputOverdrawn, stock + ".use[0].take", "101 % of peel", "100 %"},
		}},
		{slip{"{from: peel, take: all}", "{from: peel, amount: 2 cups}"}, []found{{kitchen.AmountWithoutMass, stock + ".use[0].amount", "2 cups of an output", "a mass"}}},
		{slip{"{of: water, amount: 2 L}", "{of: water, take: all}"}, []found{{kitchen.UseAmountOrTake, stock + ".use[1].take", "not of an ingredient", "amount:"}}},
		{slip{"{of: water, amount: 2 L}", "{of: water}"}, []found{{kitchen.UseAmountOrTake, stock + ".use[1]", "does not say how much", "written scale"}}},
		{slip{"{of: water, amount: 2 L}", "{of: water, amount: 0 L}"}, []found{{kitchen.OutOfRange, stock + ".use[1].amount", "nothing", "how much"}}},
		{slip{"{of: water, amount: 2 L}", "{of: water, amount: 2 L, or: water}"}, []found{{kitchen.StandInWithoutOutput, stock + ".use[1].or", "an ingredient is bought", "from:"}}},
		{slip{"amount: 1 kg, or: water", "amount: 1 kg, or: watr"}, []found{{kitchen.UnknownReference, "dishes.dal.steps[2].use[4].or", "no ingredient watr", "did you mean water?"}}},
		{slip{"{from: chopped, take: 40 %}", "{from: chopped, take: 41 %}"}, []found{
			{kitchen.OutputOverdrawn, "dishes.dal.steps[3].use[1].take", "the steps take 101 % of chopped", "100 %"},
		}},
		// stock -> simmer -> stock; finish still needs simmer, and is in no round.
		{slip{"{from: peel, take: all}", "{from: peel, take: all}, {from: simmer, amount: 1 kg}"}, []found{
			{kitchen.StepCycle, stock, "stock needs simmer needs stock", "ready before it"},
		}},
		{slip{"{from: peel, take: all}", "{from: peel, take: all}, {from: finish, amount: 1 kg}"}, []found{
			{kitchen.StepCycle, stock, "stock needs finish needs simmer needs stock", "take one"},
		}},
		{slip{"{from: peel, take: all}", "{from: peel, take: all}, {from: stock, amount: 1 kg}"}, []found{
			{kitchen.StepCycle, stock, "stock needs stock", "ready before it"},
		}},
		{slip{"          - {from: stock, amount: 1 kg, or: water}\n", ""}, []found{{kitchen.OutputUnused, stock, "no step and no pack uses stock", "by-product: true"}}},
		{slip{", {of: crumbs, mass: 50 g}", ""}, []found{{kitchen.OutputUnused, "dishes.balls.steps[0].gives[1]", "uses crumbs", "fill it in a pack"}}},
		{slip{"        make-up: water", "        make-up: onion"}, []found{{kitchen.MakeUpNotUsed, "dishes.dal.steps[2].make-up", "this step does not use it", "add it"}}},
		{slip{"stays: true, use: [{from: simmer, take: all}, {from: chopped, take: 40 %}]", "stays: true, in: board, use: [{from: simmer, take: all}, {from: chopped, take: 40 %}]"}, nil}, // the onions come from the board
		{slip{"stays: true, use: [{from: simmer, take: all}, {from: chopped, take: 40 %}]", "stays: true, in: oven, use: [{from: simmer, take: all}, {from: chopped, take: 40 %}]"}, []found{
			{kitchen.StaysElsewhere, "dishes.dal.steps[3].stays", "the earlier step is in pot or board and this one in oven", "same equipment"},
		}},
		{slip{"{id: roll, do: Roll.,", "{id: roll, do: Roll., stays: true,"}, []found{{kitchen.StaysWithoutVessel, "dishes.balls.steps[0].stays", "uses nothing that a step gives", "from:"}}},
		{slip{"    steps:\n      - {id: roll, do: Roll., use: [{of: lentil, amount: 2 cups}], in: board, gives: [{id: ball, piece: 30 g}, {id: crumbs, takes: 5 %}]}\n", "    steps: []\n"}, []found{
			{kitchen.NoSteps, "dishes.balls.steps", "no steps", "step by step"},
			{kitchen.UnknownReference, "packs.balls-six.fill[0].of", "the dish balls gives no ball", "there is none yet"},
			{kitchen.UnknownReference, "packs.balls-six.fill[1].of", "the dish balls gives no crumbs", "there is none yet"},
			{kitchen.TargetNotInDish, "runs.tuesday.want[1].use.of", "does not use lentil", "dish uses"},
		}},
	})
}

func TestSlipsInSteps(t *testing.T) {
	const simmer = "dishes.dal.steps[2]"
	testSlips(t, finding.Stop, []slipCase{
		{slip{"in: [pot]", "in: [pto]"}, []found{{kitchen.UnknownReference, simmer + ".in[0]", "no equipment pto", "did you mean pot?"}}},
		{slip{"heat-to: 100 °C\n", "heat-to: 212 °C\n"}, []found{{kitchen.OutOfRange, simmer + ".heat-to", "212 °C, but should be at most 130 °C", "unit"}}},
		{slip{"heat-to: 100 °C\n", "heat-to: 4 °C\n"}, []found{{kitchen.ColdBoil, simmer + ".heat-to", "boils water away, but is only brought to 4 °C", "above 60 °C"}}},
		{slip{"heat-to: 100 °C, time: 1 h", "heat-to: 59 °C, time: 1 h"}, []found{{kitchen.ColdBoil, "dishes.dal.steps[1].heat-to", "59 °C", "evaporation out"}}},
		{slip{"        time: 40 min\n", "        time: 40 min\n        ready-at: 200 °C\n"}, []found{{kitchen.OutOfRange, simmer + ".ready-at", "200 °C", "check"}}},
		{slip{"        time: 40 min\n", "        time: 8 days\n"}, []found{{kitchen.OutOfRange, simmer + ".time", "192 h, but should be at most 168 h", "check"}}},
		{slip{"        time: 40 min\n", "        within: 200 h\n"}, []found{{kitchen.OutOfRange, simmer + ".within", "200 h", "check"}}},
		{slip{"        time: 40 min\n", "        bulk: 0.01 kg/L\n"}, []found{{kitchen.OutOfRange, simmer + ".bulk", "0.01 kg/L, but should be at least 0.05 kg/L", "check"}}},
		{slip{"        time: 40 min\n", "        load: {at-most: 9000 kg, surface: 600 kg/m2}\n"}, []found{
			{kitchen.OutOfRange, simmer + ".load.at-most", "9000 kg", "check"}, {kitchen.OutOfRange, simmer + ".load.surface", "600 kg/m2", "check"},
		}},
		{slip{"pace: 6 min/kg", "pace: 6000 min/kg"}, []found{{kitchen.OutOfRange, "dishes.dal.steps[0].pace", "6000 min/kg, but should be at most 120 min/kg", "check"}}},
		{slip{"every: 10 min, for: 1 min", "every: 10 min"}, []found{{kitchen.HandsUnclear, simmer + ".hands", "belong together", "both or none"}}},
		{slip{"every: 10 min, for: 1 min", "every: 10 min, for: 12 min"}, []found{{kitchen.HandsUnclear, simmer + ".hands", "every 10 min for 12 min", "throughout"}}},
		{slip{"every: 10 min, for: 1 min", "throughout: true"}, []found{{kitchen.HandsUnclear, simmer + ".hands", "throughout and only at times", "keep"}}},
		{slip{"evaporation: 8 kg/m2h", "evaporation: 800 kg/m2h"}, []found{{kitchen.OutOfRange, simmer + ".loses.evaporation", "800 kg/m2h, but should be at most 100 kg/m2h", "check"}}},
		{slip{"evaporation: 8 kg/m2h", "evaporation: 8 kg/m2h, open: true"}, []found{{kitchen.EvaporationTwice, simmer + ".loses", "more than one way", "keep one"}}},
		{slip{"evaporation: 8 kg/m2h", "open: true, reduce-to: 60 %"}, []found{{kitchen.EvaporationTwice, simmer + ".loses", "more than one way", "keep one"}}},
		{slip{"residue: 200 g", "residue: 200 kg"}, []found{{kitchen.OutOfRange, simmer + ".loses.residue", "200 kg", "check"}}},
		{slip{"residue: 200 g", "water: 100 %"}, []found{
			{kitchen.OutOfRange, simmer + ".loses.water", "100 %, but should be below 100 %", "check"},
			{kitchen.StepOverdrawn, simmer, "come to 100 % of what goes in", "less than 100 %"},
		}},
		{slip{"residue: 200 g", "water: 60 %, fat: 20 %, drain: 25 %"}, []found{{kitchen.StepOverdrawn, simmer, "come to 105 %", "less than 100 %"}}},
		// 92 % drained and 8 % taken as peel leave nothing for the onions; 91 % leave one part in a hundred.
		{slip{"pace: 6 min/kg,", "pace: 6 min/kg, loses: {drain: 92 %},"}, []found{{kitchen.StepOverdrawn, "dishes.dal.steps[0]", "come to 100 %", "less"}}},
		{slip{"pace: 6 min/kg,", "pace: 6 min/kg, loses: {drain: 91 %},"}, nil},
		// Boiled down to a third, it has no 40 % to pour off.
		{slip{"evaporation: 8 kg/m2h, residue: 200 g", "reduce-to: 33 %, drain: 40 %"}, []found{{kitchen.StepOverdrawn, simmer, "107 %", "less"}}},
		{slip{"{id: peel, takes: 8 %, by-product: true}", "{id: peel, by-product: true}"}, []found{
			{kitchen.ByProductWithoutTakes, "dishes.dal.steps[0].gives[1]", "how much of it there is", "takes:"},
		}},
		{slip{"{id: peel, takes: 8 %, by-product: true}", "{id: peel}"}, []found{{kitchen.TwoMains, "dishes.dal.steps[0].gives[1]", "only the main product takes the rest", "takes:"}}},
		{slip{"{id: chopped}, {id: peel", "{id: chopped, takes: 50 %}, {id: peel"}, []found{{kitchen.NoMain, "dishes.dal.steps[0].gives", "takes the rest", "leave takes out"}}},
		{slip{"piece: 30 g", "piece: 30 kg"}, []found{
			{kitchen.OutOfRange, "dishes.balls.steps[0].gives[0].piece", "30 kg, but should be at most 10 kg", "check"},
			{kitchen.OutOfRange, "packs.balls-six.fill", "180.05 kg, but should be at most 50 kg", "check"},
		}},
	})
}

func TestNotesAndCautionsAboutDishes(t *testing.T) {
	testSlips(t, finding.Note, []slipCase{
		{slip{"{from: peel, take: all}, ", ""}, []found{{kitchen.ByProductUnused, "dishes.dal.steps[0].gives[1]", "uses the by-product peel", "left over"}}},
	})
	testSlips(t, finding.Caution, []slipCase{
		{slip{"  balls:\n", "  cubes: {name: cubes, steps: [{id: cut, do: Cut., use: [{of: onion, amount: 1 kg}]}]}\n  balls:\n"}, []found{
			{kitchen.DishWithoutPack, "dishes.cubes", "no pack is filled", "packs:"},
		}},
	})
}

func TestSlipsInPacks(t *testing.T) {
	testSlips(t, finding.Stop, []slipCase{
		{slip{"bag: small, pace: 40 s", "bag: smal, pace: 40 s"}, []found{{kitchen.UnknownReference, "packs.dal-lb.bag", "no bag smal", "did you mean small?"}}},
		{slip{"fill: [{of: finish, mass: 1 lb}]", "fill: []"}, []found{
			{kitchen.FillsNothing, "packs.dal-lb.fill", "nothing goes into the pack", "fill:"},
			{kitchen.OutputUnused, "dishes.dal.steps[3]", "uses finish", "pack"},
		}},
		{slip{"{of: finish, mass: 1 lb}", "{of: finish, mass: 1 lb, pieces: 2}"}, []found{{kitchen.FillMassOrPieces, "packs.dal-lb.fill[0]", "a mass and a number of pieces", "keep one"}}},
		{slip{"{of: finish, mass: 1 lb}", "{of: finish}"}, []found{{kitchen.FillMassOrPieces, "packs.dal-lb.fill[0]", "how much goes in", "pieces:"}}},
		{slip{"{of: finish, mass: 1 lb}", "{of: finish, pieces: 2}"}, []found{{kitchen.PieceMassMissing, "packs.dal-lb.fill[0].pieces", "a piece of finish weighs", "piece:"}}},
		{slip{"{of: finish, mass: 1 lb}", "{of: finish, pieces: -2}"}, []found{{kitchen.OutOfRange, "packs.dal-lb.fill[0].pieces", "-2, but should be at least 0", "check"}}},
		{slip{"{of: finish, mass: 1 lb}", "{of: finish, mass: 51 kg}"}, []found{{kitchen.OutOfRange, "packs.dal-lb.fill", "51 kg, but should be at most 50 kg", "check"}}},
		{slip{"crew: 2", "crew: -2"}, []found{{kitchen.OutOfRange, "packs.dal-lb.crew", "-2", "check"}}},
		{slip{"price: $6.50", "price: -$6.50"}, []found{{kitchen.OutOfRange, "packs.dal-lb.price", "-6.5, but should be at least 0", "check"}}},
		{slip{"crew: 2", "thickness: 25 in"}, []found{{kitchen.OutOfRange, "packs.dal-lb.thickness", "0.635 m, but should be at most 0.3 m", "check"}}},
	})
	testSlips(t, finding.Note, []slipCase{
		{slip{"runs:\n", "  peel-lb: {name: peel, dish: dal, fill: [{of: peel, mass: 1 lb}], bag: small, pace: 40 s}\nruns:\n"}, []found{
			{kitchen.PackOfByProduct, "packs.peel-lb.fill", "only by-products", "meant"},
		}},
	})
}

func TestSlipsInRuns(t *testing.T) {
	const first = "runs.tuesday.want[0]"
	testSlips(t, finding.Stop, []slipCase{
		{slip{"day: 2026-12-01", "day: 2026-13-01"}, []found{{kitchen.BadDate, "runs.tuesday.day", `"2026-13-01" is no date`, "2026-12-01"}}},
		{slip{"day: 2026-12-01", "day: 2026-12-01, today: tomorrow"}, []found{{kitchen.BadDate, "runs.tuesday.today", `"tomorrow" is no date`, "2026-12-01"}}},
		{slip{"day: 2026-12-01", "day: 2026-12-01, today: 2026-12-02"}, []found{{kitchen.BadDate, "runs.tuesday.today", "on 2026-12-02, after it starts on 2026-12-01", "a later day:"}}},
		{slip{"day: 2026-12-01", "today: 2026-12-02"}, []found{{kitchen.BadDate, "runs.tuesday.today", "not when it starts", "write day:"}}},
		{slip{"reserve: 3 %", "reserve: 300 %"}, []found{{kitchen.OutOfRange, "runs.tuesday.reserve", "300 %", "check"}}},
		{slip{"{pack: dal-lb, count: 40}", "{count: 40}"}, []found{{kitchen.TargetOfWhat, first, "no pack and no dish", "pack:"}}},
		{slip{"{pack: dal-lb, count: 40}", "{pack: dal-lb, dish: dal, count: 40}"}, []found{{kitchen.TargetOfWhat, first, "the pack dal-lb and the dish dal", "two targets"}}},
		{slip{"{pack: dal-lb, count: 40}", "{pack: dal-1b, count: 40}"}, []found{{kitchen.UnknownReference, first + ".pack", "no pack dal-1b", "did you mean dal-lb?"}}},
		{slip{"{pack: dal-lb, count: 40}", "{pack: dal-lb}"}, []found{{kitchen.TargetMeasure, first, "how much is wanted", "count:"}}},
		{slip{"{pack: dal-lb, count: 40}", "{pack: dal-lb, count: -1}"}, []found{{kitchen.CountTooSmall, first + ".count", "count is -1", "how many"}}},
		{slip{"{pack: dal-lb, count: 40}", "{pack: dal-lb, count: 40, as-many: true}"}, []found{{kitchen.TargetMeasure, first, "2 measures: count and as-many", "one of"}}},
		{slip{"{pack: dal-lb, count: 40}", "{pack: dal-lb, as-many: true}"}, []found{{kitchen.TargetMeasure, first + ".as-many", "no measure for this target", "a dish takes"}}},
		{slip{"{pack: dal-lb, count: 40}", "{dish: dal, count: 40}"}, []found{{kitchen.TargetMeasure, first + ".count", "no measure for this target", "a pack takes"}}},
		{slip{"{pack: dal-lb, count: 40}", "{pack: dal-lb, count: 40, mix: {dal-lb: 1}}"}, []found{{kitchen.TargetMeasure, first + ".mix", "only a dish", "dish:"}}},
		{slip{"{of: lentil, amount: 9 kg}", "{of: onion, amount: 9 kg}"}, []found{{kitchen.TargetNotInDish, "runs.tuesday.want[1].use.of", "does not use onion", "dish uses"}}},
		{slip{"{of: lentil, amount: 9 kg}", "{of: lentl, amount: 9 kg}"}, []found{{kitchen.UnknownReference, "runs.tuesday.want[1].use.of", "no ingredient lentl", "did you mean lentil?"}}},
		{slip{"{of: lentil, amount: 9 kg}", "{of: lentil, amount: 0 kg}"}, []found{{kitchen.OutOfRange, "runs.tuesday.want[1].use.amount", "nothing", "how much"}}},
		{slip{"mix: {balls-six: 1}", "mix: {balls-six: 0}"}, []found{{kitchen.CountTooSmall, "runs.tuesday.want[1].mix.balls-six", "its part is 0", "whole number"}}},
		{slip{"mix: {balls-six: 1}", "mix: {balls-six: 1, dal-lb: 2}"}, []found{{kitchen.TargetNotInDish, "runs.tuesday.want[1].mix.dal-lb", "filled from the dish dal, not balls", "this dish"}}},
		{slip{"fill-vessel: pot", "fill-vessel: board"}, []found{{kitchen.VesselIsNone, "runs.tuesday.want[2].fill-vessel", "board is a table", "pot"}}},
	})
}

func TestCheckRequestSpeaksOfTheRequestsOwnFile(t *testing.T) {
	got := kitchen.CheckRequest(kitchen.Book{}, kitchen.Request{Want: []kitchen.Want{{Pack: "dal-lb", Count: 4}}})
	if len(got) != 1 || got[0].Path != "want[0].pack" || got[0].Where != "the request, target 1" || got[0].Code != string(kitchen.UnknownReference) {
		t.Errorf("got %s", show(got))
	}
	if got = kitchen.CheckRequest(kitchen.Book{}, kitchen.Request{}); len(got) != 1 || got[0].Code != string(kitchen.NoTarget) {
		t.Errorf("an empty request: %s", show(got))
	}
}
