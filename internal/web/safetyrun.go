package web

import (
	"net/http"
	"net/url"
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

// decideForm is what becomes of lots that are held.
type decideForm struct {
	Entry, Back string
	Lots        []decideLot
	Choices     []decideChoice
	Why         string
	Problems    []string
}

// decideLot is a lot that is held, with what is decided on: what was seen when the form was shown.
type decideLot struct {
	Lot, What, Says string
	Points          string // one to a line
	Here            bool   // chosen
}

type decideChoice struct {
	Value, Says, Means string
	Here               bool
}

// decideForm is nil when nothing is held.
func (s *server) decideForm(r *http.Request, lots []app.SafetyLot, back string) *decideForm {
	f := &decideForm{Entry: newEntryID(), Back: back}
	for _, l := range lots {
		if len(l.Holds) == 0 {
			continue
		}
		x := decideLot{Lot: string(l.Lot), What: l.What, Says: l.Holds[0].Why, Here: len(lots) == 1}
		for _, h := range l.Holds {
			x.Points = strings.TrimSpace(x.Points + "\n" + strings.Join(h.Points, "\n"))
		}
		f.Lots = append(f.Lots, x)
	}
	if len(f.Lots) == 0 {
		return nil
	}
	f.Choices = []decideChoice{
		{"destroy", "Throw it away", "It stays held for good. Write it off when it is gone.", false},
		{"rework", "Make it again", "It stays held and may go into another dish only. What is made of it is held too, until somebody decides on that.", false},
		{"release", "Release it", "On your name and for your reason. The records stay as they are. If one of them turns out worse, it is held again.", false},
	}
	return f
}

// decide enters what becomes of lots, each for what was seen of it.
func (s *server) decide(w http.ResponseWriter, r *http.Request) {
	if err := r.ParseForm(); err != nil {
		s.refuse(w, r, http.StatusBadRequest, sentence(err))
		return
	}
	why, disposition := tidy(r.PostFormValue("why")), record.Disposition(r.PostFormValue("disposition"))
	chosen := r.PostForm["lot"]
	var problems []string
	if len(chosen) == 0 {
		problems = append(problems, "Choose at least one lot.")
	}
	if becomes[disposition] == "" {
		problems = append(problems, "Choose what becomes of it.")
	}
	if why == "" {
		problems = append(problems, "Write the reason: an inspector will read it.")
	}
	if len(problems) > 0 {
		s.decideAgain(w, r, problems)
		return
	}
	var bodies []record.Body
	for _, lot := range chosen {
		points := pointsIn(r.PostForm, lot)
		if len(points) == 0 {
			s.refuse(w, r, http.StatusUnprocessableEntity, "It is not said what is decided on of lot "+lot+": load the page again.")
			return
		}
		bodies = append(bodies, record.Released{Lot: record.Lot(lot), Points: points, Disposition: disposition, Why: why})
	}
	s.enter(w, r, r.PostFormValue(backField), bodies...)
}

func pointsIn(form url.Values, lot string) (points []string) {
	for line := range strings.SplitSeq(form.Get("points."+lot), "\n") {
		if line = strings.TrimSpace(line); line != "" {
			points = append(points, line)
		}
	}
	return points
}

// decideAgain shows the form as it was filled in, with what is wrong.
func (s *server) decideAgain(w http.ResponseWriter, r *http.Request, problems []string) {
	back := ours(r.PostFormValue(backField))
	u, err := url.Parse(back)
	run := app.SafetyRun{}
	if err == nil && u.Path == safetyRunPath {
		r.Form.Set("run", u.Query().Get("run"))
		var ok bool
		if run, ok = s.safetyRunOf(w, r); !ok {
			return
		}
	}
	f := s.decideForm(r, run.Lots, back)
	if f == nil {
		s.refuse(w, r, http.StatusUnprocessableEntity, strings.Join(problems, " "))
		return
	}
	f.Problems, f.Why, f.Entry = problems, r.PostFormValue("why"), r.PostFormValue(entryField)
	for i := range f.Lots {
		f.Lots[i].Here = slices.Contains(r.PostForm["lot"], f.Lots[i].Lot)
		if points := r.PostForm.Get("points." + f.Lots[i].Lot); points != "" {
			f.Lots[i].Points = points
		}
	}
	for i := range f.Choices {
		f.Choices[i].Here = f.Choices[i].Value == r.PostFormValue("disposition")
	}
	s.writeSafetyRun(w, r, http.StatusUnprocessableEntity, run, f)
}
