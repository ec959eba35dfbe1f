package web

import (
	"compress/gzip"
	"net/http"
	"strings"
)

// compress sends text zipped to browsers that take it: a run's page becomes a tenth, which a tablet at the far end of a kitchen notices.
func compress(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.Header().Add("Vary", "Accept-Encoding")
		if !strings.Contains(r.Header.Get("Accept-Encoding"), "gzip") || r.Method == http.MethodHead {
			next.ServeHTTP(w, r)
			return
		}
		z := &zipped{ResponseWriter: w}
		defer z.close()
		next.ServeHTTP(z, r)
	})
}

// zipped decides at the first byte whether what comes is text.
type zipped struct {
	http.ResponseWriter
	out     *gzip.Writer // nil when it is sent as it is
	decided bool
}

var textTypes = []string{"text/", "image/svg+xml", "application/json", "application/schema+json", "application/javascript"}

func (z *zipped) WriteHeader(status int) {
	if !z.decided {
		z.decided = true
		h := z.Header()
		for _, t := range textTypes {
			if strings.HasPrefix(h.Get("Content-Type"), t) && h.Get("Content-Encoding") == "" && status != http.StatusNoContent && status != http.StatusNotModified {
				h.Set("Content-Encoding", "gzip")
				h.Del("Content-Length")
				z.out = gzip.NewWriter(z.ResponseWriter)
				break
			}
		}
	}
	z.ResponseWriter.WriteHeader(status)
}

func (z *zipped) Write(p []byte) (int, error) {
	if !z.decided {
		if z.Header().Get("Content-Type") == "" {
			z.Header().Set("Content-Type", http.DetectContentType(p))
		}
		z.WriteHeader(http.StatusOK)
	}
	if z.out == nil {
		return z.ResponseWriter.Write(p)
	}
	return z.out.Write(p)
}

func (z *zipped) close() {
	if z.out != nil {
		z.out.Close() // an error here is the connection's: nobody is left to tell
	}
}
