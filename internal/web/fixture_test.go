package web

import (
	"kettlefrost/internal/finding"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// madePlan is a plan made by hand, with something of everything that a page must tell apart.
func madePlan() plan.Plan {
	hot := unit.TempF(200)
	hours := func(h float64) *unit.Span { d := unit.SpanS(h * 3600); return &d }
	return plan.Plan{
		Schema: plan.Schema, Kitchen: "Test", Units: unit.US, Currency: "$", Run: "a run",
		Findings: finding.List{
			{Code: plan.CodeChillSlow, Severity: finding.Stop, Where: "dish leek", Message: "no way of chilling is fast enough", Source: "the code", Fix: "use pans",
				Figures: []finding.Figure{{Name: "takes", Value: 9, Unit: "h", Text: "9 h"}}},
			{Code: plan.CodeHotBlender, Severity: finding.Caution, Where: "dish leek, step blend", Path: "dishes.leek.steps[1]", Message: "hot soup climbs in a jar", Fix: "fill it a third"},
			{Code: plan.CodeSurplus, Severity: finding.Note, Where: "dish leek", Message: "some stock is left"},
		},
		Summary: plan.Summary{Packs: 12, FoodMass: 12 * unit.Pound, Start: 420, End: 1450, HandsOn: 2 * unit.Hour, BuyTotal: 30 * unit.MoneyUnit, CostTotal: 44 * unit.MoneyUnit, CostLower: true},
		Dishes: []plan.Dish{{ID: "leek", Name: "leek soup", Target: "12 × Leek soup", In: 14 * unit.Pound, Out: 12 * unit.Pound, Lost: 2 * unit.Pound, Steps: []plan.Step{
			{ID: "sweat", Do: "Sweat the leeks.", Equipment: "big pot", Loads: plan.Loads{Count: 1, Mass: 14 * unit.Pound, Limit: "volume", Full: 60 * unit.PerCent},
				In: []plan.Line{{ID: "leek", Name: "leeks", Mass: 9 * unit.Pound, Kind: plan.Fresh}}, Out: []plan.Line{{ID: "soft", Name: "soft leeks", Mass: 8 * unit.Pound, Kind: plan.Product}},
				HeatTo: &hot, HeatUp: 25 * unit.Minute, Losses: []plan.Loss{{Cause: "evaporation", Mass: unit.Pound}}, Starts: []unit.Moment{420}},
			{ID: "blend", Do: "Blend.", Equipment: "jar", Loads: plan.Loads{Count: 6, Mass: 2 * unit.Pound, Limit: "volume", Full: 95 * unit.PerCent},
				In: []plan.Line{{ID: "soft", Name: "soft leeks", Mass: 8 * unit.Pound, Each: 20 * unit.Ounce, Kind: plan.Earlier}}, Starts: []unit.Moment{480, 490, 500, 510, 520, 530}},
		}}},
		Timetable: plan.Timetable{Status: "feasible", Start: 420, End: 1450, Bound: 10 * unit.Hour, BoundWhy: "the jar",
			Tasks: []plan.Task{{Dish: "leek", Step: "blend", Label: "Blend.", Load: 2, Loads: 6, Kind: plan.Cook, Start: 480, End: 490, People: []string{"Ada", "Bo"}, On: []string{"jar"}},
				{Dish: "leek", Step: "sweat", Label: "Sweat the leeks until they are soft.", Load: 1, Loads: 1, Kind: plan.Cook, Start: 420, End: 1450, People: []string{"Ada"}}},
			Rows: []plan.Row{{Name: "Ada", Person: true, Bars: []plan.Bar{{Task: 1, From: 420, To: 425}, {Task: 0, From: 480, To: 490}, {Task: 1, From: 500, To: 502}, {Task: 1, From: 502, To: 504}},
				Away: []plan.Bar{{Task: -1, From: 430, To: 445}, {Task: -1, From: 600, To: 700}}}}},
		Chill: []plan.Chill{{Dish: "leek", Name: "leek soup", Mass: 12 * unit.Pound, From: hot, Chosen: -1, Rule: "a rule", Source: "the code", Options: []plan.ChillOption{
			{Name: "pot in the walk-in", Stages: []plan.ChillStage{{Name: "pot in the walk-in", Vessels: 3, Have: 2, Formula: "a series"}}, To70: hours(9), Fast70: hours(7), Slow70: hours(12), Verdict: plan.ChillSlow,
				Fits: []string{"cool 4 lb at a time"}},
			{Name: "a box", Verdict: plan.ChillNever}, {Name: "pans", Verdict: plan.ChillUnknown}}}},
		Fill: []plan.PackFill{{Pack: "leek-lb", Name: "Leek soup", Count: 12, Low: 11, High: 13, Wanted: 14, Net: unit.Pound, Bag: "a bag", Proof: "optimal", Time: unit.Hour,
			Each: []plan.Line{{Name: "dumplings", Pieces: 6, Mass: 6 * unit.Ounce}, {Name: "soup", Mass: 10 * unit.Ounce}}}},
		Buy: plan.Buy{Total: 30 * unit.MoneyUnit, Lines: []plan.BuyLine{
			{ID: "leek", Name: "leeks", Storage: "chilled", Need: 9 * unit.Pound, Trim: 9 * unit.Pound, AP: 18 * unit.Pound, ToBuy: 18 * unit.Pound, Over: 6 * unit.Pound, Total: 30 * unit.MoneyUnit,
				Packs: []plan.BuyPack{{Supplier: "Farm", Name: "12 lb case", Count: 2, Price: 15 * unit.MoneyUnit}}},
			{ID: "mace", Name: "mace", Storage: "dry", AP: unit.Gram, Missing: "nobody sells it"},
			{ID: "water", Name: "water", AP: unit.Pound, Free: true}}},
		Cost: []plan.PackCost{{Name: "Leek soup", Food: 2 * unit.MoneyUnit, Total: 3 * unit.MoneyUnit, Missing: []string{"mace"},
			Ingredients: []plan.CostLine{{Name: "salt", Mass: unit.Gram, Cost: 900 * unit.MicroMoney}}}},
		Labels: []plan.Label{{Name: "Leek soup", Net: unit.Pound, Statement: "Ingredients: leeks.", Withheld: true, Missing: []string{"allergens of mace"}}},
	}
}
