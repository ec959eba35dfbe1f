package web

import "net/http"

// dishRoutes are the pages on which dishes are built.
func (s *server) dishRoutes(mux *http.ServeMux) {
}
