package web

import (
	"encoding/json"
	"errors"
	"net/http"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/record"
)

// queued is an entry that waited on a device, as it is sent to /enter.
type queued struct {
	ID       record.ID       `json:"id"` // drawn by the device
	Kind     record.Kind     `json:"kind"`
	Happened record.Instant  `json:"happened_ms"`
	Who      string          `json:"who"`
	Device   string          `json:"device"`
	Corrects record.ID       `json:"corrects,omitzero"`
	Body     json.RawMessage `json:"body"`
}

// queueAnswer says what became of each entry. One that is in neither list was not looked at: it is sent again.
type queueAnswer struct {
	Taken   []takenEntry   `json:"taken"`
	Refused []refusedEntry `json:"refused"`
	Trouble string         `json:"trouble,omitempty"` // why the rest was not looked at
}

type takenEntry struct {
	ID  record.ID `json:"id"`
	Seq uint64    `json:"seq"`
}

type refusedEntry struct {
	ID  record.ID `json:"id"`
	Why string    `json:"why"`
}

// takeQueue takes in entries that waited on a device, in their order. One that makes no sense does not keep back those after it. What was
// taken in before is answered as taken, so a device that got no answer sends all of it again.
func (s *server) takeQueue(w http.ResponseWriter, r *http.Request) {
	var sent struct {
		Entries []queued `json:"entries"`
	}
	dec := json.NewDecoder(r.Body)
	dec.DisallowUnknownFields()
	if err := dec.Decode(&sent); err != nil {
		writeJSON(w, http.StatusBadRequest, queueAnswer{Trouble: "the entries cannot be read: " + err.Error()})
		return
	}
	signed := s.who(w, r)
	answer, status := queueAnswer{Taken: []takenEntry{}, Refused: []refusedEntry{}}, http.StatusOK
	for _, group := range groups(sent.Entries) {
		if err := s.takeGroup(r, signed, group, &answer); err != nil {
			answer.Trouble, status = err.Error(), http.StatusServiceUnavailable
			break
		}
	}
	writeJSON(w, status, answer)
}

// groups are runs of entries that can be taken in at once: a correction may be of an entry just before it.
func groups(all []queued) [][]queued {
	var out [][]queued
	for i, q := range all {
		if i == 0 || q.Corrects != (record.ID{}) {
			out = append(out, nil)
		}
		out[len(out)-1] = append(out[len(out)-1], q)
	}
	return out
}

// takeGroup takes in all of a group at once, or, when something in it makes no sense, each on its own. The error is the store's.
func (s *server) takeGroup(r *http.Request, signed string, group []queued, answer *queueAnswer) error {
	var said []app.Said
	for _, q := range group {
		x, err := q.said(signed, device(r), visitorOf(r) != nil)
		if err != nil {
			answer.Refused = append(answer.Refused, refusedEntry{q.ID, err.Error()})
			continue
		}
		said = append(said, x)
	}
	if taken, err := s.records.Enter(r.Context(), said...); err == nil {
		answer.take(taken)
		return nil
	}
	for _, x := range said {
		taken, err := s.records.Enter(r.Context(), x)
		if app.IsTrouble(err) || r.Context().Err() != nil {
			return err
		}
		if err != nil {
			answer.Refused = append(answer.Refused, refusedEntry{x.ID, err.Error()})
			continue
		}
		answer.take(taken)
	}
	return nil
}

func (a *queueAnswer) take(entries []record.Entry) {
	for _, e := range entries {
		a.Taken = append(a.Taken, takenEntry{e.ID, e.Seq})
	}
}

// said is the entry as its device told it. Who acts on the device now stands for it when it names nobody.
func (q queued) said(signed, device string, signedIn bool) (app.Said, error) {
	if q.ID == (record.ID{}) {
		return app.Said{}, errors.New("id is missing: draw 128 bits at random")
	}
	if q.Who == "" {
		q.Who = signed
	}
	if q.Device == "" || signedIn { // a device is called as it was named at sign-in
		q.Device = device
	}
	body, err := record.Read(q.Kind, q.Body)
	return app.Said{ID: q.ID, Who: q.Who, Device: q.Device, At: time.UnixMilli(int64(q.Happened)), Corrects: q.Corrects, Body: body}, err
}
