package web

import (
	"cmp"
	"maps"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// trialBatchPage is all that templates/trialmade.html may show: the batch of a variant goes into the freezer.
type trialBatchPage struct {
	shell
	Action       string
	Entry        string
	Corrects     string // the entry that is put right
	Trial        string
	Name, Change string
	Fields       []field
	Need         string
	TrialURL     string
}

var trialBatchTemplate = parse[trialBatchPage]("trialmade")

// correctsField names the entry that a form puts right.
const correctsField = "corrects"

func (s *server) showTrialBatch(w http.ResponseWriter, r *http.Request, o onTrial) {
	s.showBatchForm(w, r, o, o.query, nil, http.StatusOK)
}

// batchProblems are what is wrong with what was typed, by field.
type batchProblems map[string]string

func (s *server) showBatchForm(w http.ResponseWriter, r *http.Request, o onTrial, form url.Values, wrong batchProblems, status int) {
	i := o.t.VariantOf(form.Get("variant"))
	if i < 0 {
		s.missing(w, r, o.book, "The trial has no variant of that name.")
		return
	}
	x := o.t.Laid.Body.Variants[i]
	v := trialBatchPage{shell: s.inShell(r, o.book.Kitchen, "Batch of "+x.Name, "trials"), Action: trialURL(o.t.Name, "made", o.query), Entry: cmp.Or(form.Get(entryField), newEntryID()), Trial: o.t.Name, Name: x.Name, Change: oneLine(string(x.Change)),
		Need: times(len(o.t.Laid.Body.Weeks)*int(o.t.Laid.Body.Packs), "pack is", "packs are") + " to be opened of it.", TrialURL: trialURL(o.t.Name, "", o.query)}
	values := map[string]string{"packs": strconv.Itoa(len(o.t.Laid.Body.Weeks) * int(o.t.Laid.Body.Packs)), "frozen": string(o.today)}
	if m, ok := o.t.Batch(x.Name); ok {
		v.Corrects = m.Entry.String()
		b := m.Body
		values = map[string]string{"mass": b.Mass.String(), "packs": strconv.FormatInt(b.Packs, 10), "each": b.Each.String(), "frozen": string(b.Frozen), "place": string(b.Place), "lot": string(b.Lot), "note": string(b.Note)}
	} else if len(o.t.Made) > 0 { // as the one before
		b := o.t.Made[len(o.t.Made)-1].Body
		values["mass"], values["each"], values["place"], values["frozen"] = b.Mass.String(), b.Each.String(), string(b.Place), string(b.Frozen)
	}
	value := func(key string) string {
		if form.Has(key) {
			return tidy(form.Get(key))
		}
		return values[key]
	}
	hint := "; a number alone is in " + map[unit.System]string{unit.US: "lb", unit.Metric: "kg"}[o.rd.units]
	v.Fields = []field{
		{Key: "mass", Label: "Mass of the batch", Hint: "as weighed, such as 4.2 kg or 9 lb 4 oz" + hint, Value: value("mass"), Problem: wrong["mass"]},
		{Key: "packs", Label: "Packs frozen", Hint: "of this variant", Value: value("packs"), Number: true, Problem: wrong["packs"]},
		{Key: "each", Label: "Each weighs", Hint: "what is in one, such as 450 g" + hint, Value: value("each"), Problem: wrong["each"]},
		{Key: "frozen", Label: "Into the freezer on", Hint: "weeks count from this day; freeze all variants together", Value: value("frozen"), Date: true, Problem: wrong["frozen"]},
		{Key: "place", Label: "Where", Hint: "may be left out", Value: value("place"), Options: placeOptions(o.book, value("place")), Problem: wrong["place"]},
		{Key: "lot", Label: "Lot", Hint: "when it came from a lot of the records; may be left out", Value: value("lot"), Problem: wrong["lot"]},
		{Key: "note", Label: "Note", Hint: "what went otherwise than planned; may be left out", Value: value("note")},
	}
	trialBatchTemplate.show(w, status, v)
}

func placeOptions(book kitchen.Book, here string) []option {
	all := []option{{Value: "", Says: "not said", Here: here == ""}}
	places := book.AllPlaces()
	for _, id := range slices.Sorted(maps.Keys(places)) {
		all = append(all, option{Value: string(id), Says: cmp.Or(places[id].Name, string(id)), Here: string(id) == here})
	}
	return all
}

func (s *server) enterTrialBatch(w http.ResponseWriter, r *http.Request, o onTrial) {
	if err := r.ParseForm(); err != nil {
		s.refuse(w, r, http.StatusBadRequest, "This form cannot be read.")
		return
	}
	form, wrong := r.PostForm, batchProblems{}
	b := record.TrialMade{Trial: o.t.Name, Variant: form.Get("variant"), Place: record.Place(tidy(form.Get("place"))), Lot: record.Lot(tidy(form.Get("lot"))), Frozen: record.Day(tidy(form.Get("frozen"))), Note: record.Text(tidyLines(form.Get("note")))}
	b.Mass = readBatchMass(form, "mass", o.rd, wrong)
	b.Each = readBatchMass(form, "each", o.rd, wrong)
	n, err := strconv.ParseInt(tidy(form.Get("packs")), 10, 32)
	if b.Packs = n; err != nil || n < 1 {
		wrong["packs"] = "Write how many packs went into the freezer."
	}
	switch {
	case trialDay(b.Frozen) == string(b.Frozen):
		wrong["frozen"] = "Write a day, such as " + string(o.today) + "."
	case b.Frozen > o.today:
		wrong["frozen"] = "That day is still to come."
	}
	if wrong["mass"] == "" && wrong["each"] == "" && wrong["packs"] == "" && unit.Mass(b.Packs) > b.Mass/max(b.Each, 1)+1 {
		wrong["each"] = "That is more in packs than there was in the batch: look at the three figures again."
	}
	if len(wrong) > 0 {
		s.showBatchForm(w, r, o, form, wrong, http.StatusUnprocessableEntity)
		return
	}
	s.enterOrCorrect(w, r, trialURL(o.t.Name, "", o.query), form.Get(correctsField), b)
}

// enterOrCorrect enters what a form says, or puts an entry right by it.
func (s *server) enterOrCorrect(w http.ResponseWriter, r *http.Request, back, corrects string, b record.Body) {
	if corrects == "" {
		s.enter(w, r, back, b)
		return
	}
	id, err := record.ParseID(corrects)
	if err != nil {
		s.refuse(w, r, http.StatusBadRequest, "It is not said which entry is to be corrected: load the page again.")
		return
	}
	s.correct(w, r, back, id, b)
}

// readBatchMass reads a mass that must be there; a number alone is in the reader's large unit.
func readBatchMass(form url.Values, key string, rd reader, wrong batchProblems) unit.Mass {
	m, err := readMassIn(form.Get(key), map[unit.System]string{unit.US: " lb", unit.Metric: " kg"}[rd.units])
	switch {
	case err != nil:
		wrong[key] = sentence(err)
	case m <= 0:
		wrong[key] = "Write how much it is."
	}
	return m
}

// readMassIn reads a mass as it is typed; a number alone is in a unit.
func readMassIn(text, bare string) (unit.Mass, error) {
	text = tidy(text)
	if bareNumber.MatchString(text) {
		text = strings.ReplaceAll(text, ",", ".") + bare
	}
	return unit.ParseMass(text)
}
