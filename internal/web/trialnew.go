package web

import (
	"cmp"
	"errors"
	"fmt"
	"maps"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
	"kettlefrost/internal/trials"
)

// newTrialPage is all that templates/trialnew.html may show: a trial is laid out.
type newTrialPage struct {
	shell
	Entry    string
	Problem  string
	Top      []field
	Variants []variantRow
	Wrong    []string // of the variants together
	Figures  []figureRow
	FigWrong []string
	Tasters  linesField
	Rest     []field
	Look     *trialLook
}

// variantRow is a variant that is being written.
type variantRow struct {
	N            int
	Name, Change string
	Base         bool
	Problem      string
}

// figureRow is a figure that is being chosen.
type figureRow struct {
	N       int
	Name    string
	Own     bool // its name is typed
	Hint    string
	On      bool
	Matters string
	Bound   string
	Scatter string
	Unit    string
	BoundIs string // "at most", "at least"
	Problem string
}

// linesField is a text of several lines.
type linesField struct{ Key, Label, Hint, Value, Problem string }

// trialLook is what the trial would come to.
type trialLook struct {
	Packs    string
	PerBatch string
	Chances  []string
	Balanced string
}

var newTrialTemplate = parse[newTrialPage]("trialnew")

const (
	variantRows = 5
	ownFigures  = 2
)

func (s *server) showNewTrial(w http.ResponseWriter, r *http.Request) {
	if s.records == nil {
		s.refuse(w, r, http.StatusConflict, "No records are kept here, so there are no trials. Start with kettlefrost serve --records kitchen.records.")
		return
	}
	form := r.URL.Query()
	if !form.Has("variant") {
		s.usualTrial(form)
	}
	newTrialTemplate.show(w, http.StatusOK, s.newTrialForm(r, form, readTrial(form), nil))
}

// usualTrial fills the form with what is usual: to be changed.
func (s *server) usualTrial(form url.Values) {
	book, _ := s.house.Book()
	form["variant"], form["change"] = []string{"as it is"}, []string{"as in the book"}
	form.Set("base", "0")
	for i, f := range knownFigures {
		form.Add("on", strconv.Itoa(i))
		form.Set(fmt.Sprintf("matters.%d", i), f.matters)
		form.Set(fmt.Sprintf("bound.%d", i), f.bound)
	}
	var names []string
	for _, id := range slices.Sorted(maps.Keys(book.People)) {
		names = append(names, book.People[id].Name)
	}
	form.Set("tasters", strings.Join(names, "\n"))
	form.Set("weeks", "1, 4, 8, 12")
	form.Set("packs", "1")
}

// layTrial shows what a trial would come to, or enters it.
func (s *server) layTrial(w http.ResponseWriter, r *http.Request) {
	if err := r.ParseForm(); err != nil {
		s.refuse(w, r, http.StatusBadRequest, "This form cannot be read.")
		return
	}
	typed := readTrial(r.PostForm)
	problems := append(typed.problems, trials.Check(typed.laid)...)
	if len(problems) > 0 || r.PostForm.Get("do") != "lay" {
		status := http.StatusOK
		if len(problems) > 0 {
			status = http.StatusUnprocessableEntity
		}
		newTrialTemplate.show(w, status, s.newTrialForm(r, r.PostForm, typed, problems))
		return
	}
	by, ok := s.sender(w, r)
	if !ok {
		return
	}
	laid, err := s.records.LayTrial(r.Context(), by, typed.laid)
	wrong := (*app.TrialError)(nil)
	switch {
	case errors.As(err, &wrong):
		newTrialTemplate.show(w, http.StatusUnprocessableEntity, s.newTrialForm(r, r.PostForm, typed, wrong.Problems))
	case err != nil:
		status, text := trouble(err)
		s.refuse(w, r, status, text)
	default:
		http.Redirect(w, r, withDid(trialURL(laid.Trial, "", r.URL.Query()), by.ID.String()+"-1"), http.StatusSeeOther)
	}
}

func (s *server) newTrialForm(r *http.Request, form url.Values, typed typedTrial, problems []trials.Problem) newTrialPage {
	book, _ := s.house.Book()
	said := func(field string) string {
		for _, p := range problems {
			if p.Field == field {
				return capital(strings.TrimSpace(p.Problem + ": " + p.Fix + "."))
			}
		}
		return ""
	}
	v := newTrialPage{shell: s.inShell(r, book.Kitchen, "Lay a trial out", "trials"), Entry: cmp.Or(form.Get(entryField), newEntryID())}
	v.Top = []field{
		{Key: "dish", Label: "Dish", Hint: "which is made otherwise", Value: form.Get("dish"), Options: dishOptions(book, form.Get("dish")), Problem: said("dish")},
		{Key: "asks", Label: "What is it to settle?", Hint: "such as: does a little gum keep it from weeping for three months?", Value: tidyLines(form.Get("asks")), Problem: said("asks")},
		{Key: "pack", Label: "Packed as", Hint: "the pack whose best-before it may support; may be left out", Value: form.Get("pack"), Options: packOptions(book, form.Get("pack")), Problem: said("pack")},
	}
	for i := range variantRows {
		row := variantRow{N: i, Name: nth(form["variant"], i), Change: nth(form["change"], i), Base: form.Get("base") == strconv.Itoa(i)}
		if at := slices.Index(typed.variantRows, i); at >= 0 {
			row.Problem = said(fmt.Sprintf("variants[%d]", at))
		}
		v.Variants = append(v.Variants, row)
	}
	if text := said("variants"); text != "" {
		v.Wrong = append(v.Wrong, text)
	}
	v.Figures = figureRows(form, typed, said)
	if text := said("figures"); text != "" {
		v.FigWrong = append(v.FigWrong, text)
	}
	v.Tasters = linesField{Key: "tasters", Label: "Who tastes", Hint: "one on a line; each tastes every variant in every week, from codes", Value: tidyLines(form.Get("tasters")), Problem: said("tasters")}
	v.Rest = []field{
		{Key: "weeks", Label: "Opened after how many weeks", Hint: "0 is the day it is frozen; the last is as far as anybody will know", Value: tidy(form.Get("weeks")), Problem: said("weeks")},
		{Key: "packs", Label: "Packs of each variant each week", Hint: "each is measured by itself", Value: tidy(form.Get("packs")), Number: true, Problem: said("packs")},
		{Key: "trial", Label: "Its name", Hint: "for good; left out, it is made of the dish and the month", Value: tidy(form.Get("trial")), Problem: said("trial")},
		{Key: "note", Label: "Note", Hint: "may be left out", Value: tidyLines(form.Get("note"))},
	}
	if len(problems) == 0 && r.Method == http.MethodPost {
		v.Look = s.lookAhead(r, typed)
	}
	if len(problems) > 0 {
		v.Problem = "Nothing was entered yet: " + times(len(problems), "thing is", "things are") + " to be put right."
	}
	return v
}

// lookAhead is how many packs a trial takes, and what it can find out.
func (s *server) lookAhead(r *http.Request, typed typedTrial) *trialLook {
	earlier, _, err := s.records.Trials(r.Context())
	if err != nil {
		return nil
	}
	chances, err := trials.Chances(typed.laid, func(f record.Figured) trials.Scatter {
		if sd, ok := typed.scatter[f.Figure]; ok {
			return trials.Scatter{Figure: f.Figure, SD: sd}
		}
		return trials.ScatterOf(f, earlier)
	})
	if err != nil {
		return nil
	}
	b := typed.laid
	per := len(b.Weeks) * int(b.Packs)
	l := &trialLook{Packs: times(per*len(b.Variants), "pack", "packs"), PerBatch: fmt.Sprintf("%d of each variant", per)}
	for _, c := range chances {
		l.Chances = append(l.Chances, capital(c.Figure.Figure)+": "+c.Text()+".")
	}
	if layout, err := trials.Lay(b); err == nil && !layout.Balanced {
		l.Balanced = fmt.Sprintf("The order of tasting is balanced best when tasters times weeks are a multiple of %d.", layout.Rows)
	}
	return l
}

func dishOptions(book kitchen.Book, here string) []option {
	all := []option{{Value: "", Says: "choose", Here: here == ""}}
	for _, id := range slices.Sorted(maps.Keys(book.Dishes)) {
		all = append(all, option{Value: string(id), Says: cmp.Or(book.Dishes[id].Name, string(id)), Here: string(id) == here})
	}
	return all
}

func packOptions(book kitchen.Book, here string) []option {
	all := []option{{Value: "", Says: "not said", Here: here == ""}}
	for _, id := range slices.Sorted(maps.Keys(book.Packs)) {
		all = append(all, option{Value: string(id), Says: cmp.Or(book.Packs[id].Name, string(id)), Here: string(id) == here})
	}
	return all
}
