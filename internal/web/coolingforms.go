package web

import (
	"cmp"
	"maps"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/coolforecast"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
	"kettlefrost/internal/sheet"
	"kettlefrost/internal/unit"
)

// coolingSent is a form of this page that was sent and has mistakes.
type coolingSent struct {
	form url.Values
	bad  map[string]string
}

// coolingForms are the forms of a load's page.
type coolingForms struct {
	s    *server
	p    *app.Production
	c    app.Cooling
	rd   reader
	sent coolingSent
	made int // so many stand before the next one
}

// form begins a form. What was typed into it stays, when it is shown again.
func (f *coolingForms) form(id, title, button string, keeps []kept, fields ...field) boardForm {
	mine := f.sent.form != nil && f.sent.form.Get("form") == id
	x := boardForm{ID: "form-" + id, Title: title, Action: coolingPath, Button: button, Open: mine, Kept: append(keeps, kept{"form", id}, kept{"run", f.p.Run.Name}, kept{"task", f.c.Ref()}, kept{entryField, newEntryID()})}
	for _, y := range fields {
		if mine {
			y.Value, y.Problem = f.sent.form.Get(y.Key), f.sent.bad[y.Key]
			for i := range y.Options {
				y.Options[i].Here = y.Options[i].Value == y.Value
			}
		}
		y.before = f.made
		x.Fields = append(x.Fields, y)
	}
	f.made++
	return x
}

// read is the form that enters a temperature.
func (f *coolingForms) read() boardForm {
	return f.form("read", "Enter a temperature", "Enter it", []kept{{"what", "read"}}, f.temp("Temperature", "of the warmest spot"), f.point(), f.instrument())
}

func (f *coolingForms) temp(label, hint string) field {
	return field{Key: "temp", Label: label, Hint: hint + bareHint(f.rd)}
}

// point is where in the food: where it was read before, or somewhere else.
func (f *coolingForms) point() field {
	var all []option
	for _, l := range f.c.Log.Logs {
		if !strings.HasPrefix(l.Where, "probe ") {
			all = append(all, option{Value: l.Where, Says: cmp.Or(l.Where, "the place that nobody named"), Here: len(all) == 0})
		}
	}
	if len(all) == 0 {
		return field{Key: "point", Label: "Where in the food", Hint: "the middle of the deepest vessel; the same name each time", Value: "middle"}
	}
	return field{Key: "point", Label: "Where in the food", Hint: "where it was read before", Options: append(all, option{Value: otherPoint, Says: "another place in the food"})}
}

// otherPoint is what a reading's place is called when it is none of those before.
const otherPoint = "another place"

// instrument is the thermometer; with none in the book it is typed.
func (f *coolingForms) instrument() field {
	x := field{Key: "instrument", Label: "Thermometer", Hint: "by which it is read; how right it is widens the verdict"}
	for _, id := range slices.Sorted(maps.Keys(f.p.Book.Thermometers)) {
		if t := f.p.Book.Thermometers[id]; t.Kind == "" || t.Kind == kitchen.Handheld {
			x.Options = append(x.Options, option{Value: string(id), Says: cmp.Or(t.Name, string(id)), Here: string(id) == f.lastInstrument()})
		}
	}
	if len(x.Options) > 0 {
		x.Options = append(x.Options, option{Value: "", Says: "none of these"})
	}
	return x
}

// lastInstrument is the thermometer by which somebody read this load last.
func (f *coolingForms) lastInstrument() string {
	name, at := "", record.Instant(0)
	for _, l := range f.c.Log.Logs {
		for _, r := range l.Readings {
			if r.Entry != "" && r.At >= at {
				name, at = r.Instrument, r.At
			}
		}
	}
	return name
}

// act is the form that enters an action.
func (f *coolingForms) act(a app.CoolAction) boardForm {
	return f.form("act-"+a.Action.ID, "It was done", "Enter that it was done", []kept{{"what", "act"}, {"did", string(a.Did)}, {"text", a.Text}},
		f.temp("Its temperature then", "of the warmest spot"), field{Key: "note", Label: "Note", Hint: "may be left empty"})
}

func (f *coolingForms) again() boardForm {
	return f.form("again", "It was heated again", "Enter that it was heated again", []kept{{"what", "act"}, {"did", string(record.Reheated)}},
		f.temp("What the coldest spot reached", "held for 15 s"), field{Key: "note", Label: "Note", Hint: "may be left empty"})
}

func (f *coolingForms) other() boardForm {
	return f.form("other", "Something else was done", "Enter it", []kept{{"what", "act"}, {"did", string(record.OtherDeed)}},
		field{Key: "note", Label: "What was done", Hint: "who reads this later was not there"}, f.temp("Its temperature then", "may be left empty"))
}

func (f *coolingForms) discard() boardForm {
	return f.form("discard", "It was thrown away", "Enter that it was thrown away", []kept{{"what", "act"}, {"did", string(record.Discarded)}}, field{Key: "note", Label: "Why, and how much", Hint: "what has a lot is written off there too"})
}

// enterCooling takes in a reading, or what was done.
func (s *server) enterCooling(w http.ResponseWriter, r *http.Request) {
	if err := r.ParseForm(); err != nil {
		s.refuse(w, r, http.StatusBadRequest, "This form cannot be read.")
		return
	}
	p, c, ok := s.coolingOf(w, r, r.PostForm.Get("run"), r.PostForm.Get("task"))
	if !ok {
		return
	}
	b := boardRead{p: p, rd: readerOf(p.Book.Kitchen, r), form: r.PostForm, bad: map[string]string{}}
	body := coolingBody(&b, p, c)
	if len(b.bad) > 0 {
		s.showOneCooling(w, r, http.StatusUnprocessableEntity, coolingSent{r.PostForm, b.bad})
		return
	}
	s.enter(w, r, coolingURL(p.Run.Name, c.Ref()), body)
}

// coolingBody is what a form says; what is wrong with it is told beside its fields.
func coolingBody(b *boardRead, p *app.Production, c app.Cooling) record.Body {
	if b.text("what") == "read" {
		return record.Measured{Run: p.Run.Name, Dish: c.Log.Dish, Output: c.Log.Output, Task: c.Ref(), Point: b.text("point"), Temp: b.foodTemp("temp"), Instrument: b.text("instrument")}
	}
	a := record.Acted{Run: p.Run.Name, Task: c.Ref(), Code: coolingCode(c), Did: record.Deed(b.text("did")), Text: record.Text(strings.TrimSpace(b.text("text") + "\n" + b.text("note")))}
	needsTemp := a.Did != record.Discarded && a.Did != record.OtherDeed
	if needsTemp || b.text("temp") != "" {
		t := b.foodTemp("temp")
		a.Temp = &t
	}
	switch {
	case a.Did == record.OtherDeed && a.Text == "":
		b.wrong("note", "Say what was done.")
	case a.Did != record.Reheated:
	case refusedAgain(c) != "":
		b.wrong("temp", refusedAgain(c))
	case a.Temp != nil && b.bad["temp"] == "" && a.Temp.C() < coolforecast.ReheatC-1e-6:
		b.wrong("temp", "All of it must be at "+unit.TempC(coolforecast.ReheatC).Show(b.rd.units)+" for 15 s: go on heating, and measure again.")
	}
	return a
}

// Nothing that cools is colder or hotter than this: steam under pressure is not cooled here (common practice).
const coldestFoodC, hottestFoodC = -40, 130

// foodTemp is a temperature of food.
func (b *boardRead) foodTemp(key string) unit.Temp {
	t := b.temp(key)
	if c := t.C(); b.bad[key] == "" && (c < coldestFoodC || c > hottestFoodC) {
		b.wrong(key, "No food is so here: check the unit, and measure again.")
	}
	return t
}

// coolingCode is the finding that an action answers; "" for none.
func coolingCode(c app.Cooling) string {
	return map[coolforecast.Outcome]string{coolforecast.InDoubt: app.CodeCoolDoubt, coolforecast.Misses: app.CodeCoolLate, coolforecast.Missed: app.CodeCoolMissed}[c.Forecast.Outcome]
}

// coolingSays is an entry about a load in words.
func coolingSays(says record.Body, rd reader) string { return sheet.EntryText(says, rd.units) }

// stageOf says whether a task is a stage of a load.
func stageOf(task, load string) bool { return strings.HasPrefix(task, load+"/") }
