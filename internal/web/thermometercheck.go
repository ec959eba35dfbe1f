package web

import (
	"cmp"
	"math"
	"net/http"
	"net/url"
	"strconv"
	"strings"

	"kettlefrost/internal/coldwatch"
	"kettlefrost/internal/record"
	"kettlefrost/internal/thermometers"
	"kettlefrost/internal/unit"
)

// checkPage is all that templates/thermometercheck.html may show: a thermometer is checked.
type checkPage struct {
	shell
	Entry     string
	Name, ID  string
	Unlisted  bool
	Methods   []partLink
	Method    string // key
	How       string
	Source    string
	Should    string // what it should read; empty beside another thermometer
	Altitude  *field // for boiling water
	Allowed   string
	Quick     []quickReading
	Fields    []field
	Outcome   *checkOutcome
	ListURL   string
	LastCheck string
}

// quickReading is a reading that can be touched.
type quickReading struct {
	Text, Value string
	Good        bool
}

// checkOutcome is what a check shows when a thermometer is further wrong than it should be, and what can be done.
type checkOutcome struct {
	Says, Doubt string
	Kept        []kept // what was typed
	After       field
}

var checkTemplate = parse[checkPage]("thermometercheck")

func (s *server) showCheck(w http.ResponseWriter, r *http.Request) {
	c, rd, ok := s.checkOf(w, r, r.URL.Query())
	if ok {
		checkTemplate.show(w, http.StatusOK, s.checkForm(r, c, rd, r.URL.Query()))
	}
}

// enterCheck enters a check that is good, or asks what becomes of a thermometer that reads wrong.
func (s *server) enterCheck(w http.ResponseWriter, r *http.Request) {
	if err := r.ParseForm(); err != nil {
		s.refuse(w, r, http.StatusBadRequest, "This form cannot be read.")
		return
	}
	form := r.PostForm
	c, rd, ok := s.checkOf(w, r, form)
	if !ok {
		return
	}
	if c.read == nil && c.bad["read"] == "" {
		c.bad["read"] = "Write what it reads."
	}
	if c.reads == nil && c.bad["true"] == "" {
		c.bad["true"] = "Write what the other thermometer reads."
	}
	if len(c.bad) > 0 {
		checkTemplate.show(w, http.StatusUnprocessableEntity, s.checkForm(r, c, rd, form))
		return
	}
	b := record.Calibrated{Instrument: c.x.ID, Method: c.method.Method, Read: *c.read, True: *c.reads, Kept: record.InUse, Note: record.Text(tidy(form.Get("note")))}
	out := c.x.Judge(b.Read.C(), b.True.C())
	if !out.Good && !c.decide(&b, form, rd) {
		v := s.checkForm(r, c, rd, form)
		v.Outcome = s.outcome(c, b, out, form, rd)
		checkTemplate.show(w, http.StatusUnprocessableEntity, v)
		return
	}
	s.enter(w, r, coldURL(thermometersPath, r.URL.Query()), b)
}

// decide takes what is to become of a thermometer that reads wrong; false as long as that is not clear.
func (c checking) decide(b *record.Calibrated, form url.Values, rd reader) bool {
	switch record.CheckResult(form.Get("kept")) {
	case record.InUse:
		return true
	case record.Withdrawn:
		b.Kept = record.Withdrawn
		return true
	case record.Adjusted:
		b.After = c.degrees("after", form, rd)
		if b.After == nil {
			c.bad["after"] = cmp.Or(c.bad["after"], "Check it again after adjusting, and write what it reads then.")
			return false
		}
		if out := c.x.Judge(b.After.C(), b.True.C()); !out.Good {
			c.bad["after"] = "It still reads wrong by " + thermometers.Difference(math.Abs(out.OffC), rd.units) + ": adjust it once more, count on its error, or withdraw it."
			return false
		}
		b.Kept = record.Adjusted
		return true
	}
	return false
}

func (s *server) outcome(c checking, b record.Calibrated, out thermometers.Outcome, form url.Values, rd reader) *checkOutcome {
	way := "too warm"
	if out.OffC < 0 {
		way = "too cold"
	}
	v := &checkOutcome{Says: "It reads " + thermometers.Difference(math.Abs(out.OffC), rd.units) + " " + way + ", and may be wrong by " + thermometers.Difference(out.AllowedC, rd.units) + " at most.",
		Kept:  []kept{{"id", c.x.ID}, {"method", string(b.Method)}, {"read", b.Read.String()}, {"note", string(b.Note)}, {"altitude", c.altitude.String()}},
		After: field{Key: "after", Label: "After adjusting, it reads", Hint: "checked the same way once more" + bareHint(rd), Value: tidy(form.Get("after")), Problem: c.bad["after"]}}
	if c.method.TrueC == nil {
		v.Kept = append(v.Kept, kept{"true", b.True.String()})
	}
	v.Doubt = "Everything that was judged by it is judged again with this error: there is no good check on record before."
	for _, old := range c.bench.Checks(c.x.ID) {
		if c.x.Judge(old.ReadC+old.LeftC()-old.FoundC(), old.TrueC).Good {
			v.Doubt = "Everything that was judged by it since its last good check, " + s.whenText(old.At) + ", is judged again with this error."
		}
	}
	return v
}

func (s *server) checkForm(r *http.Request, c checking, rd reader, form url.Values) checkPage {
	book, _ := s.house.Book()
	v := checkPage{shell: s.inShell(r, book.Kitchen, "Check "+c.x.Name, "thermometers"), Entry: cmp.Or(form.Get(entryField), newEntryID()), Name: c.x.Name, ID: c.x.ID, Method: string(c.method.Method), How: c.method.How, Source: c.method.Source,
		Allowed: thermometers.Difference(c.x.Stated(), rd.units), ListURL: coldURL(thermometersPath, r.URL.Query())}
	_, listed := c.bench.Instrument(c.x.ID)
	v.Unlisted = !listed
	for _, m := range thermometers.Methods(0) {
		v.Methods = append(v.Methods, partLink{link{m.Name, coldURL(checkPath, r.URL.Query(), "id", c.x.ID, "method", string(m.Method))}, m.Method == c.method.Method})
	}
	if checks := c.bench.Checks(c.x.ID); len(checks) > 0 {
		last := checks[len(checks)-1]
		v.LastCheck = s.whenText(last.At) + ", " + checkWords(last, rd)
	}
	if c.method.Method == record.BoilingPoint {
		v.Altitude = &field{Key: "altitude", Label: "Height of this kitchen over the sea", Hint: "the book says it for the kitchens of customers; change it here if this one lies elsewhere", Value: cmp.Or(tidy(form.Get("altitude")), lengthText(c.altitude, rd)), Problem: c.bad["altitude"]}
	}
	if c.method.TrueC != nil {
		v.Should = coldwatch.Degrees(*c.method.TrueC, rd.units)
		v.Quick = quickReadings(c.x, *c.method.TrueC, rd.units)
	} else {
		v.Fields = append(v.Fields, field{Key: "true", Label: "The other thermometer reads", Hint: "it must have been checked itself" + bareHint(rd), Value: tidy(form.Get("true")), Problem: c.bad["true"]})
	}
	v.Fields = append(v.Fields, field{Key: "read", Label: "This one reads", Hint: "as it stands still" + bareHint(rd), Value: tidy(form.Get("read")), Problem: c.bad["read"]},
		field{Key: "note", Label: "Note", Hint: "may be left out", Value: tidy(form.Get("note"))})
	return v
}

func lengthText(l unit.Length, rd reader) string {
	if rd.units == unit.US {
		return strconv.FormatFloat(math.Round(l.M()/0.3048), 'f', 0, 64) + " ft"
	}
	return strconv.FormatFloat(math.Round(l.M()), 'f', 0, 64) + " m"
}

// quickReadings are the readings that are usual in water whose temperature is known, by the half degree.
func quickReadings(x thermometers.Instrument, trueC float64, units unit.System) []quickReading {
	from, word := trueC, " C"
	if units == unit.US {
		from, word = trueC*1.8+32, " F"
	}
	from = math.Round(from*2) / 2
	var all []quickReading
	for _, off := range []float64{-2, -1, -0.5, 0, 0.5, 1, 2} {
		is := strconv.FormatFloat(from+off+0, 'f', -1, 64)
		t, err := unit.ParseTemp(is + word)
		if err != nil {
			continue
		}
		all = append(all, quickReading{Text: together(is + strings.Replace(word, " ", " °", 1)), Value: is + word, Good: x.Judge(t.C(), trueC).Good})
	}
	return all
}
