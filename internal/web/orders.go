package web

import "net/http"

// orderRoutes are orders and customers.
func (s *server) orderRoutes(_ *http.ServeMux) {
}
