package web

import "net/http"

// peopleRoutes are people and who acts.
func (s *server) peopleRoutes(_ *http.ServeMux) {
}
