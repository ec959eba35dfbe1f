package web

import "net/http"

// startRoutes are the ways into a kitchen and into a run.
func (s *server) startRoutes(mux *http.ServeMux) {
}
