package web

import (
	"archive/zip"
	"bytes"
	"io"
	"net/http"
	"net/url"
	"regexp"
	"strings"
	"testing"

	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

func TestFolderPageEmptyAndFull(t *testing.T) {
	rendered(t, "folder", folderTemplate, func(p *folderPage) { p.None = false }, func(p *folderPage) { p.None, p.Folder = false, nil })
}

// packedSoup is a lot of packs with what went into it, and a name that would be markup.
func packedSoup(t testing.TB) []record.Body {
	t.Helper()
	n, err := record.ParseNumbers("1-9")
	if err != nil {
		t.Fatal(err)
	}
	return []record.Body{
		record.Received{Lot: "R-9", Ingredient: "carrot", Supplier: "<evil>", Mass: 20 * unit.Kilogram, Place: "walk-in"},
		record.Made{Run: "tue", Dish: "soup", Output: "soup", Lot: "B-9", Mass: 9 * unit.Kilogram, From: []record.Part{{Lot: "R-9", Mass: 9 * unit.Kilogram}}},
		record.Packed{Run: "tue", Pack: "soup-1kg", Lot: "P-9", Numbers: n, Label: unit.Kilogram, Mass: 9 * unit.Kilogram, From: []record.Part{{Lot: "B-9", Mass: 9 * unit.Kilogram}}, BestBefore: "2027-06-01", Place: "chest-2"},
		record.Noted{About: "P-9", Text: "a <evil> note"},
	}
}

func TestFolderPageAsks(t *testing.T) {
	h, _ := watchedLarder(t, nil, packedSoup(t)...)
	for _, c := range []struct {
		target string
		status int
		has    []string
	}{
		{"/folder", 200, []string{"Show what it holds", `name="in-run"`}},
		{"/folder?lot=P-9", 200, []string{"NOBODY HAS DECIDED", "Lots", "lots behind them", "supplier&#39;s lot number", `/folder\.pdf\?as-of=`, "Nobody has signed this folder", "Your local code"}},
		{"/folder?in-run=tue", 200, []string{"P-9"}},
		{"/folder?from=2020-01-01&until=2020-01-02", 404, []string{"No lot fits"}},
		{"/folder?lot=P-404", 404, []string{"No entry names a lot"}},
		{"/folder?from=yesterday", 422, []string{"This is no day"}},
		{"/folder.pdf", 404, []string{"nobody said which lots"}},
		{"/folder.zip?lot=P-404", 404, []string{"No entry names"}},
	} {
		w := get(h, c.target)
		if w.Code != c.status {
			t.Errorf("%s: status %d, want %d", c.target, w.Code, c.status)
		}
		for _, want := range c.has {
			if !regexp.MustCompile(want).MatchString(w.Body.String()) {
				t.Errorf("%s has no %q", c.target, want)
			}
		}
		if strings.Contains(w.Body.String(), "<evil") || strings.Contains(w.Body.String(), "are safe") || strings.Contains(w.Body.String(), "is safe") {
			t.Errorf("%s has markup of others, or says what nobody can", c.target)
		}
	}
	if w := get(demoKitchen(t), "/folder?lot=P-9"); w.Code != 200 || !strings.Contains(w.Body.String(), "No records are kept here") {
		t.Errorf("without records: %d", w.Code)
	}
}

// linkTo finds an address in a page.
func linkTo(t *testing.T, page, begins string) string {
	t.Helper()
	m := regexp.MustCompile(`href="(` + regexp.QuoteMeta(begins) + `[^"]*)"`).FindStringSubmatch(page)
	if m == nil {
		t.Fatalf("there is no link to %s", begins)
	}
	return strings.ReplaceAll(m[1], "&amp;", "&")
}

// What is downloaded is what was shown, and the same each time.
func TestFolderDownloads(t *testing.T) {
	h, records := watchedLarder(t, nil, packedSoup(t)...)
	page := get(h, "/folder?lot=P-9").Body.String()
	pdf, bundle := get(h, linkTo(t, page, "/folder.pdf")), get(h, linkTo(t, page, "/folder.zip"))
	if pdf.Header().Get("Content-Type") != "application/pdf" || !bytes.HasPrefix(pdf.Body.Bytes(), []byte("%PDF-")) || !strings.Contains(pdf.Header().Get("Content-Disposition"), "folder.pdf") {
		t.Errorf("the PDF is %v", pdf.Header())
	}
	z, err := zip.NewReader(bytes.NewReader(bundle.Body.Bytes()), int64(bundle.Body.Len()))
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range z.File {
		if f.Name != "folder.pdf" {
			continue
		}
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		if inside, err := io.ReadAll(r); err != nil || !bytes.Equal(inside, pdf.Body.Bytes()) {
			t.Error("the PDF in the bundle is another")
		}
	}
	if again := get(h, linkTo(t, page, "/folder.zip")); !bytes.Equal(again.Body.Bytes(), bundle.Body.Bytes()) {
		t.Error("the same bundle has other bytes")
	}
	if _, err := records.Head(t.Context()); err != nil {
		t.Fatal(err)
	}
}

var hiddenFields = regexp.MustCompile(`<input type="hidden" name="([^"]+)" value="([^"]*)">`)

// signForm is what the form to sign holds.
func signForm(page string) url.Values {
	form := url.Values{}
	_, after, _ := strings.Cut(page, `action="/folder/sign"`)
	after, _, _ = strings.Cut(after, "</form>")
	for _, m := range hiddenFields.FindAllStringSubmatch(after, -1) {
		form.Set(m[1], m[2])
	}
	return form
}

func TestFolderIsSigned(t *testing.T) {
	h, records := watchedLarder(t, nil, packedSoup(t)...)
	form := signForm(get(h, "/folder?lot=P-9").Body.String())
	form.Set("who", "Cy")
	form.Set("text", "read with the logbook beside it")
	w := post(h, "/folder/sign", form)
	if w.Code != http.StatusSeeOther {
		t.Fatalf("status %d: %s", w.Code, w.Body)
	}
	page := get(h, w.Header().Get("Location")).Body.String()
	for _, want := range []string{"by Cy, as verifier", "read with the logbook beside it", "(on these contents)", "Entered: "} {
		if !strings.Contains(page, want) {
			t.Errorf("the page has no %q", want)
		}
	}
	if _, err := records.Verify(t.Context()); err != nil {
		t.Error(err)
	}
	form.Set("hash", strings.Repeat("0", 64))
	form.Set("entry", newEntryID())
	if w := post(h, "/folder/sign", form); w.Code != http.StatusConflict || !strings.Contains(w.Body.String(), "look at it again") {
		t.Errorf("another hash: status %d", w.Code)
	}
	form.Del("hash")
	if w := post(h, "/folder/sign", form); w.Code != http.StatusUnprocessableEntity {
		t.Errorf("without a hash: status %d", w.Code)
	}
}

// Plans and the checks of thermometers come as PDF; a draft says so, and what is not there is told.
func TestPapers(t *testing.T) {
	h, _ := watchedLarder(t, nil, record.Calibrated{Instrument: "pen-1", Method: record.IcePoint, Read: unit.TempF(33), True: unit.TempF(32), Kept: record.InUse})
	for target, status := range map[string]int{"/hazards/plan.pdf?pack=meatballs-six": 200, "/thermometers.pdf": 200, "/hazards/plan.pdf?pack=none": 404} {
		w := get(h, target)
		if w.Code != status || status == 200 && (w.Header().Get("Content-Type") != "application/pdf" || !bytes.HasPrefix(w.Body.Bytes(), []byte("%PDF-")) || !bytes.Contains(w.Body.Bytes(), []byte("%%EOF"))) {
			t.Errorf("%s: status %d, %s", target, w.Code, w.Header())
		}
	}
	if w := get(demoKitchen(t), "/thermometers.pdf"); w.Code != 404 {
		t.Errorf("without records: status %d", w.Code)
	}
}
