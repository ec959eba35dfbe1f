package browsertest

import (
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// A cook enters the drafted plan, the owner enters what the qualified person said, and the paper no longer says draft.
func TestAHazardPlanIsEnteredAndReviewed(t *testing.T) {
	p := open(t, tablet)
	base := serve(t)
	p.do(chromedp.Navigate(base + "/hazards/plan?pack=tomato-fennel-lb"))
	p.do(until(`document.querySelector('.flowpicture img').naturalWidth > 300`))
	p.press(".targets button")
	p.do(chromedp.SendKeys(chromedp.ID("who"), "Ada")) // nobody has said so far
	p.press("main button")
	if got := eval[string](p, `document.querySelector('.tally').textContent`); !strings.Contains(got, "IN REVIEW") {
		t.Fatalf("it stands as %q", got)
	}
	if got := eval[string](p, `document.querySelector('.did').textContent`); !strings.Contains(got, "a version of the hazard plan of tomato-fennel-lb") {
		t.Errorf("what was entered reads %q", got)
	}
	p.press(".version a.button")
	retype(p, chromedp.ID("f-reviewer"), "R. Vance")
	retype(p, chromedp.ID("f-qualified"), "HACCP course of 2025")
	p.do(chromedp.SetValue(chromedp.ID("f-outcome"), "accepted"))
	p.shoot("hazard-review")
	p.press("main form button")
	if got := eval[string](p, `document.querySelector('.tally').textContent`); !strings.Contains(got, "ACCEPTED") {
		t.Fatalf("it stands as %q", got)
	}
	p.do(chromedp.Navigate(base + "/hazards/print?pack=tomato-fennel-lb"))
	if got := eval[string](p, `document.querySelector('.onevery').textContent`); strings.Contains(got, "DRAFT") || !strings.Contains(got, "R. Vance (HACCP course of 2025)") {
		t.Errorf("the head of each page reads %q", got)
	}
}

// On paper a draft says so on every page, and there is nothing to press.
func TestTheHazardPlanOnPaper(t *testing.T) {
	p := open(t, screen{name: "paper", width: 720, height: 1000})
	p.do(chromedp.Navigate(serve(t) + "/hazards/print?pack=meatballs-six"))
	p.do(until(`document.querySelector('.flowpicture img').naturalWidth > 300`))
	if got := eval[string](p, `document.querySelector('.paper > thead').textContent`); !strings.Contains(got, "DRAFT") || !strings.Contains(got, "usually needs an approved plan") {
		t.Errorf("the head of each page reads %q", got)
	}
	call(p, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"})
	if got := eval[string](p, `getComputedStyle(document.querySelector('.paper > thead')).display`); got != "table-header-group" { // which every browser prints again on each page
		t.Errorf("the head is shown as %q", got)
	}
	if tall := eval[int64](p, `Math.round(document.querySelector('.flowpicture img').getBoundingClientRect().height)`); tall > 740 { // 279 mm of letter paper less margins and head
		t.Errorf("the flow is %d px high and would be torn apart", tall)
	}
	if got := eval[[]string](p, `['.top', '.links'].filter(s => getComputedStyle(document.querySelector(s)).display !== 'none')`); len(got) > 0 {
		t.Errorf("%q are printed", got)
	}
	pdf := value(p, chromedp.PrintToPDF(chromedp.PDFPaper(chromedp.PaperLetter)))
	if sheets := len(sheetMark.FindAll(pdf, -1)); sheets < 5 || sheets > 16 {
		t.Errorf("%d sheets", sheets)
	}
}
