package web

import "net/http"

// dishFirstPath leads through the first dish of a kitchen.
const dishFirstPath = "/dish/first"

// startRoutes are the ways into a kitchen and into a run.
func (s *server) startRoutes(mux *http.ServeMux) {
	mux.HandleFunc("GET "+planPath, s.planRun)
	mux.HandleFunc("POST /run/{name}/keep", s.changeRun)
}

// isDemo says whether the book in use is that of the demo kitchen.
func (s *server) isDemo() bool {
	house, can := s.house.(interface{ Demo() bool })
	return can && house.Demo()
}
