package app_test

import (
	"archive/zip"
	"bytes"
	"encoding/csv"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/ledger"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
	"kettlefrost/internal/workbook"
)

func noon() time.Time { return time.Date(2026, 12, 1, 12, 0, 0, 0, time.UTC) }

func recordsAt(t testing.TB, address string) *app.Records {
	t.Helper()
	r, err := app.OpenRecords(t.Context(), address, noon)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { r.Close() })
	return r
}

func emptyRecords(t testing.TB) *app.Records {
	t.Helper()
	return recordsAt(t, filepath.Join(t.TempDir(), "kitchen.records"))
}

// fullDiary is records with something for every table.
func fullDiary(t *testing.T) *app.Records {
	t.Helper()
	r := emptyRecords(t)
	at := noon()
	enter := func(b record.Body) record.ID {
		t.Helper()
		at = at.Add(time.Minute)
		said := app.Said{Who: "Ada", Device: "tablet", At: at, Body: b}
		if x, ok := b.(record.Invoiced); ok {
			said.ID = ledger.EntryID(x.Kind(), x.Invoice)
		}
		sealed, err := r.Enter(t.Context(), said)
		if err != nil {
			t.Fatal(err)
		}
		return sealed[0].ID
	}
	door := unit.TempF(39)
	enter(record.Customer{Customer: "cafe", Name: "=HYPERLINK(\"x\") Café", Address: "1 Quay\nHarrow Creek", Phone: "+1 802 555 0100"})
	enter(record.Received{Lot: "R-1", Ingredient: "leek", Supplier: "hillside", Count: 2, Mass: 20 * unit.Kilogram, Paid: 3150 * unit.Cent, UseBy: "2026-12-09", Door: &door, Place: "walk-in"})
	enter(record.Opened{Run: "tue", Request: "tuesday", Day: "2026-12-01", Plan: record.Hash{1}})
	enter(record.Used{Run: "tue", Dish: "soup", Lot: "R-1", Mass: 16 * unit.Kilogram})
	enter(record.Weighed{Run: "tue", Dish: "soup", Output: "soup", Gross: 30 * unit.Kilogram, Tare: 4 * unit.Kilogram, Net: 26 * unit.Kilogram})
	enter(record.Measured{Run: "tue", Dish: "soup", Output: "soup", Temp: unit.TempC(-0.5)})
	enter(record.Made{Run: "tue", Dish: "soup", Output: "soup", Lot: "M-1", Mass: 26 * unit.Kilogram})
	enter(record.CheckWeighed{Run: "tue", Pack: "soup-650", Tares: []unit.Mass{5 * unit.Gram}, Gross: []unit.Mass{655 * unit.Gram, 656_500 * unit.Milligram}})
	enter(record.Packed{Run: "tue", Pack: "soup-650", Lot: "P-1", Numbers: numbers(t, "1-39"), Label: 650 * unit.Gram, Mass: 25_500 * unit.Gram, From: []record.Part{{Lot: "M-1", Mass: 25_500 * unit.Gram}}, BestBefore: "2027-06-01", Place: "chest"})
	enter(record.Moved{Lot: "P-1", Numbers: numbers(t, "30-39"), To: "van"})
	enter(record.Ordered{Order: "O-1", Customer: "cafe", Lines: []record.OrderLine{{Pack: "soup-650", Count: 12, Each: 975 * unit.Cent}}, Due: "2026-12-02", Way: record.Collect})
	enter(record.HandedOver{Order: "O-1", Customer: "cafe", Lot: "P-1", Numbers: numbers(t, "1-12")})
	enter(record.Held{Lot: "P-1", Numbers: numbers(t, "20-21"), Why: "torn"})
	enter(record.Invoiced{Invoice: "2026-0001", Order: "O-1", Customer: "cafe", Day: "2026-12-02", Due: "2026-12-16", Lines: []record.InvoiceLine{{Says: "soup", Count: 12, Each: 975 * unit.Cent, Net: 11_700 * unit.Cent}},
		Taxes: []record.TaxLine{{Tax: "meals", Rate: 9 * unit.PerCent, On: 11_700 * unit.Cent, Is: 1053 * unit.Cent}}, Total: 12_753 * unit.Cent})
	enter(record.Paid{Invoice: "2026-0001", Amount: 12_753 * unit.Cent, By: "cheque"})
	enter(record.Closed{Run: "tue"})
	wrong := enter(record.Noted{Text: "wrong"})
	if _, err := r.Enter(t.Context(), app.Said{Who: "Bo", Device: "tablet", At: at, Corrects: wrong, Body: record.Voided{Why: "a slip"}}); err != nil {
		t.Fatal(err)
	}
	if _, err := r.ImportBook(t.Context(), os.DirFS("../../demo/book"), ada); err != nil {
		t.Fatal(err)
	}
	return r
}

// wantTables are rows that stand in the tables of fullDiary, after the number of the entry, the time and who where there are such.
var wantTables = map[string]string{
	"lots":          "R-1,goods,leek,,,hillside,,2026-12-01T12:02:00.000Z,20,16,4,0,0,0,31.50,,,2026-12-09,,no,",
	"stock":         "P-1,soup-650,van,10,30-39,6.538461538462,2027-06-01,",
	"packs":         "P-1,soup-650,tue,20,21,2,1.307692307693,on hand,chest,,2027-06-01,yes",
	"moves":         "P-1,10,30-39,,van",
	"receiving":     "R-1,leek,hillside,,,,2,20,31.50,2026-12-09,,,,3.888889,walk-in,",
	"customers":     "cafe,'=HYPERLINK(\"x\") Café,1 Quay\nHarrow Creek,'+1 802 555 0100,,,,,",
	"orders":        "O-1,cafe,2026-12-02,collect,,,no,,",
	"order-lines":   "O-1,cafe,2026-12-02,soup-650,12,9.75",
	"invoices":      "2026-0001,invoice,,O-1,cafe,2026-12-02,2026-12-16,117.00,10.53,127.53,",
	"invoice-lines": "2026-0001,,,,,meals,0.09,117.00,10.53",
	"payments":      "2026-0001,127.53,cheque",
	"temperatures":  "tablet,tue,soup,soup,,,-0.5,",
	"weights":       "tue,filled pack,,soup-650,2,0.6565,,,",
	"runs":          "tue,tuesday,2026-12-01,2026-12-01T12:03:00.000Z,Ada,0100000000000000000000000000000000000000000000000000000000000000,2026-12-01T12:16:00.000Z,Ada,",
}

// Everything is in the export, in formats that others read; the entries alone bring it back.
func TestExportOfEverything(t *testing.T) {
	r := fullDiary(t)
	path := filepath.Join(t.TempDir(), "out")
	bundle, err := app.Folder(path)
	if err != nil {
		t.Fatal(err)
	}
	x, err := r.ExportAll(t.Context(), bundle)
	if err != nil {
		t.Fatal(err)
	}
	for name, want := range wantTables {
		text, err := os.ReadFile(filepath.Join(path, "tables", name+".csv"))
		if err != nil {
			t.Fatal(err)
		}
		rows, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		found := false
		for _, row := range rows {
			found = found || strings.HasSuffix(","+strings.Join(row, ","), ","+want)
		}
		if !found {
			t.Errorf("%s: %q is not among %q", name, want, rows)
		}
	}
	if len(x.Tables) != len(wantTables) {
		t.Errorf("%d tables are exported and %d looked at", len(x.Tables), len(wantTables))
	}
	data, err := os.ReadFile(filepath.Join(path, "tables.xlsx"))
	if err != nil {
		t.Fatal(err)
	}
	sheets, err := workbook.Sheets(data)
	if err != nil || len(sheets) != len(x.Tables) {
		t.Fatalf("%d sheets, %v", len(sheets), err)
	}
	for i, s := range sheets {
		if len(s.Rows) != len(x.Tables[i].Rows)+1 || s.Name != x.Tables[i].Name {
			t.Errorf("sheet %s has %d rows, the table %s %d", s.Name, len(s.Rows), x.Tables[i].Name, len(x.Tables[i].Rows))
		}
	}
	again := emptyRecords(t)
	lines, err := os.Open(filepath.Join(path, "entries.jsonl"))
	if err != nil {
		t.Fatal(err)
	}
	defer lines.Close()
	if head, err := again.Import(t.Context(), lines); err != nil || head != x.Head {
		t.Errorf("imported up to %v, want %v (%v)", head, x.Head, err)
	}
	same(t, os.DirFS(filepath.Join(path, "book")), os.DirFS("../../demo/book"))
	if _, err := app.Folder(path); err == nil || !strings.Contains(err.Error(), "not empty") {
		t.Errorf("a folder with something in it: %v", err)
	}
	text, err := os.ReadFile(filepath.Join(path, "README.txt"))
	if err != nil || !strings.Contains(string(text), x.Head.Hash.String()) {
		t.Errorf("%s (%v)", text, err)
	}
}

// same fails if two folders differ in any byte.
func same(t *testing.T, a, b fs.FS) {
	t.Helper()
	for _, pair := range [][2]fs.FS{{a, b}, {b, a}} {
		err := fs.WalkDir(pair[0], ".", func(name string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() {
				return err
			}
			one, err1 := fs.ReadFile(pair[0], name)
			two, err2 := fs.ReadFile(pair[1], name)
			if !bytes.Equal(one, two) {
				t.Errorf("%s differs", name)
			}
			return errors.Join(err1, err2)
		})
		if err != nil {
			t.Error(err)
		}
	}
}

// The ZIP file has the same files, and empty records have an export too.
func TestExportAsZip(t *testing.T) {
	for name, r := range map[string]*app.Records{"full": fullDiary(t), "empty": emptyRecords(t)} {
		var out bytes.Buffer
		z := app.NewZip(&out, noon())
		x, err := r.ExportAll(t.Context(), z)
		if err := errors.Join(err, z.Close()); err != nil {
			t.Fatal(err)
		}
		in, err := zip.NewReader(bytes.NewReader(out.Bytes()), int64(out.Len()))
		if err != nil {
			t.Fatal(err)
		}
		if want := len(x.Tables) + x.Files + 3; len(in.File) != want {
			t.Errorf("%s: %d files in it, want %d", name, len(in.File), want)
		}
		for _, table := range x.Tables {
			if _, err := fs.Stat(in, "tables/"+strings.ReplaceAll(table.Name, " ", "-")+".csv"); err != nil {
				t.Errorf("%s: %v", name, err)
			}
		}
	}
}
