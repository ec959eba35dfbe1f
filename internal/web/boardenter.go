package web

import (
	"cmp"
	"context"
	"fmt"
	"net/http"
	"strconv"
	"strings"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// Fields that a device's queue adds to a form.
const (
	touchedField = "touched_ms" // when it was touched, by the clock of the device
	sentField    = "sent_ms"    // when it was sent, by the same clock: how wrong that is follows
	byField      = "by"         // who acted then
	sureField    = "sure"       // what is odd is right
)

// boardAnswer is what became of a form that was sent from a device's queue.
type boardAnswer struct {
	State string            `json:"state"` // taken, asks or refused
	Why   string            `json:"why,omitempty"`
	Bad   map[string]string `json:"bad,omitempty"`
	Seq   uint64            `json:"seq,omitempty"`
}

// fromQueue tells whether a form was sent by a device's queue, which wants an answer that it can read.
func fromQueue(r *http.Request) bool { return r.Header.Get("Accept") == "application/json" }

// enterOnBoard takes in what a form of the board says.
func (s *server) enterOnBoard(w http.ResponseWriter, r *http.Request) {
	p, ok := s.boardOf(w, r)
	if !ok {
		return
	}
	what := r.PostFormValue("what")
	if what == "undo" {
		s.undoOnBoard(w, r)
		return
	}
	read, known := boardReaders[what]
	if !known {
		s.answerBoard(w, r, http.StatusBadRequest, boardAnswer{State: "refused", Why: "It is not said what is entered: load the page again."})
		return
	}
	b, err := s.readBoard(r, p)
	if err != nil {
		s.refuse(w, r, http.StatusServiceUnavailable, sentence(err))
		return
	}
	said := app.Said{Body: read(b), At: b.at(s.touched(r))}
	if id := r.PostFormValue("corrects"); id != "" {
		if said.Corrects, err = record.ParseID(id); err != nil {
			b.wrong("corrects", sentence(err))
		}
	}
	switch {
	case len(b.bad) > 0:
		s.again(w, r, p, http.StatusUnprocessableEntity, boardAnswer{State: "refused", Why: problemsOf(b.bad), Bad: b.bad})
	case len(b.asks) > 0 && r.PostFormValue(sureField) == "":
		s.again(w, r, p, http.StatusUnprocessableEntity, boardAnswer{State: "asks", Why: strings.Join(b.asks, " ")})
	default:
		s.takeOnBoard(w, r, p, said, b.also...)
	}
}

func problemsOf(bad map[string]string) string {
	var all []string
	for _, text := range bad {
		all = append(all, text)
	}
	return strings.Join(all, " ")
}

// takeOnBoard takes the entry in, once, and what is entered with it.
func (s *server) takeOnBoard(w http.ResponseWriter, r *http.Request, p *app.Production, said app.Said, also ...record.Body) {
	id, err := record.ParseID(r.PostFormValue(entryField))
	if err != nil || id == (record.ID{}) {
		s.answerBoard(w, r, http.StatusBadRequest, boardAnswer{State: "refused", Why: "This form was sent without its number: load the page again."})
		return
	}
	said.ID, said.Who, said.Device = id, s.whoThen(w, r), device(r)
	if said.Who == "" {
		if fromQueue(r) {
			writeJSON(w, http.StatusUnauthorized, boardAnswer{State: "who", Why: s.says(r, "Nobody has said who acts on this device.")})
			return
		}
		s.askWho(w, r)
		return
	}
	all := []app.Said{said}
	for i, b := range also {
		all = append(all, app.Said{ID: app.PartID(id, i+1), Who: said.Who, Device: said.Device, At: said.At, Body: b})
	}
	entries, err := s.records.Enter(r.Context(), all...)
	switch {
	case err == nil:
		s.tookOnBoard(w, r, p, id, entries[0].Seq, len(all))
	case app.IsConflict(err): // the same form, sent again after its answer was lost
		s.tookOnBoard(w, r, p, id, 0, len(all))
	default:
		status, text := trouble(err)
		s.answerBoard(w, r, status, boardAnswer{State: "refused", Why: text})
	}
}

func (s *server) tookOnBoard(w http.ResponseWriter, r *http.Request, p *app.Production, id record.ID, seq uint64, entries int) {
	if fromQueue(r) {
		writeJSON(w, http.StatusOK, boardAnswer{State: "taken", Seq: seq})
		return
	}
	http.Redirect(w, r, withDid(cmp.Or(r.PostFormValue(backField), boardURL(p.Run.Name)), fmt.Sprintf("%s-%d", id, entries)), http.StatusSeeOther)
}

// undoOnBoard takes an entry back.
func (s *server) undoOnBoard(w http.ResponseWriter, r *http.Request) {
	wrong, err := record.ParseID(r.PostFormValue("wrong"))
	if err != nil {
		s.answerBoard(w, r, http.StatusBadRequest, boardAnswer{State: "refused", Why: "It is not said what is to be taken back."})
		return
	}
	who := s.whoThen(w, r)
	if who == "" && !fromQueue(r) {
		s.askWho(w, r)
		return
	}
	why := cmp.Or(tidy(r.PostFormValue("why")), "entered by mistake")
	_, err = s.records.Enter(r.Context(), app.Said{ID: app.VoidID(wrong), Who: who, Device: device(r), At: s.touched(r), Corrects: wrong, Body: record.Voided{Why: why}})
	switch {
	case err != nil && !app.IsConflict(err):
		status, text := trouble(err)
		s.answerBoard(w, r, status, boardAnswer{State: "refused", Why: text})
	case fromQueue(r):
		writeJSON(w, http.StatusOK, boardAnswer{State: "taken"})
	default:
		http.Redirect(w, r, ours(cmp.Or(r.PostFormValue(backField), boardURL(r.PathValue("run")))), http.StatusSeeOther)
	}
}

// answerBoard says why something was not taken in, to whoever sent it.
func (s *server) answerBoard(w http.ResponseWriter, r *http.Request, status int, a boardAnswer) {
	if fromQueue(r) {
		a.Why = s.says(r, a.Why)
		writeJSON(w, status, a)
		return
	}
	s.refuse(w, r, status, a.Why)
}

// whoThen is who acted when a form was filled in.
func (s *server) whoThen(w http.ResponseWriter, r *http.Request) string {
	then := tidy(r.PostFormValue(byField))
	switch {
	case then == "" || !fromQueue(r):
		return s.who(w, r)
	case visitorOf(r) != nil:
		return s.personNamed(r, then)
	}
	return then
}

// mostWaited is for how long a form may have waited on a device.
const mostWaited = 60 * 24 * time.Hour

// touched is when a form was touched, by our clock: that of a device may be wrong by any time, but goes as fast.
func (s *server) touched(r *http.Request) time.Time {
	now := s.house.Now()
	touched, err := strconv.ParseInt(r.PostFormValue(touchedField), 10, 64)
	sent, err2 := strconv.ParseInt(r.PostFormValue(sentField), 10, 64)
	waited := time.Duration(sent-touched) * time.Millisecond
	if err != nil || err2 != nil || sent < touched || sent-touched > mostWaited.Milliseconds() {
		return now
	}
	return now.Add(-waited)
}

// lotHere is a lot that is on hand.
type lotHere struct {
	id    record.Lot
	what  string
	sort  lots.Sort
	run   string
	mass  unit.Mass
	last  record.Day
	place record.Place
	held  string // why
	past  bool
}

// readBoard gets ready to read a form.
func (s *server) readBoard(r *http.Request, p *app.Production) (*boardRead, error) {
	now, _ := s.house.Book()
	b := &boardRead{p: p, book: now, rd: readerOf(p.Book.Kitchen, r), form: r.PostForm, bad: map[string]string{}}
	var err error
	switch r.PostFormValue("what") {
	case "use", "make", "pack":
		b.lots, b.used, _, err = s.lotsHere(r.Context(), p.Opened.Day)
	}
	return b, err
}

// lotsHere are the lots that are on hand in bulk, the oldest first, the names of all lots, and the last number of each kind of pack.
func (s *server) lotsHere(ctx context.Context, today record.Day) (here []lotHere, names map[record.Lot]bool, packs map[string]lastPack, err error) {
	names, packs = map[record.Lot]bool{}, map[string]lastPack{}
	err = s.records.Lots(ctx, func(state *lots.State, _ finding.List) error {
		for l := range state.All() {
			if l.Sort != lots.Pot {
				names[l.ID] = true
			}
			if l.Sort == lots.Packs {
				packs[l.What] = packs[l.What].and(l)
			}
		}
		for _, x := range state.Stock() {
			if x.Lot.Sort != lots.Goods && x.Lot.Sort != lots.Batch {
				continue
			}
			h := lotHere{id: x.Lot.ID, what: x.Lot.What, sort: x.Lot.Sort, run: x.Lot.Run, mass: x.Mass, last: x.Lot.Last(), place: x.Place, past: x.Lot.Last() != "" && x.Lot.Last() < today}
			if x.Lot.Held() {
				h.held = x.Lot.Holds[len(x.Lot.Holds)-1].Why
			}
			here = append(here, h)
		}
		return nil
	})
	return here, names, packs, err
}

// lastPack is how a kind of pack was packed last.
type lastPack struct {
	number int64 // the highest
	born   record.Instant
	days   int // from packing to best before
}

func (p lastPack) and(l *lots.Lot) lastPack {
	for r := range l.Numbers.Ranges() {
		p.number = max(p.number, r.Last)
	}
	if l.Born < p.born {
		return p
	}
	p.born = l.Born
	if until, err := time.Parse(time.DateOnly, string(l.BestBefore)); err == nil {
		packed := time.UnixMilli(int64(l.Born)).UTC().Truncate(24 * time.Hour)
		p.days = int(until.Sub(packed).Hours() / 24)
	}
	return p
}
