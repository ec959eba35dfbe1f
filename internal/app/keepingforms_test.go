package app_test

import (
	"errors"
	"slices"
	"testing"

	"kettlefrost/internal/app"
	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// refused is the field that is refused; "" for none.
func refused(err error) string {
	if why := (*coldstore.Refusal)(nil); errors.As(err, &why) {
		if why.Problem == "" || why.Fix == "" {
			return why.Field + " without a word"
		}
		return why.Field
	}
	if err != nil {
		return err.Error()
	}
	return ""
}

func TestOpeningDays(t *testing.T) {
	for _, c := range []struct {
		text string
		want []record.Day
		bad  bool
	}{
		{"4, 8,13", []record.Day{"2026-12-02", "2026-12-30", "2027-02-03"}, false}, // 4 November and 28, 56 and 91 days
		{"2027-01-05 12", []record.Day{"2027-01-05", "2027-01-27"}, false},
		{"8 8", []record.Day{"2026-12-30"}, false},
		{"", nil, true}, {" , ", nil, true}, {"3", nil, true}, {"2026-12-01", nil, true}, {"soon", nil, true}, {"2027-02-30", nil, true}, {"-4", nil, true}, {"9999", nil, true},
	} {
		got, err := app.OpeningDays(c.text, "2026-11-04", "2026-12-02")
		if !slices.Equal(got, c.want) || (refused(err) == "open") != c.bad {
			t.Errorf("%q: %v, %v; want %v", c.text, got, err, c.want)
		}
	}
}

func TestWhatMayBeKeptForTasting(t *testing.T) {
	r := readFreezer(t, "chest-2-air", 1, steady(-18), "")
	diary(t, r, "2026-11-04", saucePacks(t, "P-1", "2027-06-01"), record.Received{Lot: "R-1", Ingredient: "leek", Supplier: "x", Mass: unit.Kilogram},
		record.Ordered{Order: "O-1", Customer: "joe", Lines: []record.OrderLine{{Pack: sauce, Count: 5}}, Due: "2026-12-04", Way: record.Collect}, record.Picked{Order: "O-1", Lot: "P-1", Numbers: numbers(t, "1-2")},
		record.SetAside{Pack: sauce, Lot: "P-1", Numbers: numbers(t, "20"), Open: []record.Day{"2027-01-05"}})
	for _, c := range []struct {
		name  string
		ask   app.KeepAsk
		field string
		packs string
	}{
		{"numbers", app.KeepAsk{Code: "P-1", Which: "18-19", Open: "8, 13", Place: "chest-1"}, "", "18-19"},
		{"a code with a number", app.KeepAsk{Code: "P-1#17", Open: "8"}, "", "17"},
		{"the next two", app.KeepAsk{Code: "P-1", Which: "next 2", Open: "8"}, "which", ""}, // they are in Joe's box
		{"kept already", app.KeepAsk{Code: "P-1", Which: "19-20", Open: "8"}, "which", ""},
		{"not there", app.KeepAsk{Code: "P-1", Which: "20-21", Open: "8"}, "which", ""},
		{"no lot", app.KeepAsk{Code: "P-9", Which: "1-2", Open: "8"}, "code", ""},
		{"not of packs", app.KeepAsk{Code: "R-1", Which: "all", Open: "8"}, "code", ""},
		{"no day", app.KeepAsk{Code: "P-1", Which: "18-19"}, "open", ""},
	} {
		b, err := r.KeepForTasting(t.Context(), c.ask, "2026-12-02")
		if refused(err) != c.field || b.Numbers.String() != c.packs && c.field == "" || c.field == "" && (b.Pack != sauce || b.Run != "tue" || len(b.Open) == 0) {
			t.Errorf("%s: %+v, %v", c.name, b, err)
		}
	}
}

func TestWhatMayBeSaidOfATasting(t *testing.T) {
	r := readFreezer(t, "chest-2-air", 1, steady(-18), "")
	diary(t, r, "2026-11-04", saucePacks(t, "P-1", "2027-06-01"))
	good := app.TasteAsk{Code: "P-1#19", Whole: "457", Drip: "12,5", Separation: "3", Verdict: "good", Note: "fine", Scores: []app.TypedScore{{"texture", "7.5"}, {"flavour", ""}}, Units: unit.Metric}
	good.Whole = "457 g"
	b, err := r.Taste(t.Context(), good, "2026-12-02")
	if err != nil || b.Numbers.String() != "19" || b.Whole != 457*unit.Gram || *b.Drip != 12_500 || *b.Separation != 3*unit.PerCent || len(b.Scores) != 1 || b.Scores[0].Points != 7500 || b.Pack != sauce {
		t.Fatalf("%+v %v", b, err)
	}
	for _, c := range []struct {
		field  string
		change func(*app.TasteAsk)
	}{
		{"verdict", func(a *app.TasteAsk) { a.Verdict = "" }},
		{"verdict", func(a *app.TasteAsk) { a.Verdict = "so so" }},
		{"whole", func(a *app.TasteAsk) { a.Whole = "much" }},
		{"whole", func(a *app.TasteAsk) { a.Whole = "" }},
		{"drip", func(a *app.TasteAsk) { a.Drip = "some" }},
		{"drip", func(a *app.TasteAsk) { a.Drip = "458" }},
		{"separation", func(a *app.TasteAsk) { a.Separation = "101" }},
		{"score-texture", func(a *app.TasteAsk) { a.Scores = []app.TypedScore{{"texture", "11"}} }},
		{"score-texture", func(a *app.TasteAsk) { a.Scores = []app.TypedScore{{"texture", "nan"}} }},
		{"which", func(a *app.TasteAsk) { a.Code = "P-1" }},
		{"code", func(a *app.TasteAsk) { a.Code = "P-1#21" }},
	} {
		a := good
		c.change(&a)
		if _, err := r.Taste(t.Context(), a, "2026-12-02"); refused(err) != c.field {
			t.Errorf("%+v: %v, want %s refused", a, err, c.field)
		}
	}
}

// Packs that were not opened go back into the stock; what was opened stays told.
func TestKeptPacksGoBackIntoTheStock(t *testing.T) {
	r := readFreezer(t, "chest-2-air", 1, steady(-18), "")
	diary(t, r, "2026-11-04", saucePacks(t, "P-1", "2027-06-01"))
	for _, opened := range []bool{false, true} {
		diary(t, r, "2026-11-05", record.SetAside{Pack: sauce, Lot: "P-1", Numbers: numbers(t, "18-19"), Open: []record.Day{"2026-12-02", "2027-01-06"}})
		if opened {
			diary(t, r, "2026-12-02", record.Tasted{Lot: "P-1", Pack: sauce, Numbers: numbers(t, "18"), Verdict: record.StillGood})
		}
		v, err := r.Retained(t.Context(), "2026-12-02", sauce)
		if err != nil || len(v.Ahead) != 1 {
			t.Fatal(v, err)
		}
		said, err := r.GiveBack(t.Context(), v.Ahead[0].Set.Entry, "sold after all")
		if err != nil {
			t.Fatal(err)
		}
		said.Who, said.Device, said.At = "Ada", "test", frozenNoon
		if _, err := r.Enter(t.Context(), said); err != nil {
			t.Fatal(err)
		}
		l := keepingOf(t, r, app.KeepingAsk{}).Lots[0]
		if want := map[bool]int64{false: 20, true: 19}[opened]; l.Packs != want || l.Kept != 0 {
			t.Errorf("opened %t: %+v", opened, l)
		}
		if _, err := r.GiveBack(t.Context(), record.ID{7, 7}, "x"); refused(err) != "set" {
			t.Error(err)
		}
	}
}
