package web

import (
	"cmp"
	"net/http"
	"net/url"
	"slices"
	"strconv"

	"kettlefrost/internal/app"
	"kettlefrost/internal/coldwatch"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
)

// watchPage is all that templates/watch.html may show: what the probes in freezers and walk-ins read.
type watchPage struct {
	shell
	None            bool // no records are kept
	Problem         string
	Findings        findingsView
	Places          []watchedPlace
	Spans           []partLink // how far back the charts go
	Guidance        string
	GuidanceSource  string
	ThermometersURL string
	JSON            string
}

// watchedPlace is a freezer with what its probe shows.
type watchedPlace struct {
	Name, Probe string
	Sign, Class string
	Word, Says  string // how it is now
	Reads       figure // the last reading
	When        string
	Limit       string
	Source      string
	Worth       []string // what its readings are worth
	Chart       pictureView
	Since       string       // what was looked at
	Stretches   []stretchRow // the latest first
	More        int
}

// stretchRow is a time during which a place was too warm, or nobody knows.
type stretchRow struct {
	URL         string
	Sign, Class string
	Kind, When  string
	Took, Peak  string
	Unknown     string
	Asks        string // what is still to be done
}

var watchTemplate = parse[watchPage]("watch")

// mostStretches is how many stretches the card of a place lists.
const mostStretches = 12

// watching is what the probes show, looked at for one page.
type watching struct {
	app.Watching
	book  kitchen.Book
	rd    reader
	query url.Values
	now   record.Instant
}

// ofWatch looks at the probes of so many days; false when it was answered why that cannot be.
func (s *server) ofWatch(w http.ResponseWriter, r *http.Request, days int) (x watching, ok bool) {
	x.book, _ = s.house.Book()
	x.query = r.URL.Query()
	x.query.Del("did")
	x.rd, x.now = readerOf(x.book.Kitchen, r), s.instant()
	v := watchPage{shell: s.inShell(r, x.book.Kitchen, "Freezers", "watch"), None: true}
	if s.records == nil {
		watchTemplate.show(w, http.StatusOK, v)
		return x, false
	}
	var err error
	if x.Watching, err = s.records.Watch(r.Context(), x.book, x.now, days); err != nil {
		v.None, v.Problem = false, sentence(err)
		watchTemplate.show(w, http.StatusInternalServerError, v)
		return x, false
	}
	return x, true
}

// spans are how far back a chart may go, in days.
var spans = []struct {
	days int
	name string
}{{1, "1 day"}, {3, "3 days"}, {14, "2 weeks"}}

func spanOf(query url.Values) int {
	days, err := strconv.Atoi(query.Get("days"))
	if err != nil || !slices.ContainsFunc(spans, func(x struct {
		days int
		name string
	}) bool {
		return x.days == days
	}) {
		return spans[0].days
	}
	return days
}

func (s *server) showWatch(w http.ResponseWriter, r *http.Request) {
	x, ok := s.ofWatch(w, r, app.WatchDays)
	if !ok {
		return
	}
	days := spanOf(x.query)
	v := watchPage{shell: s.inShell(r, x.book.Kitchen, "Freezers", "watch"), Guidance: coldwatch.Guidance, GuidanceSource: coldwatch.GuidanceSource, ThermometersURL: coldURL(thermometersPath, x.query), JSON: coldURL("/freezers/watch.json", x.query)}
	found := append(x.Alarms(x.rd.units, s.nearText), x.Unlisted...)
	found.Sort()
	v.Findings = viewFindings(found)
	for _, n := range spans {
		v.Spans = append(v.Spans, partLink{link{n.name, watchPath + with(x.query, "days", strconv.Itoa(n.days))}, n.days == days})
	}
	for _, seen := range x.Seen {
		v.Places = append(v.Places, s.watchedPlace(x, seen, days))
	}
	slices.SortStableFunc(v.Places, func(a, b watchedPlace) int { // what is wrong first
		return cmp.Compare(slices.Index(gravest, a.Class), slices.Index(gravest, b.Class))
	})
	v.Refresh = 120
	watchTemplate.show(w, http.StatusOK, v)
}

// gravest are the classes of how a place is, what is wrong first.
var gravest = []string{"stop", "caution", "note"}

func (s *server) watchedPlace(x watching, seen coldwatch.Seen, days int) watchedPlace {
	v := watchedPlace{Name: seen.PlaceName, Probe: seen.Name, Limit: "up to " + bothDegrees(seen.LimitC, x.rd), Source: seen.LimitSource, Since: s.dateText(seen.From), Worth: worthOf(seen.Trust(x.now), x.rd)}
	v.Sign, v.Class, v.Word, v.Says = s.howNow(x, seen)
	if seen.Away > 0 {
		v.Worth = append(v.Worth, times(seen.Away, "reading is", "readings are")+" left out: by the records the probe was elsewhere then")
	}
	if seen.Ms() == 0 {
		return v
	}
	if seen.Last != nil {
		v.Reads = degreesFigure(seen.Last.TempC, x.rd)
		v.When = s.nearText(seen.Last.At) + ", " + coldwatch.Length(int64(x.now-seen.Last.At)) + " ago"
		if seen.Last.Hand != "" {
			v.When += ", by hand"
		}
	}
	v.Chart = watchChart(x.query, seen, x.now-record.Instant(days)*dayMillis, x.now)
	for _, stretch := range slices.Backward(seen.Stretches) {
		if len(v.Stretches) == mostStretches {
			v.More = len(seen.Stretches) - mostStretches
			break
		}
		v.Stretches = append(v.Stretches, s.stretchRow(x, seen, stretch))
	}
	return v
}

const dayMillis = 24 * 3600 * 1000

func (s *server) stretchRow(x watching, seen coldwatch.Seen, c coldwatch.Stretch) stretchRow {
	row := stretchRow{URL: excursionURL(x.query, seen.Probe, c.From), Sign: "■", Class: "stop", Kind: "Too warm", When: s.fromTo(c.Span), Took: "up to " + coldwatch.Length(c.Ms())}
	if c.Kind == coldwatch.NotKnown {
		row.Sign, row.Class, row.Kind, row.Took = "▲", "caution", "Not known", coldwatch.Length(c.Ms())
	} else {
		row.Peak = bothDegrees(c.PeakC, x.rd)
		if c.UnknownMs > 0 {
			row.Unknown = coldwatch.Length(c.UnknownMs) + " of it nobody knows"
		}
	}
	if !c.Ended {
		row.When = "since " + s.nearText(c.From)
	}
	switch {
	case x.Deeds.Answered(seen.Watch, c):
		row.Asks = "what was done is written down"
	case c.Asks():
		row.Asks = "look at what lay there"
	}
	return row
}

func excursionURL(query url.Values, probe string, from record.Instant) string {
	return coldURL(excursionPath, query, "probe", probe, "from", strconv.FormatInt(int64(from), 10))
}

func (s *server) showWatchJSON(w http.ResponseWriter, r *http.Request) {
	if s.records == nil {
		writeJSON(w, http.StatusConflict, refusal{Error: noRecords})
		return
	}
	book, _ := s.house.Book()
	now, units := s.instant(), readerOf(book.Kitchen, r).units
	x, err := s.records.Watch(r.Context(), book, now, app.WatchDays)
	if err != nil {
		writeJSON(w, http.StatusInternalServerError, refusal{Error: err.Error()})
		return
	}
	found := append(x.Alarms(units, s.nearText), x.Unlisted...)
	found.Sort()
	writeJSON(w, http.StatusOK, coldwatch.ReportOf(now, x.Seen, x.Deeds, found))
}
