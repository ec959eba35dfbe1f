package web

import (
	"net/http"
	"slices"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/critical"
	"kettlefrost/internal/record"
)

// safetyRunPage is all that templates/safetyrun.html may show.
type safetyRunPage struct {
	shell
	Run, Day string
	Judged   bool
	Why      string // it is not judged
	Short    safetyRunRow
	Records  []recordRow
	Lots     []safetyLotRow
	Decide   *decideForm
	Board    string
	JSON     string
	All      string
}

// safetyLotRow is a lot of the run, what holds it, and what was decided.
type safetyLotRow struct {
	signMark
	Lot, URL, What string
	Where          string
	Held           []string
	Decided        []string
	Gone           string // what customers have of it
}

var safetyRunTemplate = parse[safetyRunPage]("safetyrun")

func (s *server) showSafetyRun(w http.ResponseWriter, r *http.Request) {
	run, ok := s.safetyRunOf(w, r)
	if !ok {
		return
	}
	s.writeSafetyRun(w, r, http.StatusOK, run, nil)
}

// writeSafetyRun shows a run; a decision that was refused is shown again as it was filled in.
func (s *server) writeSafetyRun(w http.ResponseWriter, r *http.Request, status int, run app.SafetyRun, again *decideForm) {
	book, _ := s.house.Book()
	query := r.URL.Query()
	v := safetyRunPage{shell: s.inShell(r, book.Kitchen, "Critical records of "+run.Run, "safety"), Run: run.Run, Day: string(run.Day), Judged: run.Judged, Short: safetyRow(run, query),
		Board: boardURL(run.Run), JSON: coldURL("/safety/run.json", query, "run", run.Run), All: coldURL(safetyPath, query)}
	if !run.Judged {
		v.Why = "Lots of this day are not judged: the book says from which day on they are."
	}
	verdicts := slices.Clone(run.Verdicts)
	slices.SortStableFunc(verdicts, func(a, b critical.Verdict) int { return rowWeight(b) - rowWeight(a) })
	for i, x := range verdicts {
		row := s.recordRow(x, query)
		if i > 0 && verdicts[i-1].Fix == x.Fix { // said once
			row.Fix = ""
		}
		if i > 0 && verdicts[i-1].Limit == x.Limit {
			row.Limit, row.Source = "", ""
		}
		v.Records = append(v.Records, row)
	}
	for _, l := range run.Lots {
		v.Lots = append(v.Lots, s.safetyLotRow(l))
	}
	if v.Decide = again; again == nil {
		v.Decide = s.decideForm(r, run.Lots, coldURL(safetyRunPath, query, "run", run.Run))
	}
	safetyRunTemplate.show(w, status, v)
}

// rowWeight puts what holds lots first, then what is only shown, then what is still to come, and what is passed last.
func rowWeight(v critical.Verdict) int {
	switch {
	case v.Outcome == critical.Pass:
		return 0
	case v.Why == critical.WhyNotYet:
		return 1
	case !v.Gates:
		return 2
	}
	return 2 + weight(v)
}

func (s *server) safetyLotRow(l app.SafetyLot) safetyLotRow {
	row := safetyLotRow{Lot: string(l.Lot), URL: lotURL(lotPath, l.Lot, nil), What: l.What, signMark: signMark{"●", "note"}}
	var places []string
	for _, p := range l.Places {
		places = append(places, string(p))
	}
	row.Where = strings.Join(places, ", ")
	if l.Packs > 0 {
		row.What = times(int(l.Packs), "pack of ", "packs of ") + l.What
	}
	for _, h := range l.Holds {
		row.signMark = signMark{"■", "stop"}
		text := h.Why
		if h.Numbers != "" {
			text = theirNumbers(h.Numbers) + ": " + text
		}
		if h.Decided != "" {
			text += "; decided: " + becomes[h.Decided]
		}
		row.Held = append(row.Held, text)
	}
	for _, d := range l.Decisions {
		text := becomes[d.Disposition] + ", by " + d.Who + " at " + s.nearText(d.At) + ": " + d.Why
		if d.Numbers != "" {
			text = theirNumbers(d.Numbers) + ": " + text
		}
		row.Decided = append(row.Decided, text)
	}
	if l.Handed > 0 && len(l.Holds) > 0 {
		row.Gone = times(int(l.Handed), "pack of it is", "packs of it are") + " with customers"
	}
	return row
}

var becomes = map[record.Disposition]string{record.ReleaseForUse: "released", record.Rework: "to be made again", record.Destroy: "to be thrown away"}

// safetyRunOf is the run that is asked about. It answers when there is none.
func (s *server) safetyRunOf(w http.ResponseWriter, r *http.Request) (app.SafetyRun, bool) {
	book, _ := s.house.Book()
	if s.records == nil {
		s.missing(w, r, book, "No records are kept here.")
		return app.SafetyRun{}, false
	}
	x, err := s.records.Safety(r.Context())
	if err != nil {
		s.refuse(w, r, http.StatusInternalServerError, sentence(err))
		return app.SafetyRun{}, false
	}
	i := slices.IndexFunc(x.Runs, func(run app.SafetyRun) bool { return run.Run == r.FormValue("run") })
	switch {
	case !x.Judged:
		s.missing(w, r, book, "The book of this kitchen does not say by what rules lots are judged, so there are no verdicts.")
	case i < 0:
		s.missing(w, r, book, "Nothing was entered of a production of that name.")
	default:
		return x.Runs[i], true
	}
	return app.SafetyRun{}, false
}

func (s *server) showSafetyRunJSON(w http.ResponseWriter, r *http.Request) {
	run, ok := s.safetyRunOf(w, r)
	if ok {
		writeJSON(w, http.StatusOK, run.Sheet())
	}
}
