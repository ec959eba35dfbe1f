package web

import "net/http"

// recallRoutes are lots and recalls.
func (s *server) recallRoutes(mux *http.ServeMux) {
	mux.HandleFunc("GET /lot", s.showLot)
	mux.HandleFunc("GET /recall", s.showRecall)
}
