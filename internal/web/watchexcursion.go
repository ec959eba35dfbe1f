package web

import (
	"math"
	"net/http"
	"net/url"
	"strconv"

	"kettlefrost/internal/app"
	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/coldwatch"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
)

// excursionPage is all that templates/excursion.html may show: a time in which a place was too warm or nobody knows, and what lay there.
type excursionPage struct {
	shell
	Place, Probe   string
	Sign, Class    string
	Kind, When     string
	Facts          []factRow
	Doubt          string
	Chart          pictureView
	Guidance       string
	GuidanceSource string
	Vacuum         string // caution about packs without air
	Hold           holdThem
	Rows           []exposedRow
	More           []exposedShort // those that are left, in short
	Perhaps        []exposedShort // the records leave open where they lay
	Deeds          []deedRow
	Answer         answerForm
	WatchURL, JSON string
}

// holdThem holds what should be held until somebody has looked.
type holdThem struct {
	Entry, Probe, From string
	Rows               []holdRow
}

type holdRow struct{ Value, Says string }

// deedRow is what somebody did or found.
type deedRow struct{ At, Who, Says string }

// answerForm says what was done about the whole of it.
type answerForm struct {
	Entry, Probe, From string
	Text               field
}

var excursionTemplate = parse[excursionPage]("excursion")

// stretchAsked is the stretch that an address names; false when it was answered that there is none.
func (s *server) stretchAsked(w http.ResponseWriter, r *http.Request, form url.Values) (x watching, seen coldwatch.Seen, c coldwatch.Stretch, ok bool) {
	book, _ := s.house.Book()
	from, err := strconv.ParseInt(form.Get("from"), 10, 64)
	now := int64(s.instant())
	if err != nil || from <= 0 || from > now || now-from > mostYears*366*dayMillis {
		s.missing(w, r, book, "There is no such time on record.")
		return x, seen, c, false
	}
	x, ok = s.ofWatch(w, r, max(app.WatchDays, int((now-from)/dayMillis)+2))
	if !ok {
		return x, seen, c, false
	}
	seen, c, ok = x.Stretch(form.Get("probe"), record.Instant(from))
	if !ok {
		s.missing(w, r, book, "By what was read, that place was not too warm then, and readings were not missing for long. Readings that came since may have changed that.")
	}
	return x, seen, c, ok
}

// mostYears is how far back a stretch is looked up.
const mostYears = 3

func (s *server) showExcursion(w http.ResponseWriter, r *http.Request) {
	if x, seen, c, ok := s.stretchAsked(w, r, r.URL.Query()); ok {
		s.excursion(w, r, x, seen, c, http.StatusOK, answerForm{})
	}
}

// excursion shows the page of a stretch.
func (s *server) excursion(w http.ResponseWriter, r *http.Request, x watching, seen coldwatch.Seen, c coldwatch.Stretch, status int, typed answerForm) {
	from := strconv.FormatInt(int64(c.From), 10)
	v := excursionPage{shell: s.inShell(r, x.book.Kitchen, seen.PlaceName, "watch"), Place: seen.PlaceName, Probe: seen.Name, Guidance: coldwatch.Guidance, GuidanceSource: coldwatch.GuidanceSource,
		Hold: holdThem{Entry: newEntryID(), Probe: seen.Probe, From: from}, Answer: answerForm{Entry: newEntryID(), Probe: seen.Probe, From: from, Text: typed.Text},
		WatchURL: coldURL(watchPath, x.query), JSON: coldURL("/freezers/watch/excursion.json", x.query, "probe", seen.Probe, "from", from)}
	if v.Answer.Text.Key == "" {
		v.Answer.Text = answerField("", "")
	}
	row := s.stretchRow(x, seen, c)
	v.Sign, v.Class, v.Kind, v.When = row.Sign, row.Class, row.Kind, row.When
	v.Facts, v.Doubt = s.stretchFacts(x, seen, c), s.doubtOf(seen, c, x.rd)
	margin := max(3600_000, (c.Until-c.From)/4)
	v.Chart = watchChart(x.query, seen, c.From-margin, min(c.Until+margin, c.From+widest*dayMillis-margin))
	for _, d := range x.Deeds.About(seen.Watch, c) {
		v.Deeds = append(v.Deeds, deedRow{s.nearText(d.At), d.Who, deedWords(d, x.rd)})
	}
	err := s.records.Exposed(r.Context(), x.book, seen, c, func(all []coldwatch.Exposure, state *lots.State) error {
		for _, e := range all {
			row := s.exposedRow(x, seen, c, e)
			if e.Lot.Sort == lots.Packs && seen.Kind == coldstore.Frozen {
				v.Vacuum = coldwatch.VacuumCaution
			}
			if e.Advice.Hold() && e.Sure && !e.Kept && !(e.Here.Empty() && e.Lot.Sort == lots.Packs) {
				v.Hold.Rows = append(v.Hold.Rows, holdRow{string(e.Lot.ID) + "#" + e.Here.String(), joined("Lot "+string(e.Lot.ID), theirNumbers(e.Here.String())) + ": " + row.What})
			}
			switch {
			case !e.Sure:
				v.Perhaps = append(v.Perhaps, row.short())
			case len(v.Rows) == mostExposed:
				v.More = append(v.More, row.short())
			default:
				v.Rows = append(v.Rows, row)
			}
		}
		return nil
	})
	if err != nil {
		s.refuse(w, r, http.StatusInternalServerError, sentence(err))
		return
	}
	excursionTemplate.show(w, status, v)
}

func (s *server) stretchFacts(x watching, seen coldwatch.Seen, c coldwatch.Stretch) []factRow {
	var rows []factRow
	add := func(name, value, says string) { rows = append(rows, factRow{name, value, says}) }
	add("Limit", bothDegrees(seen.LimitC, x.rd), seen.LimitSource)
	if c.Kind == coldwatch.NotKnown {
		add("Not known", coldwatch.Length(c.Ms()), "no reading that can be used")
		return rows
	}
	add("Took", "up to "+coldwatch.Length(c.Ms()), "from the last reading that was cold enough to the first that was so again")
	add("Warmest", bothDegrees(c.PeakC, x.rd), "or up to "+bothDegrees(c.MayC, x.rd)+" by what the probe may be wrong")
	if seen.Kind == coldstore.Frozen {
		add("Above "+bothDegrees(-5, x.rd), lengthOrNone(c.WarmMs), "the air, by the probe's bad end: from there on packs are looked at one by one")
	}
	add("Above "+bothDegrees(coldwatch.ThawedC, x.rd), lengthOrNone(c.ThawedMs), "the air, by the probe's bad end")
	if c.UnknownMs > 0 {
		add("Not known", coldwatch.Length(c.UnknownMs), "no reading for longer than "+coldwatch.Length(seen.GapMs))
	}
	if c.Odd > 0 {
		add("Odd readings", strconv.Itoa(c.Odd), "they were warm, so they count; look at them in the log")
	}
	return rows
}

func lengthOrNone(ms int64) string {
	if ms == 0 {
		return "at no reading"
	}
	return coldwatch.Length(ms)
}

// doubtOf says what makes the readings of a stretch doubtful.
func (s *server) doubtOf(seen coldwatch.Seen, c coldwatch.Stretch, rd reader) string {
	switch t := c.Accuracy; {
	case t.Unusable:
		return "The probe was withdrawn then: what it read proves nothing."
	case t.Doubt:
		return "A later check, " + s.whenText(t.After.At) + ", found the probe wrong by " + bothDifference(t.After.FoundC(), rd) + ": what it read before was raised by what it hid."
	case t.AccuracyC > t.StatedC:
		return "By its checks the probe was wrong by up to " + bothDifference(t.AccuracyC, rd) + ": what it read was raised by what that is more than it is known for."
	case t.Overdue:
		return "The check of the probe was overdue then."
	}
	return ""
}

func bothDifference(c float64, rd reader) string { return together(differenceText(math.Abs(c), rd)) }

func (s *server) showExcursionJSON(w http.ResponseWriter, r *http.Request) {
	if s.records == nil {
		writeJSON(w, http.StatusConflict, refusal{Error: noRecords})
		return
	}
	x, seen, c, ok := s.stretchAsked(w, r, r.URL.Query())
	if !ok {
		return
	}
	err := s.records.Exposed(r.Context(), x.book, seen, c, func(all []coldwatch.Exposure, _ *lots.State) error {
		writeJSON(w, http.StatusOK, coldwatch.ReportExcursion(seen.Watch, c, all, x.Deeds))
		return nil
	})
	if err != nil {
		writeJSON(w, http.StatusInternalServerError, refusal{Error: err.Error()})
	}
}
