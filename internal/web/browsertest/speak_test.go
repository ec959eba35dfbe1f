package browsertest

import (
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// A device that was told a language is spoken to in it, from the first page to what the scripts of the board say; nothing is wider than the
// screen for it, and what is entered is the same.
func TestTheWayToTheBoardInSpanish(t *testing.T) {
	d := serveBoard(t, "06:00")
	home := d.server.URL + "/"
	for _, s := range screens {
		t.Run(s.name, func(t *testing.T) {
			p := open(t, s)
			p.do(chromedp.Navigate(home))
			if speaks := eval[string](p, `document.documentElement.lang`); speaks != "en" {
				t.Fatalf("a device that was told nothing is spoken to in %q", speaks)
			}
			eval[bool](p, `document.cookie = 'language=es-US; path=/', true`)
			for _, c := range []struct{ path, says string }{{"", "Hoy|Tablero|Existencias"}, {"run/tuesday", "Qué debe hacer esta producción|Mire esto primero|PRECAUCIÓN"}, {"board/" + boardRun, "Hacer ahora|Empezar|Cerrar esta producción"}} {
				path := c.path
				p.do(chromedp.Navigate(home + path))
				first, _, _ := strings.Cut(c.says, "|")
				p.do(until(fmt.Sprintf(`document.body.textContent.includes(%q)`, first))) // a plan may take its time
				text := eval[string](p, `document.body.textContent`)
				for w := range strings.SplitSeq(c.says, "|") {
					if !strings.Contains(text, w) {
						t.Errorf("/%s does not say %q", path, w)
					}
				}
				if speaks := eval[string](p, `document.documentElement.lang`); speaks != "es" {
					t.Errorf("/%s says that it is in %q", path, speaks)
				}
				if wide := eval[int](p, `document.documentElement.scrollWidth - document.documentElement.clientWidth`); wide > 0 {
					t.Errorf("/%s is %d px wider than the screen", path, wide)
				}
				p.shoot(fmt.Sprintf("spanish-%s-%s", strings.NewReplacer("/", "-").Replace(path), s.name))
			}
			p.do(until(`document.getElementById('line').textContent.includes('todo enviado')`))
			p.quiet()
		})
	}
}
