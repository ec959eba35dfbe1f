package web

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"net/http"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/record"
	"kettlefrost/internal/trials"
)

// trialShot is a picture of a trial on a page.
type trialShot struct{ URL, Small, Alt, Caption string }

// photoForm sends a picture from the camera.
type photoForm struct {
	Action, Entry, Week, Code, Back string
}

// viewShot is a picture. Blind, it is told by the code of what it shows.
func viewShot(t trials.Trial, p trials.Picture, blind bool) trialShot {
	of := "the trial"
	if p.HasWeek {
		name := p.Variant
		if i := t.VariantOf(p.Variant); blind && i >= 0 {
			name = t.CodeOf(i, p.Week)
		}
		of = fmt.Sprintf("%s, week %d", name, p.Week)
	}
	at := trialPictures + "/" + p.Body.Hash.String()
	return trialShot{URL: at, Small: at + "/small", Alt: "Picture of " + of, Caption: strings.Join(nonEmpty(of, oneLine(string(p.Body.Caption))), ": ")}
}

func nonEmpty(texts ...string) []string {
	var all []string
	for _, t := range texts {
		if t != "" {
			all = append(all, t)
		}
	}
	return all
}

// enterTrialPicture takes a picture in, as it came.
func (s *server) enterTrialPicture(w http.ResponseWriter, r *http.Request, o onTrial) {
	r.Body = http.MaxBytesReader(w, r.Body, app.MostPicture+mostForm)
	file, head, err := r.FormFile(fileField) // reads the whole form
	if _, big := errors.AsType[*http.MaxBytesError](err); big {
		s.refuse(w, r, http.StatusRequestEntityTooLarge, "The picture is larger than 8 MB: set the camera to smaller pictures. Nothing was entered.")
		return
	}
	if err != nil {
		s.refuse(w, r, http.StatusUnprocessableEntity, "Take or choose a picture first. Nothing was entered.")
		return
	}
	defer file.Close()
	data, err := io.ReadAll(file)
	if err != nil {
		s.refuse(w, r, http.StatusBadRequest, "The picture did not come through whole: send it again. Nothing was entered.")
		return
	}
	about := trials.About(o.t.Name, "", 0)
	if r.PostFormValue("code") != "" {
		variant, week, _, ok := o.packOf(r.PostForm)
		if !ok {
			s.refuse(w, r, http.StatusUnprocessableEntity, "The trial has no such pack. Nothing was entered.")
			return
		}
		about = trials.About(o.t.Name, o.t.Laid.Body.Variants[variant].Name, week)
	}
	by, ok := s.sender(w, r)
	if !ok {
		return
	}
	_, err = s.records.EnterPicture(r.Context(), by, app.PictureSent{About: about, File: tidy(head.Filename), Caption: tidyLines(r.PostFormValue("caption")), Data: data})
	if err != nil {
		status, text := trouble(err)
		s.refuse(w, r, status, text)
		return
	}
	http.Redirect(w, r, withDid(cmp.Or(r.PostFormValue(backField), trialURL(o.t.Name, "", o.query)), by.ID.String()+"-1"), http.StatusSeeOther)
}

// showPicture serves a picture as it came.
func (s *server) showPicture(w http.ResponseWriter, r *http.Request) {
	hash, err := record.ParseHash(r.PathValue("hash"))
	if s.records == nil || err != nil {
		http.NotFound(w, r)
		return
	}
	p, there, err := s.records.Picture(r.Context(), hash)
	switch {
	case err != nil:
		http.Error(w, "The picture cannot be read: "+err.Error(), http.StatusInternalServerError)
	case !there:
		http.NotFound(w, r)
	default:
		writePicture(w, r, hash, p.Type, p.Data)
	}
}

// writePicture answers with a picture. Whatever its bytes are, a browser takes it for a picture and nothing else, and runs nothing in it.
func writePicture(w http.ResponseWriter, r *http.Request, hash record.Hash, kind string, data []byte) {
	h := w.Header()
	h.Set("Content-Type", kind)
	h.Set("Content-Security-Policy", "default-src 'none'; sandbox")
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("Content-Disposition", `inline; filename="`+hash.String()[:12]+"."+strings.TrimPrefix(kind, "image/")+`"`)
	h.Set("Cache-Control", "private, no-cache") // it may be taken back
	h.Set("ETag", `"`+hash.String()+`"`)
	if r.Header.Get("If-None-Match") == `"`+hash.String()+`"` {
		w.WriteHeader(http.StatusNotModified)
		return
	}
	w.Write(data)
}
