package web

import (
	"compress/gzip"
	"io"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
)

// askAs asks for a page as a browser does.
func askAs(h http.Handler, target, accepts string) *httptest.ResponseRecorder {
	r := httptest.NewRequest(http.MethodGet, target, nil)
	r.Host = "localhost"
	r.Header.Set("Accept-Encoding", accepts)
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}

// The zipped page is the page, and small on the line.
func TestPagesTravelZipped(t *testing.T) {
	h := demoKitchen(t)
	for _, target := range []string{"/", "/run/tuesday/buy", "/run/small-friday/cooling/0/0.svg", "/static/style.css", "/run/small-friday.json", "/nothing"} {
		plain, zipped := askAs(h, target, ""), askAs(h, target, "br, gzip")
		if plain.Header().Get("Content-Encoding") != "" || zipped.Header().Get("Content-Encoding") != "gzip" {
			t.Errorf("%s: encodings %q and %q", target, plain.Header().Get("Content-Encoding"), zipped.Header().Get("Content-Encoding"))
			continue
		}
		if !strings.Contains(zipped.Header().Get("Vary"), "Accept-Encoding") || zipped.Code != plain.Code {
			t.Errorf("%s: vary %q, status %d and %d", target, zipped.Header().Get("Vary"), zipped.Code, plain.Code)
		}
		if n := zipped.Body.Len(); n > 60_000 {
			t.Errorf("%s travels as %d bytes, want 60,000 at most", target, n)
		}
		z, err := gzip.NewReader(zipped.Body)
		if err != nil {
			t.Fatal(err)
		}
		got, err := io.ReadAll(z)
		if err != nil || string(got) != plain.Body.String() {
			t.Errorf("%s: what comes out of the zip is another page (%v)", target, err)
		}
	}
}
