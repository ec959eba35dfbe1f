package web

import (
	"cmp"
	"fmt"
	"net/http"
	"net/url"
	"strconv"
	"strings"

	"kettlefrost/internal/record"
	"kettlefrost/internal/trials"
	"kettlefrost/internal/unit"
)

// trialPackPage is all that templates/trialopen.html may show: a thawed pack is measured. Who measures may taste, so it has no name but its code.
type trialPackPage struct {
	shell
	Action   string
	Entry    string
	Corrects string
	Draft    string // what the browser keeps it under until it is sent
	Trial    string
	Week     string
	WeekKey  string
	Code     string
	Number   string
	Pack     string
	How      []string
	Fields   []field
	Problem  string
	Others   []trialStep
	Shots    []trialShot
	Photo    photoForm
	TrialURL string
}

var trialPackTemplate = parse[trialPackPage]("trialopen")

// packOf is the pack that a form is about.
func (o onTrial) packOf(form url.Values) (variant int, week record.Week, number int64, ok bool) {
	w, err := strconv.ParseInt(form.Get("week"), 10, 32)
	week = record.Week(w)
	number, err2 := strconv.ParseInt(cmp.Or(form.Get("number"), "1"), 10, 32)
	if err != nil || err2 != nil || !o.t.HasWeek(week) || number < 1 || number > o.t.Laid.Body.Packs {
		return 0, 0, 0, false
	}
	for i := range o.t.Laid.Body.Variants {
		if code := o.t.CodeOf(i, week); code != "" && code == form.Get("code") {
			return i, week, number, true
		}
	}
	return 0, 0, 0, false
}

func (s *server) showTrialPack(w http.ResponseWriter, r *http.Request, o onTrial) {
	s.showPackForm(w, r, o, o.query, nil, http.StatusOK)
}

func (s *server) showPackForm(w http.ResponseWriter, r *http.Request, o onTrial, form url.Values, wrong map[string]string, status int) {
	variant, week, number, ok := o.packOf(form)
	if !ok {
		s.missing(w, r, o.book, "The trial has no such pack: choose one from its page.")
		return
	}
	name, code := o.t.Laid.Body.Variants[variant].Name, o.t.CodeOf(variant, week)
	pack := packName(code, number, o.t.Laid.Body.Packs)
	v := trialPackPage{shell: s.inShell(r, o.book.Kitchen, "Measure "+code, "trials"), Action: trialURL(o.t.Name, "open", o.query), Entry: cmp.Or(form.Get(entryField), newEntryID()), Draft: fmt.Sprintf("kettlefrost-pack-%s-%s-%d", o.t.Name, code, number), Trial: o.t.Name, Week: weekText(week), WeekKey: fmt.Sprint(week), Code: code, Number: fmt.Sprint(number),
		Pack: fmt.Sprintf("pack %d of %d", number, o.t.Laid.Body.Packs), Problem: wrong[""], TrialURL: trialURL(o.t.Name, "", o.query) + fmt.Sprintf("#week-%d", week)}
	values := map[string]string{}
	if m, ok := o.t.Batch(name); ok {
		values["whole"] = m.Body.Each.Fine()
	}
	if x, ok := o.t.Pack(name, week, number); ok {
		v.Corrects = x.Entry.String()
		values["whole"], values["note"] = x.Body.Whole.Fine(), string(x.Body.Note)
		if x.Body.Drip != nil {
			values["drip"] = strconv.FormatFloat(decimal(*x.Body.Drip), 'f', -1, 64)
		}
		if x.Body.Separation != nil {
			values["separation"] = strconv.FormatFloat(x.Body.Separation.F()*100, 'f', -1, 64)
		}
	}
	v.Fields, v.How = o.packFields(form, values, wrong)
	for _, x := range o.week(o.opening(week)).Packs {
		if x.Name != pack {
			v.Others = append(v.Others, x)
		}
	}
	for _, p := range o.t.Pictures {
		if p.HasWeek && p.Week == week && p.Variant == name {
			v.Shots = append(v.Shots, viewShot(o.t, p, true))
		}
	}
	v.Photo = photoForm{Action: trialURL(o.t.Name, "picture", o.query), Entry: newEntryID(), Week: v.WeekKey, Code: code, Back: trialURL(o.t.Name, "open", o.query, "week", v.WeekKey, "code", code, "number", v.Number)}
	trialPackTemplate.show(w, status, v)
}

func (o onTrial) opening(week record.Week) trials.Opening {
	for _, x := range o.t.Openings(o.today) {
		if x.Week == week {
			return x
		}
	}
	return trials.Opening{}
}

// packFields are what is measured of a pack, with how it is done.
func (o onTrial) packFields(form url.Values, values, wrong map[string]string) (fields []field, how []string) {
	value := func(key string) string {
		if form.Has(key) {
			return tidy(form.Get(key))
		}
		return values[key]
	}
	fields = append(fields, field{Key: "whole", Label: "The whole pack, thawed", Hint: "without its bag; a number alone is in g", Value: value("whole"), Problem: wrong["whole"]})
	for _, f := range o.t.Laid.Body.Figures {
		switch f.Figure {
		case trials.Drip:
			how = append(how, "Drip: thaw it in the walk-in overnight, tip it into a sieve over a bowl for 10 minutes, and weigh what ran through (common practice). Do every pack alike.")
			fields = append(fields, field{Key: "drip", Label: "What ran out", Hint: "in g; 0 for nothing", Value: value("drip"), Problem: wrong["drip"]})
		case trials.Separation:
			how = append(how, "Separation: let it stand thawed in a straight glass, and read how much of the height is clear liquid (common practice).")
			fields = append(fields, field{Key: "separation", Label: "Separated", Hint: "in % of the height; 0 for nothing", Value: value("separation"), Problem: wrong["separation"]})
		}
	}
	return append(fields, field{Key: "note", Label: "What it looks like", Hint: "smooth, grainy, weeping, curdled …", Value: value("note")}), how
}

func (s *server) enterTrialPack(w http.ResponseWriter, r *http.Request, o onTrial) {
	if err := r.ParseForm(); err != nil {
		s.refuse(w, r, http.StatusBadRequest, "This form cannot be read.")
		return
	}
	form, wrong := r.PostForm, map[string]string{}
	variant, week, number, ok := o.packOf(form)
	if !ok {
		s.missing(w, r, o.book, "The trial has no such pack: choose one from its page.")
		return
	}
	b := record.TrialOpened{Trial: o.t.Name, Variant: o.t.Laid.Body.Variants[variant].Name, Week: week, Number: number, Note: record.Text(tidyLines(form.Get("note")))}
	var err error
	if b.Whole, err = readMassIn(form.Get("whole"), " g"); err != nil || b.Whole <= 0 {
		wrong["whole"] = "Weigh the pack, and write it, such as 452 g."
	}
	readMeasured(&b, form, wrong)
	switch {
	case b.Drip == nil && b.Separation == nil && wrong["drip"] == "" && wrong["separation"] == "":
		wrong[""] = "Nothing was measured: fill in what you have."
	case b.Drip != nil && wrong["whole"] == "" && unit.Mass(*b.Drip)*unit.Milligram > b.Whole:
		wrong["drip"] = "That is more than the whole pack."
	}
	if len(wrong) > 0 {
		s.showPackForm(w, r, o, form, wrong, http.StatusUnprocessableEntity)
		return
	}
	s.enterOrCorrect(w, r, o.afterPack(b), form.Get(correctsField), b)
}

// readMeasured reads what was measured of a pack; what is left out was not.
func readMeasured(b *record.TrialOpened, form url.Values, wrong map[string]string) {
	if text := tidy(form.Get("drip")); text != "" {
		d, ok := readDecimal(text, trials.Grams)
		if b.Drip = &d; !ok || d < 0 {
			wrong["drip"] = "Write grams, such as 12.5; 0 for nothing."
		}
	}
	if text := tidy(form.Get("separation")); text != "" {
		v, err := strconv.ParseFloat(strings.TrimSpace(strings.TrimSuffix(strings.ReplaceAll(text, ",", "."), "%")), 64)
		if err != nil || !(v >= 0 && v <= 100) {
			wrong["separation"] = "Write per cent of the height, from 0 to 100."
			return
		}
		share := unit.ShareOf(v / 100)
		b.Separation = &share
	}
}

// afterPack is where to go on once a pack is measured: to the next of that week, or back to the trial.
func (o onTrial) afterPack(b record.TrialOpened) string {
	for _, l := range o.opening(b.Week).Left {
		if l.Variant == b.Variant && l.Number == b.Number {
			continue
		}
		return trialURL(o.t.Name, "open", o.query, "week", fmt.Sprint(b.Week), "code", o.t.CodeOf(o.t.VariantOf(l.Variant), b.Week), "number", fmt.Sprint(l.Number))
	}
	return trialURL(o.t.Name, "", o.query) + fmt.Sprintf("#week-%d", b.Week)
}
