package web

import (
	"cmp"
	"fmt"
	"net/http"
	"net/url"
	"strings"

	"kettlefrost/internal/draw"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/sheet"
	"kettlefrost/internal/unit"
)

// lotPage is all that templates/lot.html may show: a lot from its beginning to now.
type lotPage struct {
	shell
	None     bool
	Unknown  string // what was asked for, and nobody named
	Misread  string // what is wrong with a code that comes near to one
	Lot      string
	Is       []string
	Recall   string // address
	Held     []heldRow
	Release  releaseForm
	Here     []hereRow
	Balance  []factRow
	Events   []eventRow
	Ways     []choiceLink // how far the drawing goes
	Picture  pictureView
	Back     []reachedRow
	Forward  []reachedRow
	Flows    []flowRow
	JSON     string       // address
	Best     findingsView // its packs say best before a day that is not supported
	BestURL  string       // "" for what is not of packs
	KeepURL  string
	LifeURL  string       // address of what storage took; "" for what does not lie in freezers
	Findings findingsView // about the lot
}

// hereRow is what is on hand at a place.
type hereRow struct {
	Place, Count, Numbers, Held string
	Mass                        figure
}

type heldRow struct{ Of, Why, Since, Who, Decided string }

// releaseForm ends the holds of a lot by a named person's decision.
type releaseForm struct {
	Entry   string
	Lot     string
	Hand    bool   // somebody holds it
	Points  string // the critical records that hold it, as they stand, one to a line
	Records string // where those are looked at
}

// releaseOf is the form for what holds a lot now: what is decided is what was seen.
func releaseOf(y lots.Story) releaseForm {
	f := releaseForm{Entry: newEntryID(), Lot: string(y.Lot)}
	var points []string
	for _, h := range y.Holds {
		f.Hand = f.Hand || len(h.Points) == 0
		points = append(points, h.Points...)
	}
	f.Points = strings.Join(points, "\n")
	return f
}

// eventRow is something that was told of a lot.
type eventRow struct{ At, Who, Says string }

// flowRow is mass that went from one lot into another.
type flowRow struct {
	FromURL, From, ToURL, To string
	Mass                     figure
	Again                    bool
}

// stepsKey is how many steps each way a drawing of a lot goes; without it, all the way.
const stepsKey = "steps"

// storyOf is the lot that an address names; false when it was answered with why there is none.
func (s *server) storyOf(w http.ResponseWriter, r *http.Request) (y lots.Story, v lotPage, ok bool) {
	book, _ := s.house.Book()
	query := r.URL.Query()
	query.Del("did")
	code := tidy(query.Get(codeKey))
	v = lotPage{shell: s.inShell(r, book.Kitchen, "Lot "+code, "stock"), None: s.records == nil}
	if s.records == nil {
		lotTemplate.show(w, http.StatusOK, v)
		return y, v, false
	}
	y, found, err := s.records.Story(r.Context(), code)
	if misread(err) {
		v.Misread = sentence(err)
		lotTemplate.show(w, http.StatusNotFound, v)
		return y, v, false
	}
	if _, unknown := unknownLot(err); unknown {
		v.Unknown = code
		lotTemplate.show(w, http.StatusNotFound, v)
		return y, v, false
	}
	if err != nil {
		s.refuse(w, r, http.StatusInternalServerError, sentence(err))
		return y, v, false
	}
	v.Findings = viewFindings(found)
	return y, v, true
}

func (s *server) showLot(w http.ResponseWriter, r *http.Request) {
	y, v, ok := s.storyOf(w, r)
	if !ok {
		return
	}
	book, _ := s.house.Book()
	query := r.URL.Query()
	query.Del("did")
	x := recallShower{readerOf(book.Kitchen, r), query, s.recallTime}
	query.Set(codeKey, string(y.Lot))
	v.Title, v.Lot, v.Is, v.Recall, v.JSON = "Lot "+string(y.Lot), string(y.Lot), lotWords(y), lotURL(recallPath, y.Lot, query), "/lot.json"+queryOf(query)
	for _, h := range y.Holds {
		row := heldRow{Of: "all of it", Why: h.Why, Since: s.recallTime(h.Since), Who: cmp.Or(h.Who, "by its critical records"), Decided: string(h.Decided)}
		if h.Numbers != "" {
			row.Of = theirNumbers(h.Numbers)
		}
		v.Held = append(v.Held, row)
	}
	v.Release, v.LifeURL = releaseOf(y), lifeURL(y, query)
	if len(v.Release.Points) > 0 && y.Run != "" {
		v.Release.Records = coldURL(safetyRunPath, query, "run", y.Run)
	}
	for _, here := range x.stays(y.OnHand) {
		v.Here = append(v.Here, hereRow{here.Place, here.Count, here.Numbers, here.Held, here.Mass})
	}
	v.Balance = balanceRows(y, x.rd)
	for _, e := range y.Events {
		v.Events = append(v.Events, eventRow{s.recallTime(e.At), e.Who, sheet.EntryText(e.Says, x.rd.units)})
	}
	v.Back, v.Forward, v.Flows = x.reached(y.Back), x.reached(y.Forward), x.flows(y)
	for _, way := range []struct{ steps, name string }{{"", "All the way"}, {"1", "One step back and on"}} {
		v.Ways = append(v.Ways, choiceLink{Name: way.name, URL: lotPath + with(query, stepsKey, way.steps) + "#drawing", Here: query.Get(stepsKey) == way.steps})
	}
	v.Picture = drawingAt(lotPath, query, "What went into lot "+string(y.Lot)+" and what came of it")
	if y.Sort == lots.Packs {
		v.Best, v.BestURL, v.KeepURL = s.bestFindings(r, y.Lot), coldURL(bestPath, query, "pack", y.What), coldURL(keepPath, query, "code", string(y.Lot))
	}
	lotTemplate.show(w, http.StatusOK, v)
}

// lotWords is what a lot is, in short.
func lotWords(y lots.Story) []string {
	var words []string
	for _, w := range []struct{ lead, text string }{{"", string(y.Sort)}, {"", y.What}, {"", theirNumbers(y.Numbers)}, {"run ", y.Run}, {"from ", y.Supplier}, {"their lot ", y.SupplierLot}, {"use by ", string(y.UseBy)}, {"best before ", string(y.BestBefore)}} {
		if w.text != "" {
			words = append(words, w.lead+w.text)
		}
	}
	return words
}

// theirNumbers names packs by their numbers, as they stand on them.
func theirNumbers(numbers string) string {
	switch {
	case numbers == "":
		return ""
	case strings.ContainsAny(numbers, "-,"):
		return "packs " + numbers
	}
	return "pack " + numbers
}

func balanceRows(y lots.Story, rd reader) []factRow {
	row := func(name string, m unit.Mass, says string) factRow {
		f := rd.fig(m)
		return factRow{name, f.First, joined(f.Second, says)}
	}
	b := y.Balance
	last := fmt.Sprintf("%.2f %% of what came", 100*b.UnaccountedShare)
	if y.Sort == lots.Pot {
		last += ": boiled away, stretched with water, or nobody wrote it down"
	}
	return []factRow{row("Came", b.Came, ""), row("Used", b.Used, "into other lots"), row("On hand", b.OnHand, ""), row("Written off", b.Waste, ""), row("Handed over", b.Dispatched, ""), row("Unaccounted", b.Unaccounted, last)}
}

func (x recallShower) flows(y lots.Story) []flowRow {
	var rows []flowRow
	for _, f := range y.Flows {
		rows = append(rows, flowRow{lotURL(lotPath, f.From, x.query), string(f.From), lotURL(lotPath, f.To, x.query), string(f.To), x.rd.fig(f.Mass), f.Rework})
	}
	return rows
}

func (s *server) showLotJSON(w http.ResponseWriter, r *http.Request) {
	if s.records == nil {
		writeJSON(w, http.StatusNotFound, refusal{Error: "no records are kept here"})
		return
	}
	y, _, err := s.records.Story(r.Context(), tidy(r.URL.Query().Get(codeKey)))
	switch _, unknown := unknownLot(err); {
	case unknown || misread(err):
		writeJSON(w, http.StatusNotFound, refusal{Error: err.Error()})
	case err != nil:
		writeJSON(w, http.StatusInternalServerError, refusal{Error: err.Error()})
	default:
		writeJSON(w, http.StatusOK, y)
	}
}

// showLotDrawing draws what went into a lot and what came of it.
func (s *server) showLotDrawing(w http.ResponseWriter, r *http.Request) {
	y, _, ok := s.storyOf(w, r)
	if !ok {
		return
	}
	book, _ := s.house.Book()
	steps := draw.Whole
	if r.URL.Query().Get(stepsKey) == "1" {
		steps = 1
	}
	writeSVG(w, draw.StoryGraph(y, steps, readerOf(book.Kitchen, r).units).Picture(), look{dark: r.PathValue("look") == "dark"})
}

// dispositions are what may become of what was held.
var dispositions = map[string]record.Disposition{"release": record.ReleaseForUse, "rework": record.Rework, "destroy": record.Destroy}

// releaseLot enters what was decided about a lot that is held.
func (s *server) releaseLot(w http.ResponseWriter, r *http.Request) {
	if err := r.ParseForm(); err != nil {
		s.refuse(w, r, http.StatusBadRequest, "The form cannot be read.")
		return
	}
	lot, why := tidy(r.PostForm.Get(codeKey)), tidy(r.PostForm.Get("why"))
	decided, known := dispositions[r.PostForm.Get("disposition")]
	if lot == "" || why == "" || !known {
		s.refuse(w, r, http.StatusUnprocessableEntity, "A decision needs what is to become of the lot, and why.")
		return
	}
	points := pointsIn(r.PostForm, lot)
	var bodies []record.Body
	if len(points) > 0 {
		bodies = append(bodies, record.Released{Lot: record.Lot(lot), Points: points, Disposition: decided, Why: why})
	}
	if len(points) == 0 || r.PostForm.Get("hand") != "" {
		bodies = append(bodies, record.Released{Lot: record.Lot(lot), Disposition: decided, Why: why})
	}
	s.enter(w, r, lotPath+queryOf(url.Values{codeKey: {lot}}), bodies...)
}
