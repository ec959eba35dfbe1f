package web

import (
	"context"
	"errors"
	"maps"
	"net/http"
	"net/url"
	"slices"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/dispersal"
	"kettlefrost/internal/dosing"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
)

// Places of getting a powder into a dish.
const (
	dispersePath     = "/workshop/disperse"
	disperseJSONPath = "/workshop/disperse.json"
)

// disperser is a house in whose dishes a powder can be got; *app.App is one.
type disperser interface {
	Disperse(context.Context, app.DisperseTyped) (app.Dispersed, error)
	PutIn(ctx context.Context, id record.ID, by app.Author, t app.DisperseTyped, was string) (app.BookEdit, error)
	InRecords() bool
}

// disperseRoutes are how a gum, a starch or an emulsifying salt gets into a dish.
func (s *server) disperseRoutes(mux *http.ServeMux) {
	mux.HandleFunc("GET "+dispersePath, s.showDisperse)
	mux.HandleFunc("GET "+disperseJSONPath, s.showDisperseJSON)
	mux.HandleFunc("POST "+dispersePath, s.entering(s.putIn))
}

// dispersePage is all that templates/disperse.html may show.
type dispersePage struct {
	shell
	Dish    string
	Fields  []field
	In      string // the system of units that was asked for, to be kept
	Problem string
	Fix     string
	Shown   *disperseShown
	Blocked findingsView // what is wrong with the book
}

var disperseTemplate = parse[dispersePage]("disperse")

// disperseWithin is how long a page waits for two plans of one dish.
const disperseWithin = 30 * time.Second

// disperseTyped is what was asked for, by a query or a form.
func disperseTyped(get func(string) string) app.DisperseTyped {
	return app.DisperseTyped{Dish: tidy(get("dish")), Of: tidy(get("of")), Dose: tidy(get(app.DisperseDose)), Way: tidy(get("way")), Into: tidy(get("into")), With: tidy(get("with")), Run: tidy(get(app.DisperseRun))}
}

// settledIn fills in the first dish and the first powder where nothing was asked for.
func settledIn(book kitchen.Book, t app.DisperseTyped) app.DisperseTyped {
	if t.Dish == "" {
		for _, id := range slices.Sorted(maps.Keys(book.Dishes)) {
			if in, _ := dispersal.Powders(book, id); t.Dish == "" || len(in) > 0 {
				t.Dish = string(id)
				if len(in) > 0 {
					break
				}
			}
		}
	}
	if t.Of == "" {
		if in, others := dispersal.Powders(book, kitchen.DishID(t.Dish)); len(in)+len(others) > 0 {
			t.Of = string(append(in, others...)[0])
		}
	}
	return t
}

func (s *server) showDisperse(w http.ResponseWriter, r *http.Request) {
	s.disperse(w, r, http.StatusOK, disperseTyped(r.URL.Query().Get), "")
}

// disperse shows what was asked for, with what kept an entry out.
func (s *server) disperse(w http.ResponseWriter, r *http.Request, status int, t app.DisperseTyped, problem string) {
	book, found := s.house.Book()
	query := r.URL.Query()
	t = settledIn(book, t)
	rd := readerOf(book.Kitchen, r)
	v := dispersePage{shell: s.inShell(r, book.Kitchen, "Getting it in without lumps", "disperse"), Dish: t.Dish, In: query.Get("units"), Problem: problem}
	v.Fields = disperseFields(book, t)
	house, can := s.house.(disperser)
	switch {
	case found.Worst() == finding.Stop:
		v.Blocked = viewFindings(found)
	case !can || len(book.Dishes) == 0:
		v.Problem = "There is no dish here to get anything into."
	default:
		ctx, stop := context.WithTimeout(r.Context(), disperseWithin)
		defer stop()
		d, err := house.Disperse(ctx, t)
		if err != nil {
			v.wrong(err, t)
			break
		}
		v.Shown = disperseView(d, t, rd, house.InRecords(), coldURL(disperseJSONPath, query, disperseParts(t)...))
	}
	if v.Problem != "" && status == http.StatusOK && v.Shown == nil && t.Dose != "" {
		status = http.StatusUnprocessableEntity
	}
	disperseTemplate.show(w, status, v)
}

// wrong puts what cannot be done where it can be mended.
func (v *dispersePage) wrong(err error, t app.DisperseTyped) {
	if wrong, ok := errors.AsType[*dispersal.InputError](err); ok {
		v.Problem, v.Fix = capital(wrong.What+" "+wrong.Reason)+".", capital(wrong.Fix)+"."
		return
	}
	if wrong, ok := errors.AsType[*dosing.InputError](err); ok {
		v.Problem, v.Fix = capital(wrong.What+" "+wrong.Reason)+".", capital(wrong.Fix)+"."
		return
	}
	v.Problem = sentence(err)
}

// disperseParts are the parts of an address that ask for the same.
func disperseParts(t app.DisperseTyped) []string {
	var pairs []string
	for _, x := range [][2]string{{"dish", t.Dish}, {"of", t.Of}, {app.DisperseDose, t.Dose}, {"way", t.Way}, {"into", t.Into}, {"with", t.With}, {app.DisperseRun, t.Run}} {
		if x[1] != "" {
			pairs = append(pairs, x[0], x[1])
		}
	}
	return pairs
}

func disperseQuery(t app.DisperseTyped) url.Values {
	q := url.Values{}
	pairs := disperseParts(t)
	for i := 0; i+1 < len(pairs); i += 2 {
		q.Set(pairs[i], pairs[i+1])
	}
	return q
}

// disperseFields is the form.
func disperseFields(book kitchen.Book, t app.DisperseTyped) []field {
	dishes := field{Key: "dish", Label: "Dish", Hint: "that it is to go into", Value: t.Dish}
	for _, id := range slices.Sorted(maps.Keys(book.Dishes)) {
		dishes.Options = append(dishes.Options, option{string(id), capital(book.Dishes[id].Name), string(id) == t.Dish})
	}
	of := field{Key: "of", Label: "What", Hint: "gums, starches and emulsifying salts of the book", Value: t.Of}
	in, others := dispersal.Powders(book, kitchen.DishID(t.Dish))
	for _, id := range in {
		of.Options = append(of.Options, option{string(id), capital(book.Ingredients[id].Name) + ", in the dish", string(id) == t.Of})
	}
	for _, id := range others {
		of.Options = append(of.Options, option{string(id), capital(book.Ingredients[id].Name), string(id) == t.Of})
	}
	way := field{Key: "way", Label: "How", Hint: "what the dish and the kitchen have for it decides", Value: t.Way, Options: []option{{"", "The best that can be done", t.Way == ""}}}
	for _, x := range []dosing.Way{dosing.PreHydrate, dosing.OilSlurry, dosing.DryBlend, dosing.ColdSlurry, dosing.Dissolve} {
		way.Options = append(way.Options, option{string(x), capital(dispersal.WayWords(x)), string(x) == t.Way})
	}
	into := field{Key: "into", Label: "Into step", Hint: "the pot that takes it", Value: t.Into, Options: []option{{"", "Where it is, or most liquid", t.Into == ""}}}
	for _, x := range book.Dishes[kitchen.DishID(t.Dish)].Steps {
		into.Options = append(into.Options, option{x.ID, x.ID, x.ID == t.Into})
	}
	run := field{Key: app.DisperseRun, Label: "Planned in", Hint: "to see what it does to a day", Value: t.Run, Options: []option{{"", "The dish alone, as it is written", t.Run == ""}}}
	for _, x := range slices.Sorted(maps.Keys(book.Runs)) {
		run.Options = append(run.Options, option{x, x, x == t.Run})
	}
	return []field{dishes, of, {Key: app.DisperseDose, Label: "How much", Hint: "22 g, 0.2 %, 0.5 g per cup; empty: what the dish has", Value: t.Dose}, way, into, run}
}

func (s *server) showDisperseJSON(w http.ResponseWriter, r *http.Request) {
	book, _ := s.house.Book()
	house, can := s.house.(disperser)
	if !can {
		writeJSON(w, http.StatusNotFound, refusal{Error: "there is no dish here to get anything into"})
		return
	}
	ctx, stop := context.WithTimeout(r.Context(), disperseWithin)
	defer stop()
	d, err := house.Disperse(ctx, settledIn(book, disperseTyped(r.URL.Query().Get)))
	if err != nil {
		writeJSON(w, http.StatusUnprocessableEntity, refusal{Error: err.Error()})
		return
	}
	writeJSON(w, http.StatusOK, d.View())
}

// putIn puts what was shown into the dish of the book.
func (s *server) putIn(w http.ResponseWriter, r *http.Request) {
	t := disperseTyped(r.PostFormValue)
	house, can := s.house.(disperser)
	if !can || !house.InRecords() {
		s.disperse(w, r, http.StatusConflict, t, "The book is a folder, which these pages do not write: write the lines below into its files.")
		return
	}
	by, ok := s.sender(w, r)
	if !ok {
		return
	}
	_, err := house.PutIn(r.Context(), by.ID, app.Author{Who: by.Who, Device: by.Device, At: by.At}, t, r.PostFormValue("was"))
	if changed := (*app.DishChangedError)(nil); errors.As(err, &changed) {
		s.disperse(w, r, http.StatusConflict, t, sentence(err))
		return
	}
	if err != nil {
		s.disperse(w, r, http.StatusUnprocessableEntity, t, s.bookTrouble(err))
		return
	}
	back := app.DisperseTyped{Dish: t.Dish, Of: t.Of}
	http.Redirect(w, r, withDid(coldURL(dispersePath, r.URL.Query(), disperseParts(back)...), by.ID.String()), http.StatusSeeOther)
}
