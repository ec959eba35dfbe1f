package web

import (
	"errors"
	"net/http"

	"kettlefrost/internal/app"
	"kettlefrost/internal/record"
)

// acceptLesson sets a figure of the book to what was proposed.
func (s *server) acceptLesson(w http.ResponseWriter, r *http.Request) {
	if s.learning == nil {
		s.refuse(w, r, http.StatusConflict, "Nothing is learned of this book.")
		return
	}
	key := tidy(r.PostFormValue("figure"))
	if r.PostFormValue("shared") != "" && r.PostFormValue(sureField) == "" {
		s.lesson(w, r, http.StatusUnprocessableEntity, "The same weighings may mean another figure: tick that you know it is this one, or refuse it.")
		return
	}
	by, ok := s.sender(w, r)
	if !ok {
		return
	}
	_, _, err := s.learning.Accept(r.Context(), by.ID, app.Author{Who: by.Who, Device: by.Device, At: by.At}, key, tidy(r.PostFormValue("after")))
	if err != nil {
		s.lesson(w, r, http.StatusUnprocessableEntity, s.bookTrouble(err))
		return
	}
	http.Redirect(w, r, s.lessonBack(r, key, "accepted", by.ID.String()), http.StatusSeeOther)
}

// lessonBack is the page of a figure, after something was done.
func (s *server) lessonBack(r *http.Request, key string, more ...string) string {
	return coldURL(lessonPath, r.URL.Query(), append([]string{"figure", key}, more...)...)
}

// refuseLesson refuses a proposal; it is made again when a run has come.
func (s *server) refuseLesson(w http.ResponseWriter, r *http.Request) {
	s.enterLesson(w, r, func(x app.Lessons, key string) (record.Body, error) { return x.Refusal(key) })
}

// leaveRunOut leaves a run out of a figure.
func (s *server) leaveRunOut(w http.ResponseWriter, r *http.Request) {
	s.enterLesson(w, r, func(x app.Lessons, key string) (record.Body, error) {
		return x.Leaving(key, tidy(r.PostFormValue("run")), tidy(r.PostFormValue("why")))
	})
}

func (s *server) enterLesson(w http.ResponseWriter, r *http.Request, body func(app.Lessons, string) (record.Body, error)) {
	if s.learning == nil {
		s.refuse(w, r, http.StatusConflict, "Nothing is learned of this book.")
		return
	}
	x, err := s.learning.Lessons(r.Context())
	if err != nil {
		s.refuse(w, r, http.StatusServiceUnavailable, sentence(err))
		return
	}
	key := tidy(r.PostFormValue("figure"))
	b, err := body(x, key)
	if wrong := (*app.LessonError)(nil); errors.As(err, &wrong) {
		s.lesson(w, r, http.StatusUnprocessableEntity, sentence(err))
		return
	}
	if err != nil {
		s.refuse(w, r, http.StatusInternalServerError, sentence(err))
		return
	}
	s.enter(w, r, s.lessonBack(r, key), b)
}
