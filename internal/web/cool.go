package web

import (
	"net/http"

	"kettlefrost/internal/app"
	"kettlefrost/internal/draw"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// coolPage is all that templates/cool.html may show: what the kitchen can do to cool something now.
type coolPage struct {
	shell
	Foods    []coolFood
	Much     coolField
	From     coolField
	OfWrong  string // what is wrong with the food
	InUnits  string
	Findings *findingsView // nil when nothing was computed
	Chill    *chillView
}

// coolFood is one thing to choose.
type coolFood struct {
	ID, Name string
	Here     bool
}

type coolField struct{ Value, Problem string }

const coolPath = "/cool"

// coolAsked is what is to be cooled now, as it was typed and as it was understood.
type coolAsked struct {
	page coolPage
	book kitchen.Book
	rd   reader
	plan plan.Plan
	made bool // plan is there
}

// askCool reads the question and answers it as far as it can.
func (s *server) askCool(r *http.Request) coolAsked {
	query := r.URL.Query()
	book, found := s.house.Book()
	a := coolAsked{book: book, rd: readerOf(book.Kitchen, r)}
	a.page = coolPage{shell: s.inShell(r, book.Kitchen, "Cool it now", "cool"), InUnits: query.Get("units"),
		Much: coolField{Value: tidy(query.Get("much"))}, From: coolField{Value: tidy(query.Get("from"))}}
	made := s.madeFoods(book, found)
	name := tidy(query.Get(ofKey))
	for _, m := range made {
		if m.From > unit.TempF(41) { // what leaves its step cold has not to be cooled
			a.page.Foods = append(a.page.Foods, coolFood{ID: m.ID(), Name: m.DishName + ": " + m.Name, Here: m.ID() == name})
		}
	}
	if name == "" {
		return a
	}
	m, err := app.MadeFood(made, name)
	if err != nil {
		a.page.OfWrong = capital(err.Error()) + "."
		return a
	}
	a.compute(s.house, m)
	return a
}

// compute reads the two amounts and compares the ways.
func (a *coolAsked) compute(house House, m plan.MadeFood) {
	p := &a.page
	from := m.From
	if p.From.Value == "" {
		p.From.Value = readableTemp(from, a.rd.units)
	} else if t, err := unit.ParseTemp(p.From.Value); err != nil {
		p.From.Problem = capital(err.Error()) + "."
	} else {
		from = t
	}
	much, err := app.MassOf(m, p.Much.Value)
	if err != nil {
		p.Much.Problem = capital(err.Error()) + "."
	}
	if p.From.Problem != "" || p.Much.Problem != "" {
		return
	}
	if a.plan, err = house.CoolNow(a.book, m, much, from); err != nil {
		p.Much.Problem = capital(err.Error()) + "."
		return
	}
	a.made = true
}

// wrong says that something was asked that cannot be answered.
func (p coolPage) wrong() bool {
	return p.OfWrong != "" || p.Much.Problem != "" || p.From.Problem != ""
}

func (s *server) showCool(w http.ResponseWriter, r *http.Request) {
	a := s.askCool(r)
	status := http.StatusOK
	if a.page.wrong() {
		status = http.StatusUnprocessableEntity
	}
	if a.made {
		found := viewFindings(a.plan.Findings)
		chill := viewChill(a.plan, a.book, draw.NewCodes(nil), a.rd, pictures{coolPath, "?" + r.URL.Query().Encode()})
		a.page.Findings, a.page.Chill = &found, &chill
	}
	coolTemplate.show(w, status, a.page)
}

// showCoolCurve answers with the curve of one way.
func (s *server) showCoolCurve(w http.ResponseWriter, r *http.Request) {
	a := s.askCool(r)
	if !a.made {
		s.missing(w, r, a.book, "There is no such drawing.")
		return
	}
	s.answerCurve(w, r, a.plan, a.book, 2, coolingPicture)
}
