package web

import (
	"net/http"
	"net/url"
	"slices"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/record"
)

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
