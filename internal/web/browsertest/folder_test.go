package browsertest

import (
	"fmt"
	"io"
	"net/http"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// An inspector asks about a lot: it is found, what is missing stands before everything else, and it is signed with one button. The PDF and the
// bundle come as files.
func TestTheInspectorsFolder(t *testing.T) {
	p := open(t, tablet)
	base := serve(t)
	p.do(chromedp.Navigate(base + "/folder"))
	retype(p, chromedp.ID("f-lot"), "P-soup")
	p.press(".lotask button")
	p.do(until(`document.querySelector('#missing-h') !== null`))
	if got := eval[string](p, `document.querySelector('h2').textContent`); !strings.Contains(got, "Missing") {
		t.Errorf("the first part is %q", got)
	}
	if got := eval[string](p, `document.querySelector('#sign-h').parentElement.textContent`); !strings.Contains(got, "Nobody has signed") {
		t.Errorf("before anybody signed it says %q", got)
	}
	p.shoot("folder")
	for begins, want := range map[string]string{"/folder.pdf": "application/pdf %PDF", "/folder.zip": "application/zip PK"} {
		file, err := http.Get(eval[string](p, fmt.Sprintf(`document.querySelector('a[href^="%s"]').href`, begins)))
		if err != nil {
			t.Fatal(err)
		}
		first := make([]byte, 4)
		_, err = io.ReadFull(file.Body, first)
		file.Body.Close()
		if got := file.Header.Get("Content-Type") + " " + string(first); err != nil || !strings.HasPrefix(got, want) {
			t.Errorf("%s is %q, want %q; %v", begins, got, want, err)
		}
	}
	p.quiet() // asking who it is is told as a refusal
	p.do(chromedp.SendKeys(chromedp.ID("sign-text"), "held against the paper log"))
	p.press("form[action='/folder/sign'] button")
	if eval[bool](p, `document.querySelector('#who') !== null`) { // nobody has said so far
		p.do(chromedp.SendKeys(chromedp.ID("who"), "Ada"))
		p.press("main button")
	}
	p.do(until(`document.querySelector('#sign-h') !== null`))
	if got := eval[string](p, `document.querySelector('#sign-h').parentElement.textContent`); !strings.Contains(got, "by Ada, as verifier") || !strings.Contains(got, "held against the paper log (on these contents)") {
		t.Errorf("after it was signed it says %q", got)
	}
}
