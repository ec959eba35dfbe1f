package web

import (
	"bytes"
	"net/http"

	"kettlefrost/internal/pdf"
)

// showPlanPDF is the hazard plan of a pack for paper.
func (s *server) showPlanPDF(w http.ResponseWriter, r *http.Request) {
	if a := s.hazardOf(w, r); a != nil {
		writePDF(w, "hazard-plan.pdf", a.PlanPaper(a.book, s.house.Now().Location(), s.nowMs()).Document())
	}
}

// showThermometersPDF is the log of all thermometers for paper.
func (s *server) showThermometersPDF(w http.ResponseWriter, r *http.Request) {
	if s.records == nil {
		writeJSON(w, http.StatusNotFound, refusal{Error: "no records are kept here"})
		return
	}
	book, _ := s.house.Book()
	paper, err := s.records.ThermometerPaper(r.Context(), book, s.house.Now().Location(), s.nowMs())
	if err != nil {
		writeJSON(w, http.StatusInternalServerError, refusal{Error: err.Error()})
		return
	}
	writePDF(w, "thermometers.pdf", paper.Document())
}

// writePDF answers with a document, or nothing of it when it cannot be written whole.
func writePDF(w http.ResponseWriter, name string, doc pdf.Document) {
	var out bytes.Buffer
	if err := pdf.Write(&out, doc); err != nil {
		writeJSON(w, http.StatusInternalServerError, refusal{Error: err.Error()})
		return
	}
	w.Header().Set("Content-Type", "application/pdf")
	w.Header().Set("Content-Disposition", `attachment; filename="`+name+`"`)
	w.Header().Set("Cache-Control", "no-store")
	w.Write(out.Bytes())
}
