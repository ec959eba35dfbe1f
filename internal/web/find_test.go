package web

import (
	"encoding/json"
	"net/http"
	"net/url"
	"path/filepath"
	"strings"
	"testing"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

func lookedFor(words string) string { return "/find?" + url.Values{"q": {words}}.Encode() }

// The kitchen of kept packs: one lot of packs, an order, a customer with a hostile name.
func TestFindingInTheKitchen(t *testing.T) {
	h, _ := keptKitchen(t)
	inOrder(t, get(h, "/").Body.String(), "/static/find.js", `action="/find"`, `role="search"`, `id="find"`)
	inOrder(t, get(h, "/find").Body.String(), "Words, a number, a date, or a code")
	page := get(h, lookedFor("Bean-Pot 2lb")).Body.String()
	inOrder(t, page, `value="Bean-Pot 2lb"`, "things found", "Packs", `href="/labels/pack?pack=bean-pot-2lb"`)
	inOrder(t, page, "Lots", `href="/lot?lot=P-1"`)
	inOrder(t, page, "Orders", `href="/order/O-1"`, "2026-12-04", "5 × ")
	inOrder(t, get(h, lookedFor("chedar")).Body.String(), "Ingredients", "by a similar word")
	inOrder(t, get(h, lookedFor("zzzz")).Body.String(), "0 things found")
	evil := get(h, lookedFor(`<evil`)).Body.String()
	inOrder(t, evil, `value="&lt;evil"`, "Customers", "/customer/evil", `&lt;evil a=&#34;b&#34;&gt;`)
	if strings.Contains(evil, "<evil") {
		t.Error("a hostile name became markup")
	}
}

// Every address that a result leads to is there.
func TestWhatIsFoundCanBeLookedAt(t *testing.T) {
	h, _ := keptKitchen(t)
	seen := map[string]bool{}
	for _, words := range []string{"bean", "p", "o-1", "evil", "a", "01009", "chest", "kettle", "2026"} {
		page := get(h, lookedFor(words)).Body.String()
		for _, part := range strings.Split(page, `<li><a class="reach" href="`)[1:] {
			address, _, _ := strings.Cut(part, `"`)
			address = strings.ReplaceAll(address, "&amp;", "&")
			kind, _, _ := strings.Cut(strings.TrimPrefix(address, "/"), "?")
			if seen[kind] {
				continue
			}
			seen[kind] = true
			page, _, _ := strings.Cut(address, "#")
			if w := get(h, page); w.Code != http.StatusOK {
				t.Errorf("%s, found by %q: %d", address, words, w.Code)
			}
		}
	}
	if len(seen) < 8 {
		t.Errorf("only %v were found", seen)
	}
}

// What a scanner read leads straight to the lot; what it read of a lot that nobody knows is told.
func TestAScanLeadsToTheLot(t *testing.T) {
	h, _ := keptKitchen(t)
	for _, scan := range []string{"P-1#17", "(01)09501101530003(10)P-1(21)17", "https://id.example.org/01/09501101530003/10/P-1/21/17", "]C110P-1"} {
		w := get(h, lookedFor(scan))
		if to := w.Header().Get("Location"); w.Code != http.StatusSeeOther || !strings.HasPrefix(to, "/lot?lot=P-1") || get(h, to).Code != http.StatusOK {
			t.Errorf("%s: %d to %q", scan, w.Code, to)
		}
	}
	inOrder(t, get(h, lookedFor("(01)09501101530003(10)NOBODYS")).Body.String(), "A scanner read lot NOBODYS, which the records do not name", "0 things found")
	inOrder(t, get(h, lookedFor("0109501101530003")).Body.String(), "A scanner read item 09501101530003 and no lot")
}

// One kind alone has no cut at eight, and programs get the same.
func TestFindingOneKind(t *testing.T) {
	h, _ := keptKitchen(t)
	page := get(h, lookedFor("raw")).Body.String()
	inOrder(t, page, "Composition table", "kind=food", "All ")
	one := get(h, lookedFor("raw")+"&kind=food").Body.String()
	if few, all := strings.Count(page, `href="/foods?q=`), strings.Count(one, `href="/foods?q=`); few != ofAKind || all <= few {
		t.Errorf("%d and %d foods", few, all)
	}
	var v app.FoundSheet
	if err := json.Unmarshal(get(h, "/find.json?q=bean+pot&kind=pack").Body.Bytes(), &v); err != nil || v.Schema != app.FoundSchema || len(v.Groups) != 1 || v.Groups[0].Results[0].ID != "bean-pot-2lb" {
		t.Errorf("%+v, %v", v, err)
	}
}

// A packer finds no invoice, and only an owner who may sign in.
func TestFindingByRole(t *testing.T) {
	records := staffed(t, coldNoon)
	house, err := app.New(demo.Book(), coldNoon)
	if err != nil {
		t.Fatal(err)
	}
	h := New(house, Options{Records: records})
	if got := get(h, "/find?q=bean"); got.Code != http.StatusSeeOther || !strings.HasPrefix(got.Header().Get("Location"), "/sign-in") {
		t.Errorf("nobody is signed in: %d", got.Code)
	}
	for who, c := range map[string]struct {
		secret string
		finds  bool
	}{"ada": {adasPassword, true}, "ina": {inasPassword, false}} {
		b := newBrowser(t, h)
		b.signIn(who, c.secret, "tablet")
		if got := strings.Contains(b.get("/find?q=pat").Body.String(), "/people/pat"); got != c.finds {
			t.Errorf("%s finds pat: %v", who, got)
		}
	}
}

// A page of the most results there can be stays light, and without records the book is still found.
func TestFindingMuchAndLittle(t *testing.T) {
	records, err := app.OpenRecords(t.Context(), filepath.Join(t.TempDir(), "kitchen.records"), coldNoon)
	if err != nil {
		t.Fatal(err)
	}
	defer records.Close()
	for i := range 600 {
		b := record.Received{Lot: record.Lot("R-1126-" + numeral(i+1)), Ingredient: "great-northern-bean", Supplier: "Long Hollow Bean Growers of the Upper Valley", SupplierLot: "LH/2211-" + numeral(i), Mass: 20 * unit.Kilogram, Place: "dry-store"}
		if _, err := records.Enter(t.Context(), app.Said{Who: "Ada", Device: "test", At: coldNoon(), Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	house, err := app.New(demo.Book(), coldNoon)
	if err != nil {
		t.Fatal(err)
	}
	w := get(New(house, Options{Records: records}), "/find?q=R-1126&kind=lot")
	inOrder(t, w.Body.String(), "600 things found", "The best 500 are listed", "Lots", "600")
	if n := w.Body.Len(); n > 200_000 {
		t.Errorf("%d bytes", n)
	}
	inOrder(t, get(New(house, Options{}), "/find?q=bean+pot").Body.String(), "Dishes", "Packs")
}
