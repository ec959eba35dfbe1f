package web

import (
	"cmp"
	"context"
	"errors"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/packlabel"
	"kettlefrost/internal/record"
)

// packLabelPage is all that templates/packlabel.html may show: the label of a pack.
type packLabelPage struct {
	shell
	Name     string
	State    verdictView
	Ask      []field // which label
	Small    smallForm
	Problem  string
	Shown    *labelShown
	Print    *labelForm
	Ready    *labelReady // labels were entered just now: their file
	AllURL   string
	JSON     string
	Printing string // who may, and why not here
}

// labelReady is the file of labels that were entered.
type labelReady struct{ URL, Says string }

// labelForm prints labels.
type labelForm struct {
	Action, Entry string
	Kept          []kept
	Fields        []field
	Counts, Off   string
	Old           string // labels that were printed before are not those of today
	Problem       string
	Button        string
}

var packLabelTemplate = parse[packLabelPage]("packlabel")

func (s *server) showPackLabel(w http.ResponseWriter, r *http.Request) {
	s.packLabel(w, r, http.StatusOK, r.URL.Query(), nil)
}

// labelAsked is the label that was asked for, with what was printed of its lot.
type labelAsked struct {
	made  *app.LabelMade
	sheet app.LabelSheet
	count app.LabelCount
}

func (s *server) labelAsked(ctx context.Context, book kitchen.Book, ask app.LabelAsk) (*labelAsked, error) {
	made, err := s.labels.Make(ctx, book, ask)
	if err != nil {
		return nil, err
	}
	a := &labelAsked{made: made}
	var printed []app.LabelPrint
	var count *app.LabelCount
	if !made.Draft() {
		err = s.records.Labelled(ctx, func(p *app.LabelsPrinted, _ *lots.State, _ finding.List) error {
			printed, a.count = slices.Clone(p.Of(ask.Lot)), p.Count(ask.Lot, made.Packs.Count())
			return nil
		})
		count = &a.count
	}
	a.sheet = made.Sheet(printed, count)
	return a, err
}

// packLabel shows a label, or what is wrong with what was asked; form is what was typed to print, with what kept that out.
func (s *server) packLabel(w http.ResponseWriter, r *http.Request, status int, form url.Values, wrong error) {
	book, _ := s.house.Book()
	v := packLabelPage{shell: s.inShell(r, book.Kitchen, "Label", "labels"), AllURL: labelURL(packLabelsPath, form, packKey, "", labelLot, "", labelTongue, "", labelStock, "", labelRules, "", labelRun, "", labelWithout, ""), JSON: labelURL(packLabelPath+".json", form)}
	ask, bad := labelTyped(form.Get)
	var a *labelAsked
	var err error
	if bad == nil {
		a, err = s.labelAsked(r.Context(), book, ask)
	}
	if r.Context().Err() != nil {
		return // nobody waits for it any more
	}
	v.Ask, v.Small = s.labelFields(r.Context(), book, form), smallFormOf(form, bad)
	v.Small.Kept = keepOf(form, packKey, labelLot, labelRun, labelTongue, labelStock, labelRules)
	if bad != nil {
		v.Problem, status = bad.Says, http.StatusUnprocessableEntity
	}
	if err != nil {
		var known bool
		v.Problem = beside(v.Ask, err)
		if known, status = labelStatus(err, ask); !known {
			v.Problem = "No label can be made: " + sentence(err)
		}
	}
	v.Name = cmp.Or(book.Packs[ask.Pack].Name, "Label")
	if a != nil {
		s.fillPackLabel(&v, r, a, form, wrong)
	}
	v.Title = v.Name + ", label"
	packLabelTemplate.show(w, status, v)
}

// labelStatus is the status for why no label was made, and whether it was asked for wrongly.
func labelStatus(err error, ask app.LabelAsk) (bool, int) {
	var why *coldstore.Refusal
	var unknown *packlabel.AskedError
	switch {
	case errors.As(err, &why) && (why.Field == packKey || why.Field == labelLot && ask.Lot != ""):
		return true, http.StatusNotFound
	case errors.As(err, &why):
		return true, http.StatusUnprocessableEntity
	case errors.As(err, &unknown):
		return true, http.StatusNotFound
	}
	return false, http.StatusUnprocessableEntity
}

// keepOf is some of what was typed, to be sent again.
func keepOf(form url.Values, keys ...string) (all []kept) {
	for _, key := range append([]string{"units"}, keys...) {
		if text := tidy(form.Get(key)); text != "" {
			all = append(all, kept{key, text})
		}
	}
	return all
}

func (s *server) fillPackLabel(v *packLabelPage, r *http.Request, a *labelAsked, form url.Values, wrong error) {
	m := a.made
	v.Name = cmp.Or(m.Book.Packs[m.Label.Pack].Name, string(m.Label.Pack))
	v.State = madeVerdict(a)
	v.Shown = s.labelShown(a, form)
	if m.Draft() {
		v.Printing = "A draft is never printed: choose a lot that was packed."
	}
	if m.Stops() != nil || s.records == nil {
		return
	}
	v.Print = s.labelFormOf(a, form, wrong)
	if did := r.URL.Query().Get("did"); did != "" {
		if first, n, ok := readDid(did); ok && s.labelsEntered(r.Context(), first, n, m.Ask.Lot) > 0 {
			v.Ready = &labelReady{URL: labelURL(labelPDFPath, r.URL.Query(), packKey, string(m.Ask.Pack), "did", did, labelStart, tidy(r.URL.Query().Get(labelStart)), labelSkip, tidy(r.URL.Query().Get(labelSkip))),
				Says: times(int(s.labelsEntered(r.Context(), first, n, m.Ask.Lot)), "label", "labels")}
		}
	}
}

// labelsEntered is how many labels of a lot some entries are.
func (s *server) labelsEntered(ctx context.Context, first record.ID, n int, lot record.Lot) (count int64) {
	for i := range n {
		e, there, err := s.records.Entry(ctx, app.PartID(first, i))
		if err != nil || !there {
			return 0
		}
		body, _ := record.Decode(e.Kind, e.Body)
		b, is := body.(record.Labelled)
		if !is || b.Lot != lot {
			return 0
		}
		count += b.Count
	}
	return count
}

// madeVerdict is how a label stands.
func madeVerdict(a *labelAsked) verdictView {
	stop := a.made.Stops()
	switch {
	case a.made.Draft() && a.made.Withheld():
		return verdictView{Class: "stop", Sign: signs[finding.Stop], Word: "DRAFT, WITHHELD", Says: "something stops it: see below"}
	case a.made.Draft():
		return verdictView{Class: "caution", Sign: signs[finding.Caution], Word: "DRAFT", Says: "of no lot: never printed"}
	case len(a.made.Held) > 0:
		return verdictView{Class: "stop", Sign: signs[finding.Stop], Word: "ON HOLD", Says: sentence(stop)}
	case stop != nil:
		return verdictView{Class: "stop", Sign: signs[finding.Stop], Word: "WITHHELD", Says: capital(strings.TrimPrefix(stop.Problem, "the label is withheld: ")) + ". What to do stands below."}
	case a.sheet.Open.Worst() == finding.Caution:
		return verdictView{Class: "caution", Sign: signs[finding.Caution], Word: "PRINTS", Says: "look at what is asked below first"}
	}
	return verdictView{Class: "note", Sign: signs[finding.Note], Word: "PRINTS", Says: "nothing is missing that the program knows of; an authority's approval it is not"}
}
