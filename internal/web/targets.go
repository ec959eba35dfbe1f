package web

import (
	"fmt"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/roster"
)

// field is one thing about a run that a cook can change on its page.
type field struct {
	Key     string // of the query
	Label   string
	Hint    string
	Value   string   // as typed, or as the book has it
	Problem string   // what is wrong with Value
	Number  bool     // digits are enough
	Date    bool     // chosen from a calendar, unless what was typed is no date
	Options []option // to choose from; none: it is typed
	before  int      // fields with the same key that stand before it
}

// ID is fit for an id attribute, and differs from those of the other fields.
func (f field) ID() string {
	id := "f-" + strings.ReplaceAll(f.Key, ".", "-")
	if f.before > 0 {
		id += "-" + strconv.Itoa(f.before+1)
	}
	return id
}

// mostPacks is far beyond what a kitchen of five can fill in a day.
const mostPacks = 100_000

// retarget is a run with the targets that a query asks for instead of the book's, and the form that shows them. What cannot be
// read stays as it was typed, with what is wrong; the run is then not to be planned (see wrong).
func retarget(book kitchen.Book, run kitchen.Request, query url.Values) (kitchen.Request, []field) {
	run.Want = slices.Clone(run.Want)
	var fields []field
	seen := map[string]int{}
	ask := func(f field, read func(text string) error) {
		f.before = seen[f.Key]
		if texts := query[f.Key]; f.before < len(texts) {
			f.Value = texts[f.before]
			if err := read(f.Value); err != nil {
				f.Problem = sentence(err)
			}
		}
		seen[f.Key]++
		fields = append(fields, f)
	}
	for i := range run.Want {
		w := &run.Want[i]
		switch {
		case w.Pack != "":
			name := string(w.Pack)
			if p := book.Packs[w.Pack]; p.Name != "" {
				name = p.Name
			}
			ask(field{Key: "count." + string(w.Pack), Label: name, Hint: "packs", Value: strconv.Itoa(w.Count), Number: true},
				func(text string) (err error) { w.Count, err = readCount(text); return err })
		case w.Use != nil:
			use := *w.Use
			w.Use = &use
			ask(field{Key: "use." + string(use.Of), Label: "Use up: " + ingredientName(book, use.Of), Hint: "as purchased, such as 20 lb or 9 kg", Value: use.Amount.String()},
				func(text string) (err error) { use.Amount, err = readMore(text); return err })
		}
	}
	ask(field{Key: "finish", Label: "Everything sealed by", Hint: "24-hour clock, such as 18:30; empty for no limit", Value: clockOrNone(run.Finish)},
		func(text string) (err error) { run.Finish, err = readFinish(text); return err })
	ask(field{Key: "reserve", Label: "Buy beyond the need", Hint: "such as 3 %; empty for none", Value: shareOrNone(run.Reserve)},
		func(text string) (err error) { run.Reserve, err = readReserve(text); return err })
	booked := run.Day
	ask(field{Key: dayKey, Label: "Day", Hint: "on which it begins; empty: today", Value: run.Day, Date: true},
		func(text string) (err error) { run.Day, err = readRunDay(text); return err })
	if run.Day != booked && !query.Has(todayKey) {
		run.Today = "" // that was for the other day
	}
	if run.Day != "" {
		ask(todayField(run), func(text string) (err error) { run.Today, err = readToday(text, run.Day); return err })
	}
	aims := run.Aims
	run.Aims = nil
	for i := range max(leastAims, len(aims)) {
		ask(aimField(aims, i), func(string) error { return nil })
		last := &fields[len(fields)-1]
		last.Options = aimOptions(last.Value, i > 0)
		run.Aims = withAim(run.Aims, last)
	}
	if len(aims) == 0 && slices.Equal(run.Aims, []kitchen.Aim{kitchen.Finish}) {
		run.Aims = nil // as it is when the book says nothing
	}
	return run, fields
}

const todayKey = "today"

// todayField asks when the orders go out.
func todayField(run kitchen.Request) field {
	return field{Key: todayKey, Label: "The orders go out on", Hint: "who cannot deliver by " + run.Day + " is then left out; empty: any day", Value: run.Today, Date: true}
}

// leastAims is how many aims can be chosen at least, one after another.
const leastAims = 2

// aimField asks for one aim after another.
func aimField(aims []kitchen.Aim, i int) field {
	f := field{Key: "aim", Label: "And then", Hint: "among days that are as good at that"}
	if i == 0 {
		f.Label, f.Hint, f.Value = "What the day should be good at", "above all", string(kitchen.Finish)
	}
	if i < len(aims) {
		f.Value = string(aims[i])
	}
	return f
}

func aimOptions(here string, none bool) []option {
	var list []option
	if none {
		list = append(list, option{Says: "nothing more", Here: here == ""})
	}
	aims := kitchen.PlanningAims()
	if here == string(kitchen.LeastChange) { // the book has it
		aims = append(aims, kitchen.LeastChange)
	}
	for _, a := range aims {
		list = append(list, option{Value: string(a), Says: roster.AimName(a), Here: string(a) == here})
	}
	return list
}

// withAim adds the aim that a field says, unless it is there already.
func withAim(aims []kitchen.Aim, f *field) []kitchen.Aim {
	a := kitchen.Aim(f.Value)
	switch {
	case f.Value == "" || slices.Contains(aims, a):
		return aims
	case a != kitchen.LeastChange && !slices.Contains(kitchen.PlanningAims(), a):
		f.Problem = fmt.Sprintf("A day cannot be good at %q: choose from the list.", shorten(f.Value))
		return aims
	}
	return append(aims, a)
}

// wrong says whether a field cannot be read.
func wrong(fields []field) bool {
	return slices.ContainsFunc(fields, func(f field) bool { return f.Problem != "" })
}

func ingredientName(book kitchen.Book, id kitchen.IngredientID) string {
	if n := book.Ingredients[id].Name; n != "" {
		return n
	}
	return string(id)
}

// shorten keeps a message on its line, whatever was typed.
func shorten(text string) string {
	if r := []rune(text); len(r) > 40 {
		return string(r[:39]) + "…"
	}
	return text
}

// sentence is an error as a sentence on a page.
func sentence(err error) string {
	text := err.Error()
	text = strings.ToUpper(text[:min(1, len(text))]) + text[min(1, len(text)):]
	if strings.HasSuffix(text, "?") {
		return text
	}
	return text + "."
}

// fixed says in words what a run wants that has no field.
func fixed(book kitchen.Book, run kitchen.Request) []string {
	var lines []string
	for _, w := range run.Want {
		dish := string(w.Dish)
		if d := book.Dishes[w.Dish]; d.Name != "" {
			dish = d.Name
		}
		switch {
		case w.Most:
			lines = append(lines, "As much "+dish+" as the kitchen's limits allow")
		case w.Vessel != "":
			vessel := string(w.Vessel)
			if e := book.Equipment[w.Vessel]; e.Name != "" {
				vessel = e.Name
			}
			lines = append(lines, "One filling of "+vessel+" with "+dish)
		}
	}
	return lines
}
