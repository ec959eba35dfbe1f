package web

import "net/http"

// billRoutes are bills and accounts.
func (s *server) billRoutes(_ *http.ServeMux) {
}
