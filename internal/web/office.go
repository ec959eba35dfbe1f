package web

import "net/http"

// officeRoutes are files, books and backups.
func (s *server) officeRoutes(_ *http.ServeMux) {
}
