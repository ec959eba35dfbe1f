package web

import (
	"encoding/json"
	"strings"
	"testing"

	"kettlefrost/internal/homecard"
)

func TestHomeCard(t *testing.T) {
	h := demoKitchen(t)
	for _, c := range []struct {
		target string
		status int
		kind   string
		has    []string
	}{
		{"/workshop/home", 200, "text/html", []string{"Ale and cheddar cheese sauce", "For 6, 4 oz each", "xanthan gum", "a scale that shows", "stick blender in a tall cup", "trisodium citrate to cheese", "Contains: Milk", "/workshop/home.pdf?"}},
		{"/workshop/home?pack=bean-pot-2lb&people=8&units=metric", 200, "text/html", []string{"Smoky bacon and white bean soup", "For 8, 227 g each", `value="8" selected`, "2 to 3 lb", "165 °F"}},
		{"/workshop/home?pack=bean-pot-2lb&language=fr", 200, "text/html", []string{`lang="fr-CA"`, `value="fr-CA" selected`, "Pour 6, 8 oz par personne", "Refroidir ce qui reste", "165 °F (74 °C)", "language=fr-CA&amp;pa", "Les noms des ingrédients"}},
		{"/workshop/home?pack=ale-cheddar-lb&language=es-ES&units=metric", 200, "text/html", []string{"Contiene: Leche", "5,3 g", "basta una balanza que marque 0,1 g", "trisodium citrate respecto al queso"}},
		{"/workshop/home.json?pack=ale-cheddar-lb&language=es-ES", 200, "application/json", []string{`"language": "en-US"`, "Contains: Milk"}},
		{"/workshop/home.pdf?pack=ale-cheddar-lb&language=es-ES", 200, "application/pdf", []string{"%PDF"}},
		{"/workshop/home?pack=none", 422, "text/html", []string{"not in the book"}},
		{"/workshop/home?pack=bean-pot-2lb&people=40", 422, "text/html", []string{"a card is for 4 to 8"}},
		{"/workshop/home?pack=%3Cb%3E&people=x", 422, "text/html", []string{"There is no card"}},
		{"/workshop/home.json?pack=meatballs-six&people=4", 200, "application/json", []string{homecard.Schema, "3 meatballs"}},
		{"/workshop/home.json?people=99", 422, "application/json", []string{"4 to 8"}},
		{"/workshop/home.pdf?pack=meatballs-six&paper=a4", 200, "application/pdf", []string{"%PDF"}},
	} {
		w := get(h, c.target)
		if w.Code != c.status || !strings.HasPrefix(w.Header().Get("Content-Type"), c.kind) {
			t.Errorf("%s: %d, %s", c.target, w.Code, w.Header().Get("Content-Type"))
		}
		for _, want := range c.has {
			if !strings.Contains(w.Body.String(), want) {
				t.Errorf("%s does not say %q", c.target, want)
			}
		}
		if w.Body.Len() > 200_000 {
			t.Errorf("%s is %d bytes", c.target, w.Body.Len())
		}
	}
	var card homecard.Card
	if err := json.Unmarshal(get(h, "/workshop/home.json").Body.Bytes(), &card); err != nil || len(card.Steps) == 0 {
		t.Errorf("%v, %d steps", err, len(card.Steps))
	}
}

func TestHomeCardOfABookWithoutPacks(t *testing.T) {
	w := get(kitchenOf(t, "kitchen: {name: new}\n"), "/workshop/home")
	if w.Code != 200 || !strings.Contains(w.Body.String(), "the book has no packs yet") {
		t.Errorf("%d: %s", w.Code, w.Body.String())
	}
}
