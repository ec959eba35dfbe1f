package phrasebook_test

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/phrasebook"
)

var book = phrasebook.New(map[string]string{
	"Stock": "Existencias", "stock": "existencias", "Do now": "Hacer ahora", "Nothing until %s.": "Nada hasta las %s.", "%d packs of %s": "%d bolsas de %s", "%s later": "%s más tarde", "%s": "no",
	"%d stop": "%d alto", "%d cautions": "%d cuidados", "load %d of %d": "tanda %d de %d", "%[1]s is held: %[2]s": "%[2]s: %[1]s retenido", "it has no unit": "no tiene unidad", "%.1f %% full": "lleno al %.1f %%",
	"%s, planned %s": "%s, previsto %s", "no such lot %q": "no hay lote %q", "nothing": "", "Lot %s is held: %s. It must not be used.": "El lote %s está retenido: %s. No se debe usar.", "the record": "el registro",
	"Weigh it.": "Péselo.", "%s of %s": "%s de %s", "; the first by %s": "; el primero antes del %s", "%d kinds": "%d tipos", "%s late": "%s de retraso", "%s, in %s": "%s, en %s", "%s of the %s": "%s de: %s",
})

func TestSaid(t *testing.T) {
	for _, c := range []struct{ text, said, named string }{
		{"Stock", "Existencias", "Stock"},
		{"stock", "existencias", "stock"},
		{"Do now", "Hacer ahora", "Hacer ahora"},
		{"Nothing until 10:05.", "Nada hasta las 10:05.", "Nada hasta las 10:05."},
		{"12 packs of stock", "12 bolsas de stock", "12 bolsas de stock"}, // a name within a sentence stays
		{"many packs of leek", "many packs of leek", "many packs of leek"},
		{"1 stop, 3 cautions", "1 alto, 3 cuidados", "1 alto, 3 cuidados"},
		{"1 stop, leek soup", "1 stop, leek soup", "1 stop, leek soup"},
		{"12 lb, 1 stop", "12 lb, 1 alto", "12 lb, 1 alto"},
		{"P-1 is held: the record", "el registro: P-1 retenido", "el registro: P-1 retenido"},
		{"It has no unit.", "No tiene unidad.", "No tiene unidad."}, // as an error is shown
		{"97.5 % full", "lleno al 97.5 %", "lleno al 97.5 %"},
		{`No such lot "a b".`, `No hay lote "a b".`, `No hay lote "a b".`},
		{"load 2 of 6 later", "tanda 2 de 6 más tarde", "tanda 2 de 6 más tarde"},
		{"nothing", "nothing", "nothing"},
		{" Do now ", " Hacer ahora ", " Hacer ahora "},
		{"Do now. Weigh it.", "Hacer ahora. Péselo.", "Hacer ahora. Péselo."},
		{"Lot R-1 is held: it has no unit. It must not be used.", "El lote R-1 está retenido: no tiene unidad. No se debe usar.", "El lote R-1 está retenido: no tiene unidad. No se debe usar."},
		{"12 stop of 4 kinds", "12 alto de 4 tipos", "12 alto de 4 tipos"},
		{"stew of leeks", "stew of leeks", "stew of leeks"}, {"start late", "start late", "start late"}, {"Leeks, in butter", "Leeks, in butter", "Leeks, in butter"}, {"head of the garlic", "head of the garlic", "head of the garlic"}, {"5 min late", "5 min de retraso", "5 min de retraso"},
		{"12 stop, 4 kinds; the first by 2026-11-24", "12 alto, 4 tipos; el primero antes del 2026-11-24", "12 alto, 4 tipos; el primero antes del 2026-11-24"},
		{"4 kinds: leeks in butter", "4 tipos: leeks in butter", "4 tipos: leeks in butter"}, {"Stock: simmer", "Stock: simmer", "Stock: simmer"},
		{"165 °F", "165 °F", "165 °F"}, {"", "", ""}, {"…", "…", "…"},
	} {
		if got := book.Said(c.text); got != c.said {
			t.Errorf("%q is said as %q, want %q", c.text, got, c.said)
		}
		if got := book.Named(c.text); got != c.named {
			t.Errorf("%q as a name is said as %q, want %q", c.text, got, c.named)
		}
	}
	if got := new(phrasebook.Book).Said("Stock"); got != "Stock" {
		t.Errorf("a book without phrases says %q", got)
	}
}

// Every number of a text stands in what is said for it.
func TestNoFigureIsLost(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n, m := rapid.IntRange(0, 99999).Draw(t, "n"), rapid.IntRange(0, 99999).Draw(t, "m")
		what := rapid.StringMatching(`[a-z ,.:0-9%{}<>é]{1,20}`).Draw(t, "what")
		for _, text := range []string{fmt.Sprintf("%d packs of %s", n, what), fmt.Sprintf("load %d of %d", n, m), fmt.Sprintf("%s, planned %d", what, n), fmt.Sprintf("Lot %d is held: %s. It must not be used.", n, what)} {
			said := book.Said(text)
			if !strings.Contains(said, fmt.Sprint(n)) {
				t.Fatalf("%q is said as %q", text, said)
			}
		}
	})
}

func FuzzSaid(f *testing.F) {
	for _, s := range []string{"12 packs of leek", "a, b; c. d · e", "%d %s", strings.Repeat("later ", 200), "\xff is held: \xff"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if book.Said(text) != book.Said(text) {
			t.Error("said twice, it differs")
		}
		book.Named(text)
	})
}

// What is said many times is remembered, and what is said once more than can be remembered is still right.
func TestRemembered(t *testing.T) {
	for i := range 20000 {
		text, want := fmt.Sprintf("%d packs of leek", i), fmt.Sprintf("%d bolsas de leek", i)
		if got, again := book.Said(text), book.Said(text); got != want || again != want {
			t.Fatalf("%q is said as %q and as %q", text, got, again)
		}
	}
}

// Texts that were never said before: long makes them so.
var long = strings.Repeat(" ", 400)

func BenchmarkMiss(b *testing.B) {
	for b.Loop() {
		book.Said("Sweat the leeks until they are soft" + long)
	}
}

func BenchmarkPattern(b *testing.B) {
	for b.Loop() {
		book.Said("12 packs of leek soup" + long)
	}
}

func BenchmarkAgain(b *testing.B) {
	for b.Loop() {
		book.Said("12 packs of leek soup")
	}
}
