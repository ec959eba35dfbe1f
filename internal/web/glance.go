package web

import (
	"cmp"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"kettlefrost/internal/draw"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// glancePage is all that templates/glance.html may show: a run in short, its targets, and the way to its parts.
type glancePage struct {
	runHead
	Note    string
	Fixed   []string
	Form    form
	Keep    keepRun
	Kept    string       // what was done with the run just now
	Blocked findingsView // what is wrong with the book, when it cannot be planned with
	Glance  *glanceView  // nil when there is no plan
}

// form changes the targets of a run.
type form struct {
	Action string
	Kept   []kept // what else the query says
	Reset  string // address with the book's targets; "" where the book has none
	Fields []field
	Open   bool // something was asked for
	Wrong  bool
}

// glanceView is a plan in short.
type glanceView struct {
	Tally string
	Worst string
	Grave []graveLine
	All   string // address of all findings
	Head  []keyFigure
	Made  []madeLine
	Next  nextView    // when the run is on
	First []firstLine // when it is not
	Cards []partCard
	JSON  string
}

// graveLine is a finding that matters, in one line.
type graveLine struct {
	Class, Word, Sign string
	Where, Message    string
	Fix               string // of a stop
	Part              link   // where a cook acts on it
}

// keyFigure is a figure in big type.
type keyFigure struct {
	Title string
	Value figure
	More  string
}

// madeLine is one kind of pack.
type madeLine struct {
	Count int
	Name  string
	Says  string
}

// firstLine is something to do before the run, or as it begins.
type firstLine struct{ When, What string }

// partCard leads to a part of the run with what stands there in one line.
type partCard struct {
	link
	Says  string
	Grave string // "2 cautions"
	Class string
	Sign  string
}

func (s *server) showGlance(w http.ResponseWriter, r *http.Request, d runDay, head runHead) {
	glanceTemplate.show(w, http.StatusOK, s.viewGlance(r, d.asked, &d, head))
}

// viewGlance is the page of a run, with its plan if there is one.
func (s *server) viewGlance(r *http.Request, a asked, made *runDay, head runHead) glancePage {
	query := r.URL.Query()
	v := glancePage{runHead: head, Note: a.book.Kitchen.Note, Fixed: fixed(a.book, a.run), Form: targetForm(a, query), Keep: s.keepRunOf(r, a), Kept: keptRunText(r)}
	v.Title = a.run.Name
	if v.Kept != "" && len(runChanges(a)) > 0 {
		v.Kept = ""
	}
	switch {
	case made != nil:
		v.Glance = viewPlanInShort(*made, readerOf(a.book.Kitchen, r), query)
	case a.found.Worst() >= finding.Stop:
		v.Blocked = viewFindings(a.found)
	}
	return v
}

func targetForm(a asked, query url.Values) form {
	f := form{Action: runPath(a.name), Fields: a.fields, Wrong: wrong(a.fields)}
	var keys []string
	rest := across(query)
	for _, x := range a.fields {
		keys = append(keys, x.Key)
		f.Open = f.Open || query.Has(x.Key) && !a.made
		rest.Del(x.Key)
	}
	f.Kept = keep(query, keys...)
	if !a.made {
		f.Reset = f.Action + queryOf(rest)
	}
	return f
}

func viewPlanInShort(d runDay, rd reader, query url.Values) *glanceView {
	path, p := runPath(d.name), d.plan
	all := viewFindings(p.Findings)
	v := &glanceView{Tally: all.Tally, Worst: all.Worst, All: partURL(path, "findings", query), Head: viewSummary(p, rd), Next: viewNext(d, path, queryOf(query)), JSON: path + ".json" + queryOf(query)}
	for _, f := range p.Findings {
		if f.Severity > finding.Note {
			v.Grave = append(v.Grave, viewGrave(f, path, query))
		}
	}
	for _, f := range p.Fill {
		v.Made = append(v.Made, madeLine{f.Count, f.Name, strings.Join(fillRange(f), "; ")})
	}
	if d.now == nil {
		v.First = firstOf(d, rd)
	}
	v.Cards = partCards(d, rd, query)
	return v
}

func viewGrave(f finding.Finding, path string, query url.Values) graveLine {
	v := graveLine{Class: f.Severity.String(), Word: strings.ToUpper(f.Severity.String()), Sign: signs[f.Severity], Where: f.Where, Message: f.Message}
	if f.Severity >= finding.Stop {
		v.Fix = f.Fix
	}
	key := string(placeOf(f))
	at := slices.IndexFunc(parts, func(x part) bool { return x.key == key })
	v.Part = link{parts[at].title, partURL(path, key, query)}
	return v
}

// fillRange is how many packs were asked for, and how many there may be.
func fillRange(f plan.PackFill) []string {
	var says []string
	if f.Wanted > 0 && f.Wanted != f.Count {
		says = append(says, fmt.Sprintf("%d were asked for", f.Wanted))
	}
	if f.Low != f.Count || f.High != f.Count {
		says = append(says, fmt.Sprintf("%d to %d, by how the yields turn out", f.Low, f.High))
	}
	return says
}

// firstOf is what is to be done before a run, by its day, and what each person begins with.
func firstOf(d runDay, rd reader) []firstLine {
	var lines []firstLine
	for _, o := range d.plan.Buy.Orders {
		if o.OrderBy != "" {
			lines = append(lines, firstLine{"by " + o.OrderBy, "order from " + o.Name + ", " + rd.money(o.Goods)})
		}
	}
	slices.SortStableFunc(lines, func(a, b firstLine) int { return strings.Compare(a.When, b.When) })
	orders, t := len(lines), d.plan.Timetable
	for _, list := range viewFacts(d.plan, draw.NewCodes(d.plan.Dishes)).Lists {
		if i := slices.IndexFunc(list.Turns, func(x turn) bool { return !x.Away }); i >= 0 && len(t.Tasks) > 0 {
			x := list.Turns[i]
			lines = append(lines, firstLine{x.From, strings.TrimSpace(list.Name + ": " + x.Code + " " + x.Label)})
		}
	}
	slices.SortStableFunc(lines[orders:], func(a, b firstLine) int { // 00:10+1 is after 06:00
		return cmp.Or(cmp.Compare(len(a.When), len(b.When)), strings.Compare(a.When, b.When))
	})
	return lines
}

func viewSummary(p plan.Plan, r reader) []keyFigure {
	s := p.Summary
	head := []keyFigure{{Title: "Packs", Value: figure{First: fmt.Sprint(s.Packs)}}, {Title: "Food in them", Value: r.fig(s.FoodMass)}}
	if len(p.Timetable.Tasks) > 0 {
		head = append(head, keyFigure{Title: "Start – end", Value: figure{First: s.Start.String() + " – " + s.End.String()}, More: ending(p.Timetable)})
	}
	head = append(head, keyFigure{Title: "Hands-on work", Value: figure{First: s.HandsOn.Show(r.units)}, More: "of all people together"})
	head = append(head, keyFigure{Title: "To spend on ingredients", Value: figure{First: r.money(s.BuyTotal)}})
	return append(head, keyFigure{Title: "Cost of the packs", Value: figure{First: costOf(s, r)}, More: costSays(s)})
}

func costOf(s plan.Summary, r reader) string {
	if s.CostLower {
		return "at least " + r.money(s.CostTotal)
	}
	return r.money(s.CostTotal)
}

func costSays(s plan.Summary) string {
	if s.CostLower {
		return "all that they bear, from food to overhead; some prices are not known"
	}
	return "all that they bear, from food to overhead"
}

// ending says how far the timetable can be trusted to be the shortest.
func ending(t plan.Timetable) string {
	switch t.Status {
	case "optimal":
		return "No shorter day is possible with these people and this equipment"
	case "feasible":
		return "A shorter day may exist, but none under " + t.Bound.Show(unit.US)
	}
	return ""
}
