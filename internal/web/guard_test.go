package web

import (
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
)

func TestHostNames(t *testing.T) {
	h := guard([]string{"kitchen.local"}, http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) { w.WriteHeader(http.StatusOK) }))
	for host, want := range map[string]int{
		"localhost": 200, "localhost:8090": 200, "127.0.0.1:8090": 200, "[::1]:8090": 200, "[::1]": 200, "LOCALHOST:1": 200, "kitchen.local:80": 200,
		"": 421, "evil.example": 421, "localhost.evil.example": 421, "127.0.0.1.evil.example:8090": 421, "evil.example:8090": 421, "127.0.0.2": 421, "[::2]:8090": 421,
	} {
		r := httptest.NewRequest(http.MethodGet, "/", nil)
		r.Host = host
		w := httptest.NewRecorder()
		h.ServeHTTP(w, r)
		if w.Code != want {
			t.Errorf("host %q: status %d, want %d", host, w.Code, want)
		}
	}
}

// The headers stand on every answer, refusals included.
func TestHeaders(t *testing.T) {
	h := demoKitchen(t)
	for _, target := range []string{"/", "/run/small-friday", "/run/small-friday.json", "/static/style.css", "/no/such/page", "/?" + strings.Repeat("x", longestQuery+1)} {
		header := get(h, target).Header()
		for name, want := range map[string]string{"Content-Security-Policy": "default-src 'self'", "X-Content-Type-Options": "nosniff", "Referrer-Policy": "no-referrer"} {
			if got := header.Get(name); !strings.HasPrefix(got, want) {
				t.Errorf("%s: %s is %q, want %q", target, name, got, want)
			}
		}
		if policy := header.Get("Content-Security-Policy"); strings.Contains(policy, "unsafe") {
			t.Errorf("%s: the policy %q allows what is written into the page", target, policy)
		}
	}
}

// Nothing is asked of another computer, and nothing on a page runs or is styled in place.
func TestPagesKeepToThemselves(t *testing.T) {
	h := demoKitchen(t)
	for _, target := range []string{"/", "/run/tuesday", "/book", "/foods?q=egg", "/nothing"} {
		page := get(h, target).Body.String()
		for _, bad := range []string{`src="http`, `href="http`, `src="//`, " style=", " onclick=", "<style", "<script>"} {
			if strings.Contains(page, bad) {
				t.Errorf("%s has %s", target, bad)
			}
		}
	}
	for _, sheet := range []string{"tokens", "style", "plan", "print"} {
		if css := get(h, "/static/"+sheet+".css").Body.String(); strings.Contains(css, "@import") || strings.Contains(css, "url(") || len(css) == 0 {
			t.Errorf("%s.css fetches something, or is empty", sheet)
		}
	}
}

func TestStaticIsNotSentTwice(t *testing.T) {
	h := demoKitchen(t)
	tag := get(h, "/static/style.css").Header().Get("ETag")
	r := httptest.NewRequest(http.MethodGet, "/static/style.css", nil)
	r.Host = "localhost"
	r.Header.Set("If-None-Match", tag)
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	if w.Code != http.StatusNotModified || w.Body.Len() != 0 {
		t.Errorf("status %d with %d bytes, want 304 with none", w.Code, w.Body.Len())
	}
}
