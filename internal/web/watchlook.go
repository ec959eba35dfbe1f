package web

import (
	"cmp"
	"maps"
	"net/http"
	"net/url"
	"slices"

	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/coldwatch"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/thermometers"
	"kettlefrost/internal/unit"
)

// lookAtPage is all that templates/lookatlot.html may show: somebody looks at packs that lay in a place while it was too warm.
type lookAtPage struct {
	shell
	Entry          string
	Lot, What      string
	Place, When    string
	Kept           []kept
	Ice            []option
	Fields         []field
	Verdict        *lookVerdict
	Vacuum         string
	Guidance       string
	GuidanceSource string
	BackURL        string
}

// lookVerdict is what the guidance says of what was found, and what can be done.
type lookVerdict struct {
	Sign, Class string
	Says        string
	Kept        []kept
	Decisions   []option
}

var lookAtTemplate = parse[lookAtPage]("lookatlot")

// looking is a look at packs on its way.
type looking struct {
	watching
	seen       coldwatch.Seen
	c          coldwatch.Stretch
	e          coldwatch.Exposure // of the lot
	lot        record.Lot
	packs      bool // it is a lot of packs
	what       string
	numbers    record.Numbers
	ice        *bool
	core       *unit.Temp
	instrument string
	bad        map[string]string
}

// lookOf reads what was found; false when it was answered.
func (s *server) lookOf(w http.ResponseWriter, r *http.Request, form url.Values) (l looking, ok bool) {
	l.watching, l.seen, l.c, ok = s.stretchAsked(w, r, form)
	if !ok {
		return l, false
	}
	l.lot, l.bad, l.instrument = record.Lot(tidy(form.Get("lot"))), map[string]string{}, tidy(form.Get("instrument"))
	found := false
	err := s.records.Exposed(r.Context(), l.book, l.seen, l.c, func(all []coldwatch.Exposure, _ *lots.State) error {
		for _, e := range all {
			if e.Lot.ID == l.lot && !found {
				l.e, l.packs, l.what, found = e, e.Lot.Sort == lots.Packs, whatIs(l.book, e.Lot), true
				l.e.Lot = nil // it is lent
			}
		}
		return nil
	})
	switch {
	case err != nil:
		s.refuse(w, r, http.StatusInternalServerError, sentence(err))
		return l, false
	case !found:
		s.missing(w, r, l.book, "By the records nothing of that lot lay there then.")
		return l, false
	}
	if l.numbers, err = record.ParseNumbers(tidy(form.Get("numbers"))); err != nil {
		l.bad["numbers"] = sentence(err)
	}
	switch form.Get("ice") {
	case "yes", "no":
		ice := form.Get("ice") == "yes"
		l.ice = &ice
	}
	if text := tidy(form.Get("core")); text != "" {
		t, err := readDegrees(text, l.rd.units)
		if err != nil {
			l.bad["core"] = sentence(err)
		}
		l.core = &t
	}
	return l, true
}

func (s *server) showLookAt(w http.ResponseWriter, r *http.Request) {
	if l, ok := s.lookOf(w, r, r.URL.Query()); ok {
		lookAtTemplate.show(w, http.StatusOK, s.lookForm(r, l, r.URL.Query()))
	}
}

// found is what was found, to be held against the guidance.
func (l looking) found() coldwatch.Looked {
	x := coldwatch.Looked{Ice: l.ice, Vacuum: l.packs, Chilled: l.seen.Kind != coldstore.Frozen, ThawedMs: l.e.ThawedMs, UnknownMs: l.e.UnknownMs}
	if l.core != nil {
		c := l.core.C()
		x.CoreC, x.AccuracyC = &c, thermometers.CodeAccuracyC
		if l.instrument != "" {
			x.AccuracyC, _ = l.Bench.AccuracyC(l.instrument, l.now)
		}
	}
	return x
}

// lightest says which verdicts let packs stay where they are.
var lightest = map[coldwatch.Verdict]bool{coldwatch.StaysFrozen: true, coldwatch.MayRefreeze: true, coldwatch.StaysCold: true}

func (l looking) verdict(is coldwatch.Verdict) *lookVerdict {
	v := &lookVerdict{Sign: "■", Class: "stop", Says: is.Says(), Kept: []kept{{"ice", iceWord(l.ice)}, {"instrument", l.instrument}, {"numbers", l.numbers.String()}}}
	if l.core != nil {
		v.Kept = append(v.Kept, kept{"core", l.core.String()})
	}
	if is == coldwatch.NotTold {
		v.Sign, v.Class = "▲", "caution"
		return v
	}
	v.Decisions = []option{{Value: "hold", Says: "Hold them until a named person decides"}, {Value: "discard", Says: "Discard them: they are held until they are written off"}}
	if lightest[is] {
		v.Sign, v.Class = "●", "note"
		v.Decisions = slices.Insert(v.Decisions, 0, option{Value: "keep", Says: "Leave them where they are"})
	}
	return v
}

func iceWord(ice *bool) string {
	switch {
	case ice == nil:
		return ""
	case *ice:
		return "yes"
	}
	return "no"
}

func (s *server) lookForm(r *http.Request, l looking, form url.Values) lookAtPage {
	v := lookAtPage{shell: s.inShell(r, l.book.Kitchen, "Look at lot "+string(l.lot), "watch"), Entry: cmp.Or(form.Get(entryField), newEntryID()), Lot: string(l.lot), What: l.what, Place: l.seen.PlaceName, When: s.stretchRow(l.watching, l.seen, l.c).When,
		Kept: []kept{{"probe", l.seen.Probe}, {"from", form.Get("from")}, {"lot", string(l.lot)}}, Guidance: coldwatch.Guidance, GuidanceSource: coldwatch.GuidanceSource, BackURL: excursionURL(l.query, l.seen.Probe, l.c.From)}
	if l.packs && l.seen.Kind == coldstore.Frozen {
		v.Vacuum = coldwatch.VacuumCaution
	}
	v.Ice = []option{{Value: "yes", Says: "Yes, in every one of them", Here: iceWord(l.ice) == "yes"}, {Value: "no", Says: "No, or not in all", Here: iceWord(l.ice) == "no"}, {Value: "", Says: "Not looked", Here: l.ice == nil}}
	if l.packs {
		v.Fields = append(v.Fields, field{Key: "numbers", Label: "Which packs", Hint: "their numbers: 1-12, 15", Value: tidy(form.Get("numbers")), Problem: l.bad["numbers"]})
	}
	v.Fields = append(v.Fields, field{Key: "core", Label: "Middle of the warmest", Hint: "may be left out if there is ice" + bareHint(l.rd), Value: tidy(form.Get("core")), Problem: l.bad["core"]})
	hand := field{Key: "instrument", Label: "Thermometer", Hint: "what it may be wrong counts to the bad side", Value: l.instrument, Options: []option{{Value: "", Says: "another: counts as wrong by " + thermometers.Difference(thermometers.CodeAccuracyC, l.rd.units), Here: l.instrument == ""}}}
	for _, id := range slices.Sorted(maps.Keys(l.book.Thermometers)) {
		if t := l.book.Thermometers[id]; t.At == "" && cmp.Or(t.Kind, kitchen.Handheld) == kitchen.Handheld {
			c, _ := l.Bench.AccuracyC(string(id), l.now)
			hand.Options = append(hand.Options, option{Value: string(id), Says: t.Name + ": wrong by up to " + thermometers.Difference(c, l.rd.units), Here: string(id) == l.instrument})
		}
	}
	v.Fields = append(v.Fields, hand, field{Key: "note", Label: "Note", Hint: "may be left out", Value: tidy(form.Get("note"))})
	return v
}
