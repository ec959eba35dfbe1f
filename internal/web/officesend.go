package web

import (
	"cmp"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/tables"
)

// noRecords says how to keep some, when there are none.
func (s *server) noRecords(w http.ResponseWriter, r *http.Request) bool {
	if s.records != nil {
		return false
	}
	book, _ := s.house.Book()
	officeTemplate.show(w, http.StatusOK, officePage{shell: s.inShell(r, book.Kitchen, "Office", "office"), None: true})
	return true
}

// send makes a file on the disk first, so that a browser gets all of it or an error; nobody else can read it, and it is gone after.
func (s *server) send(w http.ResponseWriter, r *http.Request, name, kind string, write func(io.Writer) error) {
	if s.noRecords(w, r) {
		return
	}
	f, err := os.CreateTemp("", "kettlefrost-*"+filepath.Ext(name)) // with 0600
	if err == nil {
		defer os.Remove(f.Name())
		defer f.Close()
		err = write(f)
	}
	if err != nil {
		book, _ := s.house.Book()
		officeTemplate.show(w, http.StatusInternalServerError, officePage{shell: s.inShell(r, book.Kitchen, "Office", "office"), Problem: sentence(err)})
		return
	}
	w.Header().Set("Content-Type", kind)
	w.Header().Set("Content-Disposition", `attachment; filename="`+name+`"`)
	w.Header().Set("Cache-Control", "no-store")
	http.ServeContent(w, r, "", time.Time{}, f)
}

const (
	typeCSV   = "text/csv; charset=utf-8"
	typeXLSX  = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
	typeZIP   = "application/zip"
	typeLines = "application/jsonl; charset=utf-8"
)

// dated is the name of a file that is made now.
func (s *server) dated(name, ending string) string {
	return "kettlefrost-" + name + "-" + s.house.Now().Format(time.DateOnly) + ending
}

func (s *server) sendEverything(w http.ResponseWriter, r *http.Request) {
	s.send(w, r, s.dated("everything", ".zip"), typeZIP, func(to io.Writer) error {
		z := app.NewZip(to, s.house.Now())
		_, err := s.records.ExportAll(r.Context(), z)
		return cmp.Or(err, z.Close())
	})
}

func (s *server) sendEntries(w http.ResponseWriter, r *http.Request) {
	s.send(w, r, s.dated("entries", ".jsonl"), typeLines, func(to io.Writer) error {
		_, err := s.records.Export(r.Context(), to)
		return err
	})
}

func (s *server) sendWorkbook(w http.ResponseWriter, r *http.Request) {
	s.send(w, r, s.dated("tables", ".xlsx"), typeXLSX, func(to io.Writer) error {
		all, _, err := s.records.Tables(r.Context())
		if err != nil {
			return err
		}
		return app.WriteWorkbook(to, all)
	})
}

// sendTable sends one table, as its ending says.
func (s *server) sendTable(w http.ResponseWriter, r *http.Request) {
	if s.noRecords(w, r) {
		return
	}
	name := r.PathValue("name")
	all, _, err := s.records.Tables(r.Context())
	for _, t := range all {
		base, ending, _ := strings.Cut(name, ".")
		if base != app.FileName(t) {
			continue
		}
		switch ending {
		case "csv":
			s.send(w, r, s.dated(base, ".csv"), typeCSV, func(to io.Writer) error {
				csv, err := t.CSV()
				if err == nil {
					_, err = to.Write(csv)
				}
				return err
			})
			return
		case "xlsx":
			s.send(w, r, s.dated(base, ".xlsx"), typeXLSX, func(to io.Writer) error { return app.WriteWorkbook(to, []tables.Table{t}) })
			return
		}
	}
	book, _ := s.house.Book()
	message := "There is no such table."
	if err != nil {
		message = sentence(err)
	}
	s.missing(w, r, book, message)
}
