package browsertest

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// A cook opens the ale and cheddar sauce, asks for the doses of 250 lb with a dose of gum as recipes give it, and for what a warm night cost.
func TestDosesAndAWarmFreezer(t *testing.T) {
	for _, s := range []screen{tablet, phone} {
		t.Run(s.name, func(t *testing.T) {
			p := open(t, s)
			p.do(chromedp.Navigate(serve(t) + "/workshop"))
			p.press(`.pot a[href*="ale-cheddar"]`)
			retype(p, chromedp.ID("f-mass"), "250")
			p.do(chromedp.Evaluate[chromedp.Void](`document.querySelectorAll('details').forEach(d => { d.open = true })`))
			retype(p, chromedp.ID("f-own-xanthan"), "0.5 g per cup")
			p.press(`form[action$="#doses"] button`)
			if got := eval[string](p, `document.querySelector('#dose-citrate').innerText.replaceAll('\u00a0', ' ')`); !strings.Contains(got, "853.4 g") || !strings.Contains(strings.ToLower(got), "within the range") {
				t.Errorf("citrate reads %q", got)
			}
			if got := eval[string](p, `document.querySelector('#dose-xanthan').innerText.replaceAll('\u00a0', ' ')`); !strings.Contains(got, "Your own: 224.0 g") || !strings.Contains(got, "1.036 kg") {
				t.Errorf("xanthan reads %q", got)
			}
			if top := eval[float64](p, `document.querySelector('#doses').getBoundingClientRect().top`); top < -5 || top > 200 {
				t.Errorf("the doses are %.0f px from the top", top)
			}
			retype(p, chromedp.ID("f-warm"), "20")
			retype(p, chromedp.ID("f-warm-for"), "6")
			p.press(`form[action$="#keeps"] button`)
			if got := eval[string](p, `document.querySelector('.cost').innerText`); !strings.Contains(got, "0.9 days") {
				t.Errorf("the cost reads %q", got)
			}
			if got := eval[string](p, `document.querySelector('#f-mass').value`); got != "250" {
				t.Errorf("what was asked before is %q", got)
			}
			p.shoot("workshop-doses-" + s.name)
		})
	}
}
