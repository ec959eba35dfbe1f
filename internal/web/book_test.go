package web

import (
	"html"
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"strings"
	"testing"
	"time"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/bookform"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
)

func TestBookPagesEmptyAndFull(t *testing.T) {
	rendered(t, "booksection", bookSectionTemplate, func(p *sectionPage) { p.Teach = nil })
	rendered(t, "bookentry", bookEntryTemplate, func(p *entryPage) { p.New = false }, func(p *entryPage) { p.New, p.Saved = false, "" })
	rendered(t, "bookcopy", bookCopyTemplate)
	rendered(t, "bookretire", bookRetireTemplate, func(p *retirePage) { p.Uses = nil })
	rendered(t, "bookversions", bookVersionsTemplate)
	rendered(t, "bookcompare", bookCompareTemplate)
}

// postBook sends a form as a browser does, as said by Ada.
func postBook(h http.Handler, target string, form url.Values) *httptest.ResponseRecorder {
	r := httptest.NewRequest(http.MethodPost, target, strings.NewReader(form.Encode()))
	r.Host = "localhost:8090"
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	r.AddCookie(&http.Cookie{Name: whoCookie, Value: "Ada"})
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}

// bookOf is the book that the records hold.
func bookOf(t *testing.T, records *app.Records) kitchen.Book {
	t.Helper()
	house, err := app.New(records.Book(), monthBefore)
	if err != nil {
		t.Fatal(err)
	}
	book, _ := house.Book()
	return book
}

// formAt is what a browser would send of an entry's page as it stands: what the form has, with what is hidden in the page.
func formAt(t *testing.T, h http.Handler, book kitchen.Book, address, path string) url.Values {
	t.Helper()
	w := get(h, address)
	if w.Code != http.StatusOK {
		t.Fatalf("%s: %d", address, w.Code)
	}
	form, err := bookform.Make(book, path, nil)
	if err != nil {
		t.Fatal(err)
	}
	page, values := w.Body.String(), form.Values()
	if strings.HasPrefix(path, "dishes.") {
		values = url.Values{}
	}
	for name := range values { // every control really stands on the page
		if !strings.Contains(page, `name="`+html.EscapeString(name)+`"`) {
			t.Errorf("%s: no control %s", address, name)
		}
	}
	hidden := hiddenOf(page)
	values.Set("entry", hidden.Get("entry"))
	values.Set("was", hidden.Get("was"))
	return values
}

// Every entry of the demo has its page, with a control for each of its fields; sent as it stands, nothing is saved.
func TestEveryEntryHasItsForm(t *testing.T) {
	h, records := officeOf(t)
	book := bookOf(t, records)
	n := 0
	for _, x := range bookform.Sections() {
		if w := get(h, sectionURL(x.Key)); w.Code != http.StatusOK || !strings.Contains(w.Body.String(), x.Name) && !x.Single {
			t.Errorf("%s: %d", x.Key, w.Code)
		}
		for _, e := range bookform.Entries(book, x.Key) {
			address := entryPageURL(x.Key, e.ID)
			values := formAt(t, h, book, address, e.Path)
			w := postBook(h, address, values)
			if w.Code != http.StatusSeeOther || w.Header().Get("Location") != address+"?saved=nothing" {
				t.Errorf("%s: %d, %s", address, w.Code, w.Header().Get("Location"))
			}
			n++
		}
		if !x.Single && x.Key != "dishes" {
			if w := get(h, sectionURL(x.Key)+"/new"); w.Code != http.StatusOK || !strings.Contains(w.Body.String(), "Short name") {
				t.Errorf("new %s: %d", x.One, w.Code)
			}
		}
	}
	if n < 100 {
		t.Errorf("%d entries only", n)
	}
	if log, err := records.BookLog(t.Context(), ""); err != nil || len(log) != countVersions(log) {
		t.Errorf("a file has a second version, %v", err)
	}
}

// countVersions is how many files have one version alone.
func countVersions(log []app.BookVersion) (n int) {
	for _, v := range log {
		if v.Number == 1 {
			n++
		}
	}
	return n
}

// What is typed in a kitchen's own way is saved tidy, once, and told with the runs that follow.
func TestAnEntryIsChanged(t *testing.T) {
	h, records := officeOf(t)
	const address = "/book/ingredients/onion"
	form := formAt(t, h, bookOf(t, records), address, "ingredients.onion")
	form.Set(".trim", "12,5")
	form.Set(".stock", "2 lb 3")
	for range 2 { // sent twice, it is saved once
		w := postBook(h, address, form)
		if w.Code != http.StatusSeeOther || w.Header().Get("Location") != address+"?saved=yes" {
			t.Fatalf("%d, %s, %s", w.Code, w.Header().Get("Location"), w.Body)
		}
	}
	page := get(h, address+"?saved=yes").Body.String()
	inOrder(t, page, "Saved, and in use at once", "<b>Trimmed away</b>", "12.5 %", "<b>On hand</b>", "2 lb 3 oz", "follow at once", `href="/run/tuesday"`)
	file := ""
	log, _ := records.BookLog(t.Context(), "")
	for _, v := range log {
		if v.Number == 2 {
			file = v.Text
		}
		if v.Number > 2 {
			t.Errorf("%s was saved twice", v.Path)
		}
	}
	for _, want := range []string{"trim: 12.5 %", "stock: 2 lb 3 oz"} {
		if !strings.Contains(file, want) {
			t.Errorf("the file has no %q", want)
		}
	}
	if !strings.Contains(page, "Take it back") || hiddenOf(page).Get("version") == "" {
		t.Error("it cannot be taken back from there")
	}
	page = get(h, address+"/versions").Body.String()
	inOrder(t, page, "Ada", "as it is now", "12.5 %", "It came into the book", "Make it again as it was then")
	back := hiddenOf(page)
	if w := postBook(h, address+"/versions", back); w.Code != http.StatusSeeOther {
		t.Fatalf("%d", w.Code)
	}
	if got := bookOf(t, records).Ingredients["onion"].Stock.Mass; got != 0 {
		t.Errorf("after it was brought back, %s are on hand", got)
	}
	inOrder(t, get(h, address+"/compare?version="+back.Get("version")).Body.String(), "0 fields differ")
}

// A form that somebody else's change has overtaken is not saved, and then is.
func TestSomebodyElseChangedIt(t *testing.T) {
	h, records := officeOf(t)
	const address = "/book/bags/bag-6x9"
	mine := formAt(t, h, bookOf(t, records), address, "bags.bag-6x9")
	theirs := formAt(t, h, bookOf(t, records), address, "bags.bag-6x9")
	theirs.Set(".price", "0.13")
	if w := postBook(h, address, theirs); w.Code != http.StatusSeeOther {
		t.Fatal(w.Code)
	}
	mine.Set(".stock", "400")
	w := postBook(h, address, mine)
	if w.Code != http.StatusConflict || !strings.Contains(w.Body.String(), "Somebody else changed this") || !strings.Contains(w.Body.String(), `value="400"`) {
		t.Fatalf("%d", w.Code)
	}
	again := hiddenOf(w.Body.String())
	mine.Set("entry", again.Get("entry"))
	mine.Set("was", again.Get("was"))
	if w := postBook(h, address, mine); w.Code != http.StatusSeeOther {
		t.Errorf("%d", w.Code)
	}
}

// What cannot be read is told beside its field, and all that was typed stays.
func TestBadInput(t *testing.T) {
	h, records := officeOf(t)
	book := bookOf(t, records)
	for _, c := range []struct{ address, path, name, typed, says string }{
		{"/book/ingredients/onion", "ingredients.onion", ".trim", "0.5", "a share"},
		{"/book/ingredients/onion", "ingredients.onion", ".stock", "12", "bare number"},
		{"/book/ingredients/onion", "ingredients.onion", ".density", "heavy", "a density"},
		{"/book/ingredients/onion", "ingredients.onion", ".name", "  ", "must be filled in"},
		{"/book/ingredients/onion", "ingredients.onion", ".class", "stone", "cannot stand here"},
		{"/book/freezers/chest", "freezers.chest", ".air", "cold", "a temperature"},
		{"/book/packs/ale-cheddar-lb", "packs.ale-cheddar-lb", ".bag", "bag-6x8", "did you mean bag-6x9"},
		{"/book/packs/ale-cheddar-lb", "packs.ale-cheddar-lb", ".price", "dear", "money"},
		{"/book/people/sam", "people.sam", ".shift.from", "25:00", "not in a day"},
		{"/book/kitchen", "kitchen", ".days-a-week", "five", "whole number"},
		{"/book/ingredients/onion", "ingredients.onion", ".aisle", `"><script>alert(1)</script>`, ""}, // hostile, but a text
	} {
		if get(h, c.address).Code != http.StatusOK {
			t.Errorf("no %s", c.address)
			continue
		}
		form := formAt(t, h, book, c.address, c.path)
		form.Set(c.name, c.typed)
		w := postBook(h, c.address, form)
		if c.says == "" {
			page := get(h, c.address).Body.String()
			if w.Code != http.StatusSeeOther || strings.Contains(page, "<script>alert") || !strings.Contains(page, "&lt;script&gt;alert") {
				t.Errorf("%s %q: %d", c.name, c.typed, w.Code)
			}
			continue
		}
		page := w.Body.String()
		id := bookform.Field{Name: c.name}.ID()
		note := regexp.MustCompile(`(?s)id="` + id + `-note">(.*?)</div>`).FindStringSubmatch(page)
		if w.Code != http.StatusUnprocessableEntity || note == nil || !strings.Contains(html.UnescapeString(note[1]), c.says) || !strings.Contains(page, `href="#`+id+`"`) {
			t.Errorf("%s %q: %d, %q", c.name, c.typed, w.Code, note)
		}
		if strings.TrimSpace(c.typed) != "" && !strings.Contains(page, html.EscapeString(c.typed)) {
			t.Errorf("%s: what was typed is gone", c.name)
		}
		check := postBook(h, c.address+"/check", form)
		if check.Code != http.StatusOK || !strings.Contains(html.UnescapeString(check.Body.String()), c.says) {
			t.Errorf("%s: as it is typed: %d", c.name, check.Code)
		}
	}
}

// A new entry, a copy of it, and both out of the book again; what is named elsewhere stays.
func TestNewCopyRetire(t *testing.T) {
	h, records := officeOf(t)
	form := hiddenOf(get(h, "/book/ingredients/new").Body.String())
	form.Set(".name", "Smoked salt")
	form.Set(".storage", "dry")
	form.Set(".buy", "")
	form.Set(".buy[0]@", "")
	form.Set(".buy[0].pack", "5 lbs")
	form.Set(".buy[0].price", "$14")
	form.Add(".allergens", "none")
	form.Del(".contains")
	for range 2 {
		w := postBook(h, "/book/ingredients/new", form)
		if w.Code != http.StatusSeeOther || w.Header().Get("Location") != "/book/ingredients/smoked-salt?saved=new" {
			t.Fatalf("%d %s %s", w.Code, w.Header().Get("Location"), w.Body)
		}
	}
	got := bookOf(t, records).Ingredients["smoked-salt"]
	if len(got.Buy) != 1 || got.Buy[0].Price.Units() != 14 || !got.Allergens.Answered || len(bookOf(t, records).Ingredients) != 54 {
		t.Errorf("%+v", got)
	}
	cp := hiddenOf(get(h, "/book/ingredients/smoked-salt/copy").Body.String())
	cp.Set("name", "Smoked salt, coarse")
	if w := postBook(h, "/book/ingredients/smoked-salt/copy", cp); w.Header().Get("Location") != "/book/ingredients/smoked-salt-coarse?saved=copy" {
		t.Fatalf("%d %s", w.Code, w.Header().Get("Location"))
	}
	inOrder(t, get(h, "/book/ingredients/smoked-salt/compare?with=smoked-salt-coarse").Body.String(), "1 field differs", "≠", "Smoked salt, coarse")
	out := hiddenOf(get(h, "/book/ingredients/smoked-salt-coarse/retire").Body.String())
	if w := postBook(h, "/book/ingredients/smoked-salt-coarse/retire", out); w.Header().Get("Location") != "/book/ingredients?saved=retired" {
		t.Fatalf("%d %s", w.Code, w.Header().Get("Location"))
	}
	if w := get(h, "/book/ingredients/smoked-salt-coarse"); w.Code != http.StatusNotFound {
		t.Error(w.Code)
	}
	page := get(h, "/book/ingredients/smoked-salt-coarse/versions").Body.String()
	inOrder(t, page, "It went out of the book", "Make it again as it was then")
	if w := postBook(h, "/book/ingredients/smoked-salt-coarse/versions", hiddenOf(page)); w.Code != http.StatusSeeOther {
		t.Errorf("%d", w.Code)
	}
	page = get(h, "/book/ingredients/onion/retire").Body.String()
	inOrder(t, page, "still named", "Dish", `href="/dish/`)
	if w := postBook(h, "/book/ingredients/onion/retire", url.Values{"entry": {newEntryID()}}); w.Code != http.StatusConflict {
		t.Errorf("%d", w.Code)
	}
}

// A change that would put the book out of use is told and not made.
func TestAChangeThatStopsTheBook(t *testing.T) {
	h, records := officeOf(t)
	const address = "/book/ingredients/cheddar"
	form := formAt(t, h, bookOf(t, records), address, "ingredients.cheddar")
	form[".allergens"] = []string{"", "cheese"}
	w := postBook(h, address, form)
	page := w.Body.String()
	if w.Code != http.StatusUnprocessableEntity || !strings.Contains(page, "could not be planned with") || !strings.Contains(page, "cheese") {
		t.Errorf("%d", w.Code)
	}
	if book, _ := bookOf(t, records), 0; len(book.Ingredients["cheddar"].Allergens.Names) != 1 || book.Ingredients["cheddar"].Allergens.Names[0] != "milk" {
		t.Errorf("%v", book.Ingredients["cheddar"].Allergens)
	}
}

// The rows of a list come, go and move without JavaScript, and keep what is typed in the others.
func TestRows(t *testing.T) {
	h, records := officeOf(t)
	const address = "/book/ingredients/onion"
	form := formAt(t, h, bookOf(t, records), address, "ingredients.onion")
	form.Set("row", "add .buy")
	form.Set(".aisle", "typed and not saved")
	w := postBook(h, address, form)
	page := w.Body.String()
	if w.Code != http.StatusOK || !strings.Contains(page, `name=".buy[1].price"`) || !strings.Contains(page, "typed and not saved") {
		t.Fatalf("%d", w.Code)
	}
	form.Set(".buy[1]@", "")
	form.Set("row", "drop .buy[0]")
	if page := postBook(h, address, form).Body.String(); strings.Contains(page, `name=".buy[0].price"`) || !strings.Contains(page, `name=".buy[1].price"`) {
		t.Error("the first row is still there")
	}
}

// A book in a folder is not written: the page says what to write.
func TestABookInAFolderIsWrittenByHand(t *testing.T) {
	h := demoKitchen(t)
	page := get(h, "/book/ingredients/onion").Body.String()
	if !strings.Contains(page, "Show what to write") {
		t.Error("it offers to save")
	}
	w := postBook(h, "/book/ingredients/onion", url.Values{".trim": {"13"}, "was": {hiddenOf(page).Get("was")}})
	inOrder(t, w.Body.String(), "Nothing was saved", "ingredients/", "−", "trim", "&#43;", "trim: 13 %")
}

// Fields of every kind stand in the page with all that is said of them.
func TestFieldsAreDrawn(t *testing.T) {
	form := bookform.Form{Groups: []bookform.FieldGroup{{Title: "more <b>", Open: true}}}
	for _, k := range []bookform.Kind{bookform.Text, bookform.Long, bookform.Lines, bookform.Words, bookform.Quantity, bookform.Money, bookform.Clock, bookform.Day, bookform.Number, bookform.Food, bookform.One, bookform.Many, bookform.Answer, bookform.YesNo} {
		f := bookform.Field{Name: "." + string(k), Label: "label-" + string(k) + "<i>", Help: "help-" + string(k), Example: "eg-" + string(k), Kind: k, Typed: "typed-" + string(k) + "<i>", Problem: "problem-" + string(k),
			Suggest: []string{"suggest-" + string(k)}, Choices: []bookform.Choice{{Value: "v-" + string(k), Name: "name-" + string(k), Chosen: true}}, Found: finding.List{{Message: "found-" + string(k), Fix: "fix-" + string(k)}}}
		form.Groups[0].Fields = append(form.Groups[0].Fields, f)
	}
	var out strings.Builder
	if err := bookEntryTemplate.t.ExecuteTemplate(&out, "bookfields", form); err != nil {
		t.Fatal(err)
	}
	page := out.String()
	for _, f := range form.Groups[0].Fields {
		for _, part := range []string{"label-", "help-", "problem-", "found-", "fix-"} {
			if !strings.Contains(page, part+string(f.Kind)) {
				t.Errorf("no %s%s", part, f.Kind)
			}
		}
	}
	if strings.Contains(page, "<i>") || strings.Contains(page, "<b>") {
		t.Error("a text became markup")
	}
}

// A packer sees who works here and what there is, and neither wages nor prices, nor the text in which they stand.
func TestTheBookAsAPackerSeesIt(t *testing.T) {
	records := staffed(t, func() time.Time { return staffedNoon })
	house, err := app.New(demo.Book(), func() time.Time { return staffedNoon })
	if err != nil {
		t.Fatal(err)
	}
	b := newBrowser(t, New(house, Options{Records: records}))
	b.signIn("ada", adasPassword, "tablet")
	if w := b.post("/person", "as", "pat", "pin", patsPIN); w.Code != http.StatusSeeOther {
		t.Fatal(w.Code)
	}
	for target, status := range map[string]int{"/book": 200, "/book/people": 200, "/book/people/sam": 403, "/book/people/sam/versions": 403, "/book/suppliers": 403, "/book/price-lists": 403, "/book/seller": 403,
		"/book/files": 403, "/book/file?file=people.yaml": 403, "/book/compare?file=people.yaml&from=1&to=1": 403, "/book/ingredients/onion": 200, "/book/ingredients": 200, "/book/packs/ale-cheddar-lb": 200, "/book/packs/ale-cheddar-lb/compare?with=meatballs-six&all=1": 200} {
		w := b.get(target)
		if w.Code != status {
			t.Errorf("%s: %d, want %d", target, w.Code, status)
		}
		page := html.UnescapeString(w.Body.String())
		if m := regexp.MustCompile(`(value="|<dd>|<td[^>]*>)\$[0-9.]+`).FindString(page); m != "" {
			t.Errorf("%s shows %s", target, m)
		}
	}
	if page := b.get("/book/people").Body.String(); !strings.Contains(page, "Sam") || strings.Contains(page, "/h<") || strings.Contains(page, `href="/book/people/sam"`) {
		t.Error("the list of people: a name is missing, or a wage is not")
	}
}

// What is not in the book any more when its form is sent is told, and comes back when it is sent again.
func TestItWasTakenOutMeanwhile(t *testing.T) {
	h, records := officeOf(t)
	made := hiddenOf(get(h, "/book/suppliers/new").Body.String())
	made.Set(".name", "Corner shop")
	if w := postBook(h, "/book/suppliers/new", made); w.Code != http.StatusSeeOther {
		t.Fatal(w.Code, w.Body)
	}
	const address = "/book/suppliers/corner-shop"
	form := formAt(t, h, bookOf(t, records), address, "suppliers.corner-shop")
	postBook(h, address+"/retire", hiddenOf(get(h, address+"/retire").Body.String()))
	form.Set(".note", "typed meanwhile")
	w := postBook(h, address, form)
	if w.Code != http.StatusConflict || !strings.Contains(w.Body.String(), "took this out") || !strings.Contains(w.Body.String(), "typed meanwhile") {
		t.Fatalf("%d", w.Code)
	}
	again := hiddenOf(w.Body.String())
	form.Set("was", again.Get("was"))
	form.Set("entry", again.Get("entry"))
	if w := postBook(h, address, form); w.Code != http.StatusSeeOther || bookOf(t, records).Suppliers["corner-shop"].Note != "typed meanwhile" {
		t.Errorf("%d", w.Code)
	}
}
