package web

import (
	"fmt"
	"net/http"
)

// hazardPrintPage is all that templates/hazardprint.html may show: a plan on paper. Its head and foot stand on every page.
type hazardPrintPage struct {
	shell
	Back     string
	Name     string
	Version  string
	Made     string // when it was printed
	Draft    string // on every page until it is accepted; "" then
	Accepted string // who accepted it, and when
	Vacuum   string // what vacuum packing needs, on every page; "" where nothing is packed so
	Plan     hazardView
	Flow     pictureView
	Versions []writtenVersion
}

var hazardPrintTemplate = parse[hazardPrintPage]("hazardprint")

func (s *server) showHazardPrint(w http.ResponseWriter, r *http.Request) {
	a := s.hazardOf(w, r)
	if a == nil {
		return
	}
	pack := string(a.Pack)
	v := hazardPrintPage{shell: s.inShell(r, a.book.Kitchen, "Hazard plan of "+a.Name, "hazards"), Back: hazardURL(hazardPlanPath, pack, a.number()), Name: a.Name, Version: "as it would be today, entered by nobody",
		Made: s.recallTime(s.nowMs()), Plan: viewHazards(a, false), Flow: hazardFlow(pack, a.number())}
	if a.version != nil {
		v.Version = fmt.Sprintf("version %d, %s, %s", a.version.Number, s.recallTime(a.version.At), a.version.Who)
	}
	v.Draft = a.draft()
	if a.inForce {
		v.Accepted = s.acceptedWords(a.Standing)
	}
	if a.doc.Product.Vacuum {
		v.Vacuum = "Vacuum packing of cooked food usually needs an approved plan or a variance of the authority (FDA Food Code 3-502.11 and .12)."
	}
	for i := range a.Versions {
		v.Versions = append(v.Versions, s.hazardVersion(a, len(a.Versions)-1-i).writtenVersion)
	}
	hazardPrintTemplate.show(w, http.StatusOK, v)
}
