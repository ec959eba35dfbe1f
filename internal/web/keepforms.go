package web

import (
	"cmp"
	"errors"
	"net/http"
	"net/url"

	"kettlefrost/internal/app"
	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
)

// keepPage is all that templates/keepset.html may show: packs of a lot are kept for tasting.
type keepPage struct {
	shell
	Action, Entry string
	Code          typedField
	Fields        []field
	Problem       string
	Lot, What     string // that was read
	Rows          []stockRow
	Back          string
}

var keepTemplate = parse[keepPage]("keepset")

func (s *server) showKeep(w http.ResponseWriter, r *http.Request) {
	s.ofCold(w, r, func(c cold) func() {
		v := s.keepForm(r, c, c.query)
		return func() { keepTemplate.show(w, http.StatusOK, v) }
	})
}

// keepPacks enters that packs are kept for tasting.
func (s *server) keepPacks(w http.ResponseWriter, r *http.Request) {
	if err := r.ParseForm(); err != nil {
		s.refuse(w, r, http.StatusBadRequest, "This form cannot be read.")
		return
	}
	form := r.PostForm
	body, err := s.records.KeepForTasting(r.Context(), app.KeepAsk{Code: tidy(form.Get("code")), Which: tidy(form.Get("which")), Open: tidy(form.Get("open")), Place: tidy(form.Get("place")), Why: tidy(form.Get("why"))}, s.stockDay())
	if err == nil {
		s.enter(w, r, coldURL(retainedPath, r.URL.Query()), body)
		return
	}
	if s.sentBefore(w, r, coldURL(retainedPath, r.URL.Query())) {
		return
	}
	s.ofCold(w, r, func(c cold) func() {
		v := s.keepForm(r, c, form)
		v.Problem = besideCode(&v.Code, v.Fields, err)
		return func() { keepTemplate.show(w, http.StatusUnprocessableEntity, v) }
	})
}

// besideCode puts what is wrong beside its field, the code among them; it is returned when it is of none.
func besideCode(code *typedField, fields []field, err error) string {
	if why := (*coldstore.Refusal)(nil); errors.As(err, &why) && why.Field == "code" {
		code.Problem = sentence(why)
		return ""
	}
	return beside(fields, err)
}

func (s *server) keepForm(r *http.Request, c cold, form url.Values) keepPage {
	v := keepPage{shell: s.inShell(r, c.book.Kitchen, "Keep packs for tasting", "retained"), Action: keepPath, Entry: cmp.Or(form.Get(entryField), newEntryID()), Back: coldURL(retainedPath, c.query),
		Code: typedField{Key: "code", Label: "Lot", Hint: "Scan it, or type it as on the bag: P-1201-3, or P-1201-3#17 for one pack.", Value: tidy(form.Get("code"))}}
	open := "Weeks after packing, such as 4, 8, 13; or days, such as 2027-01-05. Packs are dealt to them in order."
	if read, l, err := coldstore.InHand(c.state, v.Code.Value); err == nil && l.Sort == lots.Packs {
		v.Lot, v.What, v.Rows = read.String(), c.whatIs(l), c.handleLot(l, read).Rows
	}
	place := tidy(form.Get("place"))
	v.Fields = []field{{Key: "which", Label: "Which packs", Hint: "next 3 for any three; or their numbers: 38-40, 42", Value: tidy(form.Get("which"))},
		{Key: "open", Label: "Open them", Hint: open, Value: tidy(form.Get("open"))},
		{Key: "place", Label: "Put them", Hint: "a box of their own is not sold by mistake", Value: place, Options: append([]option{{"", "leave them where they are", place == ""}}, c.placeOptions(place, coldstore.Frozen, false)...)},
		{Key: "why", Label: "Why", Hint: "may be empty", Value: tidy(form.Get("why"))}}
	return v
}

// keptTastePage is all that templates/keeptaste.html may show: a pack was opened, and what was found is entered.
type keptTastePage struct {
	shell
	Action, Entry string
	Code          typedField
	Which         *field
	What, Age     string
	LotURL        string
	Verdicts      []verdictChoice
	VerdictWrong  string
	Fields        []field
	Scores        []field
	ScoresOpen    bool // one of them was typed
	Problem       string
	Due           []openingRow // what is to be opened
	Back          string
	Safety        string
}

// verdictChoice is how a pack has kept, to be chosen.
type verdictChoice struct {
	Value, Sign, Says, Means string
	Here                     bool
}

var keptTasteTemplate = parse[keptTastePage]("keeptaste")

// keptScored are the figures that a pack is keptScored by.
var keptScored = []struct{ key, label, hint string }{
	{"texture", "Texture", "0 grainy, weeping, broken; 10 as on the day"},
	{"flavour", "Flavour", "0 stale, flat, off; 10 as on the day"},
	{"look", "Look", "0 you would not serve it; 10 as on the day"},
}

func (s *server) showKeptTaste(w http.ResponseWriter, r *http.Request) {
	s.ofCold(w, r, func(c cold) func() {
		v := s.keptTasteForm(r, c, c.query)
		status := http.StatusOK
		if _, _, err := coldstore.InHand(c.state, v.Code.Value); err != nil && v.Code.Value != "" {
			v.Problem, status = besideCode(&v.Code, nil, err), http.StatusNotFound
		}
		return func() {
			if v.What == "" {
				v.Due = s.openings(r, c.book, s.stockDay())
			}
			keptTasteTemplate.show(w, status, v)
		}
	})
}

// tastePacks enters what was found in a pack.
func (s *server) tastePacks(w http.ResponseWriter, r *http.Request) {
	if err := r.ParseForm(); err != nil {
		s.refuse(w, r, http.StatusBadRequest, "This form cannot be read.")
		return
	}
	form := r.PostForm
	book, _ := s.house.Book()
	ask := app.TasteAsk{Code: tidy(form.Get("code")), Which: tidy(form.Get("which")), Whole: tidy(form.Get("whole")), Drip: tidy(form.Get("drip")), Separation: tidy(form.Get("separation")), Verdict: tidy(form.Get("verdict")), Note: tidy(form.Get("note")), Units: readerOf(book.Kitchen, r).units}
	for _, x := range keptScored {
		ask.Scores = append(ask.Scores, app.TypedScore{Figure: x.key, Points: tidy(form.Get("score-" + x.key))})
	}
	body, err := s.records.Taste(r.Context(), ask, s.stockDay())
	if err == nil {
		back := coldURL(bestPath, r.URL.Query(), "pack", body.Pack)
		if _, known := book.Packs[kitchen.PackID(body.Pack)]; !known {
			back = coldURL(retainedPath, r.URL.Query())
		}
		s.enter(w, r, back, body)
		return
	}
	if s.sentBefore(w, r, coldURL(retainedPath, r.URL.Query())) {
		return
	}
	s.ofCold(w, r, func(c cold) func() {
		v := s.keptTasteForm(r, c, form)
		all := append(append([]field{{Key: "verdict"}}, v.Fields...), v.Scores...)
		if v.Which != nil {
			all = append(all, *v.Which)
		}
		v.Problem = besideCode(&v.Code, all, err)
		v.VerdictWrong = all[0].Problem
		copy(v.Fields, all[1:])
		copy(v.Scores, all[1+len(v.Fields):])
		if v.Which != nil {
			*v.Which = all[len(all)-1]
		}
		return func() { keptTasteTemplate.show(w, http.StatusUnprocessableEntity, v) }
	})
}

func (s *server) keptTasteForm(r *http.Request, c cold, form url.Values) keptTastePage {
	value := func(key string) string { return tidy(form.Get(key)) }
	v := keptTastePage{shell: s.inShell(r, c.book.Kitchen, "Open and taste", "retained"), Action: coldURL(keptTastePath, c.query), Entry: cmp.Or(form.Get(entryField), newEntryID()), Back: coldURL(retainedPath, c.query), Safety: app.KeepingNotSafety,
		Code: typedField{Key: "code", Label: "Pack", Hint: "Scan it, or type what stands on the bag: P-1201-3#17.", Value: value("code")}}
	read, l, err := coldstore.InHand(c.state, v.Code.Value)
	if err == nil && l.Sort == lots.Packs {
		v.What, v.LotURL = c.whatIs(l), lotURL(lotPath, l.ID, c.query)
		v.Age = "packed " + s.dateText(l.Born) + ", " + weeksWord(int((s.instant()-l.Born)/weekMillis)) + " ago"
	}
	if read.Numbers.Empty() || value("which") != "" {
		v.Which = &field{Key: "which", Label: "Which", Hint: "its number: #17; or of several opened together 17-18", Value: value("which")}
	}
	for _, x := range []verdictChoice{{Value: string(record.StillGood), Says: "Good", Means: "you would sell it today"}, {Value: string(record.Fading), Says: "Fading", Means: "it still eats, and it is no longer what you sell"}, {Value: string(record.Bad), Says: "Bad", Means: "you would not serve it"}} {
		x.Sign, x.Here = tasteSigns[record.Verdict(x.Value)].sign, value("verdict") == x.Value
		v.Verdicts = append(v.Verdicts, x)
	}
	v.Fields = []field{{Key: "whole", Label: "It weighed, net", Hint: "with its unit: 457 g, 1 lb 2 oz; may be empty", Value: value("whole")},
		{Key: "drip", Label: "Ran out of it, thawed", Hint: "in grams: what can be poured off; 0 when nothing; empty when nobody weighed", Value: value("drip"), Number: true},
		{Key: "separation", Label: "Separated", Hint: "in percent of the depth in a glass; may be empty", Value: value("separation"), Number: true},
		{Key: "note", Label: "Note", Hint: "in your own words: grainy, ice in the bag, a loose seal", Value: value("note")}}
	for _, x := range keptScored {
		v.Scores = append(v.Scores, field{Key: "score-" + x.key, Label: x.label, Hint: x.hint, Value: value("score-" + x.key), Number: true})
		v.ScoresOpen = v.ScoresOpen || value("score-"+x.key) != ""
	}
	return v
}

// weekMillis is a week in milliseconds.
const weekMillis = 7 * dayMillis

// giveBack gives packs that were not opened back into the stock.
func (s *server) giveBack(w http.ResponseWriter, r *http.Request) {
	set, err := record.ParseID(r.PostFormValue("set"))
	if err != nil {
		s.refuse(w, r, http.StatusBadRequest, "It is not said which packs: load the page again.")
		return
	}
	said, err := s.records.GiveBack(r.Context(), set, cmp.Or(tidy(r.PostFormValue("why")), "back into the stock, to be sold"))
	if err != nil {
		s.refuse(w, r, http.StatusUnprocessableEntity, sentence(err))
		return
	}
	s.enterSaid(w, r, coldURL(retainedPath, r.URL.Query()), said)
}
