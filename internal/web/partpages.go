package web

import (
	"net/http"
	"net/url"

	"kettlefrost/internal/draw"
	"kettlefrost/internal/plan"
)

// The pages of a run that show one part of its plan and ask for nothing.
type (
	findingsPage struct {
		runHead
		Findings findingsView
	}
	cookPage struct {
		runHead
		Dishes []dishView
	}
	chillPage struct {
		runHead
		Chill chillView
	}
	freezePage struct {
		runHead
		Freeze freezeView
	}
	cardsPage struct {
		runHead
		Cards cardsView
	}
	labelsPage struct {
		runHead
		Labels labelsView
	}
)

// seen is all that putting a part into words takes.
type seen struct {
	plan  plan.Plan
	codes draw.Codes
	rd    reader
	at    pictures
}

func seenBy(r *http.Request, d runDay) seen {
	query := r.URL.Query()
	return seen{d.plan, draw.NewCodes(d.plan.Dishes), readerOf(d.book.Kitchen, r), pictures{runPath(d.name), queryOf(query)}}
}

func (s *server) showFindings(w http.ResponseWriter, _ *http.Request, d runDay, head runHead) {
	findingsTemplate.show(w, http.StatusOK, findingsPage{head, viewFindings(d.plan.Findings)})
}

func (s *server) showCook(w http.ResponseWriter, r *http.Request, d runDay, head runHead) {
	x := seenBy(r, d)
	v := cookPage{head, viewDishes(x.plan, d.book, x.codes, x.rd)}
	for i, dish := range x.plan.Dishes {
		v.Dishes[i].Masses = x.at.path + "/masses/" + url.PathEscape(dish.ID) + ".svg" + x.at.rest
	}
	cookTemplate.show(w, http.StatusOK, v)
}

func (s *server) showChill(w http.ResponseWriter, r *http.Request, d runDay, head runHead) {
	x := seenBy(r, d)
	chillTemplate.show(w, http.StatusOK, chillPage{head, viewChill(x.plan, d.book, x.codes, x.rd, x.at)})
}

func (s *server) showFreeze(w http.ResponseWriter, r *http.Request, d runDay, head runHead) {
	x := seenBy(r, d)
	freezeTemplate.show(w, http.StatusOK, freezePage{head, viewFreeze(x.plan, x.rd, x.at)})
}

func (s *server) showCards(w http.ResponseWriter, r *http.Request, d runDay, head runHead) {
	x := seenBy(r, d)
	cardsTemplate.show(w, http.StatusOK, cardsPage{head, viewCards(x.plan, x.rd, x.at)})
}

func (s *server) showLabels(w http.ResponseWriter, r *http.Request, d runDay, head runHead) {
	x := seenBy(r, d)
	v := viewLabels(x.plan, x.rd)
	for i, l := range x.plan.Labels {
		v.Labels[i].URL = coldURL(packLabelPath, r.URL.Query(), packKey, l.Pack, labelRun, d.name)
	}
	labelsTemplate.show(w, http.StatusOK, labelsPage{head, v})
}
