package web

import (
	"fmt"
	"math"
	"net/http"
	"net/url"

	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
)

// drillsPage is all that templates/drills.html may show: recalls that were done, and the beginning of one more.
type drillsPage struct {
	shell
	None   bool
	Wrong  string // why a recall was not begun
	Entry  string // id of what begins one
	Groups []askGroup
	Rows   []drillRow
	Rules  []string
}

// drillRow is a recall that was begun.
type drillRow struct {
	URL, Began, Who, What, Kind string
	Took, Ratio, Counts, Calls  string
	Verdict                     verdictView
	Note                        string
}

// runningDrill is the recall that a page belongs to.
type runningDrill struct {
	Kind, Began string
	BeganMs     string // for the clock
	Minutes     string
	Late        string // which benchmark has passed
	Entry       string // id of what ends it
	Kept        []kept
	Over        *drillRow // what it came to, once it has ended
}

var drillsTemplate = parse[drillsPage]("drills")

// drillRules are what a recall is held to, with where that stands.
var drillRules = []string{
	fmt.Sprintf("Passed is every pack accounted for, none of them twice, within %d hours. Effectiveness = (on hand + delivered + accounted losses) / made; a shortfall is over 2 h or under 100 %% (NC State Extension, recall checklist). Above 100 %% is a failure too: something was counted twice (common practice).", lots.RecallHours),
	fmt.Sprintf("A full trace both ways within %d hours is a benchmark common to certifications (pages on mock recalls).", lots.BothWaysHours),
}

func (s *server) showDrills(w http.ResponseWriter, r *http.Request) {
	s.drillsPage(w, r, http.StatusOK, askLots(url.Values{}, s.house.Now().Location()), "")
}

func (s *server) drillsPage(w http.ResponseWriter, r *http.Request, status int, a lotsAsked, wrong string) {
	book, _ := s.house.Book()
	v := drillsPage{shell: s.inShell(r, book.Kitchen, "Recall drills", "recall"), None: s.records == nil, Wrong: wrong, Entry: newEntryID(), Groups: a.groups(), Rules: drillRules}
	if s.records == nil {
		drillsTemplate.show(w, status, v)
		return
	}
	drills, err := s.records.Drills(r.Context())
	if err != nil {
		v.Wrong, status = sentence(err), http.StatusInternalServerError
	}
	for _, d := range drills {
		v.Rows = append(v.Rows, s.drillRow(d))
	}
	drillsTemplate.show(w, status, v)
}

func (s *server) drillRow(d lots.Drill) drillRow {
	q := url.Values{drillKey: {d.Entry.String()}}
	for _, lot := range d.Lots {
		q.Set(codeKey, joined(q.Get(codeKey), string(lot)))
	}
	row := drillRow{URL: recallPath + queryOf(q), Began: s.recallTime(d.Began), Who: d.Who, What: d.Asked, Kind: drillKind(d.Practice), Took: lasted(d.Minutes(s.nowMs())), Note: string(d.Note)}
	if row.What == "" {
		row.What = q.Get(codeKey)
	}
	v := d.Verdict(s.nowMs())
	row.Verdict = drillVerdict(d, v)
	if !d.Running() {
		row.Ratio, row.Counts, row.Calls = percent(v.Ratio), fmt.Sprintf("%d of %d", d.Found, d.Packs), fmt.Sprint(d.Calls)
	}
	return row
}

// joined puts two texts beside each other.
func joined(a, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + ", " + b
}

func drillKind(practice bool) string {
	if practice {
		return "practice"
	}
	return "in earnest"
}

func drillVerdict(d lots.Drill, v lots.Verdict) verdictView {
	var fails []string
	if !v.Whole && !d.Running() {
		fails = append(fails, fmt.Sprintf("%d of %d packs found, %s", d.Found, d.Packs, percent(v.Ratio)))
	}
	if !v.InTime {
		fails = append(fails, fmt.Sprintf("over %d h", lots.RecallHours))
	}
	if !v.InFour {
		fails = append(fails, fmt.Sprintf("over %d h", lots.BothWaysHours))
	}
	says := ""
	for _, f := range fails {
		says = joined(says, f)
	}
	switch {
	case d.Running():
		return verdictView{"caution", "▲", "RUNNING", says}
	case v.Pass:
		return verdictView{"note", "●", "PASSED", fmt.Sprintf("all %d packs, within %d h", d.Packs, lots.RecallHours)}
	}
	return verdictView{"stop", "■", "FAILED", says}
}

// lasted is a time that something took.
func lasted(m float64) string {
	whole := int(math.Floor(m))
	if whole < 60 {
		return fmt.Sprintf("%d min", whole)
	}
	return fmt.Sprintf("%d h %02d min", whole/60, whole%60)
}

// beginDrill begins a recall: the clock runs from the entry on.
func (s *server) beginDrill(w http.ResponseWriter, r *http.Request) {
	if err := r.ParseForm(); err != nil {
		s.refuse(w, r, http.StatusBadRequest, "The form cannot be read.")
		return
	}
	a := askLots(r.PostForm, s.house.Now().Location())
	if a.wrong || a.Empty() {
		s.drillsPage(w, r, http.StatusUnprocessableEntity, a, "Say which lots are meant, by one field at least.")
		return
	}
	report, _, err := s.records.Recall(r.Context(), a.Ask, s.nowMs())
	if lot, unknown := unknownLot(err); unknown {
		s.drillsPage(w, r, http.StatusUnprocessableEntity, a, fmt.Sprintf("No entry names a lot “%s”.", lot))
		return
	}
	if misread(err) {
		s.drillsPage(w, r, http.StatusUnprocessableEntity, a, sentence(err))
		return
	}
	if err != nil {
		s.refuse(w, r, http.StatusInternalServerError, sentence(err))
		return
	}
	if len(report.Of) == 0 {
		s.drillsPage(w, r, http.StatusUnprocessableEntity, a, "No lot fits: ask for less, part of a name will do.")
		return
	}
	q := askOnly(r.PostForm)
	q.Set(drillKey, r.PostForm.Get(entryField))
	s.enter(w, r, recallPath+queryOf(q), record.Drilled{Lots: report.Of, Practice: r.PostForm.Get("practice") != "no", Began: s.nowMs(), Asked: short(a.words())})
}

// mostWord is how long a word of an entry may be, in bytes.
const mostWord = 200

// short cuts words to what an entry takes.
func short(words string) string {
	for len(words) > mostWord {
		r := []rune(words)
		words = string(r[:len(r)-1])
	}
	return words
}

// endDrill ends a recall with what it came to: an entry that corrects the one that began it.
func (s *server) endDrill(w http.ResponseWriter, r *http.Request) {
	if err := r.ParseForm(); err != nil {
		s.refuse(w, r, http.StatusBadRequest, "The form cannot be read.")
		return
	}
	d, ok := s.drillOf(r, r.PostForm.Get(drillKey))
	a := askLots(r.PostForm, s.house.Now().Location())
	switch {
	case !ok || a.wrong || a.Empty():
		s.refuse(w, r, http.StatusUnprocessableEntity, "It is not said which recall is ended, and about which lots.")
		return
	case !d.Running():
		s.refuse(w, r, http.StatusConflict, "This recall has ended already. What it came to stays as it is.")
		return
	}
	report, _, err := s.records.Recall(r.Context(), a.Ask, s.nowMs())
	if err != nil || len(report.Of) == 0 {
		s.refuse(w, r, http.StatusUnprocessableEntity, "No lot fits what was asked: ask again, then end it.")
		return
	}
	report.Asked = short(a.words())
	done := report.Outcome(d.Drilled, s.nowMs())
	done.Note = record.Text(tidyLines(r.PostForm.Get("note")))
	s.correct(w, r, recallPath+queryOf(askAndDrill(r.PostForm)), d.Entry, done)
}

// drillOf is the drill with an id.
func (s *server) drillOf(r *http.Request, text string) (lots.Drill, bool) {
	id, err := record.ParseID(text)
	if err != nil {
		return lots.Drill{}, false
	}
	drills, err := s.records.Drills(r.Context())
	if err != nil {
		return lots.Drill{}, false
	}
	for _, d := range drills {
		if d.Entry == id {
			return d, true
		}
	}
	return lots.Drill{}, false
}

// runningDrill is the recall that an address belongs to; nil when it names none.
func (s *server) runningDrill(r *http.Request, query url.Values, a lotsAsked) *runningDrill {
	d, ok := s.drillOf(r, query.Get(drillKey))
	if !ok {
		return nil
	}
	row := s.drillRow(d)
	v := &runningDrill{Kind: row.Kind, Began: row.Began, BeganMs: fmt.Sprint(int64(d.Began)), Minutes: row.Took, Late: row.Verdict.Says, Entry: newEntryID(), Kept: keep(query, "units")}
	if !d.Running() {
		v.Over = &row
	}
	return v
}
