package web

import (
	"encoding/json"
	"net/http"

	"kettlefrost/internal/finding"
)

// refusal is what a program gets instead of a plan.
type refusal struct {
	Error    string       `json:"error"`
	Fields   []badField   `json:"fields,omitempty"`
	Findings finding.List `json:"findings,omitempty"` // about the book
}

type badField struct {
	Field   string `json:"field"`
	Text    string `json:"text"`
	Problem string `json:"problem"`
}

// askJSON is the run that is asked for; false when the answer was a refusal, as data.
func (s *server) askJSON(w http.ResponseWriter, r *http.Request, name string) (asked, bool) {
	a, err := s.ask(r, name)
	switch {
	case err != nil:
		writeJSON(w, http.StatusNotFound, refusal{Error: err.Error()})
	case a.status != http.StatusOK:
		writeJSON(w, a.status, refuse(a))
	default:
		return a, true
	}
	return a, false
}

// showPlanJSON answers with the plan as data, the same value as the page shows.
func (s *server) showPlanJSON(w http.ResponseWriter, r *http.Request, name string) {
	a, ok := s.askJSON(w, r, name)
	if !ok {
		return
	}
	writeJSON(w, http.StatusOK, s.house.Plan(r.Context(), a.book, a.run))
}

func refuse(a asked) refusal {
	no := refusal{Error: "the book cannot be planned with", Findings: a.found}
	if wrong(a.fields) {
		no = refusal{Error: "a target cannot be read"}
	}
	no.Fields = badFields(a.fields)
	return no
}

// badFields are those with a problem.
func badFields(fields []field) []badField {
	var bad []badField
	for _, f := range fields {
		if f.Problem != "" {
			bad = append(bad, badField{Field: f.Key, Text: f.Value, Problem: f.Problem})
		}
	}
	return bad
}

func writeJSON(w http.ResponseWriter, status int, value any) {
	data, err := json.MarshalIndent(value, "", "  ")
	if err != nil {
		http.Error(w, "This cannot be written as JSON: "+err.Error(), http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", "application/json")
	w.Header().Set("Cache-Control", "no-store")
	w.WriteHeader(status)
	w.Write(append(data, '\n'))
}
