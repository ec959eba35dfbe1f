package web

import (
	"net/http"
	"slices"
	"strings"

	"kettlefrost/internal/coldwatch"
	"kettlefrost/internal/record"
	"kettlefrost/internal/thermometers"
)

func answerField(value, problem string) field {
	return field{Key: "text", Label: "What was done", Hint: "such as: door was ajar, shut it; every pack looked at, all with ice", Value: value, Problem: problem}
}

// codeOf is of which kind the answer to a stretch is.
func codeOf(c coldwatch.Stretch) string {
	if c.Kind == coldwatch.NotKnown {
		return coldwatch.CodeSilent
	}
	return coldwatch.CodeWarm
}

// answerExcursion enters what was done about a stretch as a whole.
func (s *server) answerExcursion(w http.ResponseWriter, r *http.Request) {
	if err := r.ParseForm(); err != nil {
		s.refuse(w, r, http.StatusBadRequest, "This form cannot be read.")
		return
	}
	form := r.PostForm
	x, seen, c, ok := s.stretchAsked(w, r, form)
	if !ok {
		return
	}
	text := tidy(form.Get("text"))
	if text == "" {
		s.excursion(w, r, x, seen, c, http.StatusUnprocessableEntity, answerForm{Text: answerField("", "Write what was done, and what was found.")})
		return
	}
	did := record.OtherDeed
	if form.Get("did") == string(record.Relocated) {
		did = record.Relocated
	}
	s.enter(w, r, excursionURL(x.query, seen.Probe, c.From), record.Acted{Place: seen.Place, Code: codeOf(c), Did: did, Text: record.Text(text)})
}

// holdExposed holds packs that lay in a place while it was too warm, as a person chose them.
func (s *server) holdExposed(w http.ResponseWriter, r *http.Request) {
	if err := r.ParseForm(); err != nil {
		s.refuse(w, r, http.StatusBadRequest, "This form cannot be read.")
		return
	}
	x, seen, c, ok := s.stretchAsked(w, r, r.PostForm)
	if !ok {
		return
	}
	var bodies []record.Body
	for _, value := range r.PostForm["hold"] {
		lot, text, _ := strings.Cut(value, "#")
		numbers, err := record.ParseNumbers(text)
		if err != nil || lot == "" || len(bodies) == mostDone {
			s.refuse(w, r, http.StatusUnprocessableEntity, "It cannot be read which packs are to be held: load the page again.")
			return
		}
		bodies = append(bodies, record.Held{Lot: record.Lot(lot), Numbers: numbers, Why: s.whyHeld(seen, c, x.rd)})
	}
	if len(bodies) == 0 {
		s.refuse(w, r, http.StatusUnprocessableEntity, "Choose what is to be held.")
		return
	}
	s.enter(w, r, excursionURL(x.query, seen.Probe, c.From), bodies...)
}

func (s *server) whyHeld(seen coldwatch.Seen, c coldwatch.Stretch, rd reader) string {
	if c.Kind == coldwatch.NotKnown {
		return seen.PlaceName + ": nobody knows how warm it was from " + s.whenText(c.From) + " on"
	}
	return seen.PlaceName + " was too warm from " + s.whenText(c.From) + " on, up to " + coldwatch.Degrees(c.PeakC, rd.units) + ": to be looked at"
}

// enterLookAt shows what the guidance says of what was found, and enters it with what was decided.
func (s *server) enterLookAt(w http.ResponseWriter, r *http.Request) {
	if err := r.ParseForm(); err != nil {
		s.refuse(w, r, http.StatusBadRequest, "This form cannot be read.")
		return
	}
	form := r.PostForm
	l, ok := s.lookOf(w, r, form)
	if !ok {
		return
	}
	verdict := l.found().Verdict()
	decided := form.Get("decision")
	if len(l.bad) > 0 || verdict == coldwatch.NotTold || !slices.Contains([]string{"keep", "hold", "discard"}, decided) {
		status := http.StatusOK
		if len(l.bad) > 0 || verdict == coldwatch.NotTold {
			status = http.StatusUnprocessableEntity
		}
		v := s.lookForm(r, l, form)
		if len(l.bad) == 0 {
			v.Verdict = l.verdict(verdict)
		}
		lookAtTemplate.show(w, status, v)
		return
	}
	s.enter(w, r, excursionURL(l.query, l.seen.Probe, l.c.From), l.bodies(s, verdict, decided, tidy(form.Get("note")))...)
}

// bodies are what to enter of a look: what was found and done, what was measured, and a hold.
func (l looking) bodies(s *server, verdict coldwatch.Verdict, decided, note string) []record.Body {
	words := []string{theirNumbers(l.numbers.String())}
	switch {
	case l.ice == nil:
		words = append(words, "not looked for ice")
	case *l.ice:
		words = append(words, "ice crystals")
	default:
		words = append(words, "no ice crystals")
	}
	words = append(words, "guidance: "+string(verdict), note)
	words = slices.DeleteFunc(words, func(w string) bool { return w == "" })
	act := record.Acted{Lot: l.lot, Place: l.seen.Place, Code: codeOf(l.c), Did: record.OtherDeed, Temp: l.core, Text: record.Text(strings.Join(words, "; "))}
	var hold []record.Body
	switch decided {
	case "hold":
		hold = []record.Body{record.Held{Lot: l.lot, Numbers: l.numbers, Why: s.whyHeld(l.seen, l.c, l.rd)}}
	case "discard":
		act.Did = record.Discarded
		hold = []record.Body{record.Held{Lot: l.lot, Numbers: l.numbers, Why: "to be discarded: " + s.whyHeld(l.seen, l.c, l.rd)}}
	}
	bodies := []record.Body{act}
	if l.core != nil {
		bodies = append(bodies, record.Measured{Place: l.seen.Place, Point: "middle of a pack of lot " + string(l.lot), Temp: *l.core, Instrument: l.instrument})
	}
	return append(bodies, hold...)
}

func differenceText(c float64, rd reader) string { return thermometers.Difference(c, rd.units) }
