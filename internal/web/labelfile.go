package web

import (
	"bytes"
	"cmp"
	"context"
	"fmt"
	"html/template"
	"net/http"
	"net/url"
	"strconv"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/labelmaker"
	"kettlefrost/internal/record"
)

func (s *server) showPackLabelJSON(w http.ResponseWriter, r *http.Request) {
	if a, ok := s.labelForFile(w, r); ok {
		writeJSON(w, http.StatusOK, a.sheet)
	}
}

// labelForFile is the label that an address asks for, and false when it was answered because there is none.
func (s *server) labelForFile(w http.ResponseWriter, r *http.Request) (*labelAsked, bool) {
	book, _ := s.house.Book()
	ask, bad := labelTyped(r.URL.Query().Get)
	if bad != nil {
		writeJSON(w, http.StatusUnprocessableEntity, refusal{Error: bad.Says})
		return nil, false
	}
	a, err := s.labelAsked(r.Context(), book, ask)
	if err != nil {
		_, status := labelStatus(err, ask)
		writeJSON(w, status, refusal{Error: sentence(err)})
		return nil, false
	}
	return a, true
}

// pngDPI is that of a picture that is looked at: fine enough for the smallest type.
const pngDPI = 200

func (s *server) showLabelPNG(w http.ResponseWriter, r *http.Request) {
	a, ok := s.labelForFile(w, r)
	if !ok {
		return
	}
	pictures := a.made.Pictures()
	side, err := strconv.Atoi(cmp.Or(r.URL.Query().Get("side"), "1"))
	if err != nil || side < 1 || side > len(pictures) {
		writeJSON(w, http.StatusNotFound, refusal{Error: "There is no such picture: " + cmp.Or(a.sheet.Stops, "the label has fewer sides.")})
		return
	}
	var out bytes.Buffer
	if err := labelmaker.PNG(&out, pictures[side-1], pngDPI); err != nil {
		writeJSON(w, http.StatusUnprocessableEntity, refusal{Error: sentence(err)})
		return
	}
	labelFile(w, "image/png", fmt.Sprintf("label-%s-%d.png", fileWord(string(a.made.Ask.Pack)), side), out.Bytes())
}

// labelFile answers with a file to be kept.
func labelFile(w http.ResponseWriter, kind, name string, data []byte) {
	w.Header().Set("Content-Type", kind)
	w.Header().Set("Content-Disposition", `attachment; filename="`+name+`"`)
	w.Header().Set("Cache-Control", "no-store")
	w.Write(data)
}

// fileWord is a text fit for the name of a file.
func fileWord(text string) string {
	return strings.Map(func(r rune) rune {
		if r < 128 && (r == '-' || r >= '0' && r <= '9' || r >= 'A' && r <= 'Z' || r >= 'a' && r <= 'z') {
			return r
		}
		return '-'
	}, text)
}

// showLabelPDF is the file of labels that were entered.
func (s *server) showLabelPDF(w http.ResponseWriter, r *http.Request) {
	if s.records == nil {
		s.refuse(w, r, http.StatusConflict, "No records are kept here, so no label can be printed. Start with kettlefrost serve --records kitchen.records.")
		return
	}
	a, ok := s.labelForFile(w, r)
	if !ok {
		return
	}
	first, n, ok := readDid(r.URL.Query().Get("did"))
	onto, err := ontoTyped(r.URL.Query().Get)
	if err == nil && !ok {
		err = &app.LabelStop{Problem: "no entry says that these labels are printed", Fix: "enter how many on the page of the label"}
	}
	var head record.Head
	if err == nil {
		head, err = s.records.Head(r.Context()) // labels may be taken back
	}
	var data []byte
	if err == nil {
		book, _ := s.house.Book()
		ask := app.JobAsk{Key: keyOf("labels", r.URL.RequestURI(), head, book), Name: "Laying out labels", Lane: app.HeavyLane, Keep: true, File: true}
		data, err, ok = long(s, w, r, ask, func(ctx context.Context) ([]byte, error) {
			job, err := s.labels.Printed(ctx, a.made, first, n, onto)
			if err != nil {
				return nil, err
			}
			var out bytes.Buffer
			err = labelmaker.PDF(&out, job)
			return out.Bytes(), err
		})
		if !ok {
			return
		}
	}
	if err != nil {
		s.refuse(w, r, http.StatusConflict, sentence(err))
		return
	}
	labelFile(w, "application/pdf", "labels-"+fileWord(string(a.made.Ask.Lot))+".pdf", data)
}

// labelSides are the pictures of a label, drawn by labelmaker, which escapes every text.
func labelSides(a *labelAsked, query url.Values) (all []labelSideView) {
	for i, p := range a.made.Pictures() {
		name := "Label"
		if a.sheet.Sides > 1 {
			name = []string{"Front", "Back"}[min(i, 1)]
		}
		all = append(all, labelSideView{Name: name, Size: fmt.Sprintf("%.4g × %.4g mm", a.sheet.Stock.WideMm, a.sheet.Stock.HighMm), Picture: template.HTML(labelmaker.SVG(p, fmt.Sprintf("label%d", i))),
			PNG: labelURL(labelPNGPath, query, packKey, string(a.made.Ask.Pack), "side", strconv.Itoa(i+1))})
	}
	return all
}

// labelSideView is one side, to be looked at.
type labelSideView struct {
	Name, Size string
	Picture    template.HTML
	PNG        string
}
