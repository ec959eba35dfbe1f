package web

import (
	"cmp"
	"errors"
	"maps"
	"net/url"
	"slices"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/draw"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// changeForm asks what has turned out otherwise than planned. Its rows have the same keys in the query, one after the other.
type changeForm struct {
	Action string
	Reset  string // address of the day as planned
	Kept   []kept // what else the query says
	Now    field
	Late   []lateRow
	Gone   []goneRow
	Out    []outRow
	Tasks  []option // of the plan
	Wrong  bool
	Any    bool // something has changed
}

type lateRow struct{ Task, By field }

type goneRow struct {
	Who, From, Back field
}

type outRow struct {
	What, Count, From, Back field
}

// fields are all that the form asks.
func (f changeForm) fields() []field {
	all := []field{f.Now}
	for _, row := range f.Late {
		all = append(all, row.Task, row.By)
	}
	for _, row := range f.Gone {
		all = append(all, row.Who, row.From, row.Back)
	}
	for _, row := range f.Out {
		all = append(all, row.What, row.Count, row.From, row.Back)
	}
	return all
}

// option is one thing that can be chosen.
type option struct {
	Value string
	Says  string
	Here  bool
}

// kept is a part of a query that a form sends along.
type kept struct{ Key, Value string }

// The keys of a change.
var changeKeys = []string{"now", "late", "by", "gone", "gone-from", "gone-back", "out", "out-count", "out-from", "out-back"}

// keep is what a form that asks for some keys itself must send along.
func keep(query url.Values, but ...string) []kept {
	var all []kept
	for _, key := range slices.Sorted(maps.Keys(query)) {
		if !slices.Contains(but, key) {
			for _, value := range query[key] {
				all = append(all, kept{key, value})
			}
		}
	}
	return all
}

// Rows of a form: one more than are filled in, so that there is always room for another.
const (
	leastRows = 2
	mostRows  = 8
)

// changeReader reads the rows of a form and collects what they say.
type changeReader struct {
	day     runDay
	query   url.Values
	changes kitchen.Changes
	form    changeForm
}

// readChanges reads what a query says has changed, and is the form that shows it. What cannot be read stays as it was typed, with what is
// wrong, and the changes are then not to be used.
func readChanges(d runDay, query url.Values) (kitchen.Changes, changeForm) {
	r := &changeReader{day: d, query: query}
	r.form = changeForm{Action: runPath(d.name) + "/day", Kept: keep(query, changeKeys...), Now: nowField(query), Tasks: taskOptions(d.plan)}
	rest := across(query)
	for _, key := range changeKeys {
		rest.Del(key)
	}
	r.form.Reset = r.form.Action + queryOf(rest)
	for i := range r.rows("late", "by") {
		r.late(i)
	}
	for i := range r.rows("gone", "gone-from", "gone-back") {
		r.gone(i)
	}
	for i := range r.rows("out", "out-count", "out-from", "out-back") {
		r.out(i)
	}
	r.form.Any = len(r.changes.Late)+len(r.changes.Gone)+len(r.changes.Out) > 0
	if r.form.Any && d.now == nil && r.form.Now.Problem == "" {
		r.form.Now.Problem = "Write what time it is, such as 11:20: what was to begin before has begun."
	}
	r.check(kitchen.Changes{}, map[string]*field{"now": &r.form.Now})
	r.form.Wrong = wrong(r.form.fields())
	r.changes.Now = r.now()
	return r.changes.FromNow(), r.form
}

// now is the moment that is looked at; 0 when there is none, and then nothing is timed again.
func (r *changeReader) now() unit.Moment {
	if r.day.now == nil {
		return 0
	}
	return *r.day.now
}

// rows is how many rows the form has of some keys.
func (r *changeReader) rows(keys ...string) int {
	filled := 0
	for _, key := range keys {
		for i, value := range r.query[key] {
			if strings.TrimSpace(value) != "" {
				filled = max(filled, i+1)
			}
		}
	}
	return min(mostRows, max(leastRows, filled+1))
}

// ask is a field as the query fills it. Nothing typed is nothing to read.
func (r *changeReader) ask(f field, row int, read func(text string) error) field {
	f.before = row
	if texts := r.query[f.Key]; row < len(texts) {
		f.Value = strings.TrimSpace(texts[row])
	}
	if f.Value != "" {
		if err := read(f.Value); err != nil {
			f.Problem = sentence(err)
		}
	}
	return f
}

// needs is a field that must be filled in when another of its row is.
func needs(f *field, other, what string) {
	if f.Value == "" && other != "" {
		f.Problem = what
	}
}

// check says beside each field what the kitchen has to say about it; the fields are those of one row, by their paths in its change.
func (r *changeReader) check(change kitchen.Changes, fields map[string]*field) {
	change.Now = r.now()
	for _, f := range kitchen.CheckChanges(r.day.book, change, app.Keys(r.day.plan)) {
		if at, asked := fields[f.Path]; asked {
			at.Problem = cmp.Or(at.Problem, sentence(errors.New(f.Message))+" "+sentence(errors.New(f.Fix)))
		}
	}
}

// options are all that a map of the book has, by name, after one for nothing.
func options[K ~string, V any](all map[K]V, here string, name func(V) string) []option {
	var list []option
	for id, v := range all {
		list = append(list, option{Value: string(id), Says: name(v), Here: string(id) == here})
	}
	slices.SortFunc(list, func(a, b option) int { return strings.Compare(a.Says+a.Value, b.Says+b.Value) })
	return append([]option{{}}, list...)
}

// taskOptions are the tasks of a plan, by start.
func taskOptions(p plan.Plan) []option {
	var list []option
	codes := draw.NewCodes(p.Dishes)
	for _, t := range p.Timetable.Tasks {
		says := strings.TrimSpace(codes.Task(t) + " " + inFew(draw.Brief(t)))
		if load := loadOf(t); load != "" {
			says += ", " + load
		}
		list = append(list, option{Value: t.Key, Says: says + ", " + t.Start.String()})
	}
	return list
}

func momentInto(m *unit.Moment) func(string) error {
	return func(text string) (err error) { *m, err = app.Moment(text); return err }
}

// endInto reads when something is there again. Nothing ends at 00:00 of the first day, which would pass for no end at all.
func endInto(m *unit.Moment) func(string) error {
	return func(text string) (err error) {
		if *m, err = app.Moment(text); err == nil && *m == 0 {
			err = errors.New("a run begins at 00:00: write 00:00+1 for the midnight after its first day")
		}
		return err
	}
}

// nowField asks what time it is.
func nowField(query url.Values) field {
	f := field{Key: "now", Label: "What time is it", Hint: "24-hour clock, such as 11:20; the clock's when empty and the run is on", Value: strings.TrimSpace(query.Get("now"))}
	if f.Value != "" {
		if _, err := app.Moment(f.Value); err != nil {
			f.Problem = sentence(err)
		}
	}
	return f
}
