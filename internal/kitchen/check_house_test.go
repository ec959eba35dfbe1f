package kitchen_test

import (
	"testing"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
)

func TestSlipsInTheHouse(t *testing.T) {
	testSlips(t, finding.Stop, []slipCase{
		{slip{"{name: Mill Lane, air", "{name: ' ', air"}, []found{{kitchen.EmptyText, "kitchen.name", "name is empty", "name:"}}},
		{slip{"air: 21 °C", "air: 72 °C"}, []found{{kitchen.OutOfRange, "kitchen.air", "air is 72 °C, but should be at most 50 °C", "unit"}}},
		{slip{"to: 15:00", "to: 05:00"}, []found{{kitchen.ShiftBackwards, "people.ann.shift.to", "ends at 05:00, not after its start at 06:30", "24:00"}}},
		{slip{"from: 12:00, to: 12:30", "from: 12:30, to: 12:00"}, []found{{kitchen.ShiftBackwards, "people.ann.shift.breaks[1].to", "break ends at 12:00", "correct"}}},
		{slip{"from: 12:00, to: 12:30", "from: 14:45, to: 15:15"}, []found{{kitchen.BreakOutside, "people.ann.shift.breaks[1]", "14:45 to 15:15 is not within the shift from 06:30 to 15:00", "move"}}},
		{slip{"from: 12:00, to: 12:30", "from: 10:10, to: 10:30"}, []found{{kitchen.BreaksOverlap, "people.ann.shift.breaks[1]", "overlaps break 1, from 10:00 to 10:15", "one break"}}},
		{slip{"altitude: 900 ft", "altitude: 900 ft, net-contents: {scatter: 20 %, confidence: 100 %, scale: 1 lb}"}, []found{
			{kitchen.OutOfRange, "kitchen.net-contents.confidence", "100 %, but should be at most 99.9 %", "check"}, {kitchen.OutOfRange, "kitchen.net-contents.scale", "0.454 kg, but should be at most 0.1 kg", "unit"},
			{kitchen.OutOfRange, "kitchen.net-contents.scatter", "20 %, but should be at most 10 %", "check"}}},
		{slip{"altitude: 900 ft", "altitude: 30000 ft"}, []found{{kitchen.OutOfRange, "kitchen.altitude", "9144 m, but should be at most 5000 m", "unit"}}},
		{slip{"wage: $19.50/h", "wage: $1950/h"}, []found{{kitchen.OutOfRange, "people.ann.wage", "1950 an hour, but should be at most 1000 an hour", "check"}}},
		{slip{"  ann: {", "  Ann B: {"}, []found{{kitchen.BadID, "people.Ann B", `"Ann B" cannot be an id`, "lower-case"}}},
		{slip{"{name: the mill}", "{name: ''}"}, []found{{kitchen.EmptyText, "suppliers.mill.name", "empty", "name:"}}},
	})
}

func TestSlipsInEquipment(t *testing.T) {
	testSlips(t, finding.Stop, []slipCase{
		{slip{"kind: vessel, count: 3", "kind: vessel, count: 0"}, []found{{kitchen.CountTooSmall, "equipment.pot.count", "count is 0", "how many"}}},
		{slip{"kind: vessel, count: 3", "kind: vessel, count: -3"}, []found{{kitchen.CountTooSmall, "equipment.pot.count", "count is -3", "how many"}}},
		{slip{"volume: 60 qt, ", ""}, []found{{kitchen.SizeMissing, "equipment.pot.volume", "volume is nothing", "measure it"}}},
		{slip{"diameter: 16 in, ", ""}, []found{{kitchen.SizeMissing, "equipment.pot.diameter", "diameter is nothing", "measure it"}}},
		{slip{"diameter: 16 in", "diameter: 16 ft"}, []found{{kitchen.OutOfRange, "equipment.pot.diameter", "4.877 m, but should be at most 3 m", "unit"}}},
		{slip{"working: 80 %", "working: 120 %"}, []found{{kitchen.OutOfRange, "equipment.pot.working", "120 %, but should be at most 100 %", "check"}}},
		{slip{"efficiency: 40 %", "efficiency: 400 %"}, []found{{kitchen.OutOfRange, "equipment.burner.efficiency", "400 %", "check"}}},
		{slip{"power: 30000 Btu/h", "power: 30000 kW"}, []found{{kitchen.OutOfRange, "equipment.burner.power", "30000 kW, but should be at most 500 kW", "check"}}},
		{slip{"count: 1, volume: 4 L", "count: 1"}, []found{{kitchen.SizeMissing, "equipment.jar.volume", "how much the jar holds", "measure"}}},
		{slip{"places: 6", "places: 0"}, []found{{kitchen.CountTooSmall, "equipment.oven.places", "places is 0", "how many"}}},
		{slip{"needs: [burner]", "needs: [brnuer]"}, []found{
			{kitchen.UnknownReference, "equipment.pot.needs[0]", "no equipment brnuer", "did you mean burner?"},
		}},
		{slip{"needs: [burner]", "needs: [burner, pot]"}, []found{{kitchen.NeedsItself, "equipment.pot.needs[1]", "pot needs itself", "burner"}}},
		{slip{"medium: 1 °C", "medium: 20 °C"}, []found{{kitchen.OutOfRange, "chilling.bath.medium", "20 °C, but should be at most 10 °C", "check"}}},
		{slip{"vessel: pot, wall", "vessel: board, wall"}, []found{{kitchen.VesselIsNone, "chilling.bath.vessel", "board is a table, not a vessel", "pot"}}},
		{slip{"vessel: pot, wall", "vessel: pto, wall"}, []found{{kitchen.UnknownReference, "chilling.bath.vessel", "no vessel pto", "did you mean pot?"}}},
		{slip{"vessel: pot, wall", "wall"}, []found{{kitchen.UnknownReference, "chilling.bath.vessel", `no vessel ""`, "pot"}}},
		{slip{"depth: 2 in, ", ""}, []found{{kitchen.SizeMissing, "chilling.pans.depth", "depth is nothing", "measure it"}}},
		{slip{"tending: 25 %", "tending: 250 %"}, []found{{kitchen.OutOfRange, "chilling.bath.tending", "250 %", "check"}}},
		{slip{"set-up: 5 min", "set-up: 8 days"}, []found{{kitchen.OutOfRange, "chilling.bath.set-up", "192 h, but should be at most 168 h", "check"}}},
		{slip{"medium: 1 °C, ", ""}, []found{{kitchen.SizeMissing, "chilling.bath.medium", "medium is missing", "in:"}}},
		{slip{", wall: 110 W/m2K", ""}, []found{{kitchen.SizeMissing, "chilling.bath", "how well heat leaves", "top:, bottom: or wall:"}}},
		{slip{"in: still-air, count: 1", "in: stil-air, count: 1"}, []found{{kitchen.UnknownReference, "chilling.stick.in", "no medium stil-air", "did you mean still-air?"}}},
		{slip{"first: bath", "first: stages"}, []found{{kitchen.UnknownReference, "chilling.stages.first", "no simple way of chilling stages", "bath"}}},
		{slip{"until: 70 °F, ", ""}, []found{{kitchen.SizeMissing, "chilling.stages.until", "until is missing", "70 °F"}}},
		{slip{"paddles: {count: 4, water: 3.6 kg", "paddles: {count: 0, water: 0 kg"}, []found{
			{kitchen.CountTooSmall, "chilling.stick.paddles.count", "count is 0", "how many"}, {kitchen.SizeMissing, "chilling.stick.paddles.water", "water is nothing", "measure"}}},
		{slip{"method: stirred bath, in: still-air", "method: pot in air, in: still-air"}, []found{{kitchen.UsesNothing, "chilling.stick.paddles", "has no stirred pot", "stirred bath"}}},
		{slip{"low: 5 W/m2K, usual: 7", "low: 8 W/m2K, usual: 7"}, []found{{kitchen.RangeBackwards, "media.still-air", "do not rise", "smallest"}}},
		{slip{"  still-air: {low", "  stil-air: {low"}, []found{{kitchen.UnknownReference, "media.stil-air", "no medium stil-air", "did you mean still-air?"}}},
		{slip{"film: 8 W/m2K,", "film: 8 W/m2K, lay: stacked,"}, []found{{kitchen.CountTooSmall, "freezers.chest.high", "at least 2", "lay: apart"}}},
		{slip{"air: -20 °C", "air: -4 °C"}, []found{{kitchen.OutOfRange, "freezers.chest.air", "-4 °C, but should be at most -5 °C", "check"}}},
		{slip{"cooling: 130 W", "cooling: 0 W"}, []found{{kitchen.SizeMissing, "freezers.chest.cooling", "cooling is nothing", "write it"}}},
		{slip{"room: 800 lb", "room: 0 lb"}, []found{
			{kitchen.SizeMissing, "freezers.chest.room", "room is nothing", "write it"},
		}},
		{slip{"length: 8 in", "length: 8 ft"}, []found{{kitchen.OutOfRange, "bags.small.length", "2.438 m, but should be at most 2 m", "check"}}},
		{slip{"price: $0.11", "price: -$0.11"}, []found{{kitchen.OutOfRange, "bags.small.price", "-0.11, but should be at least 0", "check"}}},
		{slip{"stock: 500", "stock: -1"}, []found{{kitchen.OutOfRange, "bags.small.stock", "-1, but should be at least 0", "check"}}},
	})
}

func TestCautionsAboutEquipment(t *testing.T) {
	testSlips(t, finding.Caution, []slipCase{
		{slip{"holds: 100 lb", "holds: 900 lb"}, []found{{kitchen.FreezerOverfull, "freezers.chest.holds", "900 lb, more than its room of 800 lb", "correct"}}},
		{slip{"power: 30000 Btu/h, ", ""}, []found{
			{kitchen.NoHeat, "dishes.dal.steps[1].in[0]", "nothing heats pot", "burner"}, {kitchen.NoHeat, "dishes.dal.steps[2].in[0]", "to 100 °C", "power"},
		}},
		{slip{", needs: [burner]}", "}"}, []found{
			{kitchen.NoHeat, "dishes.dal.steps[1].in[0]", "nothing heats pot", "burner"}, {kitchen.NoHeat, "dishes.dal.steps[2].in[0]", "to 100 °C", "power"},
		}},
	})
}

func TestSlipsInTrials(t *testing.T) {
	testSlips(t, finding.Stop, []slipCase{
		{slip{"power: 900 W, mass", "mass"}, []found{{kitchen.SizeMissing, "packs.dal-lb.trials[0].power", "power is nothing", "measure it"}}},
		{slip{"method: microwave", "method: oven"}, []found{{kitchen.SizeMissing, "packs.dal-lb.trials[0].set", "set is missing", "oven"}}},
		{slip{"time: 9 min", "time: 0 min"}, []found{{kitchen.SizeMissing, "packs.dal-lb.trials[0].time", "time is nothing", "measure it"}}},
		{slip{", 77 °C]", "]"}, []found{{kitchen.CountTooSmall, "packs.dal-lb.trials[0].spots", "4 temperatures are given, of 5 spots", "opposite corners"}}},
		{slip{"spots: [80 °C", "spots: [800 °C"}, []found{{kitchen.OutOfRange, "packs.dal-lb.trials[0].spots[0]", "800 °C, but should be at most 150 °C", "unit"}}},
		{slip{"date: 2026-11-20", "date: Friday"}, []found{{kitchen.BadDate, "packs.dal-lb.trials[0].date", `"Friday" is no date`, "2026-12-01"}}},
		{slip{"who: Ann", "who: ''"}, []found{{kitchen.EmptyText, "packs.dal-lb.trials[0].who", "who is empty", "who:"}}},
		{slip{"start: -18 °C", "start: 60 °C"}, []found{{kitchen.OutOfRange, "packs.dal-lb.trials[0].start", "60 °C, but should be at most 30 °C", "check"}}},
	})
}
