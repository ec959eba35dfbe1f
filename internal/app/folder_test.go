package app

import (
	"bytes"
	"database/sql"
	"errors"
	"io"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"kettlefrost/internal/folder"
	"kettlefrost/internal/history"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/store"
	"kettlefrost/internal/unit"
)

func askFolder(codes ...string) FolderAsk {
	return FolderAsk{Ask: lots.Ask{Codes: codes}, Zone: time.UTC, Says: func(b record.Body, _ unit.System) string { return string(b.Kind()) }}
}

// frozenBook has a freezer with a probe, and no rules.
func frozenBook() kitchen.Book {
	return kitchen.Book{Kitchen: kitchen.Kitchen{Name: "Small Kitchen"}, Places: map[kitchen.PlaceID]kitchen.Place{"chest-1": {Name: "chest", Kind: kitchen.Frozen}},
		Safety: kitchen.Safety{Jurisdiction: "US-VT"}, Thermometers: map[kitchen.ThermometerID]kitchen.Thermometer{"F-1": {Name: "in the chest", Kind: kitchen.Probe, At: "chest-1"}}}
}

// day is records with a lot in a freezer that was too warm for some hours.
func day(t *testing.T) (*Records, func(record.Body) record.Entry, *time.Time) {
	t.Helper()
	now := time.Date(2026, 12, 1, 8, 0, 0, 0, time.UTC)
	r := openRecords(t, filepath.Join(t.TempDir(), "kitchen.records"), func() time.Time { return now })
	enter := func(b record.Body) record.Entry {
		t.Helper()
		all, err := r.Enter(t.Context(), Said{Who: "Ada", Device: "test", At: now, Body: b})
		if err != nil {
			t.Fatal(err)
		}
		now = now.Add(10 * time.Minute)
		return all[0]
	}
	n, err := record.ParseNumbers("1-9")
	if err != nil {
		t.Fatal(err)
	}
	enter(record.Received{Lot: "R-1", Ingredient: "carrot", Supplier: "farm", SupplierLot: "7", Mass: 20 * unit.Kilogram})
	enter(record.Made{Run: "tue", Dish: "soup", Output: "soup", Lot: "B-1", Mass: 9 * unit.Kilogram, From: []record.Part{{Lot: "R-1", Mass: 9 * unit.Kilogram}}})
	enter(record.Packed{Run: "tue", Pack: "soup-1kg", Lot: "P-1", Numbers: n, Label: unit.Kilogram, Mass: 9 * unit.Kilogram, From: []record.Part{{Lot: "B-1", Mass: 9 * unit.Kilogram}}, BestBefore: "2027-06-01", Place: "chest-1/shelf"})
	began := now
	b := store.Batch{ID: record.ID{1}, Device: "F-1"}
	for i := range 144 { // a day, each ten minutes, of which 100 min at 10 °C
		temp := int64(-19_000)
		if i >= 60 && i < 70 {
			temp = 10_000
		}
		b.Readings = append(b.Readings, store.Reading{Probe: "F-1", At: record.Instant(began.Add(time.Duration(i) * 10 * time.Minute).UnixMilli()), MilliC: temp, Valued: true, Raw: "x", Line: i + 1})
	}
	if err := r.store.TakeReadings(t.Context(), b); err != nil {
		t.Fatal(err)
	}
	now = began.Add(24 * time.Hour)
	enter(record.Noted{About: "P-1", Text: "looked at"})
	return r, enter, &now
}

func TestFolderOfALot(t *testing.T) {
	r, _, _ := day(t)
	f, err := r.Folder(t.Context(), frozenBook(), askFolder("p 1"))
	if err != nil {
		t.Fatal(err)
	}
	if !f.Seal.Chain.Verified || f.Seal.Chain.Seq != 4 || f.AsOf != f.Chain[3].Entered {
		t.Errorf("the chain is %+v as of %d", f.Seal.Chain, f.AsOf)
	}
	if len(f.Cold) != 1 || f.Cold[0].Place != "chest-1" || f.Cold[0].Readings != 144 || len(f.Cold[0].Excursions) == 0 || *f.Cold[0].Excursions[0].PeakC != 10 {
		t.Errorf("cold is %+v", f.Cold)
	}
	if !slices.ContainsFunc(f.Missing, func(m folder.Missing) bool { return m.Code == folder.PlaceWarm && m.Grave }) {
		t.Errorf("nobody is told of the warm freezer: %+v", f.Missing)
	}
	if !slices.ContainsFunc(f.Rules, func(x folder.Rule) bool { return x.Topic == "cooling" }) {
		t.Errorf("rules are %+v", f.Rules)
	}
	var out bytes.Buffer
	if err := f.WriteZIP(&out, f.Chain, f.Clock); err != nil || out.Len() == 0 {
		t.Error(err)
	}
}

// A folder as of a time is the same whatever is entered about others later, so that it can be signed; what changes a lot ends the signature.
func TestSignedFolder(t *testing.T) {
	r, enter, now := day(t)
	make := func(asOf record.Instant) InspectorFolder {
		t.Helper()
		a := askFolder("P-1")
		a.AsOf = asOf
		f, err := r.Folder(t.Context(), frozenBook(), a)
		if err != nil {
			t.Fatal(err)
		}
		return f
	}
	shown := make(0)
	enter(record.Received{Lot: "R-2", Ingredient: "leek", Supplier: "farm", Mass: unit.Kilogram})
	again := make(shown.AsOf)
	if again.Seal.Contents != shown.Seal.Contents {
		t.Fatal("an entry about another lot changed the folder")
	}
	body, err := again.Signature(shown.Seal.Contents, record.AsVerifier, "read all of it")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := r.Enter(t.Context(), Said{Who: "Cy", Device: "test", At: *now, Body: body}); err != nil {
		t.Fatal(err)
	}
	signed := make(shown.AsOf).Seal.Signatures
	if len(signed) != 1 || !signed[0].Holds || signed[0].Who != "Cy" || !strings.HasPrefix(signed[0].Text, "as of 2026-12-02T08:30:00.000Z. read") {
		t.Errorf("signatures are %+v", signed)
	}
	enter(record.WrittenOff{Lot: "P-1", Mass: 0, Numbers: mustNumbers(t, "3"), Why: "torn"})
	later := make(0)
	if s := later.Seal.Signatures; len(s) != 1 || s[0].Holds {
		t.Errorf("after a change the signatures are %+v", s)
	}
	changed := (*ChangedFolderError)(nil)
	if _, err := later.Signature(shown.Seal.Contents, record.AsVerifier, ""); !errors.As(err, &changed) {
		t.Errorf("a folder that is not the one that was shown can be signed: %v", err)
	}
}

func mustNumbers(t *testing.T, text string) record.Numbers {
	t.Helper()
	n, err := record.ParseNumbers(text)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

func TestFolderOfNothing(t *testing.T) {
	r, _, _ := day(t)
	if _, err := r.Folder(t.Context(), frozenBook(), FolderAsk{Ask: lots.Ask{Run: "none"}, Zone: time.UTC, Says: askFolder().Says}); !IsNoLot(err) {
		t.Errorf("a run without lots: %v", err)
	}
	unknown := (*lots.UnknownError)(nil)
	if _, err := r.Folder(t.Context(), frozenBook(), askFolder("P-404")); !errors.As(err, &unknown) {
		t.Errorf("an unknown lot: %v", err)
	}
}

// A lot that was taken back since is still in a folder as of before, and one that came since is found at once.
func TestFolderOfALotTakenBack(t *testing.T) {
	r, enter, now := day(t)
	if _, err := r.Folder(t.Context(), frozenBook(), askFolder("R-2")); err == nil {
		t.Error("a folder of a lot that nobody has entered")
	}
	e := enter(record.Received{Lot: "R-2", Ingredient: "leek", Supplier: "farm", Mass: unit.Kilogram})
	then := askFolder("R-2")
	then.AsOf = e.Entered
	for _, ask := range []FolderAsk{askFolder("R-2"), then} {
		if _, err := r.Folder(t.Context(), frozenBook(), ask); err != nil {
			t.Errorf("as of %d: %v", ask.AsOf, err)
		}
	}
	if _, err := r.Enter(t.Context(), Said{Who: "Ada", Device: "test", At: *now, Corrects: e.ID, Body: record.Voided{Why: "sent back"}}); err != nil {
		t.Fatal(err)
	}
	unknown := (*lots.UnknownError)(nil)
	if _, err := r.Folder(t.Context(), frozenBook(), askFolder("R-2")); !errors.As(err, &unknown) {
		t.Errorf("taken back: %v", err)
	}
	if _, err := r.Folder(t.Context(), frozenBook(), then); err != nil {
		t.Errorf("as of before it was taken back: %v", err)
	}
}

// A break of the chain does not keep the folder from being made; it is told.
func TestFolderOfABrokenChain(t *testing.T) {
	r, _, _ := day(t)
	path := filepath.Join(t.TempDir(), "broken")
	if _, err := r.Backup(t.Context(), path); err != nil {
		t.Fatal(err)
	}
	behind, err := sql.Open("sqlite", "file:"+path) // what the program never does
	if err != nil {
		t.Fatal(err)
	}
	if _, err := behind.Exec(`update entry set who = 'Eve' where seq = 2`); err != nil {
		t.Fatal(err)
	}
	if err := behind.Close(); err != nil {
		t.Fatal(err)
	}
	broken := openRecords(t, path, time.Now)
	f, err := broken.Folder(t.Context(), frozenBook(), askFolder("P-1"))
	if err != nil {
		t.Fatal(err)
	}
	if f.Seal.Chain.Verified || f.Seal.Chain.Seq != 1 || !strings.Contains(f.Seal.Chain.Says(), "BROKEN after entry 1") || len(f.Entries) != 4 {
		t.Errorf("the chain is %+v, entries %d", f.Seal.Chain, len(f.Entries))
	}
}

// A year of 156 runs: the folder of all its lots, as a bundle.
func BenchmarkFolderOfAYear(b *testing.B) {
	h, lines := years(b, history.Size{Runs: 156, Packs: 300})
	r := openRecords(b, filepath.Join(b.TempDir(), "kitchen.records"), time.Now)
	if _, err := r.Import(b.Context(), lines); err != nil {
		b.Fatal(err)
	}
	a := askFolder()
	a.Ask = lots.Ask{Before: h.End}
	for b.Loop() {
		f, err := r.Folder(b.Context(), frozenBook(), a)
		if err != nil {
			b.Fatal(err)
		}
		if err := f.WriteZIP(io.Discard, f.Chain, f.Clock); err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(len(f.Lots)), "lots")
		b.ReportMetric(float64(len(f.Chain)), "entries")
	}
}

// A lot that lay for a year in a freezer whose probe was read every minute.
func BenchmarkFolderOfAFreezersYear(b *testing.B) {
	began := time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)
	now := began
	r := openRecords(b, filepath.Join(b.TempDir(), "kitchen.records"), func() time.Time { return now })
	enter := func(body record.Body) {
		if _, err := r.Enter(b.Context(), Said{Who: "Ada", Device: "test", At: now, Body: body}); err != nil {
			b.Fatal(err)
		}
	}
	n, err := record.ParseNumbers("1-9")
	if err != nil {
		b.Fatal(err)
	}
	enter(record.Packed{Run: "tue", Pack: "soup-1kg", Lot: "P-1", Numbers: n, Label: unit.Kilogram, Mass: 9 * unit.Kilogram, From: []record.Part{{Lot: "B-1", Mass: 9 * unit.Kilogram}}, BestBefore: "2027-06-01", Place: "chest-1"})
	const minutes = 365 * 24 * 60
	batch := store.Batch{ID: record.ID{1}, Device: "F-1"}
	for i := range minutes {
		batch.Readings = append(batch.Readings, store.Reading{Probe: "F-1", At: record.Instant(began.Add(time.Duration(i) * time.Minute).UnixMilli()), MilliC: int64(-20_000 + 1000*(i%60)/30), Valued: true, Line: i + 1})
	}
	if err := r.store.TakeReadings(b.Context(), batch); err != nil {
		b.Fatal(err)
	}
	now = began.Add(minutes * time.Minute)
	enter(record.Noted{About: "P-1", Text: "a year"})
	for b.Loop() {
		f, err := r.Folder(b.Context(), frozenBook(), askFolder("P-1"))
		if err != nil || len(f.Cold) != 1 || f.Cold[0].Readings != minutes {
			b.Fatalf("%v: %+v", err, f.Cold)
		}
	}
}
