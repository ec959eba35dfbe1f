package web

import (
	"fmt"
	"net/http"
	"strings"

	"kettlefrost/internal/draw"
	"kettlefrost/internal/pdf"
)

// trialSheetPage is all that templates/trialsheet.html may show: codes and labels on paper.
type trialSheetPage struct {
	shell
	Back   string
	PDF    string
	Trial  string
	Dish   string
	Asks   string
	Weeks  []sheetWeek
	Labels []packLabel
}

// sheetWeek is a week for who portions: which code is which variant, and who gets what in which order.
type sheetWeek struct {
	Title string
	Due   string
	Codes []codeRow
	Rows  []servedRow
}

type codeRow struct{ Code, Variant string }
type servedRow struct{ Taster, Codes string }

// packLabel is stuck on a pack: it says the code, and nothing of what is in it.
type packLabel struct{ Trial, Code, Pack, Open string }

var trialSheetTemplate = parse[trialSheetPage]("trialsheet")

func (s *server) showTrialSheet(w http.ResponseWriter, r *http.Request, o onTrial) {
	v := trialSheetPage{shell: s.inShell(r, o.book.Kitchen, "Codes and labels", "trials"), Back: trialURL(o.t.Name, "", o.query), PDF: trialURL(o.t.Name, "sheet.pdf", o.query), Trial: o.t.Name, Dish: o.dish(), Asks: oneLine(string(o.t.Laid.Body.Asks)), Weeks: o.sheetWeeks(), Labels: o.labels()}
	trialSheetTemplate.show(w, http.StatusOK, v)
}

func (o onTrial) sheetWeeks() []sheetWeek {
	var all []sheetWeek
	b := o.t.Laid.Body
	for _, x := range o.t.Openings(o.today) {
		week := sheetWeek{Title: weekText(x.Week), Due: "once all batches are in the freezer"}
		if x.Due != "" {
			week.Due = trialDay(x.Due)
		}
		for i, variant := range b.Variants {
			week.Codes = append(week.Codes, codeRow{o.t.CodeOf(i, x.Week), variant.Name})
		}
		if o.tastes() {
			for i, name := range b.Tasters {
				week.Rows = append(week.Rows, servedRow{name, strings.Join(o.t.Served(i, x.Week), " · ")})
			}
		}
		all = append(all, week)
	}
	return all
}

// labels are those of all packs, variant by variant: they are stuck on while a batch is packed.
func (o onTrial) labels() []packLabel {
	var all []packLabel
	b := o.t.Laid.Body
	openings := o.t.Openings(o.today)
	for i := range b.Variants {
		for _, x := range openings {
			for number := int64(1); number <= b.Packs; number++ {
				l := packLabel{Trial: o.t.Name, Code: o.t.CodeOf(i, x.Week), Pack: fmt.Sprintf("pack %d of %d", number, b.Packs), Open: weekText(x.Week)}
				if x.Due != "" {
					l.Open += ", " + trialDay(x.Due)
				}
				all = append(all, l)
			}
		}
	}
	return all
}

func (s *server) showTrialPDF(w http.ResponseWriter, _ *http.Request, o onTrial) {
	writePDF(w, o.t.Name+".pdf", o.paper(int64(s.instant())))
}

// Labels on a page: three beside each other, as many below each other as are read at arm's length.
const labelsAPage = 24

// paper is the sheet and the labels as a document.
func (o onTrial) paper(nowMs int64) pdf.Document {
	doc := pdf.Document{Title: "Codes and labels of " + o.t.Name, Subject: "trial", Head: o.t.Name + ", " + o.dish() + ": for who portions", Foot: "not for tasters", MadeMs: nowMs, Blocks: []pdf.Block{
		pdf.Title{Text: "Trial " + o.t.Name, Below: o.dish() + ". " + oneLine(string(o.t.Laid.Body.Asks))},
		pdf.Paragraph{Text: "Only for who portions. Whoever tastes must not see which code is which.", Tone: pdf.Loud}}}
	for _, x := range o.sheetWeeks() {
		codes := pdf.Table{Name: "Which is which", Columns: []pdf.Column{{Name: "code"}, {Name: "variant"}}}
		for _, c := range x.Codes {
			codes.Rows = append(codes.Rows, pdf.Row{Cells: []string{c.Code, c.Variant}})
		}
		doc.Blocks = append(doc.Blocks, pdf.Heading{Level: 2, Text: x.Title}, pdf.Paragraph{Text: "Opened: " + x.Due}, codes)
		if len(x.Rows) > 0 {
			order := pdf.Table{Name: "In this order", Columns: []pdf.Column{{Name: "taster"}, {Name: "codes"}}}
			for _, t := range x.Rows {
				order.Rows = append(order.Rows, pdf.Row{Cells: []string{t.Taster, t.Codes}})
			}
			doc.Blocks = append(doc.Blocks, order)
		}
	}
	labels := o.labels()
	for from := 0; from < len(labels); from += labelsAPage {
		page := draw.Labels{}
		for _, l := range labels[from:min(len(labels), from+labelsAPage)] {
			page.Labels = append(page.Labels, draw.Label{Big: l.Code, Lines: []string{l.Trial, l.Pack, "open: " + l.Open}})
		}
		doc.Blocks = append(doc.Blocks, pdf.Heading{Level: 2, Text: "Labels for the packs", Page: true}, pdf.Figure{Picture: page.Picture()})
	}
	return doc
}
