package web

import (
	"bytes"
	"encoding/json"
	"fmt"
	"image/png"
	"math"
	"net/http"
	"os"
	"regexp"
	"strings"
	"testing"
)

// The members that an app needs to be installed: name, icons with src, sizes and type, start_url within scope, display (Web Application Manifest,
// W3C, sections 1.5 to 1.14 and "installability" of its use cases); a size of 192 and of 512 and a maskable one are what Android asks for.
func TestTheManifest(t *testing.T) {
	h := demoKitchen(t)
	w := get(h, "/manifest.webmanifest")
	if got := w.Header().Get("Content-Type"); w.Code != http.StatusOK || got != "application/manifest+json" {
		t.Fatalf("%d, %q", w.Code, got)
	}
	var m map[string]any
	if err := json.Unmarshal(w.Body.Bytes(), &m); err != nil {
		t.Fatal(err)
	}
	for member, want := range map[string]any{"name": "Thistle Yard Kitchen", "short_name": "Thistle", "id": "/", "start_url": "/", "scope": "/", "display": "standalone", "theme_color": "#0c4a52", "background_color": "#fbfaf7"} {
		if m[member] != want {
			t.Errorf("%s is %v, want %v", member, m[member], want)
		}
	}
	sizes := map[string]bool{}
	for _, x := range m["icons"].([]any) {
		icon := x.(map[string]any)
		file := get(h, icon["src"].(string))
		if file.Code != http.StatusOK || file.Header().Get("Content-Type") != icon["type"] {
			t.Errorf("%v: %d %s", icon, file.Code, file.Header().Get("Content-Type"))
			continue
		}
		sizes[fmt.Sprint(icon["sizes"], " ", icon["purpose"])] = true
		if icon["type"] == "image/png" {
			img, err := png.DecodeConfig(bytes.NewReader(file.Body.Bytes()))
			if err != nil || fmt.Sprintf("%dx%d", img.Width, img.Height) != icon["sizes"] {
				t.Errorf("%v is %dx%d (%v)", icon, img.Width, img.Height, err)
			}
		}
	}
	for _, want := range []string{"192x192 any", "512x512 any", "192x192 maskable", "512x512 maskable", "any any"} {
		if !sizes[want] {
			t.Errorf("no icon %s among %v", want, sizes)
		}
	}
	for _, x := range m["shortcuts"].([]any) {
		if to := x.(map[string]any)["url"].(string); get(h, to).Code >= 400 {
			t.Errorf("a shortcut leads to %s, which answers %d", to, get(h, to).Code)
		}
	}
	if page := get(h, "/").Body.String(); !strings.Contains(page, `<link rel="manifest" href="/manifest.webmanifest">`) {
		t.Error("no page names the manifest")
	}
}

// The sign that is drawn is the one of the file: its shapes are the numbers that the file has. That it looks the same is held to a browser's
// drawing in the tests of the pages.
func TestTheSignIsThatOfTheFile(t *testing.T) {
	svg, err := os.ReadFile("static/icon.svg")
	if err != nil {
		t.Fatal(err)
	}
	wants := []string{fmt.Sprintf(`viewBox="0 0 %g %g"`, iconSide, iconSide), fmt.Sprintf(`rx="%g"`, iconCorner), fmt.Sprintf(`stroke-width="%g"`, iconStroke),
		fmt.Sprintf(`M%g %gh%gv`, potLeft, potTop, potRight-potLeft), fmt.Sprintf(`M%g %gv%g`, strokes[0][0], strokes[0][1], strokes[0][3]-strokes[0][1]),
		fmt.Sprintf("#%02x%02x%02x", iconGround.R, iconGround.G, iconGround.B), fmt.Sprintf("#%02x%02x%02x", iconInk.R, iconInk.G, iconInk.B)}
	for _, want := range wants {
		if !strings.Contains(string(svg), want) {
			t.Errorf("the file has no %s", want)
		}
	}
	// all of what is drawn of a maskable sign lies within two fifths of its side from the middle
	const size = 192
	img := drawIcon(size, true)
	for y := range size {
		for x := range size {
			if r, _, _, a := img.At(x, y).RGBA(); a != 0xffff {
				t.Fatalf("a maskable sign is seen through at %d, %d", x, y)
			} else if far := math.Hypot(float64(x)+0.5-size/2, float64(y)+0.5-size/2); r > 0x8000 && far > 0.4*size {
				t.Fatalf("something is drawn at %d, %d, which a device may cut off", x, y)
			}
		}
	}
}

// The worker is another one when anything changes that pages are made of, and names all of it.
func TestTheWorkerNamesWhatPagesAreMadeOf(t *testing.T) {
	h := demoKitchen(t)
	w := get(h, "/worker.js")
	text := w.Body.String()
	if w.Code != http.StatusOK || !strings.HasPrefix(w.Header().Get("Content-Type"), "text/javascript") || w.Header().Get("ETag") == "" {
		t.Fatalf("%d %v", w.Code, w.Header())
	}
	files, version := shellFiles()
	if !strings.Contains(text, "VERSION = '"+version+"'") || len(version) != 16 {
		t.Errorf("no version %q", version)
	}
	for _, file := range files {
		if !strings.Contains(text, `"`+file+`"`) || get(h, file).Code != http.StatusOK {
			t.Errorf("%s is not named, or not there", file)
		}
	}
	for _, page := range []string{"/", "/run/tuesday/cook", "/find?q=bean"} {
		for _, m := range regexp.MustCompile(`(?:src|href)="(/static/[^"]+\.(?:css|js))"`).FindAllStringSubmatch(get(h, page).Body.String(), -1) {
			if !strings.Contains(text, `"`+m[1]+`"`) {
				t.Errorf("%s is made of %s, which the worker does not keep", page, m[1])
			}
		}
	}
}
