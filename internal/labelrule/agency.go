package labelrule

import (
	"fmt"

	"kettlefrost/internal/unit"
)

// Contents are shares of a ready-to-serve food by weight, as the two agencies draw their line.
type Contents struct {
	RawMeat       unit.Share // red meat put in raw
	CookedMeat    unit.Share
	MeatFat       unit.Share // fat, tallow and meat extract
	CookedPoultry unit.Share // poultry meat, cooked
	PoultryOther  unit.Share // cooked skin, giblets and fat, and poultry meat with them
}

// Agency is who a product most likely falls to. It is a flag to ask with, not a decision.
type Agency struct {
	Agriculture bool // the Department of Agriculture, and with it inspection; else the Food and Drug Administration
	Why         []string
	Source      string
	Confirm     string
}

// AgencyOf compares shares with the lines that leave a product to the Food and Drug Administration: 3 % raw meat or less, under 2 % cooked, 30 %
// fat, tallow or meat extract or less; under 2 % cooked poultry meat and under 10 % cooked skin, giblets and fat. Exactly at 2 % is over.
func AgencyOf(c Contents) Agency {
	a := Agency{Source: "FSIS policy book, amenability (quoted); 9 CFR 381.15(a) (read)", Confirm: "the authority decides; condiments in broths, gravies and sauces have a rule of their own, 381.15(c)"}
	over := func(yes bool, what string, share unit.Share, line string) {
		if yes {
			a.Agriculture = true
			a.Why = append(a.Why, fmt.Sprintf("%.1f %% %s, %s", 100*share.F(), what, line))
		}
	}
	over(c.RawMeat > 3*unit.PerCent, "raw meat", c.RawMeat, "more than 3 %")
	over(c.CookedMeat >= 2*unit.PerCent, "cooked meat", c.CookedMeat, "2 % or more")
	over(c.MeatFat > 30*unit.PerCent, "fat, tallow or meat extract", c.MeatFat, "more than 30 %")
	over(c.CookedPoultry >= 2*unit.PerCent, "cooked poultry meat", c.CookedPoultry, "2 % or more")
	over(c.PoultryOther >= 10*unit.PerCent, "cooked poultry skin, giblets and fat", c.PoultryOther, "10 % or more")
	return a
}

// PoultryName is a note about a soup that says chicken and has under 2 % of it, 9 CFR 381.15(e) (read); "" if there is none.
func (c Contents) PoultryName(food string) string {
	if c.CookedPoultry > 0 && c.CookedPoultry < 2*unit.PerCent && (says(food, "chicken") || says(food, "turkey")) && !says(food, "flavored") {
		return "under 2 % of it is poultry meat: it may be called flavored, as in Chicken Flavored Noodle Soup, and not Chicken Noodle Soup (9 CFR 381.15(e))"
	}
	return ""
}

// Business is what exemptions from the nutrition panel go by. Sales, units and pounds of 0 are not known, and carry no exemption.
type Business struct {
	YearlySales     unit.Money // dollars, all
	YearlyFoodSales unit.Money // of food to consumers
	RetailerOnly    bool       // sells to consumers from its own place
	Staff           float64    // full-time equivalents
	YearlyUnits     int        // of the product, sold in the United States in 12 months
	YearlyPounds    float64    // of the product, mean of 2 years; meat and poultry
	Importer        bool
	Claims          bool // the label makes a nutrition claim or gives nutrition information
	Agriculture     bool // a product of the Department of Agriculture
}

// Exemption is one way of leaving the panel out.
type Exemption struct {
	Code   string
	May    bool
	Notice bool // a notice to FDA each year
	Why    string
	Source string
}

// Exemptions are those that lift the nutrition panel, and only that: name, ingredients, allergens, net quantity, and name and place of business
// stay. A claim loses all of them. The state or local authority has the last word.
func Exemptions(b Business) []Exemption {
	const dollars = unit.MoneyUnit
	retail := Exemption{Code: "small-retailer", Source: "21 U.S.C. 343(q)(5)(D); 21 CFR 101.9(j)(1) (read)",
		Why: "a retailer with sales of at most $500,000 a year, or of food to consumers of at most $50,000",
		May: b.RetailerOnly && !b.Agriculture && (within(b.YearlySales, 500_000*dollars) || within(b.YearlyFoodSales, 50_000*dollars))}
	low := Exemption{Code: "low-volume", Source: "21 U.S.C. 343(q)(5)(E); 21 CFR 101.9(j)(18) (read)",
		Why: "fewer than 100 full-time staff and fewer than 100,000 units of the product in 12 months, with a notice each year; none under 10 staff and 10,000 units if not an importer",
		May: !b.Agriculture && b.Staff < 100 && within(b.YearlyUnits, 100_000-1), Notice: b.Importer || b.Staff >= 10 || b.YearlyUnits >= 10_000}
	usda := Exemption{Code: "small-plant", Source: "9 CFR 317.400(a)(1) (read)", Why: "500 people or fewer, and at most 100,000 lb of the product a year",
		May: b.Agriculture && b.Staff <= 500 && within(b.YearlyPounds, 100_000)}
	all := []Exemption{retail, low, usda}
	for i := range all {
		all[i].May = all[i].May && !b.Claims
		all[i].Notice = all[i].Notice && all[i].May
	}
	return all
}

// within says whether a figure is known and not over a limit.
func within[T unit.Money | int | float64](x, most T) bool { return x > 0 && x <= most }
