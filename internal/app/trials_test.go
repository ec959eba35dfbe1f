package app_test

import (
	"bytes"
	"context"
	"errors"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/people"
	"kettlefrost/internal/record"
	"kettlefrost/internal/tables"
	"kettlefrost/internal/trials"
	"kettlefrost/internal/unit"
)

func decimals(x float64) record.Decimal { return record.Decimal(x*1000 + 0.5) }

// gumTrial is a trial of the demo's sauce with a gum.
func gumTrial() record.TrialLaid {
	bound := decimals(10)
	return record.TrialLaid{Dish: "ale-cheddar", Asks: "does gum keep it from weeping?", Variants: []record.Variant{{Name: "as it is", Change: "as in the book", Base: true}, {Name: "gum", Change: "0.2 % xanthan"}},
		Figures: []record.Figured{{Figure: trials.Drip, Unit: trials.Grams, Better: record.LowIsBetter, Matters: decimals(3), Bound: &bound}, {Figure: "texture", Unit: trials.Points, Better: record.HighIsBetter, Matters: decimals(1)}},
		Tasters: []string{"Nora", "Sam"}, Weeks: []record.Week{0, 4, 8}, Packs: 1}
}

func enterAll(t *testing.T, r *app.Records, bodies ...record.Body) []record.Entry {
	t.Helper()
	var all []record.Entry
	for i, b := range bodies {
		x := said(byte(100 + i))
		x.ID, x.Body = record.ID{}, b
		e, err := r.Enter(t.Context(), x)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, e...)
	}
	return all
}

func layTrial(t *testing.T, r *app.Records, id byte, b record.TrialLaid) record.TrialLaid {
	t.Helper()
	laid, err := r.LayTrial(t.Context(), said(id), b)
	if err != nil {
		t.Fatal(err)
	}
	return laid
}

func TestATrialIsLaidOutOnce(t *testing.T) {
	r := counter(t)
	first := layTrial(t, r, 1, gumTrial())
	if first.Trial != "ale-cheddar-2026-12" || first.Seed == 0 {
		t.Errorf("%+v", first)
	}
	if again := layTrial(t, r, 1, gumTrial()); again.Trial != first.Trial || again.Seed != first.Seed {
		t.Errorf("sent twice: %+v", again)
	}
	if second := layTrial(t, r, 2, gumTrial()); second.Trial != "ale-cheddar-2026-12-2" {
		t.Errorf("another of the same dish and month: %s", second.Trial)
	}
	bad := gumTrial()
	bad.Trial, bad.Variants, bad.Figures[0].Matters = first.Trial, bad.Variants[:1], 0
	_, err := r.LayTrial(t.Context(), said(3), bad)
	wrong := (*app.TrialError)(nil)
	if !errors.As(err, &wrong) || len(wrong.Problems) != 3 {
		t.Errorf("%v", err)
	}
	bad = gumTrial()
	bad.Trial = "new"
	if _, err := r.LayTrial(t.Context(), said(4), bad); !errors.As(err, &wrong) || len(wrong.Problems) != 1 {
		t.Errorf("a trial called as the page on which they are laid out: %v", err)
	}
	if all, found, err := r.Trials(t.Context()); err != nil || len(all) != 2 || len(found) != 0 {
		t.Errorf("%d trials, %v, %v", len(all), found, err)
	}
}

// From laying it out to what it supports, corrected and taken back on the way as any entry is.
func TestATrialFromTheFreezerToTheTable(t *testing.T) {
	r := counter(t)
	book := bookfile.Read(demo.Book()).Book
	name := layTrial(t, r, 1, gumTrial()).Trial
	due := func(day record.Day) []app.Opening {
		t.Helper()
		all, err := r.Openings(t.Context(), book, day)
		if err != nil {
			t.Fatal(err)
		}
		return all
	}
	for _, v := range []string{"as it is", "gum"} {
		enterAll(t, r, record.TrialMade{Trial: name, Variant: v, Mass: 3 * unit.Kilogram, Packs: 3, Each: unit.Pound, Place: "chest-1", Frozen: "2026-12-01"})
	}
	if all := due("2026-12-03"); len(all) != 1 || all[0].Of != app.OfTrial || all[0].Late != 2 || all[0].Packs != 2 || all[0].Week != 0 || !strings.Contains(all[0].Says, "2 of 2 packs to be measured; Nora, Sam to taste") || len(all[0].Places) != 1 {
		t.Errorf("%+v", all)
	}
	x, _, err := r.Trial(t.Context(), name)
	if err != nil {
		t.Fatal(err)
	}
	pack := func(v int, w record.Week, drip float64) record.TrialOpened {
		d := decimals(drip)
		return record.TrialOpened{Trial: name, Variant: x.Laid.Body.Variants[v].Name, Week: w, Number: 1, Whole: unit.Pound, Drip: &d}
	}
	tastes := func(taster string, v int, w record.Week, points float64) record.TrialScored {
		return record.TrialScored{Trial: name, Week: w, Taster: taster, Code: x.CodeOf(v, w), Scores: []record.Score{{Figure: "texture", Points: decimals(points)}}}
	}
	wrong := enterAll(t, r, pack(0, 0, 40))[0]
	fix := said(50)
	fix.Corrects, fix.Body = wrong.ID, pack(0, 0, 4)
	if _, err := r.Enter(t.Context(), fix); err != nil {
		t.Fatal(err)
	}
	for i, w := range []record.Week{0, 4, 8} {
		if i > 0 {
			enterAll(t, r, pack(0, w, 4+float64(w)/2))
		}
		enterAll(t, r, pack(1, w, 2+float64(w)/40), tastes("Nora", 0, w, 6), tastes("Nora", 1, w, 8), tastes("Sam", 0, w, 7), tastes("Sam", 1, w, 8))
	}
	if all := due("2027-03-01"); len(all) != 0 {
		t.Errorf("everything was opened: %+v", all)
	}
	supports, err := r.TrialSupports(t.Context(), "ale-cheddar", "", nil)
	// As it is: 4, 6 and 8 g in weeks 0, 4 and 8, on a line, all within 10 g.
	if err != nil || len(supports) != 1 || !supports[0].Known || supports[0].Weeks != 8 || supports[0].Ends() {
		t.Errorf("%+v, %v", supports, err)
	}
	done, _, err := r.Trial(t.Context(), name)
	if err != nil {
		t.Fatal(err)
	}
	results := trials.ResultsOf(done)
	table := app.TrialTable(results)
	csv, err := table.CSV()
	if err != nil || len(table.Rows) != 6+12 || !strings.Contains(string(csv), `as it is,as in the book,0,drip,g,4,,1,`) || !strings.Contains(string(csv), "texture,points,8,Sam,,") {
		t.Errorf("%d rows, %v\n%s", len(table.Rows), err, csv)
	}
	if back, err := (tables.Table{Name: table.Name, Columns: table.Columns}).Fill(csv); err != nil || len(back.Rows) != len(table.Rows) {
		t.Errorf("it is not read back: %v", err)
	}
}

func pngPicture(t *testing.T) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := png.Encode(&out, image.NewGray(image.Rect(0, 0, 4, 4))); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func TestPicturesAreKeptAsTheyCame(t *testing.T) {
	r := counter(t)
	name := layTrial(t, r, 1, gumTrial()).Trial
	data := pngPicture(t)
	sent := app.PictureSent{About: trials.About(name, "gum", 4), File: `C:\photos\spoon.jpg`, Caption: "smooth", Data: data}
	b, err := r.EnterPicture(t.Context(), said(5), sent)
	if err != nil || b.Type != record.PNG || b.File != "spoon.jpg" { // what it is, whatever its name says
		t.Fatalf("%+v, %v", b, err)
	}
	if _, err := r.EnterPicture(t.Context(), said(5), sent); err != nil {
		t.Errorf("sent twice: %v", err)
	}
	got, there, err := r.Picture(t.Context(), b.Hash)
	if err != nil || !there || !bytes.Equal(got.Data, data) || got.Type != "image/png" {
		t.Errorf("%v, %v", there, err)
	}
	if x, _, _ := r.Trial(t.Context(), name); len(x.Pictures) != 1 || x.Pictures[0].Variant != "gum" || x.Pictures[0].Week != 4 {
		t.Errorf("%+v", x.Pictures)
	}
	for what, data := range map[string][]byte{"nothing": nil, "a page": []byte("<html><script>alert(1)</script>"), "a drawing": []byte(`<svg xmlns="http://www.w3.org/2000/svg"/>`), "GIF89a": []byte("GIF89a......"), "too large": append(pngPicture(t), make([]byte, app.MostPicture)...)} {
		bad := (*app.PictureError)(nil)
		if _, err := r.EnterPicture(t.Context(), said(6), app.PictureSent{About: "trial/x", Data: data}); !errors.As(err, &bad) || bad.Fix == "" {
			t.Errorf("%s: %v", what, err)
		}
	}
	folder := filepath.Join(t.TempDir(), "out")
	bundle, err := app.Folder(folder)
	if err != nil {
		t.Fatal(err)
	}
	if x, err := r.ExportAll(t.Context(), bundle); err != nil || x.Shots != 1 {
		t.Errorf("%+v, %v", x, err)
	}
	if file, err := os.ReadFile(filepath.Join(folder, "pictures", b.Hash.String()+".png")); err != nil || !bytes.Equal(file, data) {
		t.Errorf("in the export: %v", err)
	}
	back := said(7)
	back.Corrects, back.Body = record.ID{5}, record.Voided{Why: "the wrong pot"}
	if _, err := r.Enter(t.Context(), back); err != nil {
		t.Fatal(err)
	}
	if _, there, _ := r.Picture(t.Context(), b.Hash); there {
		t.Error("a picture that was taken back is shown")
	}
}

// Who may not enter pictures leaves none behind.
func TestAStrangerLeavesNoPicture(t *testing.T) {
	r := counter(t)
	ctx := app.Acting(t.Context(), people.Actor{Person: "ina", Device: "tablet"})
	data := pngPicture(t)
	b, err := r.EnterPicture(ctx, said(5), app.PictureSent{About: "trial/x", Data: data})
	if err == nil {
		t.Fatal("somebody whom nobody knows entered a picture")
	}
	enterAll(t, r, record.Pictured{About: "trial/x", File: "a.png", Hash: b.Hash, Type: record.PNG, Bytes: int64(len(data))})
	if _, there, err := r.Picture(context.Background(), b.Hash); there || err != nil {
		t.Errorf("it is there: %v", err)
	}
}
