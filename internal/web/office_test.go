package web

import (
	"archive/zip"
	"bytes"
	"encoding/csv"
	"mime/multipart"
	"net/http"
	"net/http/httptest"
	"net/url"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/record"
)

// pageOf are the pages of the office, empty and full.
func TestOfficePagesEmptyAndFull(t *testing.T) {
	rendered(t, "office", officeTemplate, func(p *officePage) { p.None = false })
	rendered(t, "officesheet", officeSheetTemplate)
	rendered(t, "officebook", bookFilesTemplate, func(p *bookFilesPage) { p.None = false })
	rendered(t, "officefile", bookFileTemplate, func(p *bookFilePage) { p.Elsewhere, p.Stops = "", false }, func(p *bookFilePage) { p.File = "" })
	rendered(t, "officecompare", compareTemplate)
}

// officeOf is the demo kitchen with its book in the records.
func officeOf(t *testing.T) (http.Handler, *app.Records) {
	t.Helper()
	records, err := app.OpenRecords(t.Context(), filepath.Join(t.TempDir(), "kitchen.records"), monthBefore)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { records.Close() })
	if _, err := records.ImportBook(t.Context(), demo.Book(), app.Author{Who: "Ada", Device: "laptop", At: monthBefore()}); err != nil {
		t.Fatal(err)
	}
	house, err := app.New(records.Book(), monthBefore)
	if err != nil {
		t.Fatal(err)
	}
	house.Follow(records)
	return New(house, Options{Records: records}), records
}

// sendFile sends a file as a browser does.
func sendFile(t *testing.T, h http.Handler, target, name, text string) *httptest.ResponseRecorder {
	t.Helper()
	var body bytes.Buffer
	form := multipart.NewWriter(&body)
	part, err := form.CreateFormFile("file", name)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := part.Write([]byte(text)); err != nil {
		t.Fatal(err)
	}
	if err := form.Close(); err != nil {
		t.Fatal(err)
	}
	r := httptest.NewRequest(http.MethodPost, target, &body)
	r.Host = "localhost:8090"
	r.Header.Set("Content-Type", form.FormDataContentType())
	r.AddCookie(&http.Cookie{Name: whoCookie, Value: "Ada"})
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}

// hiddenOf is the fields of a page that nobody sees, by their names; of several with one name the last.
func hiddenOf(page string) url.Values {
	form := url.Values{}
	for _, m := range regexp.MustCompile(`<input type="hidden" name="([^"]+)" value="([^"]*)">`).FindAllStringSubmatch(page, -1) {
		form.Set(m[1], m[2])
	}
	return form
}

// A sheet with a mistake and a question is shown with both where they belong, mended on the page, and entered once; taking it back is one press.
func TestASheetIsMendedAndEntered(t *testing.T) {
	h, records := officeOf(t)
	inOrder(t, get(h, "/office").Body.String(), "nobody makes backups", "20 entries", `href="/office/sheet/customers"`, "/office/everything.zip", "kept in the records")
	inOrder(t, get(h, "/office/sheet/goods").Body.String(), "Goods received from a sheet", `enctype="multipart/form-data"`, "temperature at the door")
	w := sendFile(t, h, "/office/sheet/goods", "<b>.csv", "date,item,vendor,weight\n03/04/2026,leak,hillside,1 kg\n")
	if w.Code != http.StatusUnprocessableEntity {
		t.Fatalf("status %d", w.Code)
	}
	page := w.Body.String()
	inOrder(t, page, "&lt;b&gt;.csv", "In which order are day, month and year?", `Because row 2, column A (date) has &#34;03/04/2026&#34;.`)
	form := hiddenOf(page)
	form.Set("dates", "mdy")
	page = post(h, "/office/sheet/goods", form).Body.String()
	inOrder(t, page, "To mend", `<label for="mend-B2">row 2, column B (item)</label>`, `name="mend.B2"`, `value="leak"`, "is no ingredient of the book: did you mean leek?")
	if strings.Contains(page, "Enter 1 line") {
		t.Error("it can be entered with a mistake")
	}
	form = hiddenOf(page)
	form.Set("mend.B2", "leek")
	page = post(h, "/office/sheet/goods", form).Body.String()
	inOrder(t, page, `name="mend.B2" value="leek"`, "This would be entered", "received 2026-03-04: lot R-260304-1, 1 kg of leek from hillside", "Enter 1 line")
	form = hiddenOf(page)
	form.Set("enter", "yes")
	w = post(h, "/office/sheet/goods", form)
	if w.Code != http.StatusSeeOther || !strings.HasPrefix(w.Header().Get("Location"), "/office?did=") {
		t.Fatalf("%d to %q: %s", w.Code, w.Header().Get("Location"), w.Body)
	}
	inOrder(t, get(h, w.Header().Get("Location")).Body.String(), "Entered:", "R-260304-1", "Take it back")
	page = post(h, "/office/sheet/goods", form).Body.String()
	inOrder(t, page, "This file was entered before", "by Ada, 1 entry. Nothing is entered twice.")
	did := strings.TrimPrefix(w.Header().Get("Location"), "/office?did=")
	if w := post(h, "/undo", url.Values{"entry": {did}, "back": {"/office"}}); w.Code != http.StatusSeeOther {
		t.Fatalf("taking it back: %d %s", w.Code, w.Body)
	}
	if head, err := records.Head(t.Context()); err != nil || head.Seq != 22 {
		t.Errorf("%d entries, %v", head.Seq, err)
	}
	page = sendFile(t, h, "/office/sheet/goods", "none.pdf", "%PDF").Body.String()
	inOrder(t, page, "none.pdf", "is no kind of file that is read", "save it as .xlsx")
	page = post(h, "/office/sheet/goods", url.Values{"upload": {"0123"}, "enter": {"yes"}}).Body.String()
	inOrder(t, page, "not here any more", "Nothing was entered")
	if w := get(h, "/office/sheet/dreams"); w.Code != http.StatusNotFound {
		t.Errorf("dreams: %d", w.Code)
	}
	if got := get(h, "/office/sheet/customers/header.csv").Body.String(); !strings.HasPrefix(got, "customer id,name,") {
		t.Errorf("%q", got)
	}
}

// Everything can be taken out through the pages, whole.
func TestTakingOut(t *testing.T) {
	h, records := officeOf(t)
	if _, err := records.Enter(t.Context(), app.Said{Who: "Ada", Device: "x", At: monthBefore(), Body: record.Customer{Customer: "cafe", Name: "=Café"}}); err != nil {
		t.Fatal(err)
	}
	w := get(h, "/office/everything.zip")
	data := w.Body.Bytes()
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil || w.Header().Get("Content-Type") != typeZIP || !strings.Contains(w.Header().Get("Content-Disposition"), ".zip") {
		t.Fatalf("%v: %v", w.Header(), err)
	}
	for _, name := range []string{"entries.jsonl", "tables.xlsx", "tables/customers.csv", "book/kitchen.yaml", "README.txt"} {
		if f, err := z.Open(name); err != nil {
			t.Errorf("%s: %v", name, err)
		} else {
			f.Close()
		}
	}
	rows, err := csv.NewReader(get(h, "/office/table/customers.csv").Body).ReadAll()
	if err != nil || len(rows) != 2 || rows[1][1] != "'=Café" {
		t.Errorf("%q, %v", rows, err)
	}
	for path, begins := range map[string]string{"/office/entries.jsonl": `{"seq":1,`, "/office/tables.xlsx": "PK", "/office/table/order-lines.xlsx": "PK"} {
		if w := get(h, path); w.Code != http.StatusOK || !strings.HasPrefix(w.Body.String(), begins) {
			t.Errorf("%s: %d %.40q", path, w.Code, w.Body)
		}
	}
	for _, path := range []string{"/office/table/none.csv", "/office/table/lots.pdf"} {
		if w := get(h, path); w.Code != http.StatusNotFound {
			t.Errorf("%s: %d", path, w.Code)
		}
	}
	none := New(&shelf{now: monthBefore()}, Options{})
	for _, path := range []string{"/office", "/office/everything.zip", "/office/sheet/customers", "/book/files", "/book/file?file=a.yaml"} {
		if w := get(none, path); !strings.Contains(w.Body.String(), "No records are kept here") {
			t.Errorf("%s without records: %d", path, w.Code)
		}
	}
}

const aleFile = "dishes/ale-cheddar.yaml"

// pageForm is the form of a file with its text.
func pageForm(t *testing.T, h http.Handler, file string) (url.Values, string) {
	t.Helper()
	page := get(h, "/book/file?file="+url.QueryEscape(file)).Body.String()
	before, text, ok := strings.Cut(page, "wrap=\"off\">\n")
	if !ok {
		t.Fatal("there is no text to change")
	}
	text, _, _ = strings.Cut(text, "</textarea>")
	form := hiddenOf(before[strings.Index(before, `action="/book/file"`):])
	return form, strings.NewReplacer("&lt;", "<", "&gt;", ">", "&amp;", "&", "&#34;", `"`, "&#39;", "'").Replace(text)
}

// A file of the book is changed on its page: good changes are in use at once, one that would stop the book is shown at its line and kept as a
// draft, and everything can be compared and put back.
func TestAFileOfTheBookIsChanged(t *testing.T) {
	h, records := officeOf(t)
	inOrder(t, get(h, "/book/files").Body.String(), "kept in the records", aleFile, "Every change", "version 1", "it began")
	form, text := pageForm(t, h, aleFile)
	send := func(do, text string) *httptest.ResponseRecorder {
		form.Set("do", do)
		form.Set("text", strings.ReplaceAll(text, "\n", "\r\n")) // as a browser sends it
		return post(h, "/book/file", form)
	}
	dearer := strings.Replace(text, "$9.75", "$9.95", 1)
	w := send("save", dearer)
	if w.Code != http.StatusSeeOther {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	inOrder(t, get(h, w.Header().Get("Location")).Body.String(), "is saved and in use", "version 2", "Ada", "version 1", "Make it so again")
	files, err := records.BookFiles(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	if v, _ := files.Version(aleFile); v.Text != dearer || v.Who != "Ada" {
		t.Errorf("it reads otherwise: %d bytes, want %d, by %s", len(v.Text), len(dearer), v.Who)
	}
	inOrder(t, get(h, "/book/compare?file="+url.QueryEscape(aleFile)+"&from=1&to=2").Body.String(), "1 line came, 1 line went", "−", "price: $9.75", "&#43;", "price: $9.95")

	stale := form // of the version before
	form, text = pageForm(t, h, aleFile)
	if w := post(h, "/book/file", withField(stale, "entry", newEntryID())); w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), "was changed by Ada meanwhile") {
		t.Errorf("a change of an old version: %d %s", w.Code, w.Body)
	}

	broken := strings.Replace(text, "bag-6x9", "bag-9x9", 1)
	w = send("save", broken)
	if w.Code != http.StatusUnprocessableEntity {
		t.Fatalf("a bag that is not there: %d", w.Code)
	}
	inOrder(t, w.Body.String(), "could not be planned with", "STOP", `data-line="114"`, "bag-9x9", "►", "bag: bag-9x9", `value="draft">Keep as a draft`)
	w = send("draft", broken)
	inOrder(t, get(h, w.Header().Get("Location")).Body.String(), "is kept as a draft", "DRAFT", "It is not in use", "Throw the draft away")
	page := get(h, "/book/files").Body.String()
	inOrder(t, page, "Drafts", aleFile, "Put all drafts into use")
	if w := post(h, "/book/drafts", url.Values{"entry": {newEntryID()}}); w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), "First: "+aleFile+":114") {
		t.Errorf("a draft that would stop the book: %d", w.Code)
	}
	form, _ = pageForm(t, h, aleFile)
	if w := send("drop", broken); w.Code != http.StatusSeeOther {
		t.Errorf("dropping the draft: %d %s", w.Code, w.Body)
	}

	w = post(h, "/book/put-back", url.Values{"entry": {newEntryID()}, "file": {aleFile}, "version": {"1"}})
	inOrder(t, get(h, w.Header().Get("Location")).Body.String(), "is again what it was", "version 3")
	for name, form := range map[string]url.Values{"a name that is none": {"file": {"../x.yaml"}, "do": {"save"}, "text": {"a: 1"}, "base": {"0"}, "entry": {newEntryID()}}, "no number": {"file": {aleFile}, "do": {"save"}}} {
		if w := post(h, "/book/file", form); w.Code == http.StatusSeeOther {
			t.Errorf("%s is saved", name)
		}
	}
	if w := get(h, "/book/file?file=none.yaml"); w.Code != http.StatusOK || !strings.Contains(w.Body.String(), "none.yaml") {
		t.Errorf("a file that could be made: %d", w.Code)
	}
	if w := get(h, "/book/file?file=../x"); w.Code != http.StatusNotFound {
		t.Errorf("a file that cannot be: %d", w.Code)
	}
	if w := get(h, "/book/compare?file=x&from=1&to=2"); w.Code != http.StatusNotFound {
		t.Errorf("versions that are not there: %d", w.Code)
	}
}

func withField(form url.Values, key, value string) url.Values {
	form.Set(key, value)
	return form
}

// A book that is in a folder is not changed through the pages, and they say so.
func TestABookElsewhere(t *testing.T) {
	_, records := officeOf(t)
	house, err := app.New(demo.Book(), monthBefore)
	if err != nil {
		t.Fatal(err)
	}
	h := New(house, Options{Records: records})
	inOrder(t, get(h, "/book/file?file="+url.QueryEscape(aleFile)).Body.String(), "these pages use another", "not changed", "readonly")
	if w := post(h, "/book/file", url.Values{"entry": {newEntryID()}, "file": {aleFile}, "do": {"save"}, "text": {"x"}}); w.Code != http.StatusConflict {
		t.Errorf("%d", w.Code)
	}
}

func TestTimesOnTheWall(t *testing.T) {
	now := time.Date(2026, 12, 1, 15, 0, 0, 0, time.UTC)
	for at, want := range map[time.Time]string{now.Add(-time.Hour): "today at 14:00", now.Add(-24 * time.Hour): "2026-11-30 15:00"} {
		if got := wallTime(at, now); got != want {
			t.Errorf("%s, want %s", got, want)
		}
	}
	for bytes, want := range map[int64]string{12: "12 bytes", 12_345: "12 kB", 1_250_000: "1.2 MB"} {
		if got := fileSize(bytes); got != want {
			t.Errorf("%s, want %s", got, want)
		}
	}
}
