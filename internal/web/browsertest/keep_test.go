package browsertest

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// At the tablet how a pack has kept is pressed: large, marked by more than colour, and nothing is sent as long as nothing is pressed.
func TestTastingAtTheTablet(t *testing.T) {
	p := open(t, tablet)
	p.do(chromedp.Navigate(serve(t)+"/workshop/retained/taste?code=P-soup%2322"), chromedp.WaitVisible(chromedp.CSS(`.verdicts`)))
	if low := eval[float64](p, `Math.min(...[...document.querySelectorAll('.verdicts label')].map(e => e.getBoundingClientRect().height))`); low < 80 {
		t.Errorf("%g px to press", low)
	}
	p.do(chromedp.Click(chromedp.CSS(`.tasting > button`)))
	if at := eval[string](p, `location.pathname`); at != "/workshop/retained/taste" {
		t.Fatalf("it was sent without a verdict: %s", at)
	}
	p.do(chromedp.Click(chromedp.CSS(`.verdicts label:nth-of-type(2)`)))
	if mark := eval[string](p, `getComputedStyle(document.querySelector('.verdicts input:checked + span b'), '::after').content`); !strings.Contains(mark, "✓") {
		t.Errorf("what is pressed is marked %q", mark)
	}
	p.shoot("tasting")
}
