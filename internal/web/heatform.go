package web

import (
	"maps"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/heatcase"
	"kettlefrost/internal/medium"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// heatForm is the question as a form.
type heatForm struct {
	Processes []heatPick
	Process   string // what is wrong with the process
	Shapes    []heatPick
	Size      heatText
	Dial      heatDial
	Food      heatField
	Foods     []foodLink // others that the words fit
	Book      []bookFoods
	Parts     []heatField
	Made      string // the composition in words, when it is what counts
	PartsOpen bool
	From, To  heatField
	Stands    []heatField // what it stands in and what is around it
	More      []heatField
	MoreOpen  bool
	Units     string
	Was       string
	Refused   string // what is wrong with the whole
}

// heatPick is one of the keys to press.
type heatPick struct {
	ID, Key, Word string
	Here          bool
}

// heatField is a field of the form. With Options it is a list to choose from, with Yes a box to tick.
type heatField struct {
	heatText
	Options []heatOption
	Yes     bool
	Here    bool // ticked
}

type heatOption struct {
	Key, Word string
	Here      bool
}

// heatText is a field to write in.
type heatText struct{ ID, Key, Label, Hint, Value, Problem string }

// foodLink asks the same about another food.
type foodLink struct{ Name, URL string }

// heatDial is the slider.
type heatDial struct {
	Least, Most, At int
	Is, From, To    string // where it stands and its ends, as lengths
	Label           string
	Less, More      string // addresses one step away
	LessIs, MoreIs  string
	AtLeast, AtMost bool
	// Moving is an answer to the slider itself: it is left where the finger has it by now.
	Moving bool
}

// slideSource is how the slider names itself when it asks.
const slideSource = "input#slide"

var processNames = []struct {
	process heatcase.Process
	word    string
}{{heatcase.Cool, "Cool"}, {heatcase.Freeze, "Freeze"}, {heatcase.Thaw, "Thaw"}, {heatcase.Reheat, "Reheat"}}

var shapeNames = map[heatcase.Kind]string{heatcase.Pan: "Pan", heatcase.Bag: "Flat bag", heatcase.Pot: "Pot, tub", heatcase.Brick: "Block", heatcase.Slab: "Bare layer"}

// form is the form with what was typed and what is usual.
func (q heatQuestion) form(foods *foodtable.Table, made []plan.MadeFood) heatForm {
	f := heatForm{Process: q.problemAt("process"), Units: q.units.String(), Refused: q.problemAt("")}
	for _, p := range processNames {
		f.Processes = append(f.Processes, heatPick{ID: "process-" + string(p.process), Key: string(p.process), Word: p.word, Here: q.texts["process"] == string(p.process)})
	}
	for _, k := range shapeKinds {
		f.Shapes = append(f.Shapes, heatPick{ID: "shape-" + string(k), Key: string(k), Word: shapeNames[k], Here: q.kind == k})
	}
	placed := []string{"process", "units", "food", "from", "to"}
	for _, k := range shapeKinds {
		placed = append(placed, string(k))
	}
	f.Size, f.Food, f.From, f.To = q.field(string(q.kind)).heatText, q.field("food"), q.field("from"), q.field("to")
	f.Foods, f.Book, f.Made = q.otherFoods(foods), q.fromBook(made), q.made()
	if f.Made != "" && f.Food.Value == "" {
		f.Food.Hint = "Now it is counted by its composition. " + f.Food.Hint
	}
	parts := append(slices.Clone(partKeys), "freezes-at", "name")
	for _, key := range parts {
		f.Parts = append(f.Parts, q.field(key))
		f.PartsOpen = f.PartsOpen || q.problemAt(key) != ""
	}
	around := []string{"in", "at", "package", "stir", "open"}
	for _, key := range around {
		if q.fits(key) {
			f.Stands = append(f.Stands, q.field(key))
		}
	}
	placed = slices.Concat(placed, parts, around)
	for _, known := range heatcase.Fields() {
		if slices.Contains(placed, known.Key) || !q.fits(known.Key) {
			continue
		}
		f.More = append(f.More, q.field(known.Key))
		f.MoreOpen = f.MoreOpen || q.texts[known.Key] != "" || q.problemAt(known.Key) != ""
	}
	f.Dial = q.dial()
	was := q.query()
	for _, key := range []string{"in", "from", "to", "package", "stir"} {
		if text := q.shownText(key); text != "" {
			was.Set(key, text)
		}
	}
	was.Set(shapeKey, string(q.kind))
	was.Set(slideKey, strconv.Itoa(f.Dial.At))
	f.Was = was.Encode()
	return f
}

// fits says whether a field says anything about such a question. One with something in it is always shown.
func (q heatQuestion) fits(key string) bool {
	if q.texts[key] != "" || q.problemAt(key) != "" {
		return true
	}
	gentle := q.asked.Process == heatcase.Freeze || q.asked.Process == heatcase.Thaw
	switch key {
	case "stir", "u":
		return q.kind == heatcase.Pot && !gentle
	case "open":
		return q.kind != heatcase.Bag && !gentle
	case "stack", "touching":
		return q.kind == heatcase.Bag
	case "piece":
		return flat(q.kind)
	}
	return true
}

// shownText is what stands in a field: as typed, or what is usual for what must have a value.
func (q heatQuestion) shownText(key string) string {
	if text := q.texts[key]; text != "" {
		return text
	}
	c := q.asked.WithDefaults()
	switch key {
	case "from", "to":
		t := c.From
		if key == "to" {
			t = c.To
		}
		if t != nil {
			return readableTemp(*t, q.units)
		}
	case "in", "package", "stir":
		return c.Text(key)
	}
	return ""
}

// readableTemp is a temperature as a cook writes it, to a tenth of a degree where whole ones do not do: -17 °C is 1.4 °F.
func readableTemp(t unit.Temp, units unit.System) string {
	if tenths := strconv.FormatFloat(t.F(), 'f', 1, 64) + " °F"; units == unit.US && readable(t, units, unit.ParseTemp) != t.Show(units) {
		if again, err := unit.ParseTemp(tenths); err == nil && again == t {
			return tenths
		}
	}
	return readable(t, units, unit.ParseTemp)
}

func (q heatQuestion) field(key string) heatField {
	i := slices.IndexFunc(heatcase.Fields(), func(f heatcase.Field) bool { return f.Key == key })
	if i < 0 {
		return heatField{heatText: heatText{Key: key}}
	}
	known := heatcase.Fields()[i]
	f := heatField{heatText: heatText{ID: "h-" + key, Key: key, Label: heatLabels[key], Hint: known.Help, Value: q.shownText(key), Problem: q.problemAt(key)}, Yes: known.Yes}
	if f.Label == "" {
		f.Label = capital(key)
	}
	if d, ok := dials[heatcase.Kind(key)]; ok {
		f.Label, f.Hint = d.label, "such as "+known.Example
		if !flat(heatcase.Kind(key)) {
			f.Label, f.Hint = d.sides, known.Help
		}
	}
	if known.Yes || known.Choices != nil { // what is not text is not set back by an answer unless it is a new element
		f.ID += "-" + q.texts["process"] + "-" + string(q.kind)
	}
	f.Here = known.Yes && (f.Value == "yes" || f.Value == "true")
	for _, c := range known.Choices {
		f.Options = append(f.Options, heatOption{Key: c, Word: q.optionWords(key, c), Here: c == f.Value})
	}
	if len(f.Options) > 0 && (key == "below" || key == "above") {
		f.Options = append([]heatOption{{Word: "the same", Here: f.Value == ""}}, f.Options...)
	}
	switch m, known := medium.Find(f.Value); {
	case key == "in" && known:
		f.Hint = "Takes up " + filmRange(m.Film) + ", usually " + filmWords(m.Film.UsualWM2K) + ". " + capital(m.Note) + "."
	case key == "at":
		if m, ok := medium.Find(q.shownText("in")); ok {
			f.Hint = "Usually " + unit.TempC(m.TempC).Show(q.units) + ". Write what yours shows."
		}
	}
	return f
}

// made is the composition in words.
func (q heatQuestion) made() string {
	var parts []string
	for _, key := range partKeys {
		if text := q.texts[key]; text != "" {
			parts = append(parts, strings.TrimSuffix(text, " %")+" % "+key)
		}
	}
	return strings.Join(parts, ", ")
}

// mostOtherFoods is how many further foods are offered.
const mostOtherFoods = 6

// otherFoods are the foods of the table that the words fit or nearly fit.
func (q heatQuestion) otherFoods(foods *foodtable.Table) []foodLink {
	words := q.texts["food"]
	if words == "" {
		return nil
	}
	if _, exact := foods.Lookup(words); exact {
		return nil
	}
	var links []foodLink
	for _, m := range foods.Search(words, mostOtherFoods) {
		other := heatQuestion{texts: maps.Clone(q.texts)}
		other.texts["food"] = m.Food.NDB
		links = append(links, foodLink{Name: m.Food.Name, URL: heatPath + "?" + other.query().Encode()})
	}
	return links
}

// dial is the slider with the addresses of its neighbours.
func (q heatQuestion) dial() heatDial {
	kind := dials[q.kind]
	steps := kind.steps(q.units)
	shape := q.asked.Shape
	if shape.Kind != q.kind { // its text cannot be read
		c := heatcase.New(heatcase.Cool)
		if c.Set(string(q.kind), kind.usual(q.units)) == nil {
			shape = c.Shape
		}
	}
	length := *moved(&shape)
	at := steps.at(length)
	d := heatDial{Label: kind.label, Least: steps.least, Most: steps.most, At: at, Is: readable(length, q.units, unit.ParseLength), From: steps.length(steps.least).Show(q.units) + kind.way, To: steps.length(steps.most).Show(q.units) + kind.way,
		AtLeast: at <= steps.least, AtMost: at >= steps.most}
	beside := func(n int) (address, is string) {
		to := shape
		*moved(&to) = steps.length(min(max(n, steps.least), steps.most))
		other := heatQuestion{texts: maps.Clone(q.texts)}
		other.texts[string(q.kind)] = sizes(to, q.units)
		return heatPath + "?" + other.query().Encode(), moved(&to).Show(q.units)
	}
	d.Less, d.LessIs = beside(at - 1)
	d.More, d.MoreIs = beside(at + 1)
	return d
}
