package web

import (
	"net/url"
	"slices"
	"testing"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// As a scale's list is pasted: a column, a row, with units or without.
func TestWeightWords(t *testing.T) {
	for text, want := range map[string][]string{
		"":                      nil,
		"470":                   {"470"},
		"470 468.5\t473":        {"470", "468.5", "473"},
		"470,468; 473\n\n466":   {"470", "468", "473", "466"},
		"470 g, 16.5 oz\n1 lb":  {"470 g", "16.5 oz", "1 lb"},
		"1 lb 0.5 oz, 470, 471": {"1 lb 0.5 oz", "470", "471"},
		"a few, 470":            {"a few", "470"},
	} {
		if got := weightWords(text); !slices.Equal(got, want) {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}

func TestOrdinal(t *testing.T) {
	for n, want := range map[int]string{1: "1st", 2: "2nd", 3: "3rd", 4: "4th", 11: "11th", 12: "12th", 13: "13th", 21: "21st", 112: "112th", 103: "103rd"} {
		if got := ordinal(n); got != want {
			t.Errorf("%d: %s, want %s", n, got, want)
		}
	}
}

// Whatever is typed: weights that are taken make sense beside each other, and what was typed is what the form shows again.
func FuzzFillingForm(f *testing.F) {
	for _, seed := range [][3]string{{"11.2, 11.4", "470 468\n473", "150"}, {"0,0", "16.2 oz;16 oz", ""}, {"", "", "0"}, {"-1,2", "1e9", "many"}, {"\r\n\xff", "470,,,", "1,500"}} {
		f.Add(seed[0], seed[1], seed[2], true)
	}
	f.Fuzz(func(t *testing.T, tare, gross, lot string, ounces bool) {
		query := url.Values{"tare": {tare}, "gross": {gross}, "lot": {lot}}
		if ounces {
			query.Set("in", "oz")
		}
		form, w, err := readFilling(kitchen.Pack{}, "sauce", query)
		if (err != nil) != form.Wrong {
			t.Fatalf("error %v beside wrong %v", err, form.Wrong)
		}
		if again := tidyLines(form.Gross.Value); again != form.Gross.Value {
			t.Errorf("%q is shown as %q the second time", form.Gross.Value, again)
		}
		if err != nil || !form.typed() {
			return
		}
		if len(w.Tare) < 2 || len(w.Gross) < 2 {
			t.Fatalf("%d bags and %d packs are taken", len(w.Tare), len(w.Gross))
		}
		for _, m := range w.Gross {
			if m <= slices.Max(w.Tare) || m > 50*unit.Kilogram {
				t.Errorf("a pack of %s is taken beside bags of %v", m, w.Tare)
			}
		}
	})
}
