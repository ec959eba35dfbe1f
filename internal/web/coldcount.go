package web

import (
	"cmp"
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// countPage is all that templates/count.html may show: taking stock of one place. What was found so far stands in the address, so that it
// survives a reload, and going back takes the last scan out again.
type countPage struct {
	shell
	Choose   []placeRow // places to choose from, when none is
	Place    string
	Code     string // of the place
	Entry    string
	Scan     typedField
	Kept     []kept
	Progress []string
	Just     string     // what was scanned last
	Parts    []placeRow // its shelves, which are counted for themselves
	Rows     []countRow
	Differs  []string // what differs so far, in words
	Unlooked string
	Problem  string
	Start    string // address to begin again
	StockURL string
}

// countRow is one lot of a count.
type countRow struct {
	Lot, What      string
	StoryURL       string
	Class          string
	State          string
	Should, Found  string
	Missing, Extra string
	Worth          string
	All, None, Out string // addresses
}

var countTemplate = parse[countPage]("count")

// Keys of a count in an address.
const (
	foundKey = "f"
	scanKey  = "scan"
	lastKey  = "last"
)

// mostFound is how many lots one count takes.
const mostFound = 2000

// tallyOf reads what was found so far.
func tallyOf(c cold, place record.Place, form url.Values) (coldstore.Tally, error) {
	t := coldstore.Tally{Place: place}
	for _, text := range form[foundKey][:min(len(form[foundKey]), mostFound)] {
		var err error
		if t, _, err = t.Scan(c.state, text, c.rd.units); err != nil {
			return t, err
		}
	}
	return t, nil
}

// showCount takes in one more scan and keeps it in the address, or shows how far the count is.
func (s *server) showCount(w http.ResponseWriter, r *http.Request) {
	s.ofCold(w, r, func(c cold) func() {
		place, ok := c.store.Layout.Find(c.query.Get("place"))
		if !ok || place.ID == "" { // a count needs a place
			v := s.countChoice(r, c)
			return func() { countTemplate.show(w, http.StatusOK, v) }
		}
		tally, err := tallyOf(c, place.ID, c.query)
		scan := tidy(c.query.Get(scanKey))
		if err != nil || !c.query.Has(scanKey) {
			v := s.countOf(r, c, tally)
			v.refuse(err)
			return func() { countTemplate.show(w, http.StatusOK, v) }
		}
		after, lot, err := tally.Scan(c.state, scan, c.rd.units)
		if err != nil {
			v := s.countOf(r, c, tally)
			v.Scan.Value = scan
			v.refuse(err)
			return func() { countTemplate.show(w, http.StatusUnprocessableEntity, v) }
		}
		next := c.countURL(after, lastKey, string(lot))
		return func() { http.Redirect(w, r, next, http.StatusSeeOther) }
	})
}

func (s *server) countChoice(r *http.Request, c cold) countPage {
	v := countPage{shell: s.inShell(r, c.book.Kitchen, "Take stock", "count"), StockURL: coldURL(stockPath, c.query)}
	for _, p := range c.store.Spots {
		if p.ID == "" || !p.Listed && p.AllLots == 0 {
			continue
		}
		row := c.placeRow(p)
		row.URL = coldURL(countPath, c.query, "place", string(p.ID))
		v.Choose = append(v.Choose, row)
	}
	return v
}

// countURL is the address of a count as it is, with something more.
func (c cold) countURL(t coldstore.Tally, pairs ...string) string {
	all := []string{"place", string(t.Place)}
	for _, text := range t.Texts() {
		all = append(all, foundKey, text)
	}
	return coldURL(countPath, c.query, append(all, pairs...)...)
}

func (s *server) countOf(r *http.Request, c cold, t coldstore.Tally) countPage {
	d := t.Against(c.state, app.PriceOf(c.book))
	v := countPage{shell: s.inShell(r, c.book.Kitchen, "Take stock: "+c.placeName(t.Place), "count"), Place: c.placeName(t.Place), Code: string(t.Place), Entry: newEntryID(), Start: coldURL(countPath, c.query, "place", string(t.Place)), StockURL: coldURL(placePath, c.query, "place", string(t.Place)),
		Scan: typedField{Key: scanKey, Label: "Scan or type what is there", Hint: "A pack: P-1201-3#17. Several: P-1201-3#1-12. In bulk: R-1126-2 14.2 lb. Not there: R-1126-2 none."}}
	v.Kept = append(v.Kept, kept{"place", string(t.Place)})
	for _, text := range t.Texts() {
		v.Kept = append(v.Kept, kept{foundKey, text})
	}
	if units := c.query.Get("units"); units != "" {
		v.Kept = append(v.Kept, kept{"units", units})
	}
	for _, p := range c.store.Spots {
		if strings.HasPrefix(string(p.ID), string(t.Place)+"/") && (p.Listed || p.AllLots > 0) {
			row := c.placeRow(p)
			row.URL = coldURL(countPath, c.query, "place", string(p.ID))
			v.Parts = append(v.Parts, row)
		}
	}
	var packs, should int64
	looked := 0
	for _, l := range d.Lines {
		v.Rows = append(v.Rows, c.countRow(t, l))
		packs, should = packs+l.Found.Numbers.Count(), should+l.Should.Numbers.Count()
		if l.Looked {
			looked++
		}
	}
	v.Progress = []string{fmt.Sprintf("%d of %s looked at", looked, times(len(d.Lines), "lot", "lots")), fmt.Sprintf("%s found, the records say %d", times(int(packs), "pack", "packs"), should)}
	if last := record.Lot(c.query.Get(lastKey)); last != "" {
		if f, ok := t.Of(last); ok {
			v.Just = string(last) + ": " + c.amountWords(f.Numbers, f.Mass, f.Nothing)
		}
	}
	v.Differs = c.differenceWords(d)
	if d.Unlooked > 0 {
		v.Unlooked = times(d.Unlooked, "lot", "lots") + " that nobody has looked at: entered as not there"
	}
	return v
}

func (c cold) amountWords(n record.Numbers, m unit.Mass, nothing bool) string {
	switch {
	case nothing || n.Empty() && m == 0:
		return "nothing"
	case n.Empty():
		return c.rd.fig(m).First
	}
	return times(int(n.Count()), "pack", "packs") + " (no. " + n.String() + ")"
}

func (c cold) countRow(t coldstore.Tally, l coldstore.Compared) countRow {
	id := string(l.Lot.ID)
	row := countRow{Lot: id, What: c.whatIs(l.Lot), StoryURL: lotURL(lotPath, l.Lot.ID, c.query), Should: c.amountWords(l.Should.Numbers, l.Should.Mass, false), Found: "not looked at"}
	if l.Looked {
		row.Found = c.amountWords(l.Found.Numbers, l.Found.Mass, l.Found.Nothing)
		row.Out = c.countURL(t.Without(l.Lot.ID))
	} else {
		row.All, row.None = c.countURL(t, scanKey, id+" all"), c.countURL(t, scanKey, id+" none")
	}
	row.Missing = l.Missing.String()
	if !l.Extra.Empty() {
		row.Extra = l.Extra.String() + " (the records say: " + l.Elsewise + ")"
	}
	switch {
	case !l.Looked:
		row.Class, row.State = "unlooked", "not looked at"
	case l.Same():
		row.State = "as the records say"
	default:
		row.Class, row.State = "differs", c.offWords(l)
		if l.Worth.By != "" {
			row.Worth = worthWords(l.Worth, c.rd)
		}
	}
	return row
}

// offWords is how a lot differs.
func (c cold) offWords(l coldstore.Compared) string {
	var words []string
	if n := l.Missing.Count(); n > 0 {
		words = append(words, times(int(n), "pack", "packs")+" missing")
	}
	if n := l.Extra.Count(); n > 0 {
		words = append(words, times(int(n), "pack", "packs")+" not expected")
	}
	if l.Missing.Empty() && l.Extra.Empty() {
		way := " more"
		if l.Off < 0 {
			way = " less"
		}
		words = append(words, c.rd.fig(max(l.Off, -l.Off)).First+way)
	}
	return strings.Join(words, ", ")
}

func worthWords(w coldstore.Worth, rd reader) string {
	if w.By == coldstore.NotKnown {
		return "nobody knows what it is worth"
	}
	words := rd.money(max(w.Money, -w.Money).RoundCents()) + " " + string(w.By)
	if w.Sold != 0 && w.By != coldstore.AsSold {
		words += ", " + rd.money(max(w.Sold, -w.Sold).RoundCents()) + " as it is sold"
	}
	return "worth " + words
}

// differenceWords are the lines of the report: each lot that differs, then all of it.
func (c cold) differenceWords(d coldstore.Difference) []string {
	var lines []string
	for _, l := range d.Lines {
		if !l.Looked || l.Same() {
			continue
		}
		line := fmt.Sprintf("%s (%s): %s", l.Lot.ID, c.whatIs(l.Lot), c.offWords(l))
		if !l.Missing.Empty() {
			line += "; missing no. " + l.Missing.String()
		}
		if !l.Extra.Empty() {
			line += "; not expected no. " + l.Extra.String() + ", of which the records say: " + l.Elsewise
		}
		lines = append(lines, line+"; "+worthWords(l.Worth, c.rd))
	}
	for _, l := range d.Lines {
		if !l.Looked {
			lines = append(lines, fmt.Sprintf("%s (%s): not looked at; the records say %s; %s", l.Lot.ID, c.whatIs(l.Lot), c.amountWords(l.Should.Numbers, l.Should.Mass, false), worthWords(l.Worth, c.rd)))
		}
	}
	if len(lines) == 0 {
		return nil
	}
	all := "In all: " + c.inAll("less", d.Short, d.ShortWorth, d.ShortSold) + "; " + c.inAll("more", d.Over, d.OverWorth, d.OverSold)
	if d.NotPriced > 0 {
		all += fmt.Sprintf("; of %s it is not known what they are worth, and they are not in these sums", times(d.NotPriced, "lot", "lots"))
	}
	return append(lines, all)
}

func (c cold) inAll(way string, m unit.Mass, worth, sold unit.Money) string {
	if m == 0 {
		return "nothing " + way
	}
	words := c.rd.fig(m).First + " " + way + " than the records say"
	if worth > 0 { // what nobody knows the worth of is told beside it
		words += ", worth " + c.rd.money(worth.RoundCents())
	}
	if sold > 0 {
		words += " (packs of it sell for " + c.rd.money(sold.RoundCents()) + ")"
	}
	return words
}

func (v *countPage) refuse(err error) {
	why := (*coldstore.Refusal)(nil)
	switch {
	case err == nil:
	case errors.As(err, &why):
		v.Scan.Problem = sentence(why)
	default:
		v.Problem = sentence(err)
	}
}

// finishCount enters what was found of every lot of the place, and keeps the difference as a note.
func (s *server) finishCount(w http.ResponseWriter, r *http.Request) {
	if err := r.ParseForm(); err != nil {
		s.refuse(w, r, http.StatusBadRequest, "This form cannot be read.")
		return
	}
	s.ofCold(w, r, func(c cold) func() {
		form := r.PostForm
		c.query = form
		place, ok := c.store.Layout.Find(form.Get("place"))
		if !ok || place.ID == "" {
			return func() {
				s.refuse(w, r, http.StatusUnprocessableEntity, "It is not said of which place stock was taken. Nothing was entered.")
			}
		}
		tally, err := tallyOf(c, place.ID, form)
		d := tally.Against(c.state, app.PriceOf(c.book))
		bodies := tally.Entries(c.state)
		switch {
		case err != nil:
		case len(bodies) == 0:
			err = errors.New("nothing should be there and nothing was found: there is nothing to enter")
		case d.Unlooked > 0 && form.Get("sure") == "":
			err = fmt.Errorf("%s not looked at: go on, or tick that they are not there", times(d.Unlooked, "lot was", "lots were"))
		}
		if err != nil {
			v := s.countOf(r, c, tally)
			v.Entry, v.Problem = cmp.Or(form.Get(entryField), v.Entry), sentence(err)
			return func() { countTemplate.show(w, http.StatusUnprocessableEntity, v) }
		}
		id, _ := record.ParseID(form.Get(entryField))
		bodies = append(bodies, c.countNote(d))
		back := coldURL(countedPath, c.query, "note", app.PartID(id, len(bodies)-1).String(), "place", string(place.ID))
		return func() { s.enter(w, r, back, bodies...) }
	})
}

// countNote is the report of a count that is kept.
func (c cold) countNote(d coldstore.Difference) record.Noted {
	lines := c.differenceWords(d)
	if lines == nil {
		lines = []string{"No difference: all is as the records said."}
	}
	head := fmt.Sprintf("Stock taken of %s: %s.", c.placeName(d.Place), times(len(d.Lines), "lot", "lots"))
	return record.Noted{About: string(d.Place), Text: record.Text(strings.Join(slices.Insert(lines, 0, head), "\n"))}
}

// countedPage is all that templates/counted.html may show: the report of a count that was entered.
type countedPage struct {
	shell
	Place, PlaceURL, CountURL string
	Who, When                 string
	Head                      string
	Lines                     []string
}

var countedTemplate = parse[countedPage]("counted")

func (s *server) showCounted(w http.ResponseWriter, r *http.Request) {
	s.ofCold(w, r, func(c cold) func() {
		id, _ := record.ParseID(c.query.Get("note"))
		place := record.Place(c.query.Get("place"))
		v := countedPage{shell: s.inShell(r, c.book.Kitchen, "Stock taken", "count"), Place: c.placeName(place), PlaceURL: coldURL(placePath, c.query, "place", string(place)), CountURL: coldURL(countPath, c.query)}
		return func() {
			e, there, err := s.records.Entry(r.Context(), id)
			body, _ := record.Decode(e.Kind, e.Body)
			note, isNote := body.(record.Noted)
			if err != nil || !there || !isNote {
				s.missing(w, r, c.book, "There is no such count, or it was taken back.")
				return
			}
			lines := strings.Split(string(note.Text), "\n")
			v.Head, v.Lines, v.Who, v.When = lines[0], lines[1:], e.Who, s.whenText(e.Happened)
			countedTemplate.show(w, http.StatusOK, v)
		}
	})
}
