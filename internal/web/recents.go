package web

import (
	"net/http"
	"net/url"
	"strings"
)

// thingView is what a page is about, for a device that keeps what was looked at on it last. Nothing of that is sent anywhere.
type thingView struct {
	Kind, URL string
	Name      string // where it is not the title of the page
}

// things are the addresses of what has a name: below a path, or by a key of the query.
var things = []struct{ kind, path, key string }{
	{"Run", "/run/", ""}, {"Dish", "/dish/", ""}, {"Dish", "/book/dishes/", ""}, {"Pack", "/book/packs/", ""}, {"Order", orderPath, ""}, {"Customer", customerPath, ""},
	{"Dish", workshopDishPath, "dish"}, {"Pack", packLabelPath, packKey}, {"Pack", bestPath, packKey}, {"Lot", lotPath, "lot"}, {"Lot", lotPath, codeKey},
}

// thingOf is what a page that is looked at is about; nil for one that is about nothing with a name, or was not found.
func thingOf(r *http.Request, here string) *thingView {
	if r.Method != http.MethodGet || here == "" {
		return nil
	}
	for _, x := range things {
		if x.key != "" {
			if value := tidy(r.URL.Query().Get(x.key)); r.URL.Path == x.path && value != "" {
				return &thingView{Kind: x.kind, URL: x.path + "?" + url.Values{x.key: {value}}.Encode()}
			}
			continue
		}
		rest, ok := strings.CutPrefix(r.URL.EscapedPath(), x.path)
		if name, _, _ := strings.Cut(rest, "/"); ok && name != "" && name != "new" {
			return &thingView{Kind: x.kind, URL: x.path + name}
		}
	}
	return nil
}
