package web

import (
	"net/http"
	"strings"

	"kettlefrost/internal/kitchen"
)

// missingPage is all that templates/missing.html may show.
type missingPage struct {
	shell
	Message string
	Near    link // where such things are; the runs of the book stand instead of it where none is known
	Runs    []runCard
}

// nearby are the pages to go to from an address of which there is nothing, by how it begins.
var nearby = []struct {
	path string
	link
}{
	{stockPath, link{"All stock", stockPath}},
	{trialsPath, link{"All trials", trialsPath}},
	{workshopPath, link{"All dishes in the freezer", workshopPath}},
	{lotPath, link{"All stock", stockPath}},
	{recallPath, link{"Recall", recallPath}},
	{boardPath, link{"All productions", boardPath}},
	{ordersPath, link{"All orders", ordersPath}},
	{orderPath, link{"All orders", ordersPath}},
	{pickPath, link{"All orders", ordersPath}},
	{routePath, link{"All orders", ordersPath}},
	{customersPath, link{"All customers", customersPath}},
	{customerPath, link{"All customers", customersPath}},
	{billsPath, link{"All bills", billsPath}},
	{billPath, link{"All bills", billsPath}},
	{creditPath, link{"All bills", billsPath}},
	{logsPath, link{"All logs", logsPath}},
	{officePath, link{"Office", officePath}},
	{hazardsPath, link{"All hazard plans", hazardsPath}},
	{"/book/", link{"The files of the book", "/book/files"}},
	{peoplePath, link{"People", peoplePath}},
	{packLabelsPath, link{"All labels", packLabelsPath}},
}

// showNothing answers whatever no other route takes.
func (s *server) showNothing(w http.ResponseWriter, r *http.Request) {
	if r.Method != http.MethodGet && r.Method != http.MethodHead {
		w.Header().Set("Allow", "GET, HEAD")
		http.Error(w, "Nothing here can be changed.", http.StatusMethodNotAllowed)
		return
	}
	book, _ := s.house.Book()
	s.missing(w, r, book, "There is no such page.")
}

// missing says what is not there, and what is.
func (s *server) missing(w http.ResponseWriter, r *http.Request, book kitchen.Book, message string) {
	v := missingPage{shell: s.inShell(r, book.Kitchen, "Not found", ""), Message: message}
	for _, n := range nearby {
		if v.Near.URL == "" && strings.HasPrefix(r.URL.Path, n.path) {
			v.Near = n.link
		}
	}
	if v.Near.URL == "" {
		v.Runs = runCards(book)
	}
	missingTemplate.show(w, http.StatusNotFound, v)
}
