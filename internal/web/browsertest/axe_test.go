package browsertest

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"os"
	"strings"
	"sync"
	"testing"

	"github.com/chromedp/chromedp"
)

// axeFile is where test/axe puts the checker of accessibility, axe-core.
const axeFile = "../../../test/fetched/axe.min.js"

// axeSum is the SHA-256 of the version that test/axe fetches.
const axeSum = "29348999450cdf2849a8e70b7912fc2da85a849da39c0d0d5394f51d4a9ed95c"

// checks are what is asked of the checker, in its own words.
type checks string

const (
	// allChecks are the rules of WCAG 2.2 A and AA, and what the checker thinks of as good practice.
	allChecks checks = `{type: 'tag', values: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22a', 'wcag22aa', 'best-practice']}`
	// colourChecks are those that another scheme of colours can break.
	colourChecks checks = `{type: 'rule', values: ['color-contrast', 'link-in-text-block']}`
	// narrowChecks are those that a narrow screen can break: what it shows, moves or cuts off.
	narrowChecks checks = `{type: 'rule', values: ['color-contrast', 'target-size', 'scrollable-region-focusable', 'button-name', 'link-name', 'label', 'aria-hidden-focus', 'link-in-text-block']}`
)

// axeFinding is one rule that a page breaks.
type axeFinding struct {
	Rule, Help string
	WCAG       bool // a rule of the recommendation, not good practice alone
	Impact     string
	Where      []string
}

func (f axeFinding) String() string {
	return fmt.Sprintf("%s (%s): %s\n\t%s", f.Rule, f.Impact, f.Help, strings.Join(f.Where, "\n\t"))
}

// axeRun runs the checker, which has been put into the page, and keeps the first three places of each finding.
const axeRun = `axe.run(document, {runOnly: %s, resultTypes: ['violations']}).then(r => r.violations.map(v => ({
	Rule: v.id, Help: v.help, WCAG: v.tags.some(t => t.startsWith('wcag')), Impact: v.impact || 'unknown',
	Where: v.nodes.slice(0, 3).map(n => n.target.join(' ') + ': ' + n.failureSummary.split('\n').slice(1, 3).join(' ').trim().slice(0, 300)).concat(v.nodes.length > 3 ? ['and ' + (v.nodes.length - 3) + ' more'] : [])})))`

var readAxe = sync.OnceValues(func() (string, error) {
	text, err := os.ReadFile(axeFile)
	if err != nil {
		return "", fmt.Errorf("the checker of accessibility is not here: %w; run test/axe", err)
	}
	if sum := sha256.Sum256(text); hex.EncodeToString(sum[:]) != axeSum {
		return "", fmt.Errorf("%s is not the version that these tests were written with; run test/axe", axeFile)
	}
	return string(text), nil
})

// axe asks the checker about the page as it stands.
func (p *tab) axe(ask checks) []axeFinding {
	p.t.Helper()
	source, err := readAxe()
	if err != nil {
		p.t.Fatal(err)
	}
	if !eval[bool](p, `typeof axe === 'object'`) {
		p.do(chromedp.Evaluate[chromedp.Void](source))
	}
	found, err := chromedp.Run(p.ctx, chromedp.Evaluate[[]axeFinding](fmt.Sprintf(axeRun, ask), chromedp.EvalAwaitPromise))
	if err != nil {
		p.t.Fatal(err)
	}
	return found
}

// accessible fails if the page breaks a rule of WCAG 2.2 AA that the checker knows, and tells what else it advises.
func (p *tab) accessible(where string, ask checks) {
	p.t.Helper()
	for _, f := range p.axe(ask) {
		if f.WCAG {
			p.t.Errorf("%s: %v", where, f)
		} else {
			p.t.Logf("%s: advice: %v", where, f)
		}
	}
}

// The checker finds what is wrong: a picture without words, a field without a name, grey on grey. Without this a checker that never ran
// would pass everything.
func TestTheCheckerFinds(t *testing.T) {
	p := open(t, tablet)
	p.do(chromedp.Navigate(serve(t) + "/foods"))
	p.do(chromedp.Evaluate[chromedp.Void](`document.getElementById('main').insertAdjacentHTML('beforeend', '<img src="/static/icon.svg"><input type="text"><p class="grey">hard to read</p>');
		const sheet = new CSSStyleSheet(); sheet.replaceSync('.grey { color: #999; background: #aaa }'); document.adoptedStyleSheets = [sheet]`))
	got := map[string]bool{}
	for _, f := range p.axe(allChecks) {
		got[f.Rule] = f.WCAG
	}
	for _, rule := range []string{"image-alt", "label", "color-contrast"} {
		if !got[rule] {
			text, _ := json.Marshal(got)
			t.Errorf("%s is not found; found: %s", rule, text)
		}
	}
}
