package web

import (
	"net/http"
	"slices"

	"kettlefrost/internal/draw"
	"kettlefrost/internal/learned"
)

// showLessonChart draws the runs of a figure between the book and the proposal.
func (s *server) showLessonChart(w http.ResponseWriter, r *http.Request) {
	book, _ := s.house.Book()
	looks := []look{{}, {narrow: true}, {dark: true}, {narrow: true, dark: true}}
	i := slices.IndexFunc(looks, func(l look) bool { return "lesson"+l.suffix() == r.PathValue("file") })
	if i >= 0 && s.learning != nil {
		x, err := s.learning.Lessons(r.Context())
		if err != nil {
			s.refuse(w, r, http.StatusInternalServerError, sentence(err))
			return
		}
		if f, err := x.Figure(r.URL.Query().Get("figure")); err == nil && len(f.Seen) > 0 {
			l := lessonView{x, readerOf(book.Kitchen, r), r.URL.Query()}
			writeSVG(w, lessonChart(l, f, looks[i].width()).Picture(), looks[i])
			return
		}
	}
	s.missing(w, r, book, "There is no such drawing.")
}

// lessonChart is the chart of a figure. What runs turn out otherwise has the book's spread about nothing.
func lessonChart(l lessonView, f learned.Figure, width float64) draw.Lesson {
	by, name := f.Axis(l.rd.units)
	what, _ := f.Words(l.x.Book)
	c := draw.Lesson{Title: capital(what), Unit: name, Width: width}
	low, high := f.Usual()
	c.Book = draw.LessonMark{Name: "the book", Value: f.Value * by, Low: low * by, High: high * by}
	if f.Kind == learned.Spread {
		c.Book.Value = 0
	}
	for _, s := range f.Seen {
		asked := slices.ContainsFunc(f.Asked, func(a learned.Asked) bool { return a.Run == s.Run })
		c.Runs = append(c.Runs, draw.LessonRun{Name: s.Run, Value: s.Value * by, LeftOut: s.LeftOut != "", Asked: asked})
	}
	if from, to, cover := f.True(); f.State != learned.TooFew && cover > 0 && f.Kind != learned.Spread {
		c.Proposed = &draw.LessonMark{Name: "proposed", Value: f.Mean() * by, Low: from * by, High: to * by}
	}
	return c
}
