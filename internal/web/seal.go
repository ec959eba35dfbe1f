package web

import (
	"fmt"
	"maps"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// sealPage is all that templates/seal.html may show: the sealing table, where weights come in and counts come out at once.
type sealPage struct {
	runHead
	JSON     string
	Form     sealForm
	Grave    []reminder // of the plan
	Findings findingsView
	Packs    []sealPackView
	Outputs  []sealOutputView
	Uses     []string // for what is left over
	Chosen   string   // by what, and how sure
	Rejected []string
	Worth    string
	Care     bool
}

// sealForm asks for what was weighed.
type sealForm struct {
	Action string
	Reset  string // address with nothing weighed
	Kept   []kept
	Fields []field
	Limits []field // of each pack: at least, at most
	Open   bool    // a limit was asked for
	Wrong  bool
}

type sealPackView struct {
	Name    string
	Weigh   string // address of its check-weights
	Count   int
	Fill    figure
	Each    []partView
	Bag     string
	Shares  []string // how solids and sauce are shared out
	Facts   []string // ordered, planned, in the freezer
	Planned []string // what the plan says of it: range, time
	Stops   string
	Grave   bool // fewer than are ordered
}

type sealOutputView struct {
	Name    string
	There   figure
	How     string // weighed, or as planned
	Used    figure
	Left    figure
	Becomes string
}

var leftWords = map[string]string{string(kitchen.NextRun): "keep it for the next run", string(kitchen.Crew): "the crew eats it", string(kitchen.Discard): "throw it away"}

// weighedKey is the key of an output's weight in a query.
func weighedKey(d kitchen.DishID, o kitchen.OutputID) string {
	return "w." + string(d) + "." + string(o)
}

// readWeighed reads the weights of a query, and is the fields that show them.
func readWeighed(a asked, query url.Values, s plan.Sealing, rd reader) ([]kitchen.Weighed, []field) {
	var weighed []kitchen.Weighed
	var fields []field
	for _, o := range s.Outputs {
		f := field{Key: weighedKey(kitchen.DishID(o.Dish), kitchen.OutputID(o.ID)), Label: strings.ToUpper(o.Name[:min(1, len(o.Name))]) + o.Name[min(1, len(o.Name)):]}
		f.Hint = "planned " + rd.fig(o.Planned).First + "; lb, kg or gal"
		f.Value = strings.TrimSpace(query.Get(f.Key))
		if f.Value != "" {
			amount, err := kitchen.ParseWeight(f.Value)
			w := kitchen.Weighed{Dish: kitchen.DishID(o.Dish), Output: kitchen.OutputID(o.ID), Amount: amount}
			if err == nil {
				_, found := kitchen.CheckWeighed(a.book, []kitchen.Weighed{w}, a.run.Dishes(a.book))
				if len(found) > 0 {
					err = fmt.Errorf("%s: %s", found[0].Message, found[0].Fix)
				}
			}
			if err != nil {
				f.Problem = sentence(err)
			} else {
				weighed = append(weighed, w)
			}
		}
		fields = append(fields, f)
	}
	return weighed, fields
}

// readLimits reads how many of each pack there should be at least and at most, in place of the run's own.
func readLimits(a asked, query url.Values, s plan.Sealing) (kitchen.Request, []field, bool) {
	run, open := a.run, false
	var fields []field
	for _, l := range []struct {
		key, label string
		of         *map[kitchen.PackID]int
	}{{"least", "at least", &run.AtLeast}, {"most", "at most", &run.AtMost}} {
		*l.of = maps.Clone(*l.of)
		if *l.of == nil {
			*l.of = map[kitchen.PackID]int{}
		}
		for _, x := range s.Packs {
			id := kitchen.PackID(x.Pack)
			f := field{Key: l.key + "." + x.Pack, Label: x.Name + ", " + l.label, Hint: "packs; empty for no limit", Number: true}
			if n, given := (*l.of)[id]; given {
				f.Value = fmt.Sprint(n)
			}
			if query.Has(f.Key) {
				f.Value, open = tidy(query.Get(f.Key)), open || query.Get(f.Key) != ""
				delete(*l.of, id)
			}
			if n, err := strconv.Atoi(f.Value); err == nil && n >= 0 && n <= 1_000_000 {
				(*l.of)[id] = n
			} else if f.Value != "" {
				f.Problem = "Write how many packs, such as 40."
			}
			fields = append(fields, f)
		}
	}
	for i := range fields {
		pack, most := strings.CutPrefix(fields[i].Key, "most.")
		id := kitchen.PackID(pack)
		if n, limited := run.AtMost[id]; most && limited && run.AtLeast[id] > n {
			fields[i].Problem = fmt.Sprintf("That is less than the %d there should be at least.", run.AtLeast[id])
		}
	}
	return run, fields, open
}

// sealing is the answer to a query, with the form that asks for it.
func (s *server) sealing(r *http.Request, a asked) (plan.Sealing, sealForm) {
	query := r.URL.Query()
	rd := readerOf(a.book.Kitchen, r)
	planned := s.house.Seal(r.Context(), a.book, a.run, nil)
	weighed, fields := readWeighed(a, query, planned, rd)
	run, limits, open := readLimits(a, query, planned)
	a.run = run
	form := sealForm{Action: runPath(a.name) + "/seal", Fields: fields, Limits: limits, Open: open, Wrong: wrong(fields) || wrong(limits)}
	var keys []string
	for _, f := range slices.Concat(fields, limits) {
		keys = append(keys, f.Key)
	}
	form.Kept = keep(query, keys...)
	rest := across(query)
	for _, key := range keys {
		rest.Del(key)
	}
	form.Reset = form.Action + queryOf(rest)
	if form.Wrong || len(weighed) == 0 && !open {
		return planned, form
	}
	return s.house.Seal(r.Context(), a.book, a.run, weighed), form
}

func (s *server) showSeal(w http.ResponseWriter, r *http.Request, d runDay, head runHead) {
	answer, form := s.sealing(r, d.asked)
	status := http.StatusOK
	if form.Wrong {
		status = http.StatusUnprocessableEntity
	}
	sealTemplate.show(w, status, viewSeal(r, d, answer, form, head))
}

// showSealJSON answers with the same as data.
func (s *server) showSealJSON(w http.ResponseWriter, r *http.Request) {
	a, ok := s.askJSON(w, r, r.PathValue("name"))
	if !ok {
		return
	}
	answer, form := s.sealing(r, a)
	if form.Wrong {
		writeJSON(w, http.StatusUnprocessableEntity, refusal{Error: "what was weighed cannot be read", Fields: badFields(form.Fields)})
		return
	}
	writeJSON(w, http.StatusOK, answer)
}

func viewSeal(r *http.Request, d runDay, s plan.Sealing, form sealForm, head runHead) sealPage {
	query := r.URL.Query()
	rd := readerOf(d.book.Kitchen, r)
	v := sealPage{runHead: head, JSON: runPath(d.name) + "/seal.json" + queryOf(query), Form: form, Grave: graveFor(d.plan, atSeal),
		Findings: viewFindings(s.Findings), Chosen: "Chosen by " + strings.Join(s.Goals, ", then ") + "; " + s.Proof + ".", Rejected: s.Rejected, Worth: rd.money(s.Worth), Care: asksForVacuum(d.plan)}
	for _, x := range s.Packs {
		pack := viewSealPack(x, rd)
		pack.Planned = plannedOf(d.plan, x.Pack, rd)
		v.Packs = append(v.Packs, pack)
	}
	for _, u := range s.Uses {
		v.Uses = append(v.Uses, useWords(u, rd))
	}
	for _, o := range s.Outputs {
		how := "as planned"
		if o.Weighed {
			how = "weighed"
		}
		v.Outputs = append(v.Outputs, sealOutputView{Name: o.Name, There: rd.fig(o.There), How: how, Used: rd.fig(o.Used), Left: rd.mass(o.Left), Becomes: leftWords[o.Becomes]})
	}
	return v
}

// useWords is one use of what is left over.
func useWords(u plan.SealUse, rd reader) string {
	first := rd.fig(u.Takes[0].Target).First
	switch u.Use {
	case plan.UseMore:
		if len(u.Wants) == 0 {
			return fmt.Sprintf("%d more of %s, for %s", u.Count, u.Name, rd.money(u.Brings))
		}
		return fmt.Sprintf("%d more of %s, for %s, if these are found: %s", u.Count, u.Name, rd.money(u.Brings), strings.Join(u.Wants, ", "))
	case plan.UseSmaller:
		if n := u.Takes[0].Pieces; n > 0 {
			first = times(n, "piece", "pieces") + ", " + first
		}
		return fmt.Sprintf("One smaller pack of %s, %s, in the bag of %s, with its own weight on its label, for about %s", u.Takes[0].Name, first, u.Name, rd.money(u.Brings))
	case plan.UseNextRun:
		return fmt.Sprintf("%s of %s for the next run: chilled, dated and used first", first, u.Name)
	case plan.UseCrew:
		return fmt.Sprintf("%s of %s for the crew", first, u.Name)
	}
	return fmt.Sprintf("%s of %s thrown away", first, u.Name)
}

// overfilled is what to fill to beyond the label.
func overfilled(net, over unit.Mass) string {
	return fmt.Sprintf("%s net on average, %s over the label", net.Fine(), over.Fine())
}

func viewSealPack(x plan.SealPack, rd reader) sealPackView {
	v := sealPackView{Name: x.Name, Weigh: fillingURL(kitchen.PackID(x.Pack)), Count: x.Count, Fill: rd.fig(x.Target), Bag: x.Bag, Stops: x.Stops, Grave: x.Short > 0}
	for _, e := range x.Each {
		part := partView{Name: e.Name, Mass: rd.fig(e.Target)}
		if e.Target > e.Label {
			part.Mass = figure{First: e.Target.Fine()}
		}
		if e.Pieces > 0 {
			part.Pieces = fmt.Sprint(e.Pieces)
		}
		v.Each = append(v.Each, part)
	}
	if x.Given > 0 {
		v.Fill = figure{First: overfilled(x.Target, x.Given)}
	}
	for _, f := range x.Portions {
		v.Shares = append(v.Shares, fmt.Sprintf("%d with %s of solids and %s of sauce", f.Count, rd.fig(f.Solids).First, rd.fig(f.Sauce).First))
	}
	if x.Ordered > 0 {
		v.Facts = append(v.Facts, fmt.Sprintf("%d ordered", x.Ordered))
	}
	if x.Planned != x.Count {
		v.Facts = append(v.Facts, fmt.Sprintf("%d planned", x.Planned))
	}
	v.Facts = append(v.Facts, fmt.Sprintf("%d in the freezer then", x.After))
	if x.Keep > 0 {
		v.Facts[len(v.Facts)-1] += fmt.Sprintf(", at least %d wanted", x.Keep)
	}
	v.Facts = slices.Clip(v.Facts)
	return v
}
