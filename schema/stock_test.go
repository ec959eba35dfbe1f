package schema_test

import (
	"bytes"
	"encoding/json"
	"slices"
	"testing"

	validator "github.com/santhosh-tekuri/jsonschema/v6"

	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// What is where, with a place of the book, one that only entries name and packs that are held, keeps its schema; a broken one does not.
func TestStockKeepsItsSchema(t *testing.T) {
	numbers, err := record.ParseNumbers("1-9")
	if err != nil {
		t.Fatal(err)
	}
	var entries []record.Entry
	for i, b := range []record.Body{
		record.Received{Lot: "R-1", Ingredient: "carrot", Supplier: "farm", Mass: 20 * unit.Kilogram, Place: "shed"},
		record.Packed{Run: "tue", Pack: "soup", Lot: "P-1", Numbers: numbers, Label: unit.Kilogram, Mass: 9 * unit.Kilogram, From: []record.Part{{Lot: "R-1", Mass: unit.Kilogram}}, BestBefore: "2027-06-01", Place: "chest/basket"},
		record.Held{Lot: "P-1", Numbers: numbers, Why: "slow"},
		record.SetAside{Lot: "P-1", Pack: "soup", Numbers: numbers, Open: []record.Day{"2027-01-05"}},
	} {
		e, err := record.Say(record.ID{byte(i + 1)}, record.Instant(1_790_000_000_000+i), "Ada", "tablet", b)
		if err != nil {
			t.Fatal(err)
		}
		e.Seq = uint64(i + 1)
		entries = append(entries, e)
	}
	state, found := lots.Of(slices.Values(entries))
	layout := coldstore.NewLayout([]coldstore.Place{{ID: "chest", Name: "chest", Kind: coldstore.Frozen, Room: 5 * unit.Kilogram, Volume: 500 * unit.Litre}, {ID: "chest/basket", Name: "basket"}})
	read := func() map[string]any {
		text, err := json.Marshal(coldstore.Look(layout, state, "2026-12-01", nil).Report(unit.US, found))
		if err != nil {
			t.Fatal(err)
		}
		value, err := validator.UnmarshalJSON(bytes.NewReader(text))
		if err != nil {
			t.Fatal(err)
		}
		return value.(map[string]any)
	}
	s := compiled(t, "stock")
	if err := s.Validate(read()); err != nil {
		t.Errorf("%.1500s", err)
	}
	chest := read()["places"].([]any)[0].(map[string]any)
	if chest["volume_ml"] != json.Number("500000") || chest["over_g"] != json.Number("4000") || chest["left_g"] != json.Number("0") {
		t.Errorf("the chest is %v", chest)
	}
	for name, damage := range map[string]func(map[string]any){
		"no places":         func(r map[string]any) { delete(r, "places") },
		"mass as text":      func(r map[string]any) { r["places"].([]any)[0].(map[string]any)["mass_g"] = "9 kg" },
		"contents are null": func(r map[string]any) { r["places"].([]any)[1].(map[string]any)["contents"] = nil },
		"a lot without a lot": func(r map[string]any) {
			delete(r["places"].([]any)[1].(map[string]any)["contents"].([]any)[0].(map[string]any), "lot")
		},
	} {
		r := read()
		damage(r)
		if s.Validate(r) == nil {
			t.Errorf("%s: let through", name)
		}
	}
}
