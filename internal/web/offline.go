package web

import "net/http"

// offlineRoutes are what a device keeps to work without a network.
func (s *server) offlineRoutes(mux *http.ServeMux) {
}
