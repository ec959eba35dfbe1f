package web

import "net/http"

// boardRoutes are the day as it happens.
func (s *server) boardRoutes(_ *http.ServeMux) {
}
