package web

import (
	"net"
	"net/http"
	"slices"
	"strings"
)

// longestQuery is more than any form of ours sends.
const longestQuery = 8 << 10

// policy lets a page load from where it came from and from nowhere else, and run no script or style that is written into it.
const policy = "default-src 'self'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'; object-src 'none'"

// guard keeps strangers out before a page is made: requests under a name that is not ours (a web site that points its own name at
// this machine could otherwise read the kitchen's figures), and queries too long to be ours. It sets the headers of every answer.
func guard(hosts []string, next http.Handler) http.Handler {
	same := http.NewCrossOriginProtection() // what changes something must come from a page of ours
	allowed := append([]string{"localhost", "127.0.0.1", "::1"}, hosts...)
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", policy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		switch {
		case !slices.Contains(allowed, hostName(r.Host)):
			http.Error(w, "This kitchen is not served under that name.", http.StatusMisdirectedRequest)
		case len(r.URL.RawQuery) > longestQuery:
			http.Error(w, "The address is too long.", http.StatusRequestURITooLong)
		case same.Check(r) != nil:
			http.Error(w, "This was sent by a page of another site: nothing was done.", http.StatusForbidden)
		default:
			next.ServeHTTP(w, r)
		}
	})
}

// hostName is the host of a Host header, without port and brackets, in lower case.
func hostName(host string) string {
	if name, _, err := net.SplitHostPort(host); err == nil {
		host = name
	}
	host = strings.TrimSuffix(strings.TrimPrefix(host, "["), "]")
	return strings.ToLower(host)
}
