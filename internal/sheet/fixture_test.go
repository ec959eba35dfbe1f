package sheet

import (
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// barleyPlan is written by hand to touch every part of the sheet. Its figures are invented and need not agree with each other.
func barleyPlan() plan.Plan {
	return plan.Plan{
		Schema: plan.Schema, Kitchen: "Test kitchen (invented)", Note: "Every figure here is invented.", Units: unit.US, Currency: "$",
		Run: "barley for Monday", Day: "2026-11-30",
		Findings: barleyFindings(),
		Summary: plan.Summary{Packs: 22, FoodMass: 44 * unit.Pound, Start: 6 * 60, End: 15*60 + 30, HandsOn: 5*unit.Hour + 20*unit.Minute,
			BuyTotal: 61_250_000, CostTotal: 88_400_000, CostLower: true},
		Dishes: []plan.Dish{barleyDish()}, Timetable: barleyDay(), Chill: barleyChill(), Fill: barleyFill(), Freeze: barleyFreeze(), Cards: barleyCards(), Buy: barleyBuy(),
		Cost: []plan.PackCost{{Pack: "barley-2lb", Name: "Barley stew, 2 lb", Food: 1_900_000, Packaging: 170_000, Labour: 1_940_000, Total: 4_010_000,
			Price: 9_500_000, FoodShare: 20 * unit.PerCent, Missing: []string{"bay leaf"},
			Ingredients: []plan.CostLine{{Name: "carrot", Mass: 300 * unit.Gram, Cost: 1_100_000}, {Name: "pearl barley", Mass: 120 * unit.Gram, Cost: 800_000}}}},
		Labels: []plan.Label{{Pack: "barley-2lb", Name: "Barley stew", Net: 2 * unit.Pound, Statement: "Water, carrot, pearl barley, bay leaf.", Contains: "",
			Withheld: true, Missing: []string{"nobody has answered for the allergens of bay leaf"}, NearTies: []string{"carrot and pearl barley"},
			Cautions: []string{"Keep frozen. Vacuum packs of cooked food need the local authority's consent."}}},
	}
}

func barleyFindings() finding.List {
	return finding.List{
		{Code: plan.CodeChillSlow, Severity: finding.Stop, Where: "dish barley, output stew", At: &finding.Position{File: "dishes/barley.yaml", Line: 12, Column: 5},
			Message: "no way of chilling in the book brings it to 41 °F in time",
			Figures: []finding.Figure{{Name: "135 to 70 °F", Value: 11_400, Unit: "s", Text: "3 h 10 min"}, {Name: "limit", Value: 7200, Unit: "s", Text: "2 h"}},
			Source:  "FDA Food Code 2022, 3-501.14(A)", Fix: "spread it in shallow pans or add an ice bath"},
		{Code: plan.CodePriceMissing, Severity: finding.Caution, Where: "ingredient bay-leaf", Message: "it has no price, so costs are a lower bound"},
		{Code: plan.CodeSurplus, Severity: finding.Note, Where: "dish barley", Message: "12 oz of strained water is left over"},
	}
}

func barleyDish() plan.Dish {
	hot := unit.TempF(200)
	return plan.Dish{
		ID: "barley", Name: "barley stew", Target: "22 packs of barley-2lb", Limit: "room in the freezers", In: 48 * unit.Pound, Out: 44 * unit.Pound, Lost: 4 * unit.Pound,
		Surplus:  []plan.Line{{ID: "thin", Name: "strained water", Mass: 12 * unit.Ounce}},
		BoughtIn: []plan.Line{{ID: "oil", Name: "rapeseed oil", Mass: 6 * unit.Ounce}},
		Steps: []plan.Step{
			{ID: "dice", Do: "Dice the carrots.", Scale: 4.4, Equipment: "cutting table", Loads: plan.Loads{Count: 1, Mass: 10 * unit.Pound, Limit: "no limit"},
				In: []plan.Line{{ID: "carrot", Name: "carrot", Mass: 10 * unit.Pound, Kind: plan.Fresh}}, Out: []plan.Line{{ID: "diced", Name: "diced carrot", Mass: 10 * unit.Pound, Kind: plan.Product}},
				Time: 25 * unit.Minute, HandsOn: 25 * unit.Minute, Starts: []unit.Moment{360}},
			{ID: "simmer", Do: "Simmer the barley with the carrots until it is soft but not split.", How: "Skim at first.", Scale: 4.4, Equipment: "60 qt pot",
				Loads: plan.Loads{Count: 2, Mass: 24 * unit.Pound, Volume: 3 * unit.Gallon, Limit: "volume", Full: 25 * unit.PerCent}, HeatTo: &hot, HeatUp: 22 * unit.Minute, Time: 40 * unit.Minute, HandsOn: 8 * unit.Minute,
				In: []plan.Line{
					{ID: "water", Name: "water", Mass: 30 * unit.Pound, Each: 15 * unit.Pound, Volume: unit.VolumeL(13.6), Kind: plan.MadeUp},
					{ID: "diced", Name: "diced carrot", Mass: 10 * unit.Pound, Each: 5 * unit.Pound, Kind: plan.Earlier},
					{ID: "fat", Name: "skimmed fat", Mass: 10 * unit.Ounce, Each: 5 * unit.Ounce, Kind: plan.Earlier, StandIn: "rapeseed oil", Short: 6 * unit.Ounce},
				},
				Out: []plan.Line{
					{ID: "stew", Name: "stew", Mass: 44 * unit.Pound, Each: 22 * unit.Pound, Kind: plan.Product},
					{ID: "dumpling", Name: "dumplings", Mass: 2 * unit.Pound, Pieces: 60, Kind: plan.ByProduct},
				},
				Losses: []plan.Loss{{Cause: "evaporation", Mass: 3 * unit.Pound}, {Cause: "residue", Mass: unit.Pound}}, Starts: []unit.Moment{390, 480}},
		},
	}
}

func barleyDay() plan.Timetable {
	return plan.Timetable{
		Aims: []plan.AimResult{{Aim: kitchen.Finish, Value: 9*unit.Hour + 30*unit.Minute, Bound: 9 * unit.Hour, Status: "feasible"},
			{Aim: kitchen.LeastWaiting, Value: 20 * unit.Minute, Bound: 5 * unit.Minute, Status: "feasible"}},
		Status: "feasible", Start: 360, End: 930, Length: 9*unit.Hour + 30*unit.Minute, Bound: 9 * unit.Hour, BoundWhy: "the longest chain of tasks",
		Tasks: []plan.Task{
			{Dish: "barley", Step: "dice", Label: "dice the carrots", Load: 1, Loads: 1, Kind: plan.Cook, Start: 360, End: 385, People: []string{"Ada"}, On: []string{"cutting table"}, Slack: 5 * unit.Minute},
			{Dish: "barley", Step: "simmer", Label: "simmer", Load: 1, Loads: 2, Kind: plan.Cook, Start: 390, End: 452, People: []string{"Ada", "Ben"}, On: []string{"60 qt pot 1", "burner 1"}},
			{Dish: "barley", Step: "fill", Label: "fill barley-2lb", Load: 1, Loads: 1, Kind: plan.Filling, Start: 900, End: 930, People: []string{"Ben"}},
		},
		Rows: []plan.Row{
			{Name: "Ada", Person: true, Bars: []plan.Bar{{Task: 0, From: 360, To: 385}, {Task: 1, From: 390, To: 396}}, Away: []plan.Bar{{Task: -1, From: 600, To: 630}}},
			{Name: "Ben", Person: true, Bars: []plan.Bar{{Task: 1, From: 390, To: 396}, {Task: 2, From: 900, To: 930}}},
			{Name: "60 qt pot 1", Bars: []plan.Bar{{Task: 1, From: 390, To: 452}}},
		},
	}
}

func barleyChill() []plan.Chill {
	fast, slow, slowest, never := 150*unit.Minute, 190*unit.Minute, 260*unit.Minute, (*unit.Span)(nil)
	return []plan.Chill{{
		Dish: "barley", Output: "stew", Name: "stew", Mass: 44 * unit.Pound, From: unit.TempF(200), Chosen: -1, Rule: "135 to 70 °F in 2 h, 135 to 41 °F in 6 h", Source: "FDA Food Code 2022, 3-501.14(A)",
		Options: []plan.ChillOption{{ID: "pot", Name: "60 qt pot left in the walk-in", Stages: []plan.ChillStage{{Name: "60 qt pot left in the walk-in", Vessels: 1, Have: 3, Formula: "conduction in a finite cylinder"}}, To70: &slow, Fast70: &fast, Slow70: &slowest, To41: never,
			Verdict: plan.ChillNever, Notes: []string{"its surface dries"}, Fits: []string{"cool 4 lb at a time"}, Ice: 9 * unit.Pound, HandsOn: unit.Minute,
			Why: "the air is warmer than the limit at the core"}},
	}}
}

func barleyFill() []plan.PackFill {
	return []plan.PackFill{{Pack: "barley-2lb", Name: "Barley stew, 2 lb", Dish: "barley", Count: 22, Low: 20, High: 23, Wanted: 24, Net: 2 * unit.Pound, Bag: "8 x 12 in", Proof: "optimal", Time: 18 * unit.Minute,
		Each: []plan.Line{{Name: "dumplings", Mass: 1.5 * 2 * unit.Ounce, Pieces: 3}, {Name: "stew", Mass: 29 * unit.Ounce}}}}
}

func barleyFreeze() plan.Freeze {
	return plan.Freeze{
		Packs: []plan.PackFreeze{{Pack: "barley-2lb", Name: "Barley stew, 2 lb", Freezer: "chest freezer", Thickness: unit.Inch, From: unit.TempF(41), To: unit.TempF(0), Time: 6 * unit.Hour, Lies: "apart",
			Slow: 8 * unit.Hour, Fast: 5 * unit.Hour, Pham: 6 * unit.Hour, Plank: 4 * unit.Hour, Begins: unit.TempC(-0.8), Otherwise: []plan.Lying{{Lies: "stacked 4 high", Time: 26 * unit.Hour}}}},
		Schedule: plan.FreezeSchedule{Days: 2, Left: 3, LeftMass: 6 * unit.Pound, Last: 30 * unit.Hour, Remedies: []string{"18 of Barley stew, 2 lb instead of 22"},
			Entries:  []plan.FreezeEntry{{Day: 1, Freezer: "chest freezer", Name: "Barley stew, 2 lb", Count: 12, Takes: 7 * unit.Hour}, {Day: 2, Freezer: "chest freezer", Name: "Barley stew, 2 lb", Count: 7, Takes: 6 * unit.Hour}},
			Cabinets: []plan.CabinetDay{{Freezer: "chest freezer", AirPeak: unit.TempC(-14), StockPeak: unit.TempC(-16), FullPower: 5 * unit.Hour}}},
		Freezers: []plan.FreezerIntake{{ID: "chest", Name: "chest freezer", ByHeat: 60 * unit.Pound, RuleLow: 50 * unit.Pound, RuleHigh: 75 * unit.Pound, Room: 200 * unit.Pound}},
		Load:     44 * unit.Pound, PerDay: 60 * unit.Pound, RuleLow: 50 * unit.Pound, RuleHigh: 75 * unit.Pound, Room: 200 * unit.Pound, Source: "2 to 3 lb for each cubic foot in 24 h",
	}
}

func barleyBuy() plan.Buy {
	return plan.Buy{Goods: 61_250_000, Delivery: 4_500_000, Total: 65_750_000, Orders: []plan.BuyOrder{
		{Supplier: "stall", Name: "Market stall", OrderBy: "2026-11-30", Goods: 61_250_000, Delivery: 4_500_000, Minimum: 75_000_000, ToFree: 13_750_000}}, Lines: []plan.BuyLine{
		{ID: "carrot", Name: "carrot", Storage: "chilled", Need: 10 * unit.Pound, Trim: 2 * unit.Pound, AP: 12 * unit.Pound, ToBuy: 12 * unit.Pound, Total: 21_000_000, Over: 13 * unit.Pound,
			Packs: []plan.BuyPack{{Supplier: "Market stall", Name: "25 lb sack", Count: 1, Price: 21_000_000}}},
		{ID: "bay", Name: "bay leaf", Storage: "dry", Need: 4 * unit.Gram, AP: 4 * unit.Gram, ToBuy: 4 * unit.Gram, Missing: "nobody offers it"},
		{ID: "barley", Name: "pearl barley", Storage: "dry", Need: 6 * unit.Pound, AP: 6 * unit.Pound, Stock: 9 * unit.Pound},
		{ID: "water", Name: "water", Storage: "dry", Need: 30 * unit.Pound, AP: 30 * unit.Pound, Free: true},
	}}
}

func barleyCards() []plan.Card {
	return []plan.Card{{Pack: "barley-2lb", Name: "Barley stew, 2 lb", Thickness: unit.Inch, Thinnest: unit.Inch * 4 / 5, Thickest: unit.Inch * 13 / 10, Water: unit.TempC(95), Missing: []string{"nobody has said so"},
		Frozen: plan.CardTime{Verdict: "done-well", Minutes: 50, Worst: 44 * unit.Minute, Nominal: 23 * unit.Minute},
		Lines: []plan.CardLine{{Code: "minutes-from-frozen", Section: "steps", Text: "From frozen: 50 minutes."}, {Code: "check-middle", Section: "check", Text: "Check that the middle is 165 °F."},
			{Code: "worst-case", Section: "kitchen", Text: "The worst case takes 44 minutes."}}}}
}
