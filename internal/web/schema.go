package web

import (
	"io/fs"
	"net/http"
)

// showSchema serves the published shape of a file that kettlefrost writes or reads.
func (s *server) showSchema(w http.ResponseWriter, r *http.Request) {
	if s.schemas != nil {
		if data, err := fs.ReadFile(s.schemas, r.PathValue("file")); err == nil {
			w.Header().Set("Content-Type", "application/schema+json")
			w.Write(data)
			return
		}
	}
	http.NotFound(w, r)
}
