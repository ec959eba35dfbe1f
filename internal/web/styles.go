package web

import (
	"crypto/sha256"
	"encoding/hex"
	"maps"
	"net/http"
	"slices"
	"strings"
	"sync"
)

// sharedStyles are the style sheets of all pages, in the order in which they hold. Those of an area stay with its pages.
var sharedStyles = []string{"tokens", "style", "shell", "plan", "heat", "people", "help", "orders", "bills", "offline", "print"}

// styleBundle is all shared style sheets as one answer, whose address changes with what is in it: a browser asks once and keeps it.
type styleBundle struct {
	url  string
	text string
}

// styleBundles are the bundles by the look that a device has chosen, and by their address.
var styleBundles = sync.OnceValues(func() (map[deviceLook]styleBundle, map[string]styleBundle) {
	var all strings.Builder
	for _, name := range sharedStyles {
		data, err := static.ReadFile("static/" + name + ".css")
		if err != nil {
			panic(err) // it is part of the program
		}
		all.Write(data)
		all.WriteByte('\n')
	}
	of, at := map[deviceLook]styleBundle{}, map[string]styleBundle{}
	for _, scheme := range []string{"", lightLook, darkLook} {
		for _, high := range []bool{false, true} {
			look := deviceLook{Scheme: scheme, High: high}
			text := look.decide(all.String())
			sum := sha256.Sum256([]byte(text))
			b := styleBundle{"/static/all-" + hex.EncodeToString(sum[:8]) + ".css", text}
			of[look], at[b.url] = b, b
		}
	}
	return of, at
})

// stylesFor is the address of the shared styles in a look. The size of the type is not in them: the page itself says it.
func stylesFor(l deviceLook) string {
	of, _ := styleBundles()
	l.Type = ""
	return of[l].url
}

// isShared tells whether a file is in the bundles.
func isShared(file string) bool {
	name, css := strings.CutSuffix(file, ".css")
	return css && slices.Contains(sharedStyles, name)
}

// bundleURLs are the addresses of all bundles.
func bundleURLs() []string {
	_, at := styleBundles()
	return slices.Sorted(maps.Keys(at))
}

// showStyles serves a bundle, and false where the address is of none.
func showStyles(w http.ResponseWriter, r *http.Request) bool {
	_, at := styleBundles()
	b, ok := at[r.URL.Path]
	if !ok {
		return false
	}
	w.Header().Set("Cache-Control", "public, max-age=31536000, immutable")
	w.Header().Set("Content-Type", "text/css; charset=utf-8")
	w.Write([]byte(b.text))
	return true
}
