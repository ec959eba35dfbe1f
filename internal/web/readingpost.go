package web

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"mime"
	"net/http"
	"net/url"
	"strings"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/people"
	"kettlefrost/internal/record"
)

// mostReadings is more than a probe sends at once, in bytes.
const mostReadings = 8 << 20

// postedBatch is readings as a probe sends them, as JSON: one, or several that share what stands beside them.
type postedBatch struct {
	ID       record.ID       `json:"id,omitzero"` // 128 bits at random, in hex; what comes again under it is taken in once
	Probe    string          `json:"probe,omitzero"`
	Unit     string          `json:"unit,omitzero"` // C or F, of temperatures without their own
	Device   string          `json:"device,omitzero"`
	Readings []postedReading `json:"readings,omitzero"`
	postedReading
}

// postedReading is one of them. The time is RFC 3339, or milliseconds since 1970; without one it is the time of receipt.
type postedReading struct {
	Of    string          `json:"of,omitzero"` // the probe, where it differs
	At    string          `json:"at,omitzero"`
	AtMs  *int64          `json:"at_ms,omitzero"`
	Temp  json.RawMessage `json:"temp,omitzero"` // a number or a text: 38.1, "38.1 °F"
	TempC json.RawMessage `json:"temp_c,omitzero"`
	TempF json.RawMessage `json:"temp_f,omitzero"`
}

// takeReadings takes in what a probe sends: JSON, or the fields of a form. What is odd about a reading does not keep it out.
func (s *server) takeReadings(w http.ResponseWriter, r *http.Request) {
	if s.records == nil {
		logsRefused(w, nil)
		return
	}
	r.Body = http.MaxBytesReader(w, r.Body, mostReadings)
	sent, err := readPosted(r)
	if err != nil {
		status := http.StatusBadRequest
		if _, big := errors.AsType[*http.MaxBytesError](err); big {
			status = http.StatusRequestEntityTooLarge
		}
		writeJSON(w, status, queueAnswer{Trouble: "the readings cannot be read: " + err.Error()})
		return
	}
	p := sent.posted(s.deviceOf(r))
	p.Who, p.Device = s.senderOf(w, r, sent.Device)
	taken, err := s.records.TakePosted(r.Context(), p, s.house.Now())
	if err != nil {
		writeJSON(w, postStatus(err), queueAnswer{Trouble: err.Error()})
		return
	}
	writeJSON(w, http.StatusOK, taken)
}

func postStatus(err error) int {
	if _, denied := errors.AsType[*people.DeniedError](err); denied {
		return http.StatusForbidden
	}
	if _, wrong := errors.AsType[*app.PostError](err); wrong {
		return http.StatusUnprocessableEntity
	}
	return http.StatusServiceUnavailable
}

// deviceOf is the instrument whose key was shown; "" for none.
func (s *server) deviceOf(r *http.Request) string {
	if v := visitorOf(r); v != nil && v.actor.Person == "" {
		return v.actor.Device
	}
	return ""
}

// senderOf is who and what sends. A key and a signed-in device are called as they were named; where nobody signs in, as they say.
func (s *server) senderOf(w http.ResponseWriter, r *http.Request, says string) (who, name string) {
	if visitorOf(r) != nil {
		return s.who(w, r), device(r)
	}
	if name = tidy(says); name == "" {
		name = device(r)
	}
	return "", name
}

func readPosted(r *http.Request) (sent postedBatch, err error) {
	kind, _, _ := mime.ParseMediaType(r.Header.Get("Content-Type"))
	if kind == "application/x-www-form-urlencoded" || kind == "multipart/form-data" {
		if err := r.ParseMultipartForm(mostReadings); err != nil && !errors.Is(err, http.ErrNotMultipart) {
			return sent, err
		}
		return postedForm(r.PostForm)
	}
	data, err := io.ReadAll(r.Body)
	if err != nil {
		return sent, err
	}
	if data = bytes.TrimSpace(data); len(data) > 0 && data[0] == '[' {
		return sent, json.Unmarshal(data, &sent.Readings)
	}
	return sent, json.Unmarshal(data, &sent)
}

// postedForm is one reading in the fields of a form: probe, temp, unit, at, id.
func postedForm(form url.Values) (sent postedBatch, err error) {
	if id := form.Get("id"); id != "" {
		if sent.ID, err = record.ParseID(id); err != nil {
			return sent, err
		}
	}
	text := func(key string) json.RawMessage {
		if !form.Has(key) {
			return nil
		}
		quoted, _ := json.Marshal(form.Get(key)) // a text always can
		return quoted
	}
	sent.Probe, sent.Unit, sent.Device, sent.At = form.Get("probe"), form.Get("unit"), form.Get("device"), form.Get("at")
	sent.Temp, sent.TempC, sent.TempF = text("temp"), text("temp_c"), text("temp_f")
	return sent, nil
}

// posted is what was sent as the use case takes it. A reading that names no probe is that of the key.
func (b postedBatch) posted(key string) app.Posted {
	p := app.Posted{ID: b.ID}
	all := b.Readings
	if len(all) == 0 && b.postedReading.given() {
		all = []postedReading{b.postedReading}
	}
	for _, x := range all {
		p.Readings = append(p.Readings, x.reading(b, key))
	}
	return p
}

func (x postedReading) given() bool {
	return x.Temp != nil || x.TempC != nil || x.TempF != nil || x.At != "" || x.AtMs != nil
}

func (x postedReading) reading(b postedBatch, key string) app.PostedReading {
	out := app.PostedReading{Probe: firstSaid(x.Of, b.Probe, key), RawAt: x.At}
	switch {
	case x.AtMs != nil:
		out.At = time.UnixMilli(*x.AtMs)
	case x.At != "":
		out.At, _ = time.Parse(time.RFC3339, strings.TrimSpace(x.At)) // what cannot be read is flagged
	}
	switch {
	case x.TempC != nil:
		out.Temp, out.Unit = sentText(x.TempC), app.PostedC
	case x.TempF != nil:
		out.Temp, out.Unit = sentText(x.TempF), app.PostedF
	default:
		out.Temp, out.Unit = sentText(x.Temp), app.PostedUnit(b.Unit)
	}
	return out
}

// sentText is a JSON value as it was written, a text without its quotation marks.
func sentText(value json.RawMessage) string {
	var text string
	if json.Unmarshal(value, &text) == nil {
		return text
	}
	return string(value)
}

// firstSaid is the first of some names that says something.
func firstSaid(names ...string) string {
	for _, n := range names {
		if n = tidy(n); n != "" {
			return n
		}
	}
	return ""
}
