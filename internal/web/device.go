package web

import "net/http"

// deviceRoutes are what each device keeps for itself: units, language, looks.
func (s *server) deviceRoutes(mux *http.ServeMux) {
}
