package web

import (
	"regexp"
	"strings"
	"testing"
)

// Every place and every page of one says where one is: the place is marked, and among its pages the one that is shown.
func TestNavigationSaysWhereOneIs(t *testing.T) {
	h, _ := larder(t)
	for _, place := range navigation {
		pages := []navPlace{place}
		if place.pages != nil {
			pages = *place.pages
		}
		for _, p := range pages {
			if p.key == runKey {
				continue // its page is the home page
			}
			w := get(h, p.url)
			if w.Code == 404 || w.Code >= 500 {
				t.Errorf("%s, %s: %s answers %d", place.name, p.name, p.url, w.Code)
				continue
			}
			page := w.Body.String()
			_, nav, _ := strings.Cut(page, `aria-label="Places" popover>`)
			nav, after, _ := strings.Cut(nav, "</nav>")
			if strings.Count(nav, "aria-current") != 1 || !strings.Contains(nav, ">"+place.name+"</a>") {
				t.Errorf("%s, %s: the places are marked %q", place.name, p.name, nav)
			}
			if _, marked, _ := strings.Cut(nav, "aria-current="); !strings.HasPrefix(marked[strings.Index(marked, ">"):], ">"+place.name+"<") {
				t.Errorf("%s, %s: another place is marked", place.name, p.name)
			}
			if len(pages) == 1 {
				continue
			}
			near, _, _ := strings.Cut(after, "</header>")
			if !strings.Contains(near, `aria-label="`+place.name+`"`) || !strings.Contains(strings.ReplaceAll(near, "&#39;", "'"), `href="`+p.url+`" aria-current="page">`+p.name) {
				t.Errorf("%s, %s: its pages are marked %q", place.name, p.name, near)
			}
		}
	}
}

func TestNavTo(t *testing.T) {
	places, within, around := navTo("orders", "/order/O-1")
	if around != "Orders" || len(within) != len(orderPlaces) || within[0].Here != "true" {
		t.Errorf("an order lies in %q: %+v", around, within)
	}
	marked := 0
	for _, p := range places {
		if p.Here != "" {
			marked++
		}
	}
	if marked != 1 || len(places) > 10 {
		t.Errorf("%d of %d places are marked", marked, len(places))
	}
	for path, want := range map[string]string{"/book": "The book", "/book/dishes": "Dishes", "/book/dishes/dal": "Dishes", "/dish/dal": "Dishes", "/book/packs/dal": "Packs", "/book/media": "The book"} {
		_, within, _ := navTo("book", path)
		for _, p := range within {
			if (p.Here != "") != (p.Name == want) {
				t.Errorf("%s: %s is marked %q, want %s to be", path, p.Name, p.Here, want)
			}
		}
	}
	if places, within, _ := navTo("", "/find"); within != nil || strings.Contains(placesText(places), "true") {
		t.Error("a page of no place is marked")
	}
}

func placesText(all []placeLink) (text string) {
	for _, p := range all {
		text += p.Name + p.Here + " "
	}
	return text
}

// Keys of the sheet: each leads to a page that is there, none twice, and the first of two is no key of its own.
func TestShortcuts(t *testing.T) {
	h := demoKitchen(t)
	seen := map[string]bool{}
	for _, x := range shortcuts {
		if seen[x.Keys] || x.Does == "" {
			t.Errorf("%q stands twice or does nothing", x.Keys)
		}
		seen[x.Keys] = true
		if first, _, two := strings.Cut(x.Keys, " "); two && seen[first] {
			t.Errorf("%q begins with a key of its own", x.Keys)
		}
		if x.URL != "" {
			if w := get(h, x.URL); w.Code != 200 {
				t.Errorf("%q leads to %s, which answers %d", x.Keys, x.URL, w.Code)
			}
		}
	}
	page := get(h, keysPath).Body.String()
	for _, x := range shortcuts {
		if strings.Count(page, `data-press="`+x.Keys+`"`) != 2 { // on the page, and in the sheet that every page has
			t.Errorf("%q does not stand on the sheet", x.Keys)
		}
	}
}

func TestThingOf(t *testing.T) {
	h := demoKitchen(t)
	for target, want := range map[string]string{
		"/run/small-friday":                        `data-thing="/run/small-friday" data-name="a small Friday`,
		"/run/tuesday/cook?units=metric":           `data-thing="/run/tuesday" data-name="the big Tuesday"`,
		"/lot?lot=P-soup":                          `data-thing="/lot?lot=P-soup"`,
		"/labels/pack?pack=ale-cheddar-lb&staff=3": `data-thing="/labels/pack?pack=ale-cheddar-lb"`,
		"/workshop/dish?dish=ale-cheddar&mass=250": `data-thing="/workshop/dish?dish=ale-cheddar"`,
		"/run/no-such-run":                         "", "/": "", "/stock": "", "/week": "",
	} {
		page := get(h, target).Body.String()
		if has := strings.Contains(page, "data-thing="); has != (want != "") || !strings.Contains(strings.ToLower(page), strings.ToLower(want)) {
			t.Errorf("%s: a thing %v, want %q", target, has, want)
		}
	}
}

// The mark in the head of the pages is the sign of the file, in the colours of the look.
func TestTheMarkIsTheSign(t *testing.T) {
	svg, err := static.ReadFile("static/icon.svg")
	if err != nil {
		t.Fatal(err)
	}
	paths := regexp.MustCompile(` d="([^"]+)"`).FindAllStringSubmatch(string(svg), -1)
	page := get(demoKitchen(t), "/device").Body.String()
	if len(paths) < 2 {
		t.Fatalf("the sign has %d shapes", len(paths))
	}
	for _, d := range paths {
		if !strings.Contains(page, `d="`+d[1]+`"`) {
			t.Errorf("the mark has no %s", d[1])
		}
	}
}
