package web

import (
	"fmt"
	"net/http"
	"net/url"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/finding"
)

// packLabelsPage is all that templates/packlabels.html may show: how the labels of all packs stand.
type packLabelsPage struct {
	shell
	None    bool // no records are kept
	Problem string
	Says    string
	Changed []labelChangedView
	Rows    []labelStateView
	Form    smallForm
	JSON    string
}

// smallForm asks how small the business is.
type smallForm struct {
	Open   bool // something was typed
	Fields []field
	Kept   []kept
}

// labelStateView is how the label of one pack stands.
type labelStateView struct {
	URL, Name string
	State     verdictView
	Sides     string
	Asks      []labelAskView // the first of what is open
	More      string
	Lots      []labelLotView
}

// labelAskView is something open, with where to answer it.
type labelAskView struct {
	findingView
	URL string // of the file of the book; "" where that is not kept here
}

// labelLotView is a lot with its labels.
type labelLotView struct {
	URL, Lot, LotURL string
	Packed, Best     string
	OnHand           string
	Counts           string
	Off              string // how many labels are missing, or too many
	Held             string
}

// labelChangedView is a lot that carries labels which the book would no longer print.
type labelChangedView struct {
	Class, Sign, Word    string
	URL, LotURL, HoldURL string
	Lot, Name            string
	OnHand               string
	Changes              []labelChangeView
}

type labelChangeView struct{ Sign, What, Was, Is string }

var packLabelsTemplate = parse[packLabelsPage]("packlabels")

// mostAsks is how many open questions a list shows of one pack.
const mostAsks = 3

func (s *server) showPackLabels(w http.ResponseWriter, r *http.Request) {
	book, _ := s.house.Book()
	query := r.URL.Query()
	small, bad := businessTyped(query.Get)
	v := packLabelsPage{shell: s.inShell(r, book.Kitchen, "Labels", "labels"), None: s.records == nil, JSON: labelURL(packLabelsPath+".json", query), Form: smallFormOf(query, bad)}
	status := http.StatusOK
	if bad != nil {
		status = http.StatusUnprocessableEntity
	}
	list, err := s.labels.List(r.Context(), book, small)
	if err != nil {
		v.Problem, status = sentence(err), http.StatusInternalServerError
	}
	v.Says = list.Says
	for _, c := range list.Changed {
		v.Changed = append(v.Changed, changedView(c, query))
	}
	for _, p := range list.Packs {
		v.Rows = append(v.Rows, s.labelStateView(p, query))
	}
	packLabelsTemplate.show(w, status, v)
}

func smallFormOf(query url.Values, bad *fieldProblem) smallForm {
	f := smallForm{Kept: keep(query, labelStaff, labelYearly, labelWithout, "did"), Open: query.Get(labelStaff)+query.Get(labelYearly) != "", Fields: []field{
		{Key: labelStaff, Label: "People who work here", Hint: "full-time; two halves are one; empty: not known, no exemption", Value: tidy(query.Get(labelStaff)), Number: true},
		{Key: labelYearly, Label: "Packs of this product sold in a year", Hint: "in the United States; empty: not known", Value: tidy(query.Get(labelYearly)), Number: true}}}
	for i := range f.Fields {
		if bad != nil && bad.Key == f.Fields[i].Key {
			f.Fields[i].Problem = bad.Says
		}
	}
	return f
}

func (s *server) labelStateView(p app.LabelState, query url.Values) labelStateView {
	v := labelStateView{URL: labelURL(packLabelPath, query, packKey, p.Pack), Name: p.Name, State: labelVerdict(p)}
	if p.Sides > 1 {
		v.Sides = "a front and a back, on " + p.Stock
	} else if p.Sides == 1 {
		v.Sides = "one label, on " + p.Stock
	}
	for _, f := range p.Open[:min(len(p.Open), mostAsks)] {
		v.Asks = append(v.Asks, s.labelAsk(f))
	}
	if more := len(p.Open) - len(v.Asks); more > 0 {
		v.More = times(more, "more question", "more questions")
	}
	for _, l := range p.Lots {
		v.Lots = append(v.Lots, labelLotOf(l, p.Pack, query))
	}
	return v
}

// labelVerdict is how a label stands, in a word with a sign.
func labelVerdict(p app.LabelState) verdictView {
	switch {
	case !p.Prints:
		return verdictView{Class: "stop", Sign: signs[finding.Stop], Word: "WITHHELD", Says: times(p.Stops, "thing stops it", "things stop it")}
	case p.Worst == finding.Caution.String():
		return verdictView{Class: "caution", Sign: signs[finding.Caution], Word: "PRINTS", Says: "look at what is asked first"}
	}
	return verdictView{Class: "note", Sign: signs[finding.Note], Word: "PRINTS", Says: "nothing is missing that the program knows of; an authority's approval it is not"}
}

// labelAsk is something open, and the file of the book where it is answered.
func (s *server) labelAsk(f finding.Finding) labelAskView {
	v := labelAskView{findingView: viewFinding(f)}
	if house, is := s.house.(interface{ InRecords() bool }); is && house.InRecords() && f.At != nil && f.At.File != "" {
		v.URL = bookFilePath + "?" + url.Values{"file": {f.At.File}}.Encode()
	}
	return v
}

func labelLotOf(l app.LabelLot, pack string, query url.Values) labelLotView {
	v := labelLotView{URL: labelURL(packLabelPath, query, packKey, pack, labelLot, string(l.Lot)), Lot: string(l.Lot), LotURL: lotURL(lotPath, l.Lot, query), Packed: string(l.Packed), Best: string(l.BestBefore),
		OnHand: times(int(l.OnHand), "pack", "packs"), Counts: countWords(l.Count), Off: offWords(l.Count)}
	if len(l.Held) > 0 {
		v.Held = l.Held[0].Why
	}
	return v
}

// countWords is how many labels were printed for how many packs.
func countWords(c app.LabelCount) string {
	text := fmt.Sprintf("%s, %s printed", times(int(c.Packs), "pack", "packs"), times(int(c.Printed), "label", "labels"))
	if c.Replaced > 0 {
		text += fmt.Sprintf(", %d of them in place of others", c.Replaced)
	}
	return text
}

// offWords is how many labels are missing or too many; "" when there is one for each pack.
func offWords(c app.LabelCount) string {
	switch {
	case c.Difference < 0:
		return times(int(-c.Difference), "pack has no label", "packs have no label")
	case c.Difference > 0:
		return times(int(c.Difference), "label too many", "labels too many")
	}
	return ""
}

// labelSigns are the signs of severities by their words.
var labelSigns = map[string]string{"stop": signs[finding.Stop], "caution": signs[finding.Caution], "note": signs[finding.Note]}

func changedView(c app.LabelChanged, query url.Values) labelChangedView {
	v := labelChangedView{Class: c.Worst, Sign: labelSigns[c.Worst], Word: map[bool]string{true: "ALLERGENS CHANGED", false: "CHANGED"}[c.Worst == finding.Stop.String()], URL: labelURL(packLabelPath, query, packKey, c.Pack, labelLot, string(c.Lot)), LotURL: lotURL(lotPath, c.Lot, query), HoldURL: coldURL("/stock/handle", query, "do", "hold", "code", string(c.Lot)),
		Lot: string(c.Lot), Name: c.Name, OnHand: fmt.Sprintf("%s on hand, %s", times(int(c.OnHand), "pack", "packs"), times(int(c.Labels), "old label", "old labels"))}
	if c.Gone {
		v.Changes = append(v.Changes, labelChangeView{Sign: signs[finding.Caution], What: "the pack", Was: "in the book", Is: "no longer there, or cannot be made"})
	}
	for _, x := range c.Changes {
		v.Changes = append(v.Changes, labelChangeView{labelSigns[x.Severity], x.What, orNothingSaid(x.Was), orNothingSaid(x.Is)})
	}
	return v
}

func orNothingSaid(text string) string {
	if strings.TrimSpace(text) == "" {
		return "nothing"
	}
	return text
}

func (s *server) showPackLabelsJSON(w http.ResponseWriter, r *http.Request) {
	book, _ := s.house.Book()
	small, bad := businessTyped(r.URL.Query().Get)
	if bad != nil {
		writeJSON(w, http.StatusUnprocessableEntity, refusal{Error: bad.Says})
		return
	}
	list, err := s.labels.List(r.Context(), book, small)
	if err != nil {
		writeJSON(w, http.StatusInternalServerError, refusal{Error: sentence(err)})
		return
	}
	writeJSON(w, http.StatusOK, list)
}
