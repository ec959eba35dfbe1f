package web

import (
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"strings"
	"testing"

	"kettlefrost/internal/language"
)

// onDevice asks for a page with the cookies of a device.
func onDevice(h http.Handler, target string, cookies map[string]string) *httptest.ResponseRecorder {
	r := httptest.NewRequest(http.MethodGet, target, nil)
	r.Host = "localhost:8090"
	for name, value := range cookies {
		r.AddCookie(&http.Cookie{Name: name, Value: url.QueryEscape(value)})
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}

// The units: the address wins over the device, the device over the kitchen (which has US units), and what a cookie cannot mean is nothing.
func TestUnitsOfADevice(t *testing.T) {
	h := demoKitchen(t)
	for _, c := range []struct {
		target, cookie string
		metric         bool
	}{
		{"/run/small-friday/cook", "", false}, {"/run/small-friday/cook", "metric", true}, {"/run/small-friday/cook", "us", false}, {"/run/small-friday/cook?units=us", "metric", false},
		{"/run/small-friday/cook?units=metric", "us", true}, {"/run/small-friday/cook?units=stone", "metric", true}, {"/run/small-friday/cook", "kelvin", false}, {"/run/small-friday/cook", `metric"><script >`, false}, {"/run/small-friday/cook", strings.Repeat("metric", 500), false},
	} {
		page := onDevice(h, c.target, map[string]string{unitsCookie: c.cookie}).Body.String()
		pressed := `value="us" aria-label="°F lb: Degrees Fahrenheit and pounds first" aria-pressed="true"`
		if c.metric {
			pressed = `value="metric" aria-label="°C kg: Degrees Celsius and kilograms first" aria-pressed="true"`
		}
		if !strings.Contains(page, pressed) {
			t.Errorf("%s with the cookie %.20q: the switch does not stand at metric=%v", c.target, c.cookie, c.metric)
		}
		if inKg := firstFigure.FindStringSubmatch(strings.ReplaceAll(page, "\u00a0", " ")); inKg == nil || (inKg[1] == "kg" || inKg[1] == "g") != c.metric {
			t.Errorf("%s with the cookie %.20q: the first figure is in %v", c.target, c.cookie, inKg)
		}
		if strings.Contains(page, "<script >") {
			t.Errorf("%s: a cookie became markup", c.target)
		}
	}
}

// firstFigure is the first weight on a page.
var firstFigure = regexp.MustCompile(`class="fig">[0-9.,]+ (lb|oz|kg|g)\b`)

// The switch keeps the page and its query, drops the units that the address asked for, and leads nowhere else.
func TestSwitchingUnits(t *testing.T) {
	h := demoKitchen(t)
	page := onDevice(h, "/run/small-friday?count.bean-pot-2lb=20&units=us", nil).Body.String()
	if !strings.Contains(page, `name="back" value="/run/small-friday?count.bean-pot-2lb=20"`) {
		t.Error("the switch does not come back to this page with its query and without its units")
	}
	w := post(h, unitsPath, url.Values{unitsKey: {"metric"}, backField: {"/run/small-friday?count.bean-pot-2lb=20"}})
	if w.Code != http.StatusSeeOther || w.Header().Get("Location") != "/run/small-friday?count.bean-pot-2lb=20" {
		t.Errorf("%d to %q", w.Code, w.Header().Get("Location"))
	}
	c := w.Result().Cookies()
	if len(c) != 1 || c[0].Name != unitsCookie || c[0].Value != "metric" || c[0].MaxAge != yearSeconds || c[0].SameSite != http.SameSiteLaxMode || c[0].Path != "/" {
		t.Errorf("%+v", c)
	}
	if w := post(h, unitsPath, url.Values{unitsKey: {"metric"}, backField: {"//elsewhere.example/"}}); w.Header().Get("Location") != "/" {
		t.Errorf("it leads to %q", w.Header().Get("Location"))
	}
	if w := post(h, unitsPath, url.Values{unitsKey: {"stone"}}); w.Code != http.StatusBadRequest || len(w.Result().Cookies()) != 0 {
		t.Errorf("units that are none: %d %v", w.Code, w.Result().Cookies())
	}
}

// A form says in which units it was filled in, and is read in these however the device is switched meanwhile.
func TestAFormIsReadInTheUnitsItWasShownIn(t *testing.T) {
	h := demoKitchen(t)
	page := onDevice(h, "/device", map[string]string{unitsCookie: "metric"}).Body.String()
	if n := strings.Count(page, `method="post"`); n < 2 || n != strings.Count(page, `<input type="hidden" name="shown" value="metric">`) {
		t.Errorf("%d forms, and not each says its units", n)
	}
	for _, c := range []struct{ address, shown, cookie, want string }{
		{"/x", "us", "metric", "us"}, {"/x", "metric", "us", "metric"}, {"/x", "", "metric", "metric"}, {"/x?units=us", "metric", "metric", "us"}, {"/x", "furlongs", "metric", "metric"},
	} {
		r := httptest.NewRequest(http.MethodPost, c.address, strings.NewReader(url.Values{shownUnits: {c.shown}}.Encode()))
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		r.AddCookie(&http.Cookie{Name: unitsCookie, Value: c.cookie})
		r.ParseForm()
		if got := readerOf(leekBook.Kitchen, r).units.String(); got != c.want {
			t.Errorf("%+v is read in %s", c, got)
		}
	}
}

func TestSpeaks(t *testing.T) {
	s := &server{}
	for _, c := range []struct {
		cookie, asked string
		want          language.Language
	}{
		{"", "", language.English}, {"fr-CA", "es", language.FrenchOfCanada}, {"es", "", language.SpanishOfTheUS}, {"", "es-ES,es;q=0.9", language.Spanish}, {"", "de", language.English},
		{"tlh", "fr-FR", language.French}, {strings.Repeat("e", 4000), "", language.English}, {"../../etc", "fr-FR", language.French},
	} {
		r := httptest.NewRequest(http.MethodGet, "/", nil)
		r.AddCookie(&http.Cookie{Name: languageCookie, Value: url.QueryEscape(c.cookie)})
		r.Header.Set("Accept-Language", c.asked)
		if got := s.speaks(r); got != c.want {
			t.Errorf("cookie %.10q, asked %q: %s, want %s", c.cookie, c.asked, got, c.want)
		}
	}
}

func TestLookOf(t *testing.T) {
	for text, want := range map[string]deviceLook{
		"": {}, "dark": {Scheme: darkLook}, "dark.high.largest": {Scheme: darkLook, High: true, Type: largestLook}, "larger.light": {Scheme: lightLook, Type: largerLook}, "dark.light": {Scheme: lightLook},
		"high.high..": {High: true}, "url(evil).dark": {Scheme: darkLook}, strings.Repeat(".", 3000): {}, `dark"><b>`: {}, "DARK": {},
	} {
		r := httptest.NewRequest(http.MethodGet, "/", nil)
		r.AddCookie(&http.Cookie{Name: lookCookie, Value: url.QueryEscape(text)})
		if got := lookOf(r); got != want {
			t.Errorf("%.20q: %+v, want %+v", text, got, want)
		}
	}
}

// What is chosen is kept in cookies, what is not is forgotten, and pages are made so.
func TestChoosingForADevice(t *testing.T) {
	h := demoKitchen(t)
	w := post(h, devicePath, url.Values{backField: {"/week?x=1"}, unitsKey: {"metric"}, languageCookie: {"fr-CA"}, schemeField: {"dark"}, contrastField: {"high"}, typeField: {"largest"}, keysField: {"off"}})
	if w.Code != http.StatusSeeOther || w.Header().Get("Location") != "/week?x=1" {
		t.Errorf("%d to %q", w.Code, w.Header().Get("Location"))
	}
	kept := map[string]string{}
	for _, c := range w.Result().Cookies() {
		if kept[c.Name] = c.Value; c.MaxAge != yearSeconds || c.SameSite != http.SameSiteLaxMode || !c.HttpOnly {
			t.Errorf("%+v", c)
		}
	}
	if len(kept) != 4 || kept[unitsCookie] != "metric" || kept[languageCookie] != "fr-CA" || kept[lookCookie] != "dark.high.largest" || kept[keysCookie] != "off" {
		t.Errorf("%v", kept)
	}
	page := onDevice(h, "/run/small-friday/chill", kept).Body.String()
	for _, want := range []string{`data-type="largest"`, `content="dark"`, stylesFor(deviceLook{Scheme: darkLook, High: true}), `media="screen and (min-width: 0)"`} {
		if !strings.Contains(page, want) {
			t.Errorf("a dark page does not have %s", want)
		}
	}
	if strings.Contains(page, "keysheet") || strings.Contains(page, whenDark) {
		t.Error("the keys are on, or a picture still asks the device")
	}
	w = post(h, devicePath, url.Values{schemeField: {"mauve"}, unitsKey: {"stone"}, languageCookie: {"tlh"}, keysField: {"x"}})
	for _, c := range w.Result().Cookies() {
		if c.MaxAge >= 0 || c.Value != "" {
			t.Errorf("what is no choice is kept: %+v", c)
		}
	}
}

// The page shows what holds, whatever the cookies say.
func TestDevicePage(t *testing.T) {
	h := demoKitchen(t)
	page := onDevice(h, "/device?back=/stock", map[string]string{lookCookie: "high.larger", languageCookie: "zz", unitsCookie: "metric"}).Body.String()
	for _, want := range []string{`name="back" value="/stock"`, `name="units" value="metric" checked`, `name="language" value="" checked`, `name="scheme" value="" checked`, `name="contrast" value="high" checked`, `name="type" value="larger" checked`, `lang="fr-CA"`} {
		if !strings.Contains(page, want) {
			t.Errorf("no %s", want)
		}
	}
	if n := strings.Count(page, " checked"); n != 6 {
		t.Errorf("%d options hold, want one of each of 6", n)
	}
	if page := onDevice(h, "/device?back=//elsewhere.example", nil).Body.String(); strings.Contains(page, `name="back" value="//elsewhere`) {
		t.Error("it leads back elsewhere")
	}
}
