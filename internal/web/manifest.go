package web

import (
	"cmp"
	"encoding/json"
	"fmt"
	"net/http"
	"strings"
	"unicode/utf8"
)

// manifest is what a browser must know to install the pages as an app: Web Application Manifest, W3C, the members of section 1.
type manifest struct {
	ID         string             `json:"id"`
	Name       string             `json:"name"`
	ShortName  string             `json:"short_name"`
	StartURL   string             `json:"start_url"`
	Scope      string             `json:"scope"`
	Display    string             `json:"display"`
	Theme      string             `json:"theme_color"`
	Background string             `json:"background_color"`
	Icons      []manifestIcon     `json:"icons"`
	Shortcuts  []manifestShortcut `json:"shortcuts"`
}

type manifestIcon struct {
	Src     string `json:"src"`
	Sizes   string `json:"sizes"`
	Type    string `json:"type"`
	Purpose string `json:"purpose"`
}

type manifestShortcut struct {
	Name string `json:"name"`
	URL  string `json:"url"`
}

// shortName is how many letters of a name stand below a sign on a device; section 1.9 gives no number, this is what fits on most.
const shortName = 12

func (s *server) showManifest(w http.ResponseWriter, r *http.Request) {
	book, _ := s.house.Book()
	name := cmp.Or(book.Kitchen.Name, "Kitchen")
	short := name
	if utf8.RuneCountInString(name) > shortName {
		short = strings.Fields(name + " Kitchen")[0]
	}
	m := manifest{ID: "/", Name: name, ShortName: short, StartURL: "/", Scope: "/", Display: "standalone", Theme: colour("accent"), Background: colour("paper"),
		Icons:     []manifestIcon{{"/static/icon.svg", "any", "image/svg+xml", "any"}},
		Shortcuts: []manifestShortcut{{"Board", boardPath}, {"Find", findPath}}}
	for _, size := range iconSizes {
		for _, purpose := range []string{"any", "maskable"} {
			m.Icons = append(m.Icons, manifestIcon{fmt.Sprintf("/static/icon/%s-%d.png", purpose, size), fmt.Sprintf("%dx%d", size, size), "image/png", purpose})
		}
	}
	w.Header().Set("Content-Type", "application/manifest+json")
	w.Header().Set("Cache-Control", "no-cache")
	json.NewEncoder(w).Encode(m)
}

// colour is one of the light design tokens.
func colour(name string) string {
	text, err := static.ReadFile("static/tokens.css")
	if err != nil {
		panic(err) // it is part of the program
	}
	_, after, _ := strings.Cut(string(text), "--"+name+":")
	value, _, _ := strings.Cut(after, ";")
	return strings.TrimSpace(value)
}
