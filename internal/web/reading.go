package web

import (
	"net/http"
	"net/url"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/coldwatch"
	"kettlefrost/internal/record"
)

// Addresses of what probes and loggers read.
const (
	logsPath      = "/logs"
	logDayPath    = logsPath + "/day"
	logImportPath = logsPath + "/import"
	readingsPath  = "/readings"
)

// readingRoutes are readings on their way in, and what was read.
func (s *server) readingRoutes(mux *http.ServeMux) {
	jobs := newLogJobs(s.records)
	mux.HandleFunc("POST "+readingsPath, s.takeReadings)
	mux.HandleFunc("GET "+logsPath, s.showLogs)
	mux.HandleFunc("GET "+logsPath+".json", s.showLogsJSON)
	mux.HandleFunc("GET "+logDayPath, s.showLogDay)
	mux.HandleFunc("GET "+logDayPath+".json", s.showLogDayJSON)
	mux.HandleFunc("GET "+logDayPath+".csv", s.showLogDayCSV)
	mux.HandleFunc("GET "+logDayPath+"/chart/{file}", s.showLogChart)
	mux.HandleFunc("GET "+logImportPath, s.showLogImport)
	mux.HandleFunc("POST "+logImportPath, func(w http.ResponseWriter, r *http.Request) { s.takeLogFile(w, r, jobs) })
	mux.HandleFunc("GET "+logImportPath+"/{key}", func(w http.ResponseWriter, r *http.Request) { s.showLogJob(w, r, jobs) })
	mux.HandleFunc("GET "+logImportPath+"/{key}/progress.json", func(w http.ResponseWriter, r *http.Request) { s.showLogProgress(w, r, jobs) })
	mux.HandleFunc("POST "+logImportPath+"/{key}", func(w http.ResponseWriter, r *http.Request) { s.answerLogJob(w, r, jobs) })
}

// readTemp is a temperature that was read, to a tenth, in both systems.
func (r reader) readTemp(c float64) figure {
	return figure{First: together(coldwatch.Degrees(c, r.units)), Second: together(coldwatch.Degrees(c, r.other()))}
}

func (f figure) both() string {
	if f.Second == "" {
		return f.First
	}
	return f.First + " (" + f.Second + ")"
}

// dayURL is the page of a probe's day.
func dayURL(query url.Values, probe string, day record.Day) string {
	pairs := []string{"probe", probe}
	if day != "" {
		pairs = append(pairs, "day", string(day))
	}
	return coldURL(logDayPath, query, pairs...)
}

// wall is a time on the kitchen's clock.
func (s *server) wall(at record.Instant) time.Time {
	return time.UnixMilli(int64(at)).In(s.house.Now().Location())
}

// logsRefused answers a program that there are no records, or that they cannot be read.
func logsRefused(w http.ResponseWriter, err error) {
	if err == nil {
		writeJSON(w, http.StatusConflict, refusal{Error: "no records are kept here: start with kettlefrost serve --records kitchen.records"})
		return
	}
	writeJSON(w, http.StatusInternalServerError, refusal{Error: err.Error()})
}

// flagsText is what is odd about a reading, in words.
func flagsText(codes []string) string {
	text := ""
	for i, c := range codes {
		if i > 0 {
			text += "; "
		}
		text += app.FlagWords(c)
	}
	return text
}
