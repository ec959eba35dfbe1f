package web

import "net/http"

// jobRoutes are work that takes longer than a page may.
func (s *server) jobRoutes(mux *http.ServeMux) {
}
