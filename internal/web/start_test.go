package web

import (
	"bytes"
	"mime/multipart"
	"net/http"
	"net/http/httptest"
	"net/url"
	"path/filepath"
	"strings"
	"testing"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/record"
)

// firstStart serves the demo as it is shown until the records hold a book.
func firstStart(t *testing.T, passing bool) (http.Handler, *app.App, *app.Records) {
	t.Helper()
	records, err := app.OpenRecords(t.Context(), filepath.Join(t.TempDir(), "kitchen.records"), someDay)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { records.Close() })
	house, err := app.New(demo.Book(), someDay)
	if err != nil {
		t.Fatal(err)
	}
	house.Follow(records)
	house.UntilOwn()
	return New(house, Options{Records: records, Passing: passing}), house, records
}

// beginning is a form of /start with its number and who sends it.
func beginning(pairs ...string) url.Values {
	v := url.Values{entryField: {newEntryID()}, whoField: {"Ada"}}
	for i := 0; i+1 < len(pairs); i += 2 {
		v.Set(pairs[i], pairs[i+1])
	}
	return v
}

func TestThreeWaysToBegin(t *testing.T) {
	h, house, _ := firstStart(t, false)
	inOrder(t, get(h, "/").Body.String(), "The demo kitchen", `href="/start"`, "First start: three ways on", `/start#way-demo`, `/start#way-files`, `/start#way-own`)
	inOrder(t, get(h, "/start").Body.String(), "1. Learn on the demo", "2. Bring a book", "3. Begin with nothing", "Name of the kitchen")
	for _, c := range []struct{ key, value, says string }{{"kitchen", "", "Give the kitchen a name"}, {"units", "stones", "Choose one of the two"}, {"currency", "12", "Write the sign"}} {
		w := post(h, "/start", beginning("way", "own", "kitchen", "Mine <b>", "units", "metric", "currency", "€", c.key, c.value))
		if w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), c.says) || house.InRecords() {
			t.Errorf("%s=%q: %d", c.key, c.value, w.Code)
		}
		if c.key != "kitchen" && !strings.Contains(w.Body.String(), `value="Mine &lt;b&gt;"`) {
			t.Errorf("%s: what was typed is gone", c.key)
		}
	}
	form := beginning("way", "own", "kitchen", "Mine <b>", "place", "Springfield", "units", "metric", "currency", "€")
	for range 2 { // sent twice
		if w := post(h, "/start", form); w.Code != http.StatusSeeOther || w.Header().Get("Location") != dishFirstPath {
			t.Fatalf("%d to %q", w.Code, w.Header().Get("Location"))
		}
	}
	page := get(h, "/").Body.String()
	inOrder(t, page, "Mine &lt;b&gt;", "Springfield", "No dishes yet", dishFirstPath, "No run is in the book yet")
	if strings.Contains(page, "demo") || strings.Contains(page, "Plan it") {
		t.Error("the page of an empty kitchen speaks of the demo, or plans packs that there are none of")
	}
	if w := post(h, "/start", beginning("way", "own", "kitchen", "Other", "units", "us", "currency", "$")); w.Code != http.StatusConflict || !strings.Contains(w.Body.String(), "has begun in these records already") {
		t.Errorf("another kitchen: %d", w.Code)
	}
}

func TestTheDemoIsPutIntoTheRecords(t *testing.T) {
	h, house, _ := firstStart(t, true)
	w := post(h, "/start", beginning("way", "demo"))
	if w.Code != http.StatusSeeOther || w.Header().Get("Location") != demoDayPath || !house.InRecords() || !house.Demo() {
		t.Fatalf("%d to %q", w.Code, w.Header().Get("Location"))
	}
	inOrder(t, get(h, "/start").Body.String(), "These records hold the <b>demo kitchen</b>", "kettlefrost serve --records my-kitchen.records")
	if w := post(h, "/start", beginning("way", "own", "kitchen", "Mine", "units", "us", "currency", "$", "try", "yes")); w.Code != http.StatusConflict {
		t.Errorf("a kitchen of one's own among entries of the demo: %d", w.Code)
	}
}

// Where the records are thrown away, or hold entries, a kitchen begins only when somebody says that this is known.
func TestWhatIsLostIsSaidFirst(t *testing.T) {
	h, house, records := firstStart(t, true)
	own := []string{"way", "own", "kitchen", "Mine", "units", "us", "currency", "$"}
	if w := post(h, "/start", beginning(own...)); w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), "thrown away when the program stops") || house.InRecords() {
		t.Errorf("thrown away: %d", w.Code)
	}
	if _, err := records.Enter(t.Context(), app.Said{Who: "Ada", Device: "laptop", At: someDay(), Body: record.Noted{Text: "tried"}}); err != nil {
		t.Fatal(err)
	}
	w := post(h, "/start", beginning(append(own, "try", "yes")...))
	if w.Code != http.StatusConflict || !strings.Contains(w.Body.String(), "hold 1 entry already") || house.InRecords() {
		t.Errorf("mixed: %d", w.Code)
	}
	if w := post(h, "/start", beginning(append(own, "try", "yes", "ours", "yes")...)); w.Code != http.StatusSeeOther || !house.InRecords() {
		t.Errorf("%d", w.Code)
	}
}

// sendFiles sends files as a browser does.
func sendFiles(t *testing.T, h http.Handler, files ...string) *httptest.ResponseRecorder {
	t.Helper()
	var body bytes.Buffer
	m := multipart.NewWriter(&body)
	for i := 0; i+1 < len(files); i += 2 {
		part, err := m.CreateFormFile(filesField, files[i])
		if err != nil {
			t.Fatal(err)
		}
		part.Write([]byte(files[i+1]))
	}
	m.Close()
	r := httptest.NewRequest(http.MethodPost, startFilesPath, &body)
	r.Host = "localhost"
	r.Header.Set("Content-Type", m.FormDataContentType())
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}

// Files are looked at first: every mistake at its place, and nothing is taken; then they are taken, once.
func TestABookIsBrought(t *testing.T) {
	h, house, _ := firstStart(t, false)
	w := sendFiles(t, h, "kitchen.yaml", "kitchen:\n  name: Mine\n  colour: red\n", "dal.yaml", "dishes:\n  dal: {name: \xe9}\n", "../../evil.yaml", "x: 1\n")
	inOrder(t, w.Body.String(), "What was sent: 3 files", "dal.yaml:2:15", "evil.yaml:1:1", "kitchen.yaml:3:3", "Nothing was taken")
	if w.Code != http.StatusUnprocessableEntity || house.InRecords() {
		t.Errorf("%d", w.Code)
	}
	for sent, says := range map[string]string{"": "Choose a file first", "notes.txt": "no file of a book is in it", "book.zip": "this is no zip"} {
		w := sendFiles(t, h)
		if sent != "" {
			w = sendFiles(t, h, sent, "x")
		}
		if w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), says) {
			t.Errorf("%q: %d", sent, w.Code)
		}
	}
	page := sendFiles(t, h, "kitchen.yaml", "kitchen:\n  name: Mine\n", "more.yaml", "# nothing yet\n").Body.String()
	form := formOf(t, page, startFilesPath)
	form.Set(whoField, "Ada")
	for range 2 { // sent twice
		if w := post(h, startFilesPath, form); w.Code != http.StatusSeeOther || w.Header().Get("Location") != "/" {
			t.Fatalf("%d: %s", w.Code, w.Body)
		}
	}
	if book, _ := house.Book(); book.Kitchen.Name != "Mine" {
		t.Errorf("%q is in use", book.Kitchen.Name)
	}
}
