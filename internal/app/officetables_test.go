package app_test

import (
	"bytes"
	"context"
	"fmt"
	"strconv"
	"testing"

	"kettlefrost/internal/app"
	"kettlefrost/internal/history"
	"kettlefrost/internal/tables"
)

// told is records with an invented history.
func told(t testing.TB, size history.Size) (*app.Records, *history.History) {
	t.Helper()
	h, err := history.Make(size, 7)
	if err != nil {
		t.Fatal(err)
	}
	lines, err := h.Lines()
	if err != nil {
		t.Fatal(err)
	}
	r := emptyRecords(t)
	if _, err := r.Import(t.Context(), bytes.NewReader(lines)); err != nil {
		t.Fatal(err)
	}
	return r, h
}

func tableOf(t testing.TB, all []tables.Table, name string) tables.Table {
	t.Helper()
	for _, x := range all {
		if x.Name == name {
			return x
		}
	}
	t.Fatalf("there is no table of %s", name)
	return tables.Table{}
}

// where is a pack as the table and as the truth tell it.
type where struct{ state, place string }

// Every pack of a history stands once in the table of packs, where it truly is: the truth is kept pack by pack beside the entries and is
// worked out of nothing that the table is made of.
func TestPacksAreExportedWhereTheyAre(t *testing.T) {
	r, h := told(t, history.Size{Runs: 40, Packs: 60})
	all, _, err := r.Tables(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	got := map[string]where{}
	for _, row := range tableOf(t, all, "packs").Rows {
		first, err1 := strconv.Atoi(row[3])
		last, err2 := strconv.Atoi(row[4])
		if count := fmt.Sprint(last - first + 1); err1 != nil || err2 != nil || count != row[5] {
			t.Fatalf("%q", row)
		}
		for n := first; n <= last; n++ {
			pack := fmt.Sprintf("%s %d", row[0], n)
			if other, twice := got[pack]; twice && (other.state != "handed over" || row[7] != "handed over") { // to two customers: a slip that is told
				t.Errorf("pack %s is %v and %q", pack, other, row[7:9])
			}
			got[pack] = where{row[7], row[8]}
		}
	}
	states := map[history.State]string{history.Here: "on hand", history.With: "handed over", history.Gone: "written off", history.Opened: "opened again", history.Missing: "missing"}
	packs := 0
	for _, p := range h.Packs {
		for i, spot := range p.At {
			want := where{states[spot.State], spot.Where}
			if spot.State != history.Here && spot.State != history.With {
				want.place = ""
			}
			if x := got[fmt.Sprintf("%s %d", p.Lot, i+1)]; x != want {
				t.Errorf("pack %d of %s is %v, want %v", i+1, p.Lot, x, want)
			}
			packs++
		}
	}
	if packs != len(got) || packs < 5000 {
		t.Errorf("%d packs are in the table, and there are %d", len(got), packs)
	}
}

// The masses of every lot add up in the table, to the nanogram: what came is where it went.
func TestExportedMassesAddUp(t *testing.T) {
	r, h := told(t, history.Size{Runs: 40, Packs: 60})
	all, last, err := r.Tables(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	lots := tableOf(t, all, "lots")
	for _, row := range lots.Rows {
		var sum int64
		for k, sign := range map[int]int64{8: 1, 9: -1, 10: -1, 11: -1, 12: -1, 13: -1} {
			sum += sign * nanograms(t, row[k])
		}
		if sum != 0 {
			t.Errorf("lot %s: %d ng too much: %q", row[0], sum, row[8:14])
		}
	}
	if len(lots.Rows) < len(h.Bulk)+len(h.Packs) || last == 0 {
		t.Errorf("%d lots, and there are %d", len(lots.Rows), len(h.Bulk)+len(h.Packs))
	}
}

// nanograms reads kilograms without a float.
func nanograms(t *testing.T, kg string) int64 {
	t.Helper()
	whole, fraction := kg, ""
	for i := range kg {
		if kg[i] == '.' {
			whole, fraction = kg[:i], kg[i+1:]
		}
	}
	for len(fraction) < 12 {
		fraction += "0"
	}
	n, err := strconv.ParseInt(whole+fraction, 10, 64)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// counting is a bundle that only counts.
type counting struct{ bytes int64 }

func (c *counting) Write(p []byte) (int, error) { c.bytes += int64(len(p)); return len(p), nil }

// Three years of a kitchen, a million packs, out as a ZIP file.
func BenchmarkExportOfThreeYears(b *testing.B) {
	r, _ := told(b, history.ThreeYears)
	for b.Loop() {
		var to counting
		z := app.NewZip(&to, noon())
		if _, err := r.ExportAll(context.Background(), z); err != nil {
			b.Fatal(err)
		}
		if err := z.Close(); err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(to.bytes)/1e6, "MB")
	}
}
