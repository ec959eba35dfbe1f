package web

import "net/http"

// coldRoutes are places and what is in them.
func (s *server) coldRoutes(mux *http.ServeMux) {
	mux.HandleFunc("GET /stock", s.showStock)
}
