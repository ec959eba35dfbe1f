package sheet

import (
	"bytes"
	"encoding/csv"
	"strings"
	"testing"

	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

func shoppingPlan() plan.Plan {
	p := barleyPlan()
	p.Buy.Lines[0].Packs[0].SupplierID, p.Buy.Lines[0].Aisle = "stall", "back wall"
	p.Buy.Lines[2].FromStock = []plan.BuyLot{{Lot: "B7", Until: "2026-12-20", Mass: 6 * unit.Pound}}
	p.Buy.Lines[2].Name = "=pearl, \"fine\" barley"
	p.Buy.Lines[2].Packs = []plan.BuyPack{{Supplier: "Pantry", SupplierID: "pantry", Name: "1 lb bag", Count: 3, Price: 2_000_000}}
	p.Buy.Orders = append(p.Buy.Orders, plan.BuyOrder{Supplier: "pantry", Name: "Pantry", Goods: 6_000_000})
	return p
}

func TestShopping(t *testing.T) {
	for by, wants := range map[plan.By][]string{
		plan.BySupplier: {"Market stall; order by 2026-11-30; $61.25; delivery $4.50; $13.75 more, and it is brought for nothing [ ] 1 25 lb sack carrot chilled, back wall $21.00", "Pantry; $6.00 [ ] 3 1 lb bag",
			"MISSING: bay leaf, 4 g: nobody offers it", "from stock: 6 lb =pearl, \"fine\" barley (lot B7, until 2026-12-20)"},
		plan.ByStorage: {"chilled [ ] 1 25 lb sack carrot back wall, Market stall $21.00", "dry [ ] 3 1 lb bag"},
	} {
		flat := strings.Join(strings.Fields(Shopping(shoppingPlan(), unit.US, by)), " ")
		for _, want := range wants {
			if !strings.Contains(flat, want) {
				t.Errorf("by %s: no %q in %s", by, want, flat)
			}
		}
	}
}

// TestShoppingCSV is read back by the standard library's reader: quotes and commas stay whole, and nothing reads as a formula.
func TestShoppingCSV(t *testing.T) {
	text := ShoppingCSV(shoppingPlan(), plan.BySupplier)
	rows, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
	if err != nil || len(rows) != 3 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	want := []string{"Market stall", "2026-11-30", "carrot", "chilled", "back wall", "25 lb sack", "1", "21.00", "21.00", "5443", "0", "5897"}
	if strings.Join(rows[1], "|") != strings.Join(want, "|") {
		t.Errorf("got  %v\nwant %v", rows[1], want)
	}
	if rows[2][2] != "'=pearl, \"fine\" barley" || !bytes.Contains(text, []byte("\r\n")) {
		t.Errorf("%v", rows[2])
	}
}
