package web

import "net/http"

// helpRoutes are the pages that explain.
func (s *server) helpRoutes(mux *http.ServeMux) {
}
