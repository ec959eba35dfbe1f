package schema_test

import (
	"bytes"
	"encoding/json"
	"path/filepath"
	"testing"
	"time"

	validator "github.com/santhosh-tekuri/jsonschema/v6"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// Packs that are kept, due, opened with all that can be measured, and what is supported, keep their schemas; broken ones do not.
func TestKeptPacksKeepTheirSchemas(t *testing.T) {
	at := time.Date(2026, 12, 2, 12, 0, 0, 0, time.UTC)
	r, err := app.OpenRecords(t.Context(), filepath.Join(t.TempDir(), "kitchen.records"), func() time.Time { return at })
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	house, err := app.New(demo.Book(), func() time.Time { return at })
	if err != nil {
		t.Fatal(err)
	}
	numbers := func(text string) record.Numbers {
		n, err := record.ParseNumbers(text)
		if err != nil {
			t.Fatal(err)
		}
		return n
	}
	drip, separated := record.Decimal(12_500), 3*unit.PerCent
	for i, b := range []record.Body{
		record.Packed{Run: "tue", Pack: "bean-pot-2lb", Lot: "P-1", Numbers: numbers("1-20"), Label: 2 * unit.Pound, Mass: 40 * unit.Pound, From: []record.Part{{Lot: "M-1", Mass: unit.Kilogram}}, BestBefore: "2027-06-01", Place: "chest-1/bottom"},
		record.SetAside{Pack: "bean-pot-2lb", Lot: "P-1", Numbers: numbers("18-20"), Open: []record.Day{"2026-11-30", "2026-12-01", "2027-01-06"}, Why: "to see"},
		record.WrittenOff{Lot: "P-1", Numbers: numbers("20"), Why: "torn"},
		record.Ordered{Order: "O-1", Customer: "joe", Lines: []record.OrderLine{{Pack: "bean-pot-2lb", Count: 5}}, Due: "2026-12-04", Way: record.Collect},
		record.Tasted{Lot: "P-1", Numbers: numbers("18"), Pack: "bean-pot-2lb", Whole: 2 * unit.Pound, Drip: &drip, Separation: &separated, Scores: []record.Score{{Figure: "texture", Points: 7500}}, Verdict: record.Fading, Note: "grainy"},
	} {
		when := time.Date(2026, 11, 4, 12, i, 0, 0, time.UTC)
		if i == 4 {
			when = at
		}
		if _, err := r.Enter(t.Context(), app.Said{Who: "Ada", Device: "test", At: when, Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	kept, err := r.Retained(t.Context(), "2026-12-02", "")
	if err != nil {
		t.Fatal(err)
	}
	book, _ := house.Book()
	best, err := r.Keeping(t.Context(), book, record.Instant(at.UnixMilli()), app.KeepingAsk{Storage: true})
	if err != nil {
		t.Fatal(err)
	}
	if got := *kept.Tasted[0].DripG; got != 12.5 || kept.Tasted[0].Scores[0].Points != 7.5 {
		t.Errorf("%g g, %+v", got, kept.Tasted[0].Scores)
	}
	value := func(x any) map[string]any {
		text, err := json.Marshal(x)
		if err != nil {
			t.Fatal(err)
		}
		v, err := validator.UnmarshalJSON(bytes.NewReader(text))
		if err != nil {
			t.Fatal(err)
		}
		return v.(map[string]any)
	}
	for what, x := range map[string]any{"retained": kept, "keeping": best} {
		s := compiled(t, what)
		if err := s.Validate(value(x)); err != nil {
			t.Errorf("%s: %.1000s", what, err)
		}
		for _, damage := range []func(map[string]any){func(v map[string]any) { delete(v, "findings") }, func(v map[string]any) { v["day"] = 7 }, func(v map[string]any) { delete(v, map[string]string{"retained": "due", "keeping": "packs"}[what]) }} {
			v := value(x)
			damage(v)
			if s.Validate(v) == nil {
				t.Errorf("%s: broken and let through", what)
			}
		}
	}
}
