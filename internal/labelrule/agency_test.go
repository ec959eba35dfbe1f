package labelrule_test

import (
	"slices"
	"testing"

	"kettlefrost/internal/labelrule"
	"kettlefrost/internal/unit"
)

// FSIS policy book (quoted) and 9 CFR 381.15(a) (read): the shares at the line and just beyond it.
func TestAgency(t *testing.T) {
	const p = unit.PerCent
	for _, c := range []struct {
		name string
		of   labelrule.Contents
		want bool
	}{
		{"nothing of an animal", labelrule.Contents{}, false},
		{"3 % raw meat", labelrule.Contents{RawMeat: 3 * p}, false}, {"more", labelrule.Contents{RawMeat: 3*p + 1}, true},
		{"just under 2 % cooked meat", labelrule.Contents{CookedMeat: 2*p - 1}, false}, {"2 %", labelrule.Contents{CookedMeat: 2 * p}, true},
		{"30 % tallow", labelrule.Contents{MeatFat: 30 * p}, false}, {"more", labelrule.Contents{MeatFat: 30*p + 1}, true},
		{"just under 2 % chicken", labelrule.Contents{CookedPoultry: 2*p - 1}, false}, {"2 %", labelrule.Contents{CookedPoultry: 2 * p}, true},
		{"just under 10 % chicken fat", labelrule.Contents{PoultryOther: 10*p - 1}, false}, {"10 %", labelrule.Contents{PoultryOther: 10 * p}, true},
	} {
		if a := labelrule.AgencyOf(c.of); a.Agriculture != c.want || a.Agriculture != (len(a.Why) > 0) || a.Confirm == "" {
			t.Errorf("%s: %+v", c.name, a)
		}
	}
	thin := labelrule.Contents{CookedPoultry: p}
	if thin.PoultryName("Chicken Noodle Soup") == "" || thin.PoultryName("Chicken Flavored Noodle Soup") != "" || (labelrule.Contents{CookedPoultry: 3 * p}).PoultryName("Chicken Noodle Soup") != "" {
		t.Error("9 CFR 381.15(e)")
	}
}

// 21 U.S.C. 343(q)(5)(D) and (E), 9 CFR 317.400(a)(1) (read).
func TestExemptions(t *testing.T) {
	const d = unit.MoneyUnit
	for _, c := range []struct {
		name   string
		of     labelrule.Business
		may    []string
		notice bool
	}{
		{"a shop", labelrule.Business{RetailerOnly: true, YearlySales: 500_000 * d, Staff: 3, YearlyUnits: 9_999}, []string{"small-retailer", "low-volume"}, false},
		{"a larger shop", labelrule.Business{RetailerOnly: true, YearlySales: 500_000*d + 1, YearlyFoodSales: 50_000 * d, Staff: 12, YearlyUnits: 5_000}, []string{"small-retailer", "low-volume"}, true},
		{"10 000 units", labelrule.Business{Staff: 3, YearlyUnits: 10_000}, []string{"low-volume"}, true},
		{"100 000 units", labelrule.Business{Staff: 3, YearlyUnits: 100_000}, nil, false},
		{"100 staff", labelrule.Business{Staff: 100, YearlyUnits: 1000}, nil, false},
		{"with a claim", labelrule.Business{RetailerOnly: true, YearlySales: 1000 * d, Staff: 1, YearlyUnits: 10, Claims: true}, nil, false},
		{"nothing known", labelrule.Business{RetailerOnly: true}, nil, false},
		{"beef", labelrule.Business{Agriculture: true, Staff: 4, YearlyPounds: 100_000, YearlyUnits: 100}, []string{"small-plant"}, false},
		{"much beef", labelrule.Business{Agriculture: true, Staff: 4, YearlyPounds: 100_001}, nil, false},
	} {
		var may []string
		notice := false
		for _, e := range labelrule.Exemptions(c.of) {
			if e.May {
				may = append(may, e.Code)
				notice = notice || e.Notice
			}
		}
		if !slices.Equal(may, c.may) || notice != c.notice {
			t.Errorf("%s: %v, notice %v; want %v, %v", c.name, may, notice, c.may, c.notice)
		}
	}
}
