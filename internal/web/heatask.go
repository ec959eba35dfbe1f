package web

import (
	"net/url"
	"slices"
	"strings"

	"kettlefrost/internal/heatcase"
	"kettlefrost/internal/unit"
)

// heatQuestion is what a query asks, as it was typed and as it was understood.
type heatQuestion struct {
	units    unit.System
	texts    map[string]string // by key, without those that are empty
	kind     heatcase.Kind
	asked    heatcase.Case
	problems []heatProblem
}

// heatProblem is what is wrong with what stands at a key; no key is the whole question.
type heatProblem struct{ key, text string }

// Names in the form that are no keys of a case.
const (
	wasKey   = "was"   // the whole form as it was shown, to see what the cook has changed since
	shapeKey = "shape" // the kind of shape; its sizes stand at their own key
	slideKey = "slide" // where the slider stands
)

var (
	partKeys   = []string{"water", "protein", "fat", "carbohydrate", "fibre", "ash", "alcohol"}
	aroundKeys = []string{"in", "at", "film", "below", "below-at", "below-film", "above", "above-at", "above-film"}
	shapeKinds = []heatcase.Kind{heatcase.Pan, heatcase.Bag, heatcase.Pot, heatcase.Brick, heatcase.Slab}
)

// longestHeatText is more than any field of the form takes.
const longestHeatText = 120

// readHeat reads a question. What is not asked about at all comes from the example of the process, so that every address has an answer.
func readHeat(query url.Values, units unit.System) heatQuestion {
	q := heatQuestion{units: units, texts: map[string]string{}}
	for _, f := range heatcase.Fields() {
		if text := tidy(query.Get(f.Key)); text != "" {
			q.texts[f.Key] = text
		}
	}
	q.texts["units"] = units.String()
	was, _ := url.ParseQuery(query.Get(wasKey))
	q.kind = kindAsked(query)
	q.newest(was)
	q.examples(query)
	q.read()
	if slide := query.Get(slideKey); slide != "" && slide != was.Get(slideKey) && (was.Get(shapeKey) == "" || was.Get(shapeKey) == string(q.kind)) {
		q.slide(slide)
	}
	for _, f := range q.asked.Check() {
		q.problem(f.Path, f.Message, f.Fix)
	}
	return q
}

// tidy makes what was typed fit for a page: text of sane length.
func tidy(text string) string {
	text = strings.TrimSpace(strings.ToValidUTF8(text, "\uFFFD"))
	if r := []rune(text); len(r) > longestHeatText {
		text = string(r[:longestHeatText])
	}
	return text
}

// kindAsked is the kind of shape that is chosen, or else the one whose size is given.
func kindAsked(query url.Values) heatcase.Kind {
	if k := heatcase.Kind(query.Get(shapeKey)); slices.Contains(shapeKinds, k) {
		return k
	}
	for _, k := range shapeKinds {
		if query.Has(string(k)) {
			return k
		}
	}
	return ""
}

// newest lets the newest change win: what no longer fits a choice that the cook has just made goes back to what is usual, unless the
// cook has changed it as well. Only a form says how it was before; an address on its own is taken at its word.
func (q *heatQuestion) newest(was url.Values) {
	if len(was) == 0 {
		return
	}
	changed := func(key string) bool { return q.texts[key] != was.Get(key) }
	reset := func(keys ...string) {
		for _, k := range keys {
			if !changed(k) {
				delete(q.texts, k)
			}
		}
	}
	if changed("process") {
		reset(aroundKeys...)
		reset("from", "to", "package", "stir", "u", "open")
	}
	if changed("in") {
		reset("at", "film")
	}
	if string(q.kind) != was.Get(shapeKey) {
		reset("stack", "touching", "piece", "package", "stir", "u", "open")
		q.carryThickness(heatcase.Kind(was.Get(shapeKey)))
	}
	switch {
	case q.texts["food"] != "" && changed("food"):
		reset(partKeys...)
		reset("name", "freezes-at")
	case slices.ContainsFunc(partKeys, changed):
		reset("food", "name")
	}
}

// carryThickness gives a flat shape the thickness of the flat one before it.
func (q *heatQuestion) carryThickness(before heatcase.Kind) {
	if text := q.texts[string(before)]; text != "" && q.texts[string(q.kind)] == "" && flat(before) && flat(q.kind) {
		q.texts[string(q.kind)] = text
	}
}

func flat(k heatcase.Kind) bool {
	return k == heatcase.Pan || k == heatcase.Bag || k == heatcase.Slab
}

// examples fills in food and shape where the query does not speak of them.
func (q *heatQuestion) examples(query url.Values) {
	if q.texts["process"] == "" {
		q.texts["process"] = string(heatcase.Cool)
	}
	example := heatcase.Example(heatcase.Process(q.texts["process"]))
	if !query.Has("food") && !slices.ContainsFunc(partKeys, query.Has) {
		for _, key := range append([]string{"name"}, partKeys...) {
			if text := example.Text(key); text != "" && (key != "name" || !query.Has("name")) {
				q.texts[key] = text
			}
		}
	}
	if q.kind == "" {
		q.kind = example.Shape.Kind
	}
	for _, k := range shapeKinds {
		if k != q.kind {
			delete(q.texts, string(k))
		}
	}
	if key := string(q.kind); q.texts[key] == "" && (!query.Has(key) || query.Get(wasKey) == "") {
		q.texts[key] = dials[q.kind].usual(q.units)
	}
}

// read makes the case of the texts.
func (q *heatQuestion) read() {
	q.asked = heatcase.New(heatcase.Cool)
	for _, f := range heatcase.Fields() {
		text := q.texts[f.Key]
		if text == "" {
			continue
		}
		if err := q.asked.Set(f.Key, text); err != nil {
			q.problem(f.Key, err.Error(), "")
		}
	}
}

// problem says what is wrong at a key; of several the first one stays.
func (q *heatQuestion) problem(key, what, fix string) {
	if key == shapeKey {
		key = string(q.kind)
	}
	if slices.ContainsFunc(q.problems, func(p heatProblem) bool { return p.key == key }) {
		return
	}
	text := capital(what) + "."
	if fix != "" {
		text += " " + capital(fix) + "."
	}
	q.problems = append(q.problems, heatProblem{key, text})
}

func (q heatQuestion) problemAt(key string) string {
	for _, p := range q.problems {
		if p.key == key {
			return p.text
		}
	}
	return ""
}

// query is the address of the question.
func (q heatQuestion) query() url.Values {
	v := url.Values{}
	for key, text := range q.texts {
		v.Set(key, text)
	}
	return v
}

// capital begins a sentence.
func capital(text string) string {
	for i, r := range text {
		if i == 0 {
			return strings.ToUpper(string(r)) + text[len(string(r)):]
		}
	}
	return text
}
