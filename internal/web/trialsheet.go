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
	Labels []batchLabels
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

// batchLabels are those of one batch, stuck on while it is packed.
type batchLabels struct {
	Variant string
	Labels  []packLabel
}

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

// labels are those of all packs, batch by batch.
func (o onTrial) labels() []batchLabels {
	var all []batchLabels
	b := o.t.Laid.Body
	openings := o.t.Openings(o.today)
	for i, variant := range b.Variants {
		batch := batchLabels{Variant: variant.Name}
		for _, x := range openings {
			open := fmt.Sprintf("open %s after freezing", times(int(x.Week), "week", "weeks"))
			if x.Due != "" {
				open = "open: " + trialDay(x.Due)
			}
			for number := int64(1); number <= b.Packs; number++ {
				batch.Labels = append(batch.Labels, packLabel{Trial: o.t.Name, Code: o.t.CodeOf(i, x.Week), Pack: fmt.Sprintf("week %d, pack %d of %d", x.Week, number, b.Packs), Open: open})
			}
		}
		all = append(all, batch)
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
	for i, batch := range o.labels() {
		for from := 0; from < len(batch.Labels); from += labelsAPage {
			page := draw.Labels{}
			for _, l := range batch.Labels[from:min(len(batch.Labels), from+labelsAPage)] {
				page.Labels = append(page.Labels, draw.Label{Big: l.Code, Lines: []string{l.Trial, l.Pack, l.Open}})
			}
			doc.Blocks = append(doc.Blocks, pdf.Heading{Level: 2, Text: "Labels for the packs of " + batch.Variant, Page: i == 0 || from > 0}, pdf.Figure{Picture: page.Picture()})
		}
	}
	return doc
}
